"""Every starter can be cut by a machine: its sheets hold the pattern, and its files hold the sheets."""

from __future__ import annotations

import pytest

from drafting import face
from drafting.drawing.machine import LAYERS
from drafting.drawing.machine.templates import ways_of
from drafting.output.dxf import RELEASES, Release, to_dxf
from drafting.output.layers_svg import layers_to_svg
from drafting.proof.machine import faults_in_dxf, faults_in_layers_pdf, faults_in_layers_svg
from drafting.proof.machine_sheet import faults_in_sheet, faults_in_template
from tests.patterns.starters import PATTERNS, STARTERS, starter_path

KERFS = dict(zip(STARTERS, (0.0, 0.1, 0.3) * len(STARTERS), strict=False))
"""Each is cut with one of three kerfs, and written in one release of DXF."""
RELEASE: dict[str, Release] = dict(zip(STARTERS, RELEASES * len(STARTERS), strict=False))


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_is_cut_by_a_machine(name: str) -> None:
    placed = face.load(starter_path(name), PATTERNS / "blocks").place()
    for one in placed.cutting(kerf=KERFS[name], cutter="blade", labels=True):
        drawing = one.sheet.drawing
        assert faults_in_sheet(one.sheet, placed.placed, list(placed.pieces)) == []
        assert faults_in_layers_svg(layers_to_svg(drawing, LAYERS), drawing) == []
        assert faults_in_dxf(to_dxf(drawing, LAYERS, RELEASE[name]), drawing) == []


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_has_templates(name: str) -> None:
    """In one format each, an awl slot along every line that can have one."""
    placed = face.load(starter_path(name), PATTERNS / "blocks").place()
    lines = {one.name for piece in placed.pieces.values() for one in piece.features if ways_of(one)}
    write, prove = TEMPLATE_FORMATS[STARTERS.index(name) % 3]
    for sheet in placed.templates(mirrored=True, awl_slots=sorted(lines)):
        assert sheet.template and faults_in_template(sheet.template, placed.placed) == []
        assert prove(write(sheet), sheet.sheet.drawing) == []


TEMPLATE_FORMATS = (
    (face.CutSheet.to_svg, faults_in_layers_svg),
    (face.CutSheet.to_dxf, faults_in_dxf),
    (face.CutSheet.to_pdf, faults_in_layers_pdf),
)
