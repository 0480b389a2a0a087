"""The trade as solving asks for it: the computations of this room, told in a maker's names.

A CraftFault knows the figures and not the names; here it becomes an Unbuildable at the place it was asked for.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from typing import Literal

from drafting.craft import bends
from drafting.craft.faults import CannotStep, CraftFault, NeedsStart, NoOnePlace, TooManyBackStitches
from drafting.craft.joins import LengthsDiffer, Pairing, Side, StitchesDiffer, compare
from drafting.craft.marks import Slanted, slanted_marks
from drafting.craft.meeting_holes import HolesApart, holes_meet
from drafting.craft.rows import RowRequest, row_along
from drafting.craft.slits import SlitRequest, cut_slit
from drafting.craft.spacing import Apart, AsManyAs, Every, FrenchIron, PerInch, Spacing, Stitches
from drafting.craft.stitches import Layout, Request, lay_out, pitches_held, pricked_layout
from drafting.craft.thread import thread_of_layout
from drafting.craft.turns import TurnRequest, turn_edge
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.solve.lines import Unbuildable
from drafting.solve.trade import (
    Asked,
    Seam,
    SeamLine,
    SeamPair,
    SlitCuts,
    StitchLayout,
    StitchWish,
    TurnedEdge,
    TurnWish,
)
from drafting.text.source import Span


@contextmanager
def told(asked: Asked) -> Iterator[None]:
    """Tell what cannot be done where it was asked for."""
    try:
        yield
    except CraftFault as fault:
        names = {"line": asked.name, "piece": asked.piece}
        raise Unbuildable(fault.entry, asked.span, **{**names, **fault.facts}) from fault


@contextmanager
def _told_of(wish: StitchWish, asked: Asked) -> Iterator[None]:
    """The same of a stitch line, at the clause that the fault is about."""
    try:
        yield
    except CraftFault as fault:
        with told(replace(asked, span=_span_of(fault, wish, asked))):
            raise


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

    def row(
        self, line: Path, count: int, apart: float, placed: Literal["middle", "start", "end"], asked: Asked
    ) -> tuple[Point, ...]:
        with told(asked):
            return row_along(line, RowRequest(count, apart, placed))

    def turn(self, outline: Ring, wish: TurnWish, asked: Asked) -> TurnedEdge:
        with told(asked):
            return turn_edge(
                outline,
                TurnRequest(
                    wish.start,
                    wish.end,
                    wish.width,
                    wish.thickness,
                    wish.corners,
                    neutral=wish.neutral,
                ),
            )

    def lay_out(self, line: Path | Ring, wish: StitchWish, asked: Asked) -> StitchLayout:
        with _told_of(wish, asked):
            return lay_out(line, _request(wish))

    def held(self, line: Path | Ring, wish: StitchWish, asked: Asked) -> tuple[tuple[float, float], ...]:
        with _told_of(wish, asked):
            return pitches_held(line, _request(wish))

    def pricked(self, layout: StitchLayout, outline: Ring, asked: Asked) -> StitchLayout | None:
        return pricked_layout(_own(layout), outline)

    def slits(self, layout: StitchLayout, long: float | None, folded: bool, asked: Asked) -> tuple[Line, ...]:
        with told(asked):
            mark = Slanted(layout.pitch * USUAL_SLIT if long is None else long)
            return slanted_marks(_own(layout), mark, folded)

    def join(self, lines: Sequence[SeamLine], backward: bool, within: float | None) -> Seam:
        sides = [Side.of(line.name, _own(line.layout)) for line in lines]
        report = compare(sides, backward, within)
        pairs = tuple(_seam_pair(pairing) for pairing in report.pairings)
        return Seam(pairs, tuple(_seam_fault(fault, lines) for fault in report.faults))

    def meet(self, first: SeamLine, second: SeamLine) -> Unbuildable | None:
        one, other = first.layout, second.layout
        if not (_lies_on(one, other) and _lies_on(other, one)):
            return None
        meeting = holes_meet([hole.point for hole in one.holes], [hole.point for hole in other.holes])
        if meeting.is_sound:
            return None
        fault = HolesApart(first.name, second.name, meeting)
        return Unbuildable(fault.entry, second.span, **fault.facts)

    def thread(self, layout: StitchLayout, stack: float, asked: Asked) -> float:
        with told(asked):
            return thread_of_layout(_own(layout), stack).length


def _lies_on(one: StitchLayout, other: StitchLayout) -> bool:
    """Whether a line runs so near to another that they are meant for one: within half a pitch all along."""
    near = other.pitch / 2
    return all(other.line.distance_to_point(hole.point) < near for hole in one.holes)


def _seam_pair(pairing: Pairing) -> SeamPair:
    first, second = pairing.first, pairing.second
    return SeamPair(first.name, second.name, (first.stitches, second.stitches), pairing.difference)


def _seam_fault(fault: CraftFault, lines: Sequence[SeamLine]) -> Unbuildable:
    """A fault of a seam, told where the line is named that is to be changed."""
    spans = {line.name: line.span for line in lines}
    changed = fault.changed if isinstance(fault, StitchesDiffer | LengthsDiffer) else None
    return Unbuildable(fault.entry, spans[changed.name] if changed else lines[-1].span, **fault.facts)


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
