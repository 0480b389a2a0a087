"""Stitch lines while a plan is evaluated: where each runs, and the layout of its holes.

Each line of a stitch has two nodes: its path, and its stitches. The stitches hang on the path, on the points that must
have a hole, and, where they are counted by another line, on that line's stitches, on whatever piece it is.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any, Protocol

from drafting.geometry.maths import plain_number
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.expressions import Bound
from drafting.model.pattern import (
    BoundStretch,
    HolesForm,
    LineRef,
    LinesForm,
    Measured,
    MirrorForm,
    Pattern,
    Piece,
    ShapePart,
    Spacing,
    StitchesRef,
    StitchPart,
)
from drafting.solve.amounts import plain
from drafting.solve.lines import Drawn, Unbuildable
from drafting.solve.outlines import mirror_points
from drafting.solve.reading import Reader
from drafting.solve.trade import Asked, StitchLayout, StitchWish, Trade
from drafting.solve.ways import as_drawn
from drafting.text.catalogue import shapes as says
from drafting.text.source import Span

STITCH_WORDS = ("stitches", "pitch", "holes", "thread")
"""What is read off the stitches of a line, not off its path."""


class Nodes(Protocol):
    """What adds a node to the system."""

    @property
    def pattern(self) -> Pattern: ...
    @property
    def trade(self) -> Trade: ...
    def compute(self, key: str, needs: object, function: Callable[[Reader], Any], span: Span) -> None: ...


def base_of(pattern: Pattern, ref: LineRef) -> ShapePart:
    shape = pattern.pieces[ref.piece].shape(ref.name)
    if shape is None or shape.stitch is None:
        raise AssertionError("the binder lets nothing but a stitch line pass")
    return shape


def line_count(pattern: Pattern, shape: ShapePart, trail: tuple[str, ...] = ()) -> int | None:
    """How many lines a stitch has; None where it is one. Lines that take each other's holes in a circle have one."""
    match shape.form:
        case LinesForm(starts=starts):
            return len(starts)
        case MirrorForm(line=line) | HolesForm(line=line) if line.index is None and line.key not in trail:
            return line_count(pattern, base_of(pattern, line), (*trail, line.key))
    return None


def lines_of(pattern: Pattern, shape: ShapePart, piece: str) -> list[LineRef]:
    """The lines that a feature is made of: one, or one for each pair of points of two lists."""
    count = line_count(pattern, shape)
    if count is None:
        return [LineRef(piece, shape.name)]
    return [LineRef(piece, shape.name, False, index) for index in range(1, count + 1)]


def ensure_taken_line(nodes: Nodes, ref: LineRef, shape: ShapePart) -> bool:
    """The path of a line that takes its holes from another; False where it has a path of its own."""
    match shape.form:
        case MirrorForm(line=line, over=over):
            base = numbered(line, ref.index)
            mirror = lambda reader: _drawn(reader, base).mirrored(*_over(reader, over, shape.span))  # noqa: E731
            nodes.compute(ref.key, (base, over), mirror, shape.span)
        case HolesForm(line=line):
            base = numbered(line, ref.index)
            nodes.compute(ref.key, (base,), lambda reader: _drawn(reader, base), shape.span)
        case _:
            return False
    return True


def numbered(line: LineRef, index: int | None) -> LineRef:
    """One of a list of lines, where it is not said which."""
    return line if line.index is not None else StitchesRef(line).numbered(index).line


def _drawn(reader: Reader, ref: LineRef) -> Drawn:
    return as_drawn(reader.line(ref))


def _over(reader: Reader, over: BoundStretch | LineRef, span: Span) -> tuple[Point, Point]:
    """Two points of the line that is folded over, which must be straight."""
    if isinstance(over, BoundStretch):
        return mirror_points(reader, over)
    path = reader.line(over).path
    if isinstance(path, Ring) or path.length - path.start.distance_to(path.end) > SAME_POINT:
        raise Unbuildable(says.NOT_STRAIGHT, span, line=over.text)
    return path.start, path.end


# Layouts


def ensure_stitches(nodes: Nodes, ref: StitchesRef) -> None:
    """The layout of one line, or of its twin."""
    line = ref.line
    piece = nodes.pattern.pieces[line.piece]
    shape = base_of(nodes.pattern, line)
    if line.twin:
        _twin(nodes, ref, piece, shape)
        return
    match shape.form:
        case MirrorForm(line=base, over=over):
            source = StitchesRef(numbered(base, line.index))
            function = lambda reader: reader.stitches(source).mirrored(*_over(reader, over, shape.span))  # noqa: E731
            nodes.compute(ref.key, (source, over), function, shape.span)
        case HolesForm(line=base):
            source = StitchesRef(numbered(base, line.index))
            outline = LineRef(piece.name, "outline")
            pricked = lambda reader: _pricked(nodes.trade, reader, source, outline, shape)  # noqa: E731
            nodes.compute(ref.key, (source, outline), pricked, shape.span)
        case _:
            _laid_out(nodes, ref, shape)


def _twin(nodes: Nodes, ref: StitchesRef, piece: Piece, shape: ShapePart) -> None:
    mirror = piece.mirror
    if mirror is None:
        raise AssertionError("the binder lets no twin pass without a mirror line")
    base = StitchesRef(LineRef(piece.name, ref.line.name, False, ref.line.index))
    function = lambda reader: reader.stitches(base).mirrored(*mirror_points(reader, mirror))  # noqa: E731
    nodes.compute(ref.key, (base, mirror), function, shape.span)


