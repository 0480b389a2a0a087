"""Inside or outside, and the area of a polygon.

A level ray is sent to the right from the point and its crossings are counted; arcs are first parted at their
lowest and highest places, so that each part is crossed at most once. A leg is taken to end at the very
number its neighbour starts from, so that no ray can slip between the two.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil, floor, pi

from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.maths import sqrt
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT


def is_inside(legs: Sequence[Leg], point: Point, among: Sequence[int] | None = None) -> bool:
    """True when a point lies inside closed legs; one on the line itself may fall either way. No others are looked at
    than those of some indices, if they are given."""
    crossings = 0
    for index in range(len(legs)) if among is None else among:
        leg, end = legs[index], legs[(index + 1) % len(legs)].start
        box = leg.bounds
        if box.max_x + SAME_POINT < point.x or not (
            box.min_y - SAME_POINT <= point.y <= box.max_y + SAME_POINT
        ):
            continue
        if isinstance(leg, Arc):
            crossings += sum(_arc_part_crosses(leg, part, point) for part in _monotone_parts(leg, end))
        else:
            crossings += _line_crosses(leg.start, end, point)
    return crossings % 2 == 1


def _line_crosses(start: Point, end: Point, point: Point) -> bool:
    if (start.y <= point.y) == (end.y <= point.y):
        return False
    side = (end - start).cross(point - start)
    return side > 0 if end.y > start.y else side < 0


Part = tuple[float, float, bool]
"""Heights at its start and end, and whether it is on the right half of its circle."""


def _monotone_parts(arc: Arc, end: Point) -> Iterator[Part]:
    """The parts of an arc between its lowest and highest places."""
    low, high = sorted((arc.start_angle, arc.end_angle))
    turns = range(ceil((low - pi / 2) / pi), floor((high - pi / 2) / pi) + 1)
    stops = [pi / 2 + turn * pi for turn in turns if low < pi / 2 + turn * pi < high]
    if arc.sweep < 0:
        stops.reverse()
    angles = [arc.start_angle, *stops, arc.end_angle]
    heights = [arc.start.y, *(_extreme_height(arc, stop) for stop in stops), end.y]
    for index in range(len(angles) - 1):
        middle = (angles[index] + angles[index + 1]) / 2
        on_right = floor((middle + pi / 2) / pi) % 2 == 0
        yield heights[index], heights[index + 1], on_right


def _extreme_height(arc: Arc, angle: float) -> float:
    is_top = floor(angle / pi) % 2 == 0
    return arc.center.y + (arc.radius if is_top else -arc.radius)


def _arc_part_crosses(arc: Arc, part: Part, point: Point) -> bool:
    start_y, end_y, on_right = part
    if (start_y <= point.y) == (end_y <= point.y):
        return False
    rise = point.y - arc.center.y
    reach = sqrt(max((arc.radius - rise) * (arc.radius + rise), 0.0))
    return (arc.center.x + reach if on_right else arc.center.x - reach) > point.x


def polygon_area(corners: Sequence[Point]) -> float:
    """The area inside straight lines from corner to corner, negative when they go clockwise."""
    origin = corners[0]
    moves = [corner - origin for corner in corners[1:]]
    return sum(a.cross(b) for a, b in pairwise(moves)) / 2


def polygon_moment(corners: Sequence[Point], origin: Point) -> Vector:
    """The polygon's area times the place of its centroid, seen from an origin."""
    moves = [corner - origin for corner in corners]
    total = Vector(0.0, 0.0)
    for a, b in zip(moves, [*moves[1:], moves[0]], strict=True):
        total = total + (a + b) * (a.cross(b) / 6)
    return total


def contains_polygon(corners: Sequence[Point], point: Point) -> bool:
    """True when a point is inside straight lines from corner to corner, or on them."""
    inside = False
    for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
        if _is_on_stretch(start, end, point):
            return True
        inside ^= _line_crosses(start, end, point)
    return inside


def _is_on_stretch(start: Point, end: Point, point: Point) -> bool:
    span = end - start
    if span.length <= SAME_POINT:
        return start.distance_to(point) <= SAME_POINT
    share = min(max((point - start).dot(span) / span.dot(span), 0.0), 1.0)
    return (start + span * share).distance_to(point) <= SAME_POINT
