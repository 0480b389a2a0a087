"""Straps: their lengths add up."""

from __future__ import annotations

from math import pi

import pytest

from drafting.craft.faults import NotPositive
from drafting.craft.strap_lengths import belt_blank, sizes_of_row, strap_turn_back


def test_a_strap_end_is_its_lap_and_the_fold() -> None:
    back = strap_turn_back(75, 5, 3.6, 0.4)
    assert back.allowance == pytest.approx(pi * (2.5 + 1.44))
    assert (back.fold, back.straight) == pytest.approx((75 + back.allowance / 2, 75 + back.allowance))


def test_a_belt_blank_adds_up() -> None:
    assert belt_blank(3.5, 36, 5, 1, 4) == 45.5


def test_a_row_reaches_as_far_each_way() -> None:
    assert sizes_of_row(950, 7, 25) == (875, 1025)
    assert sizes_of_row(950, 1, 25) == (950, 950)


def test_lengths_below_nothing_are_refused() -> None:
    for ask in (
        lambda: strap_turn_back(0, 5, 3),
        lambda: strap_turn_back(70, -5, 3),
        lambda: belt_blank(70, 0, 5, 25, 9),
    ):
        with pytest.raises(NotPositive):
            ask()