def _pricked(
    trade: Trade, reader: Reader, source: StitchesRef, outline: LineRef, shape: ShapePart
) -> StitchLayout:
    ring = reader.line(outline).path
    if not isinstance(ring, Ring):
        raise AssertionError("an outline is a ring")
    asked = Asked(shape.name, outline.piece, shape.span)
    layout = trade.pricked(reader.stitches(source), ring, asked)
    if layout is None:
        other = f"{source.line.piece}.{source.text}"
        raise Unbuildable(says.NOTHING_PRICKED, shape.span, name=shape.name, other=other, piece=outline.piece)
    return layout


def held_key(ref: StitchesRef) -> str:
    """The key of how many pitches each stretch of a line holds."""
    base = StitchesRef(replace(ref.line, twin=False))
    return base.key.replace(":stitches", ":held")


def ensure_held(nodes: Nodes, ref: StitchesRef) -> None:
    """How many pitches each stretch of a line holds, which asks for a pitch; a twin holds as many."""
    line = replace(ref.line, twin=False)
    _laid_out(nodes, StitchesRef(line), base_of(nodes.pattern, line), of_held=True)


def _laid_out(nodes: Nodes, ref: StitchesRef, shape: ShapePart, of_held: bool = False) -> None:
    stitch = shape.stitch
    if stitch is None or stitch.spacing is None:
        raise AssertionError("a line with holes of its own has a spacing")
    copied = stitch.spacing.stitches
    if copied is not None and line_count(nodes.pattern, base_of(nodes.pattern, copied.line)) is not None:
        copied = copied.numbered(ref.line.index)
    spacing = stitch.spacing
    points = tuple(hole.point for hole in (*stitch.held, *([stitch.start] if stitch.start else [])))
    needs = (ref.line, spacing.amount or (), copied or (), points, stitch.back, shape.short)
    asked = Asked(shape.name, ref.line.piece, spacing.span)

    def work_out(reader: Reader) -> object:
        path = reader.line(ref.line).path
        _expect_ring(path, stitch, shape)
        wish = _wish(reader, shape, stitch, spacing, copied)
        return nodes.trade.held(path, wish, asked) if of_held else nodes.trade.lay_out(path, wish, asked)

    nodes.compute(held_key(ref) if of_held else ref.key, needs, work_out, shape.span)


def _expect_ring(path: Path | Ring, stitch: StitchPart, shape: ShapePart) -> None:
    """Only a ring starts where it is told; an open line starts at its start."""
    if stitch.start is not None and isinstance(path, Path):
        text = " ".join(stitch.start.span.text.split())
        raise Unbuildable(
            says.OPEN_STARTS, stitch.start.span, name=shape.name, clause=text, point=stitch.start.point.text
        )


def _wish(
    reader: Reader, shape: ShapePart, stitch: StitchPart, spacing: Spacing, copied: StitchesRef | None
) -> StitchWish:
    amount = reader.number(spacing.amount) if spacing.amount is not None else 0.0
    if spacing.how == "stitches":
        _expect_whole(amount, shape.name, spacing.span)
    start = stitch.start
    back = {end: _back(reader, bound, shape.name, stitch.back_span) for end, bound in stitch.back}
    short = {end: reader.number(bound) for end, bound in shape.short}
    return StitchWish(
        spacing.how,
        amount,
        reader.stitches(copied) if copied else None,
        stitch.flowing,
        stitch.across,
        tuple(reader.point(hole.point) for hole in stitch.held),
        reader.point(start.point) if start else None,
        (back.get("start", 0), back.get("end", 0)),
        (short.get("start", 0.0), short.get("end", 0.0)),
        {"line": shape.form.span, "start": start.span if start else shape.span, "back": stitch.back_span},
        tuple(hole.span for hole in stitch.held),
    )


def _back(reader: Reader, bound: Bound, name: str, span: Span) -> int:
    amount = reader.number(bound)
    if amount:
        _expect_whole(amount, name, span)
    return round(amount)


def _expect_whole(amount: float, name: str, span: Span) -> None:
    if amount < 1 or amount != int(amount):
        raise Unbuildable(says.STITCHES_NOT_WHOLE, span, name=name, count=plain(amount))


# Readings


def stitches_of(pattern: Pattern, line: LineRef) -> tuple[StitchesRef, ...]:
    """The stitches that a name speaks of: of several lines all together, unless one of them is named."""
    count = line_count(pattern, base_of(pattern, line)) if line.index is None else None
    if count is None:
        return (StitchesRef(line),)
    return tuple(StitchesRef(numbered(line, index)) for index in range(1, count + 1))


def stitch_number(
    trade: Trade, reader: Reader, reading: Measured, stitches: tuple[StitchesRef, ...]
) -> float:
    """A number read off the stitches of one line, or of several together: counts and thread add up, a pitch is the
    mean of all stitches."""
    layouts = [reader.stitches(ref) for ref in stitches]
    total = sum(layout.stitches for layout in layouts)
    match reading.what:
        case "stitches":
            return plain_number(total)
        case "holes":
            return float(sum(len(layout.holes) for layout in layouts))
        case "pitch":
            whole = sum(layout.pitch * layout.stitches for layout in layouts)
            return whole / total if total else 0.0
    if reading.amount is None or reading.at is None:
        raise AssertionError("thread goes through a thickness")
    stack = reader.number(reading.amount)
    line = stitches[0].line
    asked = Asked(line.text, line.piece, reading.at)
    return sum(trade.thread(layout, stack, asked) for layout in layouts)
