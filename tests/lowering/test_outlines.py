"""Outlines: their forms, mirrored halves, cuts and rounded corners, against amounts worked out by hand."""

from __future__ import annotations

import math

import pytest

from tests.lowering.drafted import CARD, HALF, SQUARE, check, codes, drafted

CORNER = 1 - math.pi / 4
"""What a fillet of radius 1 takes off a square corner."""


def corners(text: str, piece: str = "back") -> dict[str, str]:
    return {corner.name: corner.kind for corner in drafted(text).pieces[piece].corners}


def test_a_path_closes_by_itself_with_a_straight_leg() -> None:
    check(CARD, {"back.outline.length": 200, "back.area": 2400})
    check(CARD.replace("to tip\n", "to tip to foot\n"), {"back.outline.length": 200, "back.area": 2400})


@pytest.mark.parametrize(
    ("form", "expected"),
    [
        (
            "box 40 mm by 60 mm",
            {"back.area": 2400, "back.outline.top.y": 30, "back.outline.bottom_left.x": -20},
        ),
        ("box 40 mm by 60 mm; at foot", {"back.outline.top_right.x": 25, "back.outline.centre.y": 5}),
        (
            "box 40 mm by 60 mm; at foot; lying 90 deg",
            {"back.width": 60, "back.height": 40, "back.outline.top_left.x": -25},
        ),
        (
            "box 40 mm by 60 mm; at foot; lying 30 deg",
            {"back.area": 2400, "back.width": 40 * math.cos(math.pi / 6) + 30},
        ),
        (
            "50 mm across",
            {"back.area": 625 * math.pi, "back.outline.left.x": -25, "back.outline.length": 50 * math.pi},
        ),
        ("50 mm across; at foot", {"back.outline.top.x": 5, "back.outline.top.y": 30}),
        ("3 mm inside ring", {"back.width": 34}),
        ("3 mm outside ring", {"back.area": math.pi * 23**2}),
        ("3 mm round line", {"back.area": 40 * 6 + math.pi * 9}),
        (
            "band 4 mm inside from ring.top round ring.left to ring.bottom of ring",
            {"back.area": math.pi / 2 * (400 - 256)},
        ),
        (
            "box 40 mm by 60 mm; 5 mm rounded",
            {"back.area": 2400 - 4 * 25 * CORNER, "back.outline.top_left.x": -20},
        ),
    ],
)
def test_an_outline_has_many_forms(form: str, expected: dict[str, float]) -> None:
    text = f"""piece back:
  point foot: at (5 mm, 5 mm)
  point toe: 40 mm right of foot; level with foot
  guide ring: 40 mm across; at foot
  guide line: foot to toe
  outline: {form}
"""
    check(text, expected)


@pytest.mark.parametrize("line", ["foot..tip", "tip..foot"])
def test_a_mirrored_piece_is_drafted_as_one_half(line: str) -> None:
    text = HALF.replace("over foot..tip", f"over {line}")
    check(text, {"back.width": 40, "back.area": 2400, "back.outline.length": 200})
    assert list(corners(text)) == ["foot", "heel", "brow", "tip", "brow'", "heel'"]


def test_the_mirror_line_may_lie_any_way() -> None:
    """Over a line at 30 deg, drafted below it."""
    text = """piece back: mirrored over foot..tip
  point foot: at (0, 0)
  point tip: at 30 deg from foot; 50 mm from foot
  point side: at 0 deg from foot; 50 mm from foot
  outline: foot to side to tip
"""
    check(text, {"back.side'.x": 25, "back.side'.y": 25 * math.sqrt(3), "back.area": 2 * 0.5 * 2500 * 0.5})


def test_a_mirrored_half_may_start_and_end_anywhere_on_the_line() -> None:
    """Of a ring like a horseshoe, both ends on one side of the mirror line's own points."""
    text = """piece back: mirrored over foot..tip
  point foot: at (0, 0)
  point tip: at (0, 10 mm)
  point low: at (0, 20 mm)
  point high: at (0, 50 mm)
  point side: at (30 mm, 35 mm)
  outline: low to side to high
"""
    check(text, {"back.area": 30 * 30, "back.width": 60})


