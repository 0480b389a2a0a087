"""Templates to trace round: pins at every point to be marked, nothing falls out, and words that read the right way."""

from __future__ import annotations

from itertools import pairwise

import pytest
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Spot

from drafting import face
from drafting.drawing.machine import KerfFault, Template
from drafting.drawing.machine.slots import BRIDGE, LONGEST, SHORT, slots_along
from drafting.drawing.machine.templates import CLEAR, WALL
from drafting.geometry.arc import Arc
from drafting.geometry.curves import circle
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.proof.machine import faults_in_layers_pdf
from drafting.proof.machine_sheet import faults_in_template
from drafting.text.source import Source
from tests.drawing.samples import oblong, placed_text

TEXT = f"""\
pattern "Choir folder"
  edition "3"
stock body: leather; 2 mm thick
piece back: cut 1 pair from body; grain any
{oblong(150, 90, "heel toe brow crown")}\
  opening window: box 40 mm by 30 mm; at (110 mm, 30 mm); lying level
  hole eye: at (75 mm, 60 mm); 6 mm across
  hole near: at (76 mm, 1.2 mm); 2 mm across
  mark spot: at (20 mm, 70 mm)
  point left: at (12 mm, 50 mm)
  point right: at (48 mm, 50 mm)
  slit card: left to right; end holes 2 mm
  point low: at (6 mm, 8 mm)
  point high: at (6 mm, 80 mm)
  stitch seam: low to high; every 4 mm
  crease rim: 3 mm inside outline
  label hand: at (40 mm, 20 mm); lying level; 4 mm high; text "LEFT"
"""


@pytest.fixture(scope="module")
def placed() -> face.PlacedPattern:
    return placed_text(TEXT, "choir.draft")


def made(placed: face.PlacedPattern, **asked: object) -> list[Template]:
    sheets = placed.templates(**asked)  # type: ignore[arg-type]
    return [sheet.template for sheet in sheets if sheet.template]


def lines_on(template: Template, operation: str) -> list[Path | Ring]:
    """The lines of an operation in the places of the piece."""
    (laid,) = template.sheet.laid
    groups = [group for group in template.sheet.drawing.groups if group.title == operation]
    return [stroke.way.moved(-laid.move) for group in groups for stroke in group.strokes]


def centers(template: Template) -> list[tuple[float, float, float]]:
    holes = [way.bounds for way in lines_on(template, "punch")]
    return [(round(box.center.x, 6), round(box.center.y, 6), round(box.width, 6)) for box in holes]


def test_every_point_to_be_marked_has_a_pin_hole(placed: face.PlacedPattern) -> None:
    (template,) = made(placed)
    pins = {(x, y) for x, y, across in centers(template) if across == 1.0}
    assert pins == {(75, 60), (20, 70), (12, 50), (48, 50), (6, 8), (6, 80)}
    assert [(pin.where, pin.point) for pin in template.left_out] == [("back.near", Point(76, 1.2))]
    assert faults_in_template(template, placed.placed) == []


def test_holes_and_slits_are_marked_not_cut(placed: face.PlacedPattern) -> None:
    (template,) = made(placed)
    assert {group.title for group in template.sheet.drawing.groups} == {
        "engrave", "punch", "inner cut", "cut",
    }  # fmt: skip
    assert len(lines_on(template, "cut")) == len(lines_on(template, "inner cut")) == 1


def test_the_hole_to_hang_it_by_is_clear_of_everything(placed: face.PlacedPattern) -> None:
    (template,) = made(placed, awl_slots=["seam"])
    ((x, y, across),) = [hole for hole in centers(template) if hole[2] > 1.0]
    hole = Spot(x, y).buffer(across / 2)
    others = [*lines_on(template, "cut"), *lines_on(template, "inner cut"), *lines_on(template, "engrave")]
    others += [way for way in lines_on(template, "punch") if way.bounds.width == pytest.approx(1.0)]
    near = min(LineString([(p.x, p.y) for p in _places(way)]).distance(hole) for way in others)
    assert across == 6.0 and near > 1.0
    assert min(way.distance_to_point(Point(x, y)) for way in lines_on(template, "cut")) >= 3 + CLEAR


def _places(way: Path | Ring) -> list[Point]:
    return [leg.point_at(leg.length * part) for leg in way.legs for part in (0.0, 0.5, 1.0)]


def test_a_slot_follows_its_line_and_nothing_falls_out(placed: face.PlacedPattern) -> None:
    """Judged by shapely: the slots lie along the line, and what is left of the template is one part."""
    (template,) = made(placed, awl_slots=["seam", "back.rim", "card"])
    whole = Polygon([(0, 0), (150, 0), (150, 90), (0, 90)])
    for way in [*lines_on(template, "inner cut"), *lines_on(template, "punch")]:
        whole = whole.difference(Polygon([(p.x, p.y) for p in _places(way)]))
    assert whole.geom_type == "Polygon" and template.lacking == ()
    seam = [way for way in lines_on(template, "inner cut") if way.bounds.center.x == pytest.approx(6.0)]
    assert [round(way.height, 6) for way in seam] == [(72 - 2 * SHORT - BRIDGE) / 2 + 1.0] * 2 and len(
        whole.interiors
    ) > 12
    assert faults_in_template(template, placed.placed) == []


