"""Offsets: the line that keeps a distance from another.

In comes a ring, a path, or a run of a ring, and a distance in mm; out come lines and arcs, exact, so that
the result may be offset again. At a corner an offset runs on, or is cut, to meet the next leg; legs that
have no room vanish.

The way is to move every leg, join the moved legs where they leave gaps, cut all of them at all their
meetings, and keep the slices that come nowhere nearer than the distance (after X.-Z. Liu, J.-H. Yong, G.-Q.
Zheng, J.-G. Sun, "An offset algorithm for polyline curves", Computers in Industry 58, 2007, named from
memory). Nothing is guessed when an offset falls apart or vanishes: it is refused, with the place and the
largest distance that holds together.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Generic, TypeVar

from drafting.geometry.band import Band, strip_between
from drafting.geometry.chains import join_slices
from drafting.geometry.faults import NotPositive, OffsetBreaksUp
from drafting.geometry.largest import largest_that_fits
from drafting.geometry.leg import Leg
from drafting.geometry.moved_legs import Joins, moved_legs
from drafting.geometry.nearness import narrowest_place
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.run_ends import RunEnd
from drafting.geometry.slices import slices_at_distance
from drafting.geometry.tolerances import LARGEST_FIT, SAME_POINT
from drafting.records import dataclass

Made = TypeVar("Made", Path, Ring)


@dataclass(frozen=True)
class _Attempt(Generic[Made]):
    """What came of an offset: the one line it should be, or None, and the rings and chains there were
    instead.
    """

    line: Made | None
    parts: tuple[Path | Ring, ...] = ()


def offset_ring(ring: Ring, distance: float, joins: Joins = "mitred") -> Ring:
    """The ring a distance outside another, or inside when negative, walked the same way round.

    Corners that open on that side run on to a point, or are rounded about the corner with `joins="rounded"`.
    """
    if distance == 0:
        return ring
    sign = 1.0 if distance > 0 else -1.0
    return _whole(lambda size: _try_ring(ring, sign * size, joins), abs(distance), ring)


def offset_path(path: Path, distance: float, joins: Joins = "mitred") -> Path:
    """The line a distance to the left of an open path, to its right when negative; it ends square across."""
    if distance == 0:
        return path
    sign = 1.0 if distance > 0 else -1.0
    return _whole(lambda size: _try_path(path, sign * size, joins), abs(distance), path)


def offset_along(ring: Ring, s0: float, s1: float, distance: float, inside: bool) -> Path:
    """A part of a ring, from s0 forward to s1, moved inside or outside.

    Where the part ends at a corner of the ring the offset runs on, or is cut, to where that of the next leg
    is; elsewhere it ends square across.
    """
    if not distance > 0:
        raise NotPositive("distance", distance)
    sign = 1.0 if inside == ring.is_anticlockwise else -1.0
    return _whole(lambda size: _try_along(ring, s0, s1, sign * size), distance, ring.part(s0, s1))


def band(ring: Ring, s0: float, s1: float, distance: float, inside: bool) -> Band:
    """The strip along a ring from s0 forward to s1, a distance wide, inside or outside the ring."""
    return strip_between(ring.part(s0, s1), offset_along(ring, s0, s1, distance, inside))


def round_path(path: Path, distance: float) -> Ring:
    """The ring all round an open path at a distance, anticlockwise, with round ends and round corners."""
    if not distance > 0:
        raise NotPositive("distance", distance)
    return _whole(lambda size: _try_round(path, size), distance, path)


def _whole(attempt: Callable[[float], _Attempt[Made]], asked: float, source: Path | Ring) -> Made:
    """The line an attempt gives, or the fault that says where it breaks and up to what distance it holds."""
    tried = attempt(asked)
    if tried.line is not None:
        return tried.line
    largest = largest_that_fits(lambda size: attempt(size).line is not None, asked, LARGEST_FIT)
    if largest is None:
        raise OffsetBreaksUp(source.midpoint, asked, 0.0, not tried.parts)
    place = _breaking_place(attempt(largest).line, attempt(largest + LARGEST_FIT).parts)
    raise OffsetBreaksUp(place or source.midpoint, asked, largest, not tried.parts)


def _breaking_place(whole: Path | Ring | None, parts: Sequence[Path | Ring]) -> Point | None:
    """Where the last line that held together is narrowest, or its middle when it vanishes all at once."""
    narrow = narrowest_place(whole) if whole is not None and parts else None
    if narrow is not None:
        return narrow
    if isinstance(whole, Ring):
        return whole.centroid
    return None if whole is None else whole.midpoint


def _try_ring(ring: Ring, outward: float, joins: Joins) -> _Attempt[Ring]:
    to_left = -outward if ring.is_anticlockwise else outward
    moved = moved_legs(ring.legs, to_left, joins, is_closed=True)
    found = join_slices(slices_at_distance(moved, ring.legs, abs(outward))).rings
    rings = tuple(one for one in found if ring.contains_strictly(one.start) == (outward < 0))
    if len(rings) == 1 and rings[0].is_anticlockwise == ring.is_anticlockwise:
        return _Attempt(rings[0], rings)
    return _Attempt(None, rings)


def _try_path(path: Path, to_left: float, joins: Joins) -> _Attempt[Path]:
    start, end = RunEnd(path.legs[0].reversed(), None, -to_left), RunEnd(path.legs[-1], None, to_left)
    return _try_open(path.legs, to_left, joins, start, end)


def _try_along(ring: Ring, s0: float, s1: float, to_left: float) -> _Attempt[Path]:
    run = ring.part(s0, s1)
    if run.start.distance_to(run.end) <= SAME_POINT:
        return _try_all_round(ring, run, to_left)
    start = RunEnd(run.legs[0].reversed(), _leg_before(ring, s0).reversed(), -to_left)
    end = RunEnd(run.legs[-1], _leg_after(ring, s1), to_left)
    return _try_open(run.legs, to_left, "mitred", start, end)


def _leg_before(ring: Ring, s: float) -> Leg:
    """The leg of a ring that leads to a place, as far as there; a place a hair past a corner is that corner."""
    index, along = ring.leg_before(s)
    if along <= SAME_POINT:
        return ring.legs[index - 1]
    leg = ring.legs[index]
    return leg if leg.length - along <= SAME_POINT else leg.part(0.0, along)


def _leg_after(ring: Ring, s: float) -> Leg:
    """The leg of a ring that leads on from a place, from there; a place a hair before a corner is that corner."""
    index, along = ring.leg_at(s)
    leg = ring.legs[index]
    if leg.length - along <= SAME_POINT:
        return ring.legs[(index + 1) % len(ring.legs)]
    return leg if along <= SAME_POINT else leg.part(along, leg.length)


def _try_all_round(ring: Ring, run: Path, to_left: float) -> _Attempt[Path]:
    """The whole ring moved, opened where the run starts."""
    outward = -to_left if ring.is_anticlockwise else to_left
    tried = _try_ring(ring, outward, "mitred")
    if tried.line is None:
        return _Attempt(None, tried.parts)
    at_start = RunEnd(run.legs[-1], run.legs[0], to_left).meeting_place()
    place, _ = tried.line.nearest(at_start)
    return _Attempt(tried.line.part(place, place))


def _try_open(
    legs: Sequence[Leg], to_left: float, joins: Joins, start: RunEnd, end: RunEnd
) -> _Attempt[Path]:
    """Legs that follow on each other moved to their left, then finished at both ends.

    The line may come too near to the legs round their ends or from their other side, so it is cut there as well.
    """
    moved = moved_legs(legs, to_left, joins, is_closed=False)
    other_side = moved_legs(legs, -to_left, "rounded", is_closed=False).legs
    cutters = (*start.cutters(), *end.cutters(), *other_side)
    joined = join_slices(slices_at_distance(moved, legs, abs(to_left), cutters))
    if len(joined.chains) != 1 or joined.rings:
        return _Attempt(None, (*joined.chains, *joined.rings))
    from_start = end.finish(joined.chains[0])
    both = start.finish(from_start.reversed()) if from_start else None
    if both is None or both.self_intersections():
        return _Attempt(None, ())
    return _Attempt(both.reversed())


def _try_round(path: Path, distance: float) -> _Attempt[Ring]:
    there_and_back = (*path.legs, *path.reversed().legs)
    moved = moved_legs(there_and_back, -distance, "rounded", is_closed=True)
    rings = join_slices(slices_at_distance(moved, path.legs, distance)).rings
    if len(rings) == 1 and rings[0].is_anticlockwise:
        return _Attempt(rings[0], rings)
    return _Attempt(None, rings)
