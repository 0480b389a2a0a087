"""Cut moved legs at all their meetings, and keep the slices that are part of the offset.

A slice lies between two meetings, so that the whole of it keeps its distance or none of it does; its middle
tells.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from drafting.geometry.arc import Arc
from drafting.geometry.intersect import leg_intersections, near_pairs
from drafting.geometry.leg import Leg
from drafting.geometry.maths import each_way
from drafting.geometry.moved_legs import Moved
from drafting.geometry.point import Point
from drafting.geometry.tolerances import ON_OFFSET, SAME_POINT
from drafting.records import dataclass

_ROUNDING = 4e-15


@dataclass(frozen=True)
class Slice:
    """Part of a moved leg: which, from where and to where along it."""

    leg_index: int
    low: float
    high: float
    leg: Leg

    @property
    def start(self) -> Point:
        return self.leg.point_at(self.low)

    @property
    def end(self) -> Point:
        return self.leg.point_at(self.high)

    @property
    def midpoint(self) -> Point:
        return self.leg.point_at((self.low + self.high) / 2)

    @property
    def part(self) -> Leg:
        if self.low == 0.0 and self.high == self.leg.length:
            return self.leg
        return self.leg.part(self.low, self.high)


def slices_between_meetings(legs: tuple[Leg, ...], cutters: tuple[Leg, ...] = ()) -> list[Slice]:
    """All slices, in order along the legs; cutters only cut them."""
    stops: list[list[float]] = [[0.0, leg.length] for leg in legs]
    for i, j in near_pairs(legs, legs):
        if i >= j:
            continue
        for s_a, s_b, _ in leg_intersections(legs[i], legs[j]):
            stops[i].append(s_a)
            stops[j].append(s_b)
    for i, j in near_pairs(legs, cutters):
        stops[i].extend(s_a for s_a, _, _ in leg_intersections(legs[i], cutters[j]))
    found: list[Slice] = []
    for index, leg in enumerate(legs):
        held = _kept_apart(sorted(stops[index]), leg.length)
        found.extend(Slice(index, low, high, leg) for low, high in pairwise(held))
    return found


def _kept_apart(stops: Sequence[float], length: float) -> list[float]:
    """The stops without those that are one with the stop before, or with the end."""
    held = [0.0]
    for stop in stops:
        if stop - held[-1] > SAME_POINT and length - stop > SAME_POINT:
            held.append(stop)
    return [*held, length]


def slices_at_distance(
    moved: Moved, source: Sequence[Leg], distance: float, cutters: tuple[Leg, ...] = ()
) -> list[Slice]:
    """The slices of moved legs that come no nearer to the source than the distance, nor lie inside a mitre."""
    nearness = _Nearness(source, distance)
    return [
        one
        for one in slices_between_meetings(moved.legs, cutters)
        if not nearness.is_too_near(one.midpoint)
        and not any(mitre.contains_strictly(one.midpoint) for mitre in moved.mitres)
    ]


class _Nearness:
    """Tells whether a place is nearer than a distance to any of many legs."""

    def __init__(self, legs: Sequence[Leg], distance: float) -> None:
        largest = max((leg.radius for leg in legs if isinstance(leg, Arc)), default=0.0)
        self.least = distance - ON_OFFSET - largest * _ROUNDING
        boxes = [leg.bounds.grown(self.least) for leg in legs]
        self.boxes = [
            (box.min_x, box.max_x, box.min_y, box.max_y, leg) for box, leg in zip(boxes, legs, strict=True)
        ]

    @each_way
    def is_too_near(self, place: Point) -> bool:
        x, y = place.x, place.y
        return any(
            leg.distance_to_point(place) < self.least
            for min_x, max_x, min_y, max_y, leg in self.boxes
            if min_x < x < max_x and min_y < y < max_y
        )
