"""System -> Plan -> Solution.

`make_plan` looks only at which fact speaks of which point; `evaluate` puts in the measures of one size. A plan is
made once and evaluated as often as there are sizes.

>>> from drafting.solve.system import System
>>> system = System()
>>> system.known("wide", 60)
>>> for key in ("foot", "heel"):
...     system.point(key)
>>> system.fact("coordinate x", "foot", 0)
>>> system.fact("coordinate y", "foot", 0)
>>> system.fact("offset x", "heel", "foot", Value("wide"))
>>> system.fact("offset y", "heel", "foot", 0)
>>> make_plan(system).evaluate().values["heel"]
Point(x=60.0, y=0.0)
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Mapping, Sequence
from math import nan
from typing import TYPE_CHECKING, Any

from drafting.geometry.maths import NotOneNumber, plain_number
from drafting.geometry.point import Point
from drafting.model.expressions import Value  # noqa: F401 - for the example
from drafting.records import dataclass, field, replace
from drafting.solve.building import build_steps
from drafting.solve.collecting import collection_held
from drafting.solve.findings import Cycle, Finding, Loose
from drafting.solve.layout import Layout, lay_out
from drafting.solve.program import Run, Step, run_steps
from drafting.solve.steps import ComputedStep
from drafting.solve.structure import Structure, find_structure
from drafting.solve.system import Known, Number, System, UnknownPoint
from drafting.solve.verify import verify

if TYPE_CHECKING:
    from drafting.solve.explain import BlockInfo

MOST_KEPT = 4096
"""Answers of a part of a plan that are kept: some megabytes."""


@dataclass(frozen=True)
class Solution:
    """Numbers for one size. A key that could not be solved is not in `values`; why is in `findings`, or further up in
    a finding of something it depends on. `failures` are the faults that computed nodes raised."""

    values: Mapping[str, Any]
    findings: tuple[Finding, ...]
    failures: Mapping[str, Exception]


@dataclass(frozen=True)
class PlanPart:
    """The steps that give some keys, and no others. Nothing is said of what cannot be worked out."""

    layout: Layout
    steps: list[Step]
    always_bad: frozenset[int]
    slots: Mapping[str, int]
    reads: tuple[str, ...]
    """The measures that the steps hang on."""
    made: dict[bytes, dict[str, Any]] = field(default_factory=dict)
    """What came of the measures read: other sizes often ask for the same again. No more than MOST_KEPT."""

    def values(self, given: Mapping[str, Number]) -> dict[str, Any]:
        """The keys that have a value at these measures."""
        try:
            read = array("d", [float(given[key]) if key in given else nan for key in self.reads]).tobytes()
        except NotOneNumber:
            return self._values(given)
        if read not in self.made:
            if len(self.made) >= MOST_KEPT:
                self.made.clear()
            self.made[read] = self._values(given)
        return self.made[read]

    def _values(self, given: Mapping[str, Number]) -> dict[str, Any]:
        values = list(self.layout.start_values)
        for key, number in given.items():
            values[self.layout.knowns[key]] = plain_number(number)
        run = Run(self.layout, values, set(self.always_bad))
        run_steps(self.steps, run)
        return {key: values[slot] for key, slot in self.slots.items() if slot not in run.bad}


@dataclass
class Plan:
    layout: Layout
    structure: Structure
    steps: list[Step]
    findings: tuple[Finding, ...]
    """What is known without numbers."""
    _always_bad: frozenset[int] = field(default_factory=frozenset)

    def evaluate(self, given: Mapping[str, Number] | None = None) -> Solution:
        """Solve with the measures in `given`, and the nominal ones for the rest."""
        with collection_held():
            run = self.run(given)
            values = self._values(run)
            return Solution(values, tuple(self._findings(run)), run.failures)

    def part_for(self, keys: Iterable[str]) -> PlanPart:
        """What of the plan some keys hang on, to be worked out again and again."""
        slots = {key: self.layout.slots[key] for key in keys}
        wanted = set(slots.values())
        steps: list[Step] = []
        for step in reversed(self.steps):
            if not wanted.isdisjoint(step.outputs):
                steps.append(step)
                wanted.update(step.inputs)
        reads = tuple(key for key, slot in self.layout.knowns.items() if slot in wanted)
        return PlanPart(self.layout, steps[::-1], self._always_bad, slots, reads)

    def only(self, wanted: Sequence[str]) -> Plan:
        """The same plan, but computed nodes are run only where a wanted one hangs on them, or something that facts
        place."""
        layout = self.layout
        slots = {layout.slots[key] for key in wanted if key in layout.slots}
        slots.update(slot for key in wanted for slot in layout.points.get(key, ()))
        steps: list[Step] = []
        left_out = set(self._always_bad)
        for step in reversed(self.steps):
            if isinstance(step, ComputedStep) and slots.isdisjoint(step.outputs):
                left_out.update(step.outputs)
            else:
                steps.append(step)
                slots.update(step.inputs)
        return replace(self, steps=steps[::-1], _always_bad=frozenset(left_out))

    def run(self, given: Mapping[str, Number] | None = None) -> Run:
        values = list(self.layout.start_values)
        for key, number in (given or {}).items():
            values[self.layout.knowns[key]] = plain_number(number)
        run = Run(self.layout, values, set(self._always_bad))
        run_steps(self.steps, run)
        verify(self.layout, values, run.bad, set(self.structure.over))
        return run

    def influence(
        self, key: str, at: Mapping[str, Number] | None = None
    ) -> dict[str, float] | dict[str, tuple[float, float]]:
        """How much a point (as two numbers) or a number changes with each measure it hangs on.

        Raises KeyError for what has no place, and Unsteady where two places just touch.
        """
        from drafting.solve.influence import influence_on_slot

        run = self.run(at)
        layout = self.layout
        pair = layout.points.get(key)
        slots = pair or (layout.slots[key],)
        if not run.bad.isdisjoint(slots):
            raise KeyError(key)
        found = [influence_on_slot(layout, self.steps, run.values, slot) for slot in slots]
        if pair is None:
            return found[0]
        x, y = found
        return {
            known: (x.get(known, 0.0), y.get(known, 0.0))
            for known in layout.knowns
            if known in x or known in y
        }

    def explain(self, key: str, at: Mapping[str, Number] | None = None) -> BlockInfo | None:
        """Which facts pin a key and how it was found; None when nothing gives it."""
        from drafting.solve.explain import explain

        return explain(self.layout, self.steps, self.run(at), key)

    def _findings(self, run: Run) -> list[Finding]:
        """All findings at this size; the loose points are told of with their motions here."""
        found: list[Finding] = [one for one in self.findings if not isinstance(one, Loose)]
        structure = self.structure
        if structure.over:
            from drafting.solve.diagnosis import over_findings

            found += over_findings(structure, self.steps, run)
        found += run.findings
        if structure.loose:
            from drafting.solve.looseness import loose_findings

            found += loose_findings(structure, run)
        return found

    def _values(self, run: Run) -> dict[str, Any]:
        values, bad, points = run.values, run.bad, self.layout.points
        found: dict[str, Any] = {}
        for key, node in self.layout.system.nodes.items():
            if isinstance(node, UnknownPoint):
                x, y = points[key]
                if not bad or (x not in bad and y not in bad):
                    found[key] = Point(values[x], values[y])
            else:
                slot = self.layout.slots[key]
                if slot not in bad:
                    found[key] = values[slot]
        return found


def make_plan(system: System) -> Plan:
    with collection_held():
        return _make_plan(system)


def _make_plan(system: System) -> Plan:
    layout = lay_out(system)
    structure = find_structure(layout)
    steps = build_steps(structure)
    findings: list[Finding] = []
    bad = set(structure.loose)
    for ring in structure.rings:
        nodes = [layout.transits[transit] for transit in ring]
        keys = tuple(node.key for node in nodes if not node.key.startswith("="))
        tags = tuple(getattr(system.nodes[key], "tag", None) for key in keys)
        findings.append(Cycle(keys, tags))
    ringed = _in_rings(structure)
    bad |= ringed
    steps = [step for step in steps if ringed.isdisjoint(step.outputs)]
    if structure.loose:
        from drafting.solve.looseness import loose_findings

        findings += loose_findings(structure, None)
    return Plan(layout, structure, steps, tuple(findings), frozenset(bad))


def _in_rings(structure: Structure) -> set[int]:
    """The slots of parts in which computed nodes wait for each other: nothing there can be worked out."""
    in_ring = {transit for ring in structure.rings for transit in ring}
    parts = [part for part in structure.parts if not in_ring.isdisjoint(part.transits)]
    transits = {transit for part in parts for transit in part.transits}
    slots = {slot for slot, transit in structure.layout.transit_of.items() if transit in transits}
    return slots | {slot for part in parts for slot in part.unknowns}


__all__ = ["Known", "Plan", "Solution", "make_plan"]
