"""Follow a torn block along its branches: the closing equation at places all over the walk.

A branch is which place was taken at each step that has several. Where every step works on arrays all places are tried
at once, else one by one.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Generator, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any, NamedTuple, TypeVar

import numpy

from drafting.geometry.maths import least
from drafting.records import dataclass, field
from drafting.solve.coupled.tearing import Torn, Walk
from drafting.solve.filters import Filter
from drafting.solve.layout import Layout
from drafting.solve.slopes import equation_value, equation_values
from drafting.solve.steps import ComputedStep, FormulaStep, SmallBlock, SmallStep

Values = list[Any]
Array = numpy.ndarray[Any, Any]
Trace = tuple[Array, Array]
"""Parameters, and how far the closing equation is off at each; not a number where the branch does not exist."""

Branch = tuple[int, ...]
SAMPLES = 240
"""Places at which the number is tried over its range before solutions are closed in on."""

FIRST_SAMPLES = 12
"""The same where each try runs functions of the caller's, before bends are looked at more closely."""

DEEPEST = 4
"""How often a stretch between two places is halved then."""


class Ask(NamedTuple):
    """A place on a walk to be tried, on one branch or, where none is named, on all."""

    walk: Walk
    branch: Branch | None
    parameter: float


Found = TypeVar("Found")
Offs = dict[Branch, float]
"""How far the closing equation is off on each branch that exists at a place."""
Search = Generator[Ask, Any, Found]
"""Asks for one place after the other: each is answered by what `Tracer.answer` gives."""


def answered(search: Search[Found], answer: Callable[[Ask], Any]) -> Found:
    """What a search finds, each place it asks for being answered at once."""
    try:
        ask = next(search)
        while True:
            ask = search.send(answer(ask))
    except StopIteration as done:
        found: Found = done.value
        return found


@dataclass
class Tracer:
    """Follows single branches of a torn block."""

    layout: Layout
    torn: Torn
    unknowns: tuple[int, ...]
    values: Values
    works_on_arrays: bool = True
    filters: Sequence[Filter] = ()
    """What picks among the solutions."""

    tells_misses: bool = True
    """Whether by how much a branch without solutions misses is to be known."""
    traces: Mapping[int, dict[Branch, Trace]] = field(default_factory=dict)
    """By the `put` of a walk, where it is sampled already."""

    @property
    def walks(self) -> Sequence[Walk]:
        return self.torn.walks(self.values)

    def off(self, walk: Walk, branch: Sequence[int], parameter: float) -> float:
        """How far the closing equation is off on a branch; not a number where the branch does not exist."""
        walk.put(self.values, parameter)
        if not self._follow(branch):
            return math.nan
        return self.closing_value()

    def answer(self, ask: Ask) -> Any:
        """On one branch how far it is off and what the unknowns are there, else the Offs."""
        if ask.branch is None:
            ask.walk.put(self.values, ask.parameter)
            return dict(_all_offs(self))
        return self.off(ask.walk, ask.branch, ask.parameter), self.numbers()

    def answered(self, search: Search[Found]) -> Found:
        """What a search finds, each place it asks for being tried at once."""
        return answered(search, self.answer)

    def closing_value(self) -> float:
        try:
            return equation_value(self.layout, self.layout.equations[self.torn.closing], self.values)
        except ArithmeticError:
            return math.nan

    def _follow(self, branch: Sequence[int]) -> bool:
        taken = iter(branch)
        for step in self.torn.order.steps:
            if not isinstance(step, SmallBlock):
                if not _ran(step, self.values):
                    return False
                continue
            place = step.branch(self.values, next(taken))
            if place is None:
                return False
            for slot, value in zip(step.outputs, place, strict=True):
                self.values[slot] = value
        return True

    def numbers(self) -> tuple[float, ...]:
        return tuple(self.values[slot] for slot in self.unknowns)


def sampled(tracer: Tracer, walk: Walk) -> Search[dict[Branch, Trace]]:
    """For each branch the closing equation at places all over the walk."""
    if id(walk.put) in tracer.traces:
        return tracer.traces[id(walk.put)]
    if tracer.works_on_arrays:
        return _sampled_on_arrays(tracer, walk)
    return (yield from sampled_one_by_one(walk))


