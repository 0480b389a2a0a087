"""Every starter in every size, on both families of paper and in all formats: what is written measures as drafted."""

from __future__ import annotations

from functools import cache

import pytest

from drafting import face
from drafting.drawing.machine import LAYERS
from drafting.drawing.machine.templates import ways_of
from drafting.face import PlacedPattern
from drafting.output.dxf import to_dxf
from drafting.output.dxf_frame import RELEASES
from drafting.output.layers_svg import layers_to_svg
from drafting.proof.booklet import check_page, check_pages
from drafting.proof.machine import faults_in_dxf, faults_in_layers_pdf, faults_in_layers_svg
from drafting.proof.machine_sheet import faults_in_sheet, faults_in_template
from drafting.proof.pdf import check_pdf
from tests.patterns.starters import PATTERNS, STARTERS, starter_path

PAPERS = ("a4", "letter")
KERFS = (0.0, 0.1, 0.3)


@cache
def loaded(name: str) -> face.Pattern:
    return face.load(starter_path(name), PATTERNS / "blocks")


@cache
def placed(name: str, size: str | None) -> PlacedPattern:
    return loaded(name).place(size)


SIZES = [(name, size) for name in STARTERS for size in loaded(name).sizes or (None,)]
IN_EVERY_SIZE = pytest.mark.parametrize(("name", "size"), SIZES)


@IN_EVERY_SIZE
def test_it_can_be_printed(name: str, size: str | None) -> None:
    one = placed(name, size)
    for paper in PAPERS:
        prints = one.prints(paper)
        assert check_pdf(prints.to_pdf(), one.placed, prints.sheets, 1.0, prints.times) == []


@IN_EVERY_SIZE
def test_it_is_cut_by_a_machine(name: str, size: str | None) -> None:
    """Each with one of three kerfs, in SVG and in both releases of DXF."""
    one = placed(name, size)
    kerf = KERFS[SIZES.index((name, size)) % len(KERFS)]
    for found in one.cutting(kerf=kerf, cutter="blade", labels=True):
        drawing = found.sheet.drawing
        assert faults_in_sheet(found.sheet, one.placed, list(one.pieces)) == []
        assert faults_in_layers_svg(layers_to_svg(drawing, LAYERS), drawing) == []
        for release in RELEASES:
            assert faults_in_dxf(to_dxf(drawing, LAYERS, release), drawing) == []


@IN_EVERY_SIZE
def test_it_has_templates(name: str, size: str | None) -> None:
    """In all three formats, an awl slot along every line that can have one."""
    one = placed(name, size)
    lines = {feature.name for piece in one.pieces.values() for feature in piece.features if ways_of(feature)}
    for found in one.templates(mirrored=True, awl_slots=sorted(lines)):
        drawing = found.sheet.drawing
        assert found.template and faults_in_template(found.template, one.placed) == []
        assert faults_in_layers_svg(found.to_svg(), drawing) == []
        assert faults_in_dxf(found.to_dxf(), drawing) == []
        assert faults_in_layers_pdf(found.to_pdf(), drawing) == []


@IN_EVERY_SIZE
def test_it_has_a_booklet(name: str, size: str | None) -> None:
    """On both papers and as a page."""
    one = placed(name, size)
    for paper in PAPERS:
        book = one.booklet(paper)
        assert check_pages(book.to_pdf(), one.placed, book.booklet) == []
    assert check_page(book.to_html().encode(), one.placed, book.booklet) == []


def test_the_largest_print_is_tiled_over_more_than_twenty_sheets() -> None:
    for paper in PAPERS:
        assert len(placed("tool-roll", "pipe mandrels").prints(paper).sheets) >= 20
