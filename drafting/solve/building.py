"""Structure -> steps: each part becomes a block of a known shape, with the filters that pick among its places.

A choice is put where the place of its point is found. Where it speaks of points that are only found from that place,
the steps in between are decided together, as a compound.
"""

from __future__ import annotations

from collections.abc import Container, Sequence
from functools import cache
from typing import Any

from drafting.model.expressions import (
    AngleAt,
    Applied,
    Bound,
    Constant,
    Distance,
    Operation,
    Value,
    keys_of,
)
from drafting.solve.filters import Filter
from drafting.solve.graphs import strong_parts
from drafting.solve.kinds import EQUATION, ON_PATH, TANGENT
from drafting.solve.layout import ComputedNode, Equation, Layout
from drafting.solve.loci import LocusSource, locus_source
from drafting.solve.placing import place_filters
from drafting.solve.program import Compound, Step
from drafting.solve.steps import (
    AmountBlock,
    Block,
    ComputedStep,
    CoordinateBlock,
    FormulaStep,
    PointBlock,
    SmallBlock,
    StraightBlock,
    TouchBlock,
)
from drafting.solve.structure import Part, Structure, inputs_of, outputs_of

STRAIGHT = frozenset(
    {
        "offset_x",
        "offset_y",
        "coordinate_x",
        "coordinate_y",
        "same_x",
        "same_y",
        "ray",
        "between_x",
        "between_y",
        "along_x",
        "along_y",
        "mirror_x",
        "mirror_y",
        "frame_x",
        "frame_y",
        "parallel",
        "square",
    }
)
"""Forms that are one line in each of their points: two of them give one place."""

Pair = tuple[int, int]


def build_steps(structure: Structure) -> list[Step]:
    builder = _Builder(structure)
    return builder.steps()


class _Builder:
    def __init__(self, structure: Structure) -> None:
        self.structure = structure
        self.layout = structure.layout

    def steps(self) -> list[Step]:
        parts = [self._part(part) for part in self.structure.parts]
        placing = place_filters(self.structure, parts)
        if not placing.ties:
            return [step for part in parts for step in part] + placing.checks
        return self._compounds(parts, placing.ties, placing.waiting) + placing.checks

    def _part(self, part: Part) -> list[Step]:
        """The steps of a part; those of a ring of computed nodes are none, for they cannot be run."""
        if not part.equations:
            if len(part.transits) > 1 or self._needs_itself(part.transits[0]):
                return []
            node = self.layout.transits[part.transits[0]]
            return [ComputedStep(node) if isinstance(node, ComputedNode) else FormulaStep(node)]
        return [self._block(part)]

    def _needs_itself(self, transit: int) -> bool:
        node = self.layout.transits[transit]
        return any(self.layout.transit_of.get(slot) == transit for slot in inputs_of(node))

    def _block(self, part: Part) -> Block:
        return self._small_block(part) or self._coupled_block(part)

    def _small_block(self, part: Part) -> SmallBlock | None:
        """A part that is one point or one number by itself, if its facts have a closed form in it."""
        if part.transits:
            return None
        pair = self.layout.pair_of.get(part.unknowns[0])
        if len(part.equations) > 1:
            return block_of_point(self.layout, part.equations, pair) if part.unknowns == pair else None
        e = part.equations[0]
        if self.layout.equations[e].form is EQUATION:
            return block_of_equation(self.layout, part)
        if is_amount(self.layout, part):
            return block_of_amount(self.layout, part)
        return None if pair is None else block_of_coordinate(self.layout, e, part.unknowns[0], pair)

    def _coupled_block(self, part: Part) -> Block:
        from drafting.solve.coupled import coupled_block

        keys = tuple(
            dict.fromkeys(
                self.layout.point_key(self.layout.pair_of[slot])
                if slot in self.layout.pair_of
                else self.layout.names[slot]
                for slot in part.unknowns
            )
        )
        return coupled_block(self.layout, part, common_of(self.layout, part, keys))

    def _compounds(
        self,
        parts: list[list[Step]],
        extra: dict[int, set[int]],
        placed: list[tuple[Filter, list[int]]],
    ) -> list[Step]:
        producer = self.structure.producer
        edges: list[list[int]] = []
        for index, own in enumerate(parts):
            before = {producer[slot] for step in own for slot in step.inputs if slot in producer}
            edges.append(sorted((before | extra.get(index, set())) - {index}))
        groups = strong_parts(edges)
        group_of = {member: number for number, group in enumerate(groups) for member in group}
        waiting: dict[int, list[tuple[Filter, list[int]]]] = {}
        for one, needs in placed:
            waiting.setdefault(max(group_of[need] for need in needs), []).append((one, needs))
        steps: list[Step] = []
        for number, group in enumerate(groups):
            filters = waiting.get(number, [])
            if len(group) == 1 and parts[group[0]]:
                step = parts[group[0]][0]
                for one, _ in filters:
                    assert isinstance(step, Block)
                    step.add_filter(one)
                steps.append(step)
            elif len(group) > 1:
                steps.append(self._compound(parts, group, filters, group_of))
        return steps

    def _compound(
        self,
        parts: list[list[Step]],
        group: list[int],
        filters: list[tuple[Filter, list[int]]],
        group_of: dict[int, int],
    ) -> Compound:
        """The parts of a group in their first order, which follows what depends on what."""
        steps: list[Step] = []
        after: list[list[Filter]] = []
        mine = group_of[group[0]]
        for member in group:
            for step in parts[member]:
                steps.append(step)
                after.append(
                    [
                        one
                        for one, needs in filters
                        if max(need for need in needs if group_of[need] == mine) == member
                    ]
                )
        outputs = tuple(slot for step in steps for slot in step.outputs)
        inputs = dict.fromkeys(slot for step in steps for slot in step.inputs)
        inputs.update(dict.fromkeys(slot for one, _ in filters for slot in one.reads))
        for slot in outputs:
            inputs.pop(slot, None)
        return Compound(steps, after, tuple(inputs), outputs)


