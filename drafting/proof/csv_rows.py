"""The rows of a table as it was written, or as a spreadsheet saved it since.

A spreadsheet may change its separator, encoding, quotes, line ends and decimal signs, and the order of rows and
columns; it may add empty ones. None of that changes what the table says.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping
from functools import cached_property

from drafting.output.signed import COLUMN
from drafting.records import dataclass
from drafting.text.table import MARKS, SEPARATORS

LONGEST_CELL = 10_000_000
"""The reader of CSV allows 131,072 letters in a cell unless it is told otherwise."""
OLD_ENCODING = "cp1252"
"""What spreadsheets save a CSV in that is not said to be UTF-8; each of its bytes is some letter."""
DECIMAL_COMMA = re.compile(r"[+-]?[0-9]+,[0-9]+(?:[eE][+-]?[0-9]+)?")
SPARE = "beyond the last heading"


@dataclass(frozen=True)
class Rows:
    """The cells of each row by their headings, and what stood between them."""

    cells: tuple[Mapping[str, str], ...]
    separator: str = ","

    @cached_property
    def has_decimal_comma(self) -> bool:
        """Whether a comma may begin the decimals of a number: not where it stands between cells."""
        return self.separator != ","

    def number(self, cell: str) -> float | None:
        """What a cell says as a number; None for words."""
        if self.has_decimal_comma and DECIMAL_COMMA.fullmatch(cell):
            cell = cell.replace(",", ".")
        try:
            return float(cell)
        except ValueError:
            return None


def saved_text(data: bytes) -> str:
    """The text of a file, in UTF-8 or as its byte-order mark says, else as older spreadsheets save it."""
    mark, own = next(((mark, own) for mark, own in MARKS if data.startswith(mark)), (b"", "utf-8"))
    try:
        return data[len(mark) :].decode(own)
    except UnicodeDecodeError:
        return data.decode(OLD_ENCODING, errors="replace")


def csv_rows(text: str) -> Rows:
    """The rows that hold anything. Raises ValueError for what is no CSV."""
    csv.field_size_limit(LONGEST_CELL)
    separator = _separator_of(text)
    try:
        reader = csv.DictReader(io.StringIO(text, newline=""), delimiter=separator, restkey=SPARE, restval="")
        rows = [{name: _told(cell) for name, cell in row.items()} for row in reader]
    except csv.Error as fault:
        raise ValueError(str(fault)) from None
    kept = ({name: cell for name, cell in row.items() if cell or name not in ("", SPARE)} for row in rows)
    return Rows(tuple(row for row in kept if any(row.values())), separator)


def _told(cell: str | list[str]) -> str:
    """Cells beyond the last heading come in a list."""
    return cell if isinstance(cell, str) else " ".join(filter(None, cell))


def _separator_of(text: str) -> str:
    """The one that parts the heading under which a file says what it was made from from the others."""
    for separator in SEPARATORS:
        head = next(csv.reader(io.StringIO(text, newline=""), delimiter=separator), [])
        if COLUMN in head and len(head) > 1:
            return separator
    return ","
