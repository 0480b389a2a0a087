"""Many sizes at once: the steps of a plan on arrays, one element for each size.

Most steps work on arrays as they are. What runs a caller's function, what reads a path and what is solved together
runs size by size, once for all sizes that agree in what it reads. A size that has no single place for a point has not
a number there, and is marked as failed; evaluate it alone to hear why.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy

from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass
from drafting.solve.filters import Filter
from drafting.solve.layout import Layout
from drafting.solve.program import Check, Compound, Run, Step, run_steps
from drafting.solve.steps import Block, ComputedStep, FormulaStep, SmallBlock
from drafting.solve.structure import Structure
from drafting.solve.system import Computed, UnknownPoint
from drafting.solve.verify import misfit, verify

Values = list[Any]
Array = numpy.ndarray[Any, Any]
VERIFIED = 3
"""Sizes that are verified fact by fact: the first, the last and those between."""


@dataclass(frozen=True)
class PointColumn:
    x: Array
    y: Array


@dataclass(frozen=True)
class Columns:
    """`values` holds an array for each number, a PointColumn for each point and a list for anything else."""

    values: Mapping[str, Any]
    failed: Array
    """True for each size in which something has no single place."""


def evaluate_many(
    structure: Structure,
    steps: Sequence[Step],
    always_bad: Iterable[int],
    given: Mapping[str, Any],
    wanted: Iterable[str] | None = None,
) -> Columns:
    layout = structure.layout
    n_sizes = max((len(column) for column in given.values()), default=1)
    values = list(layout.start_values)
    for key, column in given.items():
        values[layout.knowns[key]] = numpy.asarray(column, dtype=float)
    work = _Work(layout, values, n_sizes, set(always_bad))
    needed = _needed(layout, steps, wanted)
    with numpy.errstate(all="ignore"):
        for step in steps:
            if work.bad and not work.bad.isdisjoint(step.inputs):
                work.bad.update(step.outputs)
            elif not isinstance(step, ComputedStep) or step.node.key in needed:
                work.run(step)
            else:
                work.bad.update(step.outputs)
        _check_facts_left_over(structure, work)
    _verify_some(structure, work)
    return Columns(_columns(layout, work, wanted), work.failed)


def _needed(layout: Layout, steps: Sequence[Step], wanted: Iterable[str] | None) -> set[str]:
    """Computed nodes that are asked for, or that something asked for hangs on: all points and numbers, by default."""
    slots: set[int] = set()
    for key in wanted or ():
        slots.update(layout.points.get(key, ()) or (layout.slots[key],))
        slots.add(layout.slots.get(key, -1))
    keys: set[str] = set()
    for step in reversed(list(steps)):
        if isinstance(step, ComputedStep):
            if not slots.isdisjoint(step.outputs):
                keys.add(step.node.key)
                slots.update(step.inputs)
        elif wanted is None or not slots.isdisjoint(step.outputs) or isinstance(step, Check):
            slots.update(step.inputs)
    return keys


class _Work:
    def __init__(self, layout: Layout, values: Values, n_sizes: int, bad: set[int]) -> None:
        self.layout = layout
        self.values = values
        self.n_sizes = n_sizes
        self.bad = bad
        self.failed: Array = numpy.zeros(n_sizes, dtype=bool)

    def run(self, step: Step) -> None:
        if isinstance(step, FormulaStep):
            step.run_many(self.values)
            self.failed |= self._is_none(self.values[step.node.output])
        elif isinstance(step, Check):
            self._check(step)
        elif (
            isinstance(step, SmallBlock)
            and step.is_on_arrays
            and all(one.is_on_arrays for one in step.filters)
        ):
            self._run_block(step)
        else:
            self._run_one_by_one(step)

    def _is_none(self, column: Any) -> Array:
        is_none: Array = numpy.isnan(numpy.asarray(column, dtype=float))
        return is_none

    def _check(self, step: Check) -> None:
        if step.filter.test is None:
            return
        if step.filter.is_on_arrays:
            self.failed |= ~numpy.broadcast_to(numpy.asarray(step.filter.test(self.values)), (self.n_sizes,))
        else:
            self._run_one_by_one(step)

    def _run_block(self, block: SmallBlock) -> None:
        branches = block.many_branches(self.values)
        if len(branches) == 1 and not block.filters and not block.lengths:
            self._put(block.outputs, branches[0])
            self.failed |= self._is_none(branches[0][0])
            return
        there = self._filtered(block, branches)
        for slot in block.lengths[::2]:
            there &= numpy.asarray(self.values[slot]) >= 0.0
        stack = [self._stacked([branch[index] for branch in branches]) for index in range(len(block.outputs))]
        first = numpy.argmax(there, axis=0)
        rows = numpy.arange(self.n_sizes)
        chosen = [columns[first, rows] for columns in stack]
        same = numpy.ones_like(there)
        for columns, column in zip(stack, chosen, strict=True):
            same &= abs(columns - column) <= SAME_POINT
        good = there.any(axis=0) & (same | ~there).all(axis=0)
        self.failed |= ~good
        self._put(block.outputs, [numpy.where(good, column, numpy.nan) for column in chosen])

    def _stacked(self, columns: Sequence[Any]) -> Array:
        stacked = numpy.empty((len(columns), self.n_sizes))
        for row, column in zip(stacked, columns, strict=True):
            row[:] = column
        return stacked

    def _filtered(self, block: Block, branches: Sequence[Sequence[Any]]) -> Array:
        """Which branch may stay in which size."""
        there = ~numpy.isnan(self._stacked([branch[0] for branch in branches]))
        for one in block.filters:
            results = []
            for branch in branches:
                self._put(block.outputs, branch)
                assert one.test is not None or one.measure is not None
                result = one.test(self.values) if one.test is not None else _amount(one, self.values)
                results.append(result)
            if one.test is not None:
                there &= self._stacked(results) != 0.0
            else:
                amounts = numpy.where(there, self._stacked(results), numpy.inf)
                there &= amounts <= amounts.min(axis=0) + SAME_POINT
        return there

    def _put(self, outputs: Sequence[int], columns: Sequence[Any]) -> None:
        for slot, column in zip(outputs, columns, strict=True):
            self.values[slot] = column

    def _run_one_by_one(self, step: Step) -> None:
        """Size by size, with the numbers of that size put into a list of their own; sizes that agree in all that the
        step reads share what comes of it."""
        reads = dict.fromkeys(step.inputs)
        for filters in _filters_of(step):
            reads.update(dict.fromkeys(slot for one in filters for slot in one.reads))
        for slot in step.outputs:
            reads.pop(slot, None)
        columns: dict[int, list[Any]] = {slot: [None] * self.n_sizes for slot in step.outputs}
        listed = [_listed(self.values[slot], self.n_sizes) for slot in reads]
        scratch: Values = list(self.layout.start_values)
        known: dict[tuple[Any, ...], list[Any] | None] = {}
        for size in numpy.flatnonzero(~self.failed):
            row = [column[size] for column in listed]
            key = tuple(value if isinstance(value, float) else id(value) for value in row)
            if key not in known:
                known[key] = self._outcome(step, dict(zip(reads, row, strict=True)), scratch)
            outcome = known[key]
            if outcome is None:
                self.failed[size] = True
                continue
            for slot, value in zip(step.outputs, outcome, strict=True):
                columns[slot][size] = value
        for slot, column in columns.items():
            self.values[slot] = _as_column(column)

    def _outcome(self, step: Step, row: Mapping[int, Any], scratch: Values) -> list[Any] | None:
        """What a step gives in one size; None where it fails."""
        for slot, value in row.items():
            scratch[slot] = value
        run = Run(self.layout, scratch, set())
        run_steps([step], run)
        if run.bad or any(_is_error(finding) for finding in run.findings):
            return None
        return [scratch[slot] for slot in step.outputs]


def _amount(one: Filter, values: Values) -> Any:
    assert one.measure is not None
    return one.measure(values)


def _filters_of(step: Step) -> list[list[Filter]]:
    if isinstance(step, Compound):
        return [*step.after, *(one for inner in step.steps for one in _filters_of(inner))]
    return [step.filters] if isinstance(step, Block) else []


def _is_error(finding: Any) -> bool:
    from drafting.solve.findings import NearTouch, NotProven, Repeated

    return not isinstance(finding, (NearTouch, NotProven, Repeated))


def _element(column: Any, size: int) -> Any:
    """One size's value, as the plain kind of number that the steps for one size take."""
    if isinstance(column, numpy.ndarray):
        return float(column[size]) if column.ndim else float(column)
    if isinstance(column, list):
        return column[size]
    return column