def block_of_coordinate(layout: Layout, e: int, slot: int, pair: Pair) -> SmallBlock | None:
    """One coordinate by one equation; None when the equation is no circle or line in its point."""
    equation = layout.equations[e]
    source = locus_source(equation, pair)
    if source is None:
        return None
    other = pair[1] if slot == pair[0] else pair[0]
    return CoordinateBlock(
        **common_of(layout, Part((e,), (), (slot,)), (layout.point_key(pair),)),
        shape=_shape_of(equation.form.name, equation.merge),
        may_branch=equation.form.name not in STRAIGHT,
        source=source,
        origin=_origin([equation], pair),
        is_x=slot == pair[0],
        other=other if other in equation.reads else -1,
    )


def block_of_point(layout: Layout, numbers: tuple[int, ...], pair: Pair) -> SmallBlock | None:
    """A point by two equations; None when one of them is no circle or line in it."""
    equations = [layout.equations[e] for e in numbers]
    common = common_of(layout, Part(numbers, (), pair), (layout.point_key(pair),))
    if equations[0].form is ON_PATH and equations[1].form is TANGENT:
        return _touch_block(common, equations[1], pair)
    sources: list[LocusSource] = []
    for equation in equations:
        source = locus_source(equation, pair)
        if source is None:
            return None
        sources.append(source)
    return PointBlock(
        **common,
        shape=_shape_of_two(*[(equation.form.name, equation.merge) for equation in equations]),
        may_branch=not all(equation.form.name in STRAIGHT for equation in equations),
        sources=(sources[0], sources[1]),
        origin=_origin(equations, pair),
    )


MEASURED = frozenset({"offset_x", "offset_y", "coordinate_x", "coordinate_y", "distance", "line_distance"})


def is_amount(layout: Layout, part: Part) -> bool:
    """Whether the unknown is just the amount that the fact asks for."""
    equation = layout.equations[part.equations[0]]
    slot = part.unknowns[0]
    is_asked = equation.form.name in MEASURED and equation.scalars == (slot,)
    return is_asked and all(slot not in pair for pair in equation.points)


def block_of_amount(layout: Layout, part: Part) -> SmallBlock:
    slot = part.unknowns[0]
    key = layout.point_key(layout.pair_of[slot]) if slot in layout.pair_of else layout.names[slot]
    equation = layout.equations[part.equations[0]]
    return AmountBlock(**common_of(layout, part, (key,)), shape="line", may_branch=False, equation=equation)


