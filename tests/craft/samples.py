"""Lines that the tests of this room share."""

from __future__ import annotations

from itertools import pairwise
from math import pi

from drafting.geometry.arc import Arc
from drafting.geometry.line import Line
from drafting.geometry.path import Path
from drafting.geometry.point import Point


def straight(length: float) -> Path:
    return Path((Line(Point(0, 0), Point(length, 0)),))


def chain(*corners: tuple[float, float]) -> Path:
    points = [Point(x, y) for x, y in corners]
    return Path([Line(a, b) for a, b in pairwise(points)])


def hook() -> Path:
    """A straight leg, a half circle and a straight leg back, without a corner."""
    there, back = Line(Point(0, 0), Point(60, 0)), Line(Point(60, 40), Point(0, 40))
    return Path((there, Arc(Point(60, 20), 20, -pi / 2, pi), back))
