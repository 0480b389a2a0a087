"""What most commands begin with: the pattern a FILE names, and the measures set by `--with`."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, cast

from drafting.cli.values import any_name, folder, pattern_file, readable, setting, unknown_value
from drafting.cli.words import CommandParser, WrongUse, WrongWords
from drafting.text.catalogue.lays import NO_LAY
from drafting.text.messages import Message, Messages
from drafting.text.source import Source, UnreadableSource, read_source

if TYPE_CHECKING:
    from drafting.face import LaidOut, Pattern, PlacedPattern

STANDARD_INPUT = "standard input"


def add_pattern(parser: ArgumentParser, takes_pipe: bool = True) -> None:
    """The FILE of a pattern; where files are called after it, it cannot come through a pipe."""
    words = cast(CommandParser, parser)
    if takes_pipe:
        parser.add_argument(
            "file", metavar="FILE", type=readable, help="a pattern file; `-` reads the standard input"
        )
    else:
        reads = pattern_file(words.prog, words.example)
        parser.add_argument("file", metavar="FILE", type=reads, help="a pattern file")


def add_pattern_files(parser: ArgumentParser) -> None:
    parser.add_argument(
        "files", metavar="FILE", nargs="+", type=readable, help="a pattern file; `-` reads the standard input"
    )


def add_blocks(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--blocks",
        metavar="DIR",
        type=folder("--blocks"),
        help="a folder of shared blocks: patterns may `use` files below it, and below their own folder",
    )


def add_size_and_measures(
    parser: ArgumentParser, tells: str = "the size to take; without it the first one written"
) -> None:
    parser.add_argument(
        "--size",
        metavar="NAME",
        type=any_name("--size", "90 cm"),
        help=tells,
    )
    add_measures(parser)


def add_measures(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--with",
        dest="settings",
        metavar="NAME=VALUE",
        action="append",
        default=[],
        type=setting,
        help="set a measure for this run, such as 'rim=10 mm'; may be said again",
    )


def add_pieces(parser: ArgumentParser, tells: str = "this piece only") -> None:
    parser.add_argument(
        "--piece",
        dest="pieces",
        metavar="P",
        action="append",
        type=any_name("--piece", "front"),
        help=f"{tells}; may be said again",
    )


def read_named(file: str) -> Source:
    """The text of a FILE; `-` is the standard input."""
    if file != "-":
        return read_source(file)
    try:
        text = sys.stdin.buffer.read().decode("utf-8-sig")
    except UnicodeDecodeError:
        raise UnreadableSource(STANDARD_INPUT, "it is not UTF-8 text") from None
    return Source(STANDARD_INPUT, text.replace("\r\n", "\n").replace("\r", "\n"))


def load_asked(given: Namespace) -> Pattern:
    """The pattern that `given` names. WrongWords tells every size, piece and measure asked for that it has not."""
    pattern = load_named(given.file, given.blocks)
    wrong = wrong_names(pattern, given)
    if wrong.has_errors:
        raise WrongWords(wrong)
    return pattern


def load_named(file: str, blocks: str | None) -> Pattern:
    """The pattern of a FILE, which may use files below its folder and below `--blocks`; a text from the standard input
    starts in the folder where the command does."""
    import drafting

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


def wrong_names(pattern: Pattern, given: Namespace) -> Messages:
    """What is asked of the pattern by names that it has not, or in values that are none; a faulty one is not asked."""
    wrong, said = Messages(), vars(given)
    if pattern.messages.has_errors:
        return wrong
    size, pieces = said.get("size"), said.get("pieces") or [said.get("piece")]
    if size is not None and size not in pattern.sizes:
        wrong.extend([unknown_value("--size", "size of the pattern", size, pattern.sizes).message])
    for piece in pieces:
        if piece is not None and piece not in pattern.pieces:
            wrong.extend([unknown_value("--piece", "piece of the pattern", piece, pattern.pieces).message])
    for word in said.get("settings") or ():
        if word is not None:
            wrong.extend(wrong_setting(pattern, *setting_of(word), said.get("takes_sweeps", False)))
    return wrong


def wrong_setting(pattern: Pattern, measure: str, value: str, takes_sweeps: bool) -> Iterable[Message]:
    if measure not in pattern.measures:
        word = f"{measure}={value}"
        return [unknown_value("--with", "measure of the pattern", word, pattern.measures, measure).message]
    return pattern.setting_messages(measure, value, takes_sweeps)


def also_wrong(given: Namespace) -> Messages:
    """The names that the pattern has not, where other words were wrong already and some could not be read."""
    said = vars(given)
    try:
        if "copies" in said and said.get("files"):
            from drafting.cli.list import wrong_sizes

            return wrong_sizes(given)
        if "people" in said:
            from drafting.cli.roster import wrong_in_roster

            return wrong_in_roster(given)
        if said.get("settings") is None or said.get("file") in (None, "-"):
            return Messages()
        return wrong_names(load_named(given.file, said.get("blocks")), given)
    except UnreadableSource:
        return Messages()


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


def setting_of(word: str) -> tuple[str, str]:
    """A word that `setting` has read."""
    measure, _, value = word.partition("=")
    return measure.strip(), value.strip()
