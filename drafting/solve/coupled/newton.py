"""Newton's method on a block of equations, with exact slopes.

It finds nothing by itself: it brings a solution that is nearly right to the last digit, and tells whether equations
depend on each other there.
"""

from __future__ import annotations

from collections.abc import Container, Sequence
from functools import partial
from typing import Any

from drafting.geometry import maths as math
from drafting.solve.layout import ComputedNode, Layout
from drafting.solve.linear import solve
from drafting.solve.slopes import Slopes, equation_slopes, equation_value, node_slopes
from drafting.solve.steps import ComputedStep, FormulaStep
from drafting.solve.verify import is_kept, misfit

Values = list[Any]
MOST_ROUNDS = 30


class Equations:
    """Some equations, the unknown slots they are to give, and the computed nodes between them, in order."""

    def __init__(
        self, layout: Layout, equations: tuple[int, ...], unknowns: tuple[int, ...], transits: tuple[int, ...]
    ) -> None:
        self.layout = layout
        self.equations = [layout.equations[e] for e in equations]
        self.unknowns = unknowns
        self.n_looks = 0
        """How often rows were asked for: what a search costs, whatever the machine."""
        nodes = [layout.transits[transit] for transit in ordered_transits(layout, transits)]
        self.steps = [
            ComputedStep(node) if isinstance(node, ComputedNode) else FormulaStep(node) for node in nodes
        ]
        self.numbers_between = [
            (slot, step)
            for step in self.steps
            for slot in step.outputs
            if not (isinstance(step, ComputedStep) and slot == step.node.output and self._is_object(slot))
        ]

        self.moving = {*unknowns, *(slot for slot, _ in self.numbers_between)}
        """What changes with the unknowns; the rest is known from outside."""

    def _is_object(self, slot: int) -> bool:
        """A computed value counts as a number when an equation or a formula reads it as one."""
        for equation in self.equations:
            if slot in equation.reads and slot not in equation.objects:
                return False
        return not any(isinstance(step, FormulaStep) and slot in step.inputs for step in self.steps)

    def put(self, values: Values, numbers: list[float]) -> None:
        for slot, number in zip(self.unknowns, numbers, strict=True):
            values[slot] = number
        for step in self.steps:
            step.run(values)

    def put_if_defined(self, values: Values, numbers: Sequence[float]) -> bool:
        """The same, but False where a function of the caller's is not defined there."""
        try:
            self.put(values, list(numbers))
        except Exception:
            return False
        return True

    def take(self, values: Values) -> list[float]:
        return [values[slot] for slot in self.unknowns]

    def all_slopes(self, values: Values) -> list[Slopes]:
        """Of each equation, by the unknowns and by all that is known from outside."""
        return self._slopes(values, None)

    def _slopes(self, values: Values, moving: Container[int] | None) -> list[Slopes]:
        inner = self._slopes_between(values, moving)
        return [
            self.total(equation_slopes(self.layout, equation, values, moving), inner)
            for equation in self.equations
        ]

    def rows(self, values: Values) -> tuple[list[list[float]], list[float]]:
        """Slopes by the unknowns and values of all equations, each scaled to a row of length 1."""
        self.n_looks += 1
        rows: list[list[float]] = []
        right: list[float] = []
        for equation, slopes in zip(self.equations, self._slopes(values, self.moving), strict=True):
            row = [slopes.get(slot, 0.0) for slot in self.unknowns]
            length = math.sqrt(sum(slope * slope for slope in row))
            scale = 1 / length if length > 0.0 else 1.0
            rows.append([slope * scale for slope in row])
            right.append(equation_value(self.layout, equation, values) * scale)
        return rows, right

    def _slopes_between(self, values: Values, moving: Container[int] | None) -> dict[int, Slopes]:
        """Of each computed number between, by the unknowns."""
        inner: dict[int, Slopes] = {}
        for slot, _ in self.numbers_between:
            inner[slot] = self.total(node_slopes(self.layout, slot, values, moving), inner)
        return inner

    def total(self, slopes: Slopes, inner: dict[int, Slopes]) -> Slopes:
        """Slopes with what lies between replaced by the unknowns behind it."""
        if not inner:
            return slopes
        found: Slopes = {}
        for slot, slope in slopes.items():
            for behind, inner_slope in inner.get(slot, {slot: 1.0}).items():
                found[behind] = found.get(behind, 0.0) + slope * inner_slope
        return found

    def holds(self, values: Values, slack: float = 1.0) -> bool:
        return all(is_kept(equation, values, slack) for equation in self.equations)

    def worst(self, values: Values) -> float:
        return max((abs(misfit(equation, values)) for equation in self.equations), default=0.0)


def ordered_transits(layout: Layout, transits: tuple[int, ...]) -> list[int]:
    """Each computed node after those it needs."""
    from drafting.solve.structure import inputs_of

    inside = set(transits)
    ordered: list[int] = []
    done: set[int] = set()
    waiting = [(transit, False) for transit in reversed(transits)]
    while waiting:
        transit, inputs_done = waiting.pop()
        if transit in done:
            continue
        if inputs_done:
            done.add(transit)
            ordered.append(transit)
            continue
        waiting.append((transit, True))
        for slot in inputs_of(layout.transits[transit]):
            before = layout.transit_of.get(slot)
            if before in inside and before not in done:
                waiting.append((before, False))
    return ordered


def polish(equations: Equations, values: Values, numbers: list[float], rounds: int = MOST_ROUNDS) -> bool:
    """Bring `numbers` to the last digit, in place; False when Newton's method does not settle."""
    if any(math.varies(number) for number in numbers):
        from drafting.solve.coupled.settling import polish_together

        return polish_together(partial(newton_step, equations, values), numbers, rounds)
    best = math.inf
    for _ in range(rounds):
        step = newton_step(equations, values, numbers)
        if step is None:
            return False
        size = max(abs(part) for part in step)
        if size == 0.0:
            return True
        if size >= best and size < 1e-9:
            return True
        if not math.isfinite(size):
            return False
        best = min(best, size)
        for index, part in enumerate(step):
            numbers[index] -= part
        if size < 1e-13:
            break
    return best < 1e-7


def newton_step(equations: Equations, values: Values, numbers: list[float]) -> list[float] | None:
    """None where there is none: equations depend on each other, or are not defined there."""
    if not equations.put_if_defined(values, numbers):
        return None
    try:
        rows, right = equations.rows(values)
    except ArithmeticError:
        return None
    return solve(rows, right)
