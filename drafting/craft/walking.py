"""Many places of one path at once: where they are, and which way the path leads on from them.

The places come in order, so the legs are walked once and each circle's turning is reckoned once a hole: ten thousand
holes are quick.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.maths import Parted, cos, each_way, sin
from drafting.geometry.path import Path
from drafting.geometry.point import Point, Vector

Walked = tuple[Point, float, Vector]


def walk_places(path: Path, places: Sequence[float]) -> list[Walked]:
    """Each place with its point and direction; at a corner the direction is that of the leg ahead."""
    try:
        return list(_leg_by_leg(path, places))
    except Parted:
        return [_one_place(path, place) for place in places]


@each_way
def _one_place(path: Path, place: float) -> Walked:
    (found,) = _leg_by_leg(path, [place])
    return found


def _leg_by_leg(path: Path, places: Sequence[float]) -> Iterator[Walked]:
    index = 0
    for leg_index, leg in enumerate(path.legs):
        start, end = path.starts[leg_index], path.starts[leg_index + 1]
        stop = index
        while stop < len(places) and (places[stop] < end or leg_index == len(path.legs) - 1):
            stop += 1
        yield from _on_leg(leg, start, places[index:stop])
        index = stop


def _on_leg(leg: Leg, start: float, places: Sequence[float]) -> Iterator[Walked]:
    if isinstance(leg, Line):
        x, y, direction = leg.start.x, leg.start.y, leg.direction
        for place in places:
            along = place - start
            yield Point(x + direction.x * along, y + direction.y * along), place, direction
        return
    center, radius, turning = leg.center, leg.radius, leg.turning
    for place in places:
        angle = leg.start_angle + (place - start) / radius * turning
        across, up = cos(angle), sin(angle)
        point = Point(center.x + radius * across, center.y + radius * up)
        yield point, place, Vector(-up * turning, across * turning)
