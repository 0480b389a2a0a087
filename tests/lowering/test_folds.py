"""Folds: what a bend takes, wherever it lies, and the points that are placed by it."""

from __future__ import annotations

import math

import pytest

from drafting.solve.placed import PlacedFold
from tests.lowering.drafted import CARD, HALF, check, codes, drafted

STOCK = "stock body: leather; 2 mm thick; 0.4 neutral\n"
FOLDED = STOCK + CARD.replace("piece back:", "piece back: cut 1 from body")


@pytest.mark.parametrize(
    ("bent", "expected"),
    [
        ("90 deg round 6 mm", math.pi / 2 * (3 + 0.8)),
        ("180 deg round 0", math.pi * 0.8),
        ("360 deg round 70 mm", 2 * math.pi * (35 + 0.8)),
        ("0.5 deg round 1 in", math.radians(0.5) * (12.7 + 0.8)),
    ],
)
def test_an_allowance_is_the_angle_times_the_neutral_radius(bent: str, expected: float) -> None:
    """BA = theta (R + kT), reference value E-01."""
    text = FOLDED + f"  fold spine: level through (0, 0); bent {bent}\n".replace("(0, 0)", "mid")
    check(text + "  point mid: midway foot..tip\n", {"back.spine.allowance": expected})


def test_half_of_the_thickness_is_neutral_where_nothing_is_said() -> None:
    text = FOLDED.replace("; 0.4 neutral", "") + "  fold spine: along foot..brow; bent 180 deg round 0\n"
    check(text, {"back.spine.allowance": math.pi})


@pytest.mark.parametrize(
    "line", ["foot to brow", "along foot..brow", "along side", "20 mm inside side", "plumb through mid"]
)
def test_a_fold_lies_on_any_line_and_takes_as_much_everywhere(line: str) -> None:
    text = FOLDED + "  run side: from heel to brow\n  point mid: midway foot..heel\n"
    text += f"  fold spine: {line}; bent 180 deg round 3 mm\n"
    check(text, {"back.spine.allowance": math.pi * (1.5 + 0.8)})


def test_points_are_placed_by_what_their_own_fold_takes() -> None:
    text = (
        STOCK
        + """piece strap: cut 1 from body
  measure half = bar_fold.allowance/2
  point butt: at (0, 0)
  point crook: level with butt; 60 mm + half right of butt
  point tip: level with butt; 100 mm + bar_fold.allowance right of crook
  point side: plumb with butt; 20 mm above butt
  point end: plumb with tip; level with side
  outline: butt to tip to end to side
  fold bar_fold: plumb through crook; bent 180 deg round 4 mm
"""
    )
    takes = math.pi * (2 + 0.8)
    check(text, {"strap.crook.x": 60 + takes / 2, "strap.width": 160 + 1.5 * takes})


def test_a_twin_takes_as_much_and_lies_mirrored() -> None:
    text = STOCK + HALF.replace("piece back:", "piece back: cut 1 from body;")
    text += "  point a: at (10 mm, 0)\n  fold flap: plumb through a; bent 90 deg round 2 mm\n"
    takes = math.pi / 2 * (1 + 0.8)
    check(text, {"back.flap.allowance": takes, "back.flap'.allowance": takes})
    own, twin = drafted(text).pieces["back"].features
    assert isinstance(own.work, PlacedFold)
    assert own.work == twin.work == PlacedFold(90, 2, 2, pytest.approx(takes))
    assert twin.paths[0].start.x == pytest.approx(-10)


def test_a_list_of_folds_is_bent_alike() -> None:
    text = FOLDED + "  measure steps_of = 8 mm, 8 mm\n  points low: along foot..heel; steps steps_of\n"
    text += "  points high: along tip..brow; steps steps_of\n  fold pleat: lines low to high; bent 180 deg round 0\n"
    check(text, {"back.pleat.allowance": math.pi * 0.8, "back.pleat.2.length": 60})


def test_a_fold_without_a_thickness_is_drawn_and_not_measured() -> None:
    text = CARD + "  fold spine: along foot..brow; bent 180 deg round 0\n"
    (fold,) = drafted(text).pieces["back"].features
    assert fold.work == PlacedFold(180, 0, None, None)
    assert codes(text + "check back.spine.allowance > 0\n") == ["M70"]


def test_thickness_changes_with_the_size() -> None:
    text = 'measure t = 2 mm\nsize "thin": t = 1 mm\nsize "thick": t = 3 mm\n'
    text += FOLDED.replace("2 mm thick", "t thick") + "  fold spine: along foot..brow; bent 180 deg round 0\n"
    check(text, {"back.spine.allowance": math.pi * 0.4}, size="thin")
    check(text, {"back.spine.allowance": math.pi * 1.2}, size="thick")


def test_a_point_and_a_fold_may_not_wait_for_each_other() -> None:
    """What a fold takes hangs on its angle and on what lies inside: where that is read off the piece, it is a circle."""
    text = FOLDED + "  point mid: level with foot; spine.allowance right of foot\n"
    text += "  fold spine: plumb through mid; bent 180 deg round foot..mid\n"
    assert codes(text) != []
