"""Many sizes worked out by several processes, in their order.

A sweep of thousands is shared between the cores of the machine. The processes are forks of this one: they have the plan
already, and give back plain rows. Where there is no fork, or nothing to gain, all is done here.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby, pairwise
from multiprocessing import get_all_start_methods, get_context

from drafting.craft.lists.sizing import Asked, SizedRow, sized_row
from drafting.solve.draft import Draft

SHARE = 2500
"""Sizes worked out together: the more the fewer runs there are, but the longer nothing is to be seen of them."""
WORTH_A_RUN = 32
"""Fewer sizes than this are worked out one by one as they are asked for."""
WORTH_A_FORK = 48
"""Sizes below this number are done before a process is started."""

_work: list[tuple[Draft, list[Sequence[Asked]]]] = []
"""What the forks of this process are to work on."""


def rows_of(draft: Draft, asked: Sequence[Asked]) -> Iterator[SizedRow]:
    """The row of each size, as soon as it and all before it are done."""
    shares = list(_shares(asked))
    n_cores = _cores()
    if len(asked) < WORTH_A_FORK or n_cores < 2 or "fork" not in get_all_start_methods():
        for share in shares:
            yield from rows_of_share(draft, share)
        return
    sized_row(draft, asked[0])  # makes the plan, for every fork to have
    _work.append((draft, shares))
    try:
        with get_context("fork").Pool(n_cores) as pool:
            for rows in pool.imap(_rows, range(len(shares))):
                yield from rows
    finally:
        _work.pop()


def rows_of_share(draft: Draft, asked: Sequence[Asked]) -> Iterator[SizedRow]:
    """The rows of sizes of one title in which the same measures are swept."""
    if len(asked) < WORTH_A_RUN:
        yield from (sized_row(draft, each) for each in asked)
    else:
        from drafting.craft.lists.at_once import rows_at_once

        yield from rows_at_once(draft, asked, sized_row)


def _shares(asked: Sequence[Asked]) -> Iterator[Sequence[Asked]]:
    for _, block in groupby(asked, key=lambda each: (each.title, tuple(each.swept))):
        sizes = list(block)
        n_shares = -(-len(sizes) // SHARE)
        if len(sizes) >= WORTH_A_FORK:
            n_shares = max(n_shares, _cores())
        ends = [len(sizes) * index // n_shares for index in range(n_shares + 1)]
        yield from (sizes[start:end] for start, end in pairwise(ends))


def _rows(index: int) -> list[SizedRow]:
    draft, shares = _work[-1]
    return list(rows_of_share(draft, shares[index]))


def _cores() -> int:
    usable: Callable[[int], set[int]] | None = getattr(os, "sched_getaffinity", None)
    return len(usable(0)) if usable else os.cpu_count() or 1
