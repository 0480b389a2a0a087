"""A straight leg."""

from __future__ import annotations

from drafting.geometry.bounds import Bounds
from drafting.geometry.faults import ZeroLength
from drafting.geometry.maths import Parted, kept, least, most
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass


@dataclass(frozen=True)
class Line:
    """A straight leg, walked from its start to its end.

    >>> Line(Point(0, 0), Point(30, 40)).length
    50.0
    """

    start: Point
    end: Point

    def __post_init__(self) -> None:
        if not self.start.distance_to(self.end) > SAME_POINT:
            raise ZeroLength(self.start)

    @kept
    def length(self) -> float:
        return self.start.distance_to(self.end)

    @kept
    def direction(self) -> Vector:
        """The one direction it has all along, of length 1."""
        return (self.end - self.start) / self.length

    @kept
    def bounds(self) -> Bounds:
        return Bounds.around((self.start, self.end))

    def point_at(self, s: float) -> Point:
        try:
            if s == self.length:
                return self.end
        except Parted:
            pass  # the end is then found as any other place
        start, direction = self.start, self.direction
        return Point(start.x + direction.x * s, start.y + direction.y * s)

    def direction_at(self, s: float) -> Vector:
        return self.direction

    def place_of(self, point: Point) -> float:
        """How far along the endless line the point lies square: below 0 before the start."""
        start, direction = self.start, self.direction
        return (point.x - start.x) * direction.x + (point.y - start.y) * direction.y

    def nearest(self, point: Point) -> float:
        """How far along the leg its nearest place to a point is."""
        place, length = self.place_of(point), self.length
        try:
            return 0.0 if place <= 0.0 else length if place > length else place
        except Parted:
            return least(most(place, 0.0), length)

    def distance_to_point(self, point: Point) -> float:
        return self.point_at(self.nearest(point)).distance_to(point)

    def part(self, s0: float, s1: float) -> Line:
        return Line(self.point_at(s0), self.point_at(s1))

    def reversed(self) -> Line:
        return Line(self.end, self.start)

    def mirrored(self, a: Point, b: Point) -> Line:
        return Line(self.start.mirrored(a, b), self.end.mirrored(a, b))

    def moved(self, move: Vector) -> Line:
        return Line(self.start + move, self.end + move)

    def turned(self, angle: float, about: Point) -> Line:
        return Line(self.start.turned(angle, about), self.end.turned(angle, about))

    def scaled(self, factor: float, about: Point) -> Line:
        return Line(self.start.scaled(factor, about), self.end.scaled(factor, about))
