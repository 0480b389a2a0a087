"""Where there is leather: inside the outline of a piece and not in what is taken out of it.

A sign asks it of some thousand places. Shapely judges them all at once on chords of the bows, and tells which of them
lie so near to a line that it could be wrong; only those are looked at closely.
"""

from __future__ import annotations

from functools import cached_property
from math import cos
from typing import Any

import numpy as np
import shapely

from drafting.drawing.marks import ORIGIN
from drafting.drawing.obstacles import chords, line_strings, segments_of, touched
from drafting.geometry.arc import Arc
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.solve.placed import PlacedPiece

GRID = 15
"""So many places across and up are tried for what may stand anywhere on the leather."""
SURE = 2 * SAME_POINT
"""mm: nearer to a line than by this and by what its chords are off, it is left to a closer look."""


class Leather:
    """The leather of one piece, drawn at a scale."""

    def __init__(self, piece: PlacedPiece, scale: float) -> None:
        self.outline = piece.outline.scaled(scale, ORIGIN)
        removed = [feature for feature in piece.features if feature.is_removed]
        self.gaps = [ring.scaled(scale, ORIGIN) for feature in removed for ring in feature.rings]

    def is_at(self, point: Point) -> bool:
        return self.outline.contains(point) and not any(gap.contains(point) for gap in self.gaps)

    def is_under(self, places: Any) -> Any:
        """Whether there is leather at each of many places, rows of x and y, as an array of truths."""
        points = shapely.points(places)
        found = shapely.intersects(self._inside, points) & ~touched(self._taken_out, points)
        unsure = self._lines.query(points, predicate="dwithin", distance=SURE + self._error)[0]
        for row in set(unsure.tolist()):
            found[row] = self.is_at(Point(*places[row].tolist()))
        return found

    @cached_property
    def _rings(self) -> list[Any]:
        """The outline and the gaps as polygons of chords."""
        return [shapely.polygons(_corners(ring)) for ring in (self.outline, *self.gaps)]

    @cached_property
    def _error(self) -> float:
        """How far a bow stands off its chords at most."""
        bows = (leg for ring in (self.outline, *self.gaps) for leg in ring.legs if isinstance(leg, Arc))
        return max((_off_chords(bow) for bow in bows), default=0.0)

    @cached_property
    def _lines(self) -> shapely.STRtree:
        rings = (self.outline, *self.gaps)
        return shapely.STRtree(line_strings([segment for ring in rings for segment in segments_of(ring)]))

    @cached_property
    def _inside(self) -> Any:
        whole = self._rings[0]
        shapely.prepare(whole)
        return whole

    @cached_property
    def _taken_out(self) -> shapely.STRtree:
        return shapely.STRtree(self._rings[1:])

    def places(self) -> list[Point]:
        """Places in a grid, from the middle out."""
        box = self.outline.bounds
        steps = [(column, row) for column in range(1, GRID) for row in range(1, GRID)]
        middle = GRID / 2
        steps.sort(key=lambda step: abs(step[0] - middle) + abs(step[1] - middle))
        points = [
            Point(box.min_x + box.width * column / GRID, box.min_y + box.height * row / GRID)
            for column, row in steps
        ]
        is_there = self.is_under(np.array([(point.x, point.y) for point in points]))
        return [point for point, is_leather in zip(points, is_there.tolist(), strict=True) if is_leather]


def _corners(ring: Ring) -> list[tuple[float, float]]:
    return [(point.x, point.y) for leg in ring.legs for point in chords(leg)[:-1]]


def _off_chords(bow: Arc) -> float:
    return bow.radius * (1 - cos(bow.sweep / (len(chords(bow)) - 1) / 2))
