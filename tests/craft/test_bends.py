"""Folds, loops, boxes, moulded fronts and cones: what is refused, and what must add up."""

from __future__ import annotations

from math import pi, radians, sqrt

import pytest

from drafting.craft.bends import (
    Bend,
    bend_allowance,
    bend_deduction,
    flat_from_outside,
    flat_from_straights,
    fold_allowance,
    keeper_length,
    set_back,
    turn_from_included,
)
from drafting.craft.boxes import box_blank, walls_meet
from drafting.craft.cones import IsCylinder, flat_cone
from drafting.craft.faults import NotPositive, SetBackEndless, TurnOutOfRange
from drafting.craft.wet_moulding import moulded


def test_a_fold_round_a_thickness_is_a_bend_round_half_of_it() -> None:
    assert fold_allowance(pi, 5, 3.6, 0.4) == pytest.approx(pi * (2.5 + 0.4 * 3.6))


def test_outside_legs_and_straight_parts_agree() -> None:
    """A strip of straight parts 45 and 35 bent once is 50 and 40 to its outside corner."""
    bends = (Bend(pi / 2, 3.0),)
    assert flat_from_outside((50, 40), bends, 2.0) == pytest.approx(flat_from_straights((45, 35), bends, 2.0))


def test_a_bend_of_half_a_turn_has_no_corner_to_measure_to() -> None:
    for turn in (pi, 1.5 * pi):
        with pytest.raises(SetBackEndless):
            set_back(turn, 3, 2)
        with pytest.raises(SetBackEndless):
            bend_deduction(turn, 3, 2)


@pytest.mark.parametrize("turn", [0.0, -1.0, 2 * pi + 0.01, float("nan")])
def test_a_bend_turns_through_something_and_at_most_once_round(turn: float) -> None:
    with pytest.raises(TurnOutOfRange):
        bend_allowance(turn, 3, 2)


def test_legs_that_lie_in_one_line_are_no_bend() -> None:
    with pytest.raises(TurnOutOfRange):
        turn_from_included(pi)


def test_amounts_below_nothing_are_refused() -> None:
    for ask in (
        lambda: bend_allowance(pi, -1, 2),
        lambda: keeper_length(38, 7, -1),
        lambda: keeper_length(38, 7, 2, lap=-1),
        lambda: keeper_length(0, 7, 2),
    ):
        with pytest.raises(NotPositive):
            ask()


def test_a_keeper_takes_its_lap_and_its_ease_on_top() -> None:
    assert keeper_length(38, 7, 2, lap=10, ease=2) == pytest.approx(keeper_length(38, 7, 2) + 12)


def test_walls_make_room_for_each_other() -> None:
    assert (walls_meet("butted", 2).first_in, walls_meet("butted", 2).second_in) == (0, 2)
    assert walls_meet("mitred", 2).second_in == 0
    assert walls_meet("lapped", 2, tab=12).tab == 12


def test_a_box_of_leather_without_thickness_is_its_room_inside() -> None:
    blank = box_blank(90, 60, 25, 0.0)
    assert (blank.long, blank.wide, blank.base_long, blank.wall) == (140, 110, 90, 25)


def test_a_box_unrolls_to_the_length_of_its_neutral_line() -> None:
    """Rim to rim over the base: two walls, two bends and the straight base."""
    blank = box_blank(90, 60, 25, 2.0, radius=1.0, corner="butted")
    assert blank.long == pytest.approx(2 * 24 + 88 + 2 * (pi / 2) * 2.0)
    assert blank.first_wall - blank.second_wall == pytest.approx(30 + 4)
    assert blank.base_long + 2 * blank.wall == pytest.approx(blank.long)


def test_a_box_needs_room_between_its_bends() -> None:
    with pytest.raises(NotPositive):
        box_blank(90, 60, 2, 1.0, radius=3.0)


def test_moulded_leather_of_no_thickness_goes_straight_up_and_out() -> None:
    front = moulded(80, 50, 18, 0.0, flange=12, corner_radius=10)
    assert (front.long, front.wide, front.rise) == (80 + 60, 50 + 60, 18)
    assert front.corner_radius == pytest.approx(sqrt(100 + 2 * 10 * 18))
    assert front.gather == pytest.approx(1 - 10 / sqrt(460))


def test_rounder_bends_take_less_leather_than_sharp_ones() -> None:
    sharp = moulded(80, 50, 18, 2.0, flange=12, corner_radius=10)
    rounded = moulded(80, 50, 18, 2.0, flange=12, corner_radius=10, top_radius=4, foot_radius=3)
    assert rounded.rise < sharp.rise
    assert sharp.rise == pytest.approx(18 - 2 + pi)


def test_a_mould_shallower_than_its_bends_is_refused() -> None:
    with pytest.raises(NotPositive):
        moulded(80, 50, 5, 2.0, flange=12, corner_radius=10, top_radius=3, foot_radius=3)


def test_a_cone_is_the_same_from_either_end_and_a_cylinder_is_none() -> None:
    assert flat_cone(35, 50, 20) == flat_cone(50, 35, 20)
    with pytest.raises(IsCylinder):
        flat_cone(40, 40, 20)


def test_a_whole_cone_comes_to_a_point() -> None:
    cone = flat_cone(30, 0, 40)
    assert (cone.near, cone.far, cone.slant) == (0, 50, 50)
    assert cone.angle == pytest.approx(radians(216))
