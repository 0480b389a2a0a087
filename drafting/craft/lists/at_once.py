"""Many sizes of a sweep worked out in one run, each measure that is swept being a Varied.

Sizes that go the same way all through (as many stitches, the same rules broken) come of one run; where they part ways
it is made again for each lot. One size of each lot is worked out alone as well, and must come to the same. What cannot
be worked out together is worked out size by size.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy

from drafting.craft.lists.sizing import Asked, Settings, SizedRow
from drafting.geometry.maths import NotTogether, Parted
from drafting.geometry.varied import Array, Varied, column_of, many_sizes, words_of
from drafting.model.expressions import Constant
from drafting.solve.draft import Draft

FEW = 10
"""So many sizes or fewer are worked out one by one: a run of several takes as long as five to ten, and may part."""
NEAR = 1e-6
"""mm, and parts of a larger amount, to which both ways must agree."""


RowOf = Callable[[Draft, Asked], SizedRow]
"""How one size is worked out."""


def rows_at_once(draft: Draft, asked: Sequence[Asked], row_of: RowOf) -> list[SizedRow]:
    """The row of each size; all are of one title, and the same measures are swept in them."""
    draft.planned(asked[0].settings)  # the plan is made of numbers
    rows: dict[int, SizedRow] = {}
    waiting = [numpy.arange(len(asked))]
    while waiting:
        lot = waiting.pop()
        sizes = [asked[at] for at in lot.tolist()]
        try:
            found = (_alone if len(lot) <= FEW else _together)(draft, sizes, row_of)
        except Parted as parted:
            _, ways = numpy.unique(parted.ways, return_inverse=True)
            waiting += [lot[ways == way] for way in range(ways.max() + 1)]
        else:
            rows.update(zip(lot.tolist(), found, strict=True))
    return [rows[at] for at in range(len(asked))]


def _alone(draft: Draft, asked: Sequence[Asked], row_of: RowOf) -> list[SizedRow]:
    return [row_of(draft, each) for each in asked]


def _together(draft: Draft, asked: Sequence[Asked], row_of: RowOf) -> list[SizedRow]:
    """The rows of sizes that go one way, or of each worked out alone. Raises Parted where they do not."""
    try:
        with many_sizes():
            row = row_of(draft, replace(asked[0], settings=_varied(asked)))
            rows = _rows_of(row, asked)
    except (NotTogether, Exception):
        return _alone(draft, asked, row_of)
    middle = len(asked) // 2
    return rows if _is_same(rows[middle], row_of(draft, asked[middle])) else _alone(draft, asked, row_of)


def _varied(asked: Sequence[Asked]) -> Settings:
    """The settings of the first size, and what is swept in all of them."""
    first = asked[0]
    columns = {name: [each.settings[name] for each in asked] for name in first.swept}
    return {**first.settings, **{name: (_column(values),) for name, values in columns.items()}}


def _column(values: Sequence[Sequence[object]]) -> Constant:
    numbers = [float(bound.value) for (bound,) in values if isinstance(bound, Constant)]
    varied: Any = Varied(numpy.array(numbers))
    return Constant(varied)


def _rows_of(row: SizedRow, asked: Sequence[Asked]) -> list[SizedRow]:
    """The row of each size."""
    n_sizes = len(asked)
    sides = {piece: [column_of(side, n_sizes) for side in box] for piece, box in row.boxes.items()}
    measures, stock = (_columns_of(amounts, n_sizes) for amounts in (row.measures, row.stock))
    thread = column_of(row.thread, n_sizes)
    return [
        SizedRow(
            one,
            {key: column[at] for key, column in measures.items()},
            {piece: (width[at], height[at]) for piece, (width, height) in sides.items()},
            row.stitches,
            {name: column[at] for name, column in stock.items()},
            thread[at],
            tuple(replace(found, says=words_of(found.says, at)) for found in row.found),
            row.is_judged,
        )
        for at, one in enumerate(asked)
    ]


def _columns_of(amounts: Mapping[str, float], n_sizes: int) -> dict[str, list[float]]:
    return {name: column_of(amount, n_sizes) for name, amount in amounts.items()}


def _is_same(one: SizedRow, other: SizedRow) -> bool:
    first, second = _numbers(one), _numbers(other)
    return (
        (one.found, one.stitches, one.thread is None) == (other.found, other.stitches, other.thread is None)
        and len(first) == len(second)
        and bool(numpy.allclose(first, second, rtol=NEAR, atol=NEAR))
    )


def _numbers(row: SizedRow) -> Array:
    sides = [side for box in row.boxes.values() for side in box]
    return numpy.array([*row.measures.values(), *sides, *row.stock.values(), row.thread or 0.0])
