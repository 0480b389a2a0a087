"""Pictures of all pieces side by side, small, each with its name; in that of a step what it uses stands out.

What stands out is tinted and drawn with all its lines; of the rest only the outline is left. So a copy in black and
white shows the same, and a piece has its place in every picture.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from drafting.drawing.lettering import clip, natural_width, plain_text, wrap
from drafting.drawing.lines import HATCH, TINT
from drafting.drawing.marks import ORIGIN, QUARTER_TURN, Drawing, Group, Lettering, Stroke
from drafting.drawing.view import piece_view, ways_of
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass, replace
from drafting.solve.placed import Placed, PlacedPiece

GAP = 6.0
NAME = 2.5
LEAST = 5 * NAME
"""So much room has a name, however slim its piece is."""
UNDER = 6.0
"""From a piece down to the foot of its name."""
BORDER = 2.0
"""Kept free all round, for marks reach out of their piece."""
SLIM = 2.0
"""A piece so many times as high as wide lies down."""
AXES = ("symmetry", "center")
SHRINKING = 0.94
TRIES = 160


@dataclass(frozen=True)
class Picture:
    """`scale` is drawn size over true size; `shown` are the pieces drawn in full; `alt` is for those who cannot see."""

    drawing: Drawing
    caption: str
    alt: str
    scale: float
    shown: tuple[str, ...]


@dataclass(frozen=True)
class Cell:
    """A piece that is laid somewhere: `quarters` turns, then its lower left corner at a place of the picture."""

    piece: PlacedPiece
    quarters: int
    wide: float
    high: float


def all_pieces(placed: Placed, wide: float, high: float) -> Picture | None:
    """Every piece with all its lines; nothing where there is none, or where a line would vanish."""
    found = _drawn(placed, wide, high, None)
    if found is None:
        return None
    drawing, scale = found
    names = ", ".join(placed.pieces)
    caption = f"All pieces at 1:{_reduction(scale)}. Cut by the true-size sheets, not by this picture."
    return Picture(drawing, caption, f"The pieces {names}, side by side.", scale, tuple(placed.pieces))


def pieces_of_step(placed: Placed, wide: float, high: float, used: Collection[str]) -> Picture | None:
    """The same with only the used pieces standing out; nothing where no piece is used."""
    shown = [name for name in placed.pieces if name in used]
    found = _drawn(placed, wide, high, shown) if shown else None
    if found is None:
        return None
    drawing, scale = found
    names = ", ".join(shown)
    return Picture(
        drawing, "", f"All pieces; {names} stand{'s' * (len(shown) == 1)} out.", scale, tuple(shown)
    )


def _reduction(scale: float) -> str:
    """To three digits, and never as a power of ten."""
    digits = f"{1 / scale:.3g}"
    return digits if "e" not in digits else f"{float(digits):,.0f}"


def _drawn(
    placed: Placed, wide: float, high: float, shown: Sequence[str] | None
) -> tuple[Drawing, float] | None:
    """As large as the room allows, and no larger than true; nothing where so small a picture has no room for a line."""
    if not placed.pieces:
        return None
    scale, rows = _laid(list(placed.pieces.values()), wide - 2 * BORDER, high - 2 * BORDER)
    if scale * min(map(_shortest, placed.pieces.values())) <= SAME_POINT:
        return None
    groups: list[Group] = []
    top = sum(_row_height(row) for row in rows) + GAP * (len(rows) - 1) + 2 * BORDER
    y = top - BORDER
    for row in rows:
        groups += _row(row, wide, y, scale, shown)
        y -= _row_height(row) + GAP
    title = f"{placed.title}: pieces"
    return Drawing(title, "", wide, top, "picture", scale, tuple(groups)), scale


def _shortest(piece: PlacedPiece) -> float:
    """Its shortest leg in mm."""
    ways = [piece.cutting, *(way for feature in piece.features for way in ways_of(feature))]
    return min(leg.length for way in ways for leg in way.legs)


def _laid(pieces: Sequence[PlacedPiece], wide: float, high: float) -> tuple[float, list[list[Cell]]]:
    """The largest scale of a falling series at which the pieces, in rows, go into the room."""
    scale = 1.0
    while any(_cell(piece, scale).wide > max(wide, LEAST) for piece in pieces):
        scale *= SHRINKING
    for _ in range(TRIES):
        rows = _rows([_cell(piece, scale) for piece in pieces], wide)
        whole = sum(_row_height(row) for row in rows) + GAP * (len(rows) - 1)
        if whole <= high and all(cell.wide <= wide for row in rows for cell in row):
            break
        scale *= SHRINKING
    return scale, rows


def _cell(piece: PlacedPiece, scale: float) -> Cell:
    box = piece.cutting.bounds
    wide, high, quarters = box.width * scale, box.height * scale, 0
    if high > SLIM * wide:
        wide, high, quarters = high, wide, 1
    return Cell(piece, quarters, max(wide, LEAST), high + UNDER)


def _rows(cells: Sequence[Cell], wide: float) -> list[list[Cell]]:
    rows: list[list[Cell]] = []
    left = 0.0
    for cell in cells:
        if rows and left + GAP + cell.wide <= wide:
            rows[-1].append(cell)
            left += GAP + cell.wide
        else:
            rows.append([cell])
            left = cell.wide
    return rows


def _row_height(row: Sequence[Cell]) -> float:
    return max(cell.high for cell in row)


def _row(
    row: Sequence[Cell], wide: float, top: float, scale: float, shown: Sequence[str] | None
) -> Iterator[Group]:
    """Pieces on one foot line, spread about the middle of the width."""
    whole = sum(cell.wide for cell in row) + GAP * (len(row) - 1)
    left, foot = (wide - whole) / 2, top - _row_height(row)
    for cell in row:
        stands_out = shown is not None and cell.piece.name in shown
        is_faint = shown is not None and not stands_out
        piece = _piece(cell, scale, stands_out, is_faint)
        box = _outline(cell, scale).bounds
        move = Vector(left + cell.wide / 2 - box.center.x, foot + UNDER - box.min_y)
        yield piece.moved(move)
        yield _name(cell, Point(left + cell.wide / 2, foot + 1.0))
        left += cell.wide + GAP


def _outline(cell: Cell, scale: float) -> Ring:
    return cell.piece.cutting.scaled(scale, ORIGIN).turned(cell.quarters * QUARTER_TURN, ORIGIN)


def _piece(cell: Cell, scale: float, stands_out: bool, is_faint: bool) -> Group:
    if is_faint:
        return Group("piece", cell.piece.name, (Stroke(HATCH, _outline(cell, scale)),))
    view = _without_axes(piece_view(cell.piece, scale, with_guides=False))
    for _ in range(cell.quarters):
        view = view.quarter_turned()
    if not stands_out:
        return view
    tint = Stroke(TINT, _outline(cell, scale), is_filled=True)
    return Group("piece", cell.piece.name, (tint, *view.marks), title=view.title, note=view.note)


def _without_axes(view: Group) -> Group:
    """Mirror and center lines say nothing at this size."""
    kept = (mark for mark in view.marks if not (isinstance(mark, Group) and mark.kind in AXES))
    return replace(view, marks=tuple(kept))


def _name(cell: Cell, at: Point) -> Group:
    """The name, in as much room as the piece has."""
    room = cell.wide + GAP - 1.0
    line = clip(wrap(plain_text(cell.piece.name), NAME, room), NAME, room, 1)[0]
    height = NAME if natural_width(line, NAME) <= room else NAME * 0.72
    words = Lettering(line, at, height, "middle", use="caption")
    return Group("caption", cell.piece.name, (words,))
