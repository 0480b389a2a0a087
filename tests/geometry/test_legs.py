"""Lines and arcs answer the same questions in the same way."""

from __future__ import annotations

from math import inf, pi, sqrt

import pytest

from drafting.geometry.arc import Arc
from drafting.geometry.bounds import Bounds
from drafting.geometry.faults import NotPositive, TooFlat, ZeroLength
from drafting.geometry.leg import Leg, turn_between
from drafting.geometry.line import Line
from drafting.geometry.point import Point, Vector
from tests.geometry.figures import near

LINE = Line(Point(1, 2), Point(4, 6))
QUARTER = Arc(Point(0, 0), 10, 0, pi / 2)
CLOCKWISE = Arc(Point(5, -5), 4, 2.5, -4.5)
NEARLY_ROUND = Arc(Point(0, 0), 10, -3, 6.2)
LEGS = [LINE, QUARTER, CLOCKWISE, NEARLY_ROUND]


@pytest.mark.parametrize("leg", LEGS)
def test_a_leg_is_walked_by_its_length(leg: Leg) -> None:
    """Ends, places and directions agree with small steps along the leg."""
    assert near(leg.point_at(0), leg.start) and near(leg.point_at(leg.length), leg.end)
    step = 1e-6
    for share in (0.1, 0.5, 0.9):
        s = share * leg.length
        chord = leg.point_at(s + step) - leg.point_at(s - step)
        assert chord.length == pytest.approx(2 * step, rel=1e-6)
        assert abs(chord.angle_to(leg.direction_at(s))) < 1e-6
        assert leg.nearest(leg.point_at(s)) == pytest.approx(s)


@pytest.mark.parametrize("leg", LEGS)
def test_reversed_is_the_same_leg_the_other_way(leg: Leg) -> None:
    """Lengths count from the other end, and the direction is the opposite."""
    back = leg.reversed()
    for share in (0.0, 0.3, 1.0):
        s = share * leg.length
        assert near(back.point_at(leg.length - s), leg.point_at(s))
        assert (back.direction_at(leg.length - s) + leg.direction_at(s)).length < 1e-9


@pytest.mark.parametrize("leg", LEGS)
def test_a_part_lies_on_its_leg(leg: Leg) -> None:
    """A part begins and ends where it was asked to, and is as long."""
    part = leg.part(leg.length * 0.2, leg.length * 0.7)
    assert part.length == pytest.approx(leg.length / 2)
    assert near(part.start, leg.point_at(leg.length * 0.2)) and near(part.end, leg.point_at(leg.length * 0.7))


@pytest.mark.parametrize("leg", LEGS)
def test_bounds_hold_the_leg_closely(leg: Leg) -> None:
    """No place of a leg is outside its box, and every side of the box is reached."""
    places = [leg.point_at(leg.length * index / 20000) for index in range(20001)]
    tight = Bounds.around(places)
    for side in ("min_x", "min_y", "max_x", "max_y"):
        assert getattr(leg.bounds, side) == pytest.approx(getattr(tight, side), abs=1e-6)


@pytest.mark.parametrize("leg", LEGS)
@pytest.mark.parametrize("move", ["mirrored", "moved", "turned", "scaled"])
def test_moving_a_leg_moves_its_places(leg: Leg, move: str) -> None:
    """Place by place, a moved leg is where the places of the leg are moved to."""
    arguments = {
        "mirrored": (Point(1, 7), Point(-3, 2)),
        "moved": (Vector(3, -8),),
        "turned": (2.2, Point(4, 4)),
        "scaled": (-1.7, Point(4, 4)),
    }[move]
    there = getattr(leg, move)(*arguments)
    for share in (0.0, 0.37, 1.0):
        moved_place = getattr(leg.point_at(share * leg.length), move)(*arguments)
        assert near(there.point_at(share * there.length), moved_place)


def test_a_mirrored_arc_turns_the_other_way() -> None:
    assert QUARTER.mirrored(Point(0, 0), Point(0, 1)).sweep == -QUARTER.sweep


@pytest.mark.parametrize(
    ("leg", "place", "distance"),
    [
        (LINE, (1, 2), 0),
        (LINE, (4 + 4, 6 - 3), 5),
        (LINE, (1 - 3, 2 - 4), 5),
        (QUARTER, (0, 0), 10),
        (QUARTER, (30, 40), 40),
        (QUARTER, (3, 4), 5),
        (QUARTER, (10, -7), 7),
        (QUARTER, (-10, 0), sqrt(200)),
        (NEARLY_ROUND, (0, 0), 10),
    ],
)
def test_distance_from_a_point(leg: Leg, place: tuple[float, float], distance: float) -> None:
    """Square to the leg where it can be, otherwise from the nearer end."""
    assert leg.distance_to_point(Point(*place)) == pytest.approx(distance)
    assert leg.point_at(leg.nearest(Point(*place))).distance_to(Point(*place)) == pytest.approx(distance)


def test_an_arc_knows_its_segment() -> None:
    """Half a circle, and an arc so flat that a plain difference would lose its area."""
    assert Arc(Point(0, 0), 10, 0, pi).segment_area == pytest.approx(50 * pi)
    flat = Arc(Point(0, -1e6), 1e6, pi / 2 + 1e-5, -2e-5)
    assert flat.segment_area == pytest.approx(-2 / 3 * (2e-5 * 1e6) * flat.height, rel=1e-9)


def test_turns_at_corners_are_signed() -> None:
    """Left is positive; a tangent corner does not turn."""
    assert turn_between(Line(Point(0, 0), Point(1, 0)), Line(Point(1, 0), Point(1, 1))) == pytest.approx(
        pi / 2
    )
    assert turn_between(Line(Point(10, -5), Point(10, 0)), QUARTER) == pytest.approx(0)


def test_what_is_no_leg_is_refused() -> None:
    """Nothing quietly becomes zero: a leg without length, a radius that is none, a circle too large to hold."""
    with pytest.raises(ZeroLength):
        Line(Point(3, 3), Point(3, 3 + 1e-8))
    with pytest.raises(ZeroLength):
        Line(Point(0, 0), Point(float("nan"), 1))
    with pytest.raises(ZeroLength):
        Arc(Point(0, 0), 10, 0, 1e-9)
    with pytest.raises(ZeroLength):
        Arc(Point(0, 0), 10, 0, 7)
    for radius in (0, -4, float("nan")):
        with pytest.raises(NotPositive):
            Arc(Point(0, 0), radius, 0, 1)
    for radius in (1e10, inf):
        with pytest.raises(TooFlat):
            Arc(Point(0, 0), radius, 0, 1)
