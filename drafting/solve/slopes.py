"""How fast an equation or a formula changes with each number it reads.

The facts have ready-made slopes in `closed_forms`. Formulas are differentiated here, rule by rule, at one set of
values. Only what is computed by a caller's function, and what reads a path, is differentiated by small steps.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Sequence
from contextlib import suppress
from typing import Any

from drafting.geometry import maths as math
from drafting.model.expressions import (
    AngleAt,
    Applied,
    Bound,
    Constant,
    Distance,
    Operation,
    Value,
)
from drafting.solve.closed_forms import VALUES
from drafting.solve.kinds import ANGLE, EQUATION
from drafting.solve.layout import ComputedNode, Equation, FormulaNode, Layout
from drafting.solve.loci import ANGLES
from drafting.solve.on_paths import legs_of, nearest_leg, off_leg
from drafting.solve.roots import cosine, sine
from drafting.solve.steps import ComputedStep

Values = list[Any]
Slopes = dict[int, float]
STEP = 1e-5
"""mm. Small against any pattern, large against rounding."""


def equation_value(layout: Layout, equation: Equation, values: Values) -> float:
    """Zero where the fact holds, and smooth about there."""
    if equation.form is EQUATION:
        assert equation.left is not None
        return math.plain_number(equation.left.function(*[values[slot] for slot in equation.left.inputs]))
    if equation.objects:
        return _path_value(equation, values)
    function, _ = VALUES[equation.form.name]
    return math.plain_number(function(*_arguments(equation, values)))


def equation_values(equation: Equation, values: Values) -> Any:
    """The same for arrays of values; only for equations that read no path."""
    if equation.form is EQUATION:
        assert equation.left is not None
        return equation.left.function(*[values[slot] for slot in equation.left.inputs])
    function, _ = VALUES[equation.form.name]
    return function(*_arguments(equation, values))


def equation_slopes(
    layout: Layout, equation: Equation, values: Values, moving: Container[int] | None = None
) -> Slopes:
    """By each slot of a number the equation reads; a path it reads is traced back to numbers, of which only those that
    are `moving` are tried where that is said."""
    if equation.form is EQUATION:
        assert equation.left is not None
        return formula_slopes(layout, equation.left, values)
    if equation.objects:
        return _path_slopes(layout, equation, values, moving)
    _, function = VALUES[equation.form.name]
    partials = function(*_arguments(equation, values))
    slopes: Slopes = {}
    slots = [slot for pair in equation.points for slot in pair]
    for slot, partial in zip(slots, partials, strict=False):
        if partial:
            slopes[slot] = slopes.get(slot, 0.0) + partial
    scalar_partials = partials[len(slots) :]
    if equation.form.name in ANGLES:
        degrees = values[equation.scalars[0]]
        turn = -scalar_partials[0] * sine(degrees) + scalar_partials[1] * cosine(degrees)
        scalar_partials = (math.radians(1) * turn,)
    for slot, partial in zip(equation.scalars, scalar_partials, strict=True):
        slopes[slot] = slopes.get(slot, 0.0) + partial
    return slopes


def _arguments(equation: Equation, values: Values) -> list[float]:
    found = [values[slot] for pair in equation.points for slot in pair]
    if equation.form is ANGLE:
        ax, ay, bx, by, cx, cy = found
        turn = (ax - bx) * (cy - by) - (ay - by) * (cx - bx)
        found.insert(0, 2.0 * (turn >= 0) - 1.0)
    for slot in equation.scalars:
        if equation.form.name in ANGLES:
            found += (cosine(values[slot]), sine(values[slot]))
        else:
            found.append(values[slot])
    return found


def _path_value(equation: Equation, values: Values, leg_index: int | None = None) -> float:
    """For `on path` how far off the leg; for a tangent how far the touching line is from square to the radius, for a
    touching line how far it passes the circle."""
    path = values[equation.objects[0]]
    x, y = (values[slot] for slot in equation.points[0])
    name = equation.form.name
    index = _leg_of(equation, values) if leg_index is None else leg_index
    leg = legs_of(path)[index]
    if name == "on_path":
        return off_leg(leg, x, y)
    qx, qy = (values[slot] for slot in equation.points[1])
    center: Any = getattr(leg, "center", None)
    if center is None:
        return math.inf
    if name == "tangent":
        return math.plain_number(
            ((x - qx) * (x - center.x) + (y - qy) * (y - center.y)) / math.hypot(x - qx, y - qy)
        )
    way_x, way_y = qx - x, qy - y
    off = (way_x * (center.y - y) - way_y * (center.x - x)) / math.hypot(way_x, way_y)
    return math.plain_number(abs(off) - getattr(leg, "radius", 0.0))


def _leg_of(equation: Equation, values: Values) -> int:
    path = values[equation.objects[0]]
    if equation.form.name != "touches":
        x, y = (values[slot] for slot in equation.points[0])
        return nearest_leg(path, x, y)
    offs = []
    for index, leg in enumerate(legs_of(path)):
        if hasattr(leg, "center"):
            offs.append((abs(_path_value(equation, values, index)), index))
    return min(offs)[1] if offs else 0


def _path_slopes(layout: Layout, equation: Equation, values: Values, moving: Container[int] | None) -> Slopes:
    """By small steps of every number the path is made from, the leg staying the same one."""
    index = _leg_of(equation, values)
    sources = _moving(numbers_behind(layout, equation.reads), moving)
    chain = _chain(layout, equation.objects)

    def value() -> float:
        for node in chain:
            _compute(node, values)
        return _path_value(equation, values, index)

    return _by_steps(values, sources, chain, value)


def _by_steps(
    values: Values, sources: Sequence[int], chain: Sequence[ComputedNode], value: Callable[[], float]
) -> Slopes:
    """Central differences, one-sided at an edge beyond which nothing can be computed; all is put back as it was."""
    slots = [*sources, *(slot for node in chain for slot in ComputedStep(node).outputs)]
    before = [values[slot] for slot in slots]
    slopes: Slopes = {}
    for source in sources:
        here = values[source]
        step = STEP * math.most(1.0, abs(here) * 1e-3)
        found: list[tuple[float, float]] = []
        for moved in (here - step, here + step, here):
            if len(found) < 2:
                values[source] = moved
                with suppress(Exception):
                    found.append((moved, value()))
        slopes[source] = (found[1][1] - found[0][1]) / (found[1][0] - found[0][0]) if len(found) > 1 else 0.0
        values[source] = here
    for slot, old in zip(slots, before, strict=True):
        values[slot] = old
    return slopes


def numbers_behind(layout: Layout, slots: Sequence[int]) -> list[int]:
    """The slots of numbers among `slots`, objects being traced back to the numbers they are computed from."""
    found: dict[int, None] = {}
    waiting = list(slots)
    seen: set[int] = set()
    while waiting:
        slot = waiting.pop()
        if slot in seen:
            continue
        seen.add(slot)
        node = computed_object(layout, slot)
        if node is None:
            found[slot] = None
            continue
        for item in node.inputs:
            waiting += item if isinstance(item, tuple) else (item,)
    return sorted(found)


def computed_object(layout: Layout, slot: int) -> ComputedNode | None:
    """The node that fills a slot with something that need not be a number."""
    transit = layout.transit_of.get(slot)
    node = None if transit is None else layout.transits[transit]
    if isinstance(node, ComputedNode) and slot == node.output:
        return node
    return None


def _chain(layout: Layout, objects: Sequence[int]) -> list[ComputedNode]:
    """The computed nodes behind some objects, each after those it needs."""
    ordered: list[ComputedNode] = []
    done: set[int] = set()
    waiting = [(slot, False) for slot in reversed(objects)]
    while waiting:
        slot, inputs_done = waiting.pop()
        node = computed_object(layout, slot)
        if node is None or node.output in done:
            continue
        if inputs_done:
            done.add(node.output)
            ordered.append(node)
            continue
        waiting.append((slot, True))
        for item in node.inputs:
            if not isinstance(item, tuple):
                waiting.append((item, False))
    return ordered


def _compute(node: ComputedNode, values: Values) -> None:
    ComputedStep(node).run(values)


def node_slopes(layout: Layout, slot: int, values: Values, moving: Container[int] | None = None) -> Slopes:
    """How fast a computed number changes with the numbers behind it, or with those of them that are `moving`."""
    node = layout.transits[layout.transit_of[slot]]
    if isinstance(node, FormulaNode):
        return formula_slopes(layout, node, values)
    sources = _moving(numbers_behind(layout, [item for one in node.inputs for item in _flat(one)]), moving)
    chain = _chain(layout, [node.output])

    def value() -> float:
        for one in chain:
            _compute(one, values)
        return math.plain_number(values[slot])

    return _by_steps(values, sources, chain, value)


def _moving(slots: Sequence[int], moving: Container[int] | None) -> Sequence[int]:
    return slots if moving is None else [slot for slot in slots if slot in moving]


def _flat(item: int | tuple[int, int]) -> tuple[int, ...]:
    return item if isinstance(item, tuple) else (item,)


def formula_slopes(layout: Layout, node: FormulaNode, values: Values) -> Slopes:
    _, slopes = _differentiate(node.expression, layout, values)
    return slopes


def _differentiate(expression: Bound, layout: Layout, values: Values) -> tuple[float, Slopes]:
    """The value of an expression and its slope by each slot."""
    match expression:
        case Constant(value):
            return float(value), {}
        case Value(key):
            slot = layout.slot(key)
            return values[slot], {slot: 1.0}
        case Operation(operator, left, right):
            one, one_slopes = _differentiate(left, layout, values)
            other, other_slopes = _differentiate(right, layout, values)
            return _operate(operator, one, one_slopes, other, other_slopes)
        case Applied(function, arguments):
            parts = [_differentiate(argument, layout, values) for argument in arguments]
            return _apply(function, [part[0] for part in parts], [part[1] for part in parts])
        case Distance(start, end):
            return _distance(layout.point(start), layout.point(end), values)
        case AngleAt(start, vertex, end):
            return _angle(layout.point(start), layout.point(vertex), layout.point(end), values)


def _operate(
    operator: str, one: float, one_slopes: Slopes, other: float, other_slopes: Slopes
) -> tuple[float, Slopes]:
    if operator == "+":
        return one + other, _mixed((one_slopes, 1.0), (other_slopes, 1.0))
    if operator == "-":
        return one - other, _mixed((one_slopes, 1.0), (other_slopes, -1.0))
    if operator == "*":
        return one * other, _mixed((one_slopes, other), (other_slopes, one))
    return one / other, _mixed((one_slopes, 1 / other), (other_slopes, -one / (other * other)))


def _mixed(*parts: tuple[Slopes, float]) -> Slopes:
    found: Slopes = {}
    for slopes, factor in parts:
        for slot, slope in slopes.items():
            found[slot] = found.get(slot, 0.0) + factor * slope
    return found


def _apply(function: str, amounts: list[float], slopes: list[Slopes]) -> tuple[float, Slopes]:
    if function in ("min", "max"):
        best = (min if function == "min" else max)(amounts)
        return best, slopes[amounts.index(best)]
    if function == "sum":
        return sum(amounts), _mixed(*((part, 1.0) for part in slopes))
    first = amounts[0]
    if function == "sqrt":
        value = math.sqrt(first)
        return value, _mixed((slopes[0], 0.5 / value))
    if function in ("sin", "cos", "tan"):
        value, slope = {
            "sin": (sine(first), cosine(first)),
            "cos": (cosine(first), -sine(first)),
            "tan": (math.tan(math.radians(first)), 1 + math.tan(math.radians(first)) ** 2),
        }[function]
        return value, _mixed((slopes[0], slope * math.radians(1)))
    if function == "bend":
        turn, around, thick, neutral = amounts
        radius, arc = around / 2 + neutral * thick, math.radians(turn)
        factors = (math.radians(1) * radius, arc / 2, arc * neutral, arc * thick)
        return arc * radius, _mixed(*zip(slopes, factors, strict=True))
    if function == "loop":
        factors_of_loop = (2.0, 2.0, math.pi)
        value = 2 * (amounts[0] + amounts[1]) + math.pi * amounts[2]
        return value, _mixed(*zip(slopes, factors_of_loop, strict=True))
    raise KeyError(function)


Pair = tuple[int, int]


def _distance(start: Pair, end: Pair, values: Values) -> tuple[float, Slopes]:
    x, y = values[end[0]] - values[start[0]], values[end[1]] - values[start[1]]
    length = math.hypot(x, y)
    if length == 0.0:
        return 0.0, {}
    way_x, way_y = x / length, y / length
    slopes = _mixed(({end[0]: way_x, end[1]: way_y}, 1.0), ({start[0]: way_x, start[1]: way_y}, -1.0))
    return length, slopes


def _angle(start: Pair, vertex: Pair, end: Pair, values: Values) -> tuple[float, Slopes]:
    """Degrees; an arm of length r turns the angle by 1/r for each mm square to it."""
    px, py = values[start[0]] - values[vertex[0]], values[start[1]] - values[vertex[1]]
    qx, qy = values[end[0]] - values[vertex[0]], values[end[1]] - values[vertex[1]]
    turn, along = px * qy - py * qx, px * qx + py * qy
    sign = math.degrees(1.0) * (1.0 if turn >= 0 else -1.0)
    p_squared, q_squared = px * px + py * py, qx * qx + qy * qy
    first = {start[0]: py / p_squared, start[1]: -px / p_squared}
    second = {end[0]: -qy / q_squared, end[1]: qx / q_squared}
    at_vertex = {
        vertex[0]: -py / p_squared + qy / q_squared,
        vertex[1]: px / p_squared - qx / q_squared,
    }
    slopes = _mixed((first, sign), (second, sign), (at_vertex, sign))
    return math.degrees(math.atan2(abs(turn), along)), slopes
