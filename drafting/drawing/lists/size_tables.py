"""Sizes -> a chart for the eye and rows for other programs.

Few sizes stand side by side, as on a size chart; many stand one below the other. What is the same in all of them is
said once, under the table. Lengths are in the units of the pattern.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from drafting.craft.lists.sizing import Found, SizedRow
from drafting.drawing.amounts import Figures
from drafting.drawing.lists.amounts import in_unit, long_words
from drafting.drawing.lists.table import Table
from drafting.model.pattern import MeasurePart, Pattern
from drafting.records import dataclass
from drafting.text.quantities import LENGTH

SIDE_BY_SIDE = 6
FINE = "pass"
UNJUDGED = "not judged"


@dataclass(frozen=True)
class Line:
    """One line of a chart: what it is, and what it comes to in each size."""

    label: str
    cells: tuple[str, ...]

    @property
    def is_same(self) -> bool:
        return len(set(self.cells)) == 1


def size_table(pattern: Pattern, rows: Sequence[SizedRow]) -> Table:
    figures = Figures.shown_by(pattern.show)
    lines = list(_lines(pattern, rows, figures))
    rules = Line("rules", tuple(_verdict(row) for row in rows))
    told = [line for line in lines if not line.is_same or len(rows) == 1]
    same = [f"{line.label} {line.cells[0]}" for line in lines if line not in told and line.cells[0]]
    remarks = [figures.statement + "."]
    remarks += [f"The same in all: {'; '.join(same)}."] if same else []
    remarks += list(_sentences(rows))
    title = f"{pattern.title or 'Sizes'}: {len(rows)} {'size' if len(rows) == 1 else 'sizes'}"
    names = [row.asked.name or "as written" for row in rows]
    told.append(rules)
    if len(rows) <= SIDE_BY_SIDE:
        columns = [" ", *(f">{name.replace('|', '/')}" for name in names)]
        return Table.of(title, "|".join(columns), [(line.label, *line.cells) for line in told], remarks)
    columns = ["size", *(f">{line.label}" for line in told[:-1]), "rules"]
    cells = [(name, *(line.cells[at] for line in told)) for at, name in enumerate(names)]
    return Table.of(title, "|".join(columns), cells, remarks)


def _lines(pattern: Pattern, rows: Sequence[SizedRow], figures: Figures) -> Iterator[Line]:
    for part in pattern.measures.values():
        for key in part.keys:
            yield Line(key, tuple(_measure(row, part, key, figures) for row in rows))
    for piece in pattern.pieces:
        yield Line(piece, tuple(_box(row, piece, figures) for row in rows))
    for seam in _known(row.stitches for row in rows):
        yield Line(f"{seam}, stitches", tuple(str(row.stitches.get(seam, "")) for row in rows))
    for stock in _known(row.stock for row in rows):
        yield Line(f"{stock or 'no stock said'}, dm²", tuple(_area(row, stock) for row in rows))
    if any(row.thread is not None for row in rows):
        told = (long_words(row.thread, pattern.show) if row.thread else "" for row in rows)
        yield Line("thread", tuple(told))


def _known(of_rows: Iterable[Mapping[str, Any]]) -> dict[str, None]:
    """All keys of the rows, in the order they first come."""
    return dict.fromkeys(key for of_row in of_rows for key in of_row)


def _measure(row: SizedRow, part: MeasurePart, key: str, figures: Figures) -> str:
    value = row.measures.get(key)
    if value is None:
        return ""
    return figures.length(value) if part.kind == LENGTH else f"{value:.4f}".rstrip("0").rstrip(".")


def _box(row: SizedRow, piece: str, figures: Figures) -> str:
    box = row.boxes.get(piece)
    return figures.phrase("{} × {}", *box) if box else ""


def _area(row: SizedRow, stock: str) -> str:
    return in_unit(row.stock[stock], "dm2") if stock in row.stock else ""


def _verdict(row: SizedRow) -> str:
    return ", ".join(dict.fromkeys(one.code for one in row.found)) or (FINE if row.is_judged else UNJUDGED)


def _sentences(rows: Sequence[SizedRow]) -> Iterator[str]:
    """Each code once, with the figures of the first size that it is said of, and of how many it is."""
    first: dict[str, tuple[SizedRow, Found]] = {}
    count: dict[str, int] = {}
    for row in rows:
        for code, found in {one.code: one for one in reversed(row.found)}.items():
            first.setdefault(code, (row, found))
            count[code] = count.get(code, 0) + 1
    for code, (row, found) in sorted(first.items()):
        where = f"in {count[code]} of {len(rows)}" if len(rows) > 1 else ""
        which = f"{where}, first in {row.asked.name}" if where and row.asked.name else where
        yield f"{code}{f' ({which})' if which else ''}: {found.says}"


# For other programs


def size_columns(rows: Sequence[SizedRow]) -> tuple[str, ...]:
    """The names of all columns of `size_records`."""
    return tuple(dict.fromkeys(key for record in size_records(rows) for key in record))


def size_records(rows: Sequence[SizedRow]) -> Iterator[dict[str, Any]]:
    """One flat record a size: mm and mm², unrounded."""
    for row in rows:
        yield {
            "size": row.asked.title,
            **dict(row.measures),
            **{f"{piece}.width": box[0] for piece, box in row.boxes.items()},
            **{f"{piece}.height": box[1] for piece, box in row.boxes.items()},
            **{f"{seam}.stitches": count for seam, count in row.stitches.items()},
            **{f"{stock or 'no stock'}, mm2": area for stock, area in row.stock.items()},
            "thread": row.thread,
            "rules": _verdict(row),
        }


def size_record(rows: Sequence[SizedRow]) -> list[dict[str, Any]]:
    """The same nested, with what is said of each size."""
    return [
        {
            "size": row.asked.title,
            "swept": dict(row.asked.swept),
            "measures": dict(row.measures),
            "pieces": {piece: {"width": box[0], "height": box[1]} for piece, box in row.boxes.items()},
            "stitches": dict(row.stitches),
            "stock_mm2": dict(row.stock),
            "thread": row.thread,
            "is_sound": row.is_sound,
            "is_judged": row.is_judged,
            "found": [{"code": one.code, "severity": one.severity, "says": one.says} for one in row.found],
        }
        for row in rows
    ]
