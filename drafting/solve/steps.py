"""The steps of a plan: each fills some slots from slots that are filled already.

A formula or a computed node fills its own. A block of equations gives one place or several; choices and conditions
pick, and exactly one place must be left. Steps are run by `drafting.solve.program`.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from drafting.geometry import maths as math
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.solve.filters import Filter
from drafting.solve.findings import Finding
from drafting.solve.layout import ComputedNode, Equation, FormulaNode
from drafting.solve.loci import LocusSource, OneLocus
from drafting.solve.meeting import Locus, Miss, meet
from drafting.solve.on_paths import lies_on, touching_places
from drafting.solve.remembering import are_same
from drafting.solve.verify import measured

Values = list[Any]

NEARLY_ONE = 0.01
"""mm. Two places nearer than this are told of: no maker could draw the one and not the other."""


class Unsolved(Exception):
    """A block that has no place. `same` tells that its loci are one, so that it has places without end; `n_ways`
    that there were too many ways to follow."""

    def __init__(self, gap: float | None = None, same: bool = False, n_ways: int = 0) -> None:
        super().__init__(gap, same, n_ways)
        self.gap = gap
        self.same = same
        self.n_ways = n_ways
        self.way: tuple[float, float] | None = None
        """The direction of two lines that are one."""
        self.missed: int | None = None
        """The equation that `gap` is measured by."""
        self.findings: list[Finding] = []
        """What a closer look found; it takes the place of the finding that there is no place."""


@dataclass(frozen=True)
class Touch:
    """Places that are nearly one, `apart` mm from each other; 0 where loci just touch."""

    apart: float
    places: tuple[tuple[float, ...], ...]


@dataclass
class Remarks:
    """What a block has to say beside its places."""

    touches: list[Touch] = field(default_factory=list)
    n_places: int | None = None
    """How many places there were, where not all of them are given."""
    used: list[Filter] = field(default_factory=list)
    """Filters that took places away before they were given."""
    not_proven: bool = False


class FormulaStep:
    def __init__(self, node: FormulaNode) -> None:
        self.node = node
        self.inputs = node.inputs
        self.outputs: tuple[int, ...] = (node.output,)
        self.function = node.function

    def run(self, values: Values) -> None:
        result = self.function(*[values[slot] for slot in self.inputs])
        if result != result:
            raise ValueError("the root of a negative number")
        values[self.node.output] = result

    def run_many(self, values: Values) -> None:
        """On arrays, where a root of a negative number is not a number."""
        values[self.node.output] = self.function(*[values[slot] for slot in self.inputs])


class ComputedStep:
    def __init__(self, node: ComputedNode) -> None:
        self.node = node
        flat: list[int] = []
        for item in node.inputs:
            flat += item if isinstance(item, tuple) else (item,)
        self.inputs = tuple(flat)
        self.outputs = tuple(slot for slot in (node.output, node.output_x, node.output_y) if slot >= 0)
        self.last: tuple[list[Any], Any] | None = None
        """What it was last given, and what came of it: the next size may give it the same."""

    def run(self, values: Values) -> None:
        node = self.node
        arguments = [
            Point(values[item[0]], values[item[1]]) if isinstance(item, tuple) else values[item]
            for item in node.inputs
        ]
        if self.last is not None and are_same(arguments, self.last[0]):
            result = self.last[1]
        else:
            result = node.function(*arguments)
            self.last = arguments, result
        values[node.output] = result
        if node.output_x >= 0:
            values[node.output_x] = result.x
            values[node.output_y] = result.y


@dataclass(kw_only=True, slots=True)
class Block(ABC):
    """Equations solved together. `outputs` are the slots they fill, `filters` what picks among their places."""

    equations: tuple[int, ...]
    outputs: tuple[int, ...]
    inputs: tuple[int, ...]
    keys: tuple[str, ...]
    shape: str
    may_branch: bool
    lengths: tuple[int, ...] = ()
    """Slots of distances that must not be negative."""
    filters: list[Filter] = field(default_factory=list)

    @property
    def unknowns(self) -> tuple[int, ...]:
        """The outputs that are unknowns of the system; the others are computed from them."""
        return self.outputs

    @property
    def transits(self) -> tuple[int, ...]:
        """Computed nodes that lie between the equations."""
        return ()

    def add_filter(self, one: Filter) -> None:
        """What the filter reads is then something this block hangs on."""
        self.filters.append(one)
        missing = [slot for slot in one.reads if slot not in self.inputs and slot not in self.outputs]
        if missing:
            self.inputs = (*self.inputs, *missing)

    @abstractmethod
    def places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        """All places, before any choice; raises Unsolved where there is none."""

    def all_places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        """The same; a line between two points that have fallen together leaves no place either."""
        try:
            return self.places(values, remarks)
        except ZeroDivisionError:
            raise Unsolved() from None


@dataclass(kw_only=True, slots=True)
class SmallBlock(Block):
    """A point or a number by itself, whose places can be followed branch by branch."""

    @abstractmethod
    def branches(self, values: Values) -> list[tuple[float, ...] | None]:
        """The places by branch: always as many, in the same order, and None where one is not there."""

    def branch(self, values: Values, index: int) -> tuple[float, ...] | None:
        """One of them."""
        try:
            place = self.branches(values)[index]
        except (ZeroDivisionError, IndexError):
            return None
        return place if place is not None and place[0] == place[0] else None

    def branches_there(self, values: Values) -> list[tuple[int, tuple[float, ...]]]:
        """Only those that are there, numbered; none at all where two points of a line have fallen together."""
        try:
            found = self.branches(values)
        except ZeroDivisionError:
            return []
        return [
            (index, place) for index, place in enumerate(found) if place is not None and place[0] == place[0]
        ]

    @property
    def is_on_arrays(self) -> bool:
        """Whether `many_branches` can be asked: a path may have another number of legs at every size."""
        return False

    def many_branches(self, values: Values) -> list[tuple[Any, ...]]:
        """The branches for arrays of values. Raises TypeError for a block that is not on arrays."""
        raise TypeError(f"{self.shape} is not worked out for arrays")


@dataclass(kw_only=True, slots=True)
class PointBlock(SmallBlock):
    """A point by two loci."""

    sources: tuple[LocusSource, LocusSource]
    origin: tuple[int, int]

    def places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        x, y = origin_of(self.origin, values)
        first, second = self.sources
        if type(first) is OneLocus and type(second) is OneLocus:
            one = first.function(x, y, *first.arguments(values))
            other = second.function(x, y, *second.arguments(values))
            return _simple_places(one, other, x, y, remarks)
        return _all_places(first.loci(values, x, y), second.loci(values, x, y), x, y, remarks)

    def branches(self, values: Values) -> list[tuple[float, ...] | None]:
        x, y = origin_of(self.origin, values)
        first, second = self.sources
        return _branches(first.loci(values, x, y), second.loci(values, x, y), x, y)

    @property
    def is_on_arrays(self) -> bool:
        return not any(source.on_legs for source in self.sources)

    def many_branches(self, values: Values) -> list[tuple[Any, ...]]:
        first, second = self.sources
        x, y = origin_of(self.origin, values)
        return _many_branches(first.loci(values, x, y), second.loci(values, x, y), x, y)


@dataclass(kw_only=True, slots=True)
class CoordinateBlock(SmallBlock):
    """One coordinate of a point, by one locus; the other coordinate is known or plays no part."""

    source: LocusSource
    origin: tuple[int, int]
    is_x: bool
    other: int
    """Slot of the other coordinate, or -1."""

    def places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        x, y = origin_of(self.origin, values)
        loci = self.source.loci(values, x, y)
        if len(loci) == 1 and self.other < 0:
            return [self._straight(loci[0][0], x, y)]
        try:
            places = _all_places(loci, [(self._line(values, x, y), None)], x, y, remarks)
        except Unsolved as fault:
            fault.way = (1.0, 0.0) if self.is_x else (0.0, 1.0)
            raise
        at = 0 if self.is_x else 1
        remarks.touches = [
            Touch(one.apart, tuple((place[at],) for place in one.places)) for one in remarks.touches
        ]
        return [(place[at],) for place in places]

    def branches(self, values: Values) -> list[tuple[float, ...] | None]:
        x, y = origin_of(self.origin, values)
        found = _branches(self.source.loci(values, x, y), [(self._line(values, x, y), None)], x, y)
        return [None if place is None else (place[0 if self.is_x else 1],) for place in found]

    @property
    def is_on_arrays(self) -> bool:
        return not self.source.on_legs

    def many_branches(self, values: Values) -> list[tuple[Any, ...]]:
        x, y = origin_of(self.origin, values)
        found = _many_branches(self.source.loci(values, x, y), [(self._line(values, x, y), None)], x, y)
        return [(place[0 if self.is_x else 1],) for place in found]

    def _line(self, values: Values, x: float, y: float) -> Locus:
        """The level or plumb line on which the other coordinate is what it is known to be."""
        known = (values[self.other] if self.other >= 0 else 0.0) - (y if self.is_x else x)
        return (0.0, 0.0, 1.0, -known) if self.is_x else (0.0, 1.0, 0.0, -known)

    def _straight(self, locus: Locus, x: float, y: float) -> tuple[float, ...]:
        slope = locus[1] if self.is_x else locus[2]
        if slope == 0.0:
            fault = Unsolved(abs(locus[3]), same=locus[3] == 0.0)
            fault.way = (1.0, 0.0) if self.is_x else (0.0, 1.0)
            raise fault
        return (-locus[3] / slope + (x if self.is_x else y),)


@dataclass(kw_only=True, slots=True)
class StraightBlock(SmallBlock):
    """One number by an equation that is straight in it, such as `hub.x - corner.x = 22 mm`."""

    equation: FormulaNode

    def places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        at_nought, slope = self._line(values)
        if slope == 0.0:
            raise Unsolved(abs(at_nought), same=at_nought == 0.0)
        return [(-at_nought / slope,)]

    def branches(self, values: Values) -> list[tuple[float, ...] | None]:
        at_nought, slope = self._line(values)
        return [None if slope == 0.0 else (-at_nought / slope,)]

    @property
    def is_on_arrays(self) -> bool:
        return True

    def many_branches(self, values: Values) -> list[tuple[Any, ...]]:
        at_nought, slope = self._line(values)
        return [(-at_nought / slope,)]

    def _line(self, values: Values) -> tuple[Any, Any]:
        """The equation's value at nought, and how much more it is at one."""
        unknown = self.outputs[0]
        before = values[unknown]
        found = []
        for number in (0.0, 1.0):
            values[unknown] = number
            found.append(self.equation.function(*[values[slot] for slot in self.equation.inputs]))
        values[unknown] = before
        return found[0], found[1] - found[0]


