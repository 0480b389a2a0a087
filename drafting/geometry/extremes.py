"""The places of a leg that can lie farthest in a direction: its ends, and of an arc where it runs square to it."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT


def extremes(leg: Leg, direction: Vector) -> Iterator[Point]:
    """Both ways along `direction`; its length does not matter."""
    yield leg.start
    yield leg.end
    if isinstance(leg, Arc):
        way = direction.unit() * leg.radius
        for point in (leg.center + way, leg.center - way):
            if leg.point_at(leg.nearest(point)).distance_to(point) < SAME_POINT:
                yield point
