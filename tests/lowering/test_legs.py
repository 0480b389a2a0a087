"""Legs of a path: every bow against lengths, areas and places worked out by hand."""

from __future__ import annotations

import itertools
import math

import pytest

from drafting.geometry.arc import Arc
from drafting.geometry.line import Line
from tests.lowering.drafted import CARD, SQUARE, check, codes, drafted, near

HALF_CIRCLE = math.pi * 30
"""Of the card's right side, 60 mm long."""


def segment(chord: float, height: float) -> float:
    """The area between an arc of at most half a circle and its chord."""
    radius = height / 2 + chord**2 / (8 * height)
    half = math.asin(min(chord / 2 / radius, 1))
    return radius**2 * half - chord / 2 * (radius - height)


def arc_length(chord: float, height: float) -> float:
    radius = height / 2 + chord**2 / (8 * height)
    return 2 * radius * math.asin(min(chord / 2 / radius, 1))


SIDES = [
    ("", 60.0, 0.0),
    ("bowed out 5 mm", arc_length(60, 5), segment(60, 5)),
    ("bowed in 5 mm", arc_length(60, 5), -segment(60, 5)),
    ("bowed right 5 mm", arc_length(60, 5), segment(60, 5)),
    ("bowed left 5 mm", arc_length(60, 5), -segment(60, 5)),
    ("bowed out 30 mm", HALF_CIRCLE, math.pi * 450),
    ("bowed out with radius 50 mm", arc_length(60, 10), segment(60, 10)),
    ("bowed in with radius 50 mm", arc_length(60, 10), -segment(60, 10)),
    ("bowed out with radius 30 mm", HALF_CIRCLE, math.pi * 450),
    ("through far", HALF_CIRCLE, math.pi * 450),
    ("through near", arc_length(60, 10), -segment(60, 10)),
    ("about hub", arc_length(60, 10), segment(60, 10)),
    ("about hub long", 2 * math.pi * 50 - arc_length(60, 10), -(math.pi * 2500 - segment(60, 10))),
    ("along ring", arc_length(60, 10), segment(60, 10)),
    ("smooth through far", HALF_CIRCLE, math.pi * 450),
    ("smooth leaving 0 deg", HALF_CIRCLE, math.pi * 450),
    ("smooth leaving level through far arriving level", HALF_CIRCLE, math.pi * 450),
]
SCENE = f"""piece back:{SQUARE}  point far: at (70 mm, 30 mm)
  point near: at (30 mm, 30 mm)
  point hub: at (0, 30 mm)
  guide ring: 100 mm across; at hub
"""


@pytest.mark.parametrize(("bow", "length", "more"), SIDES, ids=[bow or "straight" for bow, _, _ in SIDES])
def test_the_right_side_of_a_card_bends(bow: str, length: float, more: float) -> None:
    """Its length, and what it adds to the area of 2400 mm². Anticlockwise: the right side is walked upward."""
    if "long" in bow:
        text = SCENE + f"  outline: 200 mm across; at hub\n  guide side: heel to brow {bow}\n"
        check(text, {"back.side.length": length})
        return
    if bow == "smooth leaving level through far arriving level":
        bow = "smooth through far leaving 0 deg arriving 180 deg"
    text = SCENE + f"  outline: foot to heel to brow {bow} to tip\n"
    check(text, {"back.outline.length": 140 + length, "back.area": 2400 + more})


@pytest.mark.parametrize(("bow", "length", "more"), SIDES[1:10], ids=[bow for bow, _, _ in SIDES[1:10]])
def test_in_and_out_do_not_ask_which_way_the_outline_is_walked(bow: str, length: float, more: float) -> None:
    text = SCENE + f"  outline: tip to brow to heel {bow} to foot\n"
    check(text, {"back.outline.length": 140 + length, "back.area": 2400 + more})


def test_no_bow_can_turn_a_piece_inside_out() -> None:
    """In and out are judged on the corners: a flat triangle whose sides bow in far stays what it is."""
    text = """piece back:
  point foot: at (0, 0)
  point heel: at (60 mm, 0)
  point brow: at (30 mm, 20 mm)
  outline: foot to heel bowed out 29 mm to brow
"""
    check(text, {"back.area": 600 + segment(60, 29), "back.outline.bottom.y": -29})
    check(text.replace("bowed out 29", "bowed in 9"), {"back.area": 600 - segment(60, 9)})


