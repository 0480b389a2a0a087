"""Center lines: short crosses through holes and slots, and the mirror line of a piece."""

from __future__ import annotations

from collections.abc import Sequence
from math import radians

from drafting.drawing.arrows import straight
from drafting.drawing.lines import SYMMETRY
from drafting.drawing.marks import Stroke
from drafting.geometry.bounds import Bounds
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector
from drafting.solve.placed import Hole, PlacedFeature

OVERSHOOT = 1.5
"""How far a center line runs past the edge it belongs to."""
MIRROR_OVERSHOOT = 4.0
MOST_MARKED = 60
"""Beyond so many holes crosses make a page gray and help nobody."""


def center_marks(feature: PlacedFeature, scale: float) -> list[Stroke]:
    """The center lines of one feature, in the size it is drawn."""
    along = Vector.at_angle(radians(feature.direction or 0.0))
    if feature.holes:
        return _hole_marks(feature.holes, along, scale)
    if feature.center is None or feature.kind not in ("slot", "opening"):
        return []
    center = feature.center.scaled(scale, Point(0.0, 0.0))
    long, wide = _reaches(feature, along)
    return _cross(center, along, long * scale + OVERSHOOT, wide * scale + OVERSHOOT)


def _reaches(feature: PlacedFeature, along: Vector) -> tuple[float, float]:
    """Half of what the feature measures along its direction and across it."""
    assert feature.center is not None
    points = [
        leg.point_at(leg.length * part) for ring in feature.rings for leg in ring.legs for part in (0, 0.5)
    ]
    moves = [point - feature.center for point in points] or [Vector(0.0, 0.0)]
    across = along.turned_left()
    return max(abs(move.dot(along)) for move in moves), max(abs(move.dot(across)) for move in moves)


def _cross(center: Point, along: Vector, long: float, wide: float) -> list[Stroke]:
    across = along.turned_left()
    return [
        straight(SYMMETRY, center + along * -long, center + along * long),
        straight(SYMMETRY, center + across * -wide, center + across * wide),
    ]


def _hole_marks(holes: Sequence[Hole], along: Vector, scale: float) -> list[Stroke]:
    """A cross through each hole, short enough to leave its neighbours alone."""
    if len(holes) > MOST_MARKED:
        return []
    centers = [hole.center.scaled(scale, Point(0.0, 0.0)) for hole in holes]
    marks: list[Stroke] = []
    for center, hole in zip(centers, holes, strict=True):
        radius = hole.across * scale / 2
        gaps = [center.distance_to(other) for other in centers if other != center]
        reach = min([radius + OVERSHOOT, *(gap / 2 - 0.2 for gap in gaps)])
        if reach > radius:
            marks += _cross(center, along, reach, reach)
    return marks


def mirror_line(
    mirror: tuple[Point, Point], bounds: Bounds, scale: float, words: Sequence[Ring] = ()
) -> list[Stroke]:
    """The mirror line across a piece whose drawn bounds are given, a little past both edges.

    It stops for the boxes of words it would run through.
    """
    first, second = (point.scaled(scale, Point(0.0, 0.0)) for point in mirror)
    along = (second - first).unit()
    places = [(corner - first).dot(along) for corner in _through_box(first, along, bounds)]
    stops = [min(places) - MIRROR_OVERSHOOT, max(places) + MIRROR_OVERSHOOT]
    for box in words:
        stops += _crossing(first, along, box)
    stops.sort()
    return [
        straight(SYMMETRY, first + along * low, first + along * high)
        for low, high in zip(stops[::2], stops[1::2], strict=True)
        if high - low > OVERSHOOT
    ]


def _crossing(origin: Point, along: Vector, box: Ring) -> list[float]:
    """Where an endless line enters and leaves a convex ring of lines, or nothing."""
    across = along.turned_left()
    sides = [((leg.start - origin).dot(across), (leg.end - origin).dot(across), leg) for leg in box.legs]
    places = []
    for low, high, leg in sides:
        if (low > 0) != (high > 0):
            crossed = leg.start + (leg.end - leg.start) * (low / (low - high))
            places.append((crossed - origin).dot(along))
    return places if len(places) == 2 else []


def _through_box(origin: Point, along: Vector, box: Bounds) -> list[Point]:
    """Where an endless line enters and leaves a box; the nearest corners' feet where it passes it by."""
    places: list[float] = []
    if abs(along.x) > 1e-9:
        places += [(x - origin.x) / along.x for x in (box.min_x, box.max_x)]
    if abs(along.y) > 1e-9:
        places += [(y - origin.y) / along.y for y in (box.min_y, box.max_y)]
    grown = box.grown(1e-6)
    inside = [origin + along * place for place in places if grown.contains(origin + along * place)]
    return inside if len(inside) > 1 else [origin + along * (box.center - origin).dot(along)]
