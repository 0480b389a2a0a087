"""Shapes that the tests of the lay use: nothing of a pattern, only rings."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from drafting.geometry.line import Line
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.lay import Freedom, Kind
from drafting.lay.kinds import Zone

ALONG = Freedom()


def ring(corners: Sequence[tuple[float, float]]) -> Ring:
    points = [Point(float(x), float(y)) for x, y in corners]
    return Ring([Line(a, b) for a, b in pairwise([*points, points[0]])])


def rectangle(width: float, height: float, x: float = 0, y: float = 0) -> Ring:
    return ring([(x, y), (x + width, y), (x + width, y + height), (x, y + height)])


def kind(
    shape: Ring,
    demand: int,
    name: str = "part",
    grain: float | None = 0.0,
    freedom: Freedom = ALONG,
    zone: Zone = "usable",
) -> Kind:
    return Kind(name, shape, demand, grain, freedom, zone)
