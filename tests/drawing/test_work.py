"""Stitches, folds, slits and hatched strips as they stand on a sheet."""

from __future__ import annotations

from math import degrees, pi, radians

import pytest

from drafting.drawing import Drawing, collisions, overview, piece_sheet
from drafting.drawing.amounts import Figures
from drafting.drawing.hatching import DEEP, GLUED, SKIVED, Hatching, hatched, leaning
from drafting.drawing.lines import TWICE
from drafting.drawing.marks import Dots, Ticks
from drafting.drawing.seams import letter, letter_words
from drafting.drawing.work_view import stitch_view
from drafting.drawing.work_words import seam_remarks
from drafting.face import read
from drafting.geometry.curves import box, circle
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.output.svg import to_svg
from drafting.proof.svg import check_svg
from drafting.solve.placed import Placed
from drafting.text.source import Source
from tests.drawing.samples import feature, piece, placed, polygon
from tests.drawing.test_drawings import words

POUCH = """\
pattern "Toll keeper's coin pouch"
stock body: leather; 1.4 mm thick
piece back: cut 1 from body
  point hub: at (0, 0)
  outline: 96 mm across; at hub
  stitch ring: 4 mm inside outline; every 3.85 mm; start at outline.top; marks round 1.2 mm
piece strap: cut 1 from body; mirrored over near..far
  point near: at (0, 0)
  point far: level with near; 120 mm right of near
  point corner: plumb with near; 15 mm above near
  point end: plumb with far; level with corner
  point bar: level with near; 40 mm right of near
  point left: at (8 mm, 9 mm)
  point right: at (60 mm, 9 mm)
  outline: near to corner to end to far
  stitch seam: left to right; every 4 mm; 2 back; marks slanted 2 mm
  fold crook: plumb through bar; bent 180 deg round 2.5 mm
  slit mouth: tongue to last; end holes 3 mm
  point tongue: at (80 mm, 6 mm)
  point last: at (104 mm, 6 mm)
"""


def pouch(show: str = "mm") -> Placed:
    text = POUCH.replace("\nstock", f"\n  show {show}\nstock", 1)
    return read(Source("pouch.draft", text)).place().placed


def dots(drawing: Drawing) -> list[Dots]:
    return [mark for group in drawing.find("stitches") for mark in group.flecks if isinstance(mark, Dots)]


def ticks(drawing: Drawing, kind: str) -> list[Ticks]:
    marks = [mark for group in drawing.find("stitches") for mark in group.flecks]
    return [mark for mark in marks if isinstance(mark, Ticks) and mark.kind.name == kind]


def test_round_stitch_holes_are_dots_of_their_size() -> None:
    drawing = piece_sheet(pouch(), "back")
    (ring,) = dots(drawing)
    assert (len(ring.points), ring.across) == (72, 1.2)
    hub = drawing.find("outline")[0].bounds
    assert hub is not None
    assert {round(hub.center.distance_to(point), 6) for point in ring.points} == {44.0}


def test_slanted_marks_stand_in_their_direction_and_back_stitches_are_ticked() -> None:
    """Two stitches sewn twice at either end pass three holes again; the ticks stand square to the seam."""
    drawing = piece_sheet(pouch(), "strap")
    slanted, twice = ticks(drawing, "prick"), ticks(drawing, "twice")
    assert [len(mark.lines) for mark in slanted] == [14, 14]
    assert {round(a.distance_to(b), 6) for mark in slanted for a, b in mark.lines} == {2.0}
    assert [len(mark.lines) for mark in twice] == [6, 6]
    assert all(abs(a.x - b.x) < 1e-9 for mark in twice for a, b in mark.lines)


def test_a_seam_is_named_on_the_piece_and_told_whole_in_the_notes() -> None:
    drawing = piece_sheet(pouch(), "back")
    assert "stitch ring, 72 stitches" in words(drawing, "note")
    told = words(drawing, "wording")
    assert "Stitch ring: 72 stitches, 3.85 mm asked, 3.84 mm true, 4 mm from the edge." in told
    strap = piece_sheet(pouch(), "strap")
    assert "2× stitch seam, 13 stitches" in [group.title for group in strap.find("note")]
    seam = "Stitch seam: 13 stitches, 4 mm asked, 4 mm true, 6 mm from the edge, 2 back at both ends."
    assert seam in words(strap, "wording")


