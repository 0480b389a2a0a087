"""Cautions: what asks for each, what does not, and how they are worded."""

from __future__ import annotations

import re

import pytest

from drafting.craft.cautions import KINDS, LOCAL_RULES, cautions_for
from drafting.craft.item import Item, PlacedPart, PlacedTurn, Stock
from drafting.geometry.curves import box
from drafting.geometry.point import Point

PLAIN = Stock("body", "leather", 1.8, "vegetable-tanned shoulder")
CHROME = Stock("skin", "leather", 0.9, "chrome-tanned goat")


def make(
    title: str = "Card wallet", stock: Stock = PLAIN, turns: tuple[PlacedTurn, ...] = (), **more: object
) -> Item:
    part = PlacedPart("front", box(Point(0, 0), 100, 80), stock, "any", turns=turns)
    return Item(title, (part,), **more)  # type: ignore[arg-type]


def codes(item: Item) -> list[str]:
    return [caution.code for caution in cautions_for(item)]


ASKS: dict[str, tuple[Item, Item]] = {
    "H01": (make(for_laser=True), make()),
    "H02": (make(stock=CHROME, for_laser=True), make(for_laser=True)),
    "H03": (make(words=("Skive the turn-back.",)), make(words=("Fold the turn-back.",))),
    "H04": (make(words=("Glue the rims flesh to flesh.",)), make(words=("Sew the rims flesh to flesh.",))),
    "H05": (make(), Item("Nothing yet", ())),
    "H06": (make("Nursery name tag"), make("Ferry crew tag")),
    "H07": (make("Sail loft lifting strap"), make("Ferry deck strap")),
    "H08": (make("Ferry deck belt", hardware=("heel-bar buckle",)), make("Ferry deck belt")),
    "H09": (make("Net-mender's sheath"), make("Net-mender's purse")),
    "H10": (make("Signal box cup sleeve"), make("Signal box cupboard tag")),
    "H50": (make(for_laser=True), make()),
}


@pytest.mark.parametrize("code", list(ASKS))
def test_a_caution_comes_where_it_is_asked_for_and_nowhere_else(code: str) -> None:
    asks, does_not = ASKS[code]
    assert code in codes(asks)
    assert code not in codes(does_not)


def test_every_caution_has_a_case() -> None:
    assert [kind.caution.code for kind in KINDS] == list(ASKS)


def test_chrome_tanned_leather_cut_by_hand_asks_for_nothing_more() -> None:
    assert "H02" not in codes(make(stock=CHROME))
    assert "H02" in codes(make(stock=CHROME, words=("Cut it on the laser.",)))


def test_a_skived_turn_asks_for_the_caution_of_dust() -> None:
    assert "H03" in codes(make(turns=(PlacedTurn("hem", 9, 0.5),)))


def test_a_caution_says_what_asked_for_it() -> None:
    (caution,) = [one for one in cautions_for(make("Sail loft lifting strap")) if one.code == "H07"]
    assert caution.because == "`lifting`"


def test_words_are_found_at_their_beginning_only() -> None:
    """A kidskin purse is no toy, a forklift crew wears a badge, and a contact card is not glued."""
    assert "H06" not in codes(make("Kidskin purse"))
    assert "H07" not in codes(make("Forklift crew badge"))
    assert "H07" not in codes(make("Loading dock badge"))
    assert "H04" not in codes(make("Contact card holder"))


def test_no_caution_claims_that_a_thing_is_safe_or_unsafe_as_such() -> None:
    for kind in KINDS:
        text = kind.caution.text.lower()
        assert not re.search(
            r"\b(completely|perfectly|totally|always|guaranteed?|certainly|harmless|is safe)\b", text
        )
        assert "full of" not in text


def test_cautions_of_law_and_health_defer_to_local_rules() -> None:
    for kind in KINDS:
        assert kind.caution.text.endswith(LOCAL_RULES) or kind.caution.code == "H05"
        assert kind.caution.source and kind.caution.mark


def test_the_words_of_the_sources_are_kept() -> None:
    """H-01 hydrogen chloride, not chlorine gas; H-02 chromium III and VI; H-06 by inches; H-07 not for persons."""
    texts = {kind.caution.code: kind.caution.text for kind in KINDS}
    assert "hydrogen chloride" in texts["H01"] and "chlorine" not in texts["H01"]
    assert "chromium III" in texts["H02"] and "may turn" in texts["H02"]
    assert "1.25 in" in texts["H06"] and "2.25 in" in texts["H06"] and "mm" not in texts["H06"]
    assert "persons" in texts["H07"]
