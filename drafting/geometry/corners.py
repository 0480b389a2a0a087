"""Rounded and clipped corners.

A fillet touches both legs: its center is as far as its radius from both, on the side the corner turns to. Of
all circles that do, the one that takes least off the legs is meant. Legs are lines or arcs in any mixture;
what is left of them is returned with the new leg, None where a leg is used up.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import pi
from typing import TypeVar

from drafting.geometry.arc import Arc
from drafting.geometry.faults import CornersMeet, DoesNotFit, GeometryFault, NoCorner, NotPositive, ZeroLength
from drafting.geometry.intersect import carrier_meetings
from drafting.geometry.largest import largest_that_fits
from drafting.geometry.leg import Leg, turn_between
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import FULL_TURN, SAME_POINT, SMOOTH
from drafting.records import dataclass

Way = TypeVar("Way", Path, Ring)


@dataclass(frozen=True)
class Fillet:
    """A rounded corner: what is left of the leg before, the arc, what is left of the leg after."""

    before: Leg | None
    arc: Arc
    after: Leg | None

    @property
    def new_leg(self) -> Leg:
        return self.arc


@dataclass(frozen=True)
class Clip:
    """A corner cut off: the leg before, the line of the cut, the leg after, as far as they are left."""

    before: Leg | None
    line: Line
    after: Leg | None

    @property
    def new_leg(self) -> Leg:
        return self.line


@dataclass(frozen=True)
class RoundBy:
    """Round a corner by an arc of a radius."""

    radius: float


@dataclass(frozen=True)
class ClipBy:
    """Cut a corner off, so far along the leg before it and so far along the leg after."""

    first: float
    second: float


@dataclass(frozen=True)
class _Cut:
    """How much a corner takes off its two legs, and what it puts in their place."""

    off_before: float
    off_after: float
    new_leg: Arc | Line


def fillet(before: Leg, after: Leg, radius: float) -> Fillet:
    """Round the corner where `before` ends and `after` starts."""
    cut = _round(before, after, radius)
    if not isinstance(cut.new_leg, Arc):
        raise TypeError("a corner is rounded by an arc")
    return Fillet(_less_end(before, cut.off_before), cut.new_leg, _less_start(after, cut.off_after))


def clip(before: Leg, after: Leg, first: float, second: float) -> Clip:
    """Cut the corner off, `first` along the leg before it and `second` along the leg after."""
    cut = _clip(before, after, first, second)
    if not isinstance(cut.new_leg, Line):
        raise TypeError("a corner is clipped by a line")
    return Clip(_less_end(before, cut.off_before), cut.new_leg, _less_start(after, cut.off_after))


def _less_end(leg: Leg, off: float) -> Leg | None:
    return leg.part(0.0, leg.length - off) if leg.length - off > SAME_POINT else None


def _less_start(leg: Leg, off: float) -> Leg | None:
    return leg.part(off, leg.length) if leg.length - off > SAME_POINT else None


def _clip(before: Leg, after: Leg, first: float, second: float) -> _Cut:
    for size, leg in ((first, before), (second, after)):
        if not size > 0:
            raise NotPositive("clip", size)
        if size > leg.length + SAME_POINT:
            raise DoesNotFit(after.start, size, leg.length)
    _expect_corner(before, after)
    start, end = before.point_at(max(before.length - first, 0.0)), after.point_at(min(second, after.length))
    if start.distance_to(end) <= SAME_POINT:
        raise ZeroLength(start)
    return _Cut(first, second, Line(start, end))


def _expect_corner(before: Leg, after: Leg) -> None:
    if abs(turn_between(before, after)) <= SMOOTH:
        raise NoCorner(after.start)


def _round(before: Leg, after: Leg, radius: float) -> _Cut:
    if not radius > 0:
        raise NotPositive("radius", radius)
    _expect_corner(before, after)
    cut = _tangent_cut(before, after, radius)
    if cut is None:
        largest = largest_that_fits(
            lambda smaller: _tangent_cut(before, after, smaller) is not None, radius, SAME_POINT
        )
        raise DoesNotFit(after.start, radius, largest)
    return cut


def _tangent_cut(before: Leg, after: Leg, radius: float) -> _Cut | None:
    """The arc of a radius that touches both legs and takes least off them, or None when no arc does."""
    turn = turn_between(before, after)
    sides = (1.0, -1.0) if pi - abs(turn) <= SMOOTH else (1.0 if turn > 0 else -1.0,)
    found = [cut for side in sides for cut in _tangent_cuts(before, after, radius, side)]
    return min(found, key=lambda cut: cut.off_before + cut.off_after) if found else None


def _tangent_cuts(before: Leg, after: Leg, radius: float, side: float) -> list[_Cut]:
    """All arcs that touch both legs, with the center on one side: 1 is the left of the walk, -1 the right."""
    first, second = _moved_aside(before, radius * side), _moved_aside(after, radius * side)
    if first is None or second is None:
        return []
    cuts = (_cut_about(before, after, center, radius, side) for center in carrier_meetings(first, second))
    return [cut for cut in cuts if cut is not None]


def _moved_aside(leg: Leg, distance: float) -> Leg | None:
    """The leg a distance to its left; None for an arc whose center the distance reaches past."""
    if isinstance(leg, Line):
        return leg.moved(leg.direction.turned_left() * distance)
    radius = leg.radius - distance * leg.turning
    if radius <= SAME_POINT or radius * abs(leg.sweep) <= SAME_POINT:
        return None
    return Arc(leg.center, radius, leg.start_angle, leg.sweep)


def _cut_about(before: Leg, after: Leg, center: Point, radius: float, side: float) -> _Cut | None:
    """The arc about a center from where it touches the one leg to where it touches the other, if both are
    reached.
    """
    s_before, s_after = before.place_of(center), after.place_of(center)
    if not (-SAME_POINT <= s_before <= before.length and 0 <= s_after <= after.length + SAME_POINT):
        return None
    s_before, s_after = max(s_before, 0.0), min(s_after, after.length)
    start, end = before.point_at(s_before) - center, after.point_at(s_after) - center
    sweep = start.angle_to(end) * side % FULL_TURN
    if radius * sweep <= SAME_POINT or sweep > pi + SMOOTH:
        return None
    return _Cut(before.length - s_before, s_after, Arc(center, radius, start.angle, sweep * side))


def round_corners(way: Way, radius: float) -> Way:
    """Round every corner alike; where legs go on smoothly there is none."""
    first = 0 if isinstance(way, Ring) else 1
    turns = dict(enumerate(way.turns, start=first))
    sharp = [index for index, turn in turns.items() if abs(turn) > SMOOTH]
    return shape_corners(way, {index: RoundBy(radius) for index in sharp})[0]


def shape_corners(way: Way, shapes: Mapping[int, RoundBy | ClipBy]) -> tuple[Way, dict[int, Leg]]:
    """Round and clip several corners at once; each is the one at the start of the leg of that index.

    Returns the new way and the leg that took the place of each corner. Two corners may use up the leg
    between them exactly; where they need more it is a fault that names the leg. A ring starts where it did,
    or past its first corner when that was shaped, which then comes last.
    """
    cuts = {index: _cut_corner(way.legs, index, shape) for index, shape in sorted(shapes.items())}
    legs: list[Leg] = []
    for index, leg in enumerate(way.legs):
        after = (index + 1) % len(way.legs)
        _expect_room(way.legs, index, cuts, shapes)
        low = cuts[index].off_after if index in cuts else 0.0
        high = leg.length - (cuts[after].off_before if after in cuts else 0.0)
        if high - low > SAME_POINT:
            legs.append(leg if low == 0 and high == leg.length else leg.part(low, high))
        if after in cuts:
            legs.append(cuts[after].new_leg)
    return type(way)(legs), {index: cut.new_leg for index, cut in cuts.items()}


def _cut_corner(legs: Sequence[Leg], index: int, shape: RoundBy | ClipBy) -> _Cut:
    if isinstance(shape, RoundBy):
        return _round(legs[index - 1], legs[index], shape.radius)
    return _clip(legs[index - 1], legs[index], shape.first, shape.second)


def _expect_room(
    legs: Sequence[Leg], index: int, cuts: Mapping[int, _Cut], shapes: Mapping[int, RoundBy | ClipBy]
) -> None:
    """The corners at both ends of a leg may together take no more than the leg is long."""
    after = (index + 1) % len(legs)
    if index not in cuts or after not in cuts:
        return
    leg, taken = legs[index], cuts[index].off_after
    needs = taken + cuts[after].off_before
    if needs > leg.length + SAME_POINT:
        largest = _largest_beside(_less_start(leg, taken), legs[after], shapes[after])
        raise CornersMeet(index, index, after, needs, leg.length, largest)


def _largest_beside(rest: Leg | None, after: Leg, shape: RoundBy | ClipBy) -> float | None:
    """The largest size of a corner whose leg before has only this rest left."""
    if rest is None:
        return None
    if isinstance(shape, ClipBy):
        return rest.length
    try:
        _round(rest, after, shape.radius)
    except DoesNotFit as fault:
        return fault.largest
    except GeometryFault:
        return None
    return shape.radius
