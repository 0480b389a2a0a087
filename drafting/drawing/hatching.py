"""Hatching: slanted lines that fill a strip, so that it is seen in black and white.

Skived strips are hatched one way and glued ones the other, further apart (how far and how steep is common practice, no
source). A wide area is hatched along its edges only, and nowhere along a main edge, as ISO 128 has it (from memory): so
words find room within, and no hatching is taken for an outline.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, ceil, cos, degrees, floor, hypot, radians, sin
from typing import Any

import shapely

from drafting.drawing.lines import HATCH
from drafting.drawing.marks import Segment, Ticks
from drafting.drawing.obstacles import segments_of
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.records import dataclass, replace

WIDE = 17.0
"""What is wider than this, in mm on paper, is hatched along its edges only."""
DEEP = 4.5
"""How far from its edges."""
LEAST = 0.2
"""Shorter lines are left out."""
MOST_LINES = 4000
LEANS = (0.0, 15.0, -15.0)
"""How far the lines may lean off their slant, in degrees, where they would run along the edges."""
ALONG = 20.0
"""An edge whose direction differs by less, in degrees, runs nearly along the lines."""
FEW = 0.03
"""Of all edges that may run along them before the lines lean."""


@dataclass(frozen=True)
class Hatching:
    """The slant of the lines in degrees, and how far apart they are, in mm on paper."""

    angle: float
    apart: float


SKIVED = Hatching(45.0, 2.0)
GLUED = Hatching(-45.0, 3.5)


def leaning(rings: Sequence[Ring], hatching: Hatching) -> Hatching:
    """The hatching for all rings together, leant off their edges where many of these run along its lines."""
    edges = [segment for ring in rings for segment in segments_of(ring)]
    few = FEW * sum(hypot(x1 - x0, y1 - y0) for x0, y0, x1, y1 in edges)
    slants = [hatching.angle + lean for lean in LEANS]
    angle = min(slants, key=lambda angle: max(_length_along(edges, angle), few))
    return replace(hatching, angle=angle)


def _length_along(edges: Sequence[Segment], angle: float) -> float:
    """How much of the edges runs nearly in one direction: wholly what runs in it, the less the more it turns away."""
    turns = [(hypot(x1 - x0, y1 - y0), degrees(atan2(y1 - y0, x1 - x0)) - angle) for x0, y0, x1, y1 in edges]
    offs = [(length, abs((turn + 90.0) % 180.0 - 90.0)) for length, turn in turns]
    return sum(length * max(0.0, 1.0 - off / ALONG) for length, off in offs)


def hatched(rings: Sequence[Ring], hatching: Hatching) -> Ticks:
    """Lines across the inside of all rings together; a ring within a ring is a gap."""
    turned = [[_turned(segment, -hatching.angle) for segment in segments_of(ring)] for ring in rings]
    segments = [segment for ring in turned for segment in ring]
    core = _core(turned)
    lines = [
        (_point(start, y, hatching.angle), _point(end, y, hatching.angle))
        for y in _rows(segments, hatching.apart)
        for low, high in _insides(segments, y)
        for start, end in _outside(core, low, high, y)
    ]
    return Ticks(HATCH, tuple(lines))


def _core(rings: Sequence[Sequence[Segment]]) -> Any:
    """What is left bare, as a shapely area: what lies deep inside where the rings are wide."""
    areas = [shapely.make_valid(shapely.Polygon([segment[:2] for segment in ring])) for ring in rings]
    whole = areas[0]
    for area in areas[1:]:
        whole = whole.symmetric_difference(area)
    return whole.buffer(-WIDE / 2).buffer(WIDE / 2 - DEEP, join_style="mitre")


def _rows(segments: Sequence[Segment], apart: float) -> list[float]:
    """The heights of the lines, counted from the origin: two strips that touch are hatched as one."""
    ys = [y for segment in segments for y in segment[1::2]]
    apart = max(apart, (max(ys) - min(ys)) / MOST_LINES)
    first, last = ceil(min(ys) / apart), floor(max(ys) / apart)
    return [apart * (row + 0.37) for row in range(first - 1, last + 1)]


def _insides(segments: Sequence[Segment], y: float) -> Iterator[tuple[float, float]]:
    """Where a level line runs inside: between its first crossing and its second, and so on."""
    crossed = sorted(
        x0 + (x1 - x0) * (y - y0) / (y1 - y0) for x0, y0, x1, y1 in segments if (y0 <= y) != (y1 <= y)
    )
    yield from ((low, high) for low, high in list(pairwise(crossed))[::2] if high - low > LEAST)


def _outside(core: Any, low: float, high: float, y: float) -> Iterator[tuple[float, float]]:
    """The parts of a level line that do not lie in the core."""
    line = shapely.LineString([(low, y), (high, y)])
    for part in shapely.get_parts(line.difference(core)) if core.intersects(line) else [line]:
        start, _, end, _ = part.bounds
        if end - start > LEAST:
            yield start, end


def _turned(segment: Segment, angle: float) -> Segment:
    x0, y0, x1, y1 = segment
    c, s = cos(radians(angle)), sin(radians(angle))
    return (x0 * c - y0 * s, x0 * s + y0 * c, x1 * c - y1 * s, x1 * s + y1 * c)


def _point(x: float, y: float, angle: float) -> Point:
    c, s = cos(radians(angle)), sin(radians(angle))
    return Point(x * c - y * s, x * s + y * c)