def test_a_seam_in_two_units() -> None:
    told = words(piece_sheet(pouch("mm and in"), "back"), "wording")
    seam = next(line for line in told if line.startswith("Stitch"))
    assert seam.startswith(
        "Stitch ring: 72 stitches, 3.85 mm asked, 3.84 mm true, 4 mm from the edge [0.152 in asked"
    )


def test_folds_and_slits_tell_how_they_are_made() -> None:
    """The allowance: a half turn round 2.5 mm inside, the neutral line in the middle of 1.4 mm."""
    told = [group.title for group in piece_sheet(pouch(), "strap").find("note")]
    allowance = pi * (2.5 / 2 + 1.4 / 2)
    assert f"fold, bent 180° round 2.5, allowance {allowance:.2f}" in told
    assert "2× slit 24 long, holes ⌀3" in told


def test_legend_tells_stitches_from_what_is_sewn_twice() -> None:
    entries = [group.name for group in piece_sheet(pouch(), "strap").find("legend-entry")]
    assert {"cut", "fold", "stitch", "twice"} <= set(entries) and "prick" not in entries


@pytest.mark.parametrize("show", ["mm", "in", "mm and in"])
def test_work_keeps_off_words(show: str) -> None:
    pattern = pouch(show)
    drawings = [overview(pattern), *(piece_sheet(pattern, name) for name in pattern.pieces)]
    assert [collisions(drawing) for drawing in drawings] == [[] for _ in drawings]


PRICKED = """\
pattern "Choir folder"
piece back
  point hub: at (0, 0)
  outline: box 80 mm by 60 mm; at hub
  stitch edge: 4 mm inside outline; every 4 mm
piece pocket: over back
  outline: box 60 mm by 60 mm; at back.hub
  stitch edge: same holes as back.edge
"""


def test_legend_tells_stitch_holes_that_no_line_joins() -> None:
    """Where a piece is pricked through another there are holes alone."""
    entries = [group.name for group in piece_sheet(pouch(), "back").find("legend-entry")]
    assert "stitch" in entries and "prick" not in entries
    pricked = read(Source("pricked.draft", PRICKED)).place()
    entries = [group.name for group in pricked.drawing("pocket").drawing.find("legend-entry")]
    assert "prick" in entries and "stitch" not in entries


def test_words_on_a_stitch_hole_are_found() -> None:
    """The overlap test sees flecks too."""
    drawing = piece_sheet(pouch(), "back")
    at = dots(drawing)[0].points[0]
    lettering = next(drawing.letterings)
    there = type(lettering)("HH", at, 3.5)
    group = type(drawing.groups[0])("test", "test", (dots(drawing)[0], there))
    alone = Drawing("", "", drawing.width, drawing.height, "", 1.0, (group,))
    assert [one.on for one in collisions(alone)] == ["prick"]


@pytest.mark.parametrize("hatching", [SKIVED, GLUED, Hatching(30.0, 1.0)])
def test_hatching_fills_a_strip_and_leaves_gaps_out(hatching: Hatching) -> None:
    """Each line lies in the ring and outside the ring within it, and all together as dense as they should be."""
    outer, inner = box(Point(3, 1), 40, 11), circle(Point(3, 1), 3.5)
    drawn = hatched([outer, inner], hatching)
    for start, end in drawn.lines:
        middle = start.midway(end)
        assert outer.contains(middle) and not inner.contains(middle)
        assert all(
            min(outer.distance_to_point(point), inner.distance_to_point(point)) < 0.05
            for point in (start, end)
        )
    area = sum(start.distance_to(end) for start, end in drawn.lines) * hatching.apart
    assert area == pytest.approx(outer.area - inner.area, rel=0.06)


