"""Steps that are solved by search, worked out size by size where what they read varies from size to size."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

import numpy

from drafting.geometry.maths import NotTogether
from drafting.geometry.varied import agreed, gathered, is_asked, n_sizes_of, of_size
from drafting.solve.structure import inputs_of

if TYPE_CHECKING:
    from drafting.solve.program import Compound, Run
    from drafting.solve.steps import Block


def run_in_each_size(work: Callable[[Any, Run], None], step: Block | Compound, run: Run) -> None:
    """Run a step for each size that is asked. Raises Parted where only some have one place, and NotTogether where none
    has: each is then to be told of with its own figures."""
    varied = _varied_behind(step, run)
    n_sizes = max(map(n_sizes_of, varied.values()))
    those = [at for at in range(n_sizes) if is_asked(at)]
    runs = {at: _of_size(run, varied, at) for at in those}
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


def _varied_behind(step: Block | Compound, run: Run) -> Mapping[int, Any]:
    """What varies of all that a step reads, and of what that was made from: slopes are taken back to there."""
    layout, found = run.layout, dict.fromkeys(step.inputs)
    waiting = list(found)
    while waiting:
        made_by = layout.transit_of.get(waiting.pop())
        more = () if made_by is None else inputs_of(layout.transits[made_by])
        waiting += [slot for slot in more if slot not in found]
        found.update(dict.fromkeys(more))
    return {slot: run.values[slot] for slot in found if n_sizes_of(run.values[slot])}


def _of_size(run: Run, varied: Mapping[int, Any], at: int) -> Run:
    values = list(run.values)
    for slot, value in varied.items():
        values[slot] = of_size(value, at)
    return type(run)(run.layout, values, set(run.bad))
