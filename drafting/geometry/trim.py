"""Cut a ring by an endless straight line.

`lines_across` gives the stretches of the line inside the ring, edge to edge; `cut_ring` the part of the ring
on one side of it. A line that only touches the ring does not cut it.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from drafting.geometry.faults import CutFallsApart, CutMisses
from drafting.geometry.intersect import path_intersections
from drafting.geometry.leg import Leg, line_if_any
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass


@dataclass(frozen=True)
class CutRing:
    """What a cut leaves of a ring, and the corners it made, in the order the ring is walked.

    A new corner may lie where the ring had one before, when the line passes through it.
    """

    ring: Ring
    new_corners: tuple[Point, ...]


def cut_ring(ring: Ring, point: Point, direction: Vector, keep_left: bool) -> CutRing:
    """The part of a ring on the left or right of the line through a point, walked as the ring was."""
    keep = direction.unit() if keep_left else -direction.unit()
    kept = _kept_parts(ring, point, keep)
    if not kept:
        raise CutMisses(point)
    rings = _closed_along(kept, point, keep)
    if len(rings) > 1:
        raise CutFallsApart(tuple(found.centroid for found in rings))
    start = rings[0].locate(ring.start)
    cut = rings[0] if start is None else rings[0].starting_at(start)
    ends = [end for part in kept for end in (part.start, part.end)]
    return CutRing(cut, tuple(corner for corner in cut.corners if _is_one_of(corner, ends)))


def lines_across(ring: Ring, point: Point, direction: Vector) -> list[Path]:
    """The stretches inside a ring of the line through a point, in the order of the direction."""
    across = _line_over(ring, point, direction.unit())
    stops = sorted(meeting.s_b for meeting in path_intersections(ring, Path((across,))))
    inside: list[tuple[float, float]] = []
    for low, high in pairwise(stops):
        if high - low <= SAME_POINT or not ring.contains_strictly(across.point_at((low + high) / 2)):
            continue
        if inside and low - inside[-1][1] <= SAME_POINT:
            inside[-1] = (inside[-1][0], high)
        else:
            inside.append((low, high))
    return [Path((across.part(low, high),)) for low, high in inside]


def _line_over(ring: Ring, point: Point, along: Vector) -> Line:
    """A stretch of the line through a point long enough to reach past the ring at both ends."""
    middle = point + along * (ring.bounds.center - point).dot(along)
    reach = along * (ring.width + ring.height + 1.0)
    return Line(middle - reach, middle + reach)


def _kept_parts(ring: Ring, point: Point, keep: Vector) -> list[Path]:
    """The parts of a ring strictly on the left of a line, each as long as can be; none when it is not cut."""
    across = Path((_line_over(ring, point, keep),))
    stops = sorted({ring.within(meeting.s_a) for meeting in path_intersections(ring, across)})
    spans = [span for span in _round_pairs(stops) if _span_length(ring, span) > SAME_POINT]
    heights = [keep.cross(ring.part(*span).midpoint - point) for span in spans]
    is_kept = [height > SAME_POINT for height in heights]
    if not any(is_kept) or not any(height < -SAME_POINT for height in heights):
        return []
    kept: list[tuple[float, float]] = []
    for index, span in enumerate(spans):
        if not is_kept[index] or is_kept[index - 1]:
            continue
        last = index
        while is_kept[(last + 1) % len(spans)]:
            last += 1
        kept.append((span[0], spans[last % len(spans)][1]))
    return [ring.part(low, high) for low, high in kept]


def _round_pairs(stops: Sequence[float]) -> list[tuple[float, float]]:
    return list(zip(stops, [*stops[1:], *stops[:1]], strict=True))


def _span_length(ring: Ring, span: tuple[float, float]) -> float:
    return (span[1] - span[0]) % ring.length


def _is_one_of(place: Point, others: Sequence[Point]) -> bool:
    return any(place.distance_to(other) <= SAME_POINT for other in others)


def _closed_along(parts: Sequence[Path], point: Point, along: Vector) -> list[Ring]:
    """The parts closed by stretches of the line.

    Walked along the line, the ring is entered and left by turns, so its ends belong together two by two.
    """
    ends = [((part.start - point).dot(along), index, True) for index, part in enumerate(parts)]
    ends += [((part.end - point).dot(along), index, False) for index, part in enumerate(parts)]
    ends.sort()
    follower: dict[int, int] = {}
    for one, other in zip(ends[::2], ends[1::2], strict=True):
        if one[2] == other[2]:
            raise CutMisses(point)
        coming, going = (other[1], one[1]) if one[2] else (one[1], other[1])
        follower[coming] = going
    return [_one_ring(parts, cycle) for cycle in _cycles(follower)]


def _cycles(follower: dict[int, int]) -> list[list[int]]:
    found: list[list[int]] = []
    left = sorted(follower)
    while left:
        cycle = [left[0]]
        while follower[cycle[-1]] != cycle[0]:
            cycle.append(follower[cycle[-1]])
        found.append(cycle)
        left = [index for index in left if index not in cycle]
    return found


def _one_ring(parts: Sequence[Path], cycle: Sequence[int]) -> Ring:
    legs: list[Leg] = []
    for index, following in zip(cycle, [*cycle[1:], cycle[0]], strict=True):
        legs.extend(parts[index].legs)
        legs.extend(line_if_any(parts[index].end, parts[following].start, SAME_POINT))
    return Ring(legs)
