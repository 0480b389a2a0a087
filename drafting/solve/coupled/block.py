"""A block of several points or numbers: the ways to solve it, from the surest to the widest."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from drafting.solve.coupled.newton import Equations, polish
from drafting.solve.coupled.sequence import Sequencer
from drafting.solve.coupled.tearing import Torn, Tracer, all_roots, find_tearing
from drafting.solve.layout import Layout
from drafting.solve.steps import Block, ComputedStep, Remarks, Unsolved, distinct_places
from drafting.solve.structure import Part

Values = list[Any]


@dataclass(kw_only=True)
class CoupledBlock(Block):
    layout: Layout
    part: Part
    _newton: Equations | None = None
    _torn: Torn | None = None
    _is_ready: bool = False
    _works_on_arrays: bool = field(default=True)

    def places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        self._prepare()
        found = self._torn_places(values, remarks)
        return found

    @property
    def newton(self) -> Equations:
        if self._newton is None:
            self._newton = Equations(
                self.layout, self.part.equations, self.part.unknowns, self.part.transits
            )
        return self._newton

    def _prepare(self) -> None:
        if self._is_ready:
            return
        self._is_ready = True
        sequencer = Sequencer(
            self.layout, self.part.equations, self.part.unknowns, self.part.transits
        )
        self._torn = find_tearing(self.layout, sequencer)
        if self._torn is not None:
            self._works_on_arrays = _works_on_arrays(self.layout, self._torn)

    def _torn_places(self, values: Values, remarks: Remarks) -> list[tuple[float, ...]]:
        assert self._torn is not None
        before = [values[slot] for slot in self.part.unknowns]
        tracer = Tracer(self.layout, self._torn, self.part.unknowns, values, self._works_on_arrays)
        roots, nearest = all_roots(tracer)
        places: list[tuple[float, ...]] = []
        for root in roots:
            numbers = list(root.numbers)
            settled = polish(self.newton, values, numbers)
            if not settled:
                numbers = list(root.numbers)
                self.newton.put(values, numbers)
            if self.newton.holds(values):
                places.append(tuple(numbers))
                if not settled:
                    remarks.apart = 0.0
        for slot, value in zip(self.part.unknowns, before, strict=True):
            values[slot] = value
        if not places:
            raise Unsolved(nearest)
        return distinct_places(places)


def _works_on_arrays(layout: Layout, torn: Torn) -> bool:
    if layout.equations[torn.closing].objects:
        return False
    for step in torn.order.steps:
        if isinstance(step, ComputedStep):
            return False
        if isinstance(step, Block) and not step.is_on_arrays:
            return False
    return True