ROUNDED = [
    ("fillet heel by 6 mm", 2400 - 36 * CORNER, 200 - 12 + 3 * math.pi),
    ("fillet heel, brow, foot, tip by 6 mm", 2400 - 4 * 36 * CORNER, 200 - 48 + 12 * math.pi),
    ("fillet heel by 20 mm\n  fillet foot by 20 mm", 2400 - 2 * 400 * CORNER, 200 - 80 + 20 * math.pi),
    ("clip heel by 6 mm", 2400 - 18, 200 - 12 + 6 * math.sqrt(2)),
    ("clip heel by 6 mm and 8 mm", 2400 - 24, 200 - 14 + 10),
    ("clip heel by 8 mm and 6 mm", 2400 - 24, 200 - 14 + 10),
    ("clip heel, brow by 6 mm and 8 mm", 2400 - 48, 200 - 28 + 20),
]


@pytest.mark.parametrize(("statement", "area", "length"), ROUNDED, ids=[row[0] for row in ROUNDED])
def test_corners_are_rounded_and_clipped(statement: str, area: float, length: float) -> None:
    check(CARD + f"  {statement}\n", {"back.area": area, "back.outline.length": length})


def test_a_clip_goes_so_far_before_and_so_far_after() -> None:
    """In the order written: 6 mm along the bottom, 8 mm up the right side."""
    text = CARD + "  clip heel by 6 mm and 8 mm\n"
    check(
        text,
        {
            "back.heel.start.x": 34,
            "back.heel.end.y": 8,
            "back.heel.mid.x": 37,
            "back.heel.x": 40,
            "back.heel.y": 0,
        },
    )


def test_a_mirrored_clip_is_the_right_way_round_on_both_halves() -> None:
    text = HALF + "  clip heel by 6 mm and 8 mm\n"
    check(
        text,
        {
            "back.heel.start.x": 14,
            "back.heel.end.y": 8,
            "back.heel'.start.x": -14,
            "back.heel'.start.y": 0,
            "back.heel'.end.y": 8,
            "back.heel'.end.x": -20,
            "back.area": 2400 - 48,
        },
    )


def test_a_rounded_corner_is_a_run_of_its_own() -> None:
    text = CARD + "  fillet heel by 8 mm\n  guide edge: along heel\n  run wall: from heel.mid to brow\n"
    check(
        text,
        {
            "back.heel.length": 4 * math.pi,
            "back.edge.length": 4 * math.pi,
            "back.wall.length": 2 * math.pi + 52,
            "back.heel.mid.x": 32 + 8 * math.sqrt(0.5),
            "back.heel.x": 40,
        },
    )


def test_a_corner_on_the_mirror_line_is_rounded_once() -> None:
    """A point of 90 degrees at the tip, rounded by 5 mm: T = r, and its arc a quarter circle."""
    text = """piece back: mirrored over foot..tip
  point foot: at (0, 0)
  point tip: plumb with foot; 60 mm above foot
  point heel: level with foot; 20 mm right of foot
  point brow: plumb with heel; 40 mm above heel
  outline: foot to heel to brow to tip
  fillet tip by 5 mm
"""
    assert corners(text)["tip"] == "fillet"
    check(
        text,
        {
            "back.area": 40 * 40 + 400 - 25 * CORNER,
            "back.tip.length": 2.5 * math.pi,
            "back.tip.mid.x": 0,
            "back.tip.mid.y": 60 - 5 * (math.sqrt(2) - 1),
            "back.tip.start.x": 5 / math.sqrt(2),
            "back.tip.y": 60,
        },
    )


def test_box_corners_are_rounded_by_their_names() -> None:
    text = "piece back:\n  outline: box 40 mm by 60 mm\n  fillet top_left, top_right by 6 mm\n  clip bottom_left by 5 mm and 8 mm\n"
    check(
        text,
        {
            "back.area": 2400 - 2 * 36 * CORNER - 20,
            "back.top_left.mid.y": 30 - 6 * (1 - math.sqrt(0.5)),
            "back.outline.top_left.y": 30,
            "back.outline.top.x": 0,
        },
    )
    assert corners(text) == {
        "top_left": "fillet",
        "top_right": "fillet",
        "bottom_left": "clip",
        "bottom_right": "sharp",
    }


def test_the_corner_of_a_bowed_side_is_rounded() -> None:
    """Between a line and an arc: the fillet touches both."""
    outline = (
        drafted(CARD.replace("to brow to", "to brow bowed out 8 mm to") + "  fillet heel by 6 mm\n")
        .pieces["back"]
        .outline
    )
    for before, after in zip(outline.legs[:2], outline.legs[1:3], strict=True):
        assert before.direction_at(before.length).dot(after.direction_at(0)) == pytest.approx(1, abs=1e-9)


