"""Stitch lines of a pattern: counts, places, twins, folds, pricked holes, and measures made from them."""

from __future__ import annotations

from itertools import pairwise
from math import degrees, hypot, pi, sin

import pytest

from drafting.geometry.point import Point
from drafting.solve.placed import PlacedFeature, PlacedStitches
from tests.lowering.drafted import CARD, check, codes, drafted

POUCH = """
measure disc_d = 96 mm
measure seam   = 4 mm
piece gusset: mirrored over west..east
  point first:  at (0, 0)
  point last:   level with first; back.ring.length right of first
  point west:   level with first; 6 mm left of first
  point east:   level with first; 6 mm right of last
  point nw:     plumb with west; 18 mm above west
  point ne:     plumb with east; level with nw
  point seam_a: plumb with first; 14 mm above first
  point seam_b: plumb with last; level with seam_a
  outline: west to nw to ne to east
  stitch near: seam_a to seam_b; as many as back.ring
piece back
  point hub: at (0, 0)
  outline: disc_d across; at hub
  stitch ring: seam inside outline; every 3.85 mm; start at outline.top
"""
STRAP = """
piece strap: mirrored over butt..tip
  point butt: at (0, 0)
  point crook: level with butt; 35 mm right of butt
  point tip: level with butt; 120 mm right of crook
  point side: plumb with butt; 6 mm above butt
  point end: plumb with tip; level with side
  outline: butt to side to end to tip
  crease bar: plumb through crook
  point sewn: level with butt; 11 mm right of crook
  stitch upper: plumb through sewn; every 3 mm; 3 mm short; marks slanted 2 mm
  stitch under: mirror of upper over bar
"""
SHELL = """
piece shell: mirrored over foot..top
  point foot: at (0, 0)
  point top:  plumb with foot; 80 mm above foot
  point heel: level with foot; 50 mm right of foot
  point brow: plumb with heel; level with top
  outline: foot to heel to brow to top
  run wall: from brow round heel to foot
  stitch edge: 4 mm inside wall; every 4 mm
"""


def stitches(text: str, name: str, piece: str = "back") -> PlacedStitches:
    return feature(text, name, piece).stitches[0]


def feature(text: str, name: str, piece: str = "back") -> PlacedFeature:
    return next(each for each in drafted(text).pieces[piece].features if each.name == name)


def places(line: PlacedStitches) -> list[tuple[float, float]]:
    return [(round(hole.point.x, 9), round(hole.point.y, 9)) for hole in line.layout.holes]


@pytest.mark.parametrize(
    "text", [POUCH, POUCH[POUCH.index("piece back") :] + POUCH[: POUCH.index("piece back")]]
)
def test_a_gusset_is_made_from_a_ring_in_any_order_of_pieces(text: str) -> None:
    """Coin pouch: 2 pi 44 mm hold 71.8 pitches of 3.85 mm, so 72 stitches each, of 3.8397 mm along the line."""
    pitch = 2 * pi * 44 / 72
    check(
        text,
        {
            "back.ring.stitches": 72,
            "back.ring.holes": 72,
            "back.ring.pitch": pitch,
            "gusset.near.stitches": 72,
            "gusset.near'.holes": 73,
            "gusset.near'.pitch": pitch,
            "gusset.width": 2 * pi * 44 + 12,
        },
    )


def test_a_ring_starts_where_it_is_told() -> None:
    ring = stitches(POUCH, "ring")
    assert ring.layout.is_ring
    assert places(ring)[0] == (0, 44)


