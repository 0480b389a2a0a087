"""Open paths and rings: walking, places, parts, areas, inside and outside."""

from __future__ import annotations

from math import pi

import pytest

from drafting.geometry.arc import Arc
from drafting.geometry.curves import arc_bowed, box, circle
from drafting.geometry.faults import NotJoined, OffTheLine, ZeroLength
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from tests.geometry.figures import ell, near, polygon, polyline

HOOK = Path(
    [Line(Point(0, 0), Point(20, 0)), Arc(Point(20, 10), 10, -pi / 2, pi), Line(Point(20, 20), Point(10, 20))]
)

HALF_ROUND = arc_bowed(Point(-10, 0), Point(10, 0), 10, True)
DROP = Ring([HALF_ROUND, Line(Point(10, 0), Point(0, -20)), Line(Point(0, -20), Point(-10, 0))])
MOST_OF_ROUND = Arc(Point(0, 0), 10, 0.2, 5.8)
BITTEN_DISC = Ring(
    [MOST_OF_ROUND, Line(MOST_OF_ROUND.end, Point(0, 0)), Line(Point(0, 0), MOST_OF_ROUND.start)]
)
BITTEN_TRIANGLE = Ring(
    [
        arc_bowed(Point(0, 0), Point(40, 0), 15, True),
        Line(Point(40, 0), Point(20, 40)),
        Line(Point(20, 40), Point(0, 0)),
    ]
)


def test_legs_must_meet() -> None:
    """A gap in a path, or between the last and the first leg of a ring, is a fault with its place."""
    with pytest.raises(NotJoined) as fault:
        Path([Line(Point(0, 0), Point(1, 0)), Line(Point(1, 0.1), Point(2, 0))])
    assert fault.value.index == 1
    with pytest.raises(NotJoined) as fault:
        Ring(HOOK.legs)
    assert fault.value.index == 0
    with pytest.raises(ValueError):
        Path([])


def test_a_path_is_walked_from_its_start() -> None:
    """Places before, on and after corners."""
    assert HOOK.length == pytest.approx(30 + 10 * pi)
    assert near(HOOK.point_at(7), Point(7, 0))
    assert near(HOOK.point_at(20 + 5 * pi), Point(30, 10))
    assert near(HOOK.point_at(HOOK.length), HOOK.end)
    assert near(HOOK.midpoint, HOOK.point_at(15 + 5 * pi))
    assert [near(*pair) for pair in zip(HOOK.corners, (Point(20, 0), Point(20, 20)), strict=True)] == [
        True,
        True,
    ]
    assert HOOK.turns == pytest.approx((0, 0), abs=1e-12)
    for s in (-1, HOOK.length + 1):
        with pytest.raises(OffTheLine):
            HOOK.point_at(s)


def test_directions_at_a_corner_are_of_the_leg_ahead_or_behind() -> None:
    bend = polyline((0, 0), (10, 0), (10, 10))
    assert bend.direction_at(10) == Vector(0, 1)
    assert bend.direction_before(10) == Vector(1, 0)
    assert bend.direction_before(0) == Vector(1, 0)
    assert bend.direction_at(20) == Vector(0, 1)
    square = box(Point(0, 0), 10, 10)
    assert square.direction_before(0) == Vector(0, -1)
    assert square.direction_at(40) == Vector(1, 0)


def test_locate_finds_places_that_are_on_it() -> None:
    """A point off the path by more than SAME_POINT has no place on it."""
    assert HOOK.locate(Point(12, 0)) == pytest.approx(12)
    assert HOOK.locate(Point(12, 1e-7)) == pytest.approx(12)
    assert HOOK.locate(Point(12, 1e-5)) is None
    square = box(Point(0, 0), 10, 10)
    assert square.locate(Point(-5, -5)) == 0
    assert square.locate(Point(-5, -5 + 1e-7)) == 0
    assert square.locate(Point(5, 5)) == pytest.approx(20)


def test_parts_of_a_path() -> None:
    """Forward, backward, across corners; never of no length."""
    part = HOOK.part(10, 20 + 10 * pi)
    assert len(part.legs) == 2 and near(part.end, Point(20, 20))
    assert near(HOOK.part(25, 5).start, HOOK.point_at(25)) and near(HOOK.part(25, 5).end, Point(5, 0))
    with pytest.raises(ZeroLength):
        HOOK.part(4, 4)
    there_and_back = HOOK.part(0, 20).joined(HOOK.part(20, HOOK.length))
    assert there_and_back == HOOK


def test_parts_of_a_ring_go_round_its_start() -> None:
    """From a place forward to another; from a place to itself all the way round."""
    square = box(Point(5, 5), 10, 10)
    assert square.part(5, 25).length == pytest.approx(20)
    assert square.part(35, 5).length == pytest.approx(10)
    assert len(square.part(35, 5).legs) == 2
    assert square.part(0, 0).length == 40 and square.part(7, 7).length == pytest.approx(40)
    assert square.part(35, 45) == square.part(35, 5)
    assert square.part(10, 40).corners == (Point(10, 10), Point(0, 10))
    moved = square.starting_at(15)
    assert near(moved.start, Point(10, 5)) and moved.area == pytest.approx(100) and len(moved.legs) == 5
    assert square.starting_at(10).corners[0] == Point(10, 0)


