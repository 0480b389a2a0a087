"""Legs moved aside, and what happens to them at the corners between.

A line stays a line, an arc keeps its center and gets another radius. On the outer side of a corner two moved
legs leave a gap: each runs on as what it is until they meet (a mitre), or, where they would meet too far off
or not at all, an arc about the corner joins them. On the inner side they overlap and are cut later, when all
meetings are known. An arc whose center the distance reaches past comes out inverted; nothing of it can be
part of the offset, as every place of it is too near to the arc it came from, but it is kept so that what it
crosses is found.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi
from typing import Literal

from drafting.geometry.arc import Arc
from drafting.geometry.intersect import carrier_meetings, leg_intersections
from drafting.geometry.leg import Leg, turn_between
from drafting.geometry.line import Line
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import FULL_TURN, MITRE_LIMIT, SAME_POINT
from drafting.records import dataclass

Joins = Literal["mitred", "rounded"]

_FLAT_CORNER = 0.05
_FARTHEST_RUN_ON = pi / 2


@dataclass(frozen=True)
class Moved:
    """All that may be part of an offset, in order, and the mitres that reach out from it."""

    legs: tuple[Leg, ...]
    mitres: tuple[Ring, ...]


def moved_leg(leg: Leg, distance: float) -> Leg | None:
    """The leg moved to its left by a distance, to its right by a negative one; None when nothing is left of it."""
    if isinstance(leg, Line):
        return leg.moved(leg.direction.turned_left() * distance)
    radius = leg.radius - distance * leg.turning
    if radius * abs(leg.sweep) <= SAME_POINT:
        return None
    return Arc(leg.center, radius, leg.start_angle, leg.sweep)


def moved_legs(legs: Sequence[Leg], distance: float, joins: Joins, is_closed: bool) -> Moved:
    """Legs that follow on each other, moved to their left and joined where they leave gaps."""
    moved = [moved_leg(leg, distance) for leg in legs]
    found_joins: dict[int, tuple[Leg, ...]] = {}
    mitres: list[Ring] = []
    for index in range(0 if is_closed else 1, len(legs)):
        corner = Corner(legs[index - 1], legs[index], distance)
        before, after = moved[index - 1], moved[index]
        if corner.is_gap:
            mitre = corner.mitre(before, after) if joins == "mitred" else None
            if mitre is None:
                found_joins[index] = corner.rounded()
            else:
                mitres.append(mitre.ring)
                moved[index - 1], moved[index] = mitre.before, mitre.after
        elif abs(corner.turn) < _FLAT_CORNER:
            moved[index - 1], moved[index] = _without_flat_overlap(before, after)
    found: list[Leg] = []
    for index, one in enumerate(moved):
        found.extend(found_joins.get(index, ()))
        if one is not None:
            found.append(one)
    return Moved(tuple(found), tuple(mitres))


@dataclass(frozen=True)
class Mitre:
    """Two moved legs run on until they meet, and the ring of the ground they go round beyond the corner."""

    before: Leg
    after: Leg
    ring: Ring


@dataclass(frozen=True)
class Corner:
    """Where one leg ends and the next starts, seen from the side they are moved to."""

    before: Leg
    after: Leg
    distance: float

    @property
    def place(self) -> Point:
        return self.after.start

    @property
    def turn(self) -> float:
        """How far the walk turns; where it goes straight back the corner is taken to open on the moved side."""
        turn = turn_between(self.before, self.after)
        if pi - abs(turn) <= 1e-12:
            return pi if self.distance < 0 else -pi
        return turn

    @property
    def is_gap(self) -> bool:
        """True when the moved legs leave a gap to fill."""
        return self.turn * self.distance < 0 and abs(self.turn * self.distance) > SAME_POINT

    @property
    def is_overlap(self) -> bool:
        """True when the moved legs overlap and must be cut."""
        return self.turn * self.distance > 0 and abs(self.turn * self.distance) > SAME_POINT

    @property
    def foot_before(self) -> Point:
        """Where the leg before ends once it is moved."""
        return self.place + self.before.direction_at(self.before.length).turned_left() * self.distance

    @property
    def foot_after(self) -> Point:
        return self.place + self.after.direction_at(0.0).turned_left() * self.distance

    def rounded(self) -> tuple[Leg, ...]:
        """The arc about the corner from where the one moved leg ends to where the other starts."""
        across = self.foot_before - self.place
        return (Arc(self.place, abs(self.distance), across.angle, self.turn),)

    def mitre(self, before: Leg | None, after: Leg | None) -> Mitre | None:
        """Both moved legs run on until they meet; None where they do not, or too far off."""
        if before is None or after is None:
            return None
        tip = self._tip(before, after)
        if tip is None:
            return None
        longer, earlier = run_on(before, tip), run_on(after.reversed(), tip).reversed()
        return Mitre(longer, earlier, self._mitre_ring(before, after, longer, earlier))

    def _tip(self, before: Leg, after: Leg) -> Point | None:
        back = after.reversed()
        tips = [
            tip
            for tip in carrier_meetings(before, after)
            if _is_ahead(before, tip) and _is_ahead(back, tip) and self.place.distance_to(tip) <= self._reach
        ]
        return min(tips, key=self.place.distance_to) if tips else None

    @property
    def _reach(self) -> float:
        return MITRE_LIMIT * abs(self.distance)

    def _mitre_ring(self, before: Leg, after: Leg, longer: Leg, earlier: Leg) -> Ring:
        return Ring(
            (
                Line(self.place, before.end),
                longer.part(before.length, longer.length),
                earlier.part(0.0, earlier.length - after.length),
                Line(after.start, self.place),
            )
        )


def run_on(leg: Leg, tip: Point) -> Leg:
    """The leg made longer at its end, as what it is, to a point ahead on its line or circle."""
    if isinstance(leg, Line):
        return Line(leg.start, tip)
    return Arc(leg.center, leg.radius, leg.start_angle, leg.sweep + _turn_ahead(leg, tip) * leg.turning)


def _turn_ahead(arc: Arc, tip: Point) -> float:
    """How far an arc turns from its end until it comes to a point of its circle."""
    return ((tip - arc.center).angle - arc.end_angle) * arc.turning % FULL_TURN


def _is_ahead(leg: Leg, tip: Point) -> bool:
    """True when a leg that runs on comes to the point, an arc within a quarter of its circle."""
    if isinstance(leg, Line):
        return leg.place_of(tip) > leg.length + SAME_POINT
    turn = _turn_ahead(leg, tip)
    return SAME_POINT < turn * leg.radius and turn <= _FARTHEST_RUN_ON and turn + abs(leg.sweep) < FULL_TURN


def _without_flat_overlap(before: Leg | None, after: Leg | None) -> tuple[Leg | None, Leg | None]:
    """Two moved legs that overlap by a hair, cut where they meet.

    At a corner so flat the ends beyond the meeting are hardly nearer to the corner than the rest, too little for a
    test by distance.
    """
    if before is None or after is None:
        return before, after
    length = before.length
    meetings = sorted(leg_intersections(before, after), key=lambda found: length - found.s_a + found.s_b)
    if not meetings or meetings[0].s_a <= SAME_POINT or after.length - meetings[0].s_b <= SAME_POINT:
        return before, after
    return before.part(0.0, meetings[0].s_a), after.part(meetings[0].s_b, after.length)
