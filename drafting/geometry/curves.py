"""Curved legs from what a maker says of them, and the shapes without corners.

In come points, lengths and directions; out come lines and arcs. An arc that comes out straight within
SAME_POINT is returned as a Line; one that would be neither straight nor on a circle that can be held is a
fault, TooFlat.
"""

from __future__ import annotations

from math import pi

from drafting.geometry.arc import Arc
from drafting.geometry.corners import round_corners
from drafting.geometry.faults import (
    BowTooHigh,
    InLine,
    NotOneCircle,
    NotPositive,
    RadiusTooSmall,
    TwoWaysRound,
    ZeroLength,
)
from drafting.geometry.leg import Leg, line_if_any
from drafting.geometry.line import Line
from drafting.geometry.maths import asin, atan2
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.smooth import SmoothLegs, biarc, smooth_legs
from drafting.geometry.tangent_arc import arc_tangent, leg_from_chord
from drafting.geometry.tolerances import FULL_TURN, SAME_POINT

__all__ = [
    "SmoothLegs",
    "arc_about",
    "arc_bowed",
    "arc_tangent",
    "arc_through",
    "arc_with_radius",
    "biarc",
    "box",
    "circle",
    "obround",
    "smooth_legs",
]


def arc_bowed(start: Point, end: Point, height: float, to_left: bool) -> Leg:
    """The arc whose middle stands `height` off the straight line, on the left or right of the walk.

    At most half a circle; a height of 0 is a straight line.
    """
    chord = _expect_chord(start, end)
    if height < 0:
        raise NotPositive("bow", height)
    if height > chord / 2 + SAME_POINT:
        raise BowTooHigh(height, chord / 2)
    half_sweep = 2 * atan2(min(height, chord / 2), chord / 2)
    return leg_from_chord(start, end, -half_sweep if to_left else half_sweep)


def arc_with_radius(start: Point, end: Point, radius: float, to_left: bool) -> Leg:
    """The arc of a radius, the short way, that bows to the left or right of the walk."""
    chord = _expect_chord(start, end)
    if radius < chord / 2 - SAME_POINT:
        raise RadiusTooSmall(radius, chord / 2)
    half_sweep = asin(min(chord / (2 * radius), 1.0))
    return leg_from_chord(start, end, -half_sweep if to_left else half_sweep)


def arc_through(start: Point, mid: Point, end: Point) -> Arc:
    """The arc from start to end that passes through a third point."""
    _expect_chord(start, end)
    _expect_chord(start, mid)
    _expect_chord(mid, end)
    if _distance_off(mid, start, end) <= SAME_POINT:
        raise InLine((start, mid, end))
    turn_at_mid = (mid - start).angle_to(end - mid)
    leg = leg_from_chord(start, end, turn_at_mid)
    if isinstance(leg, Line):
        raise InLine((start, mid, end))
    return leg


def arc_about(center: Point, start: Point, end: Point, long: bool = False) -> Arc:
    """The arc with a center, the short way from start to end, or the long way round."""
    _expect_chord(start, end)
    first, second = center.distance_to(start), center.distance_to(end)
    if abs(first - second) > SAME_POINT * max(1.0, first / 1000):
        raise NotOneCircle(first, second)
    if min(first, second) <= SAME_POINT:
        raise ZeroLength(center)
    sweep = (start - center).angle_to(end - center)
    if (pi - abs(sweep)) * first <= SAME_POINT:
        raise TwoWaysRound(center)
    if long:
        sweep -= FULL_TURN if sweep > 0 else -FULL_TURN
    leg = leg_from_chord(start, end, sweep / 2)
    if isinstance(leg, Line):
        raise InLine((start, center, end))
    return leg


def _expect_chord(start: Point, end: Point) -> float:
    chord = start.distance_to(end)
    if chord <= SAME_POINT:
        raise ZeroLength(start)
    return chord


def _distance_off(point: Point, a: Point, b: Point) -> float:
    return abs((b - a).unit().cross(point - a))


def circle(center: Point, radius: float) -> Ring:
    """A whole circle as two arcs, anticlockwise from its rightmost point."""
    return Ring((Arc(center, radius, 0.0, pi), Arc(center, radius, pi, pi)))


def box(center: Point, width: float, height: float, direction: float = 0.0, rounded: float = 0.0) -> Ring:
    """A box about its center, its width lying in a direction; anticlockwise from its lower left corner.

    With `rounded` each corner is an arc of that radius; it may be half the smaller side, which gives an
    obround.
    """
    for what, size in (("width", width), ("height", height)):
        if not size > SAME_POINT:
            raise NotPositive(what, size)
    if rounded < 0:
        raise NotPositive("radius", rounded)
    along = Vector.at_angle(direction)
    wide, high = along * (width / 2), along.turned_left() * (height / 2)
    corners = [center - wide - high, center + wide - high, center + wide + high, center - wide + high]
    sharp = Ring([Line(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)])
    if rounded == 0:
        return sharp
    return round_corners(sharp, rounded)


def obround(center: Point, long: float, wide: float, direction: float = 0.0) -> Ring:
    """A slot with round ends, `long` over all; one as long as wide is a circle. Anticlockwise."""
    if not wide > SAME_POINT:
        raise NotPositive("width", wide)
    if long < wide - SAME_POINT:
        raise RadiusTooSmall(long, wide)
    radius, along = wide / 2, Vector.at_angle(direction)
    reach, across = along * max(long / 2 - radius, 0.0), along.turned_left() * radius
    first, second = center + reach, center - reach
    return Ring(
        (
            *line_if_any(second - across, first - across, SAME_POINT),
            Arc(first, radius, direction - pi / 2, pi),
            *line_if_any(first + across, second + across, SAME_POINT),
            Arc(second, radius, direction + pi / 2, pi),
        )
    )
