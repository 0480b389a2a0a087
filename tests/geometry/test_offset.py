"""Offsets of rings, runs and open lines: corners, vanishing legs, ends, and refusals that say what fits."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from drafting.geometry.arc import Arc
from drafting.geometry.corners import RoundBy, round_corners, shape_corners
from drafting.geometry.curves import arc_bowed, box, circle
from drafting.geometry.faults import NotPositive, OffsetBreaksUp
from drafting.geometry.line import Line
from drafting.geometry.offset import band, offset_along, offset_path, offset_ring, round_path
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from tests.geometry.figures import dumbbell, ell, near, polygon, polyline

SQUARE = box(Point(50, 30), 100, 60)
CARD = box(Point(0, 0), 100, 60, rounded=8)


def corners_of(path: Path | Ring) -> list[tuple[float, float]]:
    """The places of all legs' ends, rounded, in the order of the walk."""
    ends = path.corners if isinstance(path, Ring) else (path.start, *path.corners, path.end)
    return [(round(point.x, 6) + 0.0, round(point.y, 6) + 0.0) for point in ends]


def test_corners_run_on_outside_and_are_cut_inside() -> None:
    """An L both ways: every corner stays a corner."""
    assert corners_of(offset_ring(ell(), 5)) == [(-5, -5), (65, -5), (65, 25), (25, 25), (25, 65), (-5, 65)]
    assert corners_of(offset_ring(ell(), -5)) == [(5, 5), (55, 5), (55, 15), (15, 15), (15, 55), (5, 55)]


def test_corners_are_rounded_when_asked() -> None:
    ring = offset_ring(ell(), 5, joins="rounded")
    arcs = [leg for leg in ring.legs if isinstance(leg, Arc)]
    assert len(arcs) == 5 and all(leg.radius == pytest.approx(5) for leg in arcs)


@pytest.mark.parametrize("way_round", [1, -1])
@pytest.mark.parametrize("distance", [-20, -8, -3, 0, 5, 500])
def test_a_ring_is_walked_the_same_way_as_its_offset(distance: float, way_round: int) -> None:
    ring = CARD if way_round > 0 else CARD.reversed()
    moved = offset_ring(ring, distance)
    assert moved.is_anticlockwise == ring.is_anticlockwise
    radius = max(8 + distance, 0)
    wanted = (100 + 2 * distance) * (60 + 2 * distance) - (4 - pi) * radius**2
    assert moved.area == pytest.approx(wanted)
    assert len(moved.legs) == (8 if radius else 4)


def test_a_corner_too_sharp_to_point_is_rounded() -> None:
    """Beyond MITRE_LIMIT distances from the corner, which 29 deg does not reach and 28 deg does."""
    for rise, is_pointed in ((27.0, True), (24.0, False)):
        needle = polygon((0, 0), (100, -rise), (100, rise))
        arcs = [leg for leg in offset_ring(needle, 5).legs if isinstance(leg, Arc)]
        assert bool(arcs) != is_pointed
        assert all(near(arc.center, Point(0, 0)) and arc.radius == 5 for arc in arcs)


def test_arcs_run_on_as_what_they_are() -> None:
    """Where two bowed legs meet outside, both circles go on to their meeting."""
    lens = Ring(
        [arc_bowed(Point(-30, 0), Point(30, 0), 9, False), arc_bowed(Point(30, 0), Point(-30, 0), 9, False)]
    )
    moved = offset_ring(lens, 4)
    assert len(moved.legs) == 2
    for leg, source in zip(moved.legs, lens.legs, strict=True):
        assert isinstance(leg, Arc) and isinstance(source, Arc)
        assert near(leg.center, source.center) and leg.radius == pytest.approx(source.radius + 4)
    radius, middle = 54.5 + 4, 54.5 - 9
    assert near(moved.start, Point(-sqrt(radius**2 - middle**2), 0))


