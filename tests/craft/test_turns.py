"""Turned edges: where they are cut, and what is refused."""

from __future__ import annotations

from itertools import pairwise
from math import pi, radians

import pytest

from drafting.craft.places import Span
from drafting.craft.turns import (
    COVER,
    Corners,
    Turn,
    TurnNeedsCorners,
    TurnOverlaps,
    TurnRequest,
    TurnTooNarrow,
    TurnTooSharp,
    mitre_back,
    skive_band,
    turn_edge,
)
from drafting.geometry.curves import box, circle
from drafting.geometry.line import Line
from drafting.geometry.path import Ring
from drafting.geometry.point import Point


def ring_of(*corners: tuple[float, float]) -> Ring:
    points = [Point(x, y) for x, y in corners]
    return Ring([Line(a, b) for a, b in pairwise([*points, points[0]])])


def all_round(ring: Ring, corners: Corners, width: float = 9, thickness: float = 0.0) -> Turn:
    return turn_edge(ring, TurnRequest(0, 0, width, thickness, corners))


SQUARE = ring_of((0, 0), (100, 0), (100, 100), (0, 100))
TRIANGLE = ring_of((0, 0), (100, 0), (50, 86.60254037844386))


def test_mitred_corners_are_cut_at_forty_five_degrees_on_a_square() -> None:
    turn = all_round(SQUARE, "mitred")
    assert turn.ring.area == pytest.approx(10000 + 4 * 9 * (100 + 82) / 2)
    assert mitre_back(pi / 2, 9) == pytest.approx(9)


def test_mitred_sides_meet_edge_to_edge_when_folded() -> None:
    """Folded over its edge, the end of each side lies on the bisector of the corner."""
    turn = all_round(TRIANGLE, "mitred")
    first = turn.cut.legs[0]
    folded_start, folded_end = (
        point.mirrored(Point(0, 0), Point(100, 0)) for point in (first.start, first.end)
    )
    assert (folded_start - Point(0, 0)).angle == pytest.approx(radians(30))
    assert (folded_end - Point(100, 0)).angle == pytest.approx(radians(150))


def test_cut_corners_leave_a_square_out() -> None:
    assert all_round(SQUARE, "cut").ring.area == pytest.approx(10000 + 4 * 900)


def test_pleated_corners_run_round_and_tell_what_is_gathered() -> None:
    turn = all_round(SQUARE, "pleated")
    assert turn.ring.area == pytest.approx(10000 + 3600 + pi * 81)
    assert [round(length, 9) for _, length in turn.gathers] == [round(9 * pi / 2, 9)] * 4


def test_a_little_leather_covers_the_point_of_a_corner() -> None:
    for corners in ("mitred", "cut"):
        turn = all_round(SQUARE, corners, thickness=1)  # type: ignore[arg-type]
        assert turn.ring.distance_to_point(Point(0, 0)) == pytest.approx(COVER, abs=0.5)
        assert turn.ring.contains_strictly(Point(0, 0))


def test_a_rounded_corner_is_turned_round_and_gathered_whatever_is_said() -> None:
    ring = box(Point(0, 0), 100, 60, rounded=8)
    turn = turn_edge(ring, TurnRequest(0, 0, 9, 1))
    assert turn.ring.area == pytest.approx(ring.area + 9 * ring.length + pi * 81)
    assert len(turn.gathers) == 4


def test_a_corner_that_goes_in_is_snipped_to_short_of_it() -> None:
    ell = ring_of((0, 0), (60, 0), (60, 20), (20, 20), (20, 60), (0, 60))
    turn = all_round(ell, "cut", thickness=1)
    (snip,) = turn.snips
    assert snip.start.distance_to(Point(29, 29)) < 1e-9
    assert snip.end.distance_to(Point(20, 20)) == pytest.approx(1)


