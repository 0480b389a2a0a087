"""The smallest gap between legs, exact, with the two places it lies between.

Two legs that do not meet come nearest either at an end of one of them or along the line through the centers
of their circles, or square from the center to the line. Boxes tell which pairs need not be looked at.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, product
from math import pi
from typing import TYPE_CHECKING

from drafting.geometry.arc import Arc
from drafting.geometry.bounds import Bounds
from drafting.geometry.cells import Cells
from drafting.geometry.intersect import leg_intersections
from drafting.geometry.leg import Leg, is_varied
from drafting.geometry.maths import each_way, first_least
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass

if TYPE_CHECKING:
    from drafting.geometry.walk import Walk


@dataclass(frozen=True)
class Gap:
    """A distance, and the places it lies between."""

    distance: float
    here: Point
    there: Point


def nearest_gap(gaps: Sequence[Gap]) -> Gap:
    """The smallest of some gaps; the first of those as small."""
    return first_least(gaps, _distance)


def _distance(gap: Gap) -> float:
    return gap.distance


@each_way
def leg_gap(a: Leg, b: Leg) -> Gap:
    """The smallest gap between two legs; 0 where they meet."""
    if a.bounds.overlaps(b.bounds):
        for meeting in leg_intersections(a, b):
            return Gap(0.0, meeting.point, meeting.point)
    return nearest_gap(list(_candidates(a, b)))


@each_way
def gap_between(a: Sequence[Leg], b: Sequence[Leg]) -> Gap:
    """The smallest gap between two lines of legs."""
    if any(map(is_varied, (*a, *b))):
        return _gap_in_each_size(a, b)
    pairs = product(range(len(a)), range(len(b)))
    best: Gap | None = None
    for least, i, j in sorted((a[i].bounds.distance_to(b[j].bounds), i, j) for i, j in pairs):
        if best is not None and least >= best.distance:
            break
        found = leg_gap(a[i], b[j])
        if best is None or found.distance < best.distance:
            best = found
    if best is None:
        raise ValueError("no legs to measure between")
    return best


def _gap_in_each_size(a: Sequence[Leg], b: Sequence[Leg]) -> Gap:
    from drafting.geometry.nearest_in_sizes import Boxes, least_of

    apart = Boxes([leg.bounds for leg in a]).apart_from(Boxes([leg.bounds for leg in b]))
    return least_of(apart, lambda at: leg_gap(a[at // len(b)], b[at % len(b)]), _distance)


def narrowest_place(walk: Walk) -> Point | None:
    """About where two parts of a line come nearest to each other for the way there is between them.

    Where they run side by side it is halfway along. None for a line of one leg.
    """
    best = float("inf")
    found: list[Gap] = []
    for i, j in combinations(range(len(walk.legs)), 2):
        a, b = walk.legs[i], walk.legs[j]
        if a.bounds.distance_to(b.bounds) > best * walk.length + SAME_POINT:
            continue
        gap = leg_gap(a, b)
        way = _way_between(walk, walk.starts[i] + a.nearest(gap.here), walk.starts[j] + b.nearest(gap.there))
        if way <= SAME_POINT:
            continue  # neighbours, which meet
        share = gap.distance / way
        as_near = [other for other in _candidates(a, b) if other.distance <= gap.distance + SAME_POINT]
        if share < best * 0.999 or (share < best * 1.001 and len(as_near) > len(found)):
            best, found = min(share, best), as_near
    return Bounds.around(gap.here.midway(gap.there) for gap in found).center if found else None


def _way_between(walk: Walk, s_a: float, s_b: float) -> float:
    """The way along a line from one place to another, of a ring the shorter one."""
    way = abs(s_b - s_a)
    closes = walk.start.distance_to(walk.end) <= SAME_POINT
    return min(way, walk.length - way) if closes else way


def _candidates(a: Leg, b: Leg) -> Iterator[Gap]:
    for end in (a.start, a.end):
        place = b.point_at(b.nearest(end))
        yield Gap(end.distance_to(place), end, place)
    for end in (b.start, b.end):
        place = a.point_at(a.nearest(end))
        yield Gap(end.distance_to(place), place, end)
    for here, there in _facing(a, b):
        yield Gap(here.distance_to(there), here, there)


def _facing(a: Leg, b: Leg) -> Iterator[tuple[Point, Point]]:
    """Pairs of places between the ends that face each other squarely."""
    if isinstance(a, Arc) and isinstance(b, Arc):
        across = b.center - a.center
        if across.length > 0:
            yield from ((p, q) for p in _at_angles(a, across.angle) for q in _at_angles(b, across.angle))
    elif isinstance(a, Arc):
        yield from ((p, q) for q, p in _facing(b, a))
    elif isinstance(b, Arc):
        foot = a.point_at(a.nearest(b.center))
        across = foot - b.center
        if across.length > 0:
            yield from ((foot, q) for q in _at_angles(b, across.angle))


def _at_angles(arc: Arc, angle: float) -> Iterator[Point]:
    """The places of an arc at an angle from its center and opposite to it, where it reaches so far."""
    for opposite in (0.0, pi):
        if arc.covers_angle(angle + opposite):
            yield arc.point_at_angle(angle + opposite)


def distinct_points(points: Iterable[Point]) -> tuple[Point, ...]:
    """The points in their order, those that lie on an earlier one left out."""
    seen: Cells[Point] = Cells(SAME_POINT)
    kept: list[Point] = []
    for point in points:
        if not any(old.distance_to(point) <= SAME_POINT for old in seen.near(point)):
            seen.put(point, point)
            kept.append(point)
    return tuple(kept)