def test_a_leg_with_no_room_vanishes() -> None:
    """A step of 4 mm in the lower edge is gone once the offset is past it."""
    stepped = polygon((0, 0), (40, 0), (40, 4), (44, 4), (44, 0), (80, 0), (80, 50), (0, 50))
    assert len(offset_ring(stepped, -1).legs) == 8
    gone = offset_ring(stepped, 3)
    assert gone.area == pytest.approx(86 * 56) and sum(abs(turn) > 1e-6 for turn in gone.turns) == 4


def test_a_slot_closes_outside_when_it_is_open() -> None:
    fork = polygon((0, 0), (60, 0), (60, 40), (32, 40), (32, 10), (28, 10), (28, 40), (0, 40))
    assert len(offset_ring(fork, 1.9).legs) == 8
    assert offset_ring(fork, 2.1).area == pytest.approx(64.2 * 44.2)


def test_an_offset_that_falls_apart_says_where_and_what_fits() -> None:
    with pytest.raises(OffsetBreaksUp) as fault:
        offset_ring(dumbbell(6), -4)
    assert fault.value.largest == pytest.approx(3, abs=2e-4) and fault.value.largest < 3
    assert not fault.value.vanishes and fault.value.asked == 4
    assert near(fault.value.place, Point(50, 20), 1e-3)
    offset_ring(dumbbell(6), -fault.value.largest)


def test_an_offset_that_closes_round_a_hole_is_refused() -> None:
    """A hook whose mouth closes before its inside does."""
    hook = polygon(
        (0, 0),
        (60, 0),
        (60, 60),
        (33, 60),
        (33, 50),
        (50, 50),
        (50, 10),
        (10, 10),
        (10, 50),
        (27, 50),
        (27, 60),
        (0, 60),
    )
    with pytest.raises(OffsetBreaksUp) as fault:
        offset_ring(hook, 4)
    assert fault.value.largest == pytest.approx(3, abs=2e-4)
    assert near(fault.value.place, Point(30, 55), 1e-3)


@pytest.mark.parametrize("distance", [30, 31, 1000])
def test_an_offset_that_vanishes_says_what_fits(distance: float) -> None:
    with pytest.raises(OffsetBreaksUp) as fault:
        offset_ring(CARD, -distance)
    assert fault.value.vanishes and fault.value.largest == pytest.approx(30, abs=2e-4)
    assert near(fault.value.place, Point(0, 0), 1e-6)


def test_a_tiny_rounding_of_a_flat_corner_does_no_harm() -> None:
    """An arc of a few ten-thousandths of a millimetre, left by rounding a corner that hardly turns."""
    flat = polygon((0, 0), (40, 0), (80, 0.01), (80, 40), (0, 40))
    ring = shape_corners(flat, {1: RoundBy(2), 2: RoundBy(3)})[0]
    for distance in (-12, -1, 1, 9):
        assert offset_ring(ring, distance).area == pytest.approx(
            offset_ring(flat, distance).area, abs=4 * (3 + 9) ** 2
        )
        moved = offset_ring(ring, distance)
        for share in (0.1, 0.45, 0.8):
            gap = ring.distance_to_point(moved.point_at(share * moved.length))
            assert gap >= abs(distance) - 1e-7


# Runs of a ring


@pytest.mark.parametrize(
    ("s0", "s1", "inside", "expected"),
    [
        (0, 100, True, [(5, 5), (95, 5)]),
        (0, 100, False, [(-5, -5), (105, -5)]),
        (10, 90, True, [(10, 5), (90, 5)]),
        (10, 90, False, [(10, -5), (90, -5)]),
        (10, 150, True, [(10, 5), (95, 5), (95, 50)]),
        (310, 20, False, [(-5, 10), (-5, -5), (20, -5)]),
        (0, 260, True, [(5, 5), (95, 5), (95, 55), (5, 55)]),
        (0, 0, True, [(5, 5), (95, 5), (95, 55), (5, 55), (5, 5)]),
        (0, 0, False, [(-5, -5), (105, -5), (105, 65), (-5, 65), (-5, -5)]),
        (30, 30, True, [(30, 5), (95, 5), (95, 55), (5, 55), (5, 5), (30, 5)]),
    ],
)
def test_a_run_meets_the_next_leg_at_a_corner_and_ends_square_elsewhere(
    s0: float, s1: float, inside: bool, expected: list[tuple[float, float]]
) -> None:
    """The same for a ring walked clockwise, where the run is the other way."""
    assert corners_of(offset_along(SQUARE, s0, s1, 5, inside)) == expected
    back = SQUARE.reversed()
    there = offset_along(back, back.length - s1, back.length - s0, 5, inside)
    assert corners_of(there)[::-1] == expected