def test_a_turn_along_one_edge_ends_square() -> None:
    turn = turn_edge(SQUARE, TurnRequest(0, 100, 9, 1))
    assert turn.ring.area == pytest.approx(10000 + 900)
    assert turn.bend == pytest.approx(pi / 2)
    assert turn.shown == pytest.approx(9 - pi / 2)


def test_mirrored_ends_lie_along_the_edges_beside_them() -> None:
    ring = ring_of((0, 0), (100, 0), (110, 50), (-10, 50))
    turn = turn_edge(ring, TurnRequest(0, 100, 9, 1, ends="mirrored"))
    folded = [point.mirrored(Point(0, 0), Point(100, 0)) for point in (turn.cut.start, turn.cut.end)]
    assert folded[0].distance_to(Point(-1.8, 9)) < 1e-9
    assert folded[1].distance_to(Point(101.8, 9)) < 1e-9


def test_mirrored_ends_cut_off_what_would_stick_out() -> None:
    ring = ring_of((0, 0), (100, 0), (80, 50), (20, 50))
    turn = turn_edge(ring, TurnRequest(0, 100, 10, 1, ends="mirrored"))
    assert (turn.cut.start.x, turn.cut.end.x) == pytest.approx((4, 96))


def test_the_way_round_an_outline_is_walked_makes_no_difference() -> None:
    for corners in ("mitred", "cut", "pleated"):
        forward, backward = all_round(TRIANGLE, corners), all_round(TRIANGLE.reversed(), corners)  # type: ignore[arg-type]
        assert forward.ring.area == pytest.approx(backward.ring.area)
    ring = ring_of((0, 0), (100, 0), (110, 50), (-10, 50))
    turn = turn_edge(ring.reversed(), TurnRequest(ring.length - 100, ring.length, 9, 1))
    assert turn.ring.area == pytest.approx(ring.area + 900)


def test_a_turn_that_starts_in_the_middle_of_a_leg_goes_all_round() -> None:
    turn = turn_edge(SQUARE, TurnRequest(50, 50, 9, 0, "mitred"))
    assert turn.ring.area == pytest.approx(all_round(SQUARE, "mitred").ring.area)


def test_a_turn_needs_more_than_the_fold_takes() -> None:
    with pytest.raises(TurnTooNarrow) as caught:
        turn_edge(SQUARE, TurnRequest(0, 100, 2, 1.5))
    assert caught.value.bend == pytest.approx(pi * 0.75)


def test_a_curve_tighter_than_the_leather_is_thick_cannot_be_turned() -> None:
    with pytest.raises(TurnTooSharp) as caught:
        turn_edge(box(Point(0, 0), 100, 60, rounded=1), TurnRequest(0, 0, 9, 1.5))
    assert caught.value.radius == pytest.approx(1)


def test_a_sharp_corner_must_be_said() -> None:
    with pytest.raises(TurnNeedsCorners):
        turn_edge(SQUARE, TurnRequest(0, 150, 9, 1))


def test_turns_that_run_into_themselves_are_refused() -> None:
    notched = ring_of((0, 0), (100, 0), (100, 60), (55, 60), (55, 40), (45, 40), (45, 60), (0, 60))
    with pytest.raises(TurnOverlaps):
        all_round(notched, "cut")
    with pytest.raises(TurnOverlaps):
        turn_edge(ring_of((0, 0), (12, 0), (12, 60), (0, 60)), TurnRequest(0, 0, 9, 0, "mitred"))


def test_a_round_window_of_leather_is_turned_all_round() -> None:
    turn = turn_edge(circle(Point(0, 0), 40), TurnRequest(0, 0, 9, 1))
    assert turn.ring.length == pytest.approx(2 * pi * 49)


def test_skive_bands_lie_outside_inside_or_both() -> None:
    assert len(skive_band(SQUARE, Span(0, 100), 11, 0)) == 1
    outside, inside = skive_band(SQUARE, Span(0, 100), 11, 4)
    assert outside.ring.bounds.min_y == pytest.approx(-11)
    assert inside.ring.bounds.max_y == pytest.approx(4)
