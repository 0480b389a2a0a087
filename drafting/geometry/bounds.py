"""The upright box around something: quick to compare, and what `.width` and `.height` speak of."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from drafting.geometry.maths import Parted, least, most, plain_number
from drafting.geometry.point import Point, Vector


@dataclass(frozen=True, slots=True)
class Bounds:
    """The smallest upright box that holds a figure, in mm."""

    min_x: float
    min_y: float
    max_x: float
    max_y: float

    @staticmethod
    def around(points: Iterable[Point]) -> Bounds:
        """The box around one or more points."""
        held = list(points)
        xs, ys = [point.x for point in held], [point.y for point in held]
        return Bounds(least(*xs), least(*ys), most(*xs), most(*ys))

    @staticmethod
    def joining(boxes: Iterable[Bounds]) -> Bounds:
        """The box around one or more boxes."""
        held = list(boxes)
        return Bounds(
            least(*[box.min_x for box in held]),
            least(*[box.min_y for box in held]),
            most(*[box.max_x for box in held]),
            most(*[box.max_y for box in held]),
        )

    @property
    def width(self) -> float:
        return self.max_x - self.min_x

    @property
    def height(self) -> float:
        return self.max_y - self.min_y

    @property
    def center(self) -> Point:
        return Point((self.min_x + self.max_x) / 2, (self.min_y + self.max_y) / 2)

    def joined(self, other: Bounds) -> Bounds:
        return Bounds.joining((self, other))

    def grown(self, distance: float) -> Bounds:
        """The box with every side moved out."""
        return Bounds(
            self.min_x - distance, self.min_y - distance, self.max_x + distance, self.max_y + distance
        )

    def moved(self, move: Vector) -> Bounds:
        return Bounds(self.min_x + move.x, self.min_y + move.y, self.max_x + move.x, self.max_y + move.y)

    def quarter_turned(self) -> Bounds:
        """This box turned about (0, 0), anticlockwise."""
        return Bounds(-self.max_y, self.min_x, -self.min_y, self.max_x)

    def may_overlap(self, other: Bounds) -> bool:
        """True when the boxes share a point in some size, if they vary."""
        try:
            return self.overlaps(other)
        except Parted:
            return True

    def overlaps(self, other: Bounds) -> bool:
        """True when the two boxes share a point, edges included."""
        return (
            self.min_x <= other.max_x
            and other.min_x <= self.max_x
            and self.min_y <= other.max_y
            and other.min_y <= self.max_y
        )

    def may_contain(self, point: Point) -> bool:
        """True when the point is in the box in some size, if they vary."""
        try:
            return self.contains(point)
        except Parted:
            return True

    def contains(self, point: Point) -> bool:
        """True when the point is in the box or on its edge."""
        return self.min_x <= point.x <= self.max_x and self.min_y <= point.y <= self.max_y

    def distance_to(self, other: Bounds) -> float:
        """The gap between two boxes, 0 where they overlap: never more than that between what they hold."""
        across = most(other.min_x - self.max_x, self.min_x - other.max_x, 0.0)
        up = most(other.min_y - self.max_y, self.min_y - other.max_y, 0.0)
        return plain_number((across * across + up * up) ** 0.5)

    def distance_to_point(self, point: Point) -> float:
        """How far a point is from the box, 0 inside it."""
        across = most(self.min_x - point.x, point.x - self.max_x, 0.0)
        up = most(self.min_y - point.y, point.y - self.max_y, 0.0)
        return plain_number((across * across + up * up) ** 0.5)
