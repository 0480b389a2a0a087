"""Shapes of the trade against outside values, drafted from the blocks that come with the tool."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from drafting import face
from drafting.text.source import Source
from tests.patterns.starters import PATTERNS

INCH = 25.4


def made(block: str, name: str, arguments: str, more: str = "") -> face.PlacedPattern:
    text = f'use "blocks/{block}.draft" as b\nstock body: leather; 2 mm thick\n'
    text += f"piece part: like b.{name}({arguments}); cut 1 from body\n{more}"
    return face.read(Source("part.draft", text), folder=PATTERNS).place()


def measured(placed: face.PlacedPattern, *asked: str) -> list[float]:
    return [placed.measure(each).value for each in asked]


def test_a_cone_cut_off() -> None:
    """D-19: a side 25 mm long, R 50, r 35, unrolls between 83.3333 and 58.3333 mm over 216 deg: derived, and the area is the
    mean round times the slant (Sheet Metal Drafting, p. 91, looked up). The block's arcs go less than half round: the same
    apex and slant with two fifths of the rounds, over 86.4 deg, are R 20, r 14."""
    height = sqrt(25**2 - 6**2)
    arguments = f"top = 40 mm, low = 28 mm, rise = {height:.12f} mm"
    placed = made(
        "cone", "side", arguments, "  run rim: from top_l to top_r\n  run foot: from low_r to low_l\n"
    )
    asked = ("part.slant", "part.far", "part.near")
    assert measured(placed, *asked) == pytest.approx([25, 83.3333, 58.3333], abs=5e-5)
    assert placed.measure("part.sweep").value == pytest.approx(0.4 * 216)
    assert measured(placed, "part.rim.length", "part.foot.length") == pytest.approx(
        [0.4 * 314.1593, 0.4 * 219.9115], abs=5e-5
    )
    assert placed.measure("part.area").value == pytest.approx(0.4 * 6675.8844, abs=5e-5)


def test_a_keeper_of_the_trade() -> None:
    """F-14: a stack of 38 by 7 mm in a loop 2 mm thick takes 96.2832 mm on its middle (derived); lap and ease on top."""
    placed = made("keeper", "keeper", "wide = 38 mm, stack = 7 mm, thick = 2 mm, lap = 10 mm, ease = 0 mm")
    assert placed.measure("part.width").value == pytest.approx(96.2832 + 10, abs=5e-5)
    eased = made("keeper", "keeper", "wide = 38 mm, stack = 7 mm, thick = 2 mm, lap = 10 mm, ease = 1 mm")
    assert eased.measure("part.width").value == pytest.approx(96.2832 + 12, abs=5e-5)


def test_a_box_unrolls_to_the_length_of_its_neutral_line() -> None:
    """Rim to rim over the base, folds of 1 mm inside in 2 mm: two walls, two bends, the straight base. Derived."""
    placed = made("box-corner", "tray", "long = 90 mm, wide = 60 mm, high = 25 mm, thick = 2 mm")
    bend = pi / 2 * (1 + 2 / 2)
    assert placed.measure("part.width").value == pytest.approx(2 * 24 + 88 + 2 * bend)
    assert placed.measure("part.height").value == pytest.approx(2 * 24 + 58 + 2 * bend)
    through, between = measured(placed, "2*part.north_end.x", "part.notch_n..part.notch_s")
    assert (through, between) == pytest.approx((90 + 2 * 2, 60))


BELT = """  mirrored over butt..tip
  point middle: level with at_bar; 36 in right of at_bar
  point tip: level with at_bar; 36 in + 2 in + 4 in right of at_bar
  point side: plumb with tip; level with corner
  outline: butt to corner to side to tip
  row holes: at middle; lying level; 5 holes; 1 in apart; 4 mm across