@dataclass(kw_only=True, slots=True)
class AmountBlock(SmallBlock):
    """The number that a fact asks for, its points being known: then it is measured."""

    equation: Equation

    def places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        return [(measured(self.equation, values)[1],)]

    def branches(self, values: Values) -> list[tuple[float, ...] | None]:
        return [(measured(self.equation, values)[1],)]


@dataclass(kw_only=True, slots=True)
class TouchBlock(SmallBlock):
    """The point where a line from a known place just touches a path."""

    path: int
    start: tuple[int, int]

    def places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        found = touching_places(values[self.path], values[self.start[0]], values[self.start[1]])
        if not found:
            raise Unsolved()
        return list(found)

    def branches(self, values: Values) -> list[tuple[float, ...] | None]:
        return list(touching_places(values[self.path], values[self.start[0]], values[self.start[1]]))


def origin_of(slots: tuple[int, int], values: Values) -> tuple[float, float]:
    """The local origin: the first known place that the block's facts speak of, so that no digits are lost far out."""
    x, y = slots
    return (values[x] if x >= 0 else 0.0), (values[y] if y >= 0 else 0.0)


def _simple_places(one: Locus, other: Locus, x: float, y: float, remarks: Remarks) -> list[tuple[float, ...]]:
    try:
        places = meet(one, other)
    except Miss as miss:
        fault = Unsolved(miss.gap, miss.same)
        if miss.same and one[0] == 0.0:
            fault.way = (-one[2], one[1])
        raise fault from None
    found: list[tuple[float, ...]] = [(x + px, y + py) for px, py in places]
    _remark_touch(found, one, other, remarks)
    return found


