"""A slit as it is cut: lines for the knife and round holes at its ends and corners.

Takes the slit as a path, the size of its end holes and what its corners are; returns the cuts, each from edge to edge
of the holes it runs between, and the holes. A cut that ends in a round hole does not tear on. A slit that ends on a
mirror line goes on into its twin and has no hole there: that end is not free.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from drafting.craft.faults import CraftFault, expect_positive
from drafting.craft.places import corner_places
from drafting.craft.stepping import leaves_circle
from drafting.geometry.corners import round_corners
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT, SMOOTH
from drafting.records import dataclass
from drafting.solve.amounts import mm, place
from drafting.text.catalogue import craft as says


@dataclass(frozen=True)
class RoundHole:
    """A hole punched at an end or a corner of a slit."""

    center: Point
    across: float


@dataclass(frozen=True)
class SlitRequest:
    """What a maker says of a slit: end holes and corner holes by their size across, or corners rounded."""

    end_holes: float = 0.0
    corner_holes: float = 0.0
    rounded: float = 0.0
    start_is_free: bool = True
    end_is_free: bool = True


@dataclass(frozen=True)
class Slit:
    """`whole` is the slit with its corners as they are made, end to end; `cuts` are what the knife does.

    `bare_ends` are the free ends where the cut stops in the leather without a hole.
    """

    whole: Path
    cuts: tuple[Path, ...]
    holes: tuple[RoundHole, ...]
    bare_ends: tuple[Point, ...] = ()


class SlitTooShort(CraftFault):
    """A leg of a slit that its two holes take up whole."""

    entry = says.SLIT_TOO_SHORT

    def __init__(self, near: Point, length: float, needs: float) -> None:
        super().__init__(place=place(near), length=mm(length), needs=mm(needs))
        self.near, self.length, self.needs = near, length, needs


class SlitCloses(CraftFault):
    """A slit that meets itself: what it goes round falls out."""

    entry = says.SLIT_CLOSES


@dataclass(frozen=True)
class _Stop:
    """A place where a cut begins or ends, and the size of the hole there; 0 for none."""

    place: float
    across: float


def cut_slit(path: Path, request: SlitRequest) -> Slit:
    """The cuts and the holes of a slit."""
    if path.start.distance_to(path.end) <= SAME_POINT or path.self_intersections():
        raise SlitCloses()
    whole = round_corners(path, request.rounded) if request.rounded > 0 else path
    stops = _stops(whole, request)
    parts = [_part(whole, a, b) for a, b in pairwise(stops)]
    holes = tuple(RoundHole(whole.point_at(stop.place), stop.across) for stop in stops if stop.across > 0)
    return Slit(whole, tuple(parts), holes, tuple(_bare_ends(whole, request)))


def _bare_ends(whole: Path, request: SlitRequest) -> Iterator[Point]:
    if request.end_holes > 0:
        return
    if request.start_is_free:
        yield whole.start
    if request.end_is_free:
        yield whole.end


def _stops(whole: Path, request: SlitRequest) -> list[_Stop]:
    at_start = request.end_holes if request.start_is_free else 0.0
    at_end = request.end_holes if request.end_is_free else 0.0
    corners = corner_places(whole, SMOOTH) if request.corner_holes > 0 else []
    middle = [_Stop(corner, request.corner_holes) for corner in corners]
    return [_Stop(0.0, at_start), *middle, _Stop(whole.length, at_end)]


def _part(whole: Path, first: _Stop, second: _Stop) -> Path:
    """The cut between two stops, from the edge of the one hole to the edge of the other."""
    part = whole.part(first.place, second.place)
    begin = edge_of_hole(part, first.across / 2)
    finish = edge_of_hole(part.reversed(), second.across / 2)
    if begin is None or finish is None or begin + finish >= part.length - SAME_POINT:
        raise SlitTooShort(part.midpoint, part.length, (first.across + second.across) / 2)
    return part.part(begin, part.length - finish)


def edge_of_hole(path: Path, radius: float) -> float | None:
    """How far along a path leaves a circle round its start; None when it never does."""
    if radius == 0:
        return 0.0
    expect_positive(hole=radius)
    for start, leg in zip(path.starts, path.legs, strict=False):
        along = leaves_circle(leg, path.start, radius)
        if along is not None:
            return start + along
    return None
