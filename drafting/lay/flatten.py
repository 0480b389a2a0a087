"""Rings of lines and arcs as polygons, never on the wrong side of the true line.

The search lays polygons. So that no part is laid too near another, an outline is flattened outward and the leather
inward; the verifier flattens again, finer, and asks neither.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import acos, ceil, cos, pi

from shapely import Polygon

from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point

COARSE = 0.1
"""How far in mm a flattened line may be off the true one for the search."""
FINE = 0.002
"""The same for the verifier and for areas."""


def polygon_outside(ring: Ring, tolerance: float = COARSE) -> Polygon:
    """A polygon that holds all of the ring, at most `tolerance` mm outside it."""
    return Polygon([(p.x, p.y) for p in _points(ring, tolerance, is_outside=True)])


def polygon_inside(ring: Ring, tolerance: float = COARSE) -> Polygon:
    """A polygon that the ring holds all of, at most `tolerance` mm inside it."""
    return Polygon([(p.x, p.y) for p in _points(ring, tolerance, is_outside=False)])


def polygon_close(ring: Ring, tolerance: float = FINE) -> Polygon:
    """A polygon with its corners on the ring, at most `tolerance` mm off it."""
    return Polygon([(p.x, p.y) for leg in ring.legs for p in chord_points(leg, tolerance)])


def line_close(path: Path, tolerance: float = FINE) -> list[tuple[float, float]]:
    """The corners of an open path flattened."""
    points = [p for leg in path.legs for p in chord_points(leg, tolerance)]
    return [(p.x, p.y) for p in (*points, path.end)]


def _points(ring: Ring, tolerance: float, *, is_outside: bool) -> Iterator[Point]:
    """On the side asked for an arc becomes chords, or tangents, whichever lie there."""
    for leg in ring.legs:
        bulges_out = isinstance(leg, Arc) and (leg.sweep > 0) == ring.is_anticlockwise
        yield from (
            tangent_points(leg, tolerance) if bulges_out == is_outside else chord_points(leg, tolerance)
        )


def chord_points(leg: Leg, tolerance: float) -> Iterator[Point]:
    """The start of a leg and points on it; its end is the start of the next."""
    yield leg.start
    if isinstance(leg, Arc):
        step = leg.sweep / (count := _parts(leg, tolerance))
        yield from (leg.point_at_angle(leg.start_angle + n * step) for n in range(1, count))


def tangent_points(leg: Leg, tolerance: float) -> Iterator[Point]:
    """The start of a leg and the corners of a chain of tangents round it."""
    yield leg.start
    if isinstance(leg, Arc):
        step = leg.sweep / (count := _parts(leg, tolerance))
        longer = Arc(leg.center, leg.radius / cos(step / 2), leg.start_angle, leg.sweep)
        yield from (longer.point_at_angle(leg.start_angle + (n + 0.5) * step) for n in range(count))


def _parts(arc: Arc, tolerance: float) -> int:
    """So many that tangents and chords both keep within the tolerance."""
    half_step = acos(arc.radius / (arc.radius + tolerance))
    return max(1, ceil(abs(arc.sweep) / (2 * min(half_step, pi / 6))))
