"""Every starter loads, has no fault in any size, is laid out the tidy way and measures true when it is drawn."""

from __future__ import annotations

from functools import cache

import pytest

import drafting
from drafting.cli.new import starters
from drafting.face import Pattern
from drafting.proof.svg import check_svg
from drafting.syntax.parse import parse
from drafting.syntax.tidy import tidy
from drafting.text.source import Source
from tests.patterns.starters import STARTERS, starter_path, starter_source

SIZES = {
    "badge-holder": ("crew card", "pilot pass", "visitor"),
    "belt": ("80 cm", "90 cm", "100 cm", "110 cm", "36 inch, narrow"),
    "blade-sheath": ("pruner", "grafter"),
    "card-wallet": ("harbour pass", "long ticket"),
    "coaster-tray": ("mug", "stein"),
    "coin-pouch": ("matinee", "evening", "usher"),
    "cup-sleeve": ("signal man", "inspector", "night shift"),
    "glasses-case": ("reading", "wide frame", "sun"),
    "hatch-tag": ("log card", "flight sheet", "ground crew"),
    "key-fob": ("rowing boat", "motor boat"),
    "key-tray": ("front desk", "cloakroom"),
    "notebook-cover": ("A6", "A5", "B6"),
    "pitch-pipe-case": ("round pipe", "boxed fork"),
    "strap-end": ("small", "concert"),
    "tool-panel": ("metric", "inch", "jeweller"),
    "tool-roll": ("voicing", "bench", "needle files", "pipe mandrels"),
    "watch-strap": ("20 mm lugs", "18 mm lugs", "22 mm lugs"),
}


SAID = ("K40", "S31")
"""What is allowed, and what a fit came to."""


@cache
def starter(name: str) -> Pattern:
    return drafting.load(starter_path(name))


def test_each_starter_comes_with_the_tool() -> None:
    assert tuple(starters()) == STARTERS == tuple(SIZES)


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_has_no_fault_in_any_size(name: str) -> None:
    """Not even a warning; what is allowed is told with its reason, and what was fitted."""
    assert starter(name).sizes == SIZES[name]
    assert [
        (message.code, message.says) for message in starter(name).check() if message.code not in SAID
    ] == []


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_keeps_every_rule_when_its_edges_are_cut_by_hand(name: str) -> None:
    found = [(message.code, message.says) for message in starter(name).check(0.5)]
    assert [said for said in found if said[0] not in SAID] == []


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_is_laid_out_the_tidy_way(name: str) -> None:
    source = starter_source(name)
    laid_out = tidy(parse(source)[0])
    assert laid_out == source.text
    assert tidy(parse(Source(name, laid_out))[0]) == laid_out


@pytest.mark.parametrize("name", STARTERS)
def test_no_two_sizes_of_a_starter_are_alike(name: str) -> None:
    areas = [
        tuple(round(piece.outline.area, 3) for piece in starter(name).place(size).pieces.values())
        for size in SIZES[name]
    ]
    assert len(set(areas)) == len(areas)


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_measures_true_when_its_drawing_is_read_back(name: str) -> None:
    """In the last size written, which is not the one the pictures show."""
    placed = starter(name).place(SIZES[name][-1])
    assert check_svg(placed.drawing().to_svg(), placed.placed) == []


def test_the_sheet_of_a_piece_measures_true_when_it_is_read_back() -> None:
    placed = starter("badge-holder").place("visitor")
    assert check_svg(placed.drawing("front").to_svg(), placed.placed, "front") == []