@pytest.mark.parametrize(
    ("asked", "count", "nominal"),
    [
        ("every 3.6 mm", 20, 3.6),
        ("7 per inch", 20, 25.4 / 7),
        ("7 iron", 19, 27.07 / 7),
        ("12 stitches", 12, None),
        ("3.5 mm apart", 20, 3.5),
        ("2/11 in apart", 15, 25.4 * 2 / 11),
    ],
)
def test_ways_of_asking(asked: str, count: int, nominal: float | None) -> None:
    """A straight line of 72 mm. The French inch of 27.07 mm is looked up, good to 0.01 mm."""
    text = SHELL + f"  stitch line: at_low to at_high; {asked}; once\n"
    text += "  point at_low: at (10 mm, 4 mm) from foot\n  point at_high: at (10 mm, 76 mm) from foot\n"
    line = stitches(text, "line", "shell")
    assert line.layout.stitches == count
    assert line.layout.nominal == (None if nominal is None else pytest.approx(nominal, rel=1e-3))
    steps = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(places(line))]
    assert max(steps) - min(steps) < 1e-6
    if "apart" in asked:
        assert line.layout.remainder == pytest.approx(72 - count * steps[0])
    else:
        assert line.layout.pitch == pytest.approx(72 / count)


def test_an_iron_is_no_count_to_the_inch() -> None:
    """7 on the iron is 3.867 mm, 7 to the inch 3.629 mm: a quarter of a millimetre that makes four stitches here."""
    iron, inch = (
        stitches(CARD + f"  stitch edge: 3 mm inside outline; {asked}\n", "edge").layout
        for asked in ("7 iron", "7 per inch")
    )
    assert iron.nominal == pytest.approx(3.8671, abs=1e-4)
    assert inch.nominal == pytest.approx(3.6286, abs=1e-4)


def test_holes_stand_on_corners_and_flow_round_them_when_asked() -> None:
    held = stitches(CARD + "  stitch edge: 5 mm inside outline; every 5 mm\n", "edge")
    assert {(5.0, 5.0), (35.0, 5.0), (35.0, 55.0), (5.0, 55.0)} <= set(places(held))
    flowing = stitches(
        CARD + "  stitch edge: 5 mm inside outline; every 4 mm; corners flowing; start at outline.bottom\n",
        "edge",
    )
    assert flowing.layout.counts == (40,)
    assert (35.0, 5.0) not in places(flowing)
    assert flowing.layout.gaps[0] == pytest.approx(160 / 40, abs=1e-9)


def test_a_pitch_measured_across_is_the_same_through_the_air() -> None:
    ring = "piece back\n  outline: 40 mm across\n  stitch edge: 5 mm inside outline; every 4 mm; start at outline.top"
    along, across = (stitches(ring + how, "edge").layout for how in ("", "; measured across"))
    assert max(across.gaps) - min(across.gaps) < 1e-6
    assert across.pitch == pytest.approx(across.gaps[0], abs=1e-9)
    assert along.pitch > along.gaps[0] + 1e-3


def test_hole_at_parts_a_line_and_short_ends_it() -> None:
    text = (
        CARD
        + "  point knee: at (17 mm, 0)\n  stitch edge: 5 mm inside from foot to heel; every 3 mm; hole at knee"
    )
    line = stitches(text, "edge")
    assert (17.0, 5.0) in places(line)
    assert line.layout.counts == (4, 6)
    short = stitches(
        CARD + "  stitch edge: 5 mm inside from foot to heel; every 4 mm; 3 mm short at end\n", "edge"
    )
    assert short.layout.line.length == pytest.approx(27)


def test_a_line_that_ends_on_the_mirror_goes_on_into_its_twin_with_one_hole_there() -> None:
    piece = drafted(SHELL).pieces["shell"]
    lines = {each.name: each.stitches[0] for each in piece.features}
    assert set(lines) == {"edge", "edge'"}
    assert places(lines["edge"])[-1] == places(lines["edge'"])[-1] == (0, 4)
    assert len(piece.stitch_holes) == 2 * len(places(lines["edge"])) - 1


def test_twins_meet_when_folded_over_the_mirror_line() -> None:
    piece = drafted(SHELL).pieces["shell"]
    one, other = (each.stitches[0] for each in piece.features)
    assert [(-x, y) for x, y in places(other)] == places(one)


def test_a_line_across_the_mirror_is_its_own_twin_and_made_once() -> None:
    names = [each.name for each in drafted(STRAP).pieces["strap"].features]
    assert names == ["bar", "upper", "under"]


