"""The proof of a file for a machine finds whatever is wrong with it, and nothing else."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from drafting import face
from drafting.drawing.machine import LAYERS, MachineSheet
from drafting.drawing.marks import Drawing, Group, Mark, Stroke
from drafting.geometry.curves import box, circle
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector
from drafting.output.dxf import to_dxf
from drafting.output.layers_svg import layers_to_svg
from drafting.output.pdf import to_pdf
from drafting.proof.disagreement import Disagreement
from drafting.proof.expected import Measures
from drafting.proof.machine import faults_in_dxf, faults_in_layers_pdf, faults_in_layers_svg
from drafting.proof.machine_sheet import faults_in_sheet, faults_in_template
from drafting.proof.svg import compare
from tests.drawing.samples import PIERCED, TAG_CORNERS, oblong, placed_text

TEXT = f"""\
pattern "Choir folder tag"
stock body: leather; 2 mm thick
stock thin: leather; 1 mm thick
piece tag: cut 1 pair from body; grain any
{TAG_CORNERS}  fillet toe, brow by 12 mm
  clip crown by 9 mm
{PIERCED.format(rounded="; 5 mm rounded", bowed=" bowed up 4 mm")}\
  crease edge: 2 mm inside outline
  stamp number: at (30 mm, 68 mm); lying level; 5 mm high; text "No 7"
  point low: at (6 mm, 8 mm)
  point high: at (6 mm, 70 mm)
  stitch seam: low to high; every 4 mm; marks slanted 2 mm
  point more: at (54 mm, 14 mm)
  point most: at (54 mm, 70 mm)
  stitch rim: more to most; every 4 mm; marks round 1 mm
