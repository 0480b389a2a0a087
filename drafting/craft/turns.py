"""Turned edges: where the leather is cut so that it can be folded over to the finished edge.

Takes the finished outline, the run of it that is turned, the width of the turn and how its corners are made; returns
the line to cut, outside the finished edge, and the whole ring that is cut. The turn itself folds back over the edge.

Corners that stick out are made in one of three ways (bookbinders' ways; common practice, no source):
mitred: each side is cut on the line that comes to lie on the bisector when it is folded, so that edge meets edge;
cut:    each side ends square at the corner, so that the two lie on each other in a square;
pleated: the turn runs on round the corner and is gathered, as it always does round a curve.
A little leather, `cover`, is left outside the very corner, so that its point is not bare. At a corner that goes in, the
two sides meet and are snipped to just short of the corner.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import pi
from typing import Literal

from drafting.craft.bends import MIDDLE, bend_allowance
from drafting.craft.faults import CraftFault, expect_not_negative, expect_positive
from drafting.craft.places import Span
from drafting.geometry.arc import Arc
from drafting.geometry.band import Band
from drafting.geometry.faults import OffsetBreaksUp
from drafting.geometry.intersect import path_intersections
from drafting.geometry.leg import Leg, line_if_any
from drafting.geometry.line import Line
from drafting.geometry.maths import tan
from drafting.geometry.offset import band, offset_path
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT, SMOOTH
from drafting.records import dataclass
from drafting.solve.amounts import mm, place
from drafting.text.catalogue import craft as says

Corners = Literal["mitred", "cut", "pleated"]

COVER = 1.5
"""How many thicknesses of leather stay outside the point of a mitred or cut corner (common practice, no source)."""


@dataclass(frozen=True)
class TurnRequest:
    """A turned edge: from one place of the outline forward to another, all round when they are one place.

    `ends` says how the turn ends beside an edge that is not turned: square, or mirrored, so that it lies just along
    that edge when it is folded.
    """

    start: float
    end: float
    width: float
    thickness: float
    corners: Corners | None = None
    ends: Literal["square", "mirrored"] = "square"
    neutral: float = MIDDLE


@dataclass(frozen=True)
class Turn:
    """`cut` is the cutting line along the run, `ring` the whole piece as cut, `snips` cuts into corners that go in.

    `bend` is what the fold takes of the width, `shown` what is left to glue. `gathers` tells where leather is gathered
    and how much of its length must go into pleats.
    """

    cut: Path
    ring: Ring
    snips: tuple[Path, ...]
    gathers: tuple[tuple[Point, float], ...]
    bend: float
    shown: float


class TurnTooNarrow(CraftFault):
    """A turn that the fold itself takes up."""

    entry = says.TURN_TOO_NARROW

    def __init__(self, width: float, thickness: float, bend: float) -> None:
        super().__init__(width=mm(width), thickness=mm(thickness), bend=mm(bend), least=mm(2 * bend))
        self.width, self.thickness, self.bend = width, thickness, bend


class TurnTooSharp(CraftFault):
    """A turned edge round a curve tighter than the leather is thick."""

    entry = says.TURN_TOO_SHARP

    def __init__(self, where: Point, radius: float, thickness: float) -> None:
        super().__init__(place=place(where), radius=mm(radius), thickness=mm(thickness))
        self.place, self.radius, self.thickness = where, radius, thickness


class TurnNeedsCorners(CraftFault):
    """A corner in a turned edge, and no word of how it is made."""

    entry = says.TURN_NEEDS_CORNERS

    def __init__(self, where: Point) -> None:
        super().__init__(place=place(where))
        self.place = where


class TurnOverlaps(CraftFault):
    """A turn that runs into itself, because a leg is too short or a curve too tight for its width."""

    entry = says.TURN_OVERLAPS

    def __init__(self, where: Point, width: float, corners: str) -> None:
        super().__init__(place=place(where), width=mm(width), corners=corners)
        self.place, self.width = where, width


def turn_edge(outline: Ring, request: TurnRequest) -> Turn:
    """The cutting line of a turned edge, outside the finished outline."""
    ring = outline if outline.is_anticlockwise else outline.reversed()
    start, end = _walked_anticlockwise(outline, request)
    bend = _expect_wide_enough(request)
    run = ring.part(start, end)
    is_round = run.start.distance_to(run.end) <= SAME_POINT
    maker = _TurnMaker(request, is_round)
    sides = maker.sides(run)
    cut, snips = maker.joined(sides, ring, (start, end))
    whole = Ring(cut.legs) if is_round else _with_cut(ring, start, end, run, cut)
    if whole.self_intersections():
        raise TurnOverlaps(whole.self_intersections()[0], request.width, request.corners or "pleated")
    return Turn(cut, whole, tuple(snips), tuple(maker.gathers(sides)), bend, request.width - bend)


def _walked_anticlockwise(outline: Ring, request: TurnRequest) -> tuple[float, float]:
    if outline.is_anticlockwise:
        return request.start, request.end
    return outline.length - request.end, outline.length - request.start


def _expect_wide_enough(request: TurnRequest) -> float:
    expect_positive(width=request.width)
    expect_not_negative(thickness=request.thickness)
    bend = bend_allowance(pi, 0.0, request.thickness, request.neutral)
    if request.width <= bend:
        raise TurnTooNarrow(request.width, request.thickness, bend)
    return bend


def _with_cut(ring: Ring, start: float, end: float, run: Path, cut: Path) -> Ring:
    """The outline with the run replaced by its cutting line."""
    out = line_if_any(run.start, cut.start, SAME_POINT)
    back = line_if_any(cut.end, run.end, SAME_POINT)
    return Ring((*out, *cut.legs, *back, *ring.part(end, start).legs))


@dataclass(frozen=True)
class _Side:
    """A part of the run between two sharp corners, and its cutting line."""

    run: Path
    cut: Path


@dataclass(frozen=True)
class _TurnMaker:
    request: TurnRequest
    is_round: bool

    def sides(self, run: Path) -> list[_Side]:
        """The run from sharp corner to sharp corner, each moved out and ending square."""
        _expect_round_enough(run, self.request.thickness)
        corners = [at for at, turn in _corners(run) if abs(turn) > SMOOTH]
        stops = [0.0, *(corners or self._halfway(run)), run.length]
        return [_Side(part, self._moved(part)) for part in (run.part(a, b) for a, b in pairwise(stops))]

    def _halfway(self, run: Path) -> list[float]:
        """A run that comes round to its start is walked in two halves: each is then an open line."""
        return [run.length / 2] if self.is_round else []

    def _moved(self, part: Path) -> Path:
        try:
            return offset_path(part, -self.request.width)
        except OffsetBreaksUp as fault:
            raise TurnOverlaps(fault.place, self.request.width, self.request.corners or "pleated") from fault

    def joined(self, sides: list[_Side], ring: Ring, ends: tuple[float, float]) -> tuple[Path, list[Path]]:
        """All sides in one cutting line, and the snips at the corners that go in."""
        cuts = [side.cut for side in sides]
        links: list[tuple[Leg, ...]] = []
        snips: list[Path] = []
        last = len(sides) if self.is_round else len(sides) - 1
        for index in range(last):
            after = (index + 1) % len(sides)
            if self._is_smooth(sides[index], sides[after]):
                links.append(())
                continue
            cuts[index], cuts[after], link, snip = self._corner(
                sides[index], sides[after], cuts[index], cuts[after]
            )
            links.append(link)
            snips += snip
        if not self.is_round:
            self._end(sides, cuts, ring, ends)
            links.append(())
        legs = [leg for cut, link in zip(cuts, links, strict=True) for leg in (*cut.legs, *link)]
        return Path(legs), snips

    @staticmethod
    def _is_smooth(before: _Side, after: _Side) -> bool:
        return before.cut.end.distance_to(after.cut.start) <= SAME_POINT

    def _corner(
        self, before: _Side, after: _Side, cut: Path, following: Path
    ) -> tuple[Path, Path, tuple[Leg, ...], list[Path]]:
        corner = after.run.start
        into, onward = before.run.direction_before(before.run.length), after.run.direction_at(0.0)
        turn = into.angle_to(onward)
        if turn < 0:
            return self._inner_corner(corner, cut, following)
        if self.request.corners is None:
            raise TurnNeedsCorners(corner)
        if self.request.corners == "pleated":
            return cut, following, (_round_corner(corner, self.request.width, into, turn),), []
        tip = corner + outward_bisector(into, onward) * self._cover()
        if self.request.corners == "mitred":
            lean = (pi - turn) / 2
            cut = self._trimmed(cut, tip, (-into).turned(lean), from_end=True)
            following = self._trimmed(following, tip, onward.turned(-lean), from_end=False)
        return cut, following, (*_line(cut.end, tip), *_line(tip, following.start)), []

    def _cover(self) -> float:
        """How far outside the corner the tip stays: never farther than the turn itself is wide."""
        return min(COVER * self.request.thickness, self.request.width / 2)

    def _inner_corner(
        self, corner: Point, cut: Path, following: Path
    ) -> tuple[Path, Path, tuple[Leg, ...], list[Path]]:
        """Two sides that meet before the corner. The snip stops short of it by the leather's thickness."""
        meetings = path_intersections(cut, following)
        if not meetings:
            raise TurnOverlaps(corner, self.request.width, self.request.corners or "pleated")
        meeting = max(meetings, key=lambda one: one.s_a)
        if meeting.s_a <= SAME_POINT or meeting.s_b >= following.length - SAME_POINT:
            raise TurnOverlaps(corner, self.request.width, self.request.corners or "pleated")
        reach = corner - meeting.point
        stop = meeting.point + reach.unit() * max(reach.length - self.request.thickness, 0.0)
        snip = [Path((Line(meeting.point, stop),))] if meeting.point.distance_to(stop) > SAME_POINT else []
        return cut.part(0.0, meeting.s_a), following.part(meeting.s_b, following.length), (), snip

    def _end(self, sides: list[_Side], cuts: list[Path], ring: Ring, ends: tuple[float, float]) -> None:
        """Square ends stay; mirrored ones lie along the edge beside them when they are folded in."""
        if self.request.ends == "square":
            return
        here, there = sides[0].run, sides[-1].run
        before, along = ring.direction_before(ends[0]), here.direction_at(0.0)
        if before.angle_to(along) > SMOOTH:
            cuts[0] = self._trimmed(cuts[0], here.start, (-before).mirrored(along), from_end=False)
        onward, after = there.direction_before(there.length), ring.direction_at(ends[1])
        if onward.angle_to(after) > SMOOTH:
            cuts[-1] = self._trimmed(cuts[-1], there.end, after.mirrored(onward), from_end=True)

    def _trimmed(self, cut: Path, tip: Point, direction: Vector, from_end: bool) -> Path:
        """A cutting line cut off by a ray from the corner. A ray that leans out beyond its end lets it run on."""
        far = tip + direction * (self.request.width * FARTHEST_TRIM)
        ray = Path((Line(tip, far),))
        meetings = path_intersections(cut, ray)
        if not meetings:
            return self._run_on(cut, tip, direction, from_end)
        place_ = (max if from_end else min)(meeting.s_a for meeting in meetings)
        if (place_ if from_end else cut.length - place_) <= SAME_POINT:
            raise TurnOverlaps(tip, self.request.width, self.request.corners or "mitred")
        return cut.part(0.0, place_) if from_end else cut.part(place_, cut.length)

    def _run_on(self, cut: Path, tip: Point, direction: Vector, from_end: bool) -> Path:
        """The line lengthened straight, past its square end, to meet the ray."""
        end = cut.end if from_end else cut.start
        along = cut.direction_before(cut.length) if from_end else -cut.direction_at(0.0)
        across = along.cross(direction)
        if abs(across) <= SMOOTH:
            raise TurnOverlaps(tip, self.request.width, self.request.corners or "mitred")
        ahead = (tip - end).cross(direction) / across
        if ahead < 0:
            raise TurnOverlaps(tip, self.request.width, self.request.corners or "mitred")
        added = _line(end, end + along * ahead)
        if from_end:
            return Path((*cut.legs, *added))
        return Path((*(leg.reversed() for leg in added), *cut.legs))

    def gathers(self, sides: list[_Side]) -> Iterator[tuple[Point, float]]:
        """Each curve that bulges out, and each pleated corner: where, and how much longer the cut is than the edge."""
        for side in sides:
            for leg in side.run.legs:
                if isinstance(leg, Arc) and leg.sweep > 0:
                    yield leg.point_at(leg.length / 2), self.request.width * leg.sweep
        if self.request.corners == "pleated":
            last = len(sides) if self.is_round else len(sides) - 1
            for index in range(last):
                before, after = sides[index].run, sides[(index + 1) % len(sides)].run
                turn = before.direction_before(before.length).angle_to(after.direction_at(0.0))
                if turn > SMOOTH:
                    yield after.start, self.request.width * turn


