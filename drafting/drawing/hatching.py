"""Hatching: slanted lines that fill a strip, so that it is seen in black and white.

Skived strips are hatched one way and glued ones the other, further apart (how far and how steep is common practice, no
source). A wide strip is hatched along its edges only, as ISO 128 has it for large areas (from memory), so that words
find room within.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, cos, floor, radians, sin

from drafting.drawing.lines import HATCH
from drafting.drawing.marks import Segment, Ticks
from drafting.drawing.obstacles import segments_of
from drafting.geometry.path import Ring
from drafting.geometry.point import Point

WIDE = 24.0
"""A hatching line longer than this, in mm on paper, is drawn at its ends only."""
END = 6.0
LEAST = 0.2
"""Shorter lines are left out."""
MOST_LINES = 4000


@dataclass(frozen=True)
class Hatching:
    """The slant of the lines in degrees, and how far apart they are, in mm on paper."""

    angle: float
    apart: float


SKIVED = Hatching(45.0, 2.0)
GLUED = Hatching(-45.0, 3.5)


def hatched(rings: Sequence[Ring], hatching: Hatching) -> Ticks:
    """Lines across the inside of all rings together; a ring within a ring is a gap."""
    turned = [_turned(segment, -hatching.angle) for ring in rings for segment in segments_of(ring)]
    lines = [
        (_point(start, y, hatching.angle), _point(end, y, hatching.angle))
        for y in _rows(turned, hatching.apart)
        for low, high in _insides(turned, y)
        for start, end in _drawn_parts(low, high)
    ]
    return Ticks(HATCH, tuple(lines))


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


def _drawn_parts(low: float, high: float) -> list[tuple[float, float]]:
    return [(low, high)] if high - low <= WIDE else [(low, low + END), (high - END, high)]


def _turned(segment: Segment, angle: float) -> Segment:
    x0, y0, x1, y1 = segment
    c, s = cos(radians(angle)), sin(radians(angle))
    return (x0 * c - y0 * s, x0 * s + y0 * c, x1 * c - y1 * s, x1 * s + y1 * c)


def _point(x: float, y: float, angle: float) -> Point:
    c, s = cos(radians(angle)), sin(radians(angle))
    return Point(x * c - y * s, x * s + y * c)
