"""Tables and rows -> text, Markdown, CSV and JSON.

Columns of text are set by the width that letters take on a terminal, two for those of East Asia.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Protocol
from unicodedata import combining, east_asian_width


class TableColumn(Protocol):
    @property
    def name(self) -> str: ...
    @property
    def is_number(self) -> bool: ...


class AnyTable(Protocol):
    """What is written here."""

    @property
    def title(self) -> str: ...
    @property
    def columns(self) -> Sequence[TableColumn]: ...
    @property
    def rows(self) -> Sequence[Sequence[str]]: ...
    @property
    def remarks(self) -> Sequence[str]: ...


def to_text(tables: Iterable[AnyTable]) -> str:
    """For a terminal: columns two blanks apart under their names."""
    return "\n".join(_text_of(table) for table in tables)


def _text_of(table: AnyTable) -> str:
    heads = [column.name for column in table.columns]
    widths = [max(_width(row[at]) for row in (heads, *table.rows)) for at in range(len(heads))]
    lines = [table.title, _text_row(heads, widths, table.columns)]
    lines += [_text_row(row, widths, table.columns) for row in table.rows]
    return "\n".join([*lines, *table.remarks, ""])


def _text_row(cells: Sequence[str], widths: Sequence[int], columns: Sequence[TableColumn]) -> str:
    set_ = []
    for cell, width, column in zip(cells, widths, columns, strict=True):
        blank = " " * (width - _width(cell))
        set_.append(blank + cell if column.is_number else cell + blank)
    return ("  " + "  ".join(set_)).rstrip()


def _width(text: str) -> int:
    return sum(0 if combining(letter) else 2 if east_asian_width(letter) in "WF" else 1 for letter in text)


def to_markdown(tables: Iterable[AnyTable]) -> str:
    return "\n".join(_markdown_of(table) for table in tables)


def _markdown_of(table: AnyTable) -> str:
    rule = ["---:" if column.is_number else "---" for column in table.columns]
    rows = [[column.name for column in table.columns], rule, *table.rows]
    lines = [f"| {' | '.join(_markdown_cell(cell) for cell in row)} |" for row in rows]
    remarks = [line for remark in table.remarks for line in ("", remark)]
    return "\n".join([f"## {_markdown_cell(table.title)}", "", *lines, *remarks, ""])


def _markdown_cell(text: str) -> str:
    """Without what would end the cell, or make letters slanted."""
    return re.sub(r"([\\|*_<>\[\]])", r"\\\1", " ".join(text.split()))


def to_csv(columns: Sequence[str], rows: Iterable[Mapping[str, Any]]) -> str:
    """With a row of names, quoted where a cell needs it; what a row lacks is left empty."""
    page = io.StringIO()
    writer = csv.DictWriter(page, columns, restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows({key: "" if cell is None else cell for key, cell in row.items()} for row in rows)
    return page.getvalue()


def to_json(record: Any) -> str:
    return json.dumps(record, indent=2, ensure_ascii=False) + "\n"
