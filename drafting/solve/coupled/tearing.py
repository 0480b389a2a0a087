"""One number torn out: walked over all it can be, while the rest of the block is solved one by one.

The number is an unknown measure between its bounds, the angle on a circle (or place on a line) that a point is bound to
by one of its facts, or a coordinate. For each of its values the other points follow one by one, on some branches, and
one equation is left over. Where that equation changes its sign, or just touches nought, there is a solution. As the
number is walked over its whole range, all solutions are found, in nearly all cases without any start to guess.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from drafting.geometry.arc import Arc
from drafting.solve.coupled.sequence import Order, Sequencer
from drafting.solve.layout import Layout
from drafting.solve.loci import LocusSource, locus_source
from drafting.solve.meeting import Locus
from drafting.solve.slopes import equation_value, equation_values
from drafting.solve.steps import Block, Unsolved, origin_of
from drafting.solve.structure import inputs_of, outputs_of
from drafting.solve.verify import allowance, misfit

Values = list[Any]
SAMPLES = 240
"""Places at which the number is tried over its range before solutions are closed in on."""

SLOW_SAMPLES = 96
"""The same where each try runs functions of the caller's."""

MOST_BRANCHES = 64
MOST_CHANGES = 12
"""Changes of sign on one branch that a pattern's facts can give."""

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


@dataclass(frozen=True)
class Root:
    """A solution: the values of the block's unknowns. `is_touch` where nought is touched and not crossed."""

    numbers: tuple[float, ...]
    is_touch: bool


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
    shape += [slot in layout.ranges and number.keys().isdisjoint(layout.ranges[slot]) for slot in sequencer.unknowns]
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


def _walk_of(
    locus: Locus, leg: Any, x: float, y: float, size: float, pair: tuple[int, int]
) -> Walk | None:
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
    known = [
        values[slot]
        for e in sequencer.equations
        for slot in layout.equations[e].scalars
        if isinstance(values[slot], float) and layout.equations[e].form.name not in ("angle", "ray")
    ]
    size = max((abs(value) for value in known), default=0.0)
    for index in (0, 1):
        at = _known_coordinates(layout, sequencer, values, index)
        if at:
            size = max(size, max(at) - min(at))
    return size or 100.0


def _middle_of(layout: Layout, sequencer: Sequencer, values: Values, index: int) -> float:
    at = _known_coordinates(layout, sequencer, values, index)
    return (min(at) + max(at)) / 2 if at else 0.0


def _known_coordinates(
    layout: Layout, sequencer: Sequencer, values: Values, index: int
) -> list[float]:
    inner = set(sequencer.unknowns) | sequencer.made
    return [
        values[pair[index]]
        for e in sequencer.equations
        for pair in layout.equations[e].points
        if pair[index] not in inner and pair[index] in layout.equations[e].reads
    ]


def _cos_sin(angle: Any) -> tuple[Any, Any]:
    if isinstance(angle, float):
        return math.cos(angle), math.sin(angle)
    import numpy

    return numpy.cos(angle), numpy.sin(angle)


def _tan(angle: Any) -> Any:
    if isinstance(angle, float):
        return math.tan(angle)
    import numpy

    return numpy.tan(angle)


# Walking

Trace = tuple[list[float], list[float]]
"""Parameters, and how far the closing equation is off at each."""

Branch = tuple[int, ...]
"""Which place was taken at each step that has several."""


@dataclass
class Tracer:
    """Follows single branches of a torn block."""

    layout: Layout
    torn: Torn
    unknowns: tuple[int, ...]
    values: Values
    works_on_arrays: bool = True

    def off(self, walk: Walk, branch: Sequence[int], parameter: float) -> float:
        """How far the closing equation is off on a branch; not a number where the branch does not exist."""
        walk.put(self.values, parameter)
        if not self._follow(branch):
            return math.nan
        return equation_value(self.layout, self.layout.equations[self.torn.closing], self.values)

    def _follow(self, branch: Sequence[int]) -> bool:
        taken = iter(branch)
        for step in self.torn.order.steps:
            if not isinstance(step, Block):
                try:
                    step.run(self.values)
                except Exception:  # noqa: BLE001 - a caller's function may not be defined everywhere
                    return False
                continue
            branches = step.branches(self.values)
            index = next(taken)
            place = branches[index] if index < len(branches) else None
            if place is None or place[0] != place[0]:
                return False
            for slot, value in zip(step.outputs, place, strict=True):
                self.values[slot] = value
        return True

    def numbers(self) -> tuple[float, ...]:
        return tuple(self.values[slot] for slot in self.unknowns)


