"""Whether the holes of stacked pieces meet.

Takes the holes of two lines, on one sheet or folded onto each other over a line, and measures for each hole how far the
nearest hole of the other line is. Holes that meet within 0.1 mm are one for the awl. The answer is the same whichever
line is named first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from statistics import median
from typing import Any

from drafting.craft.faults import CraftFault
from drafting.geometry.cells import Cells
from drafting.geometry.maths import NotOneNumber, first_least
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass
from drafting.solve.amounts import mm, place
from drafting.text.catalogue import craft as says

HOLES_MEET = 0.1
"""Holes of stacked pieces that lie this near are one (the project's own limit: the width of a pricked line)."""


@dataclass(frozen=True)
class Meeting:
    """How the holes of two lines lie on each other. `alone` are the holes without a partner, of either line."""

    worst: float
    at: Point
    alone: tuple[Point, ...]

    @property
    def is_sound(self) -> bool:
        return not self.alone


class HolesApart(CraftFault):
    """Holes that should meet and do not."""

    entry = says.HOLES_APART

    def __init__(self, first: str, second: str, meeting: Meeting) -> None:
        super().__init__(
            first=first,
            second=second,
            count=str(len(meeting.alone)),
            worst=mm(meeting.worst),
            place=place(meeting.at),
        )
        self.first, self.second, self.meeting = first, second, meeting


def holes_meet(
    first: Sequence[Point],
    second: Sequence[Point],
    fold: tuple[Point, Point] | None = None,
    within: float = HOLES_MEET,
    second_is_part: bool = False,
) -> Meeting:
    """Measure two lines of holes; `fold` lays the second one over by the mirror line through two points.

    With `second_is_part` the second is pricked through from the first and may have fewer holes.
    """
    over = list(second) if fold is None else [point.mirrored(*fold) for point in second]
    found = _distances(over, first)
    if not second_is_part:
        found += _distances(first, over)
    worst, at = first_least(found, lambda one: -one[0], lambda one: -one[1].x, lambda one: -one[1].y)
    alone = tuple(point for distance, point in found if distance > within)
    return Meeting(worst, at, alone)


def expect_holes_meet(names: tuple[str, str], meeting: Meeting) -> None:
    if not meeting.is_sound:
        raise HolesApart(*names, meeting)


def _distances(holes: Sequence[Point], others: Sequence[Point]) -> list[tuple[float, Point]]:
    """For each hole the distance to the nearest of the others, and where it is."""
    try:
        near = _Near(others)
        return [(near.distance(hole), hole) for hole in holes]
    except NotOneNumber:
        from drafting.geometry.varied import nearest_distances

        distances: Any = nearest_distances(holes, others)
        return list(zip(distances, holes, strict=True))


FARTHEST_CELL = 4
"""How many cells away a nearest hole is looked for before all are tried."""


class _Near:
    """Holes sorted into square cells, about as wide as they stand apart."""

    def __init__(self, holes: Sequence[Point]) -> None:
        self.holes = holes
        steps = [float(a.distance_to(b)) for a, b in pairwise(holes)]
        self.cells: Cells[Point] = Cells(max(median(steps), SAME_POINT) if steps else 1.0)
        for hole in holes:
            self.cells.put(hole, hole)

    def distance(self, point: Point) -> float:
        column, row = self.cells.cell_of(point)
        best = float("inf")
        for reach in range(FARTHEST_CELL + 1):
            for hole in self._ring(column, row, reach):
                best = min(best, point.distance_to(hole))
            if best <= reach * self.cells.width:
                return best
        return min(point.distance_to(hole) for hole in self.holes)

    def _ring(self, column: int, row: int, reach: int) -> Iterator[Point]:
        """The holes of the cells just so many away."""
        for dx in range(-reach, reach + 1):
            for dy in range(-reach, reach + 1) if abs(dx) == reach else (-reach, reach):
                yield from self.cells.at(column + dx, row + dy)
