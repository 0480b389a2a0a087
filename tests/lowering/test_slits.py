"""Slits: what is cut, where holes stand, and what becomes of one at the mirror line and at the edge."""

from __future__ import annotations

import math

import pytest

from drafting.geometry.point import Point
from drafting.solve.placed import PlacedFeature, PlacedSlit
from tests.lowering.drafted import CARD, HALF, check, codes, drafted, near

INNER = """  point a: at (5 mm, 50 mm)
  point b: at (15 mm, 50 mm)
  point c: at (15 mm, 20 mm)
  point mid: at (0, 50 mm)
"""


def slits(text: str) -> dict[str, PlacedFeature]:
    return {feature.name: feature for feature in drafted(text).pieces["back"].features}


def whole_of(feature: PlacedFeature) -> PlacedSlit:
    assert isinstance(feature.work, PlacedSlit)
    return feature.work


def test_a_slit_is_cut_from_hole_to_hole() -> None:
    text = CARD + INNER + "  slit mouth: b to c; end holes 3 mm\n"
    slit = slits(text)["mouth"]
    assert slit.is_removed
    (cut,) = slit.paths
    assert near(cut.start, 15, 48.5)
    assert near(cut.end, 15, 21.5)
    assert [(hole.center, hole.across) for hole in slit.holes] == [(Point(15, 50), 3), (Point(15, 20), 3)]
    assert whole_of(slit).bare_ends == ()
    check(text, {"back.mouth.length": 30, "back.mouth.height": 30})


def test_corner_holes_part_the_cuts_and_rounded_corners_do_not() -> None:
    text = CARD + INNER + "  slit door: a to b to c; end holes 2 mm; corner holes 1 mm\n"
    door = slits(text)["door"]
    assert [round(cut.length, 9) for cut in door.paths] == [8.5, 28.5]
    assert [hole.across for hole in door.holes] == [2, 1, 2]
    text = CARD + INNER + "  slit door: a to b to c; end holes 2 mm; 4 mm rounded\n"
    door = slits(text)["door"]
    assert len(door.paths) == 1
    check(text, {"back.door.length": 40 - 8 + 2 * math.pi})


def test_a_slit_without_holes_has_bare_ends() -> None:
    slit = whole_of(slits(CARD + INNER + "  slit mouth: b to c\n")["mouth"])
    assert [near(slit.bare_ends[0], 15, 50), near(slit.bare_ends[1], 15, 20)] == [True, True]


@pytest.mark.parametrize("line", ["mid to b to c", "c to b to mid"])
def test_a_slit_that_ends_on_the_mirror_line_goes_on_into_its_twin(line: str) -> None:
    text = HALF + INNER + f"  slit door: {line}; end holes 2 mm; 5 mm rounded\n"
    placed = slits(text)
    assert list(placed) == ["door"]
    door = placed["door"]
    assert len(door.paths) == 1
    assert sorted(round(hole.center.x, 9) for hole in door.holes) == [-15, 15]
    half = 15 + 30 - 10 + 5 * math.pi / 2
    check(text, {"back.door.length": half, "back.door.width": 15})
    assert whole_of(door).whole.length == pytest.approx(2 * half)


def test_a_corner_on_the_mirror_line_is_one_corner() -> None:
    text = (
        HALF
        + INNER
        + "  point deep: at (0, 30 mm)\n  slit vee: a to deep; end holes 2 mm; corner holes 2 mm\n"
    )
    vee = slits(text)["vee"]
    assert [round(hole.center.x, 9) for hole in vee.holes] == [5, 0, -5]
    text = text.replace("corner holes 2 mm", "3 mm rounded")
    assert len(whole_of(slits(text)["vee"]).whole.legs) == 3


def test_once_leaves_a_slit_as_it_is_drawn() -> None:
    text = HALF + INNER + "  slit door: mid to b to c; end holes 2 mm; once\n"
    assert [round(hole.center.x, 9) for hole in slits(text)["door"].holes] == [0, 15]


def test_a_slit_off_the_line_has_a_twin_of_its_own() -> None:
    placed = slits(HALF + INNER + "  slit side: a to b to c; end holes 2 mm; corner holes 1 mm\n")
    assert list(placed) == ["side", "side'"]
    assert whole_of(placed["side'"]).whole.start.x == pytest.approx(-5)


def test_a_slit_along_the_mirror_line_is_its_own_twin() -> None:
    text = HALF + INNER + "  slit spine: along foot..tip; 10 mm short; end holes 2 mm\n"
    placed = slits(text)
    assert list(placed) == ["spine"]
    assert len(placed["spine"].holes) == 2


def test_a_slit_across_the_mirror_line_with_corner_holes_is_its_own_twin() -> None:
    text = HALF + INNER + "  slit door: c' to b' to b to c; end holes 2 mm; corner holes 2 mm\n"
    placed = slits(text)
    assert list(placed) == ["door"]
    assert len(placed["door"].paths) == 3


def test_a_slit_that_ends_on_the_edge_has_no_hole_there() -> None:
    text = CARD + INNER + "  slit nick: heel to c; end holes 2 mm\n"
    nick = slits(text)["nick"]
    assert [near(hole.center, 15, 20) for hole in nick.holes] == [True]
    assert whole_of(nick).bare_ends == ()


@pytest.mark.parametrize(
    ("slit", "code"),
    [
        ("a to b to c to a", "K21"),
        ("a to b to c to a bowed left 1 mm", "K21"),
        ("3 mm inside outline", "K21"),
        ("b to c; end holes 40 mm", "K20"),
        ("along foot..brow", "P72"),
        ("b to far", "P37"),
        ("b to c; end holes 0 mm", "P23"),
        ("a to b to c; 40 mm rounded", "P26"),
        ("a to b to c; 2 mm rounded; corner holes 2 mm", "M71"),
        ("plumb through mid_b", "P72"),
        ("b to c; down to 1 mm", "M14"),
    ],
)
def test_a_slit_that_cannot_be_is_told(slit: str, code: str) -> None:
    text = CARD + INNER + f"  point far: at (60 mm, 50 mm)\n  point mid_b: at b\n  slit mouth: {slit}\n"
    assert codes(text) == [code]


def test_a_slit_that_closes_with_its_twin_is_a_window() -> None:
    text = HALF + INNER + "  point deep: at (0, 30 mm)\n  slit door: mid to b to c to deep\n"
    assert codes(text) == ["P71"]
