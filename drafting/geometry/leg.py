"""A leg of a path: a line or an arc, and what two neighbouring legs say about the corner between them."""

from __future__ import annotations

from drafting.geometry.arc import Arc
from drafting.geometry.line import Line
from drafting.geometry.point import Point

Leg = Line | Arc


def turn_between(before: Leg, after: Leg) -> float:
    """How far the walk turns where one leg ends and the next starts, in radians, left positive."""
    return before.direction_at(before.length).angle_to(after.direction_at(0.0))


def line_if_any(start: Point, end: Point, shortest: float) -> tuple[Line, ...]:
    """The line from start to end, or nothing where they are nearer than `shortest`."""
    return (Line(start, end),) if start.distance_to(end) > shortest else ()
