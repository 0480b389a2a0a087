"""Folds and loops: what is refused, and what must add up."""

from __future__ import annotations

from math import pi

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
from drafting.craft.faults import NotPositive, SetBackEndless, TurnOutOfRange


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
