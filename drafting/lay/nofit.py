"""Where one shape may not lie because of another, and where it may lie in a region.

All places of a shape B that would touch a shape A are one region, A with the mirror image of B run round it (a
Minkowski sum). It is made of the hulls of convex parts, and grown by the gap. A shape is laid by its own (0, 0).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Geometry, MultiPolygon, Polygon

SLACK = 0.006
"""How much nearer than asked, in mm, a place may be: without it parts that fit exactly would fit nowhere."""
FINEST = 1e-4
"""A face of less than so many mm square is no room."""
BLUNT = 1.05
"""Corners of a grown region are cut off at so many gaps: never nearer than the gap, and few."""
Corners = NDArray[np.float64]


def convex_parts(shape: Polygon) -> list[Corners]:
    """The corners of convex parts that make up a polygon with or without holes."""
    if shape.convex_hull.area - shape.area <= 1e-9 * shape.area:
        return [shapely.get_coordinates(shape)[:-1]]
    return [
        np.array(corners) for corners in _merged(list(shapely.constrained_delaunay_triangles(shape).geoms))
    ]


Loop = list[tuple[float, float]]
"""Corners of a convex part, anticlockwise."""


def _merged(triangles: Sequence[Polygon]) -> list[Loop]:
    """Triangles joined over their common sides as long as what comes of it is convex (Hertel and Mehlhorn)."""
    loops = dict(enumerate(_loop(triangle) for triangle in triangles))
    owner = {side: number for number, loop in loops.items() for side in _sides(loop)}
    for one, other in [side for side in owner if side < side[::-1]]:
        first, second = owner.get((one, other)), owner.get((other, one))
        if first is None or second is None or first == second:
            continue
        joined = _over_side(loops[first], loops[second], one, other)
        if _is_convex(joined):
            loops[first] = joined
            owner.update({side: first for side in _sides(loops.pop(second))})
    return list(loops.values())


def _loop(triangle: Polygon) -> Loop:
    return [(float(x), float(y)) for x, y in shapely.get_coordinates(shapely.orient_polygons(triangle))[:-1]]


def _sides(loop: Loop) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    return zip(loop, [*loop[1:], loop[0]], strict=True)


def _over_side(first: Loop, second: Loop, one: tuple[float, float], other: tuple[float, float]) -> Loop:
    """Two loops as one: the first walks the side from `one` to `other`, the second back."""
    at, back = first.index(other), second.index(one)
    return [*first[at:], *first[:at], *(second[back:] + second[:back])[1:-1]]


def _is_convex(loop: Loop) -> bool:
    for (ax, ay), (bx, by), (cx, cy) in zip(loop, loop[1:] + loop[:1], loop[2:] + loop[:2], strict=True):
        if (bx - ax) * (cy - by) - (by - ay) * (cx - bx) < -1e-9:
            return False
    return True


def sums(first: Sequence[Corners], second: Sequence[Corners]) -> list[Geometry]:
    """The convex hulls of all differences of corners: a part of `first` less a part of `second`."""
    corners, counts = np.concatenate(first), np.array([len(part) for part in first])
    hulls: list[Geometry] = []
    for part in second:
        differences = (corners[:, None, :] - part[None, :, :]).reshape(-1, 2)
        numbers = np.repeat(np.arange(len(first)), counts * len(part))
        hulls += list(shapely.convex_hull(shapely.linestrings(differences, indices=numbers)))
    return hulls


def no_fit(first: Sequence[Corners], second: Sequence[Corners], gap: float) -> Geometry:
    """Where the second may not be laid when the first lies at (0, 0)."""
    return grown(shapely.union_all(sums(first, second)), gap - SLACK)


def grown(shape: Geometry, distance: float) -> Geometry:
    """A region grown (or shrunk, below 0) by a distance, never by less."""
    return shapely.buffer(shape, distance, join_style="mitre", mitre_limit=BLUNT)


def inner_fit(region: Geometry, shape: Polygon, parts: Sequence[Corners]) -> Geometry:
    """Where a shape lies wholly in a region."""
    fits = [_fit_in(part, shape, parts) for part in getattr(region, "geoms", [region]) if not part.is_empty]
    return shapely.union_all([fit for fit in fits if not fit.is_empty]) if fits else Polygon()


def _fit_in(region: Polygon, shape: Polygon, parts: Sequence[Corners]) -> Geometry:
    low_x, low_y, high_x, high_y = region.bounds
    left, bottom, right, top = shape.bounds
    if low_x - left > high_x - right or low_y - bottom > high_y - top:
        return Polygon()
    room = shapely.box(low_x - left, low_y - bottom, high_x - right, high_y - top)
    around = _around(region)
    if not around:
        return room
    clear = room.difference(shapely.union_all(sums(around, parts)))
    faces = getattr(clear, "geoms", [clear])
    return MultiPolygon([face for face in faces if isinstance(face, Polygon) and face.area >= FINEST**2])


@lru_cache(maxsize=64)
def _around(region: Polygon) -> tuple[Corners, ...]:
    """Convex parts of all that is within a region's box and not in the region: far fewer than its sides.

    Whatever lies in the box and touches none of them lies in the region.
    """
    rest = shapely.box(*region.bounds).difference(region)
    bare = [part for part in getattr(rest, "geoms", [rest]) if isinstance(part, Polygon) and part.area > 0]
    return tuple(corners for part in bare for corners in convex_parts(part))
