"""What the values of options mean.

Each function here is given to an option as its `type`, or makes one that is. It takes the word as it was typed and
gives what it means; WrongUse names the option, the word, why it will not do, and what can be typed instead.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from shlex import quote
from typing import TypeVar

from drafting.cli.words import WrongUse
from drafting.text.catalogue.files import (
    NO_FILE_TO_WRITE,
    NO_FOLDER,
    NO_FOLDER_TO_WRITE,
    NO_NAME,
    SPARE_WORD,
    UNFIT_LENGTH,
    UNFIT_SETTING,
    UNKNOWN_VALUE,
    UNREADABLE_VALUE,
)
from drafting.text.messages import did_you_mean
from drafting.text.quantities import LENGTH
from drafting.text.source import Source, UnreadableSource, read_source

Known = TypeVar("Known")

TOLD_SLIPS = ("T12", "T20", "T21", "T22", "T24", "T27")
"""Slips of the language that say what is wrong with an amount; the others speak of statements."""


def typed(option: str, given: str) -> str:
    """An option and its value as they can be typed."""
    return f"{option} {quote(given)}" if not given or " " in given else f"{option} {given}"


def length(
    option: str, what: str, example: str, most: str, is_above_zero: bool = False
) -> Callable[[str], float]:
    """Reads a length in mm, from 0 (or above it) up to `most`; `what` is what it is the length of."""
    least = "above 0" if is_above_zero else "of 0 or more"

    def read(given: str) -> float:
        value, why = amount_of(given)
        if not why and is_above_zero and value == 0:
            why = "it is 0"
        if not why and value > amount_of(most)[0]:
            why = f"that is more than {most}"
        if why:
            facts = {"least": least, "most": most, "option": option, "example": example, "what": what}
            raise WrongUse(UNFIT_LENGTH, said=typed(option, given), why=why, **facts)
        return value

    return read


def amount_of(given: str) -> tuple[float, str]:
    """A length in mm, and why it is none, or nothing."""
    from drafting.syntax import tree
    from drafting.syntax.parse import parse_expression

    node, messages = parse_expression(Source("value", given))
    if messages.has_errors:
        told = [message.says.rstrip(".") for message in messages if message.code in TOLD_SLIPS]
        return 0.0, _in_sentence(told[0]) if told else "that is no amount"
    if isinstance(node, tree.Negative) and isinstance(node.of, tree.Amount):
        return 0.0, "it is below 0"
    if not isinstance(node, tree.Amount):
        return 0.0, "that is no amount"
    quantity = node.quantity
    if quantity.value and quantity.kind != LENGTH:
        return 0.0, f"that is {quantity.kind.name}" + ("" if quantity.kind.unit else ", without a unit")
    return float(quantity.value), ""


def _in_sentence(words: str) -> str:
    return words[:1].lower() + words[1:]


def one_of(option: str, kind: str, known: Iterable[str]) -> Callable[[str], str]:
    """Reads a word that is one of those `known`, in capitals or not."""
    words = tuple(known)

    def read(given: str) -> str:
        if given.casefold() not in words:
            raise unknown_value(option, kind, given, words)
        return given.casefold()

    return read


def unknown_value(
    option: str, kind: str, given: str, known: Iterable[str], wanted: str | None = None
) -> WrongUse:
    """`kind` is what the option names, such as a format or a size of the pattern, by `wanted` if not by all of it."""
    words = tuple(known)
    listed = ", ".join(f"`{word}`" for word in words)
    mend = f"There are {listed}." if words else f"There is none: leave `{option}` out."
    facts = {
        "said": typed(option, given),
        "kind": kind,
        "known": mend,
        "meant": did_you_mean(wanted or given, words),
    }
    return WrongUse(UNKNOWN_VALUE, **facts)


def any_name(option: str, example: str) -> Callable[[str], str]:
    """Reads a name that is looked up later, in the pattern or in a table; it is never empty."""

    def read(given: str) -> str:
        if not given.strip():
            raise WrongUse(NO_NAME, said=typed(option, given), option=option, example=quote(example))
        return given

    return read


def setting(given: str) -> str:
    """Reads `rim=10 mm`, a name and the text of its value, and leaves it as it is."""
    what, equals, value = given.partition("=")
    if not (what.strip() and equals and value.strip()):
        raise WrongUse(UNFIT_SETTING, given=typed("--with", given))
    return given


def pattern_file(command: str, example: str) -> Callable[[str], str]:
    """Reads a FILE that is to be there, as text; `-` has no name that files could be called by, and will not do."""

    def read(given: str) -> str:
        if given == "-":
            raise WrongUse(SPARE_WORD, command=command, word="-", example=example)
        return readable(given)

    return read


def file_there(option: str, example: str) -> Callable[[str], str]:
    """Reads a file of an option that is to be there, as text."""

    def read(given: str) -> str:
        try:
            return readable(given)
        except UnreadableSource as fault:
            facts = {"said": typed(option, given), "option": option, "example": example}
            raise WrongUse(UNREADABLE_VALUE, reason=fault.reason, **facts) from None

    return read


def readable(given: str) -> str:
    """Reads a FILE that is to be there, as text, or `-`. A pipe with a name is left alone, for it flows but once."""
    if given != "-" and not is_pipe(given):
        read_source(given)
    return given


def is_pipe(given: str) -> bool:
    """Such as `<(command)` of a shell."""
    path = Path(given)
    return path.exists() and not path.is_file() and not path.is_dir()


def folder(option: str) -> Callable[[str], str]:
    """Reads a folder that is to be there."""

    def read(given: str) -> str:
        if not given or not Path(given).is_dir():
            raise WrongUse(NO_FOLDER, said=typed(option, given), option=option)
        return given

    return read


def folder_to_write(given: str) -> str:
    """Reads the DIR of `--out`, which is made if need be."""
    why = unwritten(given)
    stands = Path(given)
    while not why and not os.path.lexists(stands) and stands != stands.parent:
        stands = stands.parent
    if not why and not stands.is_dir():
        why = "a file stands there" if stands == Path(given) else f"`{stands}` is a file"
    if why:
        raise WrongUse(NO_FOLDER_TO_WRITE, said=typed("--out", given), why=why)
    return given


def file_to_write(what: str, endings: Sequence[str]) -> Callable[[str], str]:
    """Reads the FILE of `--out`, which ends in one of `endings` where there are any."""

    def read(given: str) -> str:
        path, listed = Path(given), " or ".join(endings)
        why = unwritten(given)
        if not why and path.is_dir():
            why = "a folder stands there"
        if not why and endings and path.suffix.lower() not in endings:
            why = f"{what} ends in {listed}"
        if not why and path.suffix.lower() == ".draft":
            why = "that is what patterns are called"
        if why:
            stem = path.stem if path.stem.strip("-. ") and not path.is_dir() else what.split()[-1]
            example = f"{stem}{endings[0] if endings else '.txt'}"
            raise WrongUse(NO_FILE_TO_WRITE, said=typed("--out", given), why=why, example=example)
        return given

    return read


def unwritten(given: str) -> str:
    """Why a place to write to is none, whatever it is for; or nothing."""
    if not given.strip():
        return "it is empty"
    return "nothing is written to a pipe" if given == "-" else ""
