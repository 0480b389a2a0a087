"""Points on a path, and lines that touch one: each leg is a locus of its own.

A path is anything with `legs` of lines and arcs, or a single leg. What a leg's endless line or whole circle gives is
kept only where it lies on the leg itself.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from drafting.geometry import maths as math
from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.solve.meeting import Locus


def legs_of(path: Any) -> tuple[Leg, ...]:
    legs = getattr(path, "legs", None)
    return (path,) if legs is None else tuple(legs)


def locus_of_leg(leg: Leg, origin_x: float, origin_y: float) -> Locus:
    """The endless line or whole circle of a leg."""
    if isinstance(leg, Arc):
        x, y = leg.center.x - origin_x, leg.center.y - origin_y
        return 1.0, -2 * x, -2 * y, x * x + y * y - leg.radius * leg.radius
    x, y = leg.start.x - origin_x, leg.start.y - origin_y
    way_x, way_y = leg.end.x - leg.start.x, leg.end.y - leg.start.y
    return 0.0, -way_y, way_x, way_y * x - way_x * y


def lies_on(leg: Leg, x: float, y: float) -> bool:
    return bool(leg.distance_to_point(Point(x, y)) <= SAME_POINT)


def off_leg(leg: Leg, x: float, y: float) -> float:
    """How far a place lies to the side of a leg, to the left of a line or outside a circle; smooth everywhere."""
    if isinstance(leg, Arc):
        return math.hypot(x - leg.center.x, y - leg.center.y) - leg.radius
    way_x, way_y = leg.end.x - leg.start.x, leg.end.y - leg.start.y
    turn = way_x * (y - leg.start.y) - way_y * (x - leg.start.x)
    return turn / math.hypot(way_x, way_y)


def nearest_leg(path: Any, x: float, y: float) -> int:
    place = Point(x, y)
    distances = [leg.distance_to_point(place) for leg in legs_of(path)]
    return distances.index(min(distances))


def touching_places(path: Any, x: float, y: float) -> list[tuple[float, float]]:
    """Where a line from a place just touches the arcs of a path, all the places there are.

    The touching point sees the place and the center at a right angle: it lies on the arc and at the length of the
    tangent from the place.
    """
    found: list[tuple[float, float]] = []
    for leg in legs_of(path):
        if isinstance(leg, Arc):
            found += [place for place in _touching_circle(leg, x, y) if lies_on(leg, *place)]
    return distinct(found)


def _touching_circle(arc: Arc, x: float, y: float) -> list[tuple[float, float]]:
    out_x, out_y = x - arc.center.x, y - arc.center.y
    apart = math.hypot(out_x, out_y)
    if abs(apart - arc.radius) <= SAME_POINT:
        return [(x, y)]
    if apart < arc.radius:
        return []
    toward = arc.radius * arc.radius / (apart * apart)
    across = arc.radius * math.sqrt(apart * apart - arc.radius * arc.radius) / (apart * apart)
    foot_x, foot_y = arc.center.x + toward * out_x, arc.center.y + toward * out_y
    return [
        (foot_x - across * out_y, foot_y + across * out_x),
        (foot_x + across * out_y, foot_y - across * out_x),
    ]


def touch_of_line(
    path: Any, start_x: float, start_y: float, end_x: float, end_y: float
) -> tuple[float, float] | None:
    """Where the endless line through two places just touches an arc of a path, if it does."""
    way_x, way_y = end_x - start_x, end_y - start_y
    length = math.hypot(way_x, way_y)
    if length <= SAME_POINT:
        return None
    for leg in legs_of(path):
        if not isinstance(leg, Arc):
            continue
        off = (way_x * (leg.center.y - start_y) - way_y * (leg.center.x - start_x)) / length
        if abs(abs(off) - leg.radius) > SAME_POINT:
            continue
        place = (leg.center.x + off * way_y / length, leg.center.y - off * way_x / length)
        if lies_on(leg, *place):
            return place
    return None


def tangent_through(path: Any, x: float, y: float, origin_x: float, origin_y: float) -> list[Locus]:
    """The lines through a place that touch an arc of a path."""
    loci: list[Locus] = []
    for touch_x, touch_y in touching_places(path, x, y):
        way_x, way_y = touch_x - x, touch_y - y
        if math.hypot(way_x, way_y) > SAME_POINT:
            here_x, here_y = x - origin_x, y - origin_y
            loci.append((0.0, -way_y, way_x, way_y * here_x - way_x * here_y))
    return loci


def distinct(places: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """The places without those that lie on an earlier one."""
    kept: list[tuple[float, float]] = []
    for x, y in places:
        if all(abs(x - a) > SAME_POINT or abs(y - b) > SAME_POINT for a, b in kept):
            kept.append((x, y))
    return kept