def sampled_one_by_one(walk: Walk) -> Search[dict[Branch, Trace]]:
    """Close together only where a trace bends so much that it may hide a crossing between two places: each try may
    draw whole outlines."""
    looks: dict[float, Offs] = {}
    places = numpy.linspace(walk.low, walk.high, FIRST_SAMPLES + 1).tolist()
    waiting = [(low, high, 0) for low, high in pairwise(places)]
    while waiting:
        low, high, depth = waiting.pop()
        middle = (low + high) / 2
        for place in (low, middle, high):
            if place not in looks:
                looks[place] = yield Ask(walk, None, place)
        if not _is_plain(looks[low], looks[middle], looks[high]) and depth < DEEPEST:
            waiting += [(low, middle, depth + 1), (middle, high, depth + 1)]
    parameters = sorted(looks)
    branches = sorted({branch for offs in looks.values() for branch in offs})
    return {
        branch: (numpy.array(parameters), numpy.array([looks[at].get(branch, math.nan) for at in parameters]))
        for branch in branches
    }


def _is_plain(before: Offs, here: Offs, after: Offs) -> bool:
    """Whether every branch is so nearly straight between three places that it crosses nought once or not at all."""
    if before.keys() != after.keys() or before.keys() != here.keys():
        return False
    for branch, off in here.items():
        ends = before[branch], after[branch]
        bend = abs(off - (ends[0] + ends[1]) / 2)
        if ends[0] * ends[1] > 0 and ends[0] * off > 0:
            if least(abs(ends[0]), abs(off), abs(ends[1])) <= bend:
                return False
        elif bend > 0.2 * abs(ends[1] - ends[0]):
            return False
    return True


def _all_offs(tracer: Tracer) -> Iterator[tuple[Branch, float]]:
    for taken in each_branch(tracer.torn.order.steps, tracer.values):
        off = tracer.closing_value()
        if off == off:
            yield taken, off


def each_branch(steps: Sequence[SmallStep], values: Values) -> Iterator[Branch]:
    """Follow every branch of some steps to its end; `values` are those of the branch that is given."""
    taken: list[int] = []
    open_branches: list[tuple[int, Iterator[tuple[int, tuple[float, ...]]]]] = []
    number = 0
    while True:
        while number < len(steps):
            step = steps[number]
            if isinstance(step, SmallBlock):
                open_branches.append((number, iter(step.branches_there(values))))
                break
            if not _ran(step, values):
                break
            number += 1
        else:
            yield tuple(taken)
        while open_branches:
            number, ahead = open_branches[-1]
            index, place = next(ahead, (NO_MORE, ()))
            del taken[len(open_branches) - 1 :]
            if index == NO_MORE:
                open_branches.pop()
                continue
            taken.append(index)
            for slot, value in zip(steps[number].outputs, place, strict=True):
                values[slot] = value
            number += 1
            break
        else:
            return


NO_MORE = -1


def _ran(step: FormulaStep | ComputedStep, values: Values) -> bool:
    """Run a step; False where a caller's function is not defined."""
    try:
        step.run(values)
    except Exception:
        return False
    return True


def _sampled_on_arrays(tracer: Tracer, walk: Walk) -> dict[Branch, Trace]:
    """The same on arrays, all places at once."""
    parameters = numpy.linspace(walk.low, walk.high, SAMPLES + 1)
    walk.put(tracer.values, parameters)
    return {
        branch: (parameters, offs) for branch, offs in offs_on_arrays(tracer, tracer.values, parameters.shape)
    }


def offs_on_arrays(tracer: Tracer, values: Values, shape: tuple[int, ...]) -> Iterator[tuple[Branch, Array]]:
    """How far the closing equation is off on each branch, for values that are arrays of one shape."""
    outputs: list[int] = []
    branches: list[tuple[Branch, tuple[Any, ...]]] = [((), ())]
    for step in tracer.torn.order.steps:
        grown: list[tuple[Branch, tuple[Any, ...]]] = []
        for branch, numbers in branches:
            for slot, number in zip(outputs, numbers, strict=True):
                values[slot] = number
            if isinstance(step, SmallBlock):
                for index, place in enumerate(step.many_branches(values)):
                    if not numpy.all(numpy.isnan(place[0])):
                        grown.append(((*branch, index), (*numbers, *place)))
            elif isinstance(step, FormulaStep):
                step.run_many(values)
                grown.append((branch, (*numbers, values[step.node.output])))
        branches = grown
        outputs += step.outputs
    closing = tracer.layout.equations[tracer.torn.closing]
    for branch, numbers in branches:
        for slot, number in zip(outputs, numbers, strict=True):
            values[slot] = number
        offs = numpy.asarray(equation_values(closing, values), dtype=float)
        yield branch, numpy.broadcast_to(offs, shape)


def all_ends(
    steps: Sequence[SmallStep], values: Values, unknowns: tuple[int, ...]
) -> Iterator[tuple[float, ...]]:
    """The unknowns at the end of every branch of steps that leave no equation over."""
    for _ in each_branch(steps, values):
        yield tuple(values[slot] for slot in unknowns)
