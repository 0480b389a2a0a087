"""System -> Layout: every number gets a slot, every fact its equations between slots.

Keys are looked up once, here; from then on the solver works on slot numbers. A number that a fact asks for is a slot
too: that of a measure, of a constant, or of a formula made for it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from drafting.model.expressions import (
    AngleAt,
    Bound,
    Constant,
    Distance,
    Operation,
    Value,
    keys_of,
)
from drafting.solve.compiled import compile_bound
from drafting.solve.kinds import KINDS, Form
from drafting.solve.system import Computed, Fact, Formula, Known, System, Unknown, UnknownPoint

ABSENT = -1
RING_CHOICES = ("inside", "outside")
HELD_TOGETHER = frozenset({"parallel", "square", "equal lengths", "angle", "touches", "equation"})
"""Facts that tie points without being said of one of them."""


@dataclass(frozen=True)
class FormulaNode:
    """`output` = function of the numbers in `inputs`."""

    key: str
    function: Callable[..., Any]
    inputs: tuple[int, ...]
    output: int
    expression: Bound


@dataclass(frozen=True)
class ComputedNode:
    """`output` = function of the values of `inputs`; a point in `inputs` is given as its two coordinate slots."""

    key: str
    function: Callable[..., Any]
    inputs: tuple[int | tuple[int, int], ...]
    output: int
    output_x: int
    output_y: int


TransitNode = FormulaNode | ComputedNode


@dataclass(frozen=True, slots=True)
class Equation:
    """One equation of fact number `fact`. `points` are pairs of slots in the form's order, `reads` the slots it
    truly depends on; `merge` names the operands that are one point, as in `closed_forms.LOCI`."""

    form: Form
    fact: int
    points: tuple[tuple[int, int], ...]
    scalars: tuple[int, ...]
    objects: tuple[int, ...]
    reads: tuple[int, ...]
    merge: str
    left: FormulaNode | None = None
    """Of a general equation, left minus right."""


@dataclass
class Layout:
    system: System
    slots: dict[str, int] = field(default_factory=dict)
    names: list[str] = field(default_factory=list)
    start_values: list[Any] = field(default_factory=list)
    transits: list[TransitNode] = field(default_factory=list)
    transit_of: dict[int, int] = field(default_factory=dict)
    """The computed node that fills a slot."""
    unknowns: list[int] = field(default_factory=list)
    """Slots that equations must give, in the order of the text."""
    points: dict[str, tuple[int, int]] = field(default_factory=dict)
    equations: list[Equation] = field(default_factory=list)
    knowns: dict[str, int] = field(default_factory=dict)
    facts_of: dict[str, list[int]] = field(default_factory=dict)
    """For each point the facts said of it: those that name it first, but for what is held between several."""
    ranges: dict[int, tuple[int, int]] = field(default_factory=dict)
    """For the slot of a number to be found the slots of its bounds."""
    pair_of: dict[int, tuple[int, int]] = field(default_factory=dict)
    """For each coordinate slot both slots of its point."""
    _constants: dict[tuple[int, int], int] = field(default_factory=dict)
    _formulas: dict[Bound, int] = field(default_factory=dict)

    def point(self, key: str) -> tuple[int, int]:
        """The coordinate slots of a point, unknown or computed."""
        pair = self.points.get(key)
        if pair is None:
            pair = self._computed_point(key)
            self.add_point(key, pair)
        return pair

    def add_point(self, key: str, pair: tuple[int, int]) -> None:
        self.points[key] = self.pair_of[pair[0]] = self.pair_of[pair[1]] = pair

    def point_key(self, pair: tuple[int, int]) -> str:
        """The key of the point with these slots."""
        return self.names[pair[0]].removesuffix(".x")

    def scalar(self, expression: Bound) -> int:
        """The slot of a number: a measure's, a constant's, or that of a formula made for it."""
        match expression:
            case Constant(value):
                return self._constant(value)
            case Value(key):
                return self.slot(key)
        if expression not in self._formulas:
            key = f"={len(self._formulas)}"
            self._formulas[expression] = self.new_slot(key)
            self.add_formula(key, expression, self._formulas[expression])
        return self._formulas[expression]

    def slot(self, key: str) -> int:
        """The slot of a number by its key, or of a coordinate `key.x` of a computed point."""
        found = self.slots.get(key)
        if found is not None:
            return found
        stem, dot, coordinate = key.rpartition(".")
        if dot and coordinate in ("x", "y") and stem in self.slots:
            return self.point(stem)["xy".index(coordinate)]
        raise KeyError(key)

    def new_slot(self, name: str, value: Any = None) -> int:
        self.slots[name] = number = len(self.names)
        self.names.append(name)
        self.start_values.append(value)
        return number

    def add_formula(self, key: str, expression: Bound, output: int) -> FormulaNode:
        node = self.formula_node(key, expression, output)
        self.transit_of[output] = len(self.transits)
        self.transits.append(node)
        return node

    def formula_node(self, key: str, expression: Bound, output: int) -> FormulaNode:
        function, wanted = compile_bound(expression)
        inputs: list[int] = []
        for want in wanted:
            if isinstance(want, Fraction):
                inputs.append(self._constant(want))
            elif want[0] == "value":
                inputs.append(self.slot(want[1]))
            else:
                inputs += self.point(want[1])
        return FormulaNode(key, function, tuple(inputs), output, expression)

    def _constant(self, value: Fraction) -> int:
        ratio = value.as_integer_ratio()
        slot = self._constants.get(ratio)
        if slot is None:
            slot = self._constants[ratio] = len(self.names)
            self.names.append(f"#{value}")
            self.start_values.append(float(value))
        return slot

    def _computed_point(self, key: str) -> tuple[int, int]:
        if key not in self.slots:
            raise KeyError(key)
        pair = self.new_slot(key + ".x"), self.new_slot(key + ".y")
        transit = self.transit_of[self.slots[key]]
        node = self.transits[transit]
        if not isinstance(node, ComputedNode):
            raise TypeError(f"{key} is a number, not a point")
        self.transits[transit] = ComputedNode(
            node.key, node.function, node.inputs, node.output, pair[0], pair[1]
        )
        self.transit_of[pair[0]] = self.transit_of[pair[1]] = transit
        return pair


def lay_out(system: System) -> Layout:
    layout = Layout(system)
    _give_slots(layout)
    for node in system.nodes.values():
        if isinstance(node, Formula):
            number = layout.transit_of[layout.slots[node.key]]
            layout.transits[number] = layout.formula_node(node.key, node.expression, layout.slots[node.key])
        elif isinstance(node, Computed):
            _wire_computed(layout, node)
        elif isinstance(node, Unknown):
            layout.ranges[layout.slots[node.key]] = layout.scalar(node.low), layout.scalar(node.high)
    for choice in system.choices:
        for key in (choice.point, *(() if choice.kind in RING_CHOICES else choice.operands)):
            layout.point(key)
    for number, fact in enumerate(system.facts):
        if fact.points and fact.kind.name not in HELD_TOGETHER:
            layout.facts_of.setdefault(fact.points[0], []).append(number)
        _add_equations(layout, number, fact)
    return layout


def _give_slots(layout: Layout) -> None:
    """Slots for all declared nodes, so that facts may speak of any of them; computed nodes are wired later."""
    for key, node in layout.system.nodes.items():
        if isinstance(node, UnknownPoint):
            pair = layout.new_slot(key + ".x"), layout.new_slot(key + ".y")
            layout.add_point(key, pair)
            layout.unknowns += pair
        elif isinstance(node, Known):
            layout.knowns[key] = layout.new_slot(key, float(node.nominal))
        elif isinstance(node, Unknown):
            layout.unknowns.append(layout.new_slot(key))
        else:
            output = layout.new_slot(key)
            layout.transit_of[output] = len(layout.transits)
            layout.transits.append(ComputedNode(key, _unwired, (), output, ABSENT, ABSENT))


def _unwired() -> None:
    raise AssertionError("a computed node was not wired")


def _wire_computed(layout: Layout, node: Computed) -> None:
    inputs: list[int | tuple[int, int]] = []
    for key in node.inputs:
        known_as = layout.system.nodes.get(key)
        inputs.append(layout.points[key] if isinstance(known_as, UnknownPoint) else layout.slot(key))
    output = layout.slots[node.key]
    number = layout.transit_of[output]
    before = layout.transits[number]
    assert isinstance(before, ComputedNode)
    layout.transits[number] = ComputedNode(
        node.key, node.function, tuple(inputs), output, before.output_x, before.output_y
    )


def _add_equations(layout: Layout, number: int, fact: Fact) -> None:
    fact = _recognized(fact)
    if fact.kind.name == "equation":
        _add_general(layout, number, fact)
        return
    points = [layout.point(key) for key in fact.points]
    scalars = tuple([layout.scalar(bound) for bound in fact.scalars])
    objects = tuple([layout.slot(key) for key in fact.objects])
    for use in fact.kind.uses:
        operands = tuple([points[index] for index in use.points])
        reads: list[int] = []
        for (x, y), which in zip(operands, use.form.reads, strict=True):
            if which == "xy":
                reads += (x, y)
            else:
                reads.append(x if which == "x" else y)
        reads += scalars
        reads += objects
        once = tuple(reads) if len(set(reads)) == len(reads) else tuple(dict.fromkeys(reads))
        layout.equations.append(
            Equation(use.form, number, operands, scalars, objects, once, _merge(operands))
        )


def added_equation(
    form: Form, fact: int, points: tuple[tuple[int, int], ...], scalars: tuple[int, ...]
) -> Equation:
    """An equation between points that are all different, made where a block is solved in another way."""
    reads: list[int] = []
    for (x, y), which in zip(points, form.reads, strict=True):
        reads += [x] if which == "x" else [y] if which == "y" else [x, y]
    reads += scalars
    merge = "".join(str(index) for index in range(len(points)))
    return Equation(form, fact, points, scalars, (), tuple(reads), merge)


def _merge(operands: tuple[tuple[int, int], ...]) -> str:
    if len(set(operands)) == len(operands):
        return "0123"[: len(operands)]
    return "".join([str(operands.index(operand)) for operand in operands])


def _recognized(fact: Fact) -> Fact:
    """A general equation that is one of the known facts in other words becomes that fact."""
    if fact.kind.name != "equation":
        return fact
    left, right = fact.scalars
    for one, other in ((left, right), (right, left)):
        match one, other:
            case Distance(a, b), Distance(c, d):
                return Fact(KINDS["equal lengths"], (a, b, c, d), (), (), fact.tag)
            case Distance(a, b), _ if not {a, b} & set(keys_of(other)):
                return Fact(KINDS["distance"], (a, b), (other,), (), fact.tag)
            case AngleAt(a, b, c), _ if not {a, b, c} & set(keys_of(other)):
                return Fact(KINDS["angle"], (a, b, c), (other,), (), fact.tag)
    return fact


def _add_general(layout: Layout, number: int, fact: Fact) -> None:
    left, right = fact.scalars
    node = layout.formula_node(f"={number}", Operation("-", left, right), ABSENT)
    form = fact.kind.uses[0].form
    reads = tuple(dict.fromkeys(node.inputs))
    layout.equations.append(Equation(form, number, (), (), (), reads, "", node))
