"""What is held: the table, and whether it goes in."""

from __future__ import annotations

import pytest

from drafting.craft.contents import ROWS, TABLE, UnknownContent, content_named
from drafting.craft.faults import NotPositive
from drafting.craft.holding import Held, between_seams, past_opening


def test_every_row_has_a_source_and_stands_once() -> None:
    assert all(row.source for row in ROWS)
    assert len(TABLE) == len(ROWS)
    assert all(row.long >= row.wide > 0 for row in ROWS)


def test_a_name_that_is_not_there_offers_the_nearest() -> None:
    with pytest.raises(UnknownContent) as caught:
        content_named("pasport")
    assert "Did you mean `passport`?" in caught.value.facts["near"]


def test_ease_comes_on_top_of_what_the_walls_take() -> None:
    cards = Held("cards", 85.6, 53.98, 3.04, ease=2)
    room = between_seams(cards, 91)
    assert room.needed == pytest.approx(90.64)
    assert room.fits
    assert not between_seams(cards, 90.6).fits


def test_a_content_may_go_in_with_its_short_side_first() -> None:
    assert past_opening(Held("card", 85.6, 53.98, 0.76), 55).fits
    assert not past_opening(Held("card", 85.6, 53.98, 0.76), 54).fits


def test_a_content_has_a_size() -> None:
    with pytest.raises(NotPositive):
        Held("nothing", 0, 10, 1)
    with pytest.raises(NotPositive):
        Held("thin air", 10, 10, -1)
