"""What may stand in a place, in the maker's words.

Takes the terminals that the machine accepts and gives a phrase such as "an amount" or "`above`, `below` or
`from`".
"""

from __future__ import annotations

from collections.abc import Collection, Iterable

OPERATORS = frozenset({"+", "-", "*", "/"})
UNSAID = OPERATORS | {".", "(", "angle"}
"""What is accepted nearly everywhere and helps nobody."""
PLACES = ("right of", "left of", "above", "below", "from", "along")
SIZES = ("long", "wide", "across", "apart", "holes", "inside", "outside")
PLACED = frozenset({"point", "points", "guide", "run", "outline"})
"""Statements of which a maker thinks in places first, not in sizes."""
AT_MOST = 7
"""So many words are named; more say no more."""


def expected_words(accepted: Collection[str], statement: str) -> str:
    """One phrase for all that may stand here, in a statement that begins with that word."""
    if "SLIP" in accepted:
        return _clause_words(accepted)
    named = list(_groups(accepted))
    words = [terminal for terminal in accepted if _is_word(terminal, accepted)]
    said = [*named, *(f"`{word}`" for word in _sorted(words, statement))]
    if len(said) > AT_MOST:
        said = [*said[: AT_MOST - 1], "the like"]
    if "_SEP" in accepted and len(said) < AT_MOST:
        said.append("`;`")
    if not said or ("_END" in accepted and len(said) < AT_MOST):
        said.append("the end of the line")
    return one_of(said)


def one_of(said: list[str]) -> str:
    """`a, b or c`."""
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} or {said[-1]}"


def _clause_words(accepted: Collection[str]) -> str:
    if "cut" in accepted:
        return "a clause about the piece, such as `cut 1 from body` or `like back`"
    if "comes" in accepted:
        return "an amount, such as `1.8 mm thick`"
    if "at" in accepted:
        return "a clause, such as `level with heel` or `14 mm long`"
    return "a setting, such as `rim = 10 mm`"


def _groups(accepted: Collection[str]) -> Iterable[str]:
    if "NUMBER" in accepted and "LENGTH" not in accepted:
        yield "a whole number"
    elif "LENGTH" in accepted:
        yield "an amount"
    elif "NAME" in accepted:
        yield "a name"
    if "STRING" in accepted:
        yield "text in quotes"


def _is_word(terminal: str, accepted: Collection[str]) -> bool:
    is_amount = bool({"NUMBER", *OPERATORS} & set(accepted))
    if terminal in UNSAID and (is_amount or terminal != "("):
        return False
    if terminal == ".." and OPERATORS & set(accepted):
        return False
    return not terminal.isupper() and not terminal.startswith("_") and terminal != "$END"


def _sorted(words: Iterable[str], statement: str) -> list[str]:
    """First what comes to a maker's mind first."""
    first = (*PLACES, *SIZES) if statement in PLACED else (*SIZES, *PLACES)

    def rank(word: str) -> tuple[int, str]:
        return (first.index(word) if word in first else -1 if len(word) < 3 else len(first), word)

    return sorted(words, key=rank)
