"""Features: where they lie and how, their twins, and what is cut from the edge."""

from __future__ import annotations

import math

import pytest

from drafting.solve.placed import PlacedFeature
from tests.lowering.drafted import CARD, HALF, check, codes, drafted, near


def features(text: str) -> dict[str, PlacedFeature]:
    return {feature.name: feature for feature in drafted(text).pieces["back"].features}


@pytest.mark.parametrize(
    ("lying", "degrees", "width", "height"),
    [
        ("level", 0, 20, 4),
        ("plumb", 90, 4, 20),
        ("90 deg", 90, 4, 20),
        ("30 deg", 30, 16 * math.cos(math.pi / 6) + 4, 16 / 2 + 4),
        (
            "along foot..brow",
            math.degrees(math.atan2(60, 40)),
            16 * 40 / math.sqrt(5200) + 4,
            16 * 60 / math.sqrt(5200) + 4,
        ),
        ("square to foot..heel", 90, 4, 20),
        ("0", 0, 20, 4),
    ],
)
def test_a_slot_lies_as_said(lying: str, degrees: float, width: float, height: float) -> None:
    """Long over all: a straight part of 16 mm between two half circles of 2 mm (reference value F-12: L - W)."""
    text = CARD + f"  slot strap: at (20 mm, 30 mm); lying {lying}; 20 mm long; 4 mm wide\n"
    assert features(text)["strap"].direction == pytest.approx(degrees, abs=1e-9)
    check(
        text,
        {
            "back.strap.long": 20,
            "back.strap.wide": 4,
            "back.strap.width": width,
            "back.strap.height": height,
            "back.strap.area": 16 * 4 + 4 * math.pi,
            "back.strap.length": 32 + 4 * math.pi,
        },
    )


@pytest.mark.parametrize("count", [1, 2, 5, 6])
def test_a_row_is_placed_by_its_middle(count: int) -> None:
    text = CARD + f"  row pins: at (20 mm, 30 mm); lying 90 deg; {count} holes; 8 mm apart; 2 mm across\n"
    holes = features(text)["pins"].holes
    assert [round(hole.center.y, 9) for hole in holes] == [
        30 + 8 * (index - (count - 1) / 2) for index in range(count)
    ]
    check(
        text,
        {
            "back.pins.holes": count,
            "back.pins.apart": 8,
            "back.pins.across": 2,
            "back.pins.long": 8 * (count - 1),
        },
    )


def test_an_opening_has_many_forms() -> None:
    text = (
        CARD
        + """  point a: at (10 mm, 20 mm)
  point b: at (30 mm, 20 mm)
  point c: at (20 mm, 40 mm)
  opening tri: a to b to c
  opening box_1: box 6 mm by 4 mm; at (20 mm, 10 mm); lying 90 deg; 1 mm rounded
  opening disc: 6 mm across; at (20 mm, 50 mm)
"""
    )
    check(
        text,
        {
            "back.tri.area": 200,
            "back.box_1.width": 4,
            "back.box_1.area": 24 - 4 + math.pi,
            "back.disc.area": 9 * math.pi,
        },
    )


TWINS = [
    ("hole eye: at (12 mm, 30 mm); 4 mm across", ["eye", "eye'"]),
    ("hole eye: at (0, 30 mm); 4 mm across", ["eye"]),
    ("hole eye: at (12 mm, 30 mm); 4 mm across; once", ["eye"]),
    ("hole eye: at (1 mm, 30 mm); 4 mm across; once", ["eye"]),
    ("slot eye: at (0, 30 mm); lying level; 12 mm long; 4 mm wide", ["eye"]),
    ("slot eye: at (0, 30 mm); lying plumb; 12 mm long; 4 mm wide", ["eye"]),
    ("slot eye: at (0, 30 mm); lying 30 deg; 12 mm long; 4 mm wide; once", ["eye"]),
    ("slot eye: at (2 mm, 30 mm); lying plumb; 12 mm long; 4 mm wide", ["eye", "eye'"]),
    ("row eye: at (0, 30 mm); lying level; 4 holes; 5 mm apart; 2 mm across", ["eye"]),
    ("row eye: at (10 mm, 30 mm); lying level; 3 holes; 5 mm apart; 2 mm across", ["eye", "eye'"]),
    ("mark eye: at (12 mm, 30 mm)", ["eye", "eye'"]),
    ("mark eye: at (0, 30 mm)", ["eye"]),
    ("crease eye: 4 mm inside outline", ["eye"]),
    ("crease eye: along heel..brow", ["eye", "eye'"]),
    ("crease eye: level through mid", ["eye"]),
    ("crease eye: mid to heel", ["eye", "eye'"]),
    ("crease eye: heel' to mid to heel", ["eye"]),
    ("crease eye: heel' to brow; once", ["eye"]),
    ("opening eye: box 8 mm by 6 mm; at mid; lying level", ["eye"]),
    ("notch eye: on heel..brow; level with mid; 3 mm deep", ["eye", "eye'"]),
    ("notch eye: at tip; 3 mm deep", ["eye"]),
    ('label eye: at (12 mm, 30 mm); lying level; 4 mm high; text "up"; once', ["eye"]),
]


@pytest.mark.parametrize(("statement", "made"), TWINS, ids=[statement for statement, _ in TWINS])
def test_a_feature_off_the_mirror_line_has_a_twin(statement: str, made: list[str]) -> None:
    text = HALF + f"  point mid: at (0, 30 mm)\n  {statement}\n"
    assert list(features(text)) == made


