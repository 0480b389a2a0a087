"""`awlwright tidy FILE…`: pattern files laid out the one tidy way, their meaning untouched."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from pathlib import Path

import drafting
from drafting.cli.exits import FAULTS, FINE
from drafting.cli.reading import add_pattern_files, read_named
from drafting.cli.terminal import page_of
from drafting.cli.together import FilesTogether
from drafting.cli.words import WrongUse, never_together
from drafting.text.catalogue.files import NOT_TIDY, SPARE_WORD
from drafting.text.excerpt import render_message
from drafting.text.source import Source

TELLS = """\
Lay out pattern files the one tidy way. Without an option the tidy text of one file is printed and the
file stays as it is. A file that cannot be read as a pattern is left alone, and its faults are told."""
EXAMPLES = (
    "awlwright tidy --write badge-holder.draft",
    "awlwright tidy --check tag.draft badge-holder.draft",
)


def add_arguments(parser: ArgumentParser) -> None:
    add_pattern_files(parser)
    parser.add_argument(
        "--check", action="store_true", help="change nothing; exit with 1 if a file is not tidy"
    )
    parser.add_argument("--write", action="store_true", help="write the tidy text into the files")
    never_together(parser, "--check", "--write")


def run(given: Namespace) -> int:
    if given.check:
        return check_files(given.files)
    if given.write:
        return write_files(given.files)
    if len(given.files) > 1:
        raise WrongUse(SPARE_WORD, command="awlwright tidy", word=given.files[1], example=EXAMPLES[0])
    print(tidied(read_named(given.files[0])), end="")
    return FINE


def check_files(files: list[str]) -> int:
    sources = [read_named(file) for file in files]
    untidy = [source for source in sources if source.text != tidied(source)]
    for source in untidy:
        message = WrongUse(NOT_TIDY, file=source.name).message
        print(render_message(message, page_of(sys.stdout)), end="")
    return FAULTS if untidy else FINE


def write_files(files: list[str]) -> int:
    """All or none: a fault in one file leaves every one as it was."""
    if "-" in files:
        raise WrongUse(SPARE_WORD, command="awlwright tidy --write", word="-", example=EXAMPLES[0])
    sources = [read_named(file) for file in files]
    untidy = [source for source in sources if source.text != tidied(source)]
    with FilesTogether() as together:
        for source in untidy:
            together.write(Path(source.name), tidied(source).encode())
    for source in untidy:
        print(source.name)
    return FINE


def tidied(source: Source) -> str:
    """The tidy text of a pattern; Faults when it is no pattern."""
    from drafting.syntax.parse import parse
    from drafting.syntax.tidy import tidy

    file, messages = parse(source)
    if messages.has_errors:
        raise drafting.Faults(messages)
    return tidy(file)
