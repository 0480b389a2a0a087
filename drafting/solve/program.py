"""Run the steps of a plan for one set of measures.

Steps come in order; what depends on a step that failed is passed over in silence, so one fault gives one finding. A
compound is a run of steps in which a choice reaches forward: all its branches are followed until the choices have
picked.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

from drafting.geometry.maths import NotOneNumber
from drafting.records import dataclass, field
from drafting.solve.filters import Filter, FilterResult, keep
from drafting.solve.findings import (
    ChoiceRefuses,
    Degenerate,
    Finding,
    NearTouch,
    NegativeLength,
    NoPlace,
    NotProven,
    OutOfRange,
    Place,
    SeveralPlaces,
    SeveralValues,
    Undecided,
    slides_along,
)
from drafting.solve.layout import Layout
from drafting.solve.steps import Block, ComputedStep, FormulaStep, Remarks, Touch, Unsolved, distinct_places
from drafting.solve.system import Tag, UnknownPoint

Values = list[Any]
MOST_BRANCHES = 4096
"""Branches followed at once within one compound before its first block is called undecided."""


@dataclass
class Compound:
    """Steps whose places are decided together. `after[i]` are the filters that can be put after step i."""

    steps: list[Step]
    after: list[list[Filter]]
    inputs: tuple[int, ...]
    outputs: tuple[int, ...]


@dataclass(frozen=True)
class Check:
    """A choice or condition on a point that has only one place: it must hold."""

    filter: Filter

    @property
    def inputs(self) -> tuple[int, ...]:
        return self.filter.reads

    @property
    def outputs(self) -> tuple[int, ...]:
        return ()


Step = FormulaStep | ComputedStep | Block | Compound | Check


@dataclass
class Run:
    """One evaluation under way."""

    layout: Layout
    values: Values
    bad: set[int]
    findings: list[Finding] = field(default_factory=list)
    failures: dict[str, Exception] = field(default_factory=dict)
    decided: dict[int, Decision] = field(default_factory=dict)
    """By the first output slot of a block that had several places or was filtered."""


@dataclass(frozen=True)
class Decision:
    n_places: int
    used: tuple[Filter, ...]


def run_steps(steps: Sequence[Step], run: Run) -> None:
    bad = run.bad
    for step in steps:
        if bad and not bad.isdisjoint(step.inputs):
            bad.update(step.outputs)
        elif isinstance(step, Block):
            _run_together(_run_block, step, run)
        elif isinstance(step, Compound):
            _run_together(_run_compound, step, run)
        elif isinstance(step, Check):
            _run_check(step, run)
        else:
            _run_node(step, run)


def _run_together(work: Callable[[Any, Run], None], step: Block | Compound, run: Run) -> None:
    """What is solved by search is solved size by size where its amounts vary."""
    try:
        work(step, run)
    except NotOneNumber:
        from drafting.solve.in_each_size import run_in_each_size

        run_in_each_size(work, step, run)


def _run_node(step: FormulaStep | ComputedStep, run: Run) -> None:
    try:
        step.run(run.values)
    except Exception as fault:
        run.failures[step.node.key] = fault
        run.bad.update(step.outputs)


def _run_block(block: Block, run: Run) -> None:
    values = run.values
    remarks = Remarks()
    try:
        _expect_lengths(block, run)
        places = block.all_places(values, remarks)
        if block.filters or len(places) > 1:
            n_places = remarks.n_places or len(places)
            result = keep(block.filters, values, block.outputs, places)
            places = _expect_one(block, result, remarks, run)
            run.decided[block.outputs[0]] = Decision(
                n_places, tuple(dict.fromkeys([*remarks.used, *result.used]))
            )
    except Unsolved as fault:
        run.findings += fault.findings or [_unsolved(block, fault, run.layout)]
        if remarks.not_proven:
            run.findings.append(NotProven(block.keys, tags_of(run.layout, block.equations)))
        run.bad.update(block.outputs)
        return
    except Told:
        run.bad.update(block.outputs)
        return
    for slot, value in zip(block.outputs, places[0], strict=True):
        values[slot] = value
    if remarks.touches or remarks.not_proven:
        _remark(block, places[0], remarks, run)


class Told(Exception):
    """The finding is made already."""


def _expect_lengths(block: Block, run: Run) -> None:
    for slot, equation in zip(block.lengths[::2], block.lengths[1::2], strict=True):
        value = run.values[slot]
        if value < 0.0:
            fact = run.layout.equations[equation].fact
            run.findings.append(NegativeLength(run.layout.system.facts[fact].tag, value))
            raise Told


def _expect_one(block: Block, result: FilterResult, remarks: Remarks, run: Run) -> list[tuple[float, ...]]:
    places: list[tuple[float, ...]] = result.places
    if result.refuses is not None:
        run.findings.append(_refused(block, result, run))
        raise Told
    if len(places) > 1 and not _are_one(block, places, remarks):
        run.findings.append(several(block, places, result.used, run))
        raise Told
    return places


def _are_one(block: Block, places: list[tuple[float, ...]], remarks: Remarks) -> bool:
    """Places so near each other that no choice could pick: the first is taken, and told of."""
    if len(distinct_places(places, len(block.unknowns))) > 1:
        return False
    remarks.touches.append(Touch(math.dist(places[0], places[-1]), tuple(places)))
    return True


def _unsolved(block: Block, fault: Unsolved, layout: Layout) -> Finding:
    tags = tags_of(layout, block.equations)
    if fault.n_ways:
        return Undecided(block.keys, tags, fault.n_ways)
    if fault.same:
        return Degenerate(block.keys, tags, None if fault.way is None else slides_along(*fault.way))
    missed = None if fault.missed is None else tags_of(layout, [fault.missed])[0]
    return NoPlace(block.keys, tags, fault.gap, missed=missed)


def tags_of(layout: Layout, equations: Sequence[int]) -> tuple[Tag, ...]:
    facts = dict.fromkeys(layout.equations[e].fact for e in sorted(equations))
    return tuple(layout.system.facts[fact].tag for fact in facts)


def _refused(block: Block, result: FilterResult, run: Run) -> Finding:
    assert result.refuses is not None
    tags = tags_of(run.layout, block.equations)
    key = result.refuses.key if result.refuses.key in block.keys else block.keys[0]
    places = tuple((x, y) for x, y in distinct_places(_places_of(key, block.outputs, result.before, run)))
    if result.refuses.is_choice:
        return ChoiceRefuses(result.refuses.tag, result.refuses.key, tags, places)
    if result.refuses.kind == "range":
        return _out_of_range(block, result, run)
    return NoPlace(block.keys, tags, None, result.refuses.tag, places)


def _out_of_range(block: Block, result: FilterResult, run: Run) -> Finding:
    assert result.refuses is not None
    key = result.refuses.key
    slot, low_slot, high_slot = result.refuses.reads
    low, high = run.values[low_slot], run.values[high_slot]
    numbers = [place[block.outputs.index(slot)] for place in result.before]
    nearest = min(numbers, key=lambda number: max(low - number, number - high))
    return OutOfRange(key, tags_of(run.layout, block.equations), low, high, nearest)


def several(block: Block, places: Sequence[tuple[float, ...]], used: Sequence[Filter], run: Run) -> Finding:
    """The finding for a block with several places left: of the first point that has several."""
    layout = run.layout
    tags = tags_of(layout, block.equations)
    choices = tuple(one.tag for one in used if one.is_choice)
    keys = [key for key in block.keys if isinstance(layout.system.nodes[key], UnknownPoint)]
    differing: dict[str, list[Place]] = {}
    for key in keys:
        at = _places_of(key, block.outputs, places, run)
        if len(distinct_places(at)) > 1:
            differing[key] = at
    numbers = {
        key: [place[block.outputs.index(layout.slots[key])] for place in places]
        for key in block.keys
        if key not in keys
    }
    if not differing:
        key = next(iter(numbers))
        return SeveralValues(key, tags, tuple(numbers[key]))
    first = next(iter(differing))
    solutions: tuple[tuple[tuple[str, Place | float], ...], ...] = ()
    if len(block.keys) > 1:
        columns: list[tuple[str, Sequence[Place | float]]] = [*differing.items(), *numbers.items()]
        solutions = tuple(tuple((key, at[index]) for key, at in columns) for index in range(len(places)))
    distinct = tuple((x, y) for x, y in distinct_places(differing[first]))
    return SeveralPlaces(first, tuple(differing), tags, distinct, choices, solutions)


def _places_of(
    key: str, outputs: Sequence[int], places: Sequence[tuple[float, ...]], run: Run
) -> list[Place]:
    """The places of one point (of a number: itself, twice). Where the block gives only one coordinate the other is
    known already, or not a number while it is loose."""
    slot_x, slot_y = run.layout.points.get(key) or (run.layout.slots[key],) * 2
    found = []
    for place in places:
        given = dict(zip(outputs, place, strict=True))
        x, y = given.get(slot_x, run.values[slot_x]), given.get(slot_y, run.values[slot_y])
        found.append((math.nan if x is None else x, math.nan if y is None else y))
    return found


def _remark(block: Block, place: tuple[float, ...], remarks: Remarks, run: Run) -> None:
    """Tell of what was remarked of the place that was taken, once."""
    tags = tags_of(run.layout, block.equations)
    touches: list[Finding] = [
        NearTouch(block.keys, tags, touch.apart) for touch in remarks.touches if place in touch.places
    ]
    told = touches[:1]
    if remarks.not_proven:
        told.append(NotProven(block.keys, tags))
    run.findings += [finding for finding in told if finding not in run.findings]


def _run_check(check: Check, run: Run) -> None:
    one = check.filter
    if one.test is None or one.test(run.values):
        return
    x, y = run.layout.points.get(one.key) or (run.layout.slots[one.key],) * 2
    place = ((run.values[x], run.values[y]),)
    if one.is_choice:
        run.findings.append(ChoiceRefuses(one.tag, one.key, (), place))
    else:
        run.findings.append(NoPlace((one.key,), (one.tag,), None, one.tag, place))


def _run_compound(compound: Compound, run: Run) -> None:
    """Follow all branches side by side. A branch is the values of all slots filled so far within the compound."""
    outputs: list[int] = []
    branches: list[tuple[Any, ...]] = [()]
    n_places = 0
    used: list[Filter] = []
    said: list[tuple[Block, Remarks]] = []
    try:
        for step, filters in zip(compound.steps, compound.after, strict=True):
            branches = _grow(step, outputs, branches, said, run)
            outputs += step.outputs
            n_places = max(n_places, len(branches))
            result = keep(filters, run.values, outputs, branches)
            used += result.used
            if result.refuses is not None:
                run.findings.append(_refused_branches(result, outputs, run))
                raise Told
            branches = result.places
            if len(branches) > MOST_BRANCHES:
                break
        branches = _distinct_branches(compound, outputs, branches)
        if len(branches) > 1:
            run.findings.append(_several_branches(compound, outputs, branches, used, run))
            raise Told
    except Told:
        run.bad.update(compound.outputs)
        return
    for slot, value in zip(outputs, branches[0], strict=True):
        run.values[slot] = value
    for block, remarks in said:
        _remark(block, tuple(run.values[slot] for slot in block.outputs), remarks, run)
    for step in compound.steps:
        if isinstance(step, Block) and step.may_branch:
            run.decided[step.outputs[0]] = Decision(n_places, tuple(used))


def _grow(
    step: Step, outputs: Sequence[int], branches: list[Any], said: list[tuple[Block, Remarks]], run: Run
) -> list[tuple[Any, ...]]:
    grown: list[tuple[Any, ...]] = []
    kept = run.findings, run.failures
    last: tuple[list[Finding], dict[str, Exception]] = ([], {})
    for branch in branches:
        for slot, value in zip(outputs, branch, strict=True):
            run.values[slot] = value
        run.findings, run.failures = [], {}
        for place in _places_of_step(step, said, run):
            grown.append((*branch, *place))
        last = run.findings, run.failures
    run.findings, run.failures = kept
    if not grown:
        run.findings += last[0]
        run.failures.update(last[1])
        raise Told
    return grown


def _places_of_step(step: Step, said: list[tuple[Block, Remarks]], run: Run) -> list[tuple[Any, ...]]:
    if not isinstance(step, Block):
        assert isinstance(step, (FormulaStep, ComputedStep))
        _run_node(step, run)
        return [] if run.failures else [tuple(run.values[slot] for slot in step.outputs)]
    remarks = Remarks()
    try:
        _expect_lengths(step, run)
        places = step.all_places(run.values, remarks)
    except Unsolved as fault:
        run.findings += fault.findings or [_unsolved(step, fault, run.layout)]
        return []
    except Told:
        return []
    said.append((step, remarks))
    result = keep(step.filters, run.values, step.outputs, places)
    if result.refuses is not None:
        run.findings.append(_refused(step, result, run))
    return result.places


def _refused_branches(result: FilterResult, outputs: Sequence[int], run: Run) -> Finding:
    one = result.refuses
    assert one is not None
    places = tuple((x, y) for x, y in distinct_places(_places_of(one.key, outputs, result.before, run)))
    if one.is_choice:
        return ChoiceRefuses(one.tag, one.key, (), places)
    return NoPlace((one.key,), (one.tag,), None, one.tag, places)


def _distinct_branches(compound: Compound, outputs: Sequence[int], branches: list[Any]) -> list[Any]:
    """Two branches are one when all unknowns agree."""
    unknowns = {slot for step in compound.steps if isinstance(step, Block) for slot in step.unknowns}
    at = [index for index, slot in enumerate(outputs) if slot in unknowns]
    numbered = [(*(branch[index] for index in at), branch) for branch in branches]
    return [numbers[-1] for numbers in distinct_places(numbered, len(at))]


def _several_branches(
    compound: Compound, outputs: Sequence[int], branches: list[Any], used: list[Filter], run: Run
) -> Finding:
    """Of the first block within the compound that has several places left."""
    for step in compound.steps:
        if not isinstance(step, Block) or step.outputs[0] not in outputs:
            continue
        at = [outputs.index(slot) for slot in step.outputs]
        places = [tuple(branch[index] for index in at) for branch in branches]
        places = distinct_places(places, len(step.unknowns))
        if len(places) > 1:
            return several(step, places, used, run)
    raise AssertionError("branches that do not differ")