"""


def test_a_belt_of_the_trade() -> None:
    """F-10: 3.5 + 36 + 2 + 4 = 45.5 in = 1155.7 mm, the holes at 34 to 38 in (F-08). Common practice, no source; sum derived.
    Half of what the fold round the bar takes comes on top: pi (3 + 2)/4."""
    arguments = "wide = 38 mm, bar = 3 mm, turned = 3.5 in, prong = 25 mm"
    placed = made("buckle-end", "turned", arguments, BELT)
    assert placed.measure("part.width").value == pytest.approx(1155.7 + pi * 5 / 4)
    (row,) = (each for each in placed.pieces["part"].features if each.name == "holes")
    assert [hole.center.x / INCH for hole in row.holes] == pytest.approx([34, 35, 36, 37, 38])
    (tongue,) = (each for each in placed.pieces["part"].features if each.name == "tongue")
    assert tongue.center is not None and tongue.center.x == pytest.approx(0)


def test_a_mould_gathers_at_its_corners_as_a_drawn_shell() -> None:
    """Machinery's Handbook's diameter of shell blanks, D = sqrt(d^2 + 4dh), from memory: d 50 and h 30 make 92.195."""
    arguments = (
        "wide = 80 mm, high = 90 mm, deep = 30 mm, thick = 0.001 mm, corner = 25 mm, edge = 0 mm, foot = 0 mm"
    )
    placed = made("moulded-front", "front", arguments)
    assert placed.measure("part.rise").value == pytest.approx(30, abs=2e-3)
    assert placed.measure("2*part.drawn").value == pytest.approx(92.195, abs=5e-3)
    assert placed.measure("part.gather").value == pytest.approx(1 - 50 / 92.195, abs=1e-4)


def test_rounder_bends_take_less_leather() -> None:
    arguments = "wide = 80 mm, high = 90 mm, deep = 18 mm, thick = 2 mm, edge = {}, foot = {}"
    sharp = made("moulded-front", "front", arguments.format("0 mm", "0 mm")).measure("part.rise").value
    rounded = made("moulded-front", "front", arguments.format("4 mm", "3 mm")).measure("part.rise").value
    assert sharp == pytest.approx(18 - 2 + pi)
    assert rounded == pytest.approx(pi / 2 * 5 - 4 + 9 + pi / 2 * 4) and rounded < sharp


def test_a_tube_is_a_cone_that_goes_straight_up() -> None:
    """Its side is pi d by its height (derived), less what stays open; a cone that is all but one agrees."""
    arguments = "across = 64 mm, rise = 70 mm, gape = 2 mm"
    tube = made("cone", "tube", arguments)
    assert measured(tube, "part.width", "part.height") == pytest.approx([pi * 64 - 2, 70])
    near = made("cone", "side", "top = 64.1 mm, low = 64 mm, rise = 70 mm, gape = 2 mm")
    assert near.measure("part.area").value == pytest.approx(tube.measure("part.area").value, rel=1e-3)


@pytest.mark.parametrize("top", ["64 mm", "50 mm"])
def test_a_cone_that_is_none_is_told_once_in_the_makers_terms(top: str) -> None:
    with pytest.raises(face.Faults) as raised:
        made("cone", "side", f"top = {top}, low = 64 mm, rise = 70 mm")
    (message,) = raised.value.messages
    assert message.code == "M34" and "alike at both ends is a `tube`" in message.says


BOX = "long = 90 mm, wide = 60 mm, high = 25 mm, thick = 2 mm"
BOX_SEAMS = "join part.north_up with part.east_up\njoin part.south_up with part.side_up\n"


def test_a_mitred_box_has_every_wall_reach_the_outer_corner() -> None:
    """Derived: outside it is one thickness larger on every side, and both edges of a corner stand on that line."""
    placed = made("box-corner", "mitred", BOX, BOX_SEAMS)
    assert measured(placed, "2*part.north_end.x", "2*part.east_n.y") == pytest.approx([90 + 4, 60 + 4])
    assert placed.messages.has_errors is False


def test_the_ears_of_a_lapped_box_lie_on_the_short_walls() -> None:
    """Derived: an ear bends round the outside of the short wall, 47 mm from the middle, and its seam is as far from the
    long wall as the holes beneath it."""
    placed = made("box-corner", "lapped", BOX, BOX_SEAMS)
    bend = pi / 2 * (1 + 2 / 2)
    (seam, ear) = measured(placed, "part.north_low.x - part.flat_n.x", "part.flat_n.x - part.ear_n.x")
    assert ear == pytest.approx(bend)
    inside_of_ear = placed.measure("part.ear_n.x").value + 2 / 2
    assert inside_of_ear == pytest.approx(90 / 2 + 2)
    assert placed.measure("part.east_low.y").value == pytest.approx(60 / 2 - 2 / 2 - seam)
