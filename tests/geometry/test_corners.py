"""Rounded and clipped corners, alone and several at once."""

from __future__ import annotations

from math import pi, sqrt, tan

import pytest

from drafting.geometry.arc import Arc
from drafting.geometry.corners import ClipBy, RoundBy, clip, fillet, round_corners, shape_corners
from drafting.geometry.curves import arc_bowed, box, circle
from drafting.geometry.faults import CornersMeet, DoesNotFit, NoCorner, NotPositive
from drafting.geometry.leg import Leg, turn_between
from drafting.geometry.line import Line
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from tests.geometry.figures import ell, near, polygon, polyline

CORNER = Point(0, 0)
FROM_LEFT = Line(Point(-40, 0), CORNER)
UPWARD = Line(CORNER, Point(0, 30))
BOWED_IN = arc_bowed(Point(-40, 5), CORNER, 6, True)
BOWED_OUT = arc_bowed(CORNER, Point(20, 35), 6, False)
HOOKED = Arc(Point(12, 0), 12, pi, 4.0)


@pytest.mark.parametrize("before", [FROM_LEFT, BOWED_IN])
@pytest.mark.parametrize(
    "after", [UPWARD, BOWED_OUT, HOOKED, Line(CORNER, Point(-30, 40)), Line(CORNER, Point(9, -30))]
)
@pytest.mark.parametrize("radius", [0.01, 1.0, 3.0])
def test_a_fillet_touches_both_legs(before: Leg, after: Leg, radius: float) -> None:
    """Any mixture of lines and arcs, turning either way."""
    rounded = fillet(before, after, radius)
    assert rounded.before is not None and rounded.after is not None
    assert near(rounded.before.start, before.start) and near(rounded.after.end, after.end)
    assert near(rounded.before.end, rounded.arc.start) and near(rounded.arc.end, rounded.after.start)
    assert abs(turn_between(rounded.before, rounded.arc)) < 1e-7
    assert abs(turn_between(rounded.arc, rounded.after)) < 1e-7
    assert rounded.arc.radius == radius
    assert rounded.arc.turning == (1 if turn_between(before, after) > 0 else -1)


def test_of_several_circles_the_one_nearest_the_corner_is_meant() -> None:
    """A line that comes to an arc of more than half a circle could be rounded at its far end as well."""
    before, after = Line(Point(0, -40), Point(0, -6)), Arc(Point(0, 0), 6, -pi / 2, 6.0)
    rounded = fillet(before, after, 1.5)
    assert rounded.arc.center.distance_to(Point(0, -6)) < 4
    assert rounded.after is not None and rounded.after.length > 0.9 * after.length


def test_a_leg_may_be_used_up_exactly() -> None:
    rounded = fillet(FROM_LEFT, UPWARD, 30)
    assert rounded.after is None and rounded.before is not None and near(rounded.arc.end, UPWARD.end)


@pytest.mark.parametrize(
    ("before", "after", "largest"),
    [
        (FROM_LEFT, UPWARD, 30),
        (FROM_LEFT, Line(CORNER, Point(-30, 30)), 40 * tan(pi / 8)),
        (Line(Point(-40, 0), Point(-6, 0)), Arc(Point(0, 0), 6, pi, pi), 1564 / 12),
    ],
)  # fmt: skip
def test_a_fillet_too_large_names_the_largest_that_fits(before: Leg, after: Leg, largest: float) -> None:
    with pytest.raises(DoesNotFit) as fault:
        fillet(before, after, 200)
    assert fault.value.largest == pytest.approx(largest, rel=1e-4)
    assert fault.value.largest is not None
    fillet(before, after, fault.value.largest)
    with pytest.raises(DoesNotFit):
        fillet(before, after, fault.value.largest + 1e-3)


def test_where_the_way_goes_on_smoothly_there_is_no_corner() -> None:
    with pytest.raises(NoCorner):
        fillet(FROM_LEFT, Line(CORNER, Point(9, 0)), 1)
    with pytest.raises(NoCorner):
        clip(FROM_LEFT, Arc(Point(0, 5), 5, -pi / 2, 2), 1, 1)
    with pytest.raises(NotPositive):
        fillet(FROM_LEFT, UPWARD, 0)


def test_a_clip_is_measured_along_both_legs() -> None:
    """Along an arc too."""
    cut = clip(FROM_LEFT, UPWARD, 3, 4)
    assert cut.line == Line(Point(-3, 0), Point(0, 4))
    cut = clip(BOWED_IN, UPWARD, 5, 30)
    assert cut.before is not None and cut.before.length == pytest.approx(BOWED_IN.length - 5)
    assert cut.after is None
    with pytest.raises(DoesNotFit) as fault:
        clip(FROM_LEFT, UPWARD, 3, 31)
    assert fault.value.largest == 30
    with pytest.raises(NotPositive):
        clip(FROM_LEFT, UPWARD, 3, 0)


def test_a_ring_is_rounded_all_round() -> None:
    """An inside corner turns the other way and adds what an outside corner takes."""
    ring = round_corners(ell(), 5)
    assert ring.area == pytest.approx(2000 - 4 * (1 - pi / 4) * 25)
    assert ring.turns == pytest.approx([0.0] * 12, abs=1e-9)
    assert round_corners(circle(Point(0, 0), 9), 5) == circle(Point(0, 0), 9)
    again = round_corners(ring, 2)
    assert again == ring


def test_an_open_path_keeps_its_ends() -> None:
    path = round_corners(polyline((0, 0), (30, 0), (30, 20)), 5)
    assert path.length == pytest.approx(50 - 10 + 2.5 * pi)
    assert near(path.start, Point(0, 0)) and near(path.end, Point(30, 20))


def test_corners_are_shaped_one_by_one() -> None:
    """Rounded by different radii and clipped, each new leg told by its corner."""
    ring, legs = shape_corners(box(Point(50, 30), 100, 60), {1: RoundBy(8), 2: ClipBy(10, 20), 0: RoundBy(2)})
    assert set(legs) == {0, 1, 2} and all(leg in ring.legs for leg in legs.values())
    assert legs[2] == Line(Point(100, 50), Point(80, 60))
    assert ring.area == pytest.approx(6000 - (1 - pi / 4) * (64 + 4) - 100)
    assert near(ring.start, Point(2, 0)) and ring.legs[-1] == legs[0]


def test_two_corners_that_eat_the_same_leg_are_refused() -> None:
    """The fault names the leg, both corners, and the most the second may be."""
    with pytest.raises(CornersMeet) as fault:
        shape_corners(box(Point(0, 0), 30, 20), {1: RoundBy(12), 2: RoundBy(9)})
    assert (fault.value.leg_index, fault.value.first, fault.value.second) == (1, 1, 2)
    assert (fault.value.needs, fault.value.has) == (pytest.approx(21), 20)
    assert fault.value.largest == pytest.approx(8, abs=1e-3)
    with pytest.raises(CornersMeet) as fault:
        shape_corners(box(Point(0, 0), 30, 20), {0: ClipBy(15, 16), 1: ClipBy(15, 5)})
    assert fault.value.largest == 14
    assert len(shape_corners(box(Point(0, 0), 30, 20), {1: RoundBy(12), 2: RoundBy(8)})[0].legs) == 5


def test_a_needle_is_rounded_far_from_its_tip() -> None:
    needle = polygon((0, 0), (100, 1), (100, -1))
    rounded: Ring = shape_corners(needle.starting_at(needle.starts[1]), {2: RoundBy(0.5)})[0]
    assert rounded.bounds.min_x == pytest.approx(0.5 * sqrt(100**2 + 1) - 0.5, rel=1e-6)