def _listed(column: Any, n_sizes: int) -> list[Any]:
    """A column as plain values, one for each size."""
    if isinstance(column, list):
        return column
    if isinstance(column, numpy.ndarray) and column.ndim:
        values: list[Any] = column.tolist()
        return values
    return [_element(column, 0)] * n_sizes


def _as_column(column: list[Any]) -> Any:
    if all(value is None or isinstance(value, (int, float)) for value in column):
        return numpy.array([numpy.nan if value is None else value for value in column], dtype=float)
    return column


def _row(layout: Layout, values: Values, size: int) -> Values:
    return [_element(column, size) for column in values]


def _check_facts_left_over(structure: Structure, work: _Work) -> None:
    layout = structure.layout
    for e in structure.over:
        equation = layout.equations[e]
        if not work.bad.isdisjoint(equation.reads):
            continue
        scratch = list(layout.start_values)
        for size in range(work.n_sizes):
            if not work.failed[size]:
                for slot in equation.reads:
                    scratch[slot] = _element(work.values[slot], size)
                work.failed[size] = abs(misfit(equation, scratch)) > SAME_POINT


def _verify_some(structure: Structure, work: _Work) -> None:
    good = numpy.flatnonzero(~work.failed)
    for size in (
        sorted({int(good[round(at * (len(good) - 1) / (VERIFIED - 1))]) for at in range(VERIFIED)})
        if len(good)
        else ()
    ):
        verify(structure.layout, _row(structure.layout, work.values, size), work.bad, set(structure.over))


def _columns(layout: Layout, work: _Work, wanted: Iterable[str] | None) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for key in layout.system.nodes if wanted is None else wanted:
        if isinstance(layout.system.nodes[key], UnknownPoint):
            x, y = layout.points[key]
            if x not in work.bad and y not in work.bad:
                found[key] = PointColumn(_full(work, x), _full(work, y))
            continue
        slot = layout.slots[key]
        if slot not in work.bad:
            column = work.values[slot]
            is_listed = isinstance(layout.system.nodes[key], Computed) and isinstance(column, list)
            found[key] = column if is_listed else _full(work, slot)
    return found


def _full(work: _Work, slot: int) -> Array:
    return numpy.array(numpy.broadcast_to(numpy.asarray(work.values[slot], dtype=float), (work.n_sizes,)))
