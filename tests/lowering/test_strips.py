"""Skived and glued strips: their ground, their twins, and how thin they are left."""

from __future__ import annotations

import math

import pytest

from drafting.solve.placed import PlacedSkive
from tests.lowering.drafted import CARD, HALF, check, codes, drafted

STOCK = "stock body: leather; 2 mm thick\n"
LEATHER = STOCK + CARD.replace("piece back:", "piece back: cut 1 from body")
HALF_LEATHER = STOCK + HALF.replace("piece back:", "piece back: cut 1 from body;")
MID = "  point mid: at (20 mm, 30 mm)\n"


@pytest.mark.parametrize(
    ("shape", "area"),
    [
        ("band 5 mm inside from heel to brow", 60 * 5),
        ("band 50 mm inside from foot to heel", 40 * 50),
        ("band 5 mm inside from foot round heel to brow", 40 * 5 + 55 * 5),
        ("box 10 mm by 6 mm; at mid; lying level; 2 mm rounded", 60 - (4 - math.pi) * 4),
        ("8 mm across; at mid", 16 * math.pi),
        ("foot to heel to brow", 1200),
        ("10 mm inside outline", 20 * 40),
        ("level through mid; 12 mm wide", 40 * 12),
        ("level through mid; 12 mm wide; 3 mm short", 34 * 12),
        ("along foot..brow; 1 mm wide; 5 mm short", math.hypot(40, 60) - 10),
        ("plumb through mid; 60 mm wide", 40 * 60),
    ],
)
def test_the_ground_of_a_strip(shape: str, area: float) -> None:
    text = LEATHER + MID + f"  glue patch: {shape}\n  skive thin: {shape}; down to 0.8 mm\n"
    check(text, {"back.patch.area": area, "back.thin.area": area})


def test_a_strip_from_edge_to_edge_ends_where_the_piece_does() -> None:
    """Between sides that slope the strip is as long as the piece is there: 40 mm less a fifth, at 30 mm of 60 mm."""
    text = STOCK + "piece back: cut 1 from body\n  point a: at (0, 0)\n  point b: at (40 mm, 0)\n"
    text += "  point c: at (30 mm, 60 mm)\n  point d: at (0, 60 mm)\n  outline: a to b to c to d\n"
    text += "  point mid: at (1 mm, 30 mm)\n  skive spine: level through mid; 12 mm wide; down to 1 mm\n"
    check(text, {"back.spine.area": 12 * 35, "back.spine.width": 36})


def test_a_band_runs_on_to_the_edges_beside_it() -> None:
    """Beside edges that lean out or in it is as long on the far side as the piece is there."""
    text = STOCK + "piece back: cut 1 from body\n  point a: at (0, 0)\n  point b: at (40 mm, 0)\n"
    text += "  point c: at (50 mm, 60 mm)\n  point d: at (6 mm, 60 mm)\n  outline: a to b to c to d\n"
    text += "  glue low: band 12 mm inside from a to b\n  glue high: band 12 mm inside from c to d\n"
    check(text, {"back.low.area": 12 * (40 + 40.8) / 2, "back.high.area": 12 * (44 + 43.2) / 2})


def test_a_band_along_a_rounded_end_ends_square_across() -> None:
    text = LEATHER + "  fillet foot, heel by 10 mm\n"
    text += "  skive end: band 8 mm inside from foot.end to heel.start; down to 1 mm\n"
    check(text, {"back.end.area": 20 * 8})


def test_what_is_left_is_kept_with_the_strip() -> None:
    text = HALF_LEATHER + "  skive edge: band 5 mm inside from heel to brow; down to 0.8 mm\n"
    own, twin = drafted(text).pieces["back"].features
    assert (own.name, twin.name) == ("edge", "edge'")
    assert own.work == twin.work == PlacedSkive(0.8, 2)
    assert not own.is_removed


def test_a_feather_edge_leaves_nothing() -> None:
    text = LEATHER + "  skive edge: band 5 mm inside from heel to brow; down to 0\n"
    assert codes(text) == []


@pytest.mark.parametrize(
    ("strip", "code"),
    [
        ("skive thin: band 5 mm inside from heel to brow", "M15"),
        ("skive thin: band 5 mm inside from heel to brow; end holes 2 mm; down to 1 mm", "M14"),
        ("skive thin: band 45 mm inside from heel to brow; down to 1 mm", "P15"),
        ("skive thin: band 5 mm inside from heel to brow; down to 2 mm", "P73"),
        ("skive thin: band 5 mm inside from heel to brow; down to -1 mm", "P74"),
        ("glue seam: along foot..brow", "P75"),
        ("glue seam: 5 mm inside outline; 3 mm wide", "P76"),
        ("glue seam: along foot..brow; 0 mm wide", "P23"),
        ("glue seam: band 5 mm outside from heel to brow", "P37"),
        ("glue seam: band 5 mm inside from heel to brow; down to 1 mm", "M14"),
        ("glue seam: box 5 mm by 5 mm; at mid", "M15"),
    ],
)
def test_a_strip_that_cannot_be_is_told(strip: str, code: str) -> None:
    assert codes(LEATHER + MID + f"  {strip}\n") == [code]