piece strip: cut 2 from thin; grain any
{oblong(44, 14)}\
"""


@pytest.fixture(scope="module")
def tag() -> face.PlacedPattern:
    return placed_text(TEXT, "tag.draft")


@pytest.fixture(scope="module")
def sheet(tag: face.PlacedPattern) -> MachineSheet:
    return tag.cutting()[0].sheet


Write = Callable[[Drawing], bytes]
Prove = Callable[[bytes, Drawing], list[Disagreement]]
FORMATS: dict[str, tuple[Write, Prove]] = {
    "svg": (lambda drawing: layers_to_svg(drawing, LAYERS), faults_in_layers_svg),
    "dxf": (lambda drawing: to_dxf(drawing, LAYERS), faults_in_dxf),
    "r12": (lambda drawing: to_dxf(drawing, LAYERS, "R12"), faults_in_dxf),
    "pdf": (lambda drawing: to_pdf([drawing]), faults_in_layers_pdf),
}


def changed(drawing: Drawing, layer: str, change: Callable[[tuple[Mark, ...]], tuple[Mark, ...]]) -> Drawing:
    groups = (replace(g, marks=change(g.marks)) if g.name == layer else g for g in drawing.groups)
    return replace(drawing, groups=tuple(groups))


def moved(mark: Mark) -> Mark:
    return mark.moved(Vector(0.02, 0.0))


def bowed_the_other_way(mark: Mark) -> Mark:
    assert isinstance(mark, Stroke)
    return replace(mark, way=mark.way.mirrored(mark.way.start, mark.way.end))


CHANGES: dict[str, tuple[str, Callable[[tuple[Mark, ...]], tuple[Mark, ...]]]] = {
    "a stitch left out": ("stitch", lambda marks: marks[1:]),
    "a stitch twice": ("stitch", lambda marks: (*marks, marks[-1])),
    "a hole moved": ("punch", lambda marks: (moved(marks[0]), *marks[1:])),
    "an outline moved": ("cut", lambda marks: (moved(marks[0]), *marks[1:])),
    "an opening left out": ("inner-cut", lambda marks: marks[:-1]),
    "a slit bowed the other way": ("slit", lambda marks: (bowed_the_other_way(marks[0]), *marks[1:])),
    "a slanted stitch turned": ("stitch", lambda marks: (bowed_about(marks[0]), *marks[1:])),
}


def bowed_about(mark: Mark) -> Mark:
    """A short line mirrored about the plumb line through its middle: the same box, leaning the other way."""
    assert isinstance(mark, Stroke)
    middle = mark.way.midpoint
    return replace(mark, way=mark.way.mirrored(middle, middle + Vector(0.0, 1.0)))


@pytest.mark.parametrize("form", FORMATS)
def test_a_true_file_has_no_faults(sheet: MachineSheet, form: str) -> None:
    write, prove = FORMATS[form]
    assert prove(write(sheet.drawing), sheet.drawing) == []


@pytest.mark.parametrize("form", FORMATS)
@pytest.mark.parametrize("change", CHANGES)
def test_a_file_that_differs_is_found_out(sheet: MachineSheet, form: str, change: str) -> None:
    write, prove = FORMATS[form]
    false = changed(sheet.drawing, *CHANGES[change])
    assert prove(write(false), sheet.drawing)
    assert prove(write(sheet.drawing), false)


@pytest.mark.parametrize("form", FORMATS)
def test_a_line_on_the_wrong_layer_is_found_out(sheet: MachineSheet, form: str) -> None:
    write, prove = FORMATS[form]
    swap = {"crease": "cut", "cut": "crease"}
    false = replace(
        sheet.drawing,
        groups=tuple(replace(group, name=swap.get(group.name, group.name)) for group in sheet.drawing.groups),
    )
    assert prove(write(false), sheet.drawing)


def test_a_wrong_unit_is_found_out(sheet: MachineSheet) -> None:
    """Metres are what some writers declare where nobody says otherwise."""
    data = to_dxf(sheet.drawing, LAYERS)
    false = re.sub(rb"(\$INSUNITS\r?\n *70\r?\n *)4", rb"\g<1>6", data)
    assert false != data
    assert [fault.what for fault in faults_in_dxf(false, sheet.drawing)] == ["the code of its unit"]
    small = layers_to_svg(sheet.drawing, LAYERS).replace(b"mm", b"cm", 2)
    assert faults_in_layers_svg(small, sheet.drawing)


@pytest.mark.parametrize("form", FORMATS)
@pytest.mark.parametrize("data", [b"", b"the choir's accounts", b"\xff\xfe\x00", b"0\nSECTION\n"])
def test_what_is_no_such_file_is_told(sheet: MachineSheet, form: str, data: bytes) -> None:
    assert FORMATS[form][1](data, sheet.drawing)


def test_every_cut_short_file_is_told(sheet: MachineSheet) -> None:
    for form in ("svg", "dxf"):
        write, prove = FORMATS[form]
        whole = write(sheet.drawing)
        assert prove(whole[: len(whole) * 2 // 3], sheet.drawing)


# The sheet against the pattern


@pytest.mark.parametrize("kerf", [0.0, 0.3])
def test_a_sheet_holds_the_pattern(tag: face.PlacedPattern, kerf: float) -> None:
    for one in tag.cutting(kerf=kerf):
        assert faults_in_sheet(one.sheet, tag.placed, list(tag.pieces)) == []


@pytest.mark.parametrize("change", [name for name in CHANGES if "turned" not in name])
@pytest.mark.parametrize("kerf", [0.0, 0.3])
def test_a_sheet_that_differs_is_found_out(tag: face.PlacedPattern, change: str, kerf: float) -> None:
    one = tag.cutting(kerf=kerf)[0].sheet
    false = replace(one, drawing=changed(one.drawing, *CHANGES[change]))
    if change == "an outline moved" and kerf:
        return  # Within what a pointed corner of a kerf may take.
    assert faults_in_sheet(false, tag.placed, list(tag.pieces))


def test_a_kerf_on_the_wrong_side_is_found_out(tag: face.PlacedPattern) -> None:
    plain, wide = (tag.cutting(kerf=kerf)[0].sheet for kerf in (0.0, 0.4))
    move = wide.laid[0].move - plain.laid[0].move
    for layer in ("cut", "inner-cut", "punch"):
        (marks,) = (group.marks for group in plain.drawing.groups if group.name == layer)
        false = changed(wide.drawing, layer, lambda old, kept=marks: tuple(mark.moved(move) for mark in kept))
        assert faults_in_sheet(replace(wide, drawing=false), tag.placed, list(tag.pieces)), layer


def test_a_piece_too_few_is_found_out(tag: face.PlacedPattern) -> None:
    strips = tag.cutting()[1].sheet
    fewer = replace(strips, laid=strips.laid[:1])
    (told, *_) = faults_in_sheet(fewer, tag.placed, list(tag.pieces))
    assert str(told) == "strip: how often it is there as drawn is 2 as drafted and 1 in the file"


def test_a_line_beyond_the_sheet_is_found_out(tag: face.PlacedPattern) -> None:
    strips = tag.cutting()[1].sheet
    small = replace(strips, drawing=replace(strips.drawing, width=50.0))
    assert any(fault.written == "beyond it" for fault in faults_in_sheet(small, tag.placed, list(tag.pieces)))


def test_a_page_of_other_size_is_found_out(sheet: MachineSheet) -> None:
    false = replace(sheet.drawing, width=sheet.drawing.width + 1)
    assert faults_in_layers_pdf(to_pdf([false]), sheet.drawing)
    two = [sheet.drawing, replace(sheet.drawing, groups=(Group("layer", "cut", ()),))]
    assert [fault.written for fault in faults_in_layers_pdf(to_pdf(two), sheet.drawing)] == ["2"]


# Templates


@pytest.mark.parametrize("mirrored", [False, True])
def test_a_template_without_a_pin_or_an_opening_is_found_out(tag: face.PlacedPattern, mirrored: bool) -> None:
    template = tag.templates(["tag"], mirrored=mirrored)[-1].template
    assert template and template.is_turned == mirrored
    assert faults_in_template(template, tag.placed) == []
    for layer in ("punch", "inner-cut", "cut"):
        drawing = changed(template.sheet.drawing, layer, lambda marks: marks[1:])
        false = replace(template, sheet=replace(template.sheet, drawing=drawing))
        assert faults_in_template(false, tag.placed), layer
    other = replace(template, is_turned=not mirrored)
    assert faults_in_template(other, tag.placed)


@pytest.mark.parametrize(
    "way",
    [
        circle(Point(40.0, 30.0), 1.5),
        circle(Point(40.0, 30.0), 1.515),
        circle(Point(40.012, 30.0), 1.5),
        circle(Point(40.0, 29.985), 1.5),
        box(Point(40.0, 30.0), 3.0, 3.0),
    ],
)
def test_a_hole_is_true_only_in_its_place_and_size(way: Ring) -> None:
    """As the eight places on a circle are read, from a square as well as from a circle."""
    drafted = circle(Point(40.0, 30.0), 1.5)
    spots = [(point.x, point.y) for point in (way.point_at(way.length * part / 8) for part in range(8))]
    bounds = way.bounds
    read = Measures(
        way.length,
        way.area,
        (bounds.min_x, bounds.min_y, bounds.max_x, bounds.max_y),
        np.array(spots),
    )
    assert (list(compare("the hole", drafted, read)) == []) == (way == drafted)
    open_one = replace(read, area=None)
    assert "whether it is closed" in str(list(compare("the hole", drafted, open_one)))
