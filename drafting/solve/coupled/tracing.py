"""Follow a torn block along its branches: the closing equation at places all over the walk.

A branch is which place was taken at each step that has several. Where every step works on arrays all places are tried
at once, else one by one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy

from drafting.solve.coupled.tearing import Torn, Walk
from drafting.solve.layout import Layout
from drafting.solve.slopes import equation_value, equation_values
from drafting.solve.steps import Block, FormulaStep, SmallStep

Values = list[Any]
Array = numpy.ndarray[Any, Any]
Trace = tuple[Array, Array]
"""Parameters, and how far the closing equation is off at each; not a number where the branch does not exist."""

Branch = tuple[int, ...]
SAMPLES = 240
"""Places at which the number is tried over its range before solutions are closed in on."""

SLOW_SAMPLES = 96
"""The same where each try runs functions of the caller's."""


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
                except Exception:
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


def sampled(tracer: Tracer, walk: Walk) -> dict[Branch, Trace]:
    """For each branch the closing equation at places all over the walk."""
    if tracer.works_on_arrays:
        return _sampled_on_arrays(tracer, walk)
    parameters = numpy.linspace(walk.low, walk.high, SLOW_SAMPLES + 1)
    found: dict[Branch, Array] = {}
    for number, parameter in enumerate(parameters.tolist()):
        walk.put(tracer.values, parameter)
        for branch, off in _all_offs(tracer, tracer.torn.order.steps, ()):
            if branch not in found:
                found[branch] = numpy.full(len(parameters), numpy.nan)
            found[branch][number] = off
    return {branch: (parameters, offs) for branch, offs in found.items()}


def _all_offs(tracer: Tracer, steps: Sequence[SmallStep], branch: Branch) -> Iterator[tuple[Branch, float]]:
    values = tracer.values
    for number, step in enumerate(steps):
        if not isinstance(step, Block):
            try:
                step.run(values)
            except Exception:
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


def _sampled_on_arrays(tracer: Tracer, walk: Walk) -> dict[Branch, Trace]:
    """The same on arrays, all places at once."""
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
            elif isinstance(step, FormulaStep):
                step.run_many(values)
                grown.append((branch, (*numbers, values[step.node.output])))
        branches = grown
        outputs += step.outputs
    found: dict[Branch, Trace] = {}
    closing = tracer.layout.equations[tracer.torn.closing]
    for branch, numbers in branches:
        for slot, number in zip(outputs, numbers, strict=True):
            values[slot] = number
        offs = numpy.asarray(equation_values(closing, values), dtype=float)
        found[branch] = parameters, numpy.broadcast_to(offs, parameters.shape)
    return found


def all_ends(
    steps: Sequence[SmallStep], values: Values, unknowns: tuple[int, ...]
) -> Iterator[tuple[float, ...]]:
    """The unknowns at the end of every branch of steps that leave no equation over."""
    for number, step in enumerate(steps):
        if not isinstance(step, Block):
            try:
                step.run(values)
            except Exception:
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
