"""Slits: the line that is cut, joined with its twin where it ends on the mirror line.

Takes a bound slit and a Reader; gives the SlitLine, and from the Trade the cuts and holes. A slit that ends on the
mirror line goes on into its twin: the two are one cut, made once, without a hole between. An end on the edge of the
piece is no free end and has no hole either.
"""

from __future__ import annotations

from typing import Literal

from drafting.geometry.path import Path, Ring
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.pattern import LineRef, Piece, ShapePart, SlitWork
from drafting.records import dataclass, field, replace
from drafting.solve.lines import Drawn, Unbuildable
from drafting.solve.outlines import distance_off, mirror_points
from drafting.solve.reading import Reader
from drafting.solve.shapes import build_shape, positive, rounded_line
from drafting.solve.trade import Asked, SlitCuts, Trade
from drafting.solve.turning import leather_of
from drafting.text.catalogue import craft as craft_says
from drafting.text.catalogue import shapes as says

PathEnd = Literal["start", "end"]


@dataclass(frozen=True)
class SlitLine(Drawn):
    """A slit as it is drafted, and `whole` as it is cut: with its twin where it is joined to it."""

    whole: Path = field(kw_only=True)
    is_joined: bool = field(kw_only=True)


def build_slit(reader: Reader, part: ShapePart, piece: Piece) -> SlitLine:
    """The line of a slit. It is rounded when it is whole, so that a corner on the mirror line is rounded too."""
    drawn = build_shape(reader, replace(part, rounded=None), piece, None)
    joined_at = None if part.once else _end_on_mirror(reader, part, piece, _open(part, drawn))
    whole = _with_twin(reader, piece, _open(part, drawn), joined_at)
    if part.rounded is not None:
        whole = _open(part, rounded_line(reader, part, Drawn(whole)))
    half = _drafted_half(whole, joined_at)
    return SlitLine(half, drawn.walked, {}, drawn.swings, whole=whole, is_joined=joined_at is not None)


def _open(part: ShapePart, drawn: Drawn) -> Path:
    if isinstance(drawn.path, Ring):
        raise Unbuildable(craft_says.SLIT_CLOSES, part.name_span, line=part.name)
    return drawn.path


def _end_on_mirror(reader: Reader, part: ShapePart, piece: Piece, path: Path) -> PathEnd | None:
    """Which end of a slit lies on the mirror line; neither of one that runs along the line itself."""
    if piece.mirror is None:
        return None
    mirror = mirror_points(reader, piece.mirror)
    ends = [distance_off(end, *mirror) < SAME_POINT for end in (path.start, path.end)]
    if not all(ends):
        return "start" if ends[0] else "end" if ends[1] else None
    if distance_off(path.midpoint, *mirror) < SAME_POINT:
        return None
    raise Unbuildable(says.SLIT_AND_TWIN_CLOSE, part.name_span, name=part.name)


def _with_twin(reader: Reader, piece: Piece, path: Path, joined_at: PathEnd | None) -> Path:
    if joined_at is None or piece.mirror is None:
        return path
    twin = path.mirrored(*mirror_points(reader, piece.mirror)).reversed()
    return twin.joined(path) if joined_at == "start" else path.joined(twin)


def _drafted_half(whole: Path, joined_at: PathEnd | None) -> Path:
    middle = whole.length / 2
    match joined_at:
        case "start":
            return whole.part(middle, whole.length)
        case "end":
            return whole.part(0.0, middle)
    return whole


# What the knife does


def cuts_key(piece: Piece, part: ShapePart) -> str:
    """The solver's key for the cuts and holes of a slit."""
    return f"{LineRef(piece.name, part.name).key}.cuts"


def slit_cuts(reader: Reader, trade: Trade, part: ShapePart, piece: Piece, slit: SlitWork) -> SlitCuts:
    """The cuts and holes of a slit that leaves its piece in one."""
    whole = slit_line(reader, part, piece).whole
    edge = leather_of(reader, piece)
    free = (edge.distance_to_point(whole.start) > SAME_POINT, edge.distance_to_point(whole.end) > SAME_POINT)
    if not any(free):
        raise Unbuildable(says.SLIT_DIVIDES, part.name_span, name=part.name, piece=piece.name)
    ends, corners = (
        0.0
        if across is None
        else positive(reader, across, part.name, f"The size of the {which} holes", slit.span)
        for across, which in ((slit.end_holes, "end"), (slit.corner_holes, "corner"))
    )
    return trade.slit(whole, ends, corners, free, Asked(part.name, piece.name, part.name_span))


def slit_line(reader: Reader, part: ShapePart, piece: Piece) -> SlitLine:
    line = reader.line(LineRef(piece.name, part.name))
    if not isinstance(line, SlitLine):
        raise AssertionError(f"{part.name} is a slit")
    return line


def cuts_of(reader: Reader, part: ShapePart, piece: Piece) -> SlitCuts:
    """The cuts and holes that were worked out."""
    cuts: SlitCuts = reader.values[cuts_key(piece, part)]
    return cuts


def is_joined(reader: Reader, part: ShapePart, piece: Piece) -> bool:
    """Whether a feature is one with its twin."""
    return isinstance(part.work, SlitWork) and slit_line(reader, part, piece).is_joined
