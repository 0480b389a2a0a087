"""Proving a table or a list: each row and each cell of a file against what its pattern gives now.

Python's own readers of CSV and JSON read what was written; Markdown and plain text are held line against line. What a
file says it was made from is no part of that.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator, Mapping, Sequence
from itertools import zip_longest
from typing import Any

from drafting.output.signed import COLUMN
from drafting.proof.disagreement import LACKING, SAME_LENGTH, Disagreement
from drafting.proof.made import unsigned

Cells = Mapping[str, str]


def check_table(data: bytes, kind: str, wanted: str) -> list[Disagreement]:
    """What differs between a file and the text of the same kind that it should hold; empty when all is true."""
    try:
        found = rows_of(data.decode("utf-8-sig"), kind)
    except (UnicodeDecodeError, ValueError) as fault:
        return [Disagreement("the file", "its form", kind, str(fault))]
    return list(_rows(rows_of(wanted.removeprefix("\ufeff"), kind), found))


def rows_of(text: str, kind: str) -> list[Cells]:
    """The cells of each row by their headings; a row of text is one cell. Raises ValueError."""
    if kind == "csv":
        rows = csv.DictReader(io.StringIO(text, newline=""), restkey="beyond the last heading", restval="")
        return [{name: str(cell) for name, cell in row.items() if name != COLUMN} for row in rows]
    if kind == "json":
        held = json.loads(text)
        records = held if isinstance(held, list) else [held]
        return [dict(_leaves("", record)) for record in records]
    return [{"text": line} for line in unsigned(text).rstrip("\n").split("\n")]


def _leaves(path: str, value: Any) -> Iterator[tuple[str, str]]:
    """Each plain value by the way to it."""
    if isinstance(value, dict):
        parts = [(str(name), part) for name, part in value.items() if name != COLUMN]
    elif isinstance(value, list):
        parts = [(str(at), part) for at, part in enumerate(value, start=1)]
    else:
        yield path, str(value)
        return
    for name, part in parts:
        yield from _leaves(f"{path}.{name}" if path else name, part)


def _rows(wanted: Sequence[Cells], found: Sequence[Cells]) -> Iterator[Disagreement]:
    for number, (want, have) in enumerate(zip_longest(wanted, found), start=1):
        where = f"row {number}"
        if want is None or have is None:
            yield Disagreement(where, "the row", *("there" if row else LACKING for row in (want, have)))
            continue
        for name in dict.fromkeys((*want, *have)):
            first, second = want.get(name, LACKING), have.get(name, LACKING)
            if not _is_same(first, second):
                yield Disagreement(where, f"`{name}`", first or "empty", second or "empty")


def _is_same(first: str, second: str) -> bool:
    """Numbers may differ as lengths may."""
    if first == second:
        return True
    try:
        return abs(float(first) - float(second)) <= SAME_LENGTH
    except ValueError:
        return False
