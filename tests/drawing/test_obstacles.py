"""What a new line would cross is told as a general-purpose library tells it pair by pair."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.drawing.obstacles import Box, Obstacles, Segment, crossings, line_strings
from drafting.geometry.point import Point

COARSE = st.integers(-3, 3).map(float)
"""Few places: many pieces touch, end on each other or lie on one line."""
SHIFTS = st.sampled_from([0.0, 1 / 3, 0.1, 1e-16, 1e-9])
PIECES = st.tuples(COARSE, COARSE, COARSE, COARSE).filter(lambda piece: piece[:2] != piece[2:])


def shifted(pieces: list[Segment], by: float) -> list[Segment]:
    return [(x + by, y + by / 3, to_x + by, to_y + by / 3) for x, y, to_x, to_y in pieces]


@settings(max_examples=100)
@given(st.lists(PIECES, max_size=8), st.lists(PIECES, max_size=8), SHIFTS, SHIFTS)
def test_crossings_are_those_of_shapely(
    there: list[Segment], lines: list[Segment], off: float, other: float
) -> None:
    held, asked = line_strings(shifted(there, off)), line_strings(shifted(lines, other))
    wanted = [int(np.count_nonzero(shapely.crosses(line, held))) for line in asked]
    assert crossings(shapely.STRtree(held), asked).tolist() == wanted


def test_a_line_past_the_very_end_of_another_does_not_cross_it() -> None:
    """It does by less than the last digit; shapely and a maker see it end there."""
    piece = (9.432354699541722, 72.45473439223667, 18.431457718141864, 88.93613561377397)
    line = (15.359548098451558, 90.61344634481163, 21.50336733783218, 87.25882488273629)
    assert crossings(shapely.STRtree(line_strings([piece])), line_strings([line])).tolist() == [0]


def box(x: float, y: float, wide: float, high: float) -> Box:
    return (Point(x, y), Point(x + wide, y), Point(x + wide, y + high), Point(x, y + high))


@pytest.mark.parametrize("length", [100.0, 1e5, 1e8])
def test_what_is_met_does_not_depend_on_how_long_a_line_is(length: float) -> None:
    there = Obstacles()
    there.add_segment((-length, 0.0, length, 0.0), 0.25)
    there.add_box(box(-length, 20.0, 2 * length, 5.0))
    for words in (there, there.copy()):
        assert words.meets_box(box(length / 2, -3.0, 10.0, 2.9))
        assert not words.meets_box(box(length / 2, -3.0, 10.0, 2.7))
        assert words.box_meets_boxes(box(-length / 2, 24.0, 10.0, 5.0))
        assert not words.box_meets_boxes(box(-length / 2, 26.0, 10.0, 5.0))
        assert words.segment_meets_boxes((0.0, -length, 0.0, length), 0.0)
        assert not words.segment_meets_boxes((-length, 26.0, length, 26.0), 0.5)


@pytest.mark.parametrize("length", [100.0, 1e8])
def test_a_line_of_any_length_finds_what_is_small(length: float) -> None:
    there = Obstacles()
    there.add_segment((3.0, 3.0, 4.0, 3.0), 0.25)
    there.add_box(box(40.0, 40.0, 8.0, 2.0))
    assert there.meets_box(box(-length, 2.0, 2 * length, 0.9))
    assert not there.meets_box(box(-length, 4.0, 2 * length, 0.9))
    assert there.segment_meets_boxes((-length, 41.0, length, 41.0), 0.0)
    assert not there.segment_meets_boxes((-length, 43.0, length, 43.0), 0.5)
