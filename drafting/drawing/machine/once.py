"""Nothing twice: of lines that lie on each other, or partly so, a machine runs the first alone.

A line cut twice is burned twice. In come lines in the order of their rank; out comes for each what no earlier one has
covered.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from drafting.geometry.leg import Leg
from drafting.geometry.path import Path, Ring
from drafting.geometry.tolerances import SAME_POINT

PROBES = (0.29, 0.5, 0.77)
"""Where a stretch is asked whether it lies on another line; a line that crosses it is met in one of them at most."""


class Once:
    """Remembers what is run already."""

    def __init__(self) -> None:
        self.legs: list[Leg] = []

    def left_of(self, way: Path | Ring) -> list[Path | Ring]:
        """What of a line is still to be run; it is then remembered."""
        kept = [_left(leg, self._near(leg)) for leg in way.legs]
        self.legs += way.legs
        if all(parts == [leg] for parts, leg in zip(kept, way.legs, strict=True)):
            return [way]
        return list(_runs([part for parts in kept for part in parts]))

    def _near(self, leg: Leg) -> list[Leg]:
        bounds = leg.bounds.grown(SAME_POINT)
        return [other for other in self.legs if bounds.overlaps(other.bounds.grown(SAME_POINT))]


def _left(leg: Leg, others: Sequence[Leg]) -> list[Leg]:
    places = [0.0, leg.length]
    for other in others:
        for end in (other.start, other.end):
            place = leg.nearest(end)
            if leg.point_at(place).distance_to(end) <= SAME_POINT:
                places.append(place)
    stretches = [(a, b) for a, b in pairwise(sorted(places)) if b - a > 2 * SAME_POINT]
    free = [(a, b) for a, b in stretches if not any(_lies_on(leg, a, b, other) for other in others)]
    if len(free) == len(stretches):
        return [leg]
    return [leg.part(a, b) for a, b in free]


def _lies_on(leg: Leg, start: float, end: float, other: Leg) -> bool:
    places = (leg.point_at(start + (end - start) * probe) for probe in PROBES)
    return all(other.distance_to_point(place) <= SAME_POINT for place in places)


def _runs(legs: Sequence[Leg]) -> Iterator[Path]:
    """Legs joined where one ends and the next begins; the last with the first, too."""
    runs: list[list[Leg]] = []
    for leg in legs:
        if runs and runs[-1][-1].end.distance_to(leg.start) <= SAME_POINT:
            runs[-1].append(leg)
        else:
            runs.append([leg])
    if len(runs) > 1 and runs[-1][-1].end.distance_to(runs[0][0].start) <= SAME_POINT:
        runs[0] = [*runs.pop(), *runs[0]]
    yield from (Path(tuple(run)) for run in runs)
