"""Paper is chosen by need, and never smaller than what it has to hold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing.scales import reductions, scale_words
from drafting.drawing.sheets import own_sheet, sheets_upward


@pytest.mark.parametrize(
    ("width", "height", "name"),
    [
        (180, 277, "A4"), (181, 100, "A3"), (390, 277, "A3"), (391, 100, "A4×3"), (600, 400, "A3×3"), (600, 401, "A1"),
        (900, 200, "A4×5"), (1159, 821, "A0"), (1160, 400, "1190 × 420 mm"),
    ],
)  # fmt: skip
def test_smallest_sheet(width: float, height: float, name: str) -> None:
    assert next(sheets_upward(width, height)).name == name


@given(st.floats(1, 9000), st.floats(1, 9000))
def test_own_sheet_holds_what_it_is_made_for(width: float, height: float) -> None:
    frame = own_sheet(width, height).frame
    assert frame.width >= width - 1e-6 and frame.height >= height - 1e-6


def test_reductions_are_those_of_the_standard() -> None:
    steps = reductions()
    assert [next(steps) for _ in range(7)] == [1, 2, 5, 10, 20, 50, 100]
    assert (scale_words(1.0), scale_words(1 / 5), scale_words(0.001)) == ("1:1", "1:5", "1:1000")
