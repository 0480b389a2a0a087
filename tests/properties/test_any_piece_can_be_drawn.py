"""Whatever the piece, its sheet is legible, in standard lines, and true when read back."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings

from drafting.drawing import Drawing, collisions, overview, piece_sheet
from drafting.drawing.lettering import HEIGHTS
from drafting.output.svg import to_svg
from drafting.proof import check_svg
from drafting.solve.placed import Placed
from tests.drawing.random_pieces import patterns

SLOW = settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
WIDTHS = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)


def drawings(pattern: Placed) -> list[tuple[str | None, Drawing]]:
    return [(None, overview(pattern)), *((name, piece_sheet(pattern, name)) for name in pattern.pieces)]


@SLOW
@given(patterns())
def test_no_words_lie_on_anything(pattern: Placed) -> None:
    for _, drawing in drawings(pattern):
        assert collisions(drawing) == []


@SLOW
@given(patterns())
def test_lines_and_letters_are_of_the_standard_series(pattern: Placed) -> None:
    for _, drawing in drawings(pattern):
        assert {stroke.kind.width for stroke in drawing.strokes} <= set(WIDTHS)
        own = [
            lettering
            for lettering in drawing.letterings
            if lettering.use != "label" or lettering.height == 1.8
        ]
        assert {lettering.height for lettering in own} <= set(HEIGHTS)


@SLOW
@given(patterns())
def test_what_is_written_reads_back_true(pattern: Placed) -> None:
    for name, drawing in drawings(pattern):
        assert check_svg(to_svg(drawing), pattern, name) == []
