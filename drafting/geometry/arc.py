"""A curved leg: part of a circle."""

from __future__ import annotations

from math import pi

from drafting.geometry.bounds import Bounds
from drafting.geometry.faults import NotPositive, TooFlat, ZeroLength
from drafting.geometry.maths import Parted, atan2, copysign, cos, each_way, kept, least, most, sin
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import FULL_TURN, LARGEST_RADIUS, SAME_POINT
from drafting.records import dataclass

_ROUNDING = 1e-12
"""Radians: no more than rounding makes of an angle that is the very start or end of an arc."""
_SMALL_SWEEP = 0.02


@dataclass(frozen=True)
class Arc:
    """Part of a circle, walked from its start to its end.

    Lengths are mm and angles radians. A positive `sweep` turns anticlockwise, with x to the right and y up.
    An arc is less than a whole circle; a circle is two arcs.

    >>> round(Arc(Point(0, 0), radius=10, start_angle=0, sweep=pi / 2).length, 6)
    15.707963
    """

    center: Point
    radius: float
    start_angle: float
    sweep: float

    def __post_init__(self) -> None:
        if not self.radius > 0:
            raise NotPositive("radius", self.radius)
        if self.radius > LARGEST_RADIUS:
            raise TooFlat(self.radius)
        if not self.radius * abs(self.sweep) > SAME_POINT:
            raise ZeroLength(self.point_at_angle(self.start_angle))
        if abs(self.sweep) > FULL_TURN:
            raise ZeroLength(self.point_at_angle(self.start_angle))

    def point_at_angle(self, angle: float) -> Point:
        return Point(self.center.x + self.radius * cos(angle), self.center.y + self.radius * sin(angle))

    @kept
    def start(self) -> Point:
        return self.point_at_angle(self.start_angle)

    @kept
    def end(self) -> Point:
        return self.point_at_angle(self.end_angle)

    @property
    def end_angle(self) -> float:
        return self.start_angle + self.sweep

    @property
    def is_anticlockwise(self) -> bool:
        return self.sweep > 0

    @kept
    def turning(self) -> float:
        """1 when it turns anticlockwise, -1 when clockwise."""
        return copysign(1.0, self.sweep)

    @kept
    def length(self) -> float:
        return self.radius * abs(self.sweep)

    @property
    def height(self) -> float:
        """How far its middle stands off the straight line between its ends."""
        return 2 * self.radius * sin(self.sweep / 4) ** 2

    @kept
    @each_way
    def bounds(self) -> Bounds:
        start, end, x, y, radius = self.start, self.end, self.center.x, self.center.y, self.radius
        left, low, right, high = map(self.covers_angle, (pi, -pi / 2, 0.0, pi / 2))
        return Bounds(
            x - radius if left else min(start.x, end.x),
            y - radius if low else min(start.y, end.y),
            x + radius if right else max(start.x, end.x),
            y + radius if high else max(start.y, end.y),
        )

    def _turn_about(self, angle: float) -> float:
        """How far the arc turns from its start until it points at an angle; below 0 for one nearer to its start than to
        its end."""
        before = (FULL_TURN - abs(self.sweep)) / 2
        turn = angle - self.start_angle if self.sweep > 0 else self.start_angle - angle
        return (turn + before) % FULL_TURN - before

    def covers_angle(self, angle: float) -> bool:
        from_middle = (angle - self.start_angle - self.sweep / 2 + pi) % FULL_TURN - pi
        return abs(from_middle) <= abs(self.sweep) / 2 + _ROUNDING

    def point_at(self, s: float) -> Point:
        try:
            if s == self.length:
                return self.end
        except Parted:
            pass  # the end is then found as any other place
        return self.point_at_angle(self.start_angle + s / self.radius * self.turning)

    def direction_at(self, s: float) -> Vector:
        angle = self.start_angle + s / self.radius * self.turning
        turning = self.turning
        return Vector(-sin(angle) * turning, cos(angle) * turning)

    def place_of(self, point: Point) -> float:
        """How far along the whole circle the point lies square, from half a circle's rest before the start
        on.

        Below 0 before the start, above the length past the end, whichever is nearer.
        """
        return self._turn_about(atan2(point.y - self.center.y, point.x - self.center.x)) * self.radius

    def nearest(self, point: Point) -> float:
        """How far along the leg its nearest place to a point is."""
        place, length = self.place_of(point), self.length
        try:
            return 0.0 if place <= 0.0 else length if place > length else place
        except Parted:
            return least(most(place, 0.0), length)

    def distance_to_point(self, point: Point) -> float:
        place = self.place_of(point)
        try:
            if 0 <= place <= self.length:
                return abs(self.center.distance_to(point) - self.radius)
            return (self.start if place < 0 else self.end).distance_to(point)
        except Parted:
            return self.point_at(self.nearest(point)).distance_to(point)

    def part(self, s0: float, s1: float) -> Arc:
        turn = self.turning / self.radius
        return Arc(self.center, self.radius, self.start_angle + s0 * turn, (s1 - s0) * turn)

    def reversed(self) -> Arc:
        return Arc(self.center, self.radius, self.end_angle, -self.sweep)

    def mirrored(self, a: Point, b: Point) -> Arc:
        """Seen in the mirror line through a and b; it turns the other way."""
        center = self.center.mirrored(a, b)
        return Arc(center, self.radius, 2 * (b - a).angle - self.start_angle, -self.sweep)

    def moved(self, move: Vector) -> Arc:
        return Arc(self.center + move, self.radius, self.start_angle, self.sweep)

    def turned(self, angle: float, about: Point) -> Arc:
        return Arc(self.center.turned(angle, about), self.radius, self.start_angle + angle, self.sweep)

    def scaled(self, factor: float, about: Point) -> Arc:
        """Larger or smaller about a point; a negative factor turns it half round as well."""
        angle = self.start_angle if factor > 0 else self.start_angle + pi
        return Arc(self.center.scaled(factor, about), self.radius * abs(factor), angle, self.sweep)

    @kept
    def segment_area(self) -> float:
        """The area between the arc and the straight line of its ends, negative for a clockwise arc."""
        return self.radius**2 * _less_sine(self.sweep) / 2

    @kept
    def segment_moment(self) -> Vector:
        """`segment_area` times the place of its centroid, seen from the center of the circle."""
        reach = self.radius**3 * sin(self.sweep / 2) ** 3 * 2 / 3
        return Vector.at_angle(self.start_angle + self.sweep / 2) * reach


def _less_sine(angle: float) -> float:
    """angle - sin(angle), without the loss that a plain difference of small numbers has."""
    if abs(angle) > _SMALL_SWEEP:
        return angle - sin(angle)
    square = angle * angle
    return angle * square / 6 * (1 - square / 20 * (1 - square / 42))
