"""The sheet map: each tiled piece small, with the tiles drawn over it and the sheet that each lies on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from drafting.drawing.lettering import clip, natural_width, wrap
from drafting.drawing.lines import MARKING, TABLE
from drafting.drawing.marks import ORIGIN, QUARTER_TURN, Group, Lettering, Stroke
from drafting.drawing.prints.parcels import Parcel
from drafting.drawing.prints.tiling import OVERLAP
from drafting.geometry.bounds import Bounds
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.solve.placed import PlacedPiece

FEW_TILES = 12
SMALL, LARGE = (60.0, 45.0), (80.0, 60.0)
"""How wide and high the picture of one piece is at most, of few tiles and of many: a small one finds room beside pieces
sooner, where it takes no sheet of its own."""

SLIM = 2.0
HALF = OVERLAP / 2
COPIES = "That is the first copy; the others go by the names on their tiles."

Sheets = Mapping[tuple[str, str], Sequence[int]]
"""The sheets, from 0, of each piece's tile: as many as it has copies."""


def map_parcel(piece: PlacedPiece, parcels: Sequence[Parcel], sheets: Sheets, copies: int) -> Parcel:
    """The map of one piece; as large before the sheets are known as after."""
    listed = _listed(piece.name, parcels, sheets, copies)
    picture = _picture(piece, parcels, listed)
    bounds = picture.bounds
    assert bounds is not None
    wide, _ = _room_for(parcels)
    laid = picture.moved(Vector(-bounds.min_x, -bounds.max_y))
    group = Group("map", piece.name, (laid,), title=f"sheet map of {piece.name}")
    return Parcel(group, Bounds(0.0, -bounds.height - 2.0, wide, 1.0))


def _room_for(parcels: Sequence[Parcel]) -> tuple[float, float]:
    return SMALL if len(parcels) <= FEW_TILES else LARGE


def _picture(piece: PlacedPiece, parcels: Sequence[Parcel], listed: str) -> Group:
    """The outline under its tiles, and beneath it which tile lies on which sheet."""
    outline, windows = _upright(piece, parcels)
    whole = Bounds.joining(windows)
    wide, high = _room_for(parcels)
    scale = min(wide / whole.width, high / whole.height)
    marks: list[Stroke | Lettering] = [Stroke(TABLE, outline.scaled(scale, ORIGIN))]
    cells = [_cell(window, whole) for window in windows]
    marks += [Stroke(MARKING, border.scaled(scale, ORIGIN)) for border in _borders(cells)]
    marks += [
        name for parcel, cell in zip(parcels, cells, strict=True) for name in _name(parcel.tile, cell, scale)
    ]
    left, top = whole.min_x * scale, whole.max_y * scale
    title = clip(wrap(piece.name, 2.5, wide), 2.5, wide, 1)[0]
    marks.append(Lettering(title, Point(left, top + 1.5), 2.5, "start", use="caption"))
    for index, line in enumerate(wrap(listed, 1.8, wide)):
        at = Point(left, whole.min_y * scale - 3.5 - index * 3.0)
        marks.append(Lettering(line, at, 1.8, "start", use="caption"))
    return Group("sheet-map", piece.name, tuple(marks), title=f"where the tiles of {piece.name} lie")


def _upright(piece: PlacedPiece, parcels: Sequence[Parcel]) -> tuple[Ring, list[Bounds]]:
    """The outline and the tiles; a tall slim piece lies, so that its tiles' names find room."""
    outline = piece.cutting.turned(QUARTER_TURN, ORIGIN) if parcels[0].quarters else piece.cutting
    windows = [parcel.window for parcel in parcels if parcel.window]
    whole = Bounds.joining(windows)
    if whole.height > SLIM * whole.width:
        return outline.turned(QUARTER_TURN, ORIGIN), [window.quarter_turned() for window in windows]
    return outline, windows


def _cell(window: Bounds, whole: Bounds) -> Bounds:
    """A tile less half of the strips that its neighbours show as well; none lie along the edge of the whole."""
    inside = whole.grown(-SAME_POINT)
    return Bounds(
        window.min_x + HALF * (window.min_x > inside.min_x),
        window.min_y + HALF * (window.min_y > inside.min_y),
        window.max_x - HALF * (window.max_x < inside.max_x),
        window.max_y - HALF * (window.max_y < inside.max_y),
    )


def _borders(cells: Sequence[Bounds]) -> list[Path]:
    """The sides of all cells, each once: dashes on dashes would read as one heavy line."""
    told: dict[tuple[float, ...], Path] = {}
    for cell in cells:
        left, low, right, high = cell.min_x, cell.min_y, cell.max_x, cell.max_y
        corners = [Point(left, low), Point(right, low), Point(right, high), Point(left, high)]
        for start, end in ((0, 1), (1, 2), (3, 2), (0, 3)):
            line = Line(corners[start], corners[end])
            key = tuple(round(place, 3) for place in (line.start.x, line.start.y, line.end.x, line.end.y))
            told.setdefault(key, Path((line,)))
    return list(told.values())


def _name(name: str, cell: Bounds, scale: float) -> Iterator[Lettering]:
    """Which tile it is, where there is room for it."""
    if natural_width(name, 1.8) < cell.width * scale - 1.0 and cell.height * scale > 3.0:
        yield Lettering(
            name, cell.center.scaled(scale, ORIGIN) + Vector(0.0, -0.9), 1.8, "middle", use="caption"
        )


def _listed(piece: str, parcels: Sequence[Parcel], sheets: Sheets, copies: int) -> str:
    """`Sheet 1: A1, A2. Sheet 2: A3.`; before the sheets are known with numbers as long as they may be."""
    by_sheet: dict[str, list[str]] = {}
    for index, parcel in enumerate(parcels):
        number = min(sheets.get((piece, parcel.tile), [999 + index])) + 1
        by_sheet.setdefault(f"{number}", []).append(parcel.tile)
    listed = [f"Sheet {number}: {', '.join(names)}." for number, names in by_sheet.items()]
    return " ".join([*listed, *([COPIES] if copies > 1 else [])])
