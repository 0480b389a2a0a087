"""Whatever the piece, a file for a machine holds all of it once; whatever the words, each letter is engraved or named."""

from __future__ import annotations

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from drafting.drawing.lettering import plain_text
from drafting.drawing.machine import LAYERS, KerfFault, Wanted, cut_sheets, templates_of
from drafting.drawing.stroke_letters import missing_letters, stroke_text, stroke_width
from drafting.output.dxf import to_dxf
from drafting.output.dxf_frame import RELEASES, Release
from drafting.output.layers_svg import layers_to_svg
from drafting.proof.machine import faults_in_dxf, faults_in_layers_svg
from drafting.proof.machine_sheet import faults_in_sheet, faults_in_template
from drafting.solve.placed import Placed
from tests.drawing.random_pieces import patterns

FEW = settings(
    max_examples=12,
    phases=[Phase.generate],
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
"""A failing piece is told as it was found: making it smaller would take minutes."""


@FEW
@given(patterns(), st.sampled_from([0.0, 0.2]), st.sampled_from(RELEASES))
def test_any_piece_is_cut_as_it_is(pattern: Placed, kerf: float, release: Release) -> None:
    """Unless the kerf is too wide for a line of it, which is told."""
    names = list(pattern.pieces)
    try:
        sheets = cut_sheets(pattern, names, LAYERS, kerf, ("stamp", "label"))
    except KerfFault as fault:
        assert 0 <= fault.largest <= kerf + 1e-3
        return
    for sheet in sheets:
        assert faults_in_sheet(sheet, pattern, names) == []
        assert faults_in_layers_svg(layers_to_svg(sheet.drawing, LAYERS), sheet.drawing) == []
        assert faults_in_dxf(to_dxf(sheet.drawing, LAYERS, release), sheet.drawing) == []


@FEW
@given(patterns())
def test_any_piece_has_a_template(pattern: Placed) -> None:
    for template in templates_of(pattern, list(pattern.pieces), Wanted(mirrored=True)):
        assert faults_in_template(template, pattern) == []


@given(st.text(max_size=40), st.sampled_from([1.8, 5.0]))
def test_every_letter_is_engraved_or_named(text: str, height: float) -> None:
    """Strokes lie where the words have room; what is missing is among the letters that were asked for."""
    missing = missing_letters(text)
    assert all(letter in plain_text(text) for letter in missing)
    lines = stroke_text(text, height)
    assert stroke_width(text, height) >= 0
    if set(plain_text(text)) - set("".join(missing)) - {" "} and text.isascii():
        assert lines
