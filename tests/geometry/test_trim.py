"""Cutting a ring by a line, and lines from edge to edge."""

from __future__ import annotations

from math import pi

import pytest

from drafting.geometry.curves import box, circle
from drafting.geometry.faults import CutFallsApart, CutMisses
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.trim import cut_ring, lines_across
from tests.geometry.figures import near, polygon

RIGHT, UP = Vector(1, 0), Vector(0, 1)
FORK = polygon((0, 0), (30, 0), (30, 30), (20, 30), (20, 10), (10, 10), (10, 30), (0, 30))


@pytest.mark.parametrize(
    "ring", [box(Point(0, 0), 100, 60, rounded=8), box(Point(0, 0), 100, 60, rounded=8).reversed()]
)
def test_what_is_above_or_below_a_line_is_kept(ring: Ring) -> None:
    """Walked as before, with two new corners in the order of the walk."""
    for keep_left, area in ((False, 4000), (True, 2000)):
        cut = cut_ring(ring, Point(7, 10), RIGHT, keep_left)
        assert cut.ring.area == pytest.approx(area - 2 * (64 - 16 * pi))
        assert cut.ring.is_anticlockwise == ring.is_anticlockwise
        assert len(cut.new_corners) == 2 and all(corner in cut.ring.corners for corner in cut.new_corners)
        places = [cut.ring.locate(corner) for corner in cut.new_corners]
        assert places == sorted(places)


def test_a_ring_keeps_its_start_when_that_is_kept() -> None:
    cut = cut_ring(FORK, Point(0, 20), RIGHT, keep_left=False)
    assert cut.ring.start == FORK.start and len(cut.new_corners) == 4
    assert cut.ring.area == pytest.approx(500)


def test_a_cut_through_corners_leaves_them() -> None:
    """The diagonal of a square: both new corners are old ones."""
    square = polygon((0, 0), (10, 0), (10, 10), (0, 10))
    cut = cut_ring(square, Point(0, 0), Vector(1, 1), keep_left=True)
    assert cut.ring.area == pytest.approx(50) and len(cut.ring.legs) == 3
    assert [near(*pair) for pair in zip(cut.new_corners, (Point(0, 0), Point(10, 10)), strict=True)] == [
        True,
        True,
    ]


def test_a_cut_along_an_edge_goes_through() -> None:
    """The bottom of the notch lies on the line; what is below is one piece, what is above two."""
    cut = cut_ring(FORK, Point(0, 10), RIGHT, keep_left=False)
    assert cut.ring.area == pytest.approx(300)
    with pytest.raises(CutFallsApart):
        cut_ring(FORK, Point(0, 10), RIGHT, keep_left=True)


def test_a_cut_that_leaves_several_parts_is_refused_with_a_place_in_each() -> None:
    with pytest.raises(CutFallsApart) as fault:
        cut_ring(FORK, Point(0, 20), RIGHT, keep_left=True)
    assert sorted(place.x for place in fault.value.places) == pytest.approx([5, 25])


@pytest.mark.parametrize("height", [-1, 0, 30, 31])
@pytest.mark.parametrize("keep_left", [True, False])
def test_a_line_that_misses_or_only_touches_does_not_cut(height: float, keep_left: bool) -> None:
    with pytest.raises(CutMisses):
        cut_ring(FORK, Point(0, height), RIGHT, keep_left)
    with pytest.raises(CutMisses):
        cut_ring(circle(Point(15, 15), 15), Point(0, 30 if height > 0 else 0), RIGHT, keep_left)


def test_both_sides_of_a_circle_make_the_whole() -> None:
    ring = circle(Point(1, 2), 7)
    sides = [cut_ring(ring, Point(3, 4), Vector(1, 5), keep_left).ring.area for keep_left in (True, False)]
    assert sum(sides) == pytest.approx(ring.area)


@pytest.mark.parametrize(
    ("point", "direction", "expected"),
    [
        ((0, 20), RIGHT, [((0, 20), (10, 20)), ((20, 20), (30, 20))]),
        ((0, 20), -RIGHT, [((30, 20), (20, 20)), ((10, 20), (0, 20))]),
        ((15, 3), UP, [((15, 0), (15, 10))]),
        ((15, 5), RIGHT, [((0, 5), (30, 5))]),
        ((0, 10), RIGHT, [((0, 10), (10, 10)), ((20, 10), (30, 10))]),
        ((0, 30), RIGHT, []),
        ((0, 45), RIGHT, []),
    ],
)
def test_lines_go_from_edge_to_edge(
    point: tuple[float, float],
    direction: Vector,
    expected: list[tuple[tuple[float, float], tuple[float, float]]],
) -> None:
    """Only what is inside, in the order of the direction."""
    found = lines_across(FORK, Point(*point), direction)
    assert len(found) == len(expected)
    for path, (start, end) in zip(found, expected, strict=True):
        assert near(path.start, Point(*start)) and near(path.end, Point(*end))


def test_a_corner_that_only_touches_the_line_does_not_part_it() -> None:
    notched = polygon((0, 0), (30, 0), (30, 20), (20, 20), (15, 10), (10, 20), (0, 20))
    (path,) = lines_across(notched, Point(15, 10), RIGHT)
    assert near(path.start, Point(0, 10)) and near(path.end, Point(30, 10))
