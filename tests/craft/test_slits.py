"""Slits: cuts meet the edges of their holes."""

from __future__ import annotations

import pytest

from drafting.craft.slits import SlitCloses, SlitRequest, SlitTooShort, cut_slit
from drafting.geometry.curves import arc_bowed, box
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from tests.craft.samples import chain, straight


def test_a_cut_reaches_from_edge_to_edge_of_its_end_holes() -> None:
    slit = cut_slit(straight(60), SlitRequest(end_holes=3))
    (cut,) = slit.cuts
    assert (cut.start.x, cut.end.x) == pytest.approx((1.5, 58.5))
    assert [(hole.center.x, hole.across) for hole in slit.holes] == [(0, 3), (60, 3)]
    assert slit.bare_ends == ()


def test_on_a_curve_the_cut_starts_where_the_curve_leaves_the_hole() -> None:
    slit = cut_slit(Path((arc_bowed(Point(-32, 14), Point(32, 14), 9, False),)), SlitRequest(end_holes=3))
    (cut,) = slit.cuts
    assert cut.start.distance_to(Point(-32, 14)) == pytest.approx(1.5, abs=1e-9)
    assert cut.end.distance_to(Point(32, 14)) == pytest.approx(1.5, abs=1e-9)


def test_corner_holes_part_the_cut() -> None:
    slit = cut_slit(chain((0, 30), (40, 30), (40, 0), (0, 0)), SlitRequest(end_holes=2, corner_holes=4))
    assert [(cut.start, cut.end) for cut in slit.cuts] == [
        (Point(1, 30), Point(38, 30)),
        (Point(40, 28), Point(40, 2)),
        (Point(38, 0), Point(1, 0)),
    ]
    assert [hole.across for hole in slit.holes] == [2, 4, 4, 2]


def test_rounded_corners_leave_one_cut() -> None:
    slit = cut_slit(chain((0, 30), (40, 30), (40, 0), (0, 0)), SlitRequest(end_holes=2, rounded=5))
    (cut,) = slit.cuts
    assert cut.length == pytest.approx(slit.whole.length - 2)
    assert len(slit.whole.legs) == 5


def test_an_end_on_the_mirror_line_has_no_hole_and_is_not_bare() -> None:
    slit = cut_slit(straight(60), SlitRequest(end_holes=3, start_is_free=False))
    assert [hole.center.x for hole in slit.holes] == [60]
    assert slit.cuts[0].start == Point(0, 0)
    assert slit.bare_ends == ()


def test_free_ends_without_holes_are_bare() -> None:
    assert cut_slit(straight(60), SlitRequest()).bare_ends == (Point(0, 0), Point(60, 0))
    assert cut_slit(straight(60), SlitRequest(end_is_free=False)).bare_ends == (Point(0, 0),)


def test_holes_that_leave_nothing_to_cut_are_refused() -> None:
    for request in (SlitRequest(end_holes=6), SlitRequest(end_holes=30)):
        with pytest.raises(SlitTooShort) as caught:
            cut_slit(straight(6), request)
        assert caught.value.needs == request.end_holes


def test_a_slit_that_meets_itself_is_a_window() -> None:
    for path in (Path(box(Point(0, 0), 40, 20).legs), chain((0, 0), (40, 0), (40, 20), (20, -10))):
        with pytest.raises(SlitCloses):
            cut_slit(path, SlitRequest())
