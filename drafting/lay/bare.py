"""The leather that is still bare, asked cheaply where a shape could lie at most.

A shape holds a few discs. Where one of them has no room the shape has none, and the room of a disc is soon found: the
bare leather shrunk by its radius.
"""

from __future__ import annotations

from collections.abc import Iterable

import shapely
from shapely import Geometry, Point, Polygon

DISCS = 3
EXACT = 0.004
"""How far off the largest a disc may be, as a part of the way round a shape."""
SPARE = 0.1
"""mm that discs are taken smaller by, for parts may lie a hair nearer than asked."""
Disc = tuple[float, float, float]
"""Middle and radius."""


def discs_in(shape: Polygon) -> list[Disc]:
    """Discs that lie in a shape: the largest, then the largest beside it, and so on."""
    found: list[Disc] = []
    rest: Geometry = shape
    while len(found) < DISCS and not rest.is_empty:
        line = shapely.maximum_inscribed_circle(rest, EXACT * shape.length)
        (x, y), *_ = line.coords
        found.append((x, y, line.length))
        rest = rest.difference(Point(x, y).buffer(line.length, quad_segs=4))
    return found


class Bare:
    """A region less the parts that are laid on it."""

    def __init__(self, region: Geometry) -> None:
        self.region = region
        self.rooms: dict[float, Geometry] = {}

    def take(self, parts: Iterable[Geometry]) -> None:
        """Parts are laid on it."""
        if taken := list(parts):
            self.region = self.region.difference(shapely.union_all(taken))
            self.rooms.clear()

    def places(self, discs: Iterable[Disc]) -> Geometry:
        """Where what holds these discs could lie, by its own (0, 0): never less than where it may."""
        found: Geometry | None = None
        for x, y, radius in discs:
            room = shapely.transform(self.room(radius), lambda corners, x=x, y=y: corners - (x, y))
            found = room if found is None else found.intersection(room)
            if found.is_empty:
                break
        return self.region if found is None else found

    def room(self, radius: float) -> Geometry:
        """Where the middle of a disc may be. Its corners are cut by chords, which leaves it a little more."""
        key = round(radius, 1)
        if key not in self.rooms:
            self.rooms[key] = shapely.buffer(self.region, min(0.0, SPARE - key), quad_segs=2)
        return self.rooms[key]
