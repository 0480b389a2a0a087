"""Paths: legs that meet. A Path is open, a Ring comes back to its start and has an inside.

Both are values that never change; moving, mirroring and cutting give new ones. Places on them are lengths
from the start, in mm.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.geometry.arc import Arc
from drafting.geometry.faults import ZeroLength
from drafting.geometry.inside import contains_polygon, is_inside, polygon_area, polygon_moment
from drafting.geometry.leg import Leg, turn_between
from drafting.geometry.maths import each_way, kept
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.geometry.walk import Walk, expect_closed

_AT_START = 1e-9
"""mm before the start that rounding alone can make of the start itself."""


class Path(Walk):
    """An open line of legs, from its start to its end.

    >>> from drafting.geometry.line import Line
    >>> way = Path((Line(Point(0, 0), Point(30, 0)), Line(Point(30, 0), Point(30, 20))))
    >>> way.length, way.point_at(40), way.corners
    (50.0, Point(x=30.0, y=10.0), (Point(x=30, y=0),))
    """

    def part(self, s0: float, s1: float) -> Path:
        """From one place to another; walked backward when s1 is the smaller."""
        low, high = self.within(min(s0, s1)), self.within(max(s0, s1))
        legs = self.pieces(low, high)
        if not legs:
            raise ZeroLength(self.point_at(low))
        return Path(legs) if s0 <= s1 else Path(legs).reversed()

    def joined(self, other: Path) -> Path:
        """This path, and on along the other, which starts where this one ends."""
        return Path((*self.legs, *other.legs))


class Ring(Walk):
    """A closed line of legs: the last one ends where the first one starts."""

    def __init__(self, legs: Sequence[Leg]) -> None:
        super().__init__(legs)
        expect_closed(self.legs)

    @property
    def corners(self) -> tuple[Point, ...]:
        """The points where one leg meets the next, the start first."""
        return tuple(leg.start for leg in self.legs)

    @kept
    def turns(self) -> tuple[float, ...]:
        """How far the walk turns at each of `corners`, in radians, left positive."""
        return tuple(turn_between(self.legs[index - 1], leg) for index, leg in enumerate(self.legs))

    @property
    def corner_places(self) -> tuple[float, ...]:
        """Where each of `corners` lies, as length from the start."""
        return self.starts[:-1]

    @each_way
    def within(self, s: float) -> float:
        """The same place, counted from 0 and short of the length: a ring goes round and round."""
        held = s % self.length
        return 0.0 if self.length - held <= _AT_START else held

    def leg_before(self, s: float) -> tuple[int, float]:
        held = self.within(s)
        if held == 0.0:
            return len(self.legs) - 1, self.legs[-1].length
        return super().leg_before(held)

    def locate(self, point: Point) -> float | None:
        """How far along a point lies, or None when it is not on the ring; its start is always 0."""
        place = super().locate(point)
        if place is None:
            return None
        return 0.0 if self.length - place <= SAME_POINT else place

    def part(self, s0: float, s1: float) -> Path:
        """From one place forward to another, past the start where it must; from a place to itself all the
        way.
        """
        low, high = self.within(s0), self.within(s1)
        if high - low > SAME_POINT:
            return Path(self.pieces(low, high))
        return Path((*self.pieces(low, self.length), *self.pieces(0.0, high)))

    def starting_at(self, s: float) -> Ring:
        """The same ring with another start; a leg that the start falls on becomes two."""
        return Ring(self.part(s, s).legs)

    @kept
    def signed_area(self) -> float:
        """The area in mm², negative when the ring is walked clockwise."""
        segments = sum(leg.segment_area for leg in self.legs if isinstance(leg, Arc))
        return polygon_area(self.corners) + segments

    @property
    def area(self) -> float:
        """The area in mm²."""
        return abs(self.signed_area)

    @property
    def is_anticlockwise(self) -> bool:
        return self.signed_area > 0

    @property
    def is_anticlockwise_by_corners(self) -> bool:
        """As walked from corner to corner, bows ignored; a ring with fewer than three corners goes by its
        bows.
        """
        area = polygon_area(self.corners)
        return area > 0 if abs(area) > SAME_POINT**2 else self.is_anticlockwise

    @kept
    def centroid(self) -> Point:
        """The point it would balance on."""
        origin = self.start
        moment = polygon_moment(self.corners, origin)
        for leg in self.legs:
            if isinstance(leg, Arc):
                moment = moment + (leg.center - origin) * leg.segment_area + leg.segment_moment
        return origin + moment / self.signed_area

    @each_way
    def contains(self, point: Point) -> bool:
        """True when the point is inside or on the line itself."""
        if not self.bounds.grown(SAME_POINT).may_contain(point):
            return False
        return self._is_inside(point) or self._is_on_line(point)

    @each_way
    def contains_strictly(self, point: Point) -> bool:
        """True when the point is inside and not on the line itself."""
        return self._is_inside(point) and not self._is_on_line(point)

    def _is_inside(self, point: Point) -> bool:
        if self._varies_beside(point):
            return is_inside(self.legs, point, self._boxes.right_of_point(point, SAME_POINT))
        return is_inside(self.legs, point)

    def _is_on_line(self, point: Point) -> bool:
        if self._varies_beside(point):
            near = self._boxes.near_point(point, SAME_POINT)
            return any(self.legs[at].distance_to_point(point) <= SAME_POINT for at in near)
        x, y = point.x, point.y
        for _, leg, left, low, right, high in self._boxed:
            # As a box that contains the point, written out: a pattern asks for it some ten thousand times.
            is_near = (
                left - SAME_POINT <= x <= right + SAME_POINT and low - SAME_POINT <= y <= high + SAME_POINT
            )
            if is_near and leg.distance_to_point(point) <= SAME_POINT:
                return True
        return False

    @each_way
    def corner_contains(self, point: Point) -> bool:
        """Judged on its corners with bows ignored, so that no bow can turn a ring inside out.

        A ring that has no area by its corners, such as a circle of two arcs, is judged as it is.
        """
        if abs(polygon_area(self.corners)) <= SAME_POINT * self.length:
            return self.contains(point)
        return contains_polygon(self.corners, point)

    def inward_at(self, s: float) -> Vector:
        """The direction straight into the ring at a place; at a corner that of the leg ahead."""
        left = self.direction_at(s).turned_left()
        return left if self.is_anticlockwise else -left
