"""One number torn out: walked over all it can be, while the rest of the block is solved one by one.

The number is an unknown measure between its bounds, the angle on a circle (or place on a line) that a point is bound to
by one of its facts, or a coordinate. For each of its values the other points follow one by one, on some branches, and
one equation is left over. Where that equation changes its sign, or just touches nought, there is a solution. As the
number is walked over its whole range, all solutions are found, in nearly all cases without any start to guess.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from drafting.geometry import maths as math
from drafting.geometry.arc import Arc
from drafting.records import dataclass
from drafting.solve.coupled.sequence import Order, Sequencer
from drafting.solve.layout import Layout
from drafting.solve.loci import LocusSource, locus_source
from drafting.solve.meeting import Locus
from drafting.solve.steps import Unsolved, origin_of
from drafting.solve.structure import inputs_of, outputs_of

Values = list[Any]
MOST_BRANCHES = 64
FARTHEST = 1e-3
"""How near to its ends a walk along an endless line goes: to 2000 times the size of the block."""


@dataclass(frozen=True)
class Walk:
    """One stretch to walk: `put` sets the slots for a parameter (a number or an array) between low and high."""

    low: float
    high: float
    is_closed: bool
    """Whether it comes back to its start, as a circle does."""
    put: Callable[[Values, Any], None]


@dataclass(frozen=True)
class Torn:
    """A way to solve a block: what is walked, and the rest in order. `closing` is the equation left over."""

    slots: tuple[int, ...]
    equation: int | None
    order: Order
    closing: int
    walks: Callable[[Values], list[Walk]]


def find_tearing(layout: Layout, sequencer: Sequencer) -> Torn | None:
    """The tearing with the fewest branches, numbers and circles first; None when one number is not enough.

    Blocks of one shape are torn alike, so the search is made once for a shape.
    """
    shape = _shape(layout, sequencer)
    tears = list(_tears(layout, sequencer))
    if shape in _RECIPES:
        recipe = _RECIPES[shape]
        return None if recipe is None else _torn(layout, sequencer, tears[recipe])
    best: Torn | None = None
    best_score = math.inf
    _RECIPES[shape] = None
    for number, tear in enumerate(tears):
        torn = _torn(layout, sequencer, tear)
        score = math.inf if torn is None else _score(layout, torn)
        if torn is not None and score < best_score and torn.order.n_branches <= MOST_BRANCHES:
            best, best_score, _RECIPES[shape] = torn, score, number
    return best


_RECIPES: dict[tuple[object, ...], int | None] = {}


def _shape(layout: Layout, sequencer: Sequencer) -> tuple[object, ...]:
    """What two blocks have in common that differ in their names and numbers only."""
    number = {slot: index for index, slot in enumerate((*sequencer.unknowns, *sorted(sequencer.made)))}
    shape: list[object] = [len(sequencer.unknowns)]
    shape += [slot in sequencer.pair_of for slot in sequencer.unknowns]
    shape += [
        slot in layout.ranges and number.keys().isdisjoint(layout.ranges[slot]) for slot in sequencer.unknowns
    ]
    for e in sequencer.equations:
        equation = layout.equations[e]
        points = tuple([number.get(slot, -1) for pair in equation.points for slot in pair])
        reads = tuple([number[slot] for slot in equation.reads if slot in number])
        shape.append((equation.form.name, equation.merge, points, reads))
    for transit in sequencer.transits:
        node = layout.transits[transit]
        inner = tuple([number[slot] for slot in inputs_of(node) if slot in number])
        shape.append((type(node).__name__, inner, tuple([number[slot] for slot in outputs_of(node)])))
    return tuple(shape)


def _score(layout: Layout, torn: Torn) -> float:
    """Branches to follow; a coordinate, which may run to the ends of the world, only where nothing else will do."""
    if torn.equation is not None:
        is_circle = layout.equations[torn.equation].form.name in ("distance", "on_path")
        return torn.order.n_branches + (0.0 if is_circle else 0.5)
    is_number = len(torn.slots) == 1 and layout.names[torn.slots[0]] in layout.system.nodes
    return torn.order.n_branches + (0.25 if is_number else 100.0)


@dataclass(frozen=True)
class _Tear:
    """A number that may be torn out: a slot, or a point bound to the locus of an equation."""

    slots: tuple[int, ...]
    equation: int | None = None


def _tears(layout: Layout, sequencer: Sequencer) -> Iterator[_Tear]:
    unknowns = set(sequencer.unknowns)
    inner = unknowns | sequencer.made
    for slot in sequencer.unknowns:
        if slot not in sequencer.pair_of and inner.isdisjoint(layout.ranges[slot]):
            yield _Tear((slot,))
    pairs = dict.fromkeys(sequencer.pair_of[slot] for slot in sequencer.unknowns if slot in sequencer.pair_of)
    for pair in pairs:
        for e in sequencer.equations if unknowns.issuperset(pair) else ():
            if inner.intersection(layout.equations[e].reads) == set(pair):
                yield _Tear(pair, e)
    for slot in sequencer.unknowns:
        if slot in sequencer.pair_of:
            yield _Tear((slot,))


def _torn(layout: Layout, sequencer: Sequencer, tear: _Tear) -> Torn | None:
    """The rest in order, when it follows from the torn number and leaves one equation over."""
    if tear.equation is not None:
        pair = tear.slots[0], tear.slots[1]
        source = locus_source(layout.equations[tear.equation], pair)
        if source is None:
            return None
        walks = _locus_walks(layout, sequencer, source, pair)
    elif tear.slots[0] in sequencer.pair_of:
        walks = _coordinate_walk(layout, sequencer, tear.slots[0])
    else:
        walks = _number_walk(layout, tear.slots[0])
    used = () if tear.equation is None else (tear.equation,)
    order = sequencer.sequence(tear.slots, used)
    if order.unreached or len(order.left_over) != 1:
        return None
    return Torn(tear.slots, tear.equation, order, order.left_over[0], walks)


def _number_walk(layout: Layout, slot: int) -> Callable[[Values], list[Walk]]:
    low_slot, high_slot = layout.ranges[slot]

    def walks(values: Values) -> list[Walk]:
        low, high = values[low_slot], values[high_slot]
        if low > high:
            return []

        def put(values: Values, parameter: Any) -> None:
            values[slot] = parameter

        return [Walk(low, high, False, put)]

    return walks


def _locus_walks(
    layout: Layout, sequencer: Sequencer, source: LocusSource, pair: tuple[int, int]
) -> Callable[[Values], list[Walk]]:
    origin = _known_place(layout, sequencer, source, pair)

    def walks(values: Values) -> list[Walk]:
        x, y = origin_of(origin, values)
        found: list[Walk] = []
        size = _size_of(layout, sequencer, values)
        for locus, leg in source.loci(values, x, y):
            walk = _walk_of(locus, leg, x, y, size, pair)
            if walk is not None:
                found.append(walk)
        if not found:
            raise Unsolved()
        return found

    return walks


def _known_place(
    layout: Layout, sequencer: Sequencer, source: LocusSource, pair: tuple[int, int]
) -> tuple[int, int]:
    for operand in source.equation.points:
        if operand != pair and set(operand) <= set(source.equation.reads):
            return operand
    return -1, -1


def _walk_of(locus: Locus, leg: Any, x: float, y: float, size: float, pair: tuple[int, int]) -> Walk | None:
    slot_x, slot_y = pair
    k, a, b, c = locus
    if k != 0.0:
        center_x, center_y = -a / (2 * k), -b / (2 * k)
        radius_squared = center_x * center_x + center_y * center_y - c / k
        if not radius_squared >= 0.0:
            return None
        radius = math.sqrt(radius_squared)

        def put_on_circle(values: Values, angle: Any) -> None:
            cos, sin = _cos_sin(angle)
            values[slot_x] = x + center_x + radius * cos
            values[slot_y] = y + center_y + radius * sin

        if isinstance(leg, Arc):
            ends = sorted((leg.start_angle, leg.start_angle + leg.sweep))
            return Walk(ends[0], ends[1], False, put_on_circle)
        return Walk(0.0, 2 * math.pi, True, put_on_circle)
    length_squared = a * a + b * b
    if not length_squared > 0.0:
        return None
    foot_x, foot_y = -a * c / length_squared, -b * c / length_squared
    way_x, way_y = -b / math.sqrt(length_squared), a / math.sqrt(length_squared)

    def put_on_line(values: Values, half_angle: Any) -> None:
        s = size * _tan(half_angle)
        values[slot_x] = x + foot_x + s * way_x
        values[slot_y] = y + foot_y + s * way_y

    if leg is not None:
        ends = sorted(
            math.atan(((end.x - x - foot_x) * way_x + (end.y - y - foot_y) * way_y) / size)
            for end in (leg.start, leg.end)
        )
        return Walk(ends[0], ends[1], False, put_on_line)
    return Walk(-math.pi / 2 + FARTHEST / 2, math.pi / 2 - FARTHEST / 2, False, put_on_line)


def _coordinate_walk(layout: Layout, sequencer: Sequencer, slot: int) -> Callable[[Values], list[Walk]]:
    index = 0 if sequencer.pair_of[slot][0] == slot else 1

    def walks(values: Values) -> list[Walk]:
        size = _size_of(layout, sequencer, values)
        middle = _middle_of(layout, sequencer, values, index)

        def put(values: Values, half_angle: Any) -> None:
            values[slot] = middle + size * _tan(half_angle)

        return [Walk(-math.pi / 2 + FARTHEST / 2, math.pi / 2 - FARTHEST / 2, False, put)]

    return walks


def _size_of(layout: Layout, sequencer: Sequencer, values: Values) -> float:
    """The largest length or distance from the middle that the block's facts speak of."""
    lengths = [layout.equations[e] for e in sequencer.equations]
    slots = [slot for one in lengths if one.form.name not in ("angle", "ray") for slot in one.scalars]
    known = [values[slot] for slot in slots if isinstance(values[slot], float) or math.varies(values[slot])]
    size = math.most(0.0, 0.0, *(abs(value) for value in known))
    for index in (0, 1):
        at = _known_coordinates(layout, sequencer, values, index)
        if at:
            low, high = _ends(at)
            size = math.most(size, high - low)
    return size or 100.0


def _middle_of(layout: Layout, sequencer: Sequencer, values: Values, index: int) -> float:
    at = _known_coordinates(layout, sequencer, values, index)
    return sum(_ends(at)) / 2 if at else 0.0


def _ends(at: list[float]) -> tuple[float, float]:
    return math.least(at[0], *at), math.most(at[0], *at)


def _known_coordinates(layout: Layout, sequencer: Sequencer, values: Values, index: int) -> list[float]:
    inner = set(sequencer.unknowns) | sequencer.made
    return [
        values[pair[index]]
        for e in sequencer.equations
        for pair in layout.equations[e].points
        if pair[index] not in inner and pair[index] in layout.equations[e].reads
    ]


def _cos_sin(angle: Any) -> tuple[Any, Any]:
    if isinstance(angle, float) or math.varies(angle):
        return math.cos(angle), math.sin(angle)
    import numpy

    return numpy.cos(angle), numpy.sin(angle)


def _tan(angle: Any) -> Any:
    if isinstance(angle, float) or math.varies(angle):
        return math.tan(angle)
    import numpy

    return numpy.tan(angle)