@pytest.mark.parametrize("hatching", [SKIVED, GLUED, Hatching(30.0, 1.0)])
def test_a_wide_area_is_hatched_along_its_edges(hatching: Hatching) -> None:
    """As deep from every edge, whatever its direction."""
    area = box(Point(0, 0), 200, 100)
    drawn = hatched([area], hatching)
    deep = max(area.distance_to_point(point) for line in drawn.lines for point in line)
    assert deep == pytest.approx(DEEP, abs=0.05)
    assert not any(abs(point.x) < 90 and abs(point.y) < 40 for line in drawn.lines for point in line)


@pytest.mark.parametrize("angle", range(0, 180, 5))
def test_a_strip_is_hatched_whatever_its_direction(angle: float) -> None:
    """A strip of which only a narrow end runs otherwise is hatched all along, and never along itself."""
    strip = box(Point(0, 0), 120, 8).turned(radians(angle), Point(0, 0))
    hatching = leaning([strip], GLUED)
    drawn = hatched([strip], hatching)
    assert abs((hatching.angle - angle + 90) % 180 - 90) >= 15
    assert sum(a.distance_to(b) for a, b in drawn.lines) * hatching.apart == pytest.approx(120 * 8, rel=0.06)


def test_a_glued_rim_with_a_taper_is_hatched_all_round() -> None:
    """All strips of a kind alike: of the badge's rim the right taper lies nearly along the usual slant."""
    left = Ring(polygon([Point(0, 0), Point(-40, 0), Point(-40, 90), Point(-20, 118), Point(0, 118), Point(0, 111),
                 Point(-17, 111), Point(-33, 88), Point(-33, 7), Point(0, 7)]))  # fmt: skip
    right = left.mirrored(Point(0, 0), Point(0, 1))
    rims = [feature("rim", "glue", rings=[left]), feature("rim'", "glue", rings=[right])]
    badge = piece("badge", box(Point(0, 59), 80, 118), features=rims)
    drawn = [
        flecks
        for group in piece_sheet(placed("badge", [badge]), "badge").find("hatching")
        for flecks in group.flecks
    ]
    totals = [sum(a.distance_to(b) for a, b in flecks.lines) for flecks in drawn if isinstance(flecks, Ticks)]
    assert totals == pytest.approx([left.area / GLUED.apart] * 2, rel=0.06)
    slants = {
        round(degrees((b - a).angle)) % 180
        for flecks in drawn
        if isinstance(flecks, Ticks)
        for a, b in flecks.lines
    }
    assert len(slants) == 1


def test_glue_is_hatched_and_told_in_the_legend() -> None:
    strip = feature("paste", "glue", rings=[box(Point(0, 20), 60, 8)])
    drawing = piece_sheet(placed("glued", [piece("p", box(Point(0, 0), 80, 60), features=[strip])]), "p")
    assert [group.name for group in drawing.find("hatching")] == ["paste"]
    assert "glue" in {group.name for group in drawing.find("legend-entry")}
    assert collisions(drawing) == []


def test_thousands_of_holes_are_one_element_of_the_file() -> None:
    """A seam of 10,000 holes adds one path, of less than 70 letters a hole."""
    text = (
        'pattern "Sail"\npiece sail\n  outline: box 10000 mm by 10000 mm\n'
        "  stitch rim: 3 mm inside outline; every 4 mm; marks round 1 mm\n"
    )
    drawing = piece_sheet(read(Source("sail.draft", text)).place().placed, "sail")
    (seam,) = dots(drawing)
    svg = to_svg(drawing)
    paths = [line for line in svg.splitlines() if 'class="prick"' in line]
    assert len(seam.points) > 9_900
    assert [len(path) < 70 * len(seam.points) for path in paths if len(path) > 1000] == [True]
    assert svg.count("<path") < 200


