"""What most commands begin with: the pattern a FILE names, and the measures set by `--with`."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from drafting.cli.words import WrongUse, WrongWords
from drafting.text.catalogue.files import NO_FOLDER, UNFIT_SETTING, UNREADABLE_FILE
from drafting.text.catalogue.lays import NO_LAY
from drafting.text.messages import Entry, Message, Messages
from drafting.text.quantities import LENGTH
from drafting.text.source import Source, UnreadableSource, read_source

if TYPE_CHECKING:
    from drafting.face import LaidOut, Pattern, PlacedPattern

STANDARD_INPUT = "standard input"


def add_blocks(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--blocks",
        metavar="DIR",
        help="a folder of shared blocks: patterns may `use` files below it, and below their own folder",
    )


def add_size_and_measures(parser: ArgumentParser) -> None:
    parser.add_argument("--size", metavar="NAME", help="the size to take; without it the first one written")
    add_measures(parser)


def add_measures(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--with",
        dest="settings",
        metavar="NAME=VALUE",
        action="append",
        default=[],
        help="set a measure for this run, such as 'rim=10 mm'; may be said again",
    )


def length_named(option: str, given: str, unfit: Entry) -> float:
    """A length of 0 or more in mm from the words of an option; `unfit` tells what is none."""
    from drafting.syntax import tree
    from drafting.syntax.parse import parse_expression

    node, messages = parse_expression(Source(option, given))
    if messages.has_errors:
        raise WrongWords(messages)
    if isinstance(node, tree.Amount) and (node.quantity.kind == LENGTH or node.quantity.value == 0):
        return float(node.quantity.value)
    raise WrongUse(unfit, option=option, given=given)


def read_named(file: str) -> Source:
    """The text of a FILE; `-` is the standard input."""
    if file != "-":
        return read_source(file)
    try:
        text = sys.stdin.buffer.read().decode("utf-8-sig")
    except UnicodeDecodeError:
        raise UnreadableSource(STANDARD_INPUT, "it is not UTF-8 text") from None
    return Source(STANDARD_INPUT, text.replace("\r\n", "\n").replace("\r", "\n"))


def load_named(file: str, blocks: str | None) -> Pattern:
    """The pattern of a FILE, which may use files below its folder and below `--blocks`; a text from the standard input
    starts in the folder where the command does."""
    import drafting

    if blocks is not None and not Path(blocks).is_dir():
        raise WrongUse(NO_FOLDER, option="--blocks", folder=blocks)
    if file != "-":
        return drafting.load(file, blocks)
    return drafting.read(read_named(file), folder=".", blocks=blocks)


def read_lay(file: str) -> LaidOut:
    """A lay that was kept as a file."""
    import drafting
    from drafting.output.lays import NoLay

    try:
        return drafting.read_lay(read_source(file).text)
    except NoLay as reason:
        raise WrongUse(NO_LAY, file=file, reason=reason) from None


@contextmanager
def told_with(wrong: Messages) -> Iterator[None]:
    """Keep what is wrong with one word of a command, to tell it together with what is wrong with the others."""
    try:
        yield
    except WrongUse as fault:
        wrong.extend([fault.message])
    except UnreadableSource as fault:
        wrong.add(UNREADABLE_FILE, at=None, file=fault.path, reason=fault.reason)


def place_named(
    pattern: Pattern, size: str | None, settings: Iterable[str], draft: bool = False
) -> PlacedPattern:
    """The pattern as `--size` and `--with` say; WrongWords where only the words of `--with` are at fault."""
    with told_of_words(pattern):
        place = pattern.place_draft if draft else pattern.place_with
        return place(size, settings_of(settings))


@contextmanager
def told_of_words(pattern: Pattern) -> Iterator[None]:
    """WrongWords in the place of Faults where nothing in the pattern itself is at fault."""
    import drafting

    try:
        yield
    except drafting.Faults as faults:
        if pattern.messages.has_errors or any(is_in(message, pattern) for message in faults.messages):
            raise
        raise WrongWords(faults.messages) from None


def is_in(message: Message, pattern: Pattern) -> bool:
    return message.at is None or message.at.source in pattern.sources


def settings_of(settings: Iterable[str]) -> dict[str, str]:
    """`rim=10 mm` as a name and the text of its value; the last word on a name counts."""
    return dict(setting_of(setting) for setting in settings)


def setting_of(setting: str) -> tuple[str, str]:
    name, equals, value = setting.partition("=")
    if not (name.strip() and equals and value.strip()):
        raise WrongUse(UNFIT_SETTING, given=setting)
    return name.strip(), value.strip()