def test_the_holes_of_a_folded_line_meet_and_its_slits_lie_on_each_other() -> None:
    upper, under = (stitches(STRAP, name, "strap") for name in ("upper", "under"))
    assert places(under) == [(70 - x, y) for x, y in places(upper)]
    a, b = Point(35, 0), Point(35, 1)
    for slit, other in zip(upper.slits, under.slits, strict=True):
        folded = other.mirrored(a, b)
        ends = {slit.start, slit.end}
        assert all(min(end.distance_to(each) for each in ends) < 1e-9 for end in (folded.start, folded.end))


def test_slits_lean_alike_on_either_half() -> None:
    """Anticlockwise off the line by half a right angle, whichever way it is walked."""
    piece = drafted(SHELL + "  stitch rim: 8 mm inside wall; every 4 mm; marks slanted\n").pieces["shell"]
    for line in (each.stitches[0] for each in piece.features if each.name.startswith("rim")):
        assert len(line.slits) == len(line.layout.holes)
        for slit, hole in zip(line.slits, line.layout.holes, strict=True):
            assert slit.length == pytest.approx(line.layout.pitch / 2)
            lean = degrees((slit.end - slit.start).angle - hole.direction.angle) % 180
            assert lean == pytest.approx(45)


def test_pricked_holes_are_those_that_fall_on_the_piece() -> None:
    text = (
        SHELL
        + """
piece pocket: over shell; mirrored over shell.foot..shell.top
  point low: at (0, 0) from shell.foot
  point lip: plumb with low; 40 mm above low
  point side: level with low; plumb with shell.heel
  point bar: plumb with side; level with lip
  outline: low to side to bar to lip
  stitch seam: same holes as shell.edge
"""
    )
    shell = {p for each in drafted(text).pieces["shell"].features for p in places(each.stitches[0])}
    lines = [each.stitches[0] for each in drafted(text).pieces["pocket"].features]
    pocket = {p for line in lines for p in places(line)}
    assert pocket == {(x, y) for x, y in shell if y <= 40}
    assert all(line.is_pricked for line in lines)


def test_lines_between_two_lists_are_sewn_one_by_one() -> None:
    text = """
measure widths = 20 mm, 30 mm
piece roll
  point a: at (0, 0)
  point b: level with a; 80 mm right of a
  point c: plumb with b; 60 mm above b
  point d: plumb with a; level with c
  outline: a to b to c to d
  point e: at (10 mm, 30 mm)
  point f: at (70 mm, 30 mm)
  points low: along a..b; steps widths
  points high: along e..f; steps widths
  stitch seams: lines low to high; every 4 mm; 3 mm short at start
  stitch over: mirror of seams over e..f
  stitch same: lines high to top; as many as seams
  points top: along d..c; steps widths
"""
    seams, over, same = (feature(text, name, "roll").stitches for name in ("seams", "over", "same"))
    assert [line.name for line in seams] == ["seams.1", "seams.2"]
    assert [[(x, round(60 - y, 9)) for x, y in places(line)] for line in seams] == [
        places(line) for line in over
    ]
    assert [line.layout.counts for line in same] == [line.layout.counts for line in seams]
    check(text, {"roll.seams.2.stitches": seams[1].layout.stitches})


def test_back_stitches_are_told_by_the_holes_they_pass() -> None:
    asked = "10 stitches; 2 back at start; 1 back at end"
    line = stitches(CARD + f"  stitch edge: 5 mm inside from foot to heel; {asked}\n", "edge")
    assert line.layout.stitched_twice == (0, 1, 2, 9, 10)


def test_measures_speak_of_stitches_and_checks_hold_them() -> None:
    text = (
        "measure twice = 2*back.edge.stitches\n" + CARD + "  stitch edge: 5 mm inside outline; every 5 mm\n"
    )
    check(text + "check twice = 64\ncheck back.edge.pitch = 5 mm within 0.1 mm\n", {"twice": 64})
    assert codes(text + "check back.edge.stitches <= 31\n") == ["M38"]