def block_of_equation(layout: Layout, part: Part) -> SmallBlock | None:
    """A number by a general equation that is straight in it; None for any other."""
    node = layout.equations[part.equations[0]].left
    assert node is not None
    slot = part.unknowns[0]
    if degree(node.expression, layout, slot) > 1:
        return None
    key = layout.point_key(layout.pair_of[slot]) if slot in layout.pair_of else layout.names[slot]
    common = common_of(layout, part, (key,))
    return StraightBlock(**common, shape="line", may_branch=False, equation=node)


def degree(expression: Bound, layout: Layout, slot: int) -> int:
    """Of an expression in one number: 0 without it, 1 straight in it, 2 anything else."""
    match expression:
        case Constant():
            return 0
        case Value(key):
            return 1 if layout.slot(key) == slot else 0
        case Operation(operator, left, right):
            one, other = degree(left, layout, slot), degree(right, layout, slot)
            if operator in "+-":
                return max(one, other)
            if operator == "*":
                return min(one + other, 2)
            return one if other == 0 else 2
        case Applied("sum", arguments):
            return max(degree(argument, layout, slot) for argument in arguments)
        case Applied(_, arguments):
            return 2 if any(degree(argument, layout, slot) for argument in arguments) else 0
        case Distance() | AngleAt():
            near = {at for key in keys_of(expression) for at in layout.point(key)}
            return 2 if slot in near else 0


def _touch_block(common: dict[str, Any], tangent: Equation, pair: Pair) -> SmallBlock | None:
    if tangent.points[0] != pair or tangent.points[1] == pair:
        return None
    return TouchBlock(
        **common, shape="tangent", may_branch=True, path=tangent.objects[0], start=tangent.points[1]
    )


def _origin(equations: Sequence[Equation], target: Pair) -> Pair:
    """Slots of the first x and the first y that the equations know from elsewhere."""
    found = [-1, -1]
    for index in (0, 1):
        for equation in equations:
            for operand in equation.points:
                if found[index] < 0 and operand != target and operand[index] in equation.reads:
                    found[index] = operand[index]
    return found[0], found[1]


def common_of(layout: Layout, part: Part, keys: tuple[str, ...]) -> dict[str, Any]:
    """What every block has, whatever its shape."""
    reads = [slot for e in part.equations for slot in layout.equations[e].reads]
    made = dict.fromkeys(part.unknowns)
    outputs = part.unknowns
    for transit in part.transits:
        reads += inputs_of(layout.transits[transit])
        made.update(dict.fromkeys(outputs_of(layout.transits[transit])))
        outputs = tuple(made)
    if layout.ranges:
        reads += [bound for slot in part.unknowns for bound in layout.ranges.get(slot, ())]
    return {
        "equations": part.equations,
        "outputs": outputs,
        "inputs": tuple([slot for slot in dict.fromkeys(reads) if slot not in made]),
        "keys": keys,
        "lengths": _lengths(layout, part, made),
    }


def _lengths(layout: Layout, part: Part, made: Container[int]) -> tuple[int, ...]:
    """Pairs of a slot and the equation that wants it not to be negative, leaving out constants that are not."""
    found: list[int] = []
    for e in part.equations:
        equation = layout.equations[e]
        if equation.form.name in ("distance", "line_distance"):
            slot = equation.scalars[0]
            is_good = layout.names[slot][0] == "#" and layout.start_values[slot] >= 0.0
            if not is_good and slot not in made:
                found += (slot, e)
    return tuple(found)


@cache
def _shape_of_two(first: tuple[str, str], second: tuple[str, str]) -> str:
    return " and ".join(sorted((_shape_of(*first), _shape_of(*second))))


def _shape_of(name: str, merge: str) -> str:
    """The shape of an equation by the name of its form and what it merges."""
    if name == "distance" or (name == "equal_lengths" and len(set(merge)) == 4):
        return "circle"
    if name in STRAIGHT or name in ("equal_lengths", "line_distance"):
        return "line"
    if name == "on_path":
        return "path"
    return name
