"""Rows of holes along a line: a number of them so far apart, in the middle or from an end.

Takes a path and a RowRequest; returns the holes' places in the order the line is walked. Distances are measured along
the line. A row that is longer than its line is refused with the number that fits.
"""

from __future__ import annotations

from typing import Literal

from drafting.craft.faults import CraftFault, counted, expect_not_negative, expect_positive
from drafting.craft.stepping import WHOLE
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass
from drafting.solve.amounts import mm
from drafting.text.catalogue import craft as says

From = Literal["middle", "start", "end"]


@dataclass(frozen=True)
class RowRequest:
    """So many holes, so far apart; `first` is how far the first one is from the end that the row is placed by."""

    count: int
    apart: float
    placed: From = "middle"
    first: float = 0.0


class RowTooLong(CraftFault):
    """A row that its line does not hold. `fits` is how many holes it does hold."""

    entry = says.ROW_TOO_LONG

    def __init__(self, needs: float, length: float, fits: int, apart: float) -> None:
        super().__init__(needs=mm(needs), length=mm(length), fits=counted(fits, "hole"), apart=mm(apart))
        self.needs, self.length, self.fits = needs, length, fits


class EmptyRow(CraftFault):
    """A row without a hole."""

    entry = says.EMPTY_ROW


def row_along(line: Path, request: RowRequest) -> tuple[Point, ...]:
    """The middles of the holes."""
    if request.count < 1:
        raise EmptyRow()
    expect_positive(distance_of_holes=request.apart)
    expect_not_negative(distance_of_the_first_hole=request.first)
    extent = (request.count - 1) * request.apart
    begin = _begin(line.length, extent, request)
    if begin < -SAME_POINT or begin + extent > line.length + SAME_POINT:
        room = line.length - (0.0 if request.placed == "middle" else request.first)
        fits = int(room / request.apart + WHOLE) + 1 if room >= 0 else 0
        raise RowTooLong(extent + request.first, line.length, fits, request.apart)
    places = (begin + number * request.apart for number in range(request.count))
    return tuple(line.point_at(line.within(place)) for place in places)


def _begin(length: float, extent: float, request: RowRequest) -> float:
    match request.placed:
        case "middle":
            return (length - extent) / 2
        case "start":
            return request.first
        case "end":
            return length - request.first - extent
