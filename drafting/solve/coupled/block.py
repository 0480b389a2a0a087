"""A block of several points or numbers: the ways to solve it, from the surest to the widest."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from drafting.geometry.maths import NotOneNumber, varies
from drafting.solve.coupled.bodies import Body, find_body, frame_numbers, frames
from drafting.solve.coupled.closing_in import Root, all_roots
from drafting.solve.coupled.corners import Triangles
from drafting.solve.coupled.newton import Equations, polish
from drafting.solve.coupled.sequence import Order, Sequencer
from drafting.solve.coupled.tearing import Torn, find_tearing
from drafting.solve.coupled.tracing import Tracer, all_ends
from drafting.solve.filters import Filter
from drafting.solve.findings import Finding, OutOfRange
from drafting.solve.layout import Layout
from drafting.solve.linear import LARGE
from drafting.solve.program import tags_of
from drafting.solve.steps import Block, ComputedStep, Remarks, SmallBlock, Touch, Unsolved, distinct_places
from drafting.solve.structure import Part

Values = list[Any]
MANY = 40
"""Unknowns of a block that is large."""

BEYOND = 3.0
"""How many times its range a number is looked for outside of it, to tell the maker where it would lie."""


@dataclass(kw_only=True, slots=True)
class CoupledBlock(Block):
    layout: Layout
    part: Part
    triangles: Triangles | None = None
    _newton: Equations | None = None
    _torn: Torn | None = None
    _body: Body | None = None
    _is_ready: bool = False
    _works_on_arrays: bool = field(default=True)

    def places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        before = [values[slot] for slot in self.outputs]
        try:
            found = self._triangle_places(values, remarks)
            if found:
                return found
            self._prepare()
            if self._torn is not None:
                found = self._torn_places(values, remarks)
            elif self._body is not None:
                found = self._body_places(values, remarks)
            else:
                found = self._searched_places(values, remarks)
            self._expect_conditions(found, values)
            return found
        except Unsolved as fault:
            if self._body is not None or self._torn is not None:
                fault.findings = fault.findings or self._dependence(values)
            raise
        finally:
            self._put(values, before)

    def _put(self, values: Values, place: Sequence[Any]) -> None:
        for slot, value in zip(self.outputs, place, strict=True):
            values[slot] = value

    def _expect_conditions(self, found: Sequence[tuple[Any, ...]], values: Values) -> None:
        """Places that only exist because points fell together are none; then the facts may depend on each other."""
        conditions = [one for one in self.filters if not one.is_choice and one.test is not None]
        for place in found if conditions else ():
            self._put(values, place)
            if all(one.test is None or one.test(values) for one in conditions):
                return
        if conditions:
            findings = self._dependence(values)
            if findings:
                raise Unsolved()

    def _dependence(self, values: Values) -> list[Finding]:
        """Whether the facts depend on each other; a closer look, for blocks that could not be solved."""
        from drafting.solve.diagnosis import dependent_findings

        conditions = [one for one in self.filters if not one.is_choice]
        return dependent_findings(self.layout, self.part.equations, self.newton, values, conditions)

    @property
    def unknowns(self) -> tuple[int, ...]:
        return self.part.unknowns

    @property
    def transits(self) -> tuple[int, ...]:
        return self.part.transits

    @property
    def newton(self) -> Equations:
        if self._newton is None:
            self._newton = Equations(self.layout, self.part.equations, self.part.unknowns, self.part.transits)
        return self._newton

    def _prepare(self) -> None:
        """Find a way, once for all sizes. A large block is sooner a body than torn on few branches."""
        if self._is_ready:
            return
        self._is_ready = True
        part = self.part
        if len(part.unknowns) > MANY:
            self._body = find_body(self.layout, part.equations, part.unknowns, part.transits)
        if self._body is None:
            sequencer = Sequencer(self.layout, part.equations, part.unknowns, part.transits)
            self._torn = find_tearing(self.layout, sequencer)
        if self._torn is not None:
            self._works_on_arrays = works_on_arrays(self.layout, self._torn)
        elif len(part.unknowns) <= MANY:
            self._body = find_body(self.layout, part.equations, part.unknowns, part.transits)

    def _triangle_places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        """The places by third sides of triangles; none where that way cannot be gone or leads to a close look."""
        if self.triangles is None:
            return []
        roots = [Root(numbers) for numbers in self.triangles.all_places(values, self.part.unknowns)]
        remarks.n_places = len(roots)
        places = []
        for root in self._chosen(roots, values, remarks):
            if not self._holds(root.numbers, values):
                return []
            places.append(tuple([values[slot] for slot in self.outputs]))
        return places

    def _torn_places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        assert self._torn is not None
        tracer = Tracer(
            self.layout, self._torn, self.part.unknowns, values, self._works_on_arrays, self.filters
        )
        if any(varies(values[slot]) for slot in self.inputs):
            return self._places_together(tracer, values, remarks)
        roots, nearest = all_roots(tracer)
        remarks.n_places = len(distinct_places([root.numbers for root in roots]))
        places = self._proved(self._chosen(roots, values, remarks), values, remarks)
        if not places:
            fault = Unsolved(nearest if nearest < math.inf else None)
            fault.missed = self._torn.closing
            fault.findings = self._beyond_range(tracer, values)
            raise fault
        return places

    def _places_together(self, tracer: Tracer, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        """The same in many sizes at once; NotOneNumber where each is to be told what is wrong."""
        from drafting.solve.coupled.together import roots_together

        roots = roots_together(tracer)
        remarks.n_places = len(distinct_places([root.numbers for root in roots]))
        places = self._proved(self._chosen(roots, values, remarks), values, remarks)
        if not places:
            raise NotOneNumber
        return places

    def _beyond_range(self, tracer: Tracer, values: Values) -> list[Finding]:
        """Where the number that was walked has its solution, if not within its range."""
        torn = self._torn
        if torn is None or torn.slots[0] not in self.layout.ranges:
            return []
        low, high = (values[bound] for bound in self.layout.ranges[torn.slots[0]])
        key = self.layout.names[torn.slots[0]]
        tags = tags_of(self.layout, self.equations)
        if low > high:
            return [OutOfRange(key, tags, low, high, None)]
        reach = BEYOND * (high - low)
        [walk] = torn.walks(values)
        wider = replace(walk, low=low - reach, high=high + reach)
        tracer.torn = replace(torn, walks=lambda _: [wider])
        at = self.part.unknowns.index(torn.slots[0])
        roots, _ = all_roots(tracer)
        numbers = [place[at] for place in self._proved(roots, values, Remarks())]
        if not numbers:
            return []
        nearest = min(numbers, key=lambda number: max(low - number, number - high))
        return [OutOfRange(key, tags, low, high, nearest)]

    def _body_places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        assert self._body is not None
        body = self._body
        scratch = [*values, *body.layout.start_values[len(values) :]]
        found: list[Root] = []
        for frame in frames(body, values, self.filters):
            numbers = frame_numbers(body, frame)
            if numbers is not None:
                for slot, number in numbers.items():
                    scratch[slot] = number
                found += self._placed(body, scratch)
        remarks.n_places = len(found)
        places = self._proved(self._chosen(found, values, remarks), values, remarks)
        if not places:
            raise Unsolved()
        return places

    def _chosen(self, found: list[Root], values: Values, remarks: Remarks) -> list[Root]:
        """Those that no choice turns down, so that only they need the last digit; all, if it turns down all."""
        if not self.filters:
            return found
        left = []
        used: dict[Filter, None] = {}
        for root in found:
            if not self.newton.put_if_defined(values, root.numbers):
                continue
            against = [one for one in self.filters if one.test is not None and not one.test(values)]
            used.update(dict.fromkeys(against))
            if not against:
                left.append(root)
        if not left:
            return found
        remarks.used = list(used)
        return left

    def _placed(self, body: Body, scratch: Values) -> list[Root]:
        if isinstance(body.placing, Order):
            return [Root(end) for end in all_ends(body.placing.steps, scratch, self.part.unknowns)]
        works = works_on_arrays(body.layout, body.placing)
        tracer = Tracer(body.layout, body.placing, self.part.unknowns, scratch, works, self.filters)
        try:
            return all_roots(tracer)[0]
        except Unsolved:
            return []

    def _searched_places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        from drafting.solve.coupled.elimination import eliminated
        from drafting.solve.coupled.search import searched

        findings = self._dependence(values)
        if findings:
            fault = Unsolved()
            fault.findings = findings
            raise fault
        exact = eliminated(self.layout, self.part, values)
        if exact is not None:
            found = exact
        else:
            remarks.not_proven = True
            found = searched(self.newton, values, self.layout)
        places = self._proved([Root(numbers) for numbers in found], values, remarks)
        if not places:
            raise Unsolved()
        return places

    def _holds(self, numbers: Sequence[float], values: Values) -> bool:
        return self.newton.put_if_defined(values, numbers) and self.newton.holds(values)

    def _proved(self, found: Sequence[Root], values: Values, remarks: Remarks) -> list[tuple[Any, ...]]:
        """Brought to the last digit, and only those that keep every fact; with what is computed from them."""
        places: list[tuple[Any, ...]] = []
        for root in found:
            if len(self.unknowns) > LARGE and self._holds(root.numbers, values):
                places.append(tuple([values[slot] for slot in self.outputs]))
                continue
            numbers = list(root.numbers)
            settled = polish(self.newton, values, numbers) and _is_near(numbers, root.numbers)
            if not settled and root.exact is not None:
                start = root.exact()
                numbers = list(start)
                settled = polish(self.newton, values, numbers) and _is_near(numbers, start)
                numbers = numbers if settled else list(start)
            elif not settled:
                numbers = list(root.numbers)
            if self._holds(numbers, values):
                places.append(tuple([values[slot] for slot in self.outputs]))
                if not settled:
                    remarks.touches.append(Touch(0.0, (places[-1],)))
        return distinct_places(places, len(self.unknowns))


def _is_near(numbers: Sequence[float], start: Sequence[float]) -> bool:
    """Newton's method may only mend digits; a step to another solution is undone."""
    return all(abs(a - b) <= 1e-4 * (1 + abs(b)) for a, b in zip(numbers, start, strict=True))


def works_on_arrays(layout: Layout, torn: Torn) -> bool:
    if layout.equations[torn.closing].objects:
        return False
    for step in torn.order.steps:
        if isinstance(step, ComputedStep):
            return False
        if isinstance(step, SmallBlock) and not step.is_on_arrays:
            return False
    return True
