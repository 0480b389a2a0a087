"""Where legs and paths meet: crossings, touches, shared ends, and stretches laid on each other."""

from __future__ import annotations

from math import cos, pi, sin, sqrt

import pytest

from drafting.geometry.arc import Arc
from drafting.geometry.curves import box, circle, obround
from drafting.geometry.intersect import (
    leg_intersections,
    leg_overlap,
    path_intersections,
    path_overlaps,
    self_intersections,
)
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from tests.geometry.figures import near, polygon, polyline

LEVEL = Line(Point(-20, 3), Point(20, 3))
TOP_HALF = Arc(Point(0, 0), 5, 0, pi)


@pytest.mark.parametrize(
    ("a", "b", "expected"),
    [
        (LEVEL, Line(Point(4, -5), Point(4, 5)), [(4, 3)]),
        (LEVEL, Line(Point(4, -5), Point(4, 2.9)), []),
        (LEVEL, Line(Point(-20, 4), Point(20, 4)), []),
        (LEVEL, Line(Point(20, 3), Point(25, 9)), [(20, 3)]),
        (LEVEL, TOP_HALF, [(-4, 3), (4, 3)]),
        (TOP_HALF, LEVEL, [(4, 3), (-4, 3)]),
        (LEVEL, Arc(Point(0, 0), 5, 0, pi / 2), [(4, 3)]),
        (Line(Point(-9, 5), Point(9, 5)), TOP_HALF, [(0, 5)]),
        (Line(Point(-9, 5.001), Point(9, 5.001)), TOP_HALF, []),
        (TOP_HALF, Arc(Point(6, 0), 5, 0, 2 * pi - 0.01), [(3, 4)]),
        (TOP_HALF, Arc(Point(0, 8), 3, -pi, pi), [(0, 5)]),
        (TOP_HALF, Arc(Point(0, 2), 3, 0, pi), [(0, 5)]),
        (TOP_HALF, Arc(Point(0, 0), 4, 0, pi), []),
        (TOP_HALF, Arc(Point(0, 0), 5, pi, pi), [(5, 0), (-5, 0)]),
        (Line(Point(0, 0), Point(10, 0)), Line(Point(6, 0), Point(20, 0)), [(6, 0), (10, 0)]),
    ],
)
def test_two_legs_meet(a: Leg, b: Leg, expected: list[tuple[float, float]]) -> None:
    """In the order of the first, each place once; where one lies on the other, at the ends of the stretch."""
    found = leg_intersections(a, b)
    assert len(found) == len(expected)
    for meeting, place in zip(found, expected, strict=True):
        assert near(meeting.point, Point(*place), 1e-6)
        assert near(a.point_at(meeting.s_a), meeting.point, 1e-6)
        assert near(b.point_at(meeting.s_b), meeting.point, 1e-6)


@pytest.mark.parametrize(
    ("a", "b", "expected"),
    [
        (Line(Point(0, 0), Point(10, 0)), Line(Point(20, 0), Point(6, 0)), [(6, 10, 14, 10)]),
        (Line(Point(0, 0), Point(10, 0)), Line(Point(10, 0), Point(20, 0)), []),
        (Line(Point(0, 0), Point(10, 0)), Line(Point(0, 1e-3), Point(10, 1e-3)), []),
        (TOP_HALF, Arc(Point(0, 0), 5, pi / 2, pi), [(2.5 * pi, 5 * pi, 0, 2.5 * pi)]),
        (
            TOP_HALF,
            Arc(Point(0, 0), 5, 2.5, 2 * pi - 2),
            [(0, 2.5, 10 * pi - 12.5, 10 * pi - 10), (12.5, 5 * pi, 0, 5 * pi - 12.5)],
        ),
    ],
)
def test_legs_laid_on_each_other_tell_the_stretch(
    a: Leg, b: Leg, expected: list[tuple[float, float, float, float]]
) -> None:
    """From and to along the one, then along the other, which may run the other way; two arcs may share two."""
    found = leg_overlap(a, b)
    assert len(found) == len(expected)
    for stretch, wanted in zip(found, expected, strict=True):
        assert tuple(stretch) == pytest.approx(wanted)


def test_two_rings_meet_once_at_each_place() -> None:
    """Also at corners, which belong to two legs."""
    square = box(Point(0, 0), 20, 20)
    assert len(path_intersections(square, circle(Point(0, 0), 11))) == 8
    at_corner = path_intersections(square, Path([Line(Point(0, 20), Point(20, 0))]))
    assert len(at_corner) == 1 and near(at_corner[0].point, Point(10, 10))
    crossed = path_intersections(square, obround(Point(0, 0), 60, 6))
    assert [meeting.s_a for meeting in crossed] == pytest.approx([27, 33, 67, 73])


def test_rings_that_share_an_edge_overlap_along_it() -> None:
    found = path_overlaps(box(Point(0, 0), 20, 20), box(Point(20, 5), 20, 20))
    assert len(found) == 1 and tuple(found[0]) == pytest.approx((25, 40, 80, 65))


def test_a_ring_that_is_as_it_should_be_does_not_meet_itself() -> None:
    """Corners, tangent joints and sharp points are no meetings."""
    for ring in (box(Point(0, 0), 20, 20), circle(Point(0, 0), 5), obround(Point(0, 0), 20, 5, 0.3)):
        assert self_intersections(ring) == [] and ring.self_intersections() == []
    assert self_intersections(polyline((0, 0), (100, 0.01), (0, 0.02))) == []


def test_a_path_that_crosses_or_touches_itself_is_found_out() -> None:
    eight = polygon((0, 0), (10, 10), (10, 0), (0, 10))
    assert [near(point, Point(5, 5)) for point in eight.self_intersections()] == [True]
    touching = polygon((0, 0), (20, 0), (20, 10), (10, 0), (0, 10))
    assert any(near(point, Point(10, 0)) for point in touching.self_intersections())
    folded = polyline((0, 0), (10, 0), (4, 0))
    assert any(near(point, Point(4, 0)) for point in folded.self_intersections())
    turn = Arc(Point(0, 5), 5, -pi / 2, 1.9 * pi)
    loop = Path([Line(Point(-10, 0), Point(0, 0)), turn, Line(turn.end, Point(-20, -9))])
    assert len(loop.self_intersections()) == 1


def test_an_outline_of_many_legs_is_searched_by_boxes() -> None:
    """Five hundred legs, none of which meet but their neighbours; then one that does."""
    count = 500
    places = [
        (r * cos(2 * pi * index / count), r * sin(2 * pi * index / count))
        for index in range(count)
        for r in (100 + 5 * (index % 2),)
    ]
    assert self_intersections(polygon(*places)) == []
    places[100] = places[300]
    assert self_intersections(polygon(*places))


@pytest.mark.parametrize("factor", [1e-3, 1e3])
def test_tangency_is_found_at_every_size(factor: float) -> None:
    """A line that touches a circle, ten metres or a tenth of a millimetre across."""
    radius = 5 * factor
    line = Line(Point(-1 * factor, 7 * factor), Point(7 * factor, 1 * factor))
    found = leg_intersections(line, Arc(Point(0, 0), radius, -1, 4))
    assert len(found) == 1
    assert near(found[0].point, Point(3 * factor, 4 * factor), sqrt(2 * radius * 1e-6))


def test_a_ring_of_one_leg_more_than_a_touch() -> None:
    """Two arcs of one circle meet at both their ends, which are the ring's own corners."""
    ring = Ring([Arc(Point(0, 0), 5, 0, 4), Arc(Point(0, 0), 5, 4, 2 * pi - 4)])
    assert self_intersections(ring) == []
