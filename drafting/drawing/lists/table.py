"""A table for the eye: a title, columns and rows of words, and remarks under it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drafting.records import dataclass


@dataclass(frozen=True)
class Column:
    """`is_number` stands its cells to the right."""

    name: str
    is_number: bool = False


@dataclass(frozen=True)
class Table:
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    remarks: tuple[str, ...] = ()

    @classmethod
    def of(
        cls, title: str, columns: str, rows: Iterable[Sequence[str]], remarks: Iterable[str] = ()
    ) -> Table:
        """Columns by their names, divided by bars; a `>` before a name stands it to the right."""
        names = [name.strip() for name in columns.split("|")]
        made = tuple(Column(name.removeprefix(">"), name.startswith(">")) for name in names)
        return cls(title, made, tuple(tuple(row) for row in rows), tuple(remarks))

    @property
    def filled(self) -> Table:
        """The same without the columns that say nothing in any row."""
        kept = [index for index in range(len(self.columns)) if any(row[index] for row in self.rows)]
        columns = tuple(self.columns[index] for index in kept)
        rows = tuple(tuple(row[index] for index in kept) for row in self.rows)
        return Table(self.title, columns, rows, self.remarks)
