"""A leg of a path: a line or an arc, and what two neighbouring legs say about the corner between them."""

from __future__ import annotations

from drafting.geometry.arc import Arc
from drafting.geometry.line import Line
from drafting.geometry.maths import varies
from drafting.geometry.point import Point

Leg = Line | Arc


def turn_between(before: Leg, after: Leg) -> float:
    """How far the walk turns where one leg ends and the next starts, in radians, left positive."""
    return before.direction_at(before.length).angle_to(after.direction_at(0.0))


def is_varied(leg: Leg) -> bool:
    """Whether it differs from size to size."""
    box = leg.bounds
    return any(map(varies, (leg.length, box.min_x, box.min_y, box.max_x, box.max_y)))


def line_if_any(start: Point, end: Point, shortest: float) -> tuple[Line, ...]:
    """The line from start to end, or nothing where they are nearer than `shortest`."""
    return (Line(start, end),) if start.distance_to(end) > shortest else ()
