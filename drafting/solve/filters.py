"""What picks among places: the maker's choices, and the conditions that equations cannot say.

A filter tests a finished place, or compares the places (nearest). It reads slots only, so it can be tested again at
every size.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from drafting.geometry import maths as math
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_DIRECTION, SAME_POINT
from drafting.solve.layout import RING_CHOICES, Layout
from drafting.solve.on_paths import touch_of_line
from drafting.solve.roots import cosine, sine
from drafting.solve.system import Choice, Fact, Tag

Values = list[Any]
Test = Callable[[Values], Any]
"""True or False; for arrays of values an array of them."""

Measure = Callable[[Values], Any]


@dataclass(frozen=True, slots=True)
class Filter:
    """`test` says whether a place may stay; or `measure` gives an amount of which the smallest may stay.

    `subject` are the slots of the place it speaks of, `reads` all slots it needs.
    """

    tag: Tag
    is_choice: bool
    kind: str
    key: str
    subject: tuple[int, ...]
    reads: tuple[int, ...]
    test: Test | None = None
    measure: Measure | None = None


def filter_of_choice(layout: Layout, choice: Choice) -> Filter:
    place = layout.point(choice.point)
    if choice.kind in RING_CHOICES:
        ring = layout.slot(choice.operands[0])
        return Filter(
            choice.tag,
            True,
            choice.kind,
            choice.point,
            place,
            (*place, ring),
            test=_in_ring(choice.kind, place, ring),
        )
    operands = [layout.point(key) for key in choice.operands]
    reads = (*place, *[slot for pair in operands for slot in pair])
    test = measure = None
    if choice.kind in ("nearest", "farthest from"):
        measure = _distance(place, operands[0], 1.0 if choice.kind == "nearest" else -1.0)
    elif len(operands) == 1:
        test = _beside_point(choice.kind, place, operands[0])
    else:
        test = _beside_line(choice.kind, place, operands[0], operands[1])
    return Filter(choice.tag, True, choice.kind, choice.point, place, reads, test, measure)


def filter_of_range(layout: Layout, slot: int) -> Filter:
    """A number to be found lies between its bounds."""
    key = layout.names[slot]
    low, high = layout.ranges[slot]
    tag = getattr(layout.system.nodes[key], "tag", None)
    return Filter(tag, False, "range", key, (slot,), (slot, low, high), test=_in_range(slot, low, high))


def condition_of_fact(layout: Layout, fact: Fact) -> Filter | None:
    """What a fact asks for beside its equations, if anything. That a point lies on a leg of a path is seen to where
    the leg is known."""
    condition = fact.kind.condition
    if condition is None or condition == "on path":
        return None
    points = [layout.point(key) for key in fact.points]
    scalars = [layout.scalar(bound) for bound in fact.scalars]
    test: Test
    if condition == "ray":
        test = _on_ray(points[0], points[1], scalars[0])
    elif condition == "between":
        test = _on_stretch(points[0], points[1], points[2])
    elif condition == "angle":
        test = _has_angle(points[0], points[1], points[2], scalars[0])
    elif condition == "apart":
        test = _apart(*points)
    else:
        objects = layout.slot(fact.objects[0])
        test = _touches(points[0], points[1], objects)
    reads = (
        *(slot for pair in points for slot in pair),
        *scalars,
        *(layout.slot(key) for key in fact.objects),
    )
    return Filter(fact.tag, False, condition, fact.points[0], points[0], reads, test)


Pair = tuple[int, int]


def _beside_point(kind: str, place: Pair, other: Pair) -> Test:
    """Strictly on the side named: a place level with `other` is neither above it nor below."""
    index = 1 if kind in ("above", "below") else 0
    sign = 1.0 if kind in ("above", "right of") else -1.0
    mine, its = place[index], other[index]

    def test(values: Values) -> Any:
        return (values[mine] - values[its]) * sign > SAME_POINT

    return test


def _beside_line(kind: str, place: Pair, start: Pair, end: Pair) -> Test:
    """Above a line is above the point of the line straight below. A plumb line has no above, a level one no left."""
    (px, py), (ax, ay), (bx, by) = place, start, end
    is_level_question = kind in ("above", "below")
    sign = 1.0 if kind in ("above", "right of") else -1.0

    def test(values: Values) -> Any:
        way_x, way_y = values[bx] - values[ax], values[by] - values[ay]
        turn = way_x * (values[py] - values[ay]) - way_y * (values[px] - values[ax])
        across = way_x if is_level_question else -way_y
        off = sign * turn * across
        return (abs(across) > SAME_POINT) & (off > SAME_POINT * length(way_x, way_y) * abs(across))

    return test


def length(x: Any, y: Any) -> Any:
    """Of a move, or of an array of moves."""
    if isinstance(x, float) and isinstance(y, float):
        return math.hypot(x, y)
    return (x * x + y * y) ** 0.5


def _distance(place: Pair, other: Pair, sign: float) -> Measure:
    (px, py), (qx, qy) = place, other
    return lambda values: sign * length(values[px] - values[qx], values[py] - values[qy])


def _in_ring(kind: str, place: Pair, ring: int) -> Test:
    wanted = kind == "inside"
    return lambda values: values[ring].contains(Point(values[place[0]], values[place[1]])) == wanted


def _on_ray(place: Pair, start: Pair, angle: int) -> Test:
    (px, py), (qx, qy) = place, start

    def test(values: Values) -> Any:
        degrees = values[angle]
        way = (values[px] - values[qx]) * cosine(degrees) + (values[py] - values[qy]) * sine(degrees)
        return way >= -SAME_POINT

    return test


def _on_stretch(place: Pair, start: Pair, end: Pair) -> Test:
    (px, py), (ax, ay), (bx, by) = place, start, end

    def test(values: Values) -> Any:
        way_x, way_y = values[bx] - values[ax], values[by] - values[ay]
        squared = way_x * way_x + way_y * way_y
        slack = SAME_POINT * length(way_x, way_y)
        along = (values[px] - values[ax]) * way_x + (values[py] - values[ay]) * way_y
        return (squared > 0.0) & (along >= -slack) & (along <= squared + slack)

    return test


def _has_angle(start: Pair, vertex: Pair, end: Pair, angle: int) -> Test:
    """Both arms have a length, and the angle is the one asked for: not its half turn more, nor what it lacks to one."""
    (ax, ay), (vx, vy), (bx, by) = start, vertex, end

    def test(values: Values) -> Any:
        px, py = values[ax] - values[vx], values[ay] - values[vy]
        qx, qy = values[bx] - values[vx], values[by] - values[vy]
        turn, along = abs(px * qy - py * qx), px * qx + py * qy
        degrees = values[angle]
        has_arms = (length(px, py) > SAME_POINT) & (length(qx, qy) > SAME_POINT)
        in_range = (degrees >= 0.0) & (degrees <= 180.0)
        across = cosine(degrees)
        same_turn = along * across + turn * sine(degrees) > 0.0
        same_side = along * across >= -SAME_DIRECTION * abs(across) * length(px, py) * length(qx, qy)
        return has_arms & in_range & same_turn & same_side

    return test


def _apart(*points: Pair) -> Test:
    """Both stretches have a length, else a direction would mean nothing."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = points

    def test(values: Values) -> Any:
        first = length(values[bx] - values[ax], values[by] - values[ay])
        second = length(values[dx] - values[cx], values[dy] - values[cy])
        return (first > SAME_POINT) & (second > SAME_POINT)

    return test


