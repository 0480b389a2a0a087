"""Smooth legs: tangent arcs through points, and nothing swung both ways in silence."""

from __future__ import annotations

from math import asin, pi, sin

import pytest

from drafting.geometry.arc import Arc
from drafting.geometry.curves import arc_through, biarc, smooth_legs
from drafting.geometry.faults import InLine, NeedsDirection, TurnsBack, ZeroLength
from drafting.geometry.line import Line
from drafting.geometry.path import Path
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from tests.geometry.figures import near

RIGHT, UP, DOWN = Vector(1, 0), Vector(0, 1), Vector(0, -1)


def test_through_one_point_it_is_one_circle() -> None:
    """The direction at the point and at both ends is that of the circle through all three."""
    smooth = smooth_legs([Point(0, 0), Point(7, 4), Point(20, 0)])
    whole = arc_through(Point(0, 0), Point(7, 4), Point(20, 0))
    assert len(smooth.legs) == 2 and smooth.swings == ()
    for leg in smooth.legs:
        assert (
            isinstance(leg, Arc)
            and near(leg.center, whole.center)
            and leg.radius == pytest.approx(whole.radius)
        )


def test_at_each_point_it_has_the_direction_of_the_circle_through_its_neighbours() -> None:
    points = [Point(0, 0), Point(10, 6), Point(25, 8), Point(40, 3), Point(48, -9)]
    path = Path(smooth_legs(points).legs)
    for index in (1, 2, 3):
        s = path.locate(points[index])
        assert s is not None
        around = arc_through(*points[index - 1 : index + 2])
        wanted = around.direction_at(around.nearest(points[index]))
        assert abs(path.direction_at(s).angle_to(wanted)) < 1e-9
    last = arc_through(*points[-3:])
    assert (
        abs(path.legs[-1].direction_at(path.legs[-1].length).angle_to(last.direction_at(last.length))) < 1e-9
    )
    assert path.turns == pytest.approx([0.0] * len(path.turns), abs=1e-9)


def test_directions_said_at_the_ends_are_kept() -> None:
    smooth = smooth_legs([Point(0, 0), Point(10, 6), Point(25, 8)], leaving=UP, arriving=DOWN)
    path = Path(smooth.legs)
    assert abs(path.direction_at(0).angle_to(UP)) < 1e-9
    assert abs(path.legs[-1].direction_at(path.legs[-1].length).angle_to(DOWN)) < 1e-9


def test_one_direction_and_no_point_between_make_one_arc() -> None:
    assert len(smooth_legs([Point(0, 0), Point(10, 10)], leaving=RIGHT).legs) == 1
    (leg,) = smooth_legs([Point(0, 0), Point(10, 10)], arriving=UP).legs
    assert isinstance(leg, Arc) and leg.sweep == pytest.approx(pi / 2) and near(leg.center, Point(0, 10))
    assert smooth_legs([Point(0, 0), Point(10, 0)], arriving=RIGHT).legs == (Line(Point(0, 0), Point(10, 0)),)


def test_two_directions_make_two_tangent_arcs() -> None:
    """With control arms of equal length, here worked by hand: both arms are 5."""
    first, second = biarc(Point(0, 0), RIGHT, Point(10, 10), RIGHT)
    assert near(first.end, Point(5, 5)) and near(second.start, Point(5, 5))
    assert abs(first.direction_at(first.length).angle_to(UP)) < 1e-9
    assert abs(second.direction_at(second.length).angle_to(RIGHT)) < 1e-9


def test_a_swing_both_ways_is_reported_by_its_stretch() -> None:
    assert smooth_legs([Point(0, 0), Point(10, 10)], RIGHT, RIGHT).swings == (0,)
    assert smooth_legs([Point(0, 0), Point(10, 5), Point(20, 0), Point(30, 5)]).swings == (1,)
    assert smooth_legs([Point(0, 0), Point(10, 5), Point(20, 0)]).swings == ()


@pytest.mark.parametrize("steep", [0.05, 0.3, 0.6, 1.2, 2.5])
@pytest.mark.parametrize("flat", [0.01, 0.1, 0.3])
def test_ends_that_bend_the_same_way_never_swing(flat: float, steep: float) -> None:
    """However much more the one end bends than the other, and from both ends alike."""
    for first, last in ((flat, steep), (steep, flat)):
        smooth = smooth_legs([Point(0, 0), Point(50, 0)], Vector.at_angle(first), Vector.at_angle(-last))
        path = Path(smooth.legs)
        assert smooth.swings == () and path.turns == pytest.approx([0.0] * len(path.turns), abs=1e-9)
        turned = sum(leg.sweep for leg in path.legs if isinstance(leg, Arc))
        assert turned == pytest.approx(-first - last)


def test_equal_arms_go_over_into_line_and_arc_without_a_jump() -> None:
    """A hair on either side of where one end bends three times as much as the other (by their sines)."""
    flat = 0.2
    for steep in (asin(3 * sin(flat)) - 1e-7, asin(3 * sin(flat)) + 1e-7):
        first, second = biarc(Point(0, 0), Vector.at_angle(flat), Point(50, 0), Vector.at_angle(-steep))
        assert near(first.end, Point(0, 0) + Vector.at_angle(flat) * first.length, 1e-4)
        assert near(second.start, first.end, SAME_POINT)


def test_points_in_a_line_give_lines() -> None:
    smooth = smooth_legs([Point(0, 0), Point(10, 5), Point(30, 15)])
    assert all(isinstance(leg, Line) for leg in smooth.legs) and len(smooth.legs) == 2


def test_what_cannot_be_smooth_is_refused() -> None:
    with pytest.raises(NeedsDirection):
        smooth_legs([Point(0, 0), Point(10, 0)])
    with pytest.raises(ZeroLength):
        smooth_legs([Point(0, 0), Point(10, 0), Point(10, 0)])
    with pytest.raises(InLine):
        smooth_legs([Point(0, 0), Point(20, 0), Point(10, 0)])
    with pytest.raises(TurnsBack):
        smooth_legs([Point(0, 0), Point(10, 0)], leaving=-RIGHT)
    with pytest.raises(TurnsBack):
        biarc(Point(0, 0), UP, Point(10, 0), UP)


def test_it_is_the_same_backward_and_in_a_mirror() -> None:
    points = [Point(0, 0), Point(10, 6), Point(25, 2), Point(40, 9)]
    path = Path(smooth_legs(points, leaving=UP).legs)
    back = Path(smooth_legs(points[::-1], arriving=DOWN).legs).reversed()
    a, b = Point(0, 30), Point(50, 20)
    twin = Path(smooth_legs([p.mirrored(a, b) for p in points], leaving=UP.mirrored(b - a)).legs)
    for share in (0.1, 0.33, 0.5, 0.77, 0.95):
        place = path.point_at(share * path.length)
        assert near(back.point_at(share * back.length), place, 1e-9)
        assert near(twin.point_at(share * twin.length), place.mirrored(a, b), 1e-9)
