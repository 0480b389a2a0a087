"""Where legs and paths meet.

A meeting is a place that two legs share within SAME_POINT: a crossing, a touch, or an end of one on the
other. Legs that lie on each other for a length meet at the ends of that length, and `overlaps` tells the
length itself. Results come in the order of the first path, so the same figures always give the same answer.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg, is_varied
from drafting.geometry.line import Line
from drafting.geometry.maths import sqrt
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_DIRECTION, SAME_POINT

if TYPE_CHECKING:
    from drafting.geometry.walk import Walk


_TOUCH = 1e-10
"""A circle reaching no farther beyond a line or a circle touches it: half the chord there would be lost in rounding."""


class Meeting(NamedTuple):
    """One place of two lines: lengths along the one and the other, and where it is."""

    s_a: float
    s_b: float
    point: Point


class Overlap(NamedTuple):
    """A stretch where two lines lie on each other: from and to along the one, and from and to along the
    other.
    """

    from_a: float
    to_a: float
    from_b: float
    to_b: float


def leg_intersections(a: Leg, b: Leg) -> list[Meeting]:
    """All places two legs share, in the order of the first."""
    if not a.bounds.grown(SAME_POINT).may_overlap(b.bounds):
        return []
    found: list[Meeting] = []
    for point in (*carrier_meetings(a, b), *_ends_shared(a, b)):
        meeting = _meeting_at(a, b, point)
        if meeting and not any(old.point.distance_to(meeting.point) <= 2 * SAME_POINT for old in found):
            found.append(meeting)
    return sorted(found, key=_by_place)


def _by_place(meeting: Meeting) -> tuple[float, float]:
    return meeting.s_a, meeting.s_b


def _meeting_at(a: Leg, b: Leg, point: Point) -> Meeting | None:
    s_a, s_b = a.nearest(point), b.nearest(point)
    on_a, on_b = a.point_at(s_a), b.point_at(s_b)
    if on_a.distance_to(point) > SAME_POINT or on_b.distance_to(point) > SAME_POINT:
        return None
    return Meeting(s_a, s_b, point)


def _ends_shared(a: Leg, b: Leg) -> Iterator[Point]:
    yield from (end for end in (a.start, a.end) if b.distance_to_point(end) <= SAME_POINT)
    yield from (end for end in (b.start, b.end) if a.distance_to_point(end) <= SAME_POINT)


def carrier_meetings(a: Leg, b: Leg) -> list[Point]:
    """Where the endless lines and whole circles of two legs meet; nothing where they are one and the same."""
    match a, b:
        case Line(), Line():
            return _line_line(a, b)
        case Line(), Arc():
            return _line_circle(a, b)
        case Arc(), Line():
            return _line_circle(b, a)
        case Arc(), Arc():
            return _circle_circle(a, b)
    raise TypeError("a leg is a line or an arc")


def _line_line(a: Line, b: Line) -> list[Point]:
    turn = a.direction.cross(b.direction)
    if abs(turn) <= SAME_DIRECTION:
        return []
    return [a.start + a.direction * ((b.start - a.start).cross(b.direction) / turn)]


def _line_circle(line: Line, arc: Arc) -> list[Point]:
    to_center = arc.center - line.start
    foot = line.start + line.direction * to_center.dot(line.direction)
    off = abs(line.direction.cross(to_center))
    if off > arc.radius + SAME_POINT:
        return []
    if arc.radius - off <= _TOUCH:
        return [foot]
    half = sqrt((arc.radius - off) * (arc.radius + off))
    return [foot - line.direction * half, foot + line.direction * half]


def _circle_circle(a: Arc, b: Arc) -> list[Point]:
    across = b.center - a.center
    apart = across.length
    if apart > a.radius + b.radius + SAME_POINT or apart < abs(a.radius - b.radius) - SAME_POINT:
        return []
    if apart <= SAME_POINT:
        return []
    toward = across / apart
    along = (apart + (a.radius - b.radius) * (a.radius + b.radius) / apart) / 2
    foot = a.center + toward * along
    if a.radius - abs(along) <= _TOUCH:
        return [foot]
    half = sqrt((a.radius - along) * (a.radius + along))
    side = toward.turned_left() * half
    return [foot + side, foot - side]


def leg_overlap(a: Leg, b: Leg) -> list[Overlap]:
    """The stretches of more than a point that two legs lie on each other; two arcs may have two of them."""
    if not _same_carrier(a, b):
        return []
    stops = sorted({0.0, a.length, *(a.nearest(end) for end in _ends_shared(a, b))})
    found = []
    for low, high in pairwise(stops):
        middle = a.point_at((low + high) / 2)
        if high - low > SAME_POINT and b.distance_to_point(middle) <= SAME_POINT:
            found.append(Overlap(low, high, b.nearest(a.point_at(low)), b.nearest(a.point_at(high))))
    return found


def _same_carrier(a: Leg, b: Leg) -> bool:
    if isinstance(a, Arc) and isinstance(b, Arc):
        return a.center.distance_to(b.center) <= SAME_POINT and abs(a.radius - b.radius) <= SAME_POINT
    if isinstance(a, Line) and isinstance(b, Line):
        return abs(a.direction.cross(b.direction)) * min(a.length, b.length) <= SAME_POINT
    return False


def near_pairs(a: tuple[Leg, ...], b: tuple[Leg, ...]) -> list[tuple[int, int]]:
    """Pairs of legs whose boxes come together; of legs that vary those whose boxes do so in some size."""
    if not any(map(is_varied, (*a, *b))):
        return _pairs_by_sweep(a, b)
    from drafting.geometry.nearest_in_sizes import Boxes

    return Boxes([leg.bounds for leg in a]).pairs_with(Boxes([leg.bounds for leg in b]), SAME_POINT)


def _pairs_by_sweep(a: tuple[Leg, ...], b: tuple[Leg, ...]) -> list[tuple[int, int]]:
    """From left to right, the legs that are passed at the same time."""
    events = sorted(
        [(leg.bounds.min_x - SAME_POINT, 0, i) for i, leg in enumerate(a)]
        + [(leg.bounds.min_x - SAME_POINT, 1, i) for i, leg in enumerate(b)]
    )
    open_legs: tuple[list[int], list[int]] = ([], [])
    sides = (a, b)
    found: list[tuple[int, int]] = []
    for left, side, index in events:
        box = sides[side][index].bounds.grown(SAME_POINT)
        other = 1 - side
        legs = sides[other]
        open_legs[other][:] = [i for i in open_legs[other] if legs[i].bounds.max_x + SAME_POINT >= left]
        for i in open_legs[other]:
            if legs[i].bounds.overlaps(box):
                found.append((index, i) if side == 0 else (i, index))
        open_legs[side].append(index)
    return sorted(found)


def path_intersections(a: Walk, b: Walk) -> list[Meeting]:
    """All places two paths share, in the order of the first; each place once."""
    found: list[Meeting] = []
    for i, j in near_pairs(a.legs, b.legs):
        for s_a, s_b, point in leg_intersections(a.legs[i], b.legs[j]):
            found.append(Meeting(_from_start(a, i, s_a), _from_start(b, j, s_b), point))
    return _each_once(found)


def _from_start(path: Walk, index: int, along: float) -> float:
    """A place of a leg as length from the start of its path; the start and end of a closed one are the same place."""
    place = path.starts[index] + along
    return 0.0 if _is_closed(path) and path.length - place <= SAME_POINT else place


def _is_closed(path: Walk) -> bool:
    return path.start.distance_to(path.end) <= SAME_POINT


def path_overlaps(a: Walk, b: Walk) -> list[Overlap]:
    """All stretches that two paths lie on each other, in the order of the first."""
    found: list[Overlap] = []
    for i, j in near_pairs(a.legs, b.legs):
        at_a, at_b = a.starts[i], b.starts[j]
        for low_a, high_a, low_b, high_b in leg_overlap(a.legs[i], b.legs[j]):
            found.append(Overlap(at_a + low_a, at_a + high_a, at_b + low_b, at_b + high_b))
    return sorted(found)


def self_intersections(path: Walk) -> list[Meeting]:
    """All places a path meets itself, but for the corners where its own legs follow on each other."""
    found: list[Meeting] = []
    for i, j in near_pairs(path.legs, path.legs):
        if i >= j:
            continue
        for s_a, s_b, point in leg_intersections(path.legs[i], path.legs[j]):
            place_a, place_b = path.starts[i] + s_a, path.starts[j] + s_b
            if not _follow_on(path, place_a, place_b):
                found.append(Meeting(place_a, place_b, point))
    return _each_once(found)


def _follow_on(path: Walk, s_a: float, s_b: float) -> bool:
    """True when two places are one place of the walk, such as the end of a leg and the start of the next."""
    apart = abs(s_b - s_a)
    near = 8 * SAME_POINT
    return apart <= near or (_is_closed(path) and path.length - apart <= near)


def _each_once(meetings: list[Meeting]) -> list[Meeting]:
    """Sorted, without the repeats that come of a corner belonging to two legs."""
    found: list[Meeting] = []
    for meeting in sorted(meetings, key=_by_place):
        again = any(
            abs(old.s_a - meeting.s_a) <= 4 * SAME_POINT and abs(old.s_b - meeting.s_b) <= 4 * SAME_POINT
            for old in found[-4:]
        )
        if not again:
            found.append(meeting)
    return found
