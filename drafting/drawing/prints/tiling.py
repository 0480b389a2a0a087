"""A piece too large for a sheet, spread over tiles.

The tiles stand in rows and columns over the piece, neighbours sharing a strip OVERLAP wide: of a length L, room p and
overlap o it takes ceil((L - o)/(p - o)) of them. All but the last are as large as the room. Tiles that nothing of the
piece lies on are left out.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import ceil

from drafting.drawing.title_block import rectangle
from drafting.geometry.bounds import Bounds
from drafting.geometry.intersect import path_intersections
from drafting.geometry.path import Ring
from drafting.records import dataclass

OVERLAP = 10.0
WHOLE = 1e-9


@dataclass(frozen=True)
class Tile:
    """One part of a piece: its column from the left and row from the top, from 0, and what of the piece it shows."""

    column: int
    row: int
    window: Bounds

    @property
    def name(self) -> str:
        """`A1` is the upper left one: letters go across, numbers down."""
        return f"{column_letters(self.column)}{self.row + 1}"


@dataclass(frozen=True)
class Tiling:
    """All tiles of one piece and the lines on which neighbours meet, across and up."""

    bounds: Bounds
    columns: tuple[tuple[float, float], ...]
    """Left and right of each column."""
    rows: tuple[tuple[float, float], ...]
    """Bottom and top of each row, from the top row down."""
    tiles: tuple[Tile, ...]

    @property
    def seams_across(self) -> tuple[float, ...]:
        """Where columns meet: the middles of their overlaps."""
        return tuple((left[1] + right[0]) / 2 for left, right in _pairs(self.columns))

    @property
    def seams_up(self) -> tuple[float, ...]:
        return tuple((upper[0] + lower[1]) / 2 for upper, lower in _pairs(self.rows))


def tile(outline: Ring, bounds: Bounds, wide: float, high: float) -> Tiling:
    """The tiles for what lies in `bounds`, on sheets with room `wide` by `high`; `outline` tells which are empty."""
    columns = tuple(_strips(bounds.min_x, bounds.width, wide))
    rows = tuple((-low, -high) for high, low in _strips(-bounds.max_y, bounds.height, high))
    tiles = tuple(
        Tile(column, row, window)
        for row, (bottom, top) in enumerate(rows)
        for column, (left, right) in enumerate(columns)
        for window in [Bounds(left, bottom, right, top)]
        if _shows_something(outline, window)
    )
    return Tiling(bounds, columns, rows, tiles)


def count(length: float, room: float) -> int:
    """How many tiles a length takes."""
    return max(1, ceil((length - OVERLAP) / (room - OVERLAP) - WHOLE))


def least_count(bounds: Bounds, area: float, wide: float, high: float) -> int:
    """So many tiles are needed at least for an outline in `bounds`: some in each column and each row, and enough to
    hold its area. Told at once, however large the outline is."""
    across, up = count(bounds.width, wide), count(bounds.height, high)
    return max(across, up, ceil(area / (wide * high) - WHOLE))


def _strips(start: float, length: float, room: float) -> Iterator[tuple[float, float]]:
    step = room - OVERLAP
    for index in range(count(length, room)):
        yield start + index * step, min(start + index * step + room, start + length)


def _shows_something(outline: Ring, window: Bounds) -> bool:
    if outline.contains(window.center):
        return True
    frame = rectangle(window.min_x, window.min_y, window.max_x, window.max_y)
    return any(window.contains(leg.start) for leg in outline.legs) or bool(path_intersections(frame, outline))


def _pairs(
    strips: tuple[tuple[float, float], ...],
) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    yield from pairwise(strips)


def column_letters(index: int) -> str:
    """A to Z, then AA, AB ..."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
