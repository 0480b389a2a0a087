"""Steps that are solved by search, worked out size by size where what they read varies from size to size."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy

from drafting.geometry.maths import NotTogether, varies
from drafting.geometry.varied import agreed, gathered, is_asked, of_size

if TYPE_CHECKING:
    from drafting.solve.program import Compound, Run
    from drafting.solve.steps import Block


def run_in_each_size(work: Callable[[Any, Run], None], step: Block | Compound, run: Run) -> None:
    """Run a step for each size that is asked. Raises Parted where only some have one place, and NotTogether where none
    has: each is then to be told of with its own figures."""
    n_sizes = next(len(value.each) for slot in step.inputs if varies(value := run.values[slot]))
    those = [at for at in range(n_sizes) if is_asked(at)]
    runs = {at: _of_size(run, step, at) for at in those}
    is_sound = numpy.zeros(n_sizes, dtype=bool)
    for at, alone in runs.items():
        work(step, alone)
        is_sound[at] = not alone.findings and not alone.failures
    if not agreed(is_sound):
        raise NotTogether
    some = runs[those[0]]
    run.decided.update(some.decided)
    for slot in step.outputs:
        run.values[slot] = gathered([runs.get(at, some).values[slot] for at in range(n_sizes)])


def _of_size(run: Run, step: Block | Compound, at: int) -> Run:
    values = list(run.values)
    for slot in step.inputs:
        values[slot] = of_size(values[slot], at)
    return type(run)(run.layout, values, set(run.bad))
