"""Smooth legs: chains of tangent arcs through points, the way a flexible curve would be drawn with
compasses.

The direction at a point passed through is that of the circle through it and its neighbours; at an end it is
that of the last such circle, unless the maker says one. Each stretch between two points is then two tangent
arcs, a biarc (K. M. Bolton, "Biarc curves", Computer-Aided Design 7, 1975). One freedom is left, where the
two meet; both arcs get control arms of equal length, one of the choices weighed by D. S. Meek and D. J.
Walton ("Approximating smooth planar curves by arc splines", J. Comput. Appl. Math. 59, 1995; both named from
memory). Where both ends bend the same way and equal arms would make an S all the same, because one end bends
more than about three times as much as the other, the gentler end goes straight until one arc does the rest;
the two rules go over into each other. So a stretch swings both ways only where it must. The rules treat both
ends alike, so the curve is the same read backward and in a mirror, it grows with the figure, and it is a
single arc or a line wherever one fits.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from drafting.geometry.arc import Arc
from drafting.geometry.faults import InLine, NeedsDirection, TurnsBack, ZeroLength
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.maths import sqrt
from drafting.geometry.point import Point, Vector
from drafting.geometry.tangent_arc import arc_tangent, arc_tangent_at_end
from drafting.geometry.tolerances import SAME_DIRECTION, SAME_POINT
from drafting.records import dataclass


@dataclass(frozen=True)
class SmoothLegs:
    """The legs of a smooth leg. `swings` are its S-shaped stretches, counted from 0."""

    legs: tuple[Leg, ...]
    swings: tuple[int, ...]


def smooth_legs(
    points: Sequence[Point], leaving: Vector | None = None, arriving: Vector | None = None
) -> SmoothLegs:
    """A smooth leg from the first point through all others to the last."""
    for first, second in pairwise(points):
        if first.distance_to(second) <= SAME_POINT:
            raise ZeroLength(first)
    if len(points) == 2 and (leaving is None or arriving is None):
        return SmoothLegs((_one_arc(points[0], points[1], leaving, arriving),), ())
    directions = _directions(points, leaving, arriving)
    legs: list[Leg] = []
    swings: list[int] = []
    for index in range(len(points) - 1):
        stretch = biarc(points[index], directions[index], points[index + 1], directions[index + 1])
        legs.extend(stretch)
        if _swings(stretch):
            swings.append(index)
    return SmoothLegs(tuple(legs), tuple(swings))


def _one_arc(start: Point, end: Point, leaving: Vector | None, arriving: Vector | None) -> Leg:
    if leaving is not None:
        return arc_tangent(start, leaving, end)
    if arriving is not None:
        return arc_tangent_at_end(start, end, arriving)
    raise NeedsDirection


def _directions(points: Sequence[Point], leaving: Vector | None, arriving: Vector | None) -> list[Vector]:
    """The direction at each point, by the circles through three neighbours and what is said of the ends."""
    if len(points) == 2:
        if leaving is None or arriving is None:
            raise NeedsDirection
        return [leaving.unit(), arriving.unit()]
    threes = [_circle_directions(*points[index : index + 3]) for index in range(len(points) - 2)]
    first = threes[0][0] if leaving is None else leaving.unit()
    last = threes[-1][2] if arriving is None else arriving.unit()
    return [first, *(three[1] for three in threes), last]


def _circle_directions(a: Point, b: Point, c: Point) -> tuple[Vector, Vector, Vector]:
    """The directions at three points of the circle, or line, walked through them in order.

    A chord makes the same angle with the tangents at its ends, and where two chords meet that angle is the
    turn that the other chord subtends.
    """
    first, second = b - a, c - b
    turn = first.angle_to(second)
    if _is_about_turn(a, b, c):
        raise InLine((a, b, c))
    whole = c - a
    at_b = first.unit().turned(whole.angle_to(second))
    at_a = first.unit().turned(-whole.angle_to(second))
    at_c = second.unit().turned(turn - whole.angle_to(second))
    return at_a, at_b, at_c


def _is_about_turn(a: Point, b: Point, c: Point) -> bool:
    """True when the way from a by b to c goes back on itself in a line."""
    first, second = b - a, c - b
    off = abs(first.cross(second)) / max(first.length, second.length)
    return first.dot(second) < 0 and off <= SAME_POINT


def biarc(start: Point, leaving: Vector, end: Point, arriving: Vector) -> tuple[Leg, ...]:
    """Two tangent arcs between two points with a direction at each; one arc, or a line, where that fits."""
    single = _single(start, leaving, end, arriving)
    if single:
        return (single,)
    joint = _joint_of_equal_arms(start, leaving.unit(), end, arriving.unit())
    if min(joint.distance_to(start), joint.distance_to(end)) <= SAME_POINT:
        raise TurnsBack(start, end)
    pair = (arc_tangent(start, leaving, joint), arc_tangent_at_end(joint, end, arriving))
    if _swings(pair) and _bends_one_way(start, leaving, end, arriving):
        return _line_and_arc(start, leaving.unit(), end, arriving.unit())
    return pair


def _bends_one_way(start: Point, leaving: Vector, end: Point, arriving: Vector) -> bool:
    """True when one curve without a swing can leave and arrive so."""
    chord = end - start
    return leaving.cross(chord) * chord.cross(arriving) > 0


def _line_and_arc(start: Point, leaving: Vector, end: Point, arriving: Vector) -> tuple[Leg, ...]:
    """Straight on at the end that bends less, then one arc: both run as far as where the two directions cross."""
    chord, turn = end - start, leaving.cross(arriving)
    from_start, to_end = chord.cross(arriving) / turn, leaving.cross(chord) / turn
    if from_start > to_end:
        joint = start + leaving * (from_start - to_end)
        return Line(start, joint), arc_tangent_at_end(joint, end, arriving)
    joint = end - arriving * (to_end - from_start)
    return arc_tangent(start, leaving, joint), Line(joint, end)


def _single(start: Point, leaving: Vector, end: Point, arriving: Vector) -> Leg | None:
    try:
        leg = arc_tangent(start, leaving, end)
    except TurnsBack:
        return None
    arrives = leg.direction_at(leg.length)
    return leg if abs(arrives.angle_to(arriving)) <= SAME_DIRECTION else None


def _joint_of_equal_arms(start: Point, leaving: Vector, end: Point, arriving: Vector) -> Point:
    arm = _equal_arm(start, leaving, end, arriving)
    return (start + leaving * arm).midway(end - arriving * arm)


def _equal_arm(start: Point, leaving: Vector, end: Point, arriving: Vector) -> float:
    """The length of both control arms: the joint is midway between their tips, twice that length apart.

    |end - start - arm (leaving + arriving)| = 2 arm, solved for the root that goes over into a single arc.
    """
    across, both = end - start, leaving + arriving
    square, linear = 2 * (1 - leaving.dot(arriving)), across.dot(both)
    constant = across.dot(across)
    if square <= SAME_DIRECTION:
        if abs(linear) <= SAME_DIRECTION * across.length:
            raise TurnsBack(start, end)
        return constant / (2 * linear)
    root = sqrt(linear * linear + square * constant)
    return constant / (root + linear) if linear > 0 else (root - linear) / square


def _swings(stretch: tuple[Leg, ...]) -> bool:
    turnings = {leg.turning for leg in stretch if isinstance(leg, Arc)}
    return len(turnings) > 1