@pytest.mark.parametrize("hair", [-1e-9, 1e-9])
def test_a_run_that_ends_a_hair_from_a_corner_ends_at_it(hair: float) -> None:
    """Lengths add up with a last digit to spare, so a corner is never met to the last digit."""
    at_corners = offset_along(SQUARE, SQUARE.starts[1], SQUARE.starts[2], 5, inside=True)
    beside = offset_along(SQUARE, SQUARE.starts[1] + hair, SQUARE.starts[2] + hair, 5, inside=True)
    assert near(beside.start, at_corners.start) and near(beside.end, at_corners.end)


def test_a_run_is_cut_where_an_inside_corner_is_the_end() -> None:
    """Outside, the inside corner of an L cuts; inside, it runs on."""
    ring = ell()
    assert corners_of(offset_along(ring, 80, 120, 5, inside=False)) == [(65, 25), (25, 25)]
    assert corners_of(offset_along(ring, 80, 120, 5, inside=True)) == [(55, 15), (15, 15)]


def test_a_run_that_ends_at_a_sharp_corner_goes_half_round_it() -> None:
    needle = polygon((0, 0), (100, -9), (100, 9))
    moved = offset_along(needle, 0, needle.starts[1], 5, inside=False)
    assert near(moved.start, Point(-5, 0))
    assert isinstance(moved.legs[0], Arc) and near(moved.legs[0].center, Point(0, 0))


def test_a_run_that_ends_halfway_round_a_corner_ends_on_the_line_that_halves_it() -> None:
    """The rounding is gone at this distance, and so is the place square across its middle."""
    middle = CARD.length - CARD.legs[-1].length / 2
    assert near(offset_along(CARD, middle, 60, 20, inside=True).start, Point(-30, -10))
    assert near(
        offset_along(CARD, middle, 60, 4, inside=True).start, Point(-42 - 4 / sqrt(2), -22 - 4 / sqrt(2))
    )


def test_a_run_asks_only_for_its_own_room() -> None:
    """Beside a strap's one edge an offset may go past the middle; round its end it may not."""
    strap = box(Point(0, 0), 200, 6)
    assert corners_of(offset_along(strap, 10, 150, 5, inside=True)) == [(-90, 2), (50, 2)]
    with pytest.raises(OffsetBreaksUp) as fault:
        offset_along(strap, 10, strap.length - 20, 5, inside=True)
    assert fault.value.largest == pytest.approx(3, abs=2e-4)
    with pytest.raises(NotPositive):
        offset_along(strap, 10, 20, 0, inside=True)


def test_a_run_meets_a_neighbour_that_is_too_short_as_if_it_went_on() -> None:
    """The next leg is 2 mm and the offset 5 mm away."""
    notched = polygon((0, 0), (60, 0), (60, 2), (80, 2), (80, 40), (0, 40))
    moved = offset_along(notched, notched.starts[2], notched.starts[3], 5, inside=False)
    assert corners_of(moved) == [(65, -3), (85, -3)]


# Open lines


def test_an_open_line_is_moved_to_its_left_or_right() -> None:
    way = polyline((0, 0), (50, 0), (50, 30))
    assert corners_of(offset_path(way, 5)) == [(0, 5), (45, 5), (45, 30)]
    assert corners_of(offset_path(way, -5)) == [(0, -5), (55, -5), (55, 30)]
    assert offset_path(way, 0) == way
    rounded = offset_path(way, -5, joins="rounded")
    assert len(rounded.legs) == 3 and rounded.length == pytest.approx(80 + 2.5 * pi)
    assert corners_of(offset_path(way.reversed(), -5))[::-1] == corners_of(offset_path(way, 5))


