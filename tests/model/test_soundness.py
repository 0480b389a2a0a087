"""One run tells every independent fault, and nothing of what an earlier one caused."""

from __future__ import annotations

import pytest

from tests.lowering.drafted import CARD, codes

LOOSE = """piece lining:
  point a: at (0, 0)
  point b: level with a
  outline: 9 mm across; at a
"""
"""A piece with a fault of its own, to be told whatever else is wrong."""


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (CARD.replace("40 mm right of foot", "40 right of foot"), ["M03"]),
        (
            CARD + "  run wall: from heel too brow\npiece strap:\n  outline: box back.wall.length by 9 mm\n",
            ["T05"],
        ),
        (
            CARD + "  run wall: from heel too brow\npiece strap:\n  point a: at (0, 0)\n"
            "  point b: level with a; back.wall.length right of a\n  outline: 3 mm across; at b\n",
            ["T05"],
        ),
        (CARD + "  run wall: from heel too brow\ncheck back.wall.length > 3 mm\n", ["T05"]),
        (CARD + "  measure rim = 3 mm + 2\n  hole eye: at (9 mm, 9 mm); rim across\n", ["M03"]),
        (CARD + "  measure rim = 3 mm + 2\npiece strap:\n  outline: box back.rim by 9 mm\n", ["M03"]),
        (CARD + "  measure rim = 3 mm, 2 deg\npiece strap:\n  outline: box back.rim.1 by 9 mm\n", ["M05"]),
        (
            "stock body: leather; 2 thick\n" + CARD + "  hole eye: at (9 mm, 9 mm); body.thick across\n",
            ["M03"],
        ),
        (
            "stock body: leather; 2 mm thik\n" + CARD + "  hole eye: at (9 mm, 9 mm); body.thick across\n",
            ["T05"],
        ),
        (
            "stock body: leather; 2 mm thick\nstock body: sheet\n"
            + CARD
            + "  hole eye: at (9 mm, 9 mm); body.thick across\n",
            ["M07"],
        ),
        ("piece front: like back\n" + CARD.replace("level with brow", "level with brou"), ["M01"]),
        ("piece front: like bakc\npiece strap: like front\n" + CARD + "check front.heel.x > 3 mm\n", ["M01"]),
        (
            CARD
            + "  fillet heel by 99 mm\n  run wall: from heel.end to brow\n  crease line: 3 mm inside outline\n",
            ["P06"],
        ),
        (
            CARD
            + "  point knot: level with foot\n  guide g: foot to knot\n  hole eye: at knot; 2 mm across\n",
            ["S01"],
        ),
        (CARD + "  points low: along foot..heel; steps 10\n  crease seams: lines low to low\n", ["M03"]),
    ],
)
def test_a_fault_is_told_once_and_what_leans_on_it_stays_quiet(text: str, said: list[str]) -> None:
    assert codes(text) == said


@pytest.mark.parametrize(
    "fault",
    [
        "piece strap:\n  outline: box 40 by 9 mm\n",
        "piece strap:\n  outline: box back.wall.length by 9 mm\n",
        "check 3 mm > 2\n",
        'size "day": wide = 3 mm\n',
        "stock body: leather; 2 thick\n",
        "piece strap: like bakc\n",
        "join back.edge with\n",
    ],
)
def test_an_independent_fault_is_told_too(fault: str) -> None:
    """Whatever it is, the loose point of another piece is told in the same run."""
    found = codes(fault + CARD + LOOSE)
    assert "S01" in found and len(found) == 2
