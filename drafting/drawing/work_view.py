"""What is worked into a piece beside its lines: stitch marks, and the hatching of skived and glued strips."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from drafting.drawing.hatching import GLUED, SKIVED, Hatching, hatched, leaning
from drafting.drawing.lines import PRICK, TWICE
from drafting.drawing.marks import ORIGIN, Dots, Group, Ticks
from drafting.geometry.point import Point
from drafting.solve.placed import PlacedFeature, PlacedPiece, PlacedStitches

PLACE = 0.8
"""How large the dot is, in mm, of a stitch hole of which nothing is said but its place."""
LEAST_DOT = 0.3
TICKS_APART = 1.2
"""On paper; drawn closer, the signs of stitches that are sewn twice would run into each other."""
CROSS_TICK = 1.4
"""How far the sign of a stitch that is sewn twice reaches to each side, in mm on paper."""
HATCHINGS = {"skive": SKIVED, "glue": GLUED}


def stitch_view(feature: PlacedFeature, scale: float) -> Group:
    """The holes of all lines of a stitch, as they are pricked, and small strokes where it is sewn twice."""
    marks = [mark for line in feature.stitches for mark in _marks(line, scale)]
    return Group("stitches", feature.name, tuple(marks), title=f"holes of {feature.name}")


def _marks(line: PlacedStitches, scale: float) -> Iterator[Dots | Ticks]:
    if line.slits:
        yield Ticks(PRICK, tuple((_scaled(one.start, scale), _scaled(one.end, scale)) for one in line.slits))
    elif line.layout.holes:
        points = tuple(_scaled(hole.point, scale) for hole in line.layout.holes)
        yield Dots(PRICK, points, max((line.across or PLACE) * scale, LEAST_DOT))
    twice = line.layout.stitched_twice
    if twice and line.layout.pitch * scale >= TICKS_APART:
        yield Ticks(TWICE, tuple(_cross_tick(line, index, scale) for index in twice))


def _cross_tick(line: PlacedStitches, index: int, scale: float) -> tuple[Point, Point]:
    hole = line.layout.holes[index]
    side = hole.direction.unit().turned_left() * CROSS_TICK
    center = _scaled(hole.point, scale)
    return center + -side, center + side


def hatchings_of(piece: PlacedPiece) -> dict[str, Hatching]:
    """How each kind of strip is hatched, all of a kind alike."""
    rings = {
        kind: [ring for feature in piece.features if feature.kind == kind for ring in feature.rings]
        for kind in HATCHINGS
    }
    return {kind: leaning(rings[kind], hatching) for kind, hatching in HATCHINGS.items()}


def hatch_view(feature: PlacedFeature, scale: float, hatchings: Mapping[str, Hatching]) -> Group:
    """The hatching of a skived or glued strip."""
    hatching = hatchings.get(feature.kind)
    rings = [ring.scaled(scale, ORIGIN) for ring in feature.rings]
    marks = (hatched(rings, hatching),) if hatching and rings else ()
    return Group("hatching", feature.name, marks)


def _scaled(point: Point, scale: float) -> Point:
    return point.scaled(scale, ORIGIN)
