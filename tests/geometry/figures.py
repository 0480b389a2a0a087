"""Figures the geometry tests share: polygons, a bent path, and a faceted stand-in for shapely."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, sqrt

from shapely.geometry import LineString, Polygon

from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point


def polygon(*corners: tuple[float, float]) -> Ring:
    points = [Point(*corner) for corner in corners]
    return Ring([Line(a, b) for a, b in zip(points, [*points[1:], points[0]], strict=True)])


def polyline(*places: tuple[float, float]) -> Path:
    return Path([Line(Point(*a), Point(*b)) for a, b in pairwise(places)])


def ell(side: float = 60.0, arm: float = 20.0) -> Ring:
    """An L of two arms, anticlockwise from its outer corner."""
    return polygon((0, 0), (side, 0), (side, arm), (arm, arm), (arm, side), (0, side))


def dumbbell(neck: float) -> Ring:
    """Two 40 mm squares joined by a neck 20 mm long."""
    low, high = 20 - neck / 2, 20 + neck / 2
    left = ((0, 0), (40, 0), (40, low), (60, low), (60, 0), (100, 0))
    return polygon(*left, (100, 40), (60, 40), (60, high), (40, high), (40, 40), (0, 40))


FLAT_WITHIN = 0.002
"""Facets lie no farther than this off a large arc, in mm: its area is as good as that of a small one."""


def facets(legs: Sequence[Leg], step: float = 0.01) -> list[tuple[float, float]]:
    """Places along legs, an arc by one every `step` radians or closer, without the last end."""
    found = []
    for leg in legs:
        count = 1 if isinstance(leg, Line) else _count_of_facets(leg, step)
        found += [leg.point_at(leg.length * index / count) for index in range(count)]
    return [(point.x, point.y) for point in found]


def _count_of_facets(arc: Arc, step: float) -> int:
    """The sagitta of a facet is its angle squared by an eighth of the radius."""
    return max(4, ceil(abs(arc.sweep) / min(step, sqrt(8 * FLAT_WITHIN / arc.radius))))


def as_polygon(ring: Ring, step: float = 0.01) -> Polygon:
    return Polygon(facets(ring.legs, step))


def as_line(path: Path, step: float = 0.01) -> LineString:
    return LineString([*facets(path.legs, step), (path.end.x, path.end.y)])


def near(a: Point, b: Point, within: float = 1e-9) -> bool:
    return a.distance_to(b) <= within
