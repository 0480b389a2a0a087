"""A strip of ground along a run of a ring, as leather is skived or glued there.

Where the run ends at a corner of the ring the strip goes on to the edge beside it, so that a strip along the short end
of a strap reaches from edge to edge however deep it is; elsewhere it ends square across. So it differs from a band of
lines, which is mitred at a corner.
"""

from __future__ import annotations

from drafting.geometry.band import Band, strip_between
from drafting.geometry.faults import GeometryFault, NotPositive, OffsetBreaksUp
from drafting.geometry.intersect import path_intersections
from drafting.geometry.largest import largest_that_fits
from drafting.geometry.leg import Leg, line_if_any
from drafting.geometry.line import Line
from drafting.geometry.offset import offset_path
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import LARGEST_FIT, SAME_POINT, SMOOTH


def edge_strip(ring: Ring, s0: float, s1: float, distance: float, inside: bool) -> Band:
    """The strip along a ring from s0 forward to s1, a distance wide, inside or outside the ring.

    OffsetBreaksUp tells where it does not hold together, or is deeper than the ring itself.
    """
    if not distance > 0:
        raise NotPositive("distance", distance)
    run = ring.part(s0, s1)
    to_left = 1.0 if inside == ring.is_anticlockwise else -1.0
    if not inside:
        return strip_between(run, offset_path(run, to_left * distance))
    strip = _strip_inside(ring, s0, s1, to_left * distance)
    if strip is None:
        tries = lambda size: _strip_inside(ring, s0, s1, to_left * size) is not None  # noqa: E731
        largest = largest_that_fits(tries, distance, LARGEST_FIT)
        raise OffsetBreaksUp(run.midpoint, distance, largest or 0.0, largest is None)
    return strip


def _strip_inside(ring: Ring, s0: float, s1: float, to_left: float) -> Band | None:
    run = ring.part(s0, s1)
    try:
        far = offset_path(run, to_left)
    except GeometryFault:
        return None
    if not ring.contains(far.midpoint):
        return None
    if _is_corner(ring, s1):
        reached = _to_edge(ring, far)
        if reached is None:
            return None
        far = reached
    if _is_corner(ring, s0):
        reached = _to_edge(ring, far.reversed())
        if reached is None:
            return None
        far = reached.reversed()
    strip = Ring(
        (
            *run.legs,
            *_beside(ring, s1, far.end, is_end=True),
            *far.reversed().legs,
            *_beside(ring, s0, far.start, is_end=False),
        )
    )
    return None if strip.self_intersections() else Band(run, far, strip)


def _is_corner(ring: Ring, s: float) -> bool:
    return abs(ring.direction_before(s).angle_to(ring.direction_at(s))) > SMOOTH


def _to_edge(ring: Ring, far: Path) -> Path | None:
    """The line cut off, or lengthened straight, to end on the ring."""
    if ring.locate(far.end) is not None:
        return far
    if ring.contains(far.end):
        reach = ring.bounds.width + ring.bounds.height
        ray = Path((Line(far.end, far.end + far.direction_before(far.length) * reach),))
        stops = [meeting.s_a for meeting in path_intersections(ray, ring) if meeting.s_a > SAME_POINT]
        return far.joined(ray.part(0.0, min(stops))) if stops else None
    stops = [meeting.s_a for meeting in path_intersections(far, ring) if meeting.s_a > far.length / 2]
    return far.part(0.0, min(stops)) if stops else None


def _beside(ring: Ring, s: float, far: Point, is_end: bool) -> tuple[Leg, ...]:
    """From the end of the run to that of the far line, or from its start to that of the run: along the edge beside the
    strip, or square across."""
    at = ring.locate(far)
    if at is None or not _is_corner(ring, s):
        corner = ring.point_at(s)
        return line_if_any(corner, far, SAME_POINT) if is_end else line_if_any(far, corner, SAME_POINT)
    begin, finish = (s, at) if is_end else (at, s)
    return ring.part(begin, finish).legs if (finish - begin) % ring.length > SAME_POINT else ()
