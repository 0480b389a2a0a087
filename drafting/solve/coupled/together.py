"""The solutions of a torn block in many sizes at once.

Each size is searched as it is alone, place after place. But the places that all of them ask for next are tried
together, as one place that varies from size to size.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from typing import Any, TypeVar

import numpy

from drafting.geometry.maths import NotOneNumber, Parted, varies
from drafting.geometry.varied import Array, Varied, agreed, asking, column_of, is_asked, of_size
from drafting.records import dataclass, replace
from drafting.solve.coupled.closing_in import Root, search_roots
from drafting.solve.coupled.tearing import Walk
from drafting.solve.coupled.tracing import (
    SAMPLES,
    Ask,
    Branch,
    Offs,
    Trace,
    Tracer,
    answered,
    offs_on_arrays,
    sampled_one_by_one,
)

Roots = list[Root]
Traces = dict[Branch, Trace]
Made = TypeVar("Made")
AT_A_TIME = 500
"""Sizes whose places are tried on arrays together: some megabytes."""


@dataclass
class _OfOneSize(Tracer):
    """What a search of one size is told of its block; its values are those of all sizes."""

    walks_there: Sequence[Walk] = ()

    @property
    def walks(self) -> Sequence[Walk]:
        return self.walks_there

    def off(self, walk: Walk, branch: Sequence[int], parameter: float) -> float:
        raise NotOneNumber


def roots_together(tracer: Tracer) -> Roots:
    """The solutions in all sizes that are asked, in each its own. Raises Parted where some have more than others, and
    NotOneNumber where the sizes are to be searched one by one."""
    n_sizes = next(len(value.each) for value in tracer.values if varies(value))
    roots = _Searches(tracer, n_sizes).roots()
    counts = numpy.array([len(roots[at]) if at in roots else -1 for at in range(n_sizes)])
    first = next(iter(roots))
    if any(len(found) != counts[first] for found in roots.values()):
        raise Parted(counts == counts[first], counts)
    if not counts[first]:
        raise NotOneNumber
    return [
        Root(_as_one([roots.get(at, roots[first])[index].numbers for at in range(n_sizes)]), _one_by_one)
        for index in range(counts[first])
    ]


def _as_one(numbers: Sequence[tuple[float, ...]]) -> tuple[Any, ...]:
    return tuple(Varied(numpy.array(column)) for column in zip(*numbers, strict=True))


def _one_by_one() -> tuple[float, ...]:
    raise NotOneNumber


class _Searches:
    """The searches of all sizes that are asked."""

    def __init__(self, tracer: Tracer, n_sizes: int) -> None:
        self.tracer, self.n_sizes = tracer, n_sizes
        self.sizes = [at for at in range(n_sizes) if is_asked(at)]
        self.walks = tracer.walks
        self.looks: dict[float, dict[Branch, Array]] = {}
        """What was tried of the walk that is sampled, for all sizes; not a number where a branch does not exist."""

    def roots(self) -> dict[int, Roots]:
        """The solutions of each size."""
        if self.tracer.works_on_arrays:
            traces = {id(walk.put): self._traces_on_arrays(walk) for walk in self.walks}
        else:
            traces = {id(walk.put): self._traces(walk) for walk in self.walks if not _varies(walk)}
        found: dict[int, Roots] = {}
        waiting = {at: search_roots(self._of_one_size(at, traces)) for at in self.sizes}
        answers: dict[int, Any] = dict.fromkeys(waiting)
        while waiting:
            asks: dict[int, Ask] = {}
            for at, answer in answers.items():
                try:
                    asks[at] = waiting[at].send(answer)
                except StopIteration as done:
                    found[at], _ = done.value
                    del waiting[at]
            answers = self._answers(asks)
        return found

    def _of_one_size(self, at: int, traces: Mapping[int, Mapping[int, Traces]]) -> _OfOneSize:
        """A size without a solution is worked out alone, which tells by how much it is missed."""
        walks = [
            replace(walk, low=of_size(walk.low, at), high=of_size(walk.high, at)) if _varies(walk) else walk
            for walk in self.walks
        ]
        own = {number: columns[at] for number, columns in traces.items()}
        return _OfOneSize(
            self.tracer.layout,
            self.tracer.torn,
            self.tracer.unknowns,
            self.tracer.values,
            works_on_arrays=False,
            filters=self.tracer.filters,
            tells_misses=False,
            traces=own,
            walks_there=walks,
        )

    # Sampled, where all sizes walk from the same place to the same place

    def _traces(self, walk: Walk) -> dict[int, Traces]:
        """A walk as each size samples it."""
        self.looks = {}
        found: dict[int, Traces] = {}
        for those, traces in self._each_way(
            self.sizes, lambda: answered(sampled_one_by_one(walk), self._look)
        ):
            columns = {branch: (trace[0], self._by_size(trace[1])) for branch, trace in traces.items()}
            for at in those:
                found[at] = {branch: (places, offs[at]) for branch, (places, offs) in columns.items()}
        return found

    def _look(self, ask: Ask) -> Offs:
        """How far each branch is off at one place, in the sizes that are asked. Raises Parted where a branch exists in
        some of them only."""
        if ask.parameter not in self.looks:
            self.looks[ask.parameter] = self._offs(ask)
        varied: dict[Branch, Any] = {
            branch: Varied(offs)
            for branch, offs in self.looks[ask.parameter].items()
            if agreed(~numpy.isnan(offs))
        }
        return varied

    def _offs(self, ask: Ask) -> dict[Branch, Array]:
        found: dict[Branch, Array] = {}
        for those, offs in self._each_way(self.sizes, lambda: self.tracer.answer(ask)):
            for branch, off in offs.items():
                column = found.setdefault(branch, numpy.full(self.n_sizes, numpy.nan))
                column[those] = off.each[those] if varies(off) else off
        return found

    def _by_size(self, offs: Array) -> Array:
        """A row for each size."""
        return numpy.array([column_of(off, self.n_sizes) for off in offs]).T.copy()

    def _traces_on_arrays(self, walk: Walk) -> dict[int, Traces]:
        """The same on arrays of places by sizes, some sizes at a time."""
        low, high = (numpy.array(column_of(end, self.n_sizes)) for end in (walk.low, walk.high))
        parameters = numpy.linspace(low, high, SAMPLES + 1)
        values = list(self.tracer.values)
        varied: Any = Varied(parameters)
        walk.put(values, varied)
        found: dict[int, Traces] = {at: {} for at in self.sizes}
        for start in range(0, len(self.sizes), AT_A_TIME):
            some = self.sizes[start : start + AT_A_TIME]
            own = [value.each[..., some] if varies(value) else value for value in values]
            for branch, offs in offs_on_arrays(self.tracer, own, (SAMPLES + 1, len(some))):
                for at, row in zip(some, offs.T.copy(), strict=True):
                    found[at][branch] = parameters[:, at], row
        return found

    # Tried one after the other, in each size a place of its own

    def _answers(self, asks: dict[int, Ask]) -> dict[int, Any]:
        """What each size asks for, those on the same branch together."""
        alike: dict[tuple[int, Branch | None], list[int]] = {}
        for at, ask in asks.items():
            alike.setdefault((id(ask.walk.put), ask.branch), []).append(at)
        answers: dict[int, Any] = {}
        for sizes in alike.values():
            parameters = numpy.full(self.n_sizes, asks[sizes[0]].parameter)
            parameters[sizes] = [asks[at].parameter for at in sizes]
            varied: Any = Varied(parameters)
            ask = asks[sizes[0]]._replace(parameter=varied)
            for those, answer in self._each_way(sizes, partial(self.tracer.answer, ask)):
                answers.update(_of_sizes(answer, those, self.n_sizes))
        return answers

    def _each_way(self, sizes: Sequence[int], work: Callable[[], Made]) -> Iterator[tuple[list[int], Made]]:
        """What comes of some work for some sizes: one thing for all that go the same way."""
        is_there = numpy.zeros(self.n_sizes, dtype=bool)
        is_there[sizes] = True
        waiting = [is_there]
        while waiting:
            those = waiting.pop()
            try:
                with asking(those):
                    made = work()
            except Parted as parted:
                ways = numpy.unique(parted.ways[those])
                if len(ways) < 2:
                    raise NotOneNumber from None
                waiting += [those & (parted.ways == way) for way in ways]
            else:
                yield numpy.flatnonzero(those).tolist(), made


def _varies(walk: Walk) -> bool:
    return varies(walk.low) or varies(walk.high)


def _of_sizes(answer: Any, sizes: Sequence[int], n_sizes: int) -> dict[int, Any]:
    """An answer as each size alone would have it."""
    if isinstance(answer, dict):
        offs = {branch: column_of(off, n_sizes) for branch, off in answer.items()}
        return {at: {branch: column[at] for branch, column in offs.items()} for at in sizes}
    off, numbers = answer
    columns = list(zip(*(column_of(number, n_sizes) for number in numbers), strict=True))
    off_column = column_of(off, n_sizes)
    return {at: (off_column[at], columns[at]) for at in sizes}
