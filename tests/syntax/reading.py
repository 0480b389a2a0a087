"""Ways to read a little text in a test."""

from __future__ import annotations

from typing import Any

from drafting.syntax import tree
from drafting.syntax.parse import parse, parse_expression
from drafting.text.source import Source


def read(text: str) -> tree.File:
    """The tree of a text without a slip."""
    file, messages = parse(Source("read.draft", text))
    assert [message.says for message in messages] == []
    return file


def statement(text: str) -> Any:
    """The only statement of the pattern."""
    (item,) = read(text).items
    return item


def part(text: str) -> Any:
    """The only part of a piece; further lines of the text are indented as they are."""
    (found,) = statement("piece back\n  " + text).parts
    return found


def clause(text: str) -> Any:
    """The only clause of a feature."""
    (found,) = part(f"stitch edge: {text}").clauses
    return found


def expression(text: str) -> tree.Expression:
    found, messages = parse_expression(Source("read", text))
    assert [message.says for message in messages] == []
    assert found is not None
    return found


def codes(text: str) -> list[str]:
    return [message.code for message in parse(Source("read.draft", text))[1]]
