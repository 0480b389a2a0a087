"""Proving a table or a list: each row and each cell of a file against what its pattern gives now.

Python's own readers of CSV and JSON read what was written; Markdown and plain text are held line against line. Rows
that have names of their own are held against the row of that name, wherever a spreadsheet has sorted them to. What a
file says it was made from is no part of that.
"""

from __future__ import annotations

import json
from collections import defaultdict, deque
from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from typing import Any

from drafting.output.signed import COLUMN
from drafting.proof.csv_rows import Rows, csv_rows, saved_text
from drafting.proof.disagreement import LACKING, SAME_LENGTH, Disagreement
from drafting.proof.made import unsigned

Cells = Mapping[str, str]
DECIMALS = 2
"""Of the numbers by which rows are known again; a row whose numbers differ more is known by its name."""


def check_table(data: bytes, kind: str, wanted: str, keys: Sequence[str] = ()) -> list[Disagreement]:
    """What differs between a file and the text of the same kind that it should hold; empty when all is true. `keys`
    are the headings that name a row, the first of them alone if need be; without them rows go by their place."""
    try:
        found = rows_of(saved_text(data), kind)
    except ValueError as fault:
        return [Disagreement("the file", "its form", kind, str(fault))]
    return list(_differences(rows_of(wanted.removeprefix("\ufeff"), kind), found, keys))


def rows_of(text: str, kind: str) -> Rows:
    """The cells of each row by their headings; a row of text is one cell. Raises ValueError."""
    if kind == "csv":
        read = csv_rows(text)
        rows = tuple({name: cell for name, cell in row.items() if name != COLUMN} for row in read.cells)
        return Rows(rows, read.separator)
    if kind == "json":
        held = json.loads(text)
        records = held if isinstance(held, list) else [held]
        return Rows(tuple(dict(_leaves("", record)) for record in records))
    return Rows(tuple({"text": line} for line in unsigned(text).rstrip("\n").split("\n")))


def _leaves(path: str, value: Any) -> Iterator[tuple[str, str]]:
    """Each plain value by the way to it."""
    if isinstance(value, dict):
        parts = [(str(name), part) for name, part in value.items() if name != COLUMN]
    elif isinstance(value, list):
        parts = [(str(at), part) for at, part in enumerate(value, start=1)]
    else:
        yield path, "" if value is None else str(value)
        return
    for name, part in parts:
        yield from _leaves(f"{path}.{name}" if path else name, part)


def _differences(wanted: Rows, found: Rows, keys: Sequence[str]) -> Iterator[Disagreement]:
    pairs = _paired(wanted, found, keys)
    for number, want in enumerate(wanted.cells):
        at = pairs.get(number)
        if at is None:
            yield Disagreement(_where(number, want, keys), "the row", "there", LACKING)
        else:
            yield from _cells(_where(at, want, keys), want, found.cells[at], found)
    for at in sorted(set(range(len(found.cells))) - set(pairs.values())):
        yield Disagreement(_where(at, found.cells[at], keys), "the row", LACKING, "there")


def _where(at: int, row: Cells, keys: Sequence[str]) -> str:
    """By its place in the file, and by its name where it has one."""
    name = row.get(keys[0]) if keys else None
    return f"row {at + 1}, `{name}`" if name else f"row {at + 1}"


def _paired(wanted: Rows, found: Rows, keys: Sequence[str]) -> dict[int, int]:
    """Which row of the file holds which wanted one: by all that names it, else by its first name, in their order."""

    def by_all(row: Cells, rows: Rows) -> Hashable:
        return tuple(_known(row.get(key, ""), rows) for key in keys)

    def by_name(row: Cells, rows: Rows) -> Hashable:
        return row.get(keys[0], "") if keys else None

    pairs = _paired_by(by_all, wanted, found, {})
    return _paired_by(by_name, wanted, found, pairs)


def _paired_by(
    key: Callable[[Cells, Rows], Hashable], wanted: Rows, found: Rows, pairs: Mapping[int, int]
) -> dict[int, int]:
    """`pairs`, and those of the other rows that have the same key."""
    taken = set(pairs.values())
    waiting: dict[Hashable, deque[int]] = defaultdict(deque)
    for at, row in enumerate(found.cells):
        if at not in taken:
            waiting[key(row, found)].append(at)
    more = dict(pairs)
    for number, row in enumerate(wanted.cells):
        alike = waiting.get(key(row, wanted)) if number not in pairs else None
        if alike:
            more[number] = alike.popleft()
    return more


def _known(cell: str, rows: Rows) -> str | float:
    number = rows.number(cell)
    return cell if number is None else round(number, DECIMALS)


def _cells(where: str, want: Cells, have: Cells, found: Rows) -> Iterator[Disagreement]:
    for name in dict.fromkeys((*want, *have)):
        first, second = want.get(name, LACKING), have.get(name, LACKING)
        if not _is_same(first, second, found):
            yield Disagreement(where, f"`{name}`", first or "empty", second or "empty")


def _is_same(first: str, second: str, found: Rows) -> bool:
    """Numbers may differ as lengths may."""
    if first == second:
        return True
    try:
        number = found.number(second)
        return number is not None and abs(float(first) - number) <= SAME_LENGTH
    except ValueError:
        return False
