"""Thousands of sizes quickly: measures, outer sizes, stock, and what the pattern itself asks; no seams, no rules.

A bare size goes through the code of any other, and leaves out what stands on the pieces. All sizes of a sweep are
worked out in one run; one that may not be made so is worked out with everything.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from drafting.craft.lists.parts import in_copy
from drafting.craft.lists.sizing import Asked, SizedRow, sized_row, told_of
from drafting.geometry.path import Ring
from drafting.model.pattern import Pattern
from drafting.solve.draft import Draft


def quick_rows(draft: Draft, asked: Sequence[Asked]) -> Iterator[SizedRow]:
    """The row of each size, in the order they are asked for."""
    from drafting.craft.lists.at_once import rows_at_once

    for _, sizes in groupby(asked, key=lambda each: (each.title, tuple(each.swept))):
        yield from rows_at_once(draft, list(sizes), bare_row)


def bare_row(draft: Draft, asked: Asked) -> SizedRow:
    """One size without seams and rules; with everything where it cannot be made, to tell why."""
    bare = draft.bare(asked.settings)
    if bare is None:
        return sized_row(draft, asked)
    return SizedRow(
        asked,
        bare.measures,
        {name: (ring.bounds.width, ring.bounds.height) for name, ring in bare.rings.items()},
        stock=_stock(draft.pattern, bare.rings),
        found=told_of(bare.messages),
        is_judged=False,
    )


def _stock(pattern: Pattern, rings: Mapping[str, Ring]) -> dict[str, float]:
    """What the pieces of one copy take out of each stock."""
    found: dict[str, float] = {}
    for piece in pattern.pieces.values():
        area = rings[piece.name].area * in_copy(piece)
        found[piece.stock or ""] = found.get(piece.stock or "", 0.0) + area
    return found
