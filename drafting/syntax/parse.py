"""Source -> tree: read a pattern file, an expression, or the value of a setting.

Takes a Source and gives what is written, with every slip told. Nothing raises: a statement with a slip is
left out of the tree (it stands in `File.unread`), and reading goes on at the next clause or statement.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import Any

from drafting.syntax import tree
from drafting.syntax.layout import Layout, Words
from drafting.syntax.machine import Machine
from drafting.syntax.marks import Marker
from drafting.syntax.reader import Reader
from drafting.syntax.tables import presume_tables
from drafting.text.messages import Messages
from drafting.text.source import Source


def parse(source: Source) -> tuple[tree.File, Messages]:
    """The whole of a pattern file."""
    messages = Messages()
    marker = Marker(source, messages)
    marker.mark()
    reader = Reader.starting(source, "file", messages)
    for event in Layout(source, statement_words(), messages).events(marker.lines):
        if event == "in":
            reader.feed("_IN")
        elif event == "out":
            reader.feed("_OUT")
        else:
            reader.read_statement(event)
    file: tree.File = reader.machine.finish("file", len(source.text))
    return replace(file, remarks=tuple(marker.remarks)), messages


def parse_expression(source: Source) -> tuple[tree.Expression | None, Messages]:
    """One expression, such as `front.rim.length`."""
    found, messages = _parse_alone(source, "expression")
    return found, messages


def parse_setting_value(source: Source) -> tuple[tuple[tree.Expression, ...] | None, Messages]:
    """What may stand after `NAME =` in a setting: one expression, or several with commas."""
    found, messages = _parse_alone(source, "setting_value")
    return found, messages


def is_name(text: str) -> bool:
    """Whether a text can name something."""
    marker = Marker(Source("name", text), Messages())
    marker.mark()
    marks = [mark for line in marker.lines for mark in line.marks]
    is_one_word = len(marks) == 1 and marks[0].kind == "word" and marks[0].text == text
    return is_one_word and text not in presume_tables().reserved and not text.endswith("'")


def _parse_alone(source: Source, start: str) -> tuple[Any, Messages]:
    messages = Messages()
    marker = Marker(source, messages)
    marker.mark()
    marks = [mark for line in marker.lines for mark in line.marks]
    reader = Reader.starting(source, start, messages)
    if not reader.read_marks(marks, set()) or messages.has_errors:
        return None, messages
    return reader.machine.finish(start, len(source.text)), messages


@lru_cache(maxsize=1)
def statement_words() -> Words:
    """The words that may begin a statement, as the grammar has them."""
    return Words(
        _accepted_after([]),
        _accepted_after(["piece", "NAME", "_END", "_IN"]),
        _accepted_after(["pattern", "STRING", "_END", "_IN"]),
        _accepted_after(["piece", "NAME", "_END", "_IN", "outline", ":"]) | {"to"},
    )


def _accepted_after(terminals: list[str]) -> frozenset[str]:
    machine = Machine.starting(presume_tables(), "file", lambda name, start, end, children: None)
    accepted = machine.ahead(terminals).accepted()
    return frozenset(word.split()[0] for word in accepted if word[0].islower())
