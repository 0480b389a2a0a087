"""A plan as if it had not been evaluated yet."""

from __future__ import annotations

from drafting.solve.draft import Planned
from drafting.solve.steps import ComputedStep


def forget(planned: Planned) -> None:
    planned.memory.kept.clear()
    for step in planned.plan.steps:
        if isinstance(step, ComputedStep):
            step.last = None
