"""What the sheets of a print say of the pattern and of each piece on them."""

from __future__ import annotations

from functools import cache

import pytest

import drafting
from drafting.face import PlacedPattern
from tests.patterns.starters import STARTERS, starter_path


@cache
def first_size(name: str) -> PlacedPattern:
    return drafting.load(starter_path(name)).place()


@pytest.mark.parametrize("name", STARTERS)
def test_sheets_say_what_is_cut_from_what(name: str) -> None:
    """Each piece with its name, count, stock, face and folds, and each sheet with edition and text."""
    placed = first_size(name)
    for sheet in placed.prints().sheets:
        words = [lettering.text for lettering in sheet.drawing.letterings]
        line = " ".join(words)
        assert f"edition {placed.placed.edition}" in line or placed.placed.edition is None
        assert f"text {placed.pattern.fingerprint}" in line
        for piece in (placed.pieces[shown.piece] for shown in sheet.shown):
            assert any(piece.name in word for word in words)
            assert f"cut {piece.count}" in line and "grain side up" in line and (piece.stock or "") in line
            folds = [feature.name for feature in piece.features if feature.kind == "fold"]
            assert not folds or "fold at" in line
