"""Seams of one size: stitch lines compared, and told where they cannot be sewn to each other.

Lines are compared stitch for stitch. One that is pricked through from another of the seam has its holes and need not
have all of them. Of two that lie on one sheet, and so near that they are stacked, each hole must meet one of the other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from itertools import combinations
from typing import Any

from drafting.model.pattern import HolesForm, JoinedLine, JoinPart, LineRef, Pattern, StitchesRef
from drafting.solve.lines import Unbuildable
from drafting.solve.placed import PlacedJoin
from drafting.solve.reading import Reader
from drafting.solve.remembering import Memory
from drafting.solve.stitching import base_of, line_count, numbered
from drafting.solve.trade import Seam, SeamLine, Trade
from drafting.text.catalogue import solve as says
from drafting.text.messages import Messages


def joined_lines(pattern: Pattern, join: JoinPart) -> list[tuple[LineRef, ...]]:
    """The lines of a seam; where they stand between lists of points, those of one seam after the other."""
    counts = [line_count(pattern, base_of(pattern, one.line)) for one in join.lines]
    lists = [count for count, one in zip(counts, join.lines, strict=True) if count and one.line.index is None]
    if not lists:
        return [tuple(one.line for one in join.lines)]
    return [tuple(numbered(one.line, index) for one in join.lines) for index in range(1, min(lists) + 1)]


def place_joins(
    pattern: Pattern, trade: Trade, reader: Reader, messages: Messages, memory: Memory
) -> tuple[PlacedJoin, ...]:
    """Every seam whose lines could be laid out. Of several stretches that differ in one way the first is told."""
    found: list[PlacedJoin] = []
    for at, join in enumerate(pattern.joins):
        uneven = _uneven(pattern, join)
        if uneven:
            messages.extend([uneven.message])
            continue
        for lines in joined_lines(pattern, join):
            if all(StitchesRef(line).key in reader.values for line in lines):
                make = partial(_placed, pattern, trade, join, lines, messages)
                found.append(memory.made((at, lines), reader.values, messages, make))
    return tuple(found)


def _uneven(pattern: Pattern, join: JoinPart) -> Unbuildable | None:
    """Lists of lines are joined line by line, so all must be as long."""
    counts = [_n_lines(pattern, one.line) for one in join.lines]
    for one, count in zip(join.lines, counts, strict=True):
        if count != counts[0]:
            first, second = _words(counts[0]), _words(count)
            several = one.text if count > 1 else join.lines[0].text
            facts = {"one": join.lines[0].text, "first": first, "other": one.text, "second": second}
            facts["several"] = several
            return Unbuildable(says.JOIN_LINES, one.span, **facts)
    return None


def _n_lines(pattern: Pattern, line: LineRef) -> int:
    return (line_count(pattern, base_of(pattern, line)) or 1) if line.index is None else 1


def _words(count: int) -> str:
    return "one line" if count == 1 else f"{count} lines"


def _placed(
    pattern: Pattern,
    trade: Trade,
    join: JoinPart,
    lines: tuple[LineRef, ...],
    messages: Messages,
    values: Mapping[str, Any],
) -> PlacedJoin:
    reader = Reader(values)
    seams = [
        SeamLine(f"{line.piece}.{line.text}", named.span, reader.stitches(StitchesRef(line)))
        for line, named in zip(lines, join.lines, strict=True)
    ]
    within = reader.number(join.within) if join.within is not None else None
    seam = _compared(pattern, trade, seams, join, within)
    faults = seam.faults or tuple(_apart(pattern, trade, seams, join.lines))
    told = {(fault.message.code, fault.message.at): fault.message for fault in reversed(faults)}
    messages.extend(reversed(told.values()))
    return PlacedJoin(tuple(one.name for one in seams), join.reversed, seam.pairs, join.note)


def _compared(
    pattern: Pattern, trade: Trade, seams: Sequence[SeamLine], join: JoinPart, within: float | None
) -> Seam:
    """Every line but those pricked through from another of the seam, which have its holes."""
    whole = [
        seam
        for seam, named in zip(seams, join.lines, strict=True)
        if not any(_is_pricked_from(pattern, named, other) for other in join.lines)
    ]
    return trade.join(whole, join.reversed, within) if len(whole) > 1 else Seam((), ())


def _is_pricked_from(pattern: Pattern, one: JoinedLine, other: JoinedLine) -> bool:
    form = base_of(pattern, one.line).form
    return isinstance(form, HolesForm) and (form.line.piece, form.line.name) == (
        other.line.piece,
        other.line.name,
    )


def _apart(
    pattern: Pattern, trade: Trade, seams: Sequence[SeamLine], lines: Sequence[JoinedLine]
) -> Iterator[Unbuildable]:
    """Stacked lines of different pieces whose holes do not meet."""
    for (first, one), (second, other) in combinations(zip(seams, lines, strict=True), 2):
        pieces = [pattern.pieces[named.line.piece] for named in (one, other)]
        forms = [base_of(pattern, named.line).form for named in (one, other)]
        stacked = pieces[0].sheet == pieces[1].sheet and pieces[0] is not pieces[1]
        if stacked and not any(isinstance(form, HolesForm) for form in forms):
            fault = trade.meet(first, second)
            if fault:
                yield fault