CUTS = [
    ("above lip naming hip, hop", 40 * 45),
    ("below lip naming hip, hop", 40 * 15),
    ("left of lip naming hip, hop", 30 * 60),
    ("right of lip naming hip, hop", 10 * 60),
    ("above foot..brow", 1200),
    ("below foot..brow", 1200),
    ("left of foot..brow", 1200),
    ("right of brow..foot", 1200),
]


@pytest.mark.parametrize(("cut", "area"), CUTS, ids=[cut for cut, _ in CUTS])
def test_a_cut_takes_one_side_away(cut: str, area: float) -> None:
    """A corner that was there already keeps its name, and takes no other."""
    text = CARD + f"  point lip: at (10 mm, 45 mm)\n  cut away {cut}\n"
    check(text, {"back.area": area})


def test_the_new_corners_of_a_cut_come_in_the_order_of_the_outline() -> None:
    text = (
        CARD + "  point lip: at (10 mm, 45 mm)\n  cut away above lip naming hip, hop\n  fillet hip by 5 mm\n"
    )
    check(
        text,
        {
            "back.hip.x": 40,
            "back.hip.y": 45,
            "back.hop.x": 0,
            "back.hip.mid.x": 40 - 5 * (1 - math.sqrt(0.5)),
        },
    )
    assert list(corners(text)) == ["foot", "heel", "hip", "hop"]


def test_a_cut_of_a_mirrored_piece_goes_through_both_halves() -> None:
    text = HALF + "  point lip: at (10 mm, 45 mm)\n  cut away above lip naming hip\n"
    check(text, {"back.area": 40 * 45, "back.hip.x": 20, "back.hip'.x": -20, "back.hip'.y": 45})
    assert list(corners(text)) == ["foot", "heel", "hip", "hip'", "heel'"]


def test_a_slanting_cut_of_a_mirrored_piece_cuts_its_twin_too() -> None:
    """The right corner goes, and with it the left one."""
    text = HALF + "  point low: at (20 mm, 50 mm)\n  point high: at (10 mm, 60 mm)\n"
    text += "  cut away above low..high naming hip, hop\n"
    check(
        text,
        {"back.area": 2400 - 100, "back.hip.x": 20, "back.hip.y": 50, "back.hop.x": 10, "back.hop'.x": -10},
    )


def test_a_plumb_cut_of_a_mirrored_piece_takes_both_sides() -> None:
    text = HALF + "  point side: at (15 mm, 5 mm)\n  cut away right of side naming hip, hop\n"
    check(text, {"back.area": 30 * 60, "back.width": 30})


def test_cuts_follow_each_other() -> None:
    text = (
        CARD
        + "  point lip: at (10 mm, 45 mm)\n  cut away above lip naming hip, hop\n  cut away left of lip naming low, high\n"
    )
    check(text, {"back.area": 30 * 45})


def test_a_cut_piece_keeps_the_first_one_whole() -> None:
    text = (
        CARD
        + "  point lip: at (10 mm, 45 mm)\npiece front: like back\n  cut away above lip naming hip, hop\n"
    )
    check(text, {"back.area": 2400, "front.area": 1800})


def test_sizes_of_a_whole_lie_as_it_lies() -> None:
    text = f"piece back:{SQUARE}  outline: foot to heel to brow bowed out 10 mm to tip\n"
    check(text, {"back.width": 50, "back.height": 60, "back.outline.right.x": 50, "back.outline.right.y": 30})


def test_a_cut_box_on_a_mirror_line_names_every_new_corner() -> None:
    """A box has corners on both halves, none of them a twin."""
    text = "piece back: mirrored over foot..tip\n  point foot: at (0, 0)\n  point tip: at (0, 10 mm)\n"
    text += "  outline: box 40 mm by 60 mm\n  cut away above tip naming left_lip, right_lip\n"
    assert sorted(corners(text)) == ["bottom_left", "bottom_right", "left_lip", "right_lip"]
    check(text, {"back.area": 1600})


def test_every_corner_that_is_cut_by_nothing_or_less_is_told_at_once() -> None:
    text = (
        CARD
        + "  fillet heel by 0 mm\n  fillet brow by 500 mm\n  clip tip by -3 mm\n  hole eye: at foot; 0 mm across\n"
    )
    assert codes(text) == ["P23", "P23", "P23"]
