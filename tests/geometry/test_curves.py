"""Curved legs from what a maker says of them, and shapes without corners."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from drafting.geometry.arc import Arc
from drafting.geometry.curves import (
    arc_about,
    arc_bowed,
    arc_tangent,
    arc_through,
    arc_with_radius,
    box,
    circle,
    obround,
)
from drafting.geometry.faults import (
    BowTooHigh,
    InLine,
    NotOneCircle,
    NotPositive,
    RadiusTooSmall,
    TooFlat,
    TurnsBack,
    TwoWaysRound,
    ZeroLength,
)
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.point import Point, Vector
from tests.geometry.figures import near

A, B = Point(2, 3), Point(14, 3)


def arc(leg: Leg) -> Arc:
    assert isinstance(leg, Arc)
    return leg


@pytest.mark.parametrize("to_left", [True, False])
@pytest.mark.parametrize("height", [0.001, 2.0, 6.0])
def test_a_bow_stands_off_its_chord(height: float, to_left: bool) -> None:
    """On the side asked for, by the height asked for, up to half a circle."""
    leg = arc(arc_bowed(A, B, height, to_left))
    assert near(leg.start, A) and near(leg.end, B)
    assert near(leg.point_at(leg.length / 2), Point(8, 3 + (height if to_left else -height)))
    assert leg.height == pytest.approx(height)


def test_a_bow_of_nothing_is_straight_and_too_high_a_bow_is_refused() -> None:
    assert arc_bowed(A, B, 0, True) == Line(A, B)
    with pytest.raises(BowTooHigh) as fault:
        arc_bowed(A, B, 6.1, True)
    assert fault.value.largest == 6
    with pytest.raises(NotPositive):
        arc_bowed(A, B, -1, True)
    with pytest.raises(ZeroLength):
        arc_bowed(A, A, 1, True)


def test_an_arc_too_flat_to_hold_is_refused() -> None:
    """Nothing is bent or straightened in silence by more than SAME_POINT."""
    far = Point(10_000, 0)
    with pytest.raises(TooFlat):
        arc_bowed(Point(0, 0), far, 1e-4, True)
    leg = arc(arc_bowed(Point(0, 0), far, 0.05, True))
    assert near(leg.end, far, 1e-6) and near(leg.point_at(leg.length / 2), Point(5000, 0.05), 1e-6)


@pytest.mark.parametrize("to_left", [True, False])
@pytest.mark.parametrize("radius", [6.0, 6.5, 1000.0])
def test_an_arc_of_a_radius_goes_the_short_way(radius: float, to_left: bool) -> None:
    leg = arc(arc_with_radius(A, B, radius, to_left))
    assert near(leg.start, A) and near(leg.end, B)
    assert leg.radius == pytest.approx(radius) and abs(leg.sweep) <= pi + 1e-9
    assert (leg.point_at(leg.length / 2).y > 3) == to_left


def test_a_radius_must_reach() -> None:
    with pytest.raises(RadiusTooSmall) as fault:
        arc_with_radius(A, B, 5.9, True)
    assert fault.value.smallest == 6


@pytest.mark.parametrize("mid", [(8, 3.5), (8, 9), (8, 30), (3, -20), (1, 3.001)])
def test_an_arc_through_a_point_passes_it_on_the_way(mid: tuple[float, float]) -> None:
    """Also when it has to go more than half round."""
    leg = arc_through(A, Point(*mid), B)
    assert near(leg.start, A) and near(leg.end, B)
    assert leg.distance_to_point(Point(*mid)) < 1e-6


@pytest.mark.parametrize("mid", [(8, 3), (20, 3), (-5, 3)])
def test_three_points_in_a_line_have_no_arc(mid: tuple[float, float]) -> None:
    with pytest.raises(InLine):
        arc_through(A, Point(*mid), B)


def test_an_arc_about_a_center_goes_the_short_way_or_the_long() -> None:
    center, start, end = Point(0, 0), Point(10, 0), Point(0, 10)
    assert arc_about(center, start, end).sweep == pytest.approx(pi / 2)
    assert arc_about(center, start, end, long=True).sweep == pytest.approx(-3 * pi / 2)
    assert arc_about(center, end, start, long=True).sweep == pytest.approx(3 * pi / 2)
    assert near(arc_about(center, start, end, long=True).center, center)
    with pytest.raises(NotOneCircle) as fault:
        arc_about(center, start, Point(0, 11))
    assert (fault.value.from_start, fault.value.from_end) == (10, 11)
    with pytest.raises(TwoWaysRound):
        arc_about(center, start, Point(-10, 0))
    with pytest.raises(ZeroLength):
        arc_about(center, start, start)


@pytest.mark.parametrize(
    ("direction", "end", "sweep"),
    [
        ((1, 0), (10, 10), pi / 2),
        ((1, 0), (0, 8), pi),
        ((0, 1), (10, 10), -pi / 2),
        ((1, 0), (-10, 10), 3 * pi / 2),
    ],
)
def test_a_tangent_arc_leaves_in_its_direction(
    direction: tuple[float, float], end: tuple[float, float], sweep: float
) -> None:
    leg = arc(arc_tangent(Point(0, 0), Vector(*direction), Point(*end)))
    assert leg.sweep == pytest.approx(sweep)
    assert (leg.direction_at(0) - Vector(*direction)).length < 1e-9 and near(leg.end, Point(*end))


def test_a_tangent_arc_to_a_place_ahead_is_a_line_and_behind_is_a_fault() -> None:
    assert arc_tangent(Point(0, 0), Vector(2, 0), Point(5, 0)) == Line(Point(0, 0), Point(5, 0))
    with pytest.raises(TurnsBack):
        arc_tangent(Point(0, 0), Vector(2, 0), Point(-5, 0))


def test_a_circle_is_two_arcs() -> None:
    ring = circle(Point(3, 4), 5)
    assert len(ring.legs) == 2 and ring.is_anticlockwise
    assert ring.area == pytest.approx(25 * pi) and ring.length == pytest.approx(10 * pi)
    assert (ring.width, ring.height) == (pytest.approx(10), pytest.approx(10))


def test_a_box_lies_in_its_direction() -> None:
    """Its width along the direction, anticlockwise from its lower left corner."""
    assert box(Point(0, 0), 30, 20).corners == (
        Point(-15, -10),
        Point(15, -10),
        Point(15, 10),
        Point(-15, 10),
    )
    upright = box(Point(0, 0), 30, 20, direction=pi / 2)
    assert (upright.width, upright.height) == (pytest.approx(20), pytest.approx(30))
    assert near(upright.start, Point(10, -15))
    with pytest.raises(NotPositive):
        box(Point(0, 0), 0, 20)


@pytest.mark.parametrize("rounded", [0.5, 4.0, 10.0])
def test_a_rounded_box_has_round_corners(rounded: float) -> None:
    """Up to half the smaller side, where the short sides are used up."""
    ring = box(Point(1, 2), 30, 20, 0.3, rounded)
    assert ring.area == pytest.approx(600 - (4 - pi) * rounded**2)
    assert ring.turns == pytest.approx([0.0] * len(ring.legs), abs=1e-9)
    assert len(ring.legs) == (6 if rounded == 10 else 8)


@pytest.mark.parametrize("direction", [0.0, pi / 2, 1.234])
def test_an_obround_is_long_over_all(direction: float) -> None:
    ring = obround(Point(5, 5), 14, 4.5, direction)
    level = ring.turned(-direction, Point(5, 5))
    assert (level.width, level.height) == (pytest.approx(14), pytest.approx(4.5))
    assert ring.is_anticlockwise and ring.area == pytest.approx(9.5 * 4.5 + pi * 2.25**2)
    assert near(ring.centroid, Point(5, 5))


def test_an_obround_as_long_as_wide_is_a_circle_and_no_shorter() -> None:
    assert obround(Point(0, 0), 6, 6).area == pytest.approx(9 * pi)
    with pytest.raises(RadiusTooSmall):
        obround(Point(0, 0), 5, 6)


def test_an_arc_through_points_far_apart_keeps_its_middle() -> None:
    """Ten metres long and nearly straight."""
    leg = arc_through(Point(0, 0), Point(5000, 1), Point(10_000, 0))
    assert leg.radius == pytest.approx((5000**2 + 1) / 2)
    assert leg.distance_to_point(Point(5000, 1)) < 1e-6
    assert arc_through(Point(0, 0), Point(0.05, 0.05), Point(0.1, 0)).radius == pytest.approx(0.05)
    assert arc_through(Point(0, 0), Point(1, 1), Point(0, 2)).length == pytest.approx(pi)
    assert arc_through(Point(0, 0), Point(1, 0), Point(0, 1)).radius == pytest.approx(sqrt(0.5))
