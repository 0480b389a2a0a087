"""All sizes of a piece drawn over each other, each by its own line: the nest that a pattern is graded by.

Pieces lie as they are drafted, the origins of all sizes on each other. Up to eight sizes each have a line of their own;
of more the first is wider, the last wider and dashed, and those between are fine. None is a line to cut along.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drafting.drawing.amounts import Figures
from drafting.drawing.assembly import Base, assemble, make_base
from drafting.drawing.facts import footer_facts, overview_facts
from drafting.drawing.footer import COLUMNS, SAMPLE, SMALL
from drafting.drawing.footer import WIDTH as FOOTER_WIDTH
from drafting.drawing.lettering import LINE_PITCH, clip, wrap
from drafting.drawing.lines import NARROW, WIDE, LineKind
from drafting.drawing.marks import ORIGIN, Drawing, Group, Stroke
from drafting.drawing.overview import (
    MOST_REDUCED,
    NAME_HEIGHT,
    Cell,
    Row,
    arranged,
    fill_rows,
    height_of,
    place_rows,
)
from drafting.drawing.scales import reductions
from drafting.drawing.sheets import HANDY_SHEETS, SHEETS, Sheet, own_sheet
from drafting.drawing.signs import name_block
from drafting.geometry.point import Point
from drafting.solve.placed import Placed

MOST_DRAWN = 100
DASHES: tuple[tuple[float, ...], ...] = (
    (), (12, 3), (24, 3, 0.5, 3), (24, 3, 6, 3), (24, 3, 0.5, 3, 0.5, 3), (6, 3), (24, 3, 6, 3, 6, 3), (0.5, 3),
)  # fmt: skip
"""In line widths, as ISO 128 counts them; each size has its own."""
FINE, MIDDLE = 0.13, 0.35
"""Widths of the series of ISO 128-2 for many sizes close together."""

Sized = tuple[str, Placed]
"""A size by its name."""


def nested(sizes: Sequence[Sized], piece: str | None = None) -> Drawing:
    """The nests of all pieces in the largest scale that A4 or A3 holds; of one piece at 1:1 on what sheet it needs."""
    kinds = kinds_of([name for name, _ in sizes])
    _, first = sizes[0]
    names = [piece] if piece else list(first.pieces)
    facts = footer_facts(first, Figures.shown_by(first.show), tuple(dict.fromkeys(kinds)), (NOT_TO_CUT,))
    base = make_base(facts, False)
    sheets = SHEETS if piece else HANDY_SHEETS
    for reduction in [1] if piece else reductions():
        scale = 1 / reduction
        cells = [_cell(name, sizes, kinds, scale) for name in names]
        for sheet in sheets:
            rows = arranged(cells, base.room_in(sheet))
            if rows is not None:
                return _drawn(first, piece, sheet, rows, scale, base)
        if reduction >= MOST_REDUCED:
            break
    wide = max(cell.bounds.width for cell in cells)
    rows = fill_rows(cells, wide)
    sheet = own_sheet(*base.size_for(wide, height_of(rows)))
    return _drawn(first, piece, sheet, rows, scale, base)


def _drawn(
    first: Placed, piece: str | None, sheet: Sheet, rows: list[Row], scale: float, base: Base
) -> Drawing:
    facts = replace(
        overview_facts(first, Figures.shown_by(first.show), sheet.name, scale),
        subtitle=f"{piece}, all sizes" if piece else "all pieces, all sizes",
        document="Sizes over each other",
        number=f"{first.stem}/sizes",
        size="",
        cut="",
    )
    note = f"All sizes at {facts.scale}, {sheet.name}. Lengths in mm, y downward, one user unit is 1 mm."
    return assemble(sheet, base, facts, place_rows(rows, base.room_in(sheet)), note, scale)


NOT_TO_CUT = "Sizes over each other, for comparing: draw or print one size to cut from."


def kinds_of(names: Sequence[str]) -> list[LineKind]:
    """A line for each size, with its name in the legend."""
    if len(names) <= len(DASHES):
        return [
            LineKind(f"size-{at}", _legend_words(name), "01.1", NARROW if at else WIDE, dashes)
            for at, (name, dashes) in enumerate(zip(names, DASHES, strict=False))
        ]
    between = LineKind("size-between", "sizes between", "01.1", FINE)
    first = LineKind("size-first", _legend_words(names[0]), "01.2", MIDDLE)
    last = LineKind("size-last", _legend_words(names[-1]), "02.2", MIDDLE, DASHES[1])
    return [first, *[between] * (len(names) - 2), last]


def _legend_words(name: str) -> str:
    room = FOOTER_WIDTH / COLUMNS - SAMPLE - 4.0
    return clip(wrap(name or "as written", SMALL, room), SMALL, room, 1)[0]


def _cell(piece: str, sizes: Sequence[Sized], kinds: Sequence[LineKind], scale: float) -> Cell:
    """The first size is drawn last, over all others."""
    strokes = [
        Stroke(kind, placed.pieces[piece].cutting.scaled(scale, ORIGIN))
        for kind, (_, placed) in zip(kinds, sizes, strict=True)
        if piece in placed.pieces
    ]
    nest = Group("nest", piece, tuple(reversed(strokes)), title=f"{piece}, all sizes")
    assert nest.bounds is not None
    middle = Point(nest.bounds.center.x, nest.bounds.min_y - 3.0 - NAME_HEIGHT * LINE_PITCH / 2)
    caption = Group("caption", piece, tuple(name_block([(piece, NAME_HEIGHT)], middle)))
    group = Group("cell", piece, (nest, caption))
    assert group.bounds is not None
    return Cell(group, group.bounds)