BUCKET = """\
pattern "Lamp room bucket"
stock body: leather; 2 mm thick
thread waxed: 0.6 mm thick  "bees' wax"
hardware ring: need 2; 20 mm inside  "for the rope"
piece floor: cut 1 from body
  outline: 90 mm across
  stitch rim: 4 mm inside outline; every 4 mm; start at outline.top
piece wall: cut 1 from body; mirrored over left..right
  measure around = floor.rim.length + 8 mm
  point left:  at (0, 0)
  point right: level with left; around right of left
  point low: plumb with left; 30 mm above left
  point over:  plumb with right; level with low
  outline: left to low to over to right
  stitch foot: 4 mm inside from low to over; as many as floor.rim
  turn hem: 8 mm outside from low to over; once
  skive thin: band 6 mm inside from low to over; down to 0.8 mm
join floor.rim with wall.foot  "the round goes in"
join floor.rim with wall.foot'
step "Sew the round to the wall"  uses waxed
step "Hang it up."
"""


def bucket() -> Placed:
    return read(Source("bucket.draft", BUCKET)).place().placed


def test_both_sides_of_a_seam_carry_its_letter() -> None:
    titles = {
        name: [group.title for group in piece_sheet(bucket(), name).find("note")]
        for name in ("floor", "wall")
    }
    count = bucket().joins[0].pairs[0].stitches[0]
    assert f"stitch rim, {count} stitches, seams A, B" in titles["floor"]
    assert {f"stitch foot, {count} stitches, seam A", f"stitch foot, {count} stitches, seam B"} <= set(
        titles["wall"]
    )
    drawing = overview(bucket())
    assert sorted(group.title or "" for group in drawing.find("note")) == [
        "seam A",
        "seam B",
        "seams A, B",
        "⌀90",
    ]


PAIR = """\
pattern "Tide wallet"
piece back: mirrored over foot..top
  point foot: at (0, 0)
  point top: plumb with foot; 80 mm above foot
  point heel: level with foot; 50 mm right of foot
  point brow: plumb with heel; level with top
  outline: foot to heel to brow to top
  stitch side: 4 mm inside from heel to brow; every 4 mm
piece front: like back
join back.side with front.side
"""


def test_a_seam_and_its_twin_are_told_once() -> None:
    """Twins of lines that are joined meet as they do; one note tells both."""
    pair = read(Source("pair.draft", PAIR)).place().placed
    count = pair.joins[0].pairs[0].stitches[0]
    told = [group.title for group in piece_sheet(pair, "back").find("note")]
    assert told == [f"2× stitch side, {count} stitches, seam A"]
    assert [group.title for group in overview(pair).find("note")] == ["2× seam A"] * 2


def test_a_stitch_line_off_the_edge_is_placed() -> None:
    """A line across, and a box of stitches; a seam beside the edge is told in the notes."""
    text = (
        'pattern "Log cover"\npiece cover\n  point hub: at (0, 0)\n  outline: box 200 mm by 120 mm; at hub\n'
        "  point third: at (-30 mm, 0 mm)\n  point seat: at (50 mm, 20 mm)\n"
        "  stitch across: plumb through third; every 4 mm; 10 mm short\n"
        "  stitch loop: box 20 mm by 40 mm; at seat; lying level; every 4 mm\n"
        "  stitch rim: 4 mm inside outline; every 4 mm; start at outline.top\n"
    )
    drawing = read(Source("log.draft", text)).place().drawing("cover").drawing
    assert sorted(words(drawing, "dimension")) == ["120", "200", "40", "50", "70"]


def test_letters_go_on_after_z() -> None:
    assert [letter(index) for index in (0, 25, 26, 27, 52, 701, 702)] == [
        "A",
        "Z",
        "AA",
        "AB",
        "BA",
        "ZZ",
        "AAA",
    ]


def test_the_overview_tells_joins_goods_and_steps() -> None:
    told = words(overview(bucket()), "wording")
    count = bucket().joins[0].pairs[0].stitches[0]
    assert f"Seam A: floor.rim with wall.foot, {count} stitches each. (the round goes in)" in told
    assert "Stock: body, leather 2 mm thick." in told
    assert "Thread: waxed 0.6 mm thick (bees' wax)." in told
    assert "Hardware: 2 ring, 20 mm inside (for the rope)." in told
    steps = [line for line in told if line.startswith("Step")]
    assert steps == ["Step 1: Sew the round to the wall. Uses waxed.", "Step 2: Hang it up."]