def _remark_touch(places: list[tuple[float, ...]], one: Locus, other: Locus, remarks: Remarks) -> None:
    if len(places) == 2:
        apart = math.dist(*places)
        if apart < NEARLY_ONE:
            remarks.touches.append(Touch(apart, tuple(places)))
    elif one[0] != 0.0 or other[0] != 0.0:
        remarks.touches.append(Touch(0.0, tuple(places)))


def _all_places(
    ones: Sequence[tuple[Locus, Any]],
    others: Sequence[tuple[Locus, Any]],
    x: float,
    y: float,
    remarks: Remarks,
) -> list[tuple[float, ...]]:
    found: list[tuple[float, ...]] = []
    gaps: list[float] = []
    same = False
    for one, leg in ones:
        for other, other_leg in others:
            try:
                met = meet(one, other)
            except Miss as miss:
                gaps += [miss.gap] if miss.gap == miss.gap else []
                same = same or miss.same
                continue
            places: list[tuple[float, ...]] = [(x + px, y + py) for px, py in met]
            _remark_touch(places, one, other, remarks)
            for place in places:
                if (leg is None or lies_on(leg, *place)) and (
                    other_leg is None or lies_on(other_leg, *place)
                ):
                    found.append(place)
    if not found:
        raise Unsolved(min(gaps) if gaps else None, same)
    return distinct_places(found)


SmallStep = FormulaStep | ComputedStep | SmallBlock
Loci = Sequence[tuple[Locus, Any]]


def _branches(ones: Loci, others: Loci, x: float, y: float) -> list[tuple[float, ...] | None]:
    found: list[tuple[float, ...] | None] = []
    for one, leg in ones:
        for other, other_leg in others:
            n_places = 1 if one[0] == 0.0 and other[0] == 0.0 else 2
            try:
                met = meet(one, other)
            except Miss:
                found += [None] * n_places
                continue
            for px, py in met if len(met) == n_places else met * n_places:
                place = (x + px, y + py)
                lies = (leg is None or lies_on(leg, *place)) and (
                    other_leg is None or lies_on(other_leg, *place)
                )
                found.append(place if lies else None)
    return found


def _many_branches(ones: Loci, others: Loci, x: Any, y: Any) -> list[tuple[Any, ...]]:
    from drafting.solve.meeting_many import meet_many

    return [(x + px, y + py) for one, _ in ones for other, _ in others for px, py in meet_many(one, other)]


def distinct_places(places: Sequence[tuple[Any, ...]], n_numbers: int | None = None) -> list[tuple[Any, ...]]:
    """The places without those that lie on an earlier one, going by their first numbers."""
    kept: list[tuple[Any, ...]] = []
    for place in places:
        for other in kept:
            pairs = zip(place[:n_numbers], other[:n_numbers], strict=True)
            if all(abs(a - b) <= SAME_POINT for a, b in pairs):
                break
        else:
            kept.append(place)
    return kept
