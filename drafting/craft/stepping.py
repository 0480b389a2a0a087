"""Equal steps straight across, as a toothed iron walks along a line.

In comes a path of lines and arcs and a step, or a number of steps; out come the places where the holes stand. A step
is measured through the air from hole to hole, so along an arc more leather lies between two holes than the step says:
on a circle of radius R a step of c takes 2R asin(c/2R) of it.

Within one leg all steps cover the same length, so they are counted, not walked; only a step from leg to leg is
reckoned, by the crossing of the leg with a circle round the last hole. The step that ends exactly on the end of the
path is found by narrowing down: the longer the step, the farther so many steps reach.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import inf, pi

from drafting.craft.faults import CannotStep
from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.maths import asin, atan, sqrt
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass

WHOLE = 1e-9
"""A number of steps this near to a whole one is whole; rounding must not cost a hole."""

ENDS_ON_END = 1e-11
"""How near to the end the last of so many steps is brought, as a part of the length."""

MOST_TRIES = 200


@dataclass(frozen=True)
class Steps:
    """A run of equal steps within one leg: from a place, so far apart along the line, so many."""

    start: float
    apart: float
    count: int


def step_along(leg: Leg, chord: float) -> float:
    """How much of a leg a step straight across takes; endless where the leg's circle is too small for it."""
    if isinstance(leg, Arc):
        return 2 * leg.radius * asin(chord / (2 * leg.radius)) if chord <= 2 * leg.radius else inf
    return chord


def walk_steps(path: Path, chord: float) -> Iterator[Steps]:
    """The steps from the start on, leg by leg, as long as a whole step fits before the end."""
    index, along = 0, 0.0
    while True:
        leg, start = path.legs[index], path.starts[index]
        apart = step_along(leg, chord)
        count = int((leg.length - along) / apart + WHOLE)
        yield Steps(start + along, apart if count else 0.0, count)
        along = min(along + count * apart, leg.length) if count else along
        following = _cross_over(path, index, leg.point_at(along), chord)
        if following is None:
            return
        index, along = following


def _cross_over(path: Path, index: int, origin: Point, chord: float) -> tuple[int, float] | None:
    """The leg, past the one of `index`, on which a step from a hole first lands, and how far along it."""
    for later in range(index + 1, len(path.legs)):
        along = leaves_circle(path.legs[later], origin, chord)
        if along is not None:
            return later, along
    return None


def leaves_circle(leg: Leg, center: Point, radius: float) -> float | None:
    """How far along a leg that starts inside a circle first leaves it, or None when it ends inside."""
    if isinstance(leg, Arc):
        return _arc_leaves(leg, center, radius)
    offset = leg.start - center
    ahead = offset.dot(leg.direction)
    under = ahead * ahead - offset.dot(offset) + radius * radius
    along = -ahead + sqrt(max(under, 0.0))
    return max(along, 0.0) if along <= leg.length else None


def _arc_leaves(arc: Arc, center: Point, radius: float) -> float | None:
    """With v = 2R tan(turn/2) the crossings are the roots of a v² + 2b v + c, which for a huge R is that of a line."""
    offset = arc.start - center
    inward = (arc.center - arc.start) / arc.radius
    c = offset.dot(offset) - radius * radius
    if c >= 0:
        return 0.0
    b = offset.dot(arc.direction_at(0.0))
    a = 1 + offset.dot(inward) / arc.radius + c / (4 * arc.radius**2)
    under = b * b - a * c
    if under <= 0:
        return None
    # Each root by the sum that loses no digits. Where the value rises through a root, the arc leaves the circle.
    rising = -c / (b + sqrt(under)) if b >= 0 else (sqrt(under) - b) / a if a else inf
    half_turn = atan(rising / (2 * arc.radius))
    along = 2 * arc.radius * (half_turn if half_turn >= 0 else half_turn + pi)
    return along if along <= arc.length else None


def places_of(path: Path, chord: float, count: int) -> list[float]:
    """Where the holes of so many steps stand, the first at the start; fewer when the path ends before."""
    places: list[float] = []
    for steps in walk_steps(path, chord):
        places.extend(steps.start + number * steps.apart for number in range(steps.count + 1))
        if len(places) > count:
            break
    return places[: count + 1]


def reach(path: Path, chord: float, count: int) -> float:
    """How far so many steps reach. Past its end the path is taken to go on straight."""
    taken, last = -1, 0.0
    for steps in walk_steps(path, chord):
        taken += 1 + steps.count
        if taken >= count:
            return steps.start + (steps.count - (taken - count)) * steps.apart
        last = steps.start + steps.count * steps.apart
    return path.length + _past_end(path, last, chord) + (count - taken - 1) * chord


def _past_end(path: Path, last: float, chord: float) -> float:
    """How far past the end a step lands that starts at the last place before it."""
    offset = path.end - path.point_at(min(last, path.length))
    ahead = offset.dot(path.direction_before(path.length))
    return -ahead + sqrt(max(ahead * ahead - offset.dot(offset) + chord * chord, 0.0))


def steps_in(path: Path, chord: float) -> float:
    """How many steps the path holds; the last one, which does not fit, counts by its straight share."""
    taken, last = -1, 0.0
    for steps in walk_steps(path, chord):
        taken += 1 + steps.count
        last = min(steps.start + steps.count * steps.apart, path.length)
    return taken + path.point_at(last).distance_to(path.end) / chord


def even_step(path: Path, count: int) -> float:
    """The step of which so many, straight across, lead exactly from the start to the end."""
    high = path.length / count
    low, short = high, reach(path, high, count) - path.length
    over = short
    if over <= ENDS_ON_END * path.length:
        # On a straight line the step is the pitch along it; rounding may then even fall a little short.
        return high
    while short > 0 and low > high / 2**60:
        low /= 2
        short = reach(path, low, count) - path.length
    return _narrowed(path, count, low, high, short, over)


def _narrowed(path: Path, count: int, low: float, high: float, short: float, over: float) -> float:
    """False position that halves the weight of an end that stays, so that both ends close in."""
    held, middle, miss = 0, high, over
    for _ in range(MOST_TRIES):
        middle = (low * over - high * short) / (over - short)
        if not low < middle < high:
            middle = (low + high) / 2
        miss = reach(path, middle, count) - path.length
        if abs(miss) <= ENDS_ON_END * path.length or high - low <= 1e-16 * high:
            break
        if miss > 0:
            high, over = middle, miss
            short, held = (short / 2 if held == 1 else short), 1
        else:
            low, short = middle, miss
            over, held = (over / 2 if held == -1 else over), -1
    if abs(miss) > SAME_POINT:
        raise CannotStep(_turning_back(path, middle, count))
    return middle


def _turning_back(path: Path, chord: float, count: int) -> Point:
    """Where the path turns most, which is where equal steps fail."""
    corners = sorted(zip((abs(turn) for turn in path.turns), path.corner_places, strict=True))
    at = corners[-1][1] if corners else places_of(path, chord, count)[-1]
    return path.point_at(min(at, path.length))