@pytest.mark.parametrize(
    "statement",
    [
        "hole eye: at (1 mm, 30 mm); 4 mm across",
        "slot eye: at (0, 30 mm); lying 30 deg; 12 mm long; 4 mm wide",
        "row eye: at (2 mm, 30 mm); lying level; 3 holes; 5 mm apart; 2 mm across",
        "crease eye: heel' to brow",
        "opening eye: box 8 mm by 6 mm; at (1 mm, 30 mm); lying level",
    ],
)
def test_a_feature_across_the_mirror_line_is_its_own_twin_or_is_refused(statement: str) -> None:
    assert codes(HALF + f"  {statement}\n") == ["P20"]


def test_a_twin_lies_the_other_way_round() -> None:
    text = HALF + "  slot eye: at (12 mm, 30 mm); lying 30 deg; 9 mm long; 3 mm wide\n"
    eye, twin = features(text)["eye"], features(text)["eye'"]
    assert (eye.direction, twin.direction, twin.is_twin) == (pytest.approx(30), pytest.approx(150), True)
    assert near(twin.center, -12, 30)


@pytest.mark.parametrize(("lying", "twin"), [(0, 0), (30, 330), (60, 120), (90, 90), (120, 60), (180, 180)])
def test_words_are_read_nearest_to_how_they_ran(lying: int, twin: int) -> None:
    """On a twin over a plumb line: moved with it, and never on their head where the first are not."""
    text = HALF + f'  stamp own: at (12 mm, 30 mm); lying {lying} deg; text "A"; 3 mm high\n'
    assert features(text)["own'"].direction == pytest.approx(twin)


def test_an_opening_drafted_as_one_half_is_whole() -> None:
    text = (
        HALF
        + """  point low: at (0, 20 mm)
  point side: at (10 mm, 30 mm)
  point high: at (0, 40 mm)
  opening view: low to side to high
"""
    )
    check(text, {"back.view.area": 200, "back.view.width": 20})
    assert list(features(text)) == ["view"]


@pytest.mark.parametrize(
    ("place", "tip"),
    [
        ("on heel..brow; level with mid", (37, 30)),
        ("on foot..heel; plumb with mid", (20, 3)),
        ("at outline.left", (3, 30)),
        ("on outline; plumb with mid; above mid", (20, 57)),
    ],
)
def test_a_notch_goes_straight_in_from_the_edge(place: str, tip: tuple[float, float]) -> None:
    text = CARD + f"  point mid: at (20 mm, 30 mm)\n  notch nick: {place}; 3 mm deep\n"
    (cut,) = features(text)["nick"].paths
    assert near(cut.end, *tip)
    check(text, {"back.area": 2400})


def test_a_wide_notch_is_cut_into_the_outline() -> None:
    """A V of 4 mm wide and 3 mm deep: 6 mm² of leather, and two sides of √13 mm for 4 mm of edge."""
    text = CARD + "  notch nick: on heel..brow; 30 mm above heel; 3 mm deep; 4 mm wide\n"
    outline = drafted(text).pieces["back"].outline
    assert (outline.area, outline.length) == (pytest.approx(2394), pytest.approx(200 - 4 + 2 * math.sqrt(13)))


def test_dims_are_what_was_asked() -> None:
    text = CARD + '  dim foot..brow\n  dim foot..brow level "wide"\n  dim foot..brow plumb\n'
    dims = drafted(text).pieces["back"].dims
    assert [(dim.how, dim.start_name, dim.end_name, dim.note) for dim in dims] == [
        (None, "foot", "brow", None),
        ("level", "foot", "brow", "wide"),
        ("plumb", "foot", "brow", None),
    ]


def test_lettering_keeps_its_words_and_its_height() -> None:
    text = CARD + '  label words: at (20 mm, 30 mm); lying plumb; 4 mm high; text "up €"\n'
    text += '  stamp owner: box 20 mm by 6 mm; at (20 mm, 10 mm); lying level; roster "name"\n'
    placed = features(text)
    assert (placed["words"].text, placed["words"].sizes["high"], placed["words"].direction) == ("up €", 4, 90)
    assert (placed["owner"].text, placed["owner"].sizes["width"]) == ("{name}", 20)


@pytest.mark.parametrize(
    ("feature", "said"),
    [
        ("hole eye: at (38 mm, 30 mm); 4 mm across", ["R04"]),
        ("hole eye: at (38.1 mm, 30 mm); 4 mm across", ["P37"]),
        ("crease line: foot to brow", []),
        ("crease line: heel to out", ["P37"]),
        ("crease line: tip to brow bowed up 2 mm", ["P37"]),
        ("crease line: tip to brow bowed down 2 mm", []),
        ("mark spot: at brow", []),
        ("mark spot: at out", ["P37"]),
        ("slot strap: at (10 mm, 30 mm); lying level; 20 mm long; 4 mm wide", ["P37"]),
        ("slot strap: at (12 mm, 30 mm); lying level; 20 mm long; 4 mm wide", ["R08"]),
    ],
)
def test_nothing_lies_off_the_leather(feature: str, said: list[str]) -> None:
    """What only touches the edge is on the leather; a cut there is then weak, as the workshop says."""
    assert codes(CARD + f"  point out: at (50 mm, 30 mm)\n  {feature}\n") == said


def test_a_line_across_a_gap_in_the_piece_is_off_it() -> None:
    """Both ends and its middle are on leather, and it crosses two narrow gaps."""
    text = """piece back:
  point a: at (0, 0)
  point b: at (100 mm, 0)
  point c: at (100 mm, 40 mm)
  point d: at (80 mm, 40 mm)
  point e: at (79 mm, 10 mm)
  point f: at (78 mm, 40 mm)
  point g: at (0, 40 mm)
  outline: a to b to c to d to e to f to g
  point low: at (5 mm, 30 mm)
  point high: at (95 mm, 30 mm)
  crease line: low to high
"""
    assert codes(text) == ["P37"]
