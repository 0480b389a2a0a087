"""Hypothesis strategies: points, legs, open paths, and rings of lines and arcs that do not cross themselves."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from math import cos, pi, sin

from hypothesis import assume
from hypothesis import strategies as st

from drafting.geometry.arc import Arc
from drafting.geometry.curves import arc_bowed
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector

shares = st.floats(0, 1)
angles = st.floats(-7, 7)


def lengths(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_subnormal=False)


points = st.builds(Point, lengths(-100, 100), lengths(-100, 100))
directions = st.builds(Vector.at_angle, angles)
arcs = st.builds(
    Arc,
    points,
    lengths(0.1, 200),
    angles,
    st.one_of(lengths(0.01, 2 * pi - 0.01), lengths(0.01 - 2 * pi, -0.01)),
)


@st.composite
def lines(draw: st.DrawFn) -> Line:
    start = draw(points)
    return Line(start, start + draw(directions) * draw(lengths(0.1, 200)))


legs: st.SearchStrategy[Leg] = st.one_of(lines(), arcs)


def _bows(draw: st.DrawFn, places: Sequence[Point]) -> list[Leg]:
    """Legs from place to place, some bowed to either side by at most half a circle."""
    found: list[Leg] = []
    for start, end in itertools.pairwise(places):
        chord = start.distance_to(end)
        bow = draw(st.one_of(st.none(), lengths(0.005, 0.5)))
        found.append(
            Line(start, end) if bow is None else arc_bowed(start, end, bow * chord, draw(st.booleans()))
        )
    return found


@st.composite
def paths(draw: st.DrawFn) -> Path:
    """Two to six legs from place to place; they may cross."""
    places = [draw(points)]
    for _ in range(draw(st.integers(2, 6))):
        places.append(places[-1] + draw(directions) * draw(lengths(1, 60)))
    return Path(_bows(draw, places))


@st.composite
def rings(draw: st.DrawFn) -> Ring:
    """Three to eight corners round a middle, joined by lines and arcs that do not meet."""
    count = draw(st.integers(3, 8))
    turns = [2 * pi * (index + draw(lengths(-0.3, 0.3))) / count for index in range(count)]
    reaches = [draw(lengths(20, 60)) for _ in range(count)]
    places = [Point(reach * cos(turn), reach * sin(turn)) for reach, turn in zip(reaches, turns, strict=True)]
    ring = Ring(_bows(draw, [*places, places[0]]))
    assume(not ring.self_intersections())
    return ring.reversed() if draw(st.booleans()) else ring


@st.composite
def convex_polygons(draw: st.DrawFn) -> Ring:
    """Corners on a circle, so that every corner turns the same way."""
    count = draw(st.integers(3, 8))
    radius = draw(lengths(30, 80))
    turns = [2 * pi * (index + draw(lengths(-0.2, 0.2))) / count for index in range(count)]
    places = [Point(radius * cos(turn), radius * sin(turn)) for turn in turns]
    return Ring([Line(a, b) for a, b in zip(places, [*places[1:], places[0]], strict=True)])
