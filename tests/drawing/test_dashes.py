"""A dashed box has a dash at each corner, and no more dashes and gaps than any printer takes."""

from __future__ import annotations

from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing.dashes import fitted_dashes
from drafting.drawing.lines import CREASE, MARKING, SYMMETRY
from drafting.geometry.curves import box, circle
from drafting.geometry.line import Line
from drafting.geometry.path import Path
from drafting.geometry.point import Point

MOST_ELEMENTS = 11
"""PostScript Language Reference, 3rd edition, table B.1: elements of an array of dashes."""


def is_inked(dashes: tuple[float, ...], start: float, place: float) -> bool:
    """Whether there is a dash so far along a line."""
    left = (place + start) % sum(dashes)
    index = next(index for index, end in enumerate(accumulate(dashes)) if left <= end + 1e-9)
    return index % 2 == 0


def corners(wide: float, high: float) -> list[float]:
    return [0.0, wide, wide + high, 2 * wide + high]


@given(st.floats(0.5, 400), st.floats(0.5, 400))
def test_dashes_are_few_and_as_long_as_the_box(wide: float, high: float) -> None:
    dashes, start = fitted_dashes(MARKING.dashes, box(Point(0, 0), wide, high))
    assert len(dashes) <= MOST_ELEMENTS and len(dashes) % 2 == 0
    assert all(one > 0 for one in dashes) and 0 < start <= dashes[0]
    if len(dashes) > 2:
        assert sum(dashes) == pytest.approx(wide + high)


@given(st.floats(1, 18), st.floats(1, 18))
def test_a_small_box_has_a_dash_on_both_sides_of_each_corner(wide: float, high: float) -> None:
    dashes, start = fitted_dashes(MARKING.dashes, box(Point(0, 0), wide, high))
    near = 0.9 * start
    around = [place + side for place in corners(wide, high) for side in (-near, near)]
    assert all(is_inked(dashes, start, place % (2 * (wide + high))) for place in around)


@pytest.mark.parametrize(("wide", "high"), [(40, 12), (85.6, 53.98), (181, 250), (60, 60), (73, 31)])
def test_the_corners_of_a_large_box_are_drawn(wide: float, high: float) -> None:
    dashes, start = fitted_dashes(MARKING.dashes, box(Point(0, 0), wide, high))
    assert all(is_inked(dashes, start, place) for place in corners(wide, high))


def test_other_lines_keep_their_dashes() -> None:
    assert fitted_dashes(SYMMETRY.dashes, box(Point(0, 0), 30, 20)) == (SYMMETRY.dashes, 0.0)
    assert fitted_dashes(CREASE.dashes, circle(Point(0, 0), 30)) == (CREASE.dashes, 0.0)
    line = Path((Line(Point(0, 0), Point(30, 0)),))
    assert fitted_dashes(CREASE.dashes, line) == (CREASE.dashes, 0.0)
    assert fitted_dashes((), box(Point(0, 0), 30, 20)) == ((), 0.0)