@pytest.mark.parametrize(
    ("path", "toward", "where"),
    [
        ("foot to heel", "up", (20, 5)),
        ("foot to heel", "down", (20, -5)),
        ("heel to foot", "up", (20, 5)),
        ("heel to brow", "left", (35, 30)),
        ("heel to brow", "right", (45, 30)),
        ("brow to heel", "left", (35, 30)),
        ("foot to brow", "left", (20 - 300 / math.sqrt(5200), 30 + 200 / math.sqrt(5200))),
        ("foot to brow", "up", (20 - 300 / math.sqrt(5200), 30 + 200 / math.sqrt(5200))),
        ("brow to foot", "right", (20 + 300 / math.sqrt(5200), 30 - 200 / math.sqrt(5200))),
    ],
)
def test_bows_speak_of_the_sheet(path: str, toward: str, where: tuple[float, float]) -> None:
    """Left is left on the sheet, whichever way a line is walked."""
    knife = drafted(f"{CARD}  guide knife: {path} bowed {toward} 5 mm\n").pieces["back"].guides["knife"]
    assert near(knife.midpoint, *where)


def test_a_through_point_is_a_place_of_the_outline() -> None:
    text = SCENE + "  outline: foot to heel to brow through far to tip\n  run wall: from heel to far\n"
    check(text, {"back.wall.length": HALF_CIRCLE / 2})


def test_a_tangent_leg_goes_on_smoothly() -> None:
    """From a level leg of 40 mm, round to a point 60 mm above: half a circle."""
    text = SCENE + "  outline: foot to heel to brow tangent to tip\n"
    check(text, {"back.outline.length": 140 + HALF_CIRCLE, "back.outline.right.x": 70})


def test_tangent_after_an_arc_takes_its_direction() -> None:
    """A quarter circle upward, then on to the left: the direction at its end is straight up."""
    text = """piece back:
  point foot: at (0, 0)
  point low: at (20 mm, 0)
  point side: at (30 mm, 10 mm)
  point mid: at (20 mm, 10 mm)
  point top: at (20 mm, 20 mm)
  outline: foot to low to side about mid to top tangent
"""
    legs = drafted(text).pieces["back"].outline.legs
    assert [type(leg) for leg in legs] == [Line, Arc, Arc, Line]
    for before, after in ((legs[0], legs[1]), (legs[1], legs[2])):
        assert before.direction_at(before.length).dot(after.direction_at(0)) == pytest.approx(1, abs=1e-12)
    check(text, {"back.outline.length": 20 + 5 * math.pi + 5 * math.pi + math.hypot(20, 20)})


def test_a_leg_along_a_ring_takes_the_shorter_way() -> None:
    text = (
        SCENE
        + "  point up: on ring; plumb with hub; above hub\n  point side: on ring; level with hub; right of hub\n"
    )
    text += "  guide arc: up to side along ring\n  outline: foot to heel to brow to tip\n"
    check(text, {"back.arc.length": 25 * math.pi})


def test_a_leg_along_a_run_goes_either_way() -> None:
    text = (
        CARD
        + "  run wall: from foot round heel to brow\n  guide there: foot to brow along wall\n  guide back_again: brow to foot along wall\n"
    )
    check(text, {"back.there.length": 100, "back.back_again.length": 100, "back.back_again.start.y": 60})


def test_smooth_points_are_tangent_everywhere() -> None:
    """Through two points: arcs only, each leaving as the one before arrives."""
    text = SCENE + "  point low: at (55 mm, 15 mm)\n  point high: at (52 mm, 45 mm)\n"
    text += "  outline: foot to heel to brow smooth through low, high to tip\n  run wall: from low to high\n"
    outline = drafted(text).pieces["back"].outline
    arcs = [leg for leg in outline.legs if isinstance(leg, Arc)]
    assert len(arcs) >= 3
    for before, after in itertools.pairwise(arcs):
        assert before.direction_at(before.length).dot(after.direction_at(0)) == pytest.approx(1, abs=1e-9)
    assert codes(text) == []


@pytest.mark.parametrize(
    ("way", "x", "y"),
    [
        ("leaving along foot..brow", 40, 60),
        ("leaving along brow..foot", 40, 60),
        ("leaving square to foot..brow", -60, 40),
        ("leaving plumb", 0, 1),
        ("leaving 30 deg", math.sqrt(3), 1),
        ("leaving 0", 1, 0),
    ],
)
def test_a_smooth_leg_leaves_as_said(way: str, x: float, y: float) -> None:
    """A line has two ways, and the one that goes with the leg is meant; an angle has one."""
    text = SCENE + f"  outline: foot to heel to brow to tip\n  guide knife: heel to brow smooth {way}\n"
    leaves = drafted(text).pieces["back"].guides["knife"].legs[0].direction_at(0)
    assert (leaves.x, leaves.y) == pytest.approx((x / math.hypot(x, y), y / math.hypot(x, y)), abs=1e-9)
