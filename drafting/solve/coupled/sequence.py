"""Solve one by one what can be solved one by one.

Given some slots as known, find points and coordinates whose facts speak of nothing else unknown, put them in order,
and tell which equations are left over when everything is known.
"""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heappop, heappush
from itertools import combinations

from drafting.records import dataclass
from drafting.solve.building import (
    STRAIGHT,
    block_of_amount,
    block_of_coordinate,
    block_of_equation,
    block_of_point,
    is_amount,
)
from drafting.solve.kinds import EQUATION
from drafting.solve.layout import ComputedNode, Equation, Layout
from drafting.solve.steps import ComputedStep, FormulaStep, SmallBlock, SmallStep
from drafting.solve.structure import Part, inputs_of, outputs_of

Pair = tuple[int, int]


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
            if isinstance(step, SmallBlock) and step.may_branch:
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
        return _Walk(self, known, used).order()


class _Walk:
    """One sequence in the making. What waits is looked at again only when something it reads has become known."""

    def __init__(self, given: Sequencer, known: Sequence[int], used: Sequence[int]) -> None:
        self.layout = given.layout
        self.pair_of = given.pair_of
        self.made = given.made
        self.unknowns = given.unknowns
        self.open = (set(given.unknowns) | given.made) - set(known)
        self.left = dict.fromkeys(e for e in given.equations if e not in set(used))
        self.wants = {e: self.open.intersection(self.layout.equations[e].reads) for e in self.left}
        self.node_wants = {
            transit: self.open.intersection(inputs_of(self.layout.transits[transit]))
            for transit in given.transits
        }
        self.readers: dict[int, list[int]] = {}
        self.node_readers: dict[int, list[int]] = {}
        self.nodes: list[int] = []
        self.straight: list[int] = []
        self.bent: list[int] = []
        self.pairs: list[tuple[int, Pair]] = []
        self.of_pair: dict[Pair, list[int]] = {}
        self.tried: set[tuple[int, int]] = set()
        for e, wants in self.wants.items():
            for slot in wants:
                self.readers.setdefault(slot, []).append(e)
            self._look(e)
        for transit, wants in self.node_wants.items():
            for slot in wants:
                self.node_readers.setdefault(slot, []).append(transit)
            if not wants:
                heappush(self.nodes, transit)

    def order(self) -> Order:
        steps: list[SmallStep] = []
        while True:
            step = self._next_node() or self._next_coordinate() or self._next_point()
            if step is None:
                break
            steps.append(step)
            self._close(step.outputs)
        return Order(steps, list(self.left), sorted(self.open & set(self.unknowns)))

    def _look(self, e: int) -> None:
        """Put an equation where it belongs when it wants no more than one point."""
        wants = self.wants[e]
        if len(wants) == 1:
            heappush(self.straight if self._is_straight(e) else self.bent, e)
        if len(wants) in (1, 2):
            pair = self.pair_of.get(min(wants))
            if pair is not None and wants <= set(pair):
                members = self.of_pair.setdefault(pair, [])
                if e not in members:
                    members.append(e)
                if len(members) > 1:
                    heappush(self.pairs, (min(members), pair))

    def _close(self, slots: Sequence[int]) -> None:
        for slot in slots:
            self.open.discard(slot)
            for transit in self.node_readers.get(slot, ()):
                wants = self.node_wants[transit]
                wants.discard(slot)
                if not wants:
                    heappush(self.nodes, transit)
            for e in self.readers.get(slot, ()):
                self.wants[e].discard(slot)
                if e in self.left:
                    self._look(e)

    def _next_node(self) -> SmallStep | None:
        if not self.nodes:
            return None
        node = self.layout.transits[heappop(self.nodes)]
        return ComputedStep(node) if isinstance(node, ComputedNode) else FormulaStep(node)

    def _next_coordinate(self) -> SmallBlock | None:
        """First what has one place only, then what branches."""
        for waiting in (self.straight, self.bent):
            while waiting:
                e = heappop(waiting)
                if e in self.left and len(self.wants[e]) == 1:
                    block = self._coordinate(e, next(iter(self.wants[e])))
                    if block is not None:
                        del self.left[e]
                        return block
        return None

    def _next_point(self) -> SmallBlock | None:
        while self.pairs:
            _, pair = heappop(self.pairs)
            if not self.open.issuperset(pair):
                continue
            members = [e for e in self.of_pair[pair] if e in self.left]
            members.sort(key=lambda e: (not self._is_straight(e), e))
            for first, second in self._surest_first(members, pair):
                if (first, second) in self.tried:
                    continue
                self.tried.add((first, second))
                block = block_of_point(self.layout, tuple(sorted((first, second))), pair)
                if block is not None:
                    del self.left[first], self.left[second]
                    return block
        return None

    def _is_straight(self, e: int) -> bool:
        return self.layout.equations[e].form.name in STRAIGHT

    def _surest_first(self, members: Sequence[int], pair: Pair) -> list[tuple[int, int]]:
        """Two by two; a circle and a line through its middle come first, for they meet wherever both may lie."""
        both = list(combinations(members, 2))
        if len(members) > 2:
            equations = self.layout.equations
            both.sort(key=lambda two: not _always_meet(equations[two[0]], equations[two[1]], pair))
        return both

    def _coordinate(self, e: int, slot: int) -> SmallBlock | None:
        if slot in self.made:
            return None
        part = Part((e,), (), (slot,))
        if self.layout.equations[e].form is EQUATION:
            return block_of_equation(self.layout, part)
        if is_amount(self.layout, part):
            return block_of_amount(self.layout, part)
        if slot not in self.pair_of:
            return None
        return block_of_coordinate(self.layout, e, slot, self.pair_of[slot])


def _always_meet(line: Equation, circle: Equation, pair: Pair) -> bool:
    if line.form.name == "distance":
        line, circle = circle, line
    middle = _other_end(circle, pair)
    return circle.form.name == "distance" and middle is not None and middle == _passed(line, pair)


def _passed(line: Equation, pair: Pair) -> Pair | None:
    """A point that the line passes on which a fact wants a point, if the fact names one."""
    if line.points.count(pair) != 1:
        return None
    match line.form.name:
        case "same_x" | "same_y" | "ray":
            return _other_end(line, pair)
        case "parallel" | "square":
            return line.points[line.points.index(pair) ^ 1]
        case "angle" if line.points[1] != pair:
            return line.points[1]
    return None


def _other_end(equation: Equation, pair: Pair) -> Pair | None:
    return next((point for point in equation.points if point != pair), None)
