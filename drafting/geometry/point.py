"""Points and vectors: a place and a move, which are two types.

Point - Point is a Vector, Point + Vector a Point; two points cannot be added. Lengths are mm, angles radians,
anticlockwise from the right.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import overload

from drafting.geometry.faults import ZeroLength
from drafting.geometry.maths import atan2, cos, hypot, sin


@dataclass(frozen=True, slots=True)
class Vector:
    """A move across the sheet, or a direction when its length is 1."""

    x: float
    y: float

    @staticmethod
    def at_angle(angle: float) -> Vector:
        """The direction at an angle from the right."""
        return Vector(cos(angle), sin(angle))

    def __add__(self, other: Vector) -> Vector:
        if not isinstance(other, Vector):
            return NotImplemented
        return Vector(self.x + other.x, self.y + other.y)

    def __sub__(self, other: Vector) -> Vector:
        return Vector(self.x - other.x, self.y - other.y)

    def __mul__(self, factor: float) -> Vector:
        return Vector(self.x * factor, self.y * factor)

    __rmul__ = __mul__

    def __truediv__(self, divisor: float) -> Vector:
        return Vector(self.x / divisor, self.y / divisor)

    def __neg__(self) -> Vector:
        return Vector(-self.x, -self.y)

    @property
    def length(self) -> float:
        return hypot(self.x, self.y)

    @property
    def angle(self) -> float:
        """Radians from the right, anticlockwise, above -pi up to pi."""
        return atan2(self.y, self.x)

    def dot(self, other: Vector) -> float:
        return self.x * other.x + self.y * other.y

    def cross(self, other: Vector) -> float:
        """Positive when `other` points to the left of this one."""
        return self.x * other.y - self.y * other.x

    def turned_left(self) -> Vector:
        """The same length, a quarter turn anticlockwise."""
        return Vector(-self.y, self.x)

    def turned(self, angle: float) -> Vector:
        cosine, sine = cos(angle), sin(angle)
        return Vector(self.x * cosine - self.y * sine, self.x * sine + self.y * cosine)

    def angle_to(self, other: Vector) -> float:
        """How far to turn from this direction to the other, left positive, above -pi up to pi."""
        return atan2(self.cross(other), self.dot(other))

    def unit(self) -> Vector:
        length = self.length
        if length == 0:
            raise ZeroLength(Point(0.0, 0.0))
        return Vector(self.x / length, self.y / length)

    def mirrored(self, direction: Vector) -> Vector:
        """This move seen in a mirror that stands along a direction."""
        along = direction.unit()
        return along * (2 * self.dot(along)) - self


@dataclass(frozen=True, slots=True)
class Point:
    """A place on the sheet."""

    x: float
    y: float

    def __add__(self, move: Vector) -> Point:
        if not isinstance(move, Vector):
            return NotImplemented
        return Point(self.x + move.x, self.y + move.y)

    @overload
    def __sub__(self, other: Point) -> Vector: ...

    @overload
    def __sub__(self, other: Vector) -> Point: ...

    def __sub__(self, other: Point | Vector) -> Vector | Point:
        """The move from another point to this one, or this point moved back."""
        kind = Vector if isinstance(other, Point) else Point
        return kind(self.x - other.x, self.y - other.y)

    def distance_to(self, other: Point) -> float:
        return hypot(self.x - other.x, self.y - other.y)

    def midway(self, other: Point) -> Point:
        return Point((self.x + other.x) / 2, (self.y + other.y) / 2)

    def mirrored(self, a: Point, b: Point) -> Point:
        """This point seen in the mirror line through a and b."""
        if a == b:
            raise ZeroLength(a)
        return a + (self - a).mirrored(b - a)

    def moved(self, move: Vector) -> Point:
        return self + move

    def turned(self, angle: float, about: Point) -> Point:
        return about + (self - about).turned(angle)

    def scaled(self, factor: float, about: Point) -> Point:
        return about + (self - about) * factor
