"""What rules ask of shapes: does a line leave a piece, how long and wide is a piece, which way does it lie."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from drafting.geometry.arc import Arc
from drafting.geometry.intersect import path_intersections
from drafting.geometry.maths import each_way, first_least, least, most
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass

LEG_OF_NOTE = 0.1
"""A leg of less than this part of the way round does not tell which way a piece lies."""


@dataclass(frozen=True)
class Lying:
    """A piece's greatest length, its width square to it, and the direction of its length."""

    long: float
    wide: float
    direction: Vector


def leaves_at(line: Path | Ring, outline: Ring) -> tuple[float, Point] | None:
    """How far a line leaves a ring and where; None when it stays inside or on it."""
    if _is_well_inside(line, outline):
        return None
    outside = [(outline.distance_to_point(point), point) for point in _places_outside(line, outline)]
    beyond = [one for one in outside if one[0] > SAME_POINT]
    return max(beyond, key=lambda one: (one[0], one[1].x, one[1].y), default=None)


def _is_well_inside(line: Path | Ring, outline: Ring) -> bool:
    inner, outer = line.bounds, outline.bounds
    in_box = outer.min_x <= inner.min_x and inner.max_x <= outer.max_x
    in_box = in_box and outer.min_y <= inner.min_y and inner.max_y <= outer.max_y
    return in_box and not path_intersections(line, outline) and outline.contains(line.start)


def _places_outside(line: Path | Ring, outline: Ring) -> Iterator[Point]:
    """Between one crossing and the next a line is all inside or all outside, so one place tells."""
    stops = sorted({0.0, line.length, *(meeting.s_a for meeting in path_intersections(line, outline))})
    for a, b in pairwise(stops):
        if b - a > SAME_POINT and not outline.contains(line.point_at((a + b) / 2)):
            yield from (line.point_at(place) for place in _between(line, a, b))


def _between(line: Path | Ring, a: float, b: float) -> Iterator[float]:
    yield (a + b) / 2
    yield from (place for place in line.starts if a < place < b)


@each_way
def lying_of(ring: Ring) -> Lying:
    """The narrowest box round a ring, set along one of its longer legs, or level."""
    legs = [leg for leg in ring.legs if leg.length >= LEG_OF_NOTE * ring.length]
    chords = [leg.end - leg.start for leg in legs]
    ways = [Vector(1.0, 0.0), *(chord.unit() for chord in chords if chord.length > SAME_POINT)]
    points = [leg.start for leg in ring.legs]
    points += [leg.point_at(leg.length / 2) for leg in ring.legs if isinstance(leg, Arc)]
    return first_least([_along(points, way) for way in ways], lambda lying: lying.long * lying.wide)


@each_way
def _along(points: list[Point], way: Vector) -> Lying:
    origin = points[0]
    forward = [(point - origin).dot(way) for point in points]
    aside = [(point - origin).dot(way.turned_left()) for point in points]
    long, wide = most(*forward) - least(*forward), most(*aside) - least(*aside)
    return Lying(long, wide, way) if long >= wide else Lying(wide, long, way.turned_left())


def angle_between(first: Vector, second: Vector) -> float:
    """The angle between two lines, from 0 to a quarter turn, whichever way they point."""
    turn = abs(first.angle_to(second))
    return min(turn, abs(turn - 2 * _QUARTER))


_QUARTER = Vector(1.0, 0.0).angle_to(Vector(0.0, 1.0))
