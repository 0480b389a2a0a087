"""How a solved number changes with everything it hangs on, by walking the plan backward.

Each block is differentiated implicitly: if its equations F hold, a change outside is answered by a change of its
unknowns that keeps F at nought. Walking from one number back to the measures costs one pass over the blocks it hangs
on, however many measures there are. The weights that the equations get on the way tell which facts a number truly
rests on.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from drafting.records import dataclass, field
from drafting.solve.coupled.newton import Equations
from drafting.solve.layout import Layout
from drafting.solve.linear import solve
from drafting.solve.program import Check, Compound, Step
from drafting.solve.slopes import Slopes, computed_object, equation_slopes, node_slopes, numbers_behind
from drafting.solve.steps import Block, ComputedStep, FormulaStep

Values = list[Any]


class Unsteady(Exception):
    """Where places just touch, the smallest change of a measure makes a jump: there is no rate of change."""


@dataclass
class Weights:
    """By slot of a known number how much the start changes with it, and by equation how much rests on it."""

    of_slots: Slopes = field(default_factory=dict)
    of_equations: dict[int, float] = field(default_factory=dict)


def walk_back(layout: Layout, steps: Sequence[Step], values: Values, start: Slopes) -> Weights:
    """From a combination `start` of numbers back to what is known."""
    weights = Weights(dict(start))
    for step in reversed(list(_flat(steps))):
        if isinstance(step, Block):
            _through_block(layout, step, values, weights)
        else:
            _through_node(layout, step, values, weights)
    return weights


def _flat(steps: Iterable[Step]) -> Iterator[FormulaStep | ComputedStep | Block]:
    for step in steps:
        if isinstance(step, Compound):
            yield from _flat(step.steps)
        elif not isinstance(step, Check):
            yield step


def _through_node(layout: Layout, step: FormulaStep | ComputedStep, values: Values, weights: Weights) -> None:
    for slot in step.outputs:
        weight = weights.of_slots.pop(slot, 0.0)
        if weight:
            for behind, slope in node_slopes(layout, slot, values).items():
                weights.of_slots[behind] = weights.of_slots.get(behind, 0.0) + weight * slope


def _through_block(layout: Layout, block: Block, values: Values, weights: Weights) -> None:
    if not any(weights.of_slots.get(slot) for slot in block.outputs):
        return
    equations = Equations(layout, block.equations, block.unknowns, block.transits)
    for step in reversed(equations.steps):
        _through_node(layout, step, values, weights)
    wanted = [weights.of_slots.pop(slot, 0.0) for slot in block.unknowns]
    if not any(wanted):
        return
    slopes = equations.all_slopes(values)
    rows = [[row.get(slot, 0.0) for slot in block.unknowns] for row in slopes]
    lengths = [math.hypot(*row) or 1.0 for row in rows]
    columns = [
        [row[index] / length for row, length in zip(rows, lengths, strict=True)]
        for index in range(len(block.unknowns))
    ]
    shares = solve(columns, wanted)
    if shares is None:
        raise Unsteady
    made = set(block.outputs)
    for number, share, length, row in zip(block.equations, shares, lengths, slopes, strict=True):
        weights.of_equations[number] = share
        for slot, slope in row.items():
            if slot not in made:
                before = weights.of_slots.get(slot, 0.0)
                weights.of_slots[slot] = before - share / length * slope


def influence_on_slot(layout: Layout, steps: Sequence[Step], values: Values, slot: int) -> dict[str, float]:
    """By the key of each measure that matters, how much the number in a slot changes with it."""
    weights = walk_back(layout, steps, values, {slot: 1.0})
    return {
        key: weights.of_slots[known]
        for key, known in layout.knowns.items()
        if weights.of_slots.get(known, 0.0)
    }


def facts_behind(layout: Layout, steps: Sequence[Step], values: Values, equation: int) -> list[int] | None:
    """The equations whose change would change what `equation` measures, it being one too many; None when that
    cannot be told because places touch, or points of a line have fallen together.

    The points are shaken a little first: a distance along a level line does not feel the height of its ends, and yet
    takes part with it.
    """
    shaken = _shaken(layout, values)
    start: Slopes = {}
    try:
        for slot, slope in equation_slopes(layout, layout.equations[equation], shaken).items():
            for behind, share in _behind(layout, slot, shaken).items():
                start[behind] = start.get(behind, 0.0) + slope * share
        size = math.hypot(*start.values()) or 1.0
        scaled = {slot: slope / size for slot, slope in start.items()}
        weights = walk_back(layout, steps, shaken, scaled)
    except (Unsteady, ZeroDivisionError):
        return None
    return sorted(number for number, weight in weights.of_equations.items() if abs(weight) > NEGLIGIBLE)


def _behind(layout: Layout, slot: int, values: Values) -> Slopes:
    """How a slot changes with the numbers it is computed from; of what is no number, that it does."""
    if computed_object(layout, slot) is None:
        return {slot: 1.0}
    if isinstance(values[slot], float | int):
        return node_slopes(layout, slot, values)
    return dict.fromkeys(numbers_behind(layout, [slot]), 1.0)


NEGLIGIBLE = 1e-7
SHAKE = 0.01
"""mm. Enough to leave every special place, too little to turn anything over."""


def _shaken(layout: Layout, values: Values) -> Values:
    shaken = list(values)
    for number, slot in enumerate(layout.unknowns):
        if isinstance(shaken[slot], float):
            shaken[slot] += SHAKE * (math.modf((number + 1) * 0.6180339887498949)[0] - 0.5)
    return shaken