# Seams


def test_a_seam_tells_its_lines_and_how_they_differ() -> None:
    text = POUCH + "join back.ring with gusset.near\njoin gusset.near with back.ring within 1 mm\n"
    joins = drafted(text).placed.joins
    assert [join.lines for join in joins] == [("back.ring", "gusset.near"), ("gusset.near", "back.ring")]
    for join in joins:
        (pair,) = join.pairs
        assert (pair.first, pair.second, pair.stitches) == ("back.ring", "gusset.near", (72, 72))
        assert pair.difference == pytest.approx(0, abs=1e-9)


def test_a_line_may_be_joined_to_its_twin_and_then_their_slits_meet() -> None:
    """A piece folded over its mirror line: the slits of one half lie on those of the other."""
    text = (
        SHELL
        + "  stitch rim: 8 mm inside wall; every 4 mm; marks slanted 2 mm\njoin shell.rim with shell.rim'\n"
    )
    piece = drafted(text).pieces["shell"]
    rim, twin = (each.stitches[0] for each in piece.features if each.name.startswith("rim"))
    for one, other in zip(rim.slits, twin.slits, strict=True):
        folded = other.mirrored(Point(0, 0), Point(0, 1))
        assert min(one.start.distance_to(end) for end in (folded.start, folded.end)) < 1e-9


def test_lists_of_lines_are_joined_line_by_line() -> None:
    text = """
piece roll
  point a: at (0, 0)
  point b: level with a; 60 mm right of a
  point c: plumb with b; 60 mm above b
  point d: plumb with a; level with c
  outline: a to b to c to d
  points low: along a..b; steps 20 mm, 20 mm
  points mid: along e..f; steps 20 mm, 20 mm
  point e: midway a..d
  point f: midway b..c
  stitch seams: lines low to mid; every 3 mm
  stitch over: mirror of seams over e..f
join roll.seams with roll.over
"""
    assert [join.lines for join in drafted(text).placed.joins] == [
        ("roll.seams.1", "roll.over.1"),
        ("roll.seams.2", "roll.over.2"),
    ]
    check(text, {"roll.seams.stitches": 20, "roll.seams.1.stitches": 10, "roll.seams.pitch": 3})


def test_thread_is_the_path_of_a_saddle_stitch() -> None:
    """F-03: 2Np + (2N + 1)t; for 72 stitches of 3.838 mm (straight from hole to hole) through 2.8 mm."""
    chord = 2 * 44 * sin(pi / 72)
    check(POUCH, {"thread(back.ring, 2.8 mm)": 2 * 72 * chord + (2 * 72 + 1) * 2.8})
    straight = SHELL + "  stitch line: p to q; 12 stitches; 2 back at end\n"
    straight += "  point p: at (10 mm, 4 mm) from foot\n  point q: at (10 mm, 52 mm) from foot\n"
    check(straight, {"thread(shell.line, 3 mm)": 2 * 12 * 4 + 25 * 3 + 2 * 2 * (4 + 3)})


def test_explaining_a_line_tells_its_stretches_and_its_seams() -> None:
    told = drafted(POUCH + "join back.ring with gusset.near\n").explain("back.ring")
    assert told.splitlines() == [
        "`back.ring` goes all round, 276.46 mm long, with 72 stitches and 72 holes.",
        "  asked: `every 3.85 mm`; a pitch is measured along the line.",
        "  A hole stands on each corner of 30 deg or more.",
        "  72 stitches on 276.46 mm, 3.84 mm each (3.85 mm asked, 0.27 % less)",
        "  sewn to `gusset.near`, as long as it.",
    ]
    twin = drafted(POUCH).explain("gusset.near'")
    assert "It is the twin of `near`, mirrored." in twin
    pricked = (
        SHELL
        + "piece flap: over shell\n  outline: box 40 mm by 20 mm; at shell.foot\n  stitch s: same holes as shell.edge\n"
    )
    assert "is pricked through" in drafted(pricked).explain("flap.s")
