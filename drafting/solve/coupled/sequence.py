"""Solve one by one what can be solved one by one.

Given some slots as known, find points and coordinates whose facts speak of nothing else unknown, put them in order,
and tell which equations are left over when everything is known.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drafting.solve.building import (
    STRAIGHT,
    block_of_amount,
    block_of_coordinate,
    block_of_equation,
    block_of_point,
    is_amount,
)
from drafting.solve.kinds import EQUATION
from drafting.solve.layout import ComputedNode, Layout
from drafting.solve.steps import Block, ComputedStep, FormulaStep, SmallStep
from drafting.solve.structure import Part, inputs_of, outputs_of


@dataclass(frozen=True)
class Order:
    """Steps in order, the equations they did not need, and the unknowns they did not reach."""

    steps: list[SmallStep]
    left_over: list[int]
    unreached: list[int]

    @property
    def n_branches(self) -> int:
        count = 1
        for step in self.steps:
            if isinstance(step, Block) and step.may_branch:
                count *= 2
        return count


class Sequencer:
    """For one set of equations, unknowns and computed nodes; asked several times with other slots as known."""

    def __init__(
        self, layout: Layout, equations: Sequence[int], unknowns: Sequence[int], transits: Sequence[int]
    ) -> None:
        self.layout = layout
        self.equations = list(equations)
        self.unknowns = list(unknowns)
        self.transits = list(transits)
        self.pair_of = layout.pair_of
        self.made = {slot for transit in transits for slot in outputs_of(layout.transits[transit])}

    def sequence(self, known: Sequence[int], used: Sequence[int] = ()) -> Order:
        """The steps when the slots `known` are known too and the equations `used` are used up."""
        open_slots = (set(self.unknowns) | self.made) - set(known)
        left = [e for e in self.equations if e not in set(used)]
        transits = list(self.transits)
        steps: list[SmallStep] = []
        while True:
            step = self._next_node(transits, open_slots) or self._next_block(left, open_slots)
            if step is None:
                break
            steps.append(step)
            open_slots.difference_update(step.outputs)
        return Order(steps, left, sorted(open_slots & set(self.unknowns)))

    def _next_node(self, transits: list[int], open_slots: set[int]) -> SmallStep | None:
        for transit in transits:
            node = self.layout.transits[transit]
            if open_slots.isdisjoint(inputs_of(node)):
                transits.remove(transit)
                return ComputedStep(node) if isinstance(node, ComputedNode) else FormulaStep(node)
        return None

    def _next_block(self, left: list[int], open_slots: set[int]) -> SmallStep | None:
        """First what has one place only, then what branches; a coordinate before a point."""
        wants: dict[int, set[int]] = {
            e: open_slots.intersection(self.layout.equations[e].reads) for e in left
        }
        for straight in (True, False):
            for e in left:
                if len(wants[e]) == 1 and self._is_straight(e) == straight:
                    block = self._coordinate(e, next(iter(wants[e])))
                    if block is not None:
                        left.remove(e)
                        return block
        pairs: dict[tuple[int, int], list[int]] = {}
        for e in sorted(left, key=lambda e: not self._is_straight(e)):
            pair = self.pair_of.get(min(wants[e])) if len(wants[e]) in (1, 2) else None
            if pair is not None and wants[e] <= set(pair):
                pairs.setdefault(pair, []).append(e)
        for pair, candidates in pairs.items():
            for index, first in enumerate(candidates):
                for second in candidates[index + 1 :]:
                    block = self._point(first, second, pair) if open_slots.issuperset(pair) else None
                    if block is not None:
                        left.remove(first)
                        left.remove(second)
                        return block
        return None

    def _is_straight(self, e: int) -> bool:
        return self.layout.equations[e].form.name in STRAIGHT

    def _coordinate(self, e: int, slot: int) -> Block | None:
        if slot in self.made:
            return None
        if self.layout.equations[e].form is EQUATION:
            return block_of_equation(self.layout, Part((e,), (), (slot,)))
        part = Part((e,), (), (slot,))
        if is_amount(self.layout, part):
            return block_of_amount(self.layout, part)
        if slot not in self.pair_of:
            return None
        return block_of_coordinate(self.layout, e, slot, self.pair_of[slot])

    def _point(self, first: int, second: int, pair: tuple[int, int]) -> Block | None:
        if pair[0] in self.made:
            return None
        return block_of_point(self.layout, tuple(sorted((first, second))), pair)
