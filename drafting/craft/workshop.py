"""The trade as solving asks for it: the computations of this room, told in a maker's names.

A CraftFault knows the figures and not the names; here it becomes an Unbuildable at the place it was asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

from drafting.craft import bends
from drafting.craft.faults import CannotStep, CraftFault, NeedsStart, NoOnePlace, TooManyBackStitches
from drafting.craft.marks import Slanted, slanted_marks
from drafting.craft.slits import SlitRequest, cut_slit
from drafting.craft.spacing import Apart, AsManyAs, Every, FrenchIron, PerInch, Spacing, Stitches
from drafting.craft.stitches import Layout, Request, lay_out, pricked_layout
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.solve.lines import Unbuildable
from drafting.solve.trade import Asked, SlitCuts, StitchLayout, StitchWish
from drafting.text.source import Span


@contextmanager
def told(asked: Asked) -> Iterator[None]:
    """Tell what cannot be done where it was asked for."""
    try:
        yield
    except CraftFault as fault:
        names = {"line": asked.name, "piece": asked.piece}
        raise Unbuildable(fault.entry, asked.span, **{**names, **fault.facts}) from fault


USUAL_SLIT = 1 / 2
"""How long a slanted mark is, as a part of the pitch, where nothing is said (common practice, no source)."""


class Workshop:
    """A Trade."""

    def fold_allowance(
        self, turn: float, inside: float, thickness: float, neutral: float, asked: Asked
    ) -> float:
        with told(asked):
            return bends.fold_allowance(turn, inside, thickness, neutral)

    def slit(
        self, line: Path, end_holes: float, corner_holes: float, free: tuple[bool, bool], asked: Asked
    ) -> SlitCuts:
        with told(asked):
            return cut_slit(line, SlitRequest(end_holes, corner_holes, 0.0, *free))

    def lay_out(self, line: Path | Ring, wish: StitchWish, asked: Asked) -> StitchLayout:
        try:
            return lay_out(line, _request(wish))
        except CraftFault as fault:
            with told(replace(asked, span=_span_of(fault, wish, asked))):
                raise

    def pricked(self, layout: StitchLayout, outline: Ring, asked: Asked) -> StitchLayout | None:
        return pricked_layout(_own(layout), outline)

    def slits(self, layout: StitchLayout, long: float | None, folded: bool, asked: Asked) -> tuple[Line, ...]:
        with told(asked):
            mark = Slanted(layout.pitch * USUAL_SLIT if long is None else long)
            return slanted_marks(_own(layout), mark, folded)


def _own(layout: StitchLayout) -> Layout:
    if not isinstance(layout, Layout):
        raise AssertionError("a layout comes from this workshop")
    return layout


def _request(wish: StitchWish) -> Request:
    return Request(
        _spacing(wish),
        "round" if wish.flowing else "hole",
        "across" if wish.across else "along",
        wish.held,
        wish.start,
        wish.back,
        short=wish.short,
    )


def _spacing(wish: StitchWish) -> Spacing:
    match wish.how:
        case "every":
            return Every(wish.amount)
        case "apart":
            return Apart(wish.amount)
        case "per inch":
            return PerInch(wish.amount)
        case "iron":
            return FrenchIron(wish.amount)
        case "stitches":
            return Stitches(round(wish.amount))
        case "as many as":
            if wish.copied is None:
                raise AssertionError("a line whose stitches are copied comes with the wish")
            return AsManyAs(wish.copied.counts, wish.copied.lengths)


def _span_of(fault: CraftFault, wish: StitchWish, asked: Asked) -> Span:
    """The clause that a fault is about."""
    match fault:
        case NoOnePlace(point=point):
            held = dict(zip(wish.held, wish.held_spans, strict=True))
            return held.get(point, wish.spans["start"])
        case TooManyBackStitches():
            return wish.spans["back"]
        case NeedsStart() | CannotStep():
            return wish.spans["line"]
    return asked.span
