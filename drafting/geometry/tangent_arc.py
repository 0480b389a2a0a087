"""Arcs by their chord and the angle they leave it at, which is how every arc between two points is made.

An arc that leaves its chord to the right by an angle turns left by twice that angle in all; the angle says
all there is to know, for flat arcs as well as for nearly whole circles.
"""

from __future__ import annotations

from math import pi

from drafting.geometry.arc import Arc
from drafting.geometry.faults import TooFlat, TurnsBack, ZeroLength
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.maths import cos, sin, tan
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import LARGEST_RADIUS, SAME_POINT, STRAIGHT


def leg_from_chord(start: Point, end: Point, half_sweep: float) -> Leg:
    """The arc from start to end that turns by twice `half_sweep`, left positive; straight when it does not
    turn.
    """
    chord = end - start
    if chord.length <= SAME_POINT:
        raise ZeroLength(start)
    height = chord.length / 2 * abs(tan(half_sweep / 2))
    if height <= STRAIGHT:
        return Line(start, end)
    radius = chord.length / (2 * sin(abs(half_sweep)))
    if radius > LARGEST_RADIUS:
        return _straightened(start, end, height, radius)
    to_center = _from_chord_to_center(chord, half_sweep)
    center = start.midway(end) + to_center
    return Arc(center, radius, (start - center).angle, 2 * half_sweep)


def _straightened(start: Point, end: Point, height: float, radius: float) -> Line:
    if height > SAME_POINT:
        raise TooFlat(radius)
    return Line(start, end)


def _from_chord_to_center(chord: Vector, half_sweep: float) -> Vector:
    """From the middle of the chord; the center is on the left of an arc that turns left, less than half
    round.
    """
    return chord.turned_left() * (cos(half_sweep) / (2 * sin(half_sweep)))


def arc_tangent(start: Point, direction: Vector, end: Point) -> Leg:
    """The one arc that leaves start in a direction and comes to end; a line where the end lies straight
    ahead.
    """
    chord = end - start
    if chord.length <= SAME_POINT:
        raise ZeroLength(start)
    half_sweep = direction.angle_to(chord)
    if (pi - abs(half_sweep)) * chord.length <= SAME_POINT:
        raise TurnsBack(start, end)
    return leg_from_chord(start, end, half_sweep)


def arc_tangent_at_end(start: Point, end: Point, direction: Vector) -> Leg:
    """The one arc that leaves start and arrives at end in a direction."""
    return arc_tangent(end, -direction, start).reversed()
