"""A lay in words: what lies on each sheet, the yield, what found no room and how much more stock that needs."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from drafting.drawing.lists.amounts import area_words
from drafting.lay.lays import LaidSheet, Lay

FIRST_GUESS = 0.7
"""The yield that more stock is reckoned with where nothing could be laid (common practice, no source)."""


def lay_words(lay: Lay) -> str:
    """Some lines, each ended."""
    return "".join(
        f"{line}\n" for line in (*_sheets(lay), *_yield(lay), *_sets(lay), *_missing(lay), *_again(lay))
    )


def _sheets(lay: Lay) -> Iterator[str]:
    for number, laid in enumerate(lay.sheets, start=1):
        words = f"sheet {number}, {laid.sheet.name}: {_parts(len(laid.spots))}, {_share(lay, laid)}"
        yield words + (f", {lay.length_used(laid):.0f} mm long" if laid.sheet.kind != "hide" else "")


def _parts(count: int) -> str:
    return f"{count} {'part' if count == 1 else 'parts'}"


def _share(lay: Lay, laid: LaidSheet) -> str:
    return f"{percent(lay.area_on(laid) / lay.usable_area(laid))} of what is sound of it"


def _yield(lay: Lay) -> Iterator[str]:
    """A yield without what was kept free tells nothing, so all of it stands in one line."""
    if lay.sheets:
        margin = lay.sheets[0].sheet.margin
        yield (
            f"parts {area_words(lay.area)}, yield {percent(lay.yield_of_gross)} of the whole sheets and "
            f"{percent(lay.yield_of_usable)} of what is sound (gap {lay.gap:g} mm, margin {margin:g} mm)"
        )
        rest = sum(part.area for laid in lay.sheets for part in lay.leftovers(laid))
        yield f"left over, wide enough to cut from: {area_words(rest)}"


def _sets(lay: Lay) -> Iterator[str]:
    """A batch is worth its whole items."""
    for one in lay.sets:
        yield f"whole sets of {one.item}: {one.whole} of {one.asked}"


def _missing(lay: Lay) -> Iterator[str]:
    if lay.is_complete:
        yield "the only part is laid" if lay.n_laid == 1 else f"all {lay.n_laid} parts are laid"
        return
    for kind, count in zip(lay.kinds, lay.missing, strict=True):
        if count:
            turned = ", turned over" if kind.is_turned_over else ""
            yield f"no room for {count} of {kind.demand} {kind.name}{turned}"
    yield f"more stock needed: about {area_words(lay.missing_area / (lay.yield_of_gross or FIRST_GUESS))}{_panels(lay)}"


def _panels(lay: Lay) -> str:
    if not lay.sheets or lay.sheets[0].sheet.kind != "panel":
        return ""
    count = ceil(lay.missing_area / (lay.yield_of_gross * lay.sheets[-1].sheet.area))
    return f", {count} more {'panel' if count == 1 else 'panels'}"


def _again(lay: Lay) -> Iterator[str]:
    """Whether the same lay comes again, honestly."""
    if lay.was_stopped:
        yield "stopped with Ctrl-C: this is the best so far"
    if lay.is_repeatable and not lay.was_stopped:
        yield f"seed {lay.seed}: the same seed and steps give this lay again on the same versions"
        return
    yield "searched by the clock: another run may find another lay, so keep lay.json, which draws this one again"


def percent(part: float) -> str:
    return f"{100 * part:.1f} %"
