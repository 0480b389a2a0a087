"""Where a line must have a hole: its ends, its corners, and the places a maker names.

In come a path or a ring and what the maker said of corners, of `hole at` points and of the start; out come the
stretches between, each to be stitched evenly. A named point need not lie on the line: the hole stands at the place of
the line nearest to it, since a seam is named by points of the edge it runs along.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from drafting.craft.faults import NeedsStart, NoOnePlace
from drafting.geometry.arc import Arc
from drafting.geometry.maths import plain_number, radians
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_DIRECTION, SAME_POINT
from drafting.records import dataclass

CORNER_TURN = radians(30)
"""A line that turns by this much or more has a corner, and a hole on it (the language's own rule)."""

Corners = Literal["hole", "round"]
"""A hole on every corner, or holes that flow round the corners as if there were none."""


@dataclass(frozen=True)
class Span:
    """A part of a line to be stitched evenly. On a ring `end` may lie past the ring's length, never before `start`."""

    start: float
    end: float

    @property
    def length(self) -> float:
        return self.end - self.start


def place_nearest(line: Path | Ring, point: Point) -> float:
    """The place of a line nearest to a point; of an arc round the point its middle, such as that beyond the end of a
    slit which the line goes round. A point that several other places are as near to has none."""
    place, found = line.nearest(point)
    least = found.distance_to(point)
    caps = [leg for leg in line.legs if isinstance(leg, Arc) and _goes_round(leg, point, least)]
    if len(caps) > 1:
        raise NoOnePlace(point)
    for leg in line.legs:
        there = leg.point_at(leg.nearest(point))
        off = caps[0].distance_to_point(there) if caps else there.distance_to(found)
        if there.distance_to(point) <= least + SAME_POINT and off > _one_place(least):
            raise NoOnePlace(point)
    if caps:
        place, _ = line.nearest(caps[0].point_at(caps[0].length / 2))
    return 0.0 if isinstance(line, Ring) and line.length - place <= SAME_POINT else place


def _goes_round(arc: Arc, point: Point, least: float) -> bool:
    return arc.center.distance_to(point) <= SAME_POINT and arc.radius <= least + SAME_POINT


def _one_place(distance: float) -> float:
    """How far apart two places can seem that are as near within SAME_POINT: the rounder the line, the farther."""
    return plain_number((8 * SAME_POINT * max(distance, SAME_POINT)) ** 0.5) + SAME_POINT


def corner_places(line: Path | Ring, least_turn: float = CORNER_TURN) -> list[float]:
    """Where a line turns by at least so much."""
    turns = zip(line.corner_places, line.turns, strict=True)
    return [place for place, turn in turns if abs(turn) >= least_turn - SAME_DIRECTION]


def spans_of(
    line: Path | Ring,
    corners: Corners = "hole",
    least_turn: float = CORNER_TURN,
    held: Sequence[Point] = (),
    start: Point | None = None,
) -> tuple[Span, ...]:
    """The stretches of a line in the order it is walked; those of a ring from `start`, else from its first stop."""
    stops = corner_places(line, least_turn) if corners == "hole" else []
    stops += [place_nearest(line, point) for point in held]
    if isinstance(line, Path):
        return _between(_each_once([0.0, *stops, line.length]))
    first = None if start is None else place_nearest(line, start)
    return _round(line, stops, first)


def _round(ring: Ring, stops: list[float], first: float | None) -> tuple[Span, ...]:
    if first is None and not stops:
        raise NeedsStart()
    begin = min(stops) if first is None else first
    onward = [
        begin + ahead
        for stop in stops
        if SAME_POINT < (ahead := ring.within(stop - begin)) < ring.length - SAME_POINT
    ]
    return _between(_each_once([begin, *onward, begin + ring.length]))


def _each_once(places: list[float]) -> list[float]:
    """In order, those that are one place once; the last of all is kept as it is."""
    kept: list[float] = []
    for place in sorted(places):
        if not kept or place - kept[-1] > SAME_POINT:
            kept.append(place)
    kept[-1] = max(places)
    return kept


def _between(places: list[float]) -> tuple[Span, ...]:
    return tuple(Span(a, b) for a, b in pairwise(places))
