"""Rows along a line: evenly, exactly, from the middle or an end, and round a ring."""

from __future__ import annotations

import math

import pytest

from tests.lowering.drafted import CARD, HALF, check, codes, drafted

SIDE = CARD + "  run side: from heel to brow\n"
"""A run that goes 60 mm up at x = 40 mm."""


def heights(row: str, text: str = SIDE) -> list[float]:
    (feature,) = drafted(text + f"  row pins: {row}; 2 mm across\n").pieces["back"].features
    return [round(hole.center.y, 6) for hole in feature.holes]


INSIDE = "6 mm inside side"


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        ("5 holes", [0, 15, 30, 45, 60]),
        ("1 holes", [30]),
        ("every 15 mm", [0, 15, 30, 45, 60]),
        ("every 14.5 mm", [0, 15, 30, 45, 60]),
        ("3 holes; 10 mm apart", [20, 30, 40]),
        ("25 mm apart", [5, 30, 55]),
        ("3 holes; 10 mm apart; 4 mm short at start", [4, 14, 24]),
        ("3 holes; 10 mm apart; 4 mm short at end", [36, 46, 56]),
        ("2 holes; 10 mm apart; 4 mm short", [25, 35]),
        ("5 holes; 10 mm short", [10, 20, 30, 40, 50]),
        ("25 mm apart; 1 mm short at end", [9, 34, 59]),
    ],
)
def test_holes_along_a_line(row: str, expected: list[float]) -> None:
    spine = CARD + "  point a: at (20 mm, 0)\n  point b: at (20 mm, 60 mm)\n"
    inner = spine.replace("0 mm)\n", "0 mm)\n") + "  guide spine: a to b\n"
    text = inner.replace("outline: foot to heel to brow to tip", "outline: 5 mm outside card")
    text += "  guide card: foot to heel to brow to tip to foot\n"
    assert heights(f"along spine; {row}", text) == expected


def test_rows_lie_along_runs_offsets_paths_and_stretches() -> None:
    assert heights(f"{INSIDE}; 3 holes") == [6, 30, 54]
    assert heights("along foot..brow; 3 holes; 10 mm apart") == pytest.approx(
        [30 + step * 10 * 60 / math.hypot(40, 60) for step in (-1, 0, 1)], abs=1e-6
    )
    middle = SIDE + "  point mid: at (20 mm, 30 mm)\n"
    assert heights("plumb through mid; 3 holes; 10 mm apart", middle) == [20, 30, 40]
    assert heights("foot to mid to brow; 2 holes; 10 mm short", middle) == pytest.approx(
        [10 * 60 / math.hypot(40, 60), 60 - 10 * 60 / math.hypot(40, 60)], abs=1e-6
    )


def test_a_row_is_measured() -> None:
    text = SIDE + "  row pins: 6 mm inside side; every 9.8 mm; 2 mm across\n"
    check(
        text,
        {
            "back.pins.holes": 6,
            "back.pins.apart": 9.6,
            "back.pins.long": 48,
            "back.pins.across": 2,
            "back.pins.centre.x": 34,
            "back.pins.centre.y": 30,
        },
    )


def test_a_row_round_a_ring_has_as_many_holes_as_gaps() -> None:
    ring = SIDE + "  guide ring: 20 mm across; at (20 mm, 30 mm)\n"
    assert heights("along ring; 4 holes; start at ring.right", ring) == [30, 40, 30, 20]
    (feature,) = (
        drafted(ring + "  row pins: along ring; every 10 mm; start at ring.top; 1 mm across\n")
        .pieces["back"]
        .features
    )
    assert len(feature.holes) == 6
    assert feature.sizes["apart"] == pytest.approx(20 * math.pi / 6)
    exact = drafted(ring + "  row pins: along ring; 10 mm apart; start at ring.top; 1 mm across\n")
    assert len(exact.pieces["back"].features[0].holes) == 6


def test_two_holes_in_one_place_on_the_mirror_line_are_one() -> None:
    text = HALF + "  point mid: at (0, 30 mm)\n  point far: at (15 mm, 30 mm)\n"
    text += "  row pins: along mid..far; 4 holes; 2 mm across\n"
    own, twin = drafted(text).pieces["back"].features
    assert [round(hole.center.x, 6) for hole in own.holes] == [0, 5, 10, 15]
    assert [round(hole.center.x, 6) for hole in twin.holes] == [-5, -10, -15]


@pytest.mark.parametrize(
    ("row", "code"),
    [
        ("along side; 2 mm across", "M15"),
        ("along side; 5 holes", "M15"),
        ("along side; every 10 mm; 5 holes; 2 mm across", "M16"),
        ("along side; along foot..brow; 5 holes; 2 mm across", "M16"),
        ("along side; 5 holes; 2 mm across; lying level", "M14"),
        ("along side; 5 holes; 2 mm across; at mid", "M14"),
        ("along side; 5 holes; 2 mm across; as many as side", "M14"),
        ("at mid; lying level; 3 holes; 5 mm apart; 2 mm across; 3 mm short", "M14"),
        (f"{INSIDE}; 5 mm short; 2.5 holes; 2 mm across", "P25"),
        (f"{INSIDE}; 5 mm short; every 40 mm; 2 mm across", "S40"),
        (f"{INSIDE}; 5 mm short; 9 holes; 10 mm apart; 2 mm across", "K33"),
        (f"{INSIDE}; 5 mm short; 0 mm apart; 2 mm across", "P23"),
        ("8 mm inside outline; 6 holes; 2 mm across", "S41"),
        (f"{INSIDE}; 5 mm short; 6 holes; 2 mm across; start at mid", "S42"),
        ("along side; 5 holes; 2 mm across", "P37"),
    ],
)
def test_a_row_that_cannot_be_is_told(row: str, code: str) -> None:
    assert codes(SIDE + f"  point mid: at (20 mm, 30 mm)\n  row pins: {row}\n") == [code]