def test_a_turned_edge_is_cut_outside_and_its_finished_edge_is_told() -> None:
    drawing = piece_sheet(bucket(), "wall")
    outline, (hem,) = drawing.find("outline")[0], drawing.find("feature", "hem")
    assert {stroke.kind.name for stroke in outline.strokes} == {"cut"}
    assert {stroke.kind.name for stroke in hem.strokes} == {"turn"}
    cut, finished = outline.bounds, hem.bounds
    assert cut is not None and finished is not None
    assert cut.max_y - finished.max_y == pytest.approx(8.0 + 0.25 - 0.125)
    assert {"finished 60", "68"} <= set(words(drawing, "dimension"))
    notes = [group.title for group in drawing.find("note")]
    assert {"turn 8 wide", "2× skive 6 wide, down to 0.8"} <= set(notes)
    assert check_svg(to_svg(drawing), bucket(), "wall") == []
    assert collisions(drawing) == []


STRIPS = """\
pattern "Rope locker flap"
  show mm and in
stock body: leather; 2 mm thick
piece flap: cut 1 from body
  point a: at (0, 0)
  point b: at (120 mm, 0)
  point c: at (120 mm, 80 mm)
  point d: at (0, 80 mm)
  outline: a to b to c to d
  opening view: box 40 mm by 30 mm; at (60 mm, 40 mm); lying level; 4 mm rounded
  crease frame: 3 mm outside view
  opening low: box 90 mm by 3 mm; at (60 mm, 17.5 mm); lying level
  crease lip: along rail..end
  point rail: at (25 mm, 14.5 mm)
  point end: at (95 mm, 14.5 mm)
  crease border: 2.5 mm inside outline
  crease middle: d to b
  glue seam: band 8 mm inside from a to b
  glue ledge: 15 mm inside from c to d; 6 mm wide; 20 mm short
  glue patch: box 10 mm by 12 mm; at (20 mm, 40 mm); lying level
  skive hinge: plumb through post; 9 mm wide; down to 0.7 mm
  point post: at (100 mm, 40 mm)
"""


def test_widths_of_strips_and_ways_to_the_edge_are_told() -> None:
    """What a maker sets a divider or a creaser to; a crease from corner to corner follows no edge."""
    drawing = piece_sheet(read(Source("flap.draft", STRIPS)).place().placed, "flap")
    told = {group.name: group.title for group in drawing.find("note")}
    assert told["frame"] == "crease 3 from the opening [0.118]"
    assert told["border"] == "crease 2.5 from the edge [0.098]"
    assert told["lip"] == "crease 1.5 from the opening [0.059]"
    assert "middle" not in told
    assert told["seam"] == "glue 8 wide [0.315]"
    assert told["ledge"] == "glue 6 wide, 12 from the edge [0.236 wide, 0.472 from the edge]"
    assert told["patch"] == "glue 10 × 12 [0.394 × 0.472]"
    assert told["hinge"] == "skive 9 wide, down to 0.7 [0.354 wide, down to 0.028]"
    assert collisions(drawing) == []


COMB = """pattern "Chisel roll"
measure wide = 8 mm, 6 mm, 7 mm, 5 mm
stock body: leather; 2 mm thick
piece roll: cut 1 from body
  point a: at (0, 0)
  point b: at (300 mm, 0)
  point c: at (300 mm, 200 mm)
  point d: at (0, 200 mm)
  points low: along a..b; steps wide
  points fold: along left..right; steps wide
  points top: along d..c; steps wide
  point left: at (0, 100 mm)
  point right: at (300 mm, 100 mm)
  outline: a to b to c to d
  stitch seams: lines low to fold; every 4 mm; 30 mm short
  stitch over: lines top to fold; every 4 mm; 30 mm short
join roll.seams with roll.over
"""