def all_roots(tracer: Tracer) -> tuple[list[Root], float]:
    """Every solution that the walks meet, and the smallest amount by which the closing equation was missed."""
    roots: list[Root] = []
    nearest = math.inf
    for walk in tracer.torn.walks(tracer.values):
        traces = _sampled(tracer, walk)
        for branch in traces:
            _expect_not_always(tracer, walk, branch, traces[branch])
            parameters, offs = _with_ends(tracer, walk, branch, traces)
            found, least = _roots_on_branch(tracer, walk, branch, parameters, offs)
            roots += found
            nearest = min(nearest, least)
    return roots, nearest


def _expect_not_always(tracer: Tracer, walk: Walk, branch: Branch, trace: Trace) -> None:
    """An equation that holds all along a branch says nothing new: there are places without end.

    It shows as rounding that changes its sign again and again; then a few places are looked at closely.
    """
    parameters, offs = trace
    n_changes = sum(1 for one, other in zip(offs, offs[1:], strict=False) if one * other <= 0)
    if n_changes <= MOST_CHANGES:
        return
    there = [parameter for parameter, off in zip(parameters, offs, strict=True) if off == off]
    closing = tracer.layout.equations[tracer.torn.closing]
    for parameter in there[:: max(1, len(there) // 5)]:
        tracer.off(walk, branch, parameter)
        if not abs(misfit(closing, tracer.values)) <= allowance(closing, tracer.values):
            return
    raise Unsolved(same=True)


def _sampled(tracer: Tracer, walk: Walk) -> dict[Branch, Trace]:
    """For each branch the closing equation at places all over the walk."""
    many = _sampled_on_arrays(tracer, walk)
    if many is not None:
        return many
    parameters = _places(walk, SLOW_SAMPLES)
    found: dict[Branch, list[float]] = {}
    for number, parameter in enumerate(parameters):
        walk.put(tracer.values, parameter)
        for branch, off in _all_offs(tracer, tracer.torn.order.steps, ()):
            found.setdefault(branch, [math.nan] * len(parameters))[number] = off
    return {branch: (parameters, offs) for branch, offs in found.items()}


def _places(walk: Walk, count: int) -> list[float]:
    step = (walk.high - walk.low) / count
    return [walk.low + number * step for number in range(count)] + [walk.high]


def _all_offs(tracer: Tracer, steps: Sequence[Any], branch: Branch) -> Iterator[tuple[Branch, float]]:
    values = tracer.values
    for number, step in enumerate(steps):
        if not isinstance(step, Block):
            try:
                step.run(values)
            except Exception:  # noqa: BLE001 - a caller's function may not be defined everywhere
                return
            continue
        for index, place in enumerate(step.branches(values)):
            if place is None or place[0] != place[0]:
                continue
            for slot, value in zip(step.outputs, place, strict=True):
                values[slot] = value
            yield from _all_offs(tracer, steps[number + 1 :], (*branch, index))
        return
    yield branch, equation_value(tracer.layout, tracer.layout.equations[tracer.torn.closing], values)


def all_ends(
    steps: Sequence[Any], values: Values, unknowns: tuple[int, ...]
) -> Iterator[tuple[float, ...]]:
    """The unknowns at the end of every branch of steps that leave no equation over."""
    for number, step in enumerate(steps):
        if not isinstance(step, Block):
            try:
                step.run(values)
            except Exception:  # noqa: BLE001 - a caller's function may not be defined everywhere
                return
            continue
        for place in step.branches(values):
            if place is None or place[0] != place[0]:
                continue
            for slot, value in zip(step.outputs, place, strict=True):
                values[slot] = value
            yield from all_ends(steps[number + 1 :], values, unknowns)
        return
    yield tuple(values[slot] for slot in unknowns)


def _sampled_on_arrays(tracer: Tracer, walk: Walk) -> dict[Branch, Trace] | None:
    """The same on arrays, all places at once; None when some step cannot work on arrays."""
    if not tracer.works_on_arrays:
        return None
    import numpy

    values = tracer.values
    parameters = numpy.linspace(walk.low, walk.high, SAMPLES + 1)
    walk.put(values, parameters)
    outputs: list[int] = []
    branches: list[tuple[Branch, tuple[Any, ...]]] = [((), ())]
    for step in tracer.torn.order.steps:
        grown: list[tuple[Branch, tuple[Any, ...]]] = []
        for branch, numbers in branches:
            for slot, number in zip(outputs, numbers, strict=True):
                values[slot] = number
            if isinstance(step, Block):
                for index, place in enumerate(step.many_branches(values)):
                    if not numpy.all(numpy.isnan(place[0])):
                        grown.append(((*branch, index), (*numbers, *place)))
            else:
                step.run_many(values)
                grown.append((branch, (*numbers, values[step.node.output])))
        branches = grown
        outputs += step.outputs
    found: dict[Branch, Trace] = {}
    places = parameters.tolist()
    closing = tracer.layout.equations[tracer.torn.closing]
    for branch, numbers in branches:
        for slot, number in zip(outputs, numbers, strict=True):
            values[slot] = number
        offs = numpy.broadcast_to(equation_values(closing, values), parameters.shape)
        found[branch] = (places, offs.tolist())
    return found


def _with_ends(tracer: Tracer, walk: Walk, branch: Branch, traces: dict[Branch, Trace]) -> Trace:
    """A trace with the places added where the branch begins and ends, for there it may still cross nought."""
    parameters, offs = traces[branch]
    ends = [
        index
        for index in range(len(offs) - 1)
        if (offs[index] == offs[index]) != (offs[index + 1] == offs[index + 1])
    ]
    if not ends:
        return parameters, offs
    new_parameters, new_offs = list(parameters), list(offs)
    for index in reversed(ends):
        inside = index if offs[index] == offs[index] else index + 1
        if _safely_one_sided(branch, traces, inside, 2 * inside - (2 * index + 1) > 0):
            continue
        parameter = _end_of_branch(tracer, walk, branch, parameters[inside], parameters[2 * index + 1 - inside])
        new_parameters.insert(index + 1, parameter)
        new_offs.insert(index + 1, tracer.off(walk, branch, parameter))
    return new_parameters, new_offs


def _safely_one_sided(branch: Branch, traces: dict[Branch, Trace], inside: int, inside_is_after: bool) -> bool:
    """Whether a branch keeps its sign up to its end, where it folds over into its twin.

    The mean of the twins runs on smoothly to the fold, and each lies within half their distance of it.
    """
    further = inside + 1 if inside_is_after else inside - 1
    offs = traces[branch][1]
    if not 0 <= further < len(offs) or offs[further] != offs[further]:
        return False
    for position, index in enumerate(branch):
        twin = traces.get((*branch[:position], index ^ 1, *branch[position + 1 :]))
        if twin is None or twin[1][inside] != twin[1][inside] or twin[1][further] != twin[1][further]:
            continue
        mean = (offs[inside] + twin[1][inside]) / 2
        mean_further = (offs[further] + twin[1][further]) / 2
        fold = 2 * mean - mean_further
        spread = abs(offs[inside] - twin[1][inside])
        if mean * fold > 0 and min(abs(mean), abs(fold)) > 0.75 * spread and mean * offs[inside] > 0:
            return True
    return False


def _end_of_branch(tracer: Tracer, walk: Walk, branch: Branch, inside: float, outside: float) -> float:
    """The last place on a branch, by halving."""
    for _ in range(40):
        middle = (inside + outside) / 2
        off = tracer.off(walk, branch, middle)
        if off == off:
            inside = middle
        else:
            outside = middle
    return inside


def _roots_on_branch(
    tracer: Tracer, walk: Walk, branch: Branch, parameters: list[float], offs: list[float]
) -> tuple[list[Root], float]:
    roots: list[Root] = []
    for index in _crossed(offs):
        parameter = _crossing(
            tracer, walk, branch, parameters[index], offs[index], parameters[index + 1], offs[index + 1]
        )
        roots.append(_root_at(tracer, walk, branch, parameter, False))
    last = len(offs) - 1
    for index in _lows(offs):
        if offs[index] == 0.0:
            roots.append(_root_at(tracer, walk, branch, parameters[index], False))
        elif _is_low(offs, index, walk.is_closed):
            before = parameters[index - 1] if index > 0 else parameters[index]
            beyond = parameters[index + 1] if index < last else parameters[index]
            if index in (0, last) and walk.is_closed:
                step = parameters[1] - parameters[0]
                before, beyond = parameters[index] - step, parameters[index] + step
            roots += _low_roots(tracer, walk, branch, before, parameters[index], beyond, offs[index])
    return roots, min((abs(off) for off in offs if off == off), default=math.inf)


def _crossed(offs: list[float]) -> list[int]:
    """Where the sign changes from one place to the next."""
    return [index for index, (one, other) in enumerate(zip(offs, offs[1:], strict=False)) if one * other < 0.0]


def _lows(offs: list[float]) -> list[int]:
    """Where the amount is no larger than beside, ends of the branch among them."""
    amounts = [math.inf if off != off else abs(off) for off in (math.inf, *offs, math.inf)]
    return [
        index
        for index, (before, here, after) in enumerate(zip(amounts, amounts[1:], amounts[2:], strict=False))
        if here <= before and here <= after and here < math.inf
    ]


def _is_low(offs: list[float], index: int, is_closed: bool) -> bool:
    """Whether a place of least amount may touch nought or dip below it between the places tried."""
    here = abs(offs[index])
    last = len(offs) - 1
    if is_closed and index == last:
        return False
    before = offs[index - 1] if index > 0 else (offs[last - 1] if is_closed else math.nan)
    after = offs[index + 1] if index < last else math.nan
    if before * offs[index] < 0 or after * offs[index] < 0:
        return False
    if before != before and after != after:
        return True
    if before != before or after != after:
        beside = after if before != before else before
        return here < 0.1 * abs(abs(beside) - here) + NEARLY_NOUGHT
    if here > abs(before) or here > abs(after):
        return False
    bend = abs(before) + abs(after) - 2 * here
    slope = (abs(after) - abs(before)) / 2
    dip = here - (slope * slope / (2 * bend) if bend > 0 else 0.0)
    return dip < 0.25 * bend


NEARLY_NOUGHT = 1e-9


def _low_roots(
    tracer: Tracer, walk: Walk, branch: Branch, low: float, middle: float, high: float, off: float
) -> list[Root]:
    """Where the closing equation comes near nought without crossing: two solutions, one that touches, or none."""
    sign = 1.0 if off > 0 else -1.0
    best, best_off = middle, abs(off)
    for _ in range(80):
        if high - low < 1e-13 * (1 + abs(best)):
            break
        for parameter in ((low + best) / 2, (best + high) / 2):
            trial = tracer.off(walk, branch, parameter)
            if trial != trial:
                if parameter < best:
                    low = parameter
                else:
                    high = parameter
                continue
            if trial * sign < 0:
                return _two_crossings(tracer, walk, branch, low, parameter, high, trial)
            if trial * sign < best_off:
                low, high = (low, best) if parameter < best else (best, high)
                best, best_off = parameter, trial * sign
                break
            if parameter < best:
                low = parameter
            else:
                high = parameter
    return [_root_at(tracer, walk, branch, best, True)] if best_off <= abs(off) else []


def _two_crossings(
    tracer: Tracer, walk: Walk, branch: Branch, low: float, middle: float, high: float, off: float
) -> list[Root]:
    roots = []
    for end in (low, high):
        end_off = tracer.off(walk, branch, end)
        if end_off * off < 0:
            parameter = _crossing(tracer, walk, branch, end, end_off, middle, off)
            roots.append(_root_at(tracer, walk, branch, parameter, False))
    return roots


def _root_at(tracer: Tracer, walk: Walk, branch: Branch, parameter: float, is_touch: bool) -> Root:
    tracer.off(walk, branch, parameter)
    return Root(tracer.numbers(), is_touch)


def _crossing(
    tracer: Tracer, walk: Walk, branch: Branch, a: float, off_a: float, b: float, off_b: float
) -> float:
    """Where the sign changes, by the Illinois rule: a chord that is bent until both ends move."""
    for _ in range(100):
        c = b - off_b * (b - a) / (off_b - off_a)
        if not min(a, b) < c < max(a, b):
            c = (a + b) / 2
        off = tracer.off(walk, branch, c)
        if off == 0.0 or off != off:
            return c
        if off * off_b < 0:
            a, off_a = b, off_b
        else:
            off_a /= 2
        if abs(c - b) <= 1e-12 * (1 + abs(c)):
            return c
        b, off_b = c, off
    return b
