"""Skived and glued strips: a band, a closed shape, or a strip along an open line.

Takes a bound strip and a Reader; gives its ring. Half of a strip's width lies on either side of its line. Along a line
from edge to edge the strip ends where the piece does; along any other line it ends square across.
"""

from __future__ import annotations

from dataclasses import replace

from drafting.geometry.band import strip_between
from drafting.geometry.faults import CutFallsApart, CutMisses, GeometryFault
from drafting.geometry.offset import offset_path
from drafting.geometry.path import Path, Ring
from drafting.geometry.trim import cut_ring
from drafting.model.pattern import LineRef, Piece, ShapePart, ThroughForm
from drafting.solve.amounts import mm
from drafting.solve.lines import Drawn, Unbuildable
from drafting.solve.reading import Reader
from drafting.solve.shapes import Spot, breaks_up, build_shape, positive, rounded_line
from drafting.text.catalogue import shapes as says


def build_strip(reader: Reader, part: ShapePart, piece: Piece, spot: Spot | None) -> Drawn:
    drawn = build_shape(reader, replace(part, rounded=None), piece, spot)
    if isinstance(drawn.path, Ring):
        if part.wide is not None:
            wide = mm(reader.number(part.wide))
            raise Unbuildable(says.STRIP_ON_RING, part.name_span, name=part.name, wide=wide)
    elif part.wide is None:
        raise Unbuildable(says.NO_STRIP, part.name_span, name=part.name)
    else:
        half = positive(reader, part.wide, part.name, "The width", part.span) / 2
        drawn = Drawn(_strip(reader, part, piece, drawn.path, half), None, {}, drawn.swings)
    return rounded_line(reader, part, drawn)


def _strip(reader: Reader, part: ShapePart, piece: Piece, line: Path, half: float) -> Ring:
    trimmed = _between_edges(reader, piece, line, half) if _runs_over(part) else None
    if trimmed is not None:
        return trimmed
    try:
        return strip_between(offset_path(line, half), offset_path(line, -half)).ring
    except GeometryFault as fault:
        raise breaks_up(fault, part.form.span, half, "beside", part.form.span.text) from None


def _runs_over(part: ShapePart) -> bool:
    return isinstance(part.form, ThroughForm) and not part.short


def _between_edges(reader: Reader, piece: Piece, line: Path, half: float) -> Ring | None:
    """The part of the piece within `half` of a straight line; None where it falls apart, so that the strip along the
    line itself is meant."""
    along = line.direction_at(0.0)
    ring = reader.line(LineRef(piece.name, "outline")).path
    if not isinstance(ring, Ring):
        raise AssertionError("an outline is a ring")
    for side, keeps_left in ((1.0, False), (-1.0, True)):
        try:
            ring = cut_ring(ring, line.start + along.turned_left() * (side * half), along, keeps_left).ring
        except CutMisses:
            continue
        except CutFallsApart:
            return None
    return ring