@pytest.mark.parametrize(
    ("ring", "area", "centroid"),
    [
        (box(Point(5, 5), 10, 10), 100, (5, 5)),
        (ell(), 2000, (22, 22)),
        (circle(Point(7, -3), 5), 25 * pi, (7, -3)),
        (Ring([Line(Point(-10, 0), Point(10, 0)), Arc(Point(0, 0), 10, 0, pi)]), 50 * pi, (0, 40 / (3 * pi))),
        (Ring([Arc(Point(0, 0), 10, 0, 1.5 * pi), Line(Point(0, -10), Point(10, 0))]), 75 * pi + 50, None),
    ],
)
def test_areas_are_exact(ring: Ring, area: float, centroid: tuple[float, float] | None) -> None:
    """Whichever way the ring is walked."""
    for way in (ring, ring.reversed()):
        assert way.area == pytest.approx(area, rel=1e-12)
        assert way.is_anticlockwise == (way is ring)
        assert centroid is None or near(way.centroid, Point(*centroid))


@pytest.mark.parametrize(
    ("ring", "inside", "outside"),
    [
        (ell(), [(1, 1), (59, 1), (10, 20), (20 - 1e-3, 40)], [(21, 21), (-1, 20), (60.1, 20), (30, 60)]),
        (circle(Point(0, 0), 10), [(0, 0), (0, 9.999), (-9.99, 0)], [(7.2, 7.2), (0, 10.001), (-11, 0)]),
        (DROP, [(0, 9.9), (0, 0), (9.9, 0), (0, -19)], [(9, 9), (-9, -9), (0, 10.1)]),
        (BITTEN_DISC, [(-1, 0), (0, 5), (0, -5)], [(5, 0), (9.9, 0)]),
    ],
)
def test_inside_and_outside(
    ring: Ring, inside: list[tuple[float, float]], outside: list[tuple[float, float]]
) -> None:
    """Also level with corners and with the highest places of arcs, whichever way the ring is walked."""
    for way in (ring, ring.reversed()):
        assert all(way.contains(Point(*place)) and way.contains_strictly(Point(*place)) for place in inside)
        assert not any(way.contains(Point(*place)) for place in outside)


def test_the_line_itself_is_inside_but_not_strictly() -> None:
    for ring in (ell(), circle(Point(3, 4), 5)):
        for s in (0, 1, 7.5, ring.length / 3):
            assert ring.contains(ring.point_at(s)) and not ring.contains_strictly(ring.point_at(s))


def test_corners_alone_judge_in_and_out_when_bows_are_ignored() -> None:
    """A leg bowed in past the middle takes ground, but does not turn the corners inside out."""
    bitten = BITTEN_TRIANGLE
    assert bitten.corner_contains(Point(20, 5)) and not bitten.contains(Point(20, 5))
    assert bitten.corner_contains(Point(20, 0)) and not bitten.corner_contains(Point(20, -1))
    assert bitten.is_anticlockwise_by_corners and not bitten.reversed().is_anticlockwise_by_corners
    ball = circle(Point(0, 0), 10)
    assert ball.corner_contains(Point(0, 9)) and not ball.corner_contains(Point(0, 11))
    assert ball.is_anticlockwise_by_corners


def test_inward_points_into_the_ring_either_way_round() -> None:
    for ring in (ell(), ell().reversed(), circle(Point(0, 0), 9).reversed()):
        for s in (1.0, 30.0, 50.0):
            assert ring.contains_strictly(ring.point_at(s) + ring.inward_at(s) * 0.01)


@pytest.mark.parametrize("factor", [0.001, 1000.0])
def test_huge_and_tiny_figures_are_alike(factor: float) -> None:
    """A tenth of a millimetre and ten metres."""
    ring = box(Point(0, 0), 100, 60, rounded=8).scaled(factor, Point(0, 0))
    assert ring.area == pytest.approx(5945.0619298 * factor**2, rel=1e-9)
    assert ring.locate(ring.point_at(ring.length / 3)) == pytest.approx(ring.length / 3)
    assert ring.contains(Point(49.9 * factor, 0)) and not ring.contains(Point(49.9 * factor, 29.9 * factor))


def test_paths_are_as_wide_and_high_as_they_lie() -> None:
    assert (HOOK.width, HOOK.height) == (pytest.approx(30), pytest.approx(20))
    tipped = polygon((0, 0), (10, 0), (10, 10), (0, 10)).turned(pi / 4, Point(0, 0))
    assert (tipped.width, tipped.height) == (pytest.approx(200**0.5), pytest.approx(200**0.5))
