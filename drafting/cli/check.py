"""`awlwright check FILE…`: every fault of pattern files, each with its place and its mend."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentParser, Namespace
from typing import Any

from drafting.cli.exits import FAULTS, FINE, WRONG_USE
from drafting.cli.reading import add_blocks, load_named
from drafting.cli.terminal import page_of
from drafting.cli.values import length
from drafting.cli.words import WrongUse
from drafting.text.catalogue.files import UNREADABLE_FILE
from drafting.text.excerpt import count_line, render_message
from drafting.text.messages import Message, Related, Severity
from drafting.text.source import Span, UnreadableSource

TELLS = "Report every fault of pattern files in every size, each with its place and a mend that can be typed."
EXAMPLES = (
    "awlwright check badge-holder.draft",
    "awlwright check badge-holder.draft --tolerance '0.5 mm'",
    "awlwright check --json tag.draft badge-holder.draft",
)


def add_arguments(parser: ArgumentParser) -> None:
    parser.add_argument(
        "files", metavar="FILE", nargs="+", help="a pattern file; `-` reads the standard input"
    )
    parser.add_argument(
        "--tolerance",
        metavar="D",
        type=length("--tolerance", "how far off edges are cut", "0.5 mm", most="100 mm"),
        default="0",
        help="judge by the workshop's rules as if every edge cut by hand were D off, such as '0.5 mm'",
    )
    parser.add_argument(
        "--json",
        action="store_true",
        help="print one list of objects: code, severity, file, line, column, end_line, end_column (counted "
        "from 1), says, mend, sizes and related; what has no place has null for it",
    )
    add_blocks(parser)


def run(given: Namespace) -> int:
    found = [message for file in given.files for message in messages_of(file, given.blocks, given.tolerance)]
    if given.json:
        print(json.dumps([record_of(message) for message in found], indent=2))
    else:
        print_messages(found, len(given.files))
    return exit_code(found)


def messages_of(file: str, blocks: str | None, tolerance: float) -> list[Message]:
    """What is to be said of one file; that it cannot be read is said among the rest."""
    try:
        return list(load_named(file, blocks).check(tolerance))
    except UnreadableSource as unreadable:
        return [WrongUse(UNREADABLE_FILE, file=unreadable.path, reason=unreadable.reason).message]


def print_messages(found: list[Message], n_files: int) -> None:
    page = page_of(sys.stdout)
    for message in found:
        print(render_message(message, page))
    checked = "1 file" if n_files == 1 else f"{n_files} files"
    print(f"{count_line(found) or 'no faults'} in {checked}")


def exit_code(found: list[Message]) -> int:
    if any(message.entry is UNREADABLE_FILE for message in found):
        return WRONG_USE
    return FAULTS if any(message.severity is Severity.ERROR for message in found) else FINE


def record_of(message: Message) -> dict[str, Any]:
    return {
        "code": message.code,
        "severity": message.severity.value,
        **place_record(message.at),
        "says": message.says,
        "mend": message.mend,
        "sizes": list(message.sizes),
        "related": [related_record(related) for related in message.related],
    }


def related_record(related: Related) -> dict[str, Any]:
    return {**place_record(related.at), "says": related.says}


def place_record(span: Span | None) -> dict[str, Any]:
    if span is None:
        return dict.fromkeys(("file", "line", "column", "end_line", "end_column"))
    return {
        "file": span.source.name,
        "line": span.line,
        "column": span.column,
        "end_line": span.end_line,
        "end_column": span.end_column,
    }
