"""The hides beside the patterns: each is drawn without a fault, and an item is laid on it."""

from __future__ import annotations

from pathlib import Path

import pytest

import drafting
from drafting.lay import Limits

PATTERNS = Path(__file__).parent.parent.parent / "patterns"
HIDES = sorted(PATTERNS.glob("hides/*.draft"))


@pytest.mark.parametrize("file", HIDES, ids=lambda file: file.stem)
def test_a_hide_is_drawn_without_a_fault_and_holds_parts(file: Path) -> None:
    hide = drafting.load(file)
    assert list(hide.check()) == []
    tag = drafting.load(PATTERNS / "hatch-tag.draft").place()
    laid = drafting.lay_order(
        [(tag, 4)], hides=[hide.place()], stocks=["body"], firm=["strap"], limits=Limits(steps=1)
    )
    assert laid.violations() == []
    assert laid.lay.is_complete
    assert list(laid.messages) == []


def test_there_is_a_hide_with_six_defects_and_both_kinds_of_zone() -> None:
    sheets = [drafting.load(file).place().pieces[file.stem] for file in HIDES]
    openings = [[one for one in piece.features if one.kind == "opening"] for piece in sheets]
    assert max(len(found) for found in openings) >= 6
    assert any({"backbone", "firm_back", "poor_flank"} <= set(piece.guides) for piece in sheets)
