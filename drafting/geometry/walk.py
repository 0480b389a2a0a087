"""What open and closed paths share: legs that meet, walked from a start by the length covered so far.

Cumulative lengths are kept, so a place is found by bisection and thousands of questions stay cheap.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import accumulate
from operator import itemgetter
from typing import TYPE_CHECKING, TypeVar

from drafting.geometry.bounds import Bounds
from drafting.geometry.faults import NotJoined, OffTheLine
from drafting.geometry.intersect import self_intersections
from drafting.geometry.leg import Leg, is_varied, turn_between
from drafting.geometry.maths import each_way, kept, varies
from drafting.geometry.nearness import gap_between
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass

if TYPE_CHECKING:
    from drafting.geometry.nearest_in_sizes import Boxes

Itself = TypeVar("Itself", bound="Walk")


@dataclass(frozen=True)
class Walk:
    """Legs in order, each starting where the one before ends. `Path` and `Ring` are the two kinds."""

    legs: tuple[Leg, ...]

    def __init__(self, legs: Sequence[Leg]) -> None:
        object.__setattr__(self, "legs", tuple(legs))
        if not self.legs:
            raise ValueError("a path has at least one leg")
        for index, (before, after) in enumerate(zip(self.legs, self.legs[1:], strict=False), start=1):
            _expect_joined(index, before, after)

    @kept
    def starts(self) -> tuple[float, ...]:
        """Where each leg starts, as length from the start of the walk; one more entry for the end."""
        return tuple(accumulate((leg.length for leg in self.legs), initial=0.0))

    @kept
    def _boxed(self) -> tuple[tuple[float, Leg, float, float, float, float], ...]:
        """Each leg with its start, and the left, low, right and high of its box."""
        boxes = ((leg, leg.bounds) for leg in self.legs)
        return tuple(
            (start, leg, box.min_x, box.min_y, box.max_x, box.max_y)
            for start, (leg, box) in zip(self.starts, boxes, strict=False)
        )

    @kept
    def _is_varied(self) -> bool:
        return any(map(is_varied, self.legs))

    def _varies_beside(self, point: Point) -> bool:
        """Whether it or the point differs from size to size."""
        return self._is_varied or varies(point.x) or varies(point.y)

    @kept
    def _boxes(self) -> Boxes:
        from drafting.geometry.nearest_in_sizes import Boxes

        return Boxes([leg.bounds for leg in self.legs])

    @property
    def length(self) -> float:
        return self.starts[-1]

    @property
    def start(self) -> Point:
        return self.legs[0].start

    @property
    def end(self) -> Point:
        return self.legs[-1].end

    @property
    def midpoint(self) -> Point:
        """The place half its length from the start."""
        return self.point_at(self.length / 2)

    @kept
    def bounds(self) -> Bounds:
        return Bounds.joining(leg.bounds for leg in self.legs)

    @property
    def width(self) -> float:
        """From its leftmost to its rightmost place."""
        return self.bounds.width

    @property
    def height(self) -> float:
        """From its lowest to its highest place."""
        return self.bounds.height

    @property
    def corners(self) -> tuple[Point, ...]:
        """The points where one leg meets the next."""
        return tuple(leg.start for leg in self.legs[1:])

    @kept
    def turns(self) -> tuple[float, ...]:
        """How far the walk turns at each of `corners`, in radians, left positive."""
        return tuple(turn_between(a, b) for a, b in zip(self.legs, self.legs[1:], strict=False))

    @property
    def corner_places(self) -> tuple[float, ...]:
        """Where each of `corners` lies, as length from the start."""
        return self.starts[1:-1]

    @each_way
    def within(self, s: float) -> float:
        """The same place, from 0 to the length; a place off the walk is a fault."""
        if not -SAME_POINT <= s <= self.length + SAME_POINT:
            raise OffTheLine(s, self.length)
        return min(max(s, 0.0), self.length)

    def leg_at(self, s: float) -> tuple[int, float]:
        """The leg that a place lies on, by index, and how far along that leg. At a corner it is the leg
        ahead.
        """
        held = self.within(s)
        index = min(bisect_right(self.starts, held) - 1, len(self.legs) - 1)
        return index, min(held - self.starts[index], self.legs[index].length)

    def leg_before(self, s: float) -> tuple[int, float]:
        """As `leg_at`, but at a corner the leg that leads to it."""
        held = self.within(s)
        index = max(bisect_left(self.starts, held) - 1, 0)
        return index, min(held - self.starts[index], self.legs[index].length)

    @each_way
    def point_at(self, s: float) -> Point:
        index, along = self.leg_at(s)
        return self.legs[index].point_at(along)

    @each_way
    def direction_at(self, s: float) -> Vector:
        """The direction of the walk at a place; at a corner that of the leg ahead."""
        index, along = self.leg_at(s)
        return self.legs[index].direction_at(along)

    @each_way
    def direction_before(self, s: float) -> Vector:
        """The direction of the walk at a place; at a corner that of the leg that leads to it."""
        index, along = self.leg_before(s)
        return self.legs[index].direction_at(along)

    @each_way
    def nearest(self, point: Point) -> tuple[float, Point]:
        """The place nearest to a point and where that is; the earliest of several that are as near."""
        if self._varies_beside(point):
            return self._nearest_in_each_size(point)
        x, y = point.x, point.y
        best, place, found = float("inf"), 0.0, self.start
        for start, leg, left, low, right, high in self._boxed:
            # As Bounds.distance_to_point, written out: a size asks for it some ten thousand times.
            across = left - x if x < left else x - right if x > right else 0.0
            up = low - y if y < low else y - high if y > high else 0.0
            if (across * across + up * up) ** 0.5 >= best:
                continue
            along = leg.nearest(point)
            there = leg.point_at(along)
            distance = there.distance_to(point)
            if distance < best:
                best, place, found = distance, start + along, there
        return place, found

    def _nearest_in_each_size(self, point: Point) -> tuple[float, Point]:
        from drafting.geometry.nearest_in_sizes import least_of

        def measure(at: int) -> tuple[float, float, Point]:
            along = self.legs[at].nearest(point)
            there = self.legs[at].point_at(along)
            return there.distance_to(point), self.starts[at] + along, there

        _, place, found = least_of(self._boxes.apart_from_point(point), measure, itemgetter(0), True)
        return place, found

    def distance_to_point(self, point: Point) -> float:
        return self.nearest(point)[1].distance_to(point)

    @each_way
    def locate(self, point: Point) -> float | None:
        """How far along a point lies, or None when it is not on the walk."""
        place, found = self.nearest(point)
        return place if found.distance_to(point) <= SAME_POINT else None

    def distance_to(self, other: Walk) -> float:
        """The smallest gap between the two lines, 0 where they touch or cross."""
        return gap_between(self.legs, other.legs).distance

    def self_intersections(self) -> list[Point]:
        """The places where it crosses, touches or lies on itself, in the order it is walked."""
        return [meeting.point for meeting in self_intersections(self)]

    def pieces(self, s0: float, s1: float) -> tuple[Leg, ...]:
        """The legs from one place forward to a later one, cut to fit; nothing where they are one place."""
        found: list[Leg] = []
        for start, leg in zip(self.starts, self.legs, strict=False):
            low, high = max(s0 - start, 0.0), min(s1 - start, leg.length)
            if low <= 0 and high >= leg.length:
                found.append(leg)
            elif high - low > SAME_POINT:
                found.append(leg.part(low, high))
        return tuple(found)

    def mirrored(self: Itself, a: Point, b: Point) -> Itself:
        """Seen in the mirror line through a and b, walked in the same order."""
        return type(self)(tuple(leg.mirrored(a, b) for leg in self.legs))

    def reversed(self: Itself) -> Itself:
        return type(self)(tuple(leg.reversed() for leg in reversed(self.legs)))

    def moved(self: Itself, move: Vector) -> Itself:
        return type(self)(tuple(leg.moved(move) for leg in self.legs))

    def turned(self: Itself, angle: float, about: Point) -> Itself:
        return type(self)(tuple(leg.turned(angle, about) for leg in self.legs))

    def scaled(self: Itself, factor: float, about: Point) -> Itself:
        return type(self)(tuple(leg.scaled(factor, about) for leg in self.legs))


def _expect_joined(index: int, before: Leg, after: Leg) -> None:
    if before.end.distance_to(after.start) > SAME_POINT:
        raise NotJoined(index, before.end, after.start)


def expect_closed(legs: Sequence[Leg]) -> None:
    """A ring's last leg ends where its first one starts."""
    _expect_joined(0, legs[-1], legs[0])
