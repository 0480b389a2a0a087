"""What a file should hold, measured on the solved pattern: each line's length, area and bounding box."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import pi

from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.solve.placed import Hole, PlacedFeature, PlacedPiece

Box = tuple[float, float, float, float]
"""Left, low, right, high, with y up."""


@dataclass(frozen=True)
class Measures:
    """One line as it was drafted or read: mm, mm² and a box in mm. An open line has no area."""

    length: float
    area: float | None
    box: Box


def measures_of(way: Path | Ring) -> Measures:
    box = way.bounds
    area = way.area if isinstance(way, Ring) else None
    return Measures(way.length, area, (box.min_x, box.min_y, box.max_x, box.max_y))


def measures_of_hole(hole: Hole) -> Measures:
    x, y, radius = hole.center.x, hole.center.y, hole.across / 2
    return Measures(2 * pi * radius, pi * radius**2, (x - radius, y - radius, x + radius, y + radius))


def lines_of_feature(feature: PlacedFeature) -> list[Measures]:
    """In the order in which they are drawn."""
    rings = [measures_of(ring) for ring in feature.rings]
    paths = [measures_of(path) for path in feature.paths]
    return rings + paths + [measures_of_hole(hole) for hole in feature.holes]


def lines_of_piece(piece: PlacedPiece) -> Iterator[tuple[str, list[Measures]]]:
    """The outline and each feature that has lines, by name."""
    yield "outline", [measures_of(piece.outline)]
    for feature in piece.features:
        lines = lines_of_feature(feature)
        if lines:
            yield feature.name, lines


def marks_of_piece(piece: PlacedPiece) -> list[Point]:
    """The middles of marks that have no lines of their own and are drawn as a cross of any size."""
    return [
        feature.center
        for feature in piece.features
        if feature.kind == "mark" and feature.center is not None and not lines_of_feature(feature)
    ]
