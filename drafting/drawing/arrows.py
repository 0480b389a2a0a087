"""Ends of lines: arrowheads, dots and small crosses.

An arrowhead is closed, filled, 15 degrees wide and as long as the figures beside it are high (ISO 129-1).
"""

from __future__ import annotations

from math import pi, radians, tan

from drafting.drawing.lines import DIMENSION, LineKind
from drafting.drawing.marks import Stroke
from drafting.geometry.arc import Arc
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector

ARROW_ANGLE = radians(15)
DOT_RADIUS = 0.5


def arrowhead(tip: Point, pointing: Vector, length: float) -> Stroke:
    """A filled arrowhead whose tip points in a direction of length 1."""
    back = tip + pointing * -length
    side = pointing.turned_left() * (length * tan(ARROW_ANGLE / 2))
    left, right = back + side, back + -side
    return Stroke(DIMENSION, Ring((Line(tip, left), Line(left, right), Line(right, tip))), is_filled=True)


def dot(center: Point) -> Stroke:
    """A filled dot: the end of a leader that points into a surface."""
    halves = (Arc(center, DOT_RADIUS, 0.0, pi), Arc(center, DOT_RADIUS, pi, pi))
    return Stroke(DIMENSION, Ring(halves), is_filled=True)


def straight(kind: LineKind, start: Point, end: Point) -> Stroke:
    return Stroke(kind, Path((Line(start, end),)))


def cross(kind: LineKind, center: Point, along: Vector, reach: float) -> tuple[Stroke, Stroke]:
    """Two lines that cross, the first along a direction."""
    across = along.turned_left()
    return (
        straight(kind, center + along * -reach, center + along * reach),
        straight(kind, center + across * -reach, center + across * reach),
    )
