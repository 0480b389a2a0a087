"""Paper is chosen by need, and never smaller than what it has to hold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing import piece_sheet
from drafting.drawing.scales import reductions, scale_words
from drafting.drawing.sheets import own_sheet
from drafting.geometry.curves import box
from drafting.geometry.point import Point
from tests.drawing.samples import piece, placed


@pytest.mark.parametrize(
    ("width", "height", "name"),
    [
        (150, 60, "A4"), (175, 60, "A3"), (355, 130, "A3"), (390, 80, "A4×3"), (780, 60, "A4×4"),
        (160, 160, "A3"), (560, 500, "A1"), (980, 60, "A4×5"), (2000, 40, "2060 × 210 mm"),
    ],
)  # fmt: skip
def test_a_piece_gets_the_least_paper_that_holds_it(width: float, height: float, name: str) -> None:
    plain = placed("plain", [piece("plain", box(Point(0, 0), width, height))])
    drawing = piece_sheet(plain, "plain")
    assert (drawing.sheet, drawing.scale) == (name, 1.0)


@given(st.floats(1, 9000), st.floats(1, 9000))
def test_own_sheet_holds_what_it_is_made_for(width: float, height: float) -> None:
    frame = own_sheet(width, height).frame
    assert frame.width >= width - 1e-6 and frame.height >= height - 1e-6


def test_reductions_are_those_of_the_standard() -> None:
    steps = reductions()
    assert [next(steps) for _ in range(7)] == [1, 2, 5, 10, 20, 50, 100]
    assert (scale_words(1.0), scale_words(1 / 5), scale_words(0.001)) == ("1:1", "1:5", "1:1000")
