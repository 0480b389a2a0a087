"""Area F of the reference values on texts: each statement by its id, with the words of the source beside it.

They are common practice without a source, or from memory: a row backs a default, a warning or a note, and never an error,
but where the figures alone say that a thing does not go in. Of area F the sums stand in `test_craft.py`; here is what a
maker is told.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

import drafting
from drafting import face
from drafting.text.messages import Severity
from drafting.text.source import Source
from tests.patterns.starters import starter_path

INCH = 25.4
BODY = "stock body: leather; 2 mm thick\n"
PLATE = (
    "piece part: cut 1 from body; grain any\n  point mid: at (0, 0)\n  outline: box 120 mm by 80 mm; at mid\n"
)


def codes(text: str) -> list[str]:
    found = face.read(Source("try.draft", text)).check()
    assert not found.has_errors or {one.code for one in found if one.severity is Severity.ERROR} <= {
        "R14",
        "R16",
    }
    return [message.code for message in found]


@cache
def starter(name: str) -> face.PlacedPattern:
    return drafting.load(starter_path(name)).place()


@pytest.mark.parametrize(
    ("inset", "told"),
    [("1.9 mm", "R01"), ("2 mm", None), ("3.5 mm", None), ("6 mm", None), ("6.1 mm", "R02")],
)
def test_f_01_distance_from_stitch_line_to_edge(inset: str, told: str | None) -> None:
    """ "Fine goods 2 … 3, general 3 … 4, straps and heavy work 4 … 6 mm; never below the sewn thickness / 2 or 2 mm"
    (common practice, no source, from memory)."""
    found = codes(f"{BODY}{PLATE}  stitch edge: {inset} inside outline; 90 stitches\n")
    assert found == ([told] if told else [])


@pytest.mark.parametrize(("inset", "told"), [("3.4 mm", ["R03"]), ("3.5 mm", [])])
def test_f_01_never_below_half_of_the_sewn_thickness(inset: str, told: list[str]) -> None:
    """ "Never below the sewn thickness / 2": 7 mm of leather ask for 3.5 mm (common practice, from memory)."""
    text = f"stock body: leather; 3.5 mm thick\n{PLATE}  stitch edge: {inset} inside outline; 90 stitches\n"
    assert codes(f"{text}piece other: like part\njoin part.edge with other.edge\n") == told


BELTED = BODY + "hardware buckle: need 1; 38 mm inside; 4 mm prong; on part\n"


@pytest.mark.parametrize(("count", "told"), [(4, ["R21"]), (5, []), (6, ["R21"]), (7, [])])
def test_f_08_belt_holes(count: int, told: list[str]) -> None:
    """ "Odd number, usually 5, 25 or 25.4 mm apart; hole ⌀ 4 … 5. Middle hole = nominal size; range = (n−1)/2 pitches
    each way" (common practice, no source)."""
    strap = "piece part: cut 1 from body; grain level\n  outline: box 600 mm by 37.5 mm\n  point far: at (150 mm, 0)\n"
    row = f"  row sizes: at far; lying level; {count} holes; 25 mm apart; 4.5 mm across\n"
    assert codes(BELTED + strap + row) == told
    (sizes,) = (one for one in starter("belt").pieces["belt"].features if one.name == "holes")
    middle = sizes.holes[len(sizes.holes) // 2].center
    assert len(sizes.holes) == 5 and 4 <= sizes.holes[0].across <= 5
    assert (
        sizes.holes[-1].center.x - middle.x == pytest.approx(2 * INCH) == middle.x - sizes.holes[0].center.x
    )


def test_f_09_belt_size() -> None:
    """ "From the buckle's bearing point to the middle hole. Two readings exist: fold at the bar, or end of the frame where
    the prong rests. The language must say which; the two differ by the frame's depth (20 … 35 mm), more than one hole"
    (common practice, no source). A pattern says it by the points it measures between: here the fold at the bar."""
    belt = starter("belt")
    assert belt.measure("belt.at_bar..belt.middle").value == pytest.approx(belt.placed.measures["waist"])
    (fold,) = (one for one in belt.pieces["belt"].features if one.name == "crook")
    assert fold.paths[0].start.x == pytest.approx(belt.pieces["belt"].points["at_bar"].x)
    assert any("from the fold" in note for note in belt.placed.notes)


def test_f_10_belt_blank() -> None:
    """ "Turn-back 3.5, size 36, five holes 1 in apart, tail 4 in past the last hole: 3.5 + 36 + 2 + 4 = 45.5 in = 1155.7 mm;
    holes at 34 … 38 in from the fold" (common practice, no source; sum derived)."""
    text = """measure turned = 3.5 in
measure size_in = 36 in
piece belt: grain level
  point butt: at (0, 0)
  point at_bar: level with butt; turned right of butt
  point middle: level with butt; size_in right of at_bar
  point tip: level with butt; 2 in + 4 in right of middle
  outline: box turned + size_in + 2 in + 4 in by 38 mm; midway butt..tip
  row holes: at middle; lying level; 5 holes; 1 in apart; 4 mm across
"""
    placed = face.read(Source("try.draft", text)).place()
    assert placed.measure("belt.width").value == pytest.approx(1155.7)
    (row,) = (one for one in placed.pieces["belt"].features if one.name == "holes")
    off = [(hole.center.x - placed.pieces["belt"].points["at_bar"].x) / INCH for hole in row.holes]
    assert off == pytest.approx([34, 35, 36, 37, 38])


TURNED = (
    BELTED.replace("38 mm", "38.5 mm")
    + """\
piece part: cut 1 from body; mirrored over butt..tip; grain level
  point butt: at (0, 0)
  point crook: at (75 mm, 0)
  point eye: at ({eye}, 0)
  point tip: at (400 mm, 0)
  point side: at (0, 19 mm)
  point corner: at (400 mm, 19 mm)
  point sewn: at ({sewn}, 0)
  outline: butt to side to corner to tip
  fold bar: plumb through crook; bent 180 deg round 3 mm
  slot tongue: at eye; 25 mm long; 5 mm wide; lying level
  stitch upper: plumb through sewn; 8 stitches; 3 mm short
  stitch under: mirror of upper over bar
"""
)


@pytest.mark.parametrize(
    ("eye", "sewn", "told"),
    [
        ("75 mm", "97.5 mm", []),
        ("75 mm", "97.4 mm", ["R18"]),
        ("76.1 mm", "110 mm", ["R19"]),
        ("75 mm", "148.1 mm", ["R01", "R03", "R17"]),
    ],
)
def test_f_11_buckle_turn_back(eye: str, sewn: str, told: list[str]) -> None:
    """ "60 … 90 mm, fold at the bar, slot centred on the fold. Warn if the slot end is nearer than 10 mm to the stitching"
    (common practice, no source). The slot reaches 12.5 mm past the fold; the turn-back of 75 mm holds seams up to 2 mm
    from its end."""
    found = [one.code for one in face.read(Source("try.draft", TURNED.format(eye=eye, sewn=sewn))).check()]
    assert found == told
    turned = starter("belt").placed.measures["turned"]
    assert 60 <= turned <= 90


@pytest.mark.parametrize(
    ("wide", "told"), [("38.1 mm", ["R14"]), ("38 mm", []), ("37 mm", []), ("36.9 mm", ["R15"])]
)
def test_f_13_strap_and_buckle(wide: str, told: list[str]) -> None:
    """ "Strap b − 1 … b, never above b": an error when it is wider (common practice, no source)."""
    text = f"{BELTED}piece part: cut 1 from body; grain level\n  outline: box 400 mm by {wide}\n"
    assert codes(text) == told
    assert face.read(Source("try.draft", text)).check().has_errors == (told == ["R14"])


@pytest.mark.parametrize(
    ("inside", "fitting", "told"),
    [
        ("6 mm", "", []),
        ("5.9 mm", "", ["R04"]),
        ("8 mm", "hardware rivet: need 1; on part.eye\n", []),
        ("7.9 mm", "hardware rivet: need 1; on part.eye\n", ["R04"]),
    ],
)
def test_f_15_hole_to_edge(inside: str, fitting: str, told: list[str]) -> None:
    """ "Centre ≥ 1.5 d from the edge, ≥ 2 d under load" (common practice, no source, from memory): of 4 mm 6 and 8."""
    text = f"{BODY}{fitting}{PLATE}  hole eye: {inside} below outline.top; plumb with mid; 4 mm across\n"
    assert codes(text) == told


def test_f_16_punch_numbers() -> None:
    """ "Number series differ between makers above No 1 (No 5 is sold as 5/32 and as 3/16 in); holes are given in mm; a
    numbered table is data with a named table, never built in as the truth" (common practice, no source)."""
    hole = PLATE + "  hole eye: at mid; no_5 across\n"
    assert "no_5" not in face.read(Source("try.draft", BODY)).bound.stocks
    assert codes_of_faults(BODY + hole) != []
    for inches, across in (("5/32 in", 3.96875), ("3/16 in", 4.7625)):
        placed = face.read(Source("try.draft", f"{BODY}punch no_5: {inches} across\n{hole}")).place()
        assert placed.measure("part.eye.across").value == pytest.approx(across)


def codes_of_faults(text: str) -> list[str]:
    return [
        one.code for one in face.read(Source("try.draft", text)).check() if one.severity is Severity.ERROR
    ]


def test_f_20_watch_straps() -> None:
    """ "Lug widths 18, 20, 22 mm (odd ones exist); taper 2 … 4; lengths 115/75 or 120/75 … 80 mm without buckle" (common
    practice, no source)."""
    by = starter("watch-strap").placed.measures
    assert by["lug"] in (18, 20, 22) and 2 <= by["lug"] - by["buckle"] <= 4
    assert 115 <= by["long_l"] <= 120 and 75 <= by["short_l"] <= 80


@pytest.mark.parametrize(
    ("wide", "told"), [("7.9 mm", ["R36"]), ("8 mm", []), ("12 mm", []), ("12.1 mm", ["R36"])]
)
def test_f_21_glue_margin(wide: str, told: list[str]) -> None:
    """ "6 … 10 mm; turned edges 8 … 12 mm, skived" (common practice, no source, from memory)."""
    thin = f"stock body: leather; 1 mm thick\n{PLATE}  run head: from top_right to top_left\n"
    assert codes(f"{thin}  turn hem: {wide} outside head\n") == told
    assert "R35" in codes(thin.replace("1 mm", "1.4 mm") + "  turn hem: 10 mm outside head\n")
    rims = [measured(name, "rim_strip") for name in ("hatch-tag", "badge-holder")]
    assert all(6 <= wide <= 10 for wide in rims)


def measured(name: str, strip: str) -> float:
    """How broad a strip is at the foot, where it runs level: from its ring's lowest place up to the next."""
    (ring, *_) = next(
        one.rings for piece in starter(name).pieces.values() for one in piece.features if one.name == strip
    )
    heights = sorted({round(leg.start.y, 6) for leg in ring.legs})
    return heights[1] - heights[0]


HERE = Path(__file__).parent


@pytest.mark.parametrize(("area", "count"), [("e", 7), ("f", 21), ("g", 3)])
def test_every_value_of_bends_practice_and_stitches_is_tried_by_its_name(area: str, count: int) -> None:
    text = "".join(path.read_text(encoding="utf-8") for path in sorted(HERE.glob("test_*.py")))
    found = {int(number) for number in re.findall(rf"def test_{area}_(\d\d)_", text)}
    assert found == set(range(1, count + 1))


def test_f_03_on_a_text() -> None:
    """ "2Np + (2N + 1)t for the one thread with a needle at each end": S 200, p 4, t 3 -> 703 mm (derived)."""
    text = """stock body: leather; 1.5 mm thick
piece part: cut 1 from body; grain level
  point a: at (0, 5 mm)
  point b: at (200 mm, 5 mm)
  outline: from_a to from_b to c to d
  point from_a: at (-5 mm, 0)
  point from_b: at (205 mm, 0)
  point c: at (205 mm, 30 mm)
  point d: at (-5 mm, 30 mm)
  stitch seam: a to b; every 4 mm
"""
    assert face.read(Source("try.draft", text)).place().measure(
        "thread(line = part.seam, stack = 2*body.thick)"
    ).value == pytest.approx(703)