def test_a_slot_keeps_its_walls_and_says_what_it_lacks(placed: face.PlacedPattern) -> None:
    (template,) = made(placed, awl_slots=["rim"], pin=5.0)
    assert template.lacking == ("the whole of the awl slot along `rim`",)
    outline = lines_on(template, "cut")[0]
    for way in lines_on(template, "inner cut"):
        assert way.distance_to(outline) >= WALL


def test_an_unknown_line_for_a_slot_is_named(placed: face.PlacedPattern) -> None:
    with pytest.raises(face.UnknownName, match="card, seam, rim"):
        placed.templates(awl_slots=["seem"])


@pytest.mark.parametrize("length", [12.0, 40.0, 69.9, 70.1, 75.0, 200.0, 1000.0])
def test_slots_leave_bridges(length: float) -> None:
    slots = slots_along(Path((Line(Point(0, 0), Point(length, 0)),)), 1.0)
    spans = sorted((slot.bounds.min_x + 0.5, slot.bounds.max_x - 0.5) for slot in slots)
    assert spans[0][0] == pytest.approx(SHORT) and spans[-1][1] == pytest.approx(length - SHORT)
    assert all(end - start <= LONGEST + 1e-9 for start, end in spans)
    assert all(after - before == pytest.approx(BRIDGE) for (_, before), (after, _) in pairwise(spans))


def test_a_line_too_short_or_too_tightly_bent_has_no_slot() -> None:
    assert slots_along(Path((Line(Point(0, 0), Point(11, 0)),)), 1.0) == []
    bend = Path((Arc(Point(0, 0), 0.4, 0.0, 3.0), *[]))
    assert slots_along(bend, 1.0) == []


def test_a_ring_is_never_cut_all_round() -> None:
    slots = slots_along(circle(Point(0, 0), 8.0), 1.0)
    assert len(slots) == 1 and slots[0].length < 2 * 2 * 3.2 * 8.0


def test_the_flip_side_is_told_or_made(placed: face.PlacedPattern) -> None:
    (marked,) = made(placed)
    one, other = made(placed, mirrored=True)
    assert (marked.is_turned, one.is_turned, other.is_turned) == (False, False, True)
    assert faults_in_template(other, placed.placed) == []
    pins = {(x, y) for x, y, across in centers(one) if across == 1.0}
    assert {(-x, y) for x, y, across in centers(other) if across == 1.0} == pins
    assert len(lines_on(marked, "engrave")) > len(lines_on(one, "engrave"))


def test_words_read_the_right_way_on_both(placed: face.PlacedPattern) -> None:
    """The label's strokes are the same on both, moved; not mirrored."""
    one, other = made(placed, mirrored=True)
    first, second = (lines_on(template, "engrave")[:11] for template in (one, other))
    move = second[0].start - first[0].start
    assert all(
        a.moved(move).start.distance_to(b.start) < 1e-9 and a.moved(move).end.distance_to(b.end) < 1e-9
        for a, b in zip(first, second, strict=True)
    )


def test_a_kerf_wider_than_a_pin_hole_is_told(placed: face.PlacedPattern) -> None:
    with pytest.raises(KerfFault) as told:
        placed.templates(kerf=1.2)
    assert told.value.largest == pytest.approx(1.0, abs=1e-3)
    (template,) = made(placed, kerf=0.2)
    assert faults_in_template(template, placed.placed) == []
    assert min(across for _, _, across in centers(template)) == pytest.approx(0.8)


def test_a_tiny_piece_says_what_has_no_room() -> None:
    text = """\
pattern "Keeper"
piece keeper: grain any
  point a: at (0, 0)
  point b: at (7 mm, 0)
  point c: at (7 mm, 6 mm)
  point d: at (0, 6 mm)
  outline: a to b to c to d
"""
    (template,) = made(face.read(Source("keeper.draft", text)).place())
    assert template.lacking == ("a hole to hang it by", "its name")


def test_a_label_keeps_clear_of_an_opening() -> None:
    """It moves a little; and one that fits nowhere is told, not engraved across the opening."""
    beside = TEXT.replace(
        "at (40 mm, 20 mm); lying level; 4 mm high", "at (110 mm, 46 mm); lying level; 3 mm high"
    )
    for text, lacking in ((beside, ()), (beside.replace("46 mm)", "30 mm)"), ("the words of `hand`",))):
        (template,) = made(face.read(Source("choir.draft", text)).place())
        assert template.lacking == lacking
        window = lines_on(template, "inner cut")[0]
        assert all(way.distance_to(window) > 0.1 for way in lines_on(template, "engrave"))


def test_a_template_as_pdf_is_proved(placed: face.PlacedPattern) -> None:
    (sheet,) = placed.templates()
    assert faults_in_layers_pdf(sheet.to_pdf(), sheet.sheet.drawing) == []
