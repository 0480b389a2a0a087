"""Whether the holes of stacked pieces meet.

Takes the holes of two lines, on one sheet or folded onto each other over a line, and measures for each hole how far the
nearest hole of the other line is. Holes that meet within 0.1 mm are one for the awl. The answer is the same whichever
line is named first.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.craft.faults import CraftFault
from drafting.geometry.point import Point
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
    worst, at = max(found, key=lambda one: (one[0], one[1].x, one[1].y))
    alone = tuple(point for distance, point in found if distance > within)
    return Meeting(worst, at, alone)


def expect_holes_meet(names: tuple[str, str], meeting: Meeting) -> None:
    if not meeting.is_sound:
        raise HolesApart(*names, meeting)


def _distances(holes: Sequence[Point], others: Sequence[Point]) -> list[tuple[float, Point]]:
    """For each hole the distance to the nearest of the others, and where it is."""
    ordered = sorted(others, key=lambda point: (point.x, point.y))
    columns = [point.x for point in ordered]
    return [(_nearest(hole, ordered, columns), hole) for hole in holes]


def _nearest(hole: Point, ordered: Sequence[Point], columns: Sequence[float]) -> float:
    """Looked for from the hole's own column outward, as far as a nearer one can still lie."""
    middle = bisect_left(columns, hole.x)
    best = float("inf")
    for indices in (range(middle, len(ordered)), range(middle - 1, -1, -1)):
        for index in indices:
            if abs(columns[index] - hole.x) >= best:
                break
            best = min(best, hole.distance_to(ordered[index]))
    return best
