"""Rows of holes along a line, a run or a ring.

Takes a bound row and a Reader; gives a RowLine. Distances are measured along the line. A line that is `short` at one
end only places an exact row from there; otherwise such a row stands in the middle. On a closed line the first hole
stands at `start`.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.pattern import Piece, RowAlongForm, ShapePart
from drafting.solve.amounts import mm, plain
from drafting.solve.lines import RowLine, Unbuildable
from drafting.solve.reading import Reader
from drafting.solve.shapes import build_shape, positive, row_line, whole_count
from drafting.solve.trade import Asked, Trade
from drafting.text.catalogue import solve as row_says

MOST_OFF = 1 / 20
"""How far a true gap may be from the one asked for by `every`, as with stitches."""


def build_row_along(
    reader: Reader, trade: Trade, part: ShapePart, form: RowAlongForm, piece: Piece
) -> RowLine:
    across = positive(reader, form.across, part.name, "The size across", form.span)
    line = build_shape(reader, replace(part, form=form.line), piece, None).path
    path = _opened(reader, part, form, line)
    if form.apart is None:
        centers, apart = _evenly(reader, part, form, path, isinstance(line, Ring))
    else:
        apart = positive(reader, form.apart, part.name, "The distance between the holes", form.span)
        count = _count(reader, part, form, path, apart, isinstance(line, Ring))
        placed = "start" if isinstance(line, Ring) else _placed_from(part)
        centers = trade.row(path, count, apart, placed, Asked(part.name, piece.name, part.name_span))
    middle = line.bounds.center if isinstance(line, Ring) else path.midpoint
    return row_line(middle, centers, apart, across)


def _opened(reader: Reader, part: ShapePart, form: RowAlongForm, line: Path | Ring) -> Path:
    """The line from the first hole on: a ring begins and ends there."""
    if isinstance(line, Ring):
        if form.start is None:
            raise Unbuildable(row_says.ROW_STARTS, part.name_span, name=part.name)
        first, _ = line.nearest(reader.point(form.start))
        return line.part(first, first)
    if form.start is not None:
        point = form.start.text
        raise Unbuildable(row_says.OPEN_ROW_STARTS, part.name_span, name=part.name, point=point)
    return line


def _count(
    reader: Reader, part: ShapePart, form: RowAlongForm, path: Path, apart: float, is_ring: bool
) -> int:
    """How many holes an exact row has: as many as its line holds, if nothing is said. On a ring the last one is not the
    first again."""
    if form.holes is not None:
        return whole_count(reader, form.holes, part.name, form.span)
    gaps = int(path.length / apart + SAME_POINT)
    return max(gaps, 1) if is_ring else gaps + 1


def _placed_from(part: ShapePart) -> Literal["middle", "start", "end"]:
    ends = {end for end, _ in part.short}
    return "middle" if len(ends) != 1 else "start" if "start" in ends else "end"


def _evenly(
    reader: Reader, part: ShapePart, form: RowAlongForm, path: Path, is_ring: bool
) -> tuple[tuple[Point, ...], float]:
    """Holes at both ends of the line and evenly between, a single one in its middle; on a ring all round."""
    gaps = _gaps(reader, part, form, path.length, is_ring)
    if gaps == 0:
        return (path.midpoint,), 0.0
    apart = path.length / gaps
    n_holes = gaps if is_ring else gaps + 1
    return tuple(path.point_at(path.within(index * apart)) for index in range(n_holes)), apart


def _gaps(reader: Reader, part: ShapePart, form: RowAlongForm, length: float, is_ring: bool) -> int:
    """How many gaps the holes leave between them: on a ring as many as holes."""
    if form.holes is not None:
        count = whole_count(reader, form.holes, part.name, form.span)
        return count if is_ring else count - 1
    if form.every is None:
        raise AssertionError("a row says how its holes are spaced")
    every = positive(reader, form.every, part.name, "The distance between the holes", form.span)
    gaps = max(1, round(length / every))
    if abs(length / gaps / every - 1) > MOST_OFF:
        raise _off(part, length, every, gaps, is_ring)
    return gaps


def _off(part: ShapePart, length: float, every: float, gaps: int, is_ring: bool) -> Unbuildable:
    true, whole = length / gaps, int(length / every)
    accept = f"Accept with `{gaps if is_ring else gaps + 1} holes`"
    shorter = f", or end it `{mm(length - whole * every)} short at end` for {whole} true gaps"
    return Unbuildable(
        row_says.GAPS_OFF,
        part.name_span,
        name=part.name,
        length=mm(length),
        gaps=plain(length / every, 2),
        every=mm(every),
        count=gaps,
        true=mm(true),
        off=f"{plain(abs(true / every - 1) * 100, 0)} %",
        mend=accept + (shorter if whole and not is_ring else "") + ".",
    )
