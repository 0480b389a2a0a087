"""What a mark is in its place: a name, a word of the language, or an amount.

Takes marks and what the machine accepts there. A pair of words wins over a name; a name wins over a single
word, unless the word is reserved; so nearly all of the language's words are free as names.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from drafting.syntax.marks import Mark
from drafting.syntax.tables import presume_tables

Accepts = Callable[[str], bool]

VALUED = frozenset({"NAME", "NUMBER", "LENGTH", "OUNCES", "STRING", "LINE_NOTE"})
"""The terminals whose marks matter; of all others only the word."""


@lru_cache(maxsize=1)
def phrases_by_word() -> dict[str, tuple[tuple[str, ...], ...]]:
    """Of each first word the phrases that begin with it, longest first."""
    listed: dict[str, list[tuple[str, ...]]] = {}
    for phrase in sorted(presume_tables().phrases):
        words = tuple(phrase.split())
        listed.setdefault(words[0], []).append(words)
    return {first: tuple(sorted(phrases, key=len, reverse=True)) for first, phrases in listed.items()}


def read_mark(marks: list[Mark], at: int, accepts: Accepts) -> tuple[str | None, int]:
    """The terminal at `marks[at]` and how many marks it takes; None where the mark may not stand."""
    mark = marks[at]
    match mark.kind:
        case "word":
            return _read_word(marks, at, accepts)
        case "number":
            terminal = mark.number_terminal
        case "quote":
            terminal = "STRING" if accepts("STRING") else "LINE_NOTE"
        case _:
            terminal = "_SEP" if mark.text == ";" else mark.text
    return (terminal if accepts(terminal) else None), 1


def _read_word(marks: list[Mark], at: int, accepts: Accepts) -> tuple[str | None, int]:
    word = marks[at].text
    tables = presume_tables()
    for words in phrases_by_word().get(word, ()):
        if len(words) > 1 and stands(marks, at, words) and accepts(" ".join(words)):
            return " ".join(words), len(words)
    if word not in tables.reserved and accepts("NAME"):
        return "NAME", 1
    return (word if word in tables.phrases and accepts(word) else None), 1


def stands(marks: list[Mark], at: int, words: tuple[str, ...]) -> bool:
    """Whether the marks from `at` on are these words, on one line."""
    found = marks[at : at + len(words)]
    return tuple(mark.text for mark in found) == words and found[0].line == found[-1].line
