"""Where a straight line from a point just touches a path.

It touches an arc square to the radius, and a corner where both legs leave to the same side of the line. The
line may cross the path elsewhere: which of several places is meant is the maker's choice.
"""

from __future__ import annotations

from drafting.geometry.arc import Arc
from drafting.geometry.maths import acos
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_DIRECTION, SAME_POINT
from drafting.geometry.walk import Walk


def touching_places(path: Walk, point: Point) -> list[Point]:
    """All places where a line from the point touches the path, in the order the path is walked."""
    found: list[tuple[float, Point]] = []
    for start, leg in zip(path.starts, path.legs, strict=False):
        if isinstance(leg, Arc):
            found.extend((start + leg.nearest(place), place) for place in _on_arc(leg, point))
    found.extend(_at_corners(path, point))
    places: list[Point] = []
    for _, place in sorted(found, key=lambda pair: pair[0]):
        if not any(place.distance_to(old) <= 2 * SAME_POINT for old in places):
            places.append(place)
    return places


def _on_arc(arc: Arc, point: Point) -> list[Point]:
    apart = point - arc.center
    if apart.length <= arc.radius + SAME_POINT:
        return []
    opening = acos(arc.radius / apart.length)
    angles = (apart.angle - opening, apart.angle + opening)
    places = [arc.point_at_angle(angle) for angle in angles]
    return [place for place in places if arc.distance_to_point(place) <= SAME_POINT]


def _at_corners(path: Walk, point: Point) -> list[tuple[float, Point]]:
    return [
        (place, corner)
        for place, corner in zip(path.corner_places, path.corners, strict=True)
        if corner.distance_to(point) > SAME_POINT and _touches_corner(path, place, corner - point)
    ]


def _touches_corner(path: Walk, place: float, ray: Vector) -> bool:
    """True when the legs before and after the corner lie on the same side of the ray, neither along it."""
    sight = ray.unit()
    arriving, leaving = path.direction_before(place), path.direction_at(place)
    before, after = -sight.cross(arriving), sight.cross(leaving)
    return before * after > SAME_DIRECTION**2 and min(abs(before), abs(after)) > SAME_DIRECTION
