"""Where each filter is put: with the block whose places it picks from.

The condition of a fact goes with the equation of that fact. A choice goes with the block that gives its point; where it
speaks of something that is only found from that point, the blocks between must be decided together, and `ties` says
which. A choice on a point that has one place only, and that speaks of something found later, is checked at the end.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.records import dataclass, field
from drafting.solve.filters import Filter, condition_of_fact, filter_of_choice, filter_of_range
from drafting.solve.program import Check, Step
from drafting.solve.steps import Block
from drafting.solve.structure import Structure


@dataclass
class Placing:
    ties: dict[int, set[int]] = field(default_factory=dict)
    """For a part, other parts it must be decided together with or after."""
    waiting: list[tuple[Filter, list[int]]] = field(default_factory=list)
    """Filters to be put when all the parts they need are there."""
    checks: list[Step] = field(default_factory=list)


def place_filters(structure: Structure, parts: Sequence[Sequence[Step]]) -> Placing:
    placing = Placing()
    for one, homes in _filters(structure):
        _place(one, homes, structure, parts, placing)
    for slot in structure.layout.ranges:
        if slot in structure.producer:
            _decide_by_range(slot, structure, parts, placing)
    return placing


def _decide_by_range(
    slot: int, structure: Structure, parts: Sequence[Sequence[Step]], placing: Placing
) -> None:
    """A number to be found may be found last, from points that have several places; if no choice picks among these, its
    range may, so they are decided with it."""
    home = structure.producer[slot]
    undecided = {
        part
        for part in _behind(home, structure, parts)
        for step in parts[part]
        if isinstance(step, Block) and step.may_branch and not any(one.is_choice for one in step.filters)
    }
    chosen = {part for one, needs in placing.waiting if one.is_choice for part in needs}
    for part in undecided - chosen:
        placing.ties.setdefault(part, set()).add(home)


def _behind(home: int, structure: Structure, parts: Sequence[Sequence[Step]]) -> set[int]:
    """The parts that a part hangs on, near and far."""
    found: set[int] = set()
    waiting = [home]
    while waiting:
        for step in parts[waiting.pop()]:
            for slot in step.inputs:
                part = structure.producer.get(slot)
                if part is not None and part not in found and part != home:
                    found.add(part)
                    waiting.append(part)
    return found


def _filters(structure: Structure) -> Iterator[tuple[Filter, set[int]]]:
    """All filters, each with the parts whose places it is to pick from."""
    layout, producer = structure.layout, structure.producer
    part_of = {e: number for number, part in enumerate(structure.parts) for e in part.equations}
    home_of_fact: dict[int, int] = {}
    for e, number in part_of.items():
        fact = layout.equations[e].fact
        home_of_fact[fact] = max(number, home_of_fact.get(fact, -1))
    for number, fact_of_system in enumerate(layout.system.facts):
        condition = condition_of_fact(layout, fact_of_system)
        if condition is not None:
            yield condition, {home_of_fact[number]} if number in home_of_fact else set()
    for slot in layout.ranges:
        yield filter_of_range(layout, slot), {producer[slot]} if slot in producer else set()
    for choice in layout.system.choices:
        one = filter_of_choice(layout, choice)
        yield one, {producer[slot] for slot in one.subject if slot in producer}


def _place(
    one: Filter, homes: set[int], structure: Structure, parts: Sequence[Sequence[Step]], placing: Placing
) -> None:
    producer = structure.producer
    needs = sorted({producer[slot] for slot in one.reads if slot in producer})
    blocks = {home: step for home in homes for step in parts[home] if isinstance(step, Block)}
    branching = sorted([home for home, block in blocks.items() if block.may_branch])
    last = max(blocks, default=None)
    if last is not None and needs[-1] <= last and branching in ([], [last]):
        blocks[last].add_filter(one)
    elif not branching:
        placing.checks.append(Check(one))
    else:
        placing.waiting.append((one, needs))
        for home in branching:
            placing.ties.setdefault(home, set()).update(need for need in needs if need != home)
