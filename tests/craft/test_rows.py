"""Rows of holes along a line."""

from __future__ import annotations

import pytest

from drafting.craft.faults import NotPositive
from drafting.craft.rows import EmptyRow, RowRequest, RowTooLong, row_along
from drafting.craft.standards import UnknownStitch, YieldRange, hide_needed, stitch_class
from tests.craft.samples import hook, straight


def places(request: RowRequest) -> list[float]:
    return [point.x for point in row_along(straight(100), request)]


def test_a_row_stands_in_the_middle_or_from_either_end() -> None:
    assert places(RowRequest(3, 20)) == pytest.approx([30, 50, 70])
    assert places(RowRequest(3, 20, "start", 5)) == pytest.approx([5, 25, 45])
    assert places(RowRequest(3, 20, "end", 5)) == pytest.approx([55, 75, 95])


def test_a_row_follows_its_line() -> None:
    line = hook()
    for point in row_along(line, RowRequest(9, 15)):
        assert line.distance_to_point(point) < 1e-9


def test_a_row_that_just_fits_reaches_both_ends() -> None:
    assert places(RowRequest(6, 20)) == pytest.approx([0, 20, 40, 60, 80, 100])


@pytest.mark.parametrize(
    ("request_", "fits"),
    [(RowRequest(7, 20), 6), (RowRequest(6, 20, "start", 1), 5), (RowRequest(1, 20, "end", 101), 0)],
)
def test_a_row_longer_than_its_line_tells_how_many_fit(request_: RowRequest, fits: int) -> None:
    with pytest.raises(RowTooLong) as caught:
        row_along(straight(100), request_)
    assert caught.value.fits == fits


def test_rows_of_nothing_are_refused() -> None:
    with pytest.raises(EmptyRow):
        row_along(straight(100), RowRequest(0, 20))
    with pytest.raises(NotPositive):
        row_along(straight(100), RowRequest(3, 0))
    with pytest.raises(NotPositive):
        row_along(straight(100), RowRequest(3, 20, "start", -1))


def test_numbers_outside_the_standards_are_refused() -> None:
    for number in (0, 99, 700, 2010):
        with pytest.raises(UnknownStitch):
            stitch_class(number)
    for part in (0.0, 1.01, -0.5):
        with pytest.raises(YieldRange):
            hide_needed(100, part)
    with pytest.raises(NotPositive):
        hide_needed(0, 0.5)