def test_the_lines_of_a_comb_are_told_together() -> None:
    """One note for all of them, one for the letter of the first, and one line in the notes of the sheet."""
    roll = read(Source("roll.draft", COMB)).place().placed
    drawing = piece_sheet(roll, "roll")
    assert sorted(group.title for group in drawing.find("note")) == [
        "2× seam A",
        "stitch over, 4 lines of 10 stitches, seams A to D",
        "stitch seams, 4 lines of 10 stitches, seams A to D",
    ]
    told = [line for line in seam_remarks(roll.pieces["roll"], Figures()) if "seams" in line]
    assert told == [
        "Stitch seams: 4 lines of 10 stitches, 4 mm asked, 4 mm true, 8 mm, 14 mm, 21 mm, 26 mm from the edge."
    ]


def test_letters_of_seams_that_follow_each_other_are_told_as_a_row() -> None:
    assert letter_words(["A"]) == "seam A"
    assert letter_words(["A", "B"]) == "seams A, B"
    assert letter_words(["Y", "Z", "AA"]) == "seams Y to AA"
    assert letter_words(["A", "C", "D"]) == "seams A, C, D"


def test_cautions_stand_on_the_overview_where_the_work_asks_for_them() -> None:
    """The bucket is skived; nothing of the plain square asks for a caution."""
    told = " ".join(words(overview(bucket()), "wording"))
    assert "Caution: Leather dust from sanding and skiving wheels can cause cancer" in told
    plain = overview(placed("square", [piece("square", box(Point(0, 0), 50, 50))]))
    assert "Caution" not in " ".join(words(plain, "wording"))


def test_long_notes_go_on_above_the_title_block() -> None:
    """On a sheet with room beside the title block they stand in two columns about as high as each other."""
    remarks = [f"Remark {number} of a long list." for number in range(40)]
    wide = placed("wide", [piece("wide", box(Point(0, 0), 340, 60))])
    drawing = piece_sheet(wide, "wide", remarks=remarks)
    assert drawing.sheet == "A3"
    told = words(drawing, "wording")
    assert [line for line in told if line in remarks] == remarks
    first, second = (group.bounds for group in drawing.find("wording"))
    block = drawing.find("title-block")[0].bounds
    assert first is not None and second is not None and block is not None
    assert second.min_y > block.max_y and second.min_x > block.min_x
    assert abs(first.max_y - second.max_y) < 25
    assert collisions(drawing) == []


def test_a_hole_tells_its_punch_and_the_overview_all_of_them() -> None:
    text = POUCH.replace("end holes 3 mm", "end holes no_2")
    text += """  hole eye: 10 mm right of bar; level with bar; no_5 across
  opening thumb: 45 mm right of bar; level with bar; no_9 across
  row spots: 70 mm right of bar; level with bar; lying level; 2 holes; 5 mm apart; no_2 across
punch no_2: 2.5 mm across  "worn"
punch no_5: 5 mm across
punch no_9: 9 mm across
punch no_11: 11 mm across
"""
    drafted = read(Source("pouch.draft", text)).place().placed
    told = " ".join(words(piece_sheet(drafted, "strap"), "note"))
    for wanted in (
        "⌀5, punch no_5",
        "holes ⌀2.5, punch no_2",
        "2× ⌀2.5, 5 apart, punch no_2",
        "⌀9, punch no_9",
    ):
        assert wanted in told
    listed = " ".join(words(overview(drafted), "wording"))
    assert "Punches: no_2 ⌀2.5 mm (worn); no_5 ⌀5 mm; no_9 ⌀9 mm." in listed


def test_signs_of_double_stitches_are_left_out_where_they_would_run_together() -> None:
    """The strap's seam goes back two stitches at each end, 4 mm apart: at 1:2 they are told, at 1:5 not."""
    strap = pouch().pieces["strap"]
    (seam,) = [one for one in strap.features if one.name == "seam"]
    drawn = {scale: stitch_view(seam, scale).flecks for scale in (0.5, 0.2)}
    assert [any(mark.kind is TWICE for mark in marks) for marks in drawn.values()] == [True, False]