def _touches(start: Pair, end: Pair, path: int) -> Test:
    def test(values: Values) -> Any:
        line = (values[start[0]], values[start[1]], values[end[0]], values[end[1]])
        return touch_of_line(values[path], *line) is not None

    return test


def _in_range(slot: int, low: int, high: int) -> Test:
    return lambda values: (
        (values[slot] >= values[low] - SAME_POINT) & (values[slot] <= values[high] + SAME_POINT)
    )


def keep(
    filters: Sequence[Filter], values: Values, outputs: Sequence[int], places: list[Any]
) -> FilterResult:
    """Put each filter to the places in turn; `places` are the values of `outputs`."""
    used: list[Filter] = []
    for one in filters:
        left = _kept(one, values, outputs, places)
        if not left:
            return FilterResult([], used, one, places)
        if len(left) < len(places):
            used.append(one)
        places = left
    return FilterResult(places, used, None, places)


@dataclass(frozen=True)
class FilterResult:
    """The places kept, the filters that took some away, and the one that took the last (and from which)."""

    places: list[Any]
    used: list[Filter]
    refuses: Filter | None
    before: list[Any]


def _kept(one: Filter, values: Values, outputs: Sequence[int], places: list[Any]) -> list[Any]:
    amounts: list[float] = []
    left: list[Any] = []
    for place in places:
        for slot, value in zip(outputs, place, strict=True):
            values[slot] = value
        if one.test is not None:
            if one.test(values):
                left.append(place)
        elif one.measure is not None:
            amounts.append(one.measure(values))
    if one.measure is None:
        return left
    least = min(amounts)
    return [place for place, amount in zip(places, amounts, strict=True) if amount <= least + SAME_POINT]