def test_an_open_line_with_no_room_is_refused() -> None:
    way = polyline((0, 0), (50, 0), (50, 30))
    with pytest.raises(OffsetBreaksUp) as fault:
        offset_path(way, 35)
    assert fault.value.largest == pytest.approx(30, abs=2e-4)


def test_an_open_line_that_curls_back_to_its_other_side_is_refused() -> None:
    """The end of the offset would come too near to the line from the side it is not moved to."""
    there = Line(Point(40, 0), Point(0, 0))
    with pytest.raises(OffsetBreaksUp):
        offset_path(Path([there, Arc(Point(0, 0.5), 0.5, -pi / 2, -1.5 * pi)]), 2)
    assert offset_path(Path([there, Arc(Point(0, 5), 5, -pi / 2, -pi)]), 2).length == pytest.approx(
        40 + 7 * pi
    )


def test_a_curl_ends_square_across_when_its_center_is_passed() -> None:
    """An arc of 2 mm at the end of a line, moved 5 mm to its inside."""
    way = Path([Line(Point(-40, 0), Point(0, 0)), Arc(Point(0, 2), 2, -pi / 2, pi / 4)])
    assert corners_of(offset_path(way, 5)) == [(-40, 5), (-3, 5)]


def test_a_ring_all_round_an_open_line() -> None:
    """Round at both ends and at outer corners, sharp at inner ones; anticlockwise."""
    ring = round_path(polyline((0, 0), (50, 0), (50, 30)), 5)
    assert ring.is_anticlockwise
    assert ring.area == pytest.approx(80 * 10 + 25 * pi - 25 + 25 * pi / 4)
    assert sum(abs(turn) > 1e-6 for turn in ring.turns) == 1
    line = polyline((0, 0), (30, 40))
    assert round_path(line, 4).area == pytest.approx(50 * 8 + 16 * pi)
    bow = Path([arc_bowed(Point(0, 0), Point(40, 0), 10, True)])
    assert round_path(bow, 3).area == pytest.approx(6 * bow.length + 9 * pi)


def test_a_ring_round_a_line_that_comes_back_on_itself_is_refused() -> None:
    nearly_round = Path([Arc(Point(0, 0), 20, 0.1, 2 * pi - 0.2)])
    with pytest.raises(OffsetBreaksUp):
        round_path(nearly_round, 4)
    assert round_path(nearly_round, 1.9).area > 0


# Bands


def test_a_band_is_the_strip_between_a_run_and_its_offset() -> None:
    strip = band(SQUARE, 0, 160, 5, inside=True)
    assert strip.ring.area == pytest.approx(100 * 5 + 60 * 5 - 25 - 12.5 * 2)
    named = (strip.near_start, strip.near_end, strip.far_start, strip.far_end)
    wanted = (Point(0, 0), Point(100, 60), Point(5, 5), Point(95, 55))
    assert all(near(point, place) for point, place in zip(named, wanted, strict=True))
    outside = band(SQUARE, 10, 90, 5, inside=False)
    assert outside.ring.area == pytest.approx(400) and near(outside.far_end, Point(90, -5))
    assert band(CARD, 0, CARD.length / 2, 5, inside=True).ring.area == pytest.approx(
        CARD.length / 2 * 5 - pi * 25 / 2
    )


def test_a_band_all_round_is_the_ground_between_two_rings() -> None:
    assert band(SQUARE, 0, 0, 5, inside=True).ring.area == pytest.approx(6000 - 90 * 50)


@pytest.mark.parametrize("factor", [1e-3, 100.0])
def test_huge_and_tiny_offsets(factor: float) -> None:
    """A figure a tenth of a millimetre wide, and one of ten metres."""
    ring = round_corners(ell(), 6).scaled(factor, Point(0, 0))
    for distance in (-9 * factor, -2 * factor, 3 * factor, 50 * factor):
        moved = offset_ring(ring, distance)
        wanted = offset_ring(round_corners(ell(), 6), distance / factor)
        assert moved.area == pytest.approx(wanted.area * factor**2, rel=1e-6)
    assert near(offset_ring(circle(Point(0, 0), 5 * factor), -4 * factor).start, Point(factor, 0))
