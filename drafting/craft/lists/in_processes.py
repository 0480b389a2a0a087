"""Many sizes worked out by several processes, in their order.

A size takes some hundredths of a second, so a sweep of thousands is shared between the cores of the machine. The
processes are forks of this one: they have the plan already, and give back plain rows. Where there is no fork, or
nothing to gain, all is done here.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from multiprocessing import get_all_start_methods, get_context

from drafting.craft.lists.sizing import Asked, SizedRow, sized_row
from drafting.solve.draft import Draft

WORTH_A_FORK = 48
"""Sizes below this number are done before a process is started."""
SHARE = 8
"""Sizes handed over at a time."""

_work: list[tuple[Draft, Sequence[Asked]]] = []
"""What the forks of this process are to work on."""


def rows_of(draft: Draft, asked: Sequence[Asked]) -> Iterator[SizedRow]:
    """The row of each size, as soon as it and all before it are done."""
    n_cores = _cores()
    if len(asked) < WORTH_A_FORK or n_cores < 2 or "fork" not in get_all_start_methods():
        yield from (sized_row(draft, each) for each in asked)
        return
    first = sized_row(draft, asked[0])  # makes the plan, for every fork to have
    yield first
    _work.append((draft, asked))
    try:
        with get_context("fork").Pool(n_cores) as pool:
            yield from pool.imap(_row, range(1, len(asked)), SHARE)
    finally:
        _work.pop()


def _row(index: int) -> SizedRow:
    draft, asked = _work[-1]
    return sized_row(draft, asked[index])


def _cores() -> int:
    usable: Callable[[int], set[int]] | None = getattr(os, "sched_getaffinity", None)
    return len(usable(0)) if usable else os.cpu_count() or 1
