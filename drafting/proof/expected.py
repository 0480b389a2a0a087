"""What a file should hold: each line of the solved pattern, and how it measures."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from drafting.geometry.curves import circle
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.records import dataclass
from drafting.solve.placed import PlacedFeature, PlacedPiece, PlacedStitches

Box = tuple[float, float, float, float]
"""Left, low, right, high, with y up."""


@dataclass(frozen=True)
class Measures:
    """One line as it was read: mm, mm², a box in mm, and places along it, y up. An open line has no area."""

    length: float
    area: float | None
    box: Box
    places: Any
    """An array of two columns."""


def box_of(way: Path | Ring) -> Box:
    bounds = way.bounds
    return (bounds.min_x, bounds.min_y, bounds.max_x, bounds.max_y)


def area_of(way: Path | Ring) -> float | None:
    return way.area if isinstance(way, Ring) else None


def lines_of_feature(feature: PlacedFeature) -> list[Path | Ring]:
    """In the order in which they are drawn."""
    circles = [circle(hole.center, hole.across / 2) for hole in feature.holes]
    return [*feature.rings, *feature.paths, *circles]


def lines_of_piece(piece: PlacedPiece) -> Iterator[tuple[str, list[Path | Ring]]]:
    """The outline and each feature that has lines, by name."""
    yield "outline", [piece.cutting]
    for feature in piece.features:
        lines = lines_of_feature(feature)
        if lines:
            yield feature.name, lines


@dataclass(frozen=True)
class StitchMark:
    """One hole of a seam: its middle, and where it is said the ends of a slanted mark or the size of a round one."""

    center: Point
    ends: tuple[Point, Point] | None = None
    across: float | None = None


def stitches_of_piece(piece: PlacedPiece) -> list[tuple[str, list[StitchMark]]]:
    """The stitch holes of each feature that has some, in the order they are sewn."""
    seams = [
        (feature.name, [mark for line in feature.stitches for mark in _marks_of_line(line)])
        for feature in piece.features
    ]
    return [(name, marks) for name, marks in seams if marks]


def _marks_of_line(line: PlacedStitches) -> list[StitchMark]:
    if line.slits:
        return [StitchMark(one.start.midway(one.end), (one.start, one.end)) for one in line.slits]
    return [StitchMark(hole.point, None, line.across) for hole in line.layout.holes]


def marks_of_piece(piece: PlacedPiece) -> list[Point]:
    """The middles of marks that have no lines of their own and are drawn as a cross of any size."""
    return [
        feature.center
        for feature in piece.features
        if feature.kind == "mark" and feature.center is not None and not lines_of_feature(feature)
    ]
