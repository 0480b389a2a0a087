"""The smallest gap between lines, and the places it lies between."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from drafting.geometry.arc import Arc
from drafting.geometry.curves import box, circle
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.nearness import gap_between, leg_gap, narrowest_place
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from tests.geometry.figures import polygon, polyline

TOP_HALF = Arc(Point(0, 0), 5, 0, pi)


@pytest.mark.parametrize(
    ("a", "b", "distance"),
    [
        (Line(Point(0, 0), Point(10, 0)), Line(Point(2, 3), Point(8, 4)), 3),
        (Line(Point(0, 0), Point(10, 0)), Line(Point(13, 4), Point(20, 4)), 5),
        (Line(Point(0, 0), Point(10, 0)), Line(Point(3, -1), Point(3, 1)), 0),
        (TOP_HALF, Line(Point(-9, 8), Point(9, 8)), 3),
        (TOP_HALF, Line(Point(-9, -8), Point(9, -8)), 8),
        (TOP_HALF, Line(Point(-1, 0), Point(1, 0)), 4),
        (TOP_HALF, Line(Point(0, 1), Point(0, 3)), 2),
        (TOP_HALF, Arc(Point(20, 0), 5, 0, 2 * pi - 1e-3), 10),
        (TOP_HALF, Arc(Point(0, 1), 2, 0, pi), 2),
        (TOP_HALF, Arc(Point(0, 0), 2, 0, pi), 3),
        (TOP_HALF, Arc(Point(0, -1), 2, pi, pi), sqrt(10)),
    ],
)
def test_the_gap_between_two_legs(a: Leg, b: Leg, distance: float) -> None:
    """Between ends, square to a line, or along the line of two centers; the same from either side."""
    for first, second in ((a, b), (b, a)):
        gap = leg_gap(first, second)
        assert gap.distance == pytest.approx(distance, abs=1e-9)
        assert gap.here.distance_to(gap.there) == pytest.approx(distance, abs=1e-9)
        assert first.distance_to_point(gap.here) < 1e-9 and second.distance_to_point(gap.there) < 1e-9


@pytest.mark.parametrize(
    ("a", "b", "distance"),
    [
        (circle(Point(0, 0), 5), circle(Point(20, 0), 3), 12),
        (circle(Point(0, 0), 10), circle(Point(2, 0), 3), 5),
        (circle(Point(0, 0), 10), circle(Point(12, 0), 3), 0),
        (box(Point(0, 0), 20, 10), circle(Point(13, 9), 3), 2),
        (box(Point(0, 0), 20, 10), polyline((-8, 0), (8, 0)), 2),
        (box(Point(0, 0), 20, 10), polyline((-12, -7), (12, -7)), 2),
    ],
)
def test_the_gap_between_two_paths(a: Path | Ring, b: Path | Ring, distance: float) -> None:
    """Between the lines themselves: what lies inside a ring has a gap to it, too."""
    assert a.distance_to(b) == pytest.approx(distance)
    assert b.distance_to(a) == pytest.approx(distance)


def test_a_gap_tells_its_places() -> None:
    gap = gap_between(box(Point(0, 0), 20, 10).legs, circle(Point(13, 9), 3).legs)
    assert gap.here.distance_to(Point(10, 5)) < 1e-9
    assert gap.there.distance_to(Point(13 - 9 / 5, 9 - 12 / 5)) < 1e-9


def test_the_narrowest_place_is_not_a_corner_where_neighbours_meet() -> None:
    """A plate with a peak in its floor that comes within 2 mm of its ceiling, and blunt corners besides."""
    ring = polygon((0, 0), (40, 0), (50, 28), (60, 0), (100, 0), (100, 30), (0, 30))
    place = narrowest_place(ring)
    assert place is not None
    assert place.distance_to(Point(50, 29)) < 1e-6
