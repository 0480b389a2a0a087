"""The solutions of a torn block in many sizes at once.

Each size is searched as it is alone, place after place. But the places that all of them ask for next are tried
together, as one place that varies from size to size.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy

from drafting.geometry.maths import NotOneNumber, Parted, varies
from drafting.geometry.varied import Array, Varied, asking, column_of, is_asked, of_size
from drafting.records import dataclass, replace
from drafting.solve.coupled.closing_in import Root, search_roots
from drafting.solve.coupled.tearing import Walk
from drafting.solve.coupled.tracing import Ask, Branch, Tracer

Roots = list[Root]


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
    if tracer.works_on_arrays:
        raise NotOneNumber
    n_sizes = next(len(value.each) for value in tracer.values if varies(value))
    roots = _searched(tracer, n_sizes)
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


def _searched(tracer: Tracer, n_sizes: int) -> dict[int, Roots]:
    """The solutions of each size that is asked."""
    found: dict[int, Roots] = {}
    walks = tracer.walks
    those = [at for at in range(n_sizes) if is_asked(at)]
    waiting = {at: search_roots(_of_one_size(tracer, walks, at)) for at in those}
    answers: dict[int, Any] = dict.fromkeys(waiting)
    while waiting:
        asks: dict[int, Ask] = {}
        for at, search in list(waiting.items()):
            try:
                asks[at] = search.send(answers[at])
            except StopIteration as done:
                found[at], _ = done.value
                del waiting[at]
        answers = _answered(tracer, asks, n_sizes)
    return found


def _of_one_size(tracer: Tracer, walks: Sequence[Walk], at: int) -> _OfOneSize:
    """A size without a solution is worked out alone, which tells by how much it is missed."""
    there = [replace(walk, low=of_size(walk.low, at), high=of_size(walk.high, at)) for walk in walks]
    layout, torn, unknowns, values = tracer.layout, tracer.torn, tracer.unknowns, tracer.values
    return _OfOneSize(layout, torn, unknowns, values, False, tracer.filters, False, there)


def _answered(tracer: Tracer, asks: dict[int, Ask], n_sizes: int) -> dict[int, Any]:
    """What each size asks for, those on one branch of one walk at once."""
    alike: dict[tuple[int, Branch | None], list[int]] = {}
    for at, ask in asks.items():
        alike.setdefault((id(ask.walk.put), ask.branch), []).append(at)
    answers: dict[int, Any] = {}
    for sizes in alike.values():
        first = asks[sizes[0]]
        parameters = numpy.full(n_sizes, first.parameter)
        parameters[sizes] = [asks[at].parameter for at in sizes]
        varied: Any = Varied(parameters)
        is_there = numpy.zeros(n_sizes, dtype=bool)
        is_there[sizes] = True
        for those, answer in _each_way(tracer, replace(first, parameter=varied), is_there):
            answers.update(_of_sizes(answer, numpy.flatnonzero(those).tolist(), n_sizes))
    return answers


def _each_way(tracer: Tracer, ask: Ask, is_there: Array) -> Iterator[tuple[Array, Any]]:
    """The answers to what some sizes ask for: one for all that go the same way."""
    waiting = [is_there]
    while waiting:
        those = waiting.pop()
        try:
            with asking(those):
                answer = tracer.answer(ask)
        except Parted as parted:
            ways = numpy.unique(parted.ways[those])
            if len(ways) < 2:
                raise NotOneNumber from None
            waiting += [those & (parted.ways == way) for way in ways]
        else:
            yield those, answer


def _of_sizes(answer: Any, sizes: Sequence[int], n_sizes: int) -> dict[int, Any]:
    """An answer as each size alone would have it."""
    if isinstance(answer, dict):
        offs = {branch: column_of(off, n_sizes) for branch, off in answer.items()}
        return {at: {branch: column[at] for branch, column in offs.items()} for at in sizes}
    off, numbers = answer
    columns = list(zip(*(column_of(number, n_sizes) for number in numbers), strict=True))
    off_column = column_of(off, n_sizes)
    return {at: (off_column[at], columns[at]) for at in sizes}