FARTHEST_TRIM = 40.0
"""How many widths long the line is that trims a side: a corner of 3 deg is still mitred."""


def _corners(run: Path) -> list[tuple[float, float]]:
    return list(zip(run.corner_places, run.turns, strict=True))


def _expect_round_enough(run: Path, thickness: float) -> None:
    for leg in run.legs:
        if isinstance(leg, Arc) and leg.radius < thickness - SAME_POINT:
            raise TurnTooSharp(leg.point_at(leg.length / 2), leg.radius, thickness)


def outward_bisector(into: Vector, onward: Vector) -> Vector:
    """The direction straight out of a corner of a ring that is walked anticlockwise."""
    return -(into.turned_left() + onward.turned_left()).unit()


def _round_corner(corner: Point, width: float, into: Vector, turn: float) -> Arc:
    return Arc(corner, width, into.angle - pi / 2, turn)


def _line(start: Point, end: Point) -> tuple[Leg, ...]:
    return line_if_any(start, end, SAME_POINT)


def skive_band(outline: Ring, run: Span, outside: float, inside: float) -> tuple[Band, ...]:
    """The strip to be thinned along a turned edge: outside the finished edge, inside it, or both."""
    expect_not_negative(outside=outside, inside=inside)
    amounts = ((outside, False), (inside, True))
    return tuple(band(outline, run.start, run.end, wide, is_in) for wide, is_in in amounts if wide > 0)


def mitre_back(turn: float, width: float) -> float:
    """How far back from a corner a mitred side ends on the cutting line, for no cover: the width over tan(half the
    angle between the legs)."""
    return width / tan((pi - turn) / 2)
