"""What gets a dimension line: the overall sizes of a piece and the maker's own `dim`s.

A Span is a length to be measured between two ends along one direction, with its words; where its line goes is
decided in `lanes`. The places of features are spans as well, from `places`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from enum import IntEnum
from math import atan2, degrees, pi, radians

from drafting.drawing.amounts import Figures
from drafting.drawing.lettering import short_words
from drafting.drawing.marks import ORIGIN
from drafting.geometry.arc import Arc
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass, replace
from drafting.solve.placed import PlacedDim, PlacedPiece

SAME_PLACE = 0.005
"""Two places nearer than this are one."""
SAME_FIGURES = 0.01
"""Lengths that differ by less print nearly the same figures."""
LEVEL = Vector(1.0, 0.0)
PLUMB = Vector(0.0, 1.0)
ON_LINE = 0.1
"""An extension line nearer to another line than this would run along it."""
LEANING = radians(15.0)


class Rank(IntEnum):
    """Which lines are drawn first, nearest to the piece."""

    PLACE = 0
    ASKED = 1
    OVERALL = 2


@dataclass(frozen=True)
class SpanEnd:
    """One end: `at` along the span's direction, and from `low` to `high` across it the thing that is measured to."""

    at: float
    low: float
    high: float

    def joined(self, other: SpanEnd) -> SpanEnd:
        return replace(self, low=min(self.low, other.low), high=max(self.high, other.high))


@dataclass(frozen=True)
class Span:
    """`along` is the direction measured in, pointing right, or straight up. Ends are in order along it."""

    name: str
    text: str
    along: Vector
    first: SpanEnd
    last: SpanEnd
    rank: Rank

    @property
    def length(self) -> float:
        return self.last.at - self.first.at

    @property
    def across(self) -> Vector:
        return self.along.turned_left()

    def point(self, along: float, across: float) -> Point:
        return ORIGIN + self.along * along + self.across * across

    @property
    def angle(self) -> float:
        """Of its words in degrees, above -75 up to 105: readable from below or from the right."""
        return degrees(self.along.angle)


def make_span(name: str, text: str, along: Vector, first: SpanEnd, last: SpanEnd, rank: Rank) -> Span:
    """A span with its ends in order."""
    low, high = sorted((first, last), key=lambda end: end.at)
    return Span(name, text, along, low, high, rank)


def is_disc(ring: Ring) -> bool:
    """True for a whole circle, which is measured across and not by width and height."""
    arcs = [leg for leg in ring.legs if isinstance(leg, Arc)]
    first = arcs[0] if arcs else None
    return (
        first is not None
        and len(arcs) == len(ring.legs)
        and all(
            arc.center.distance_to(first.center) < SAME_PLACE and abs(arc.radius - first.radius) < SAME_PLACE
            for arc in arcs
        )
    )


def overall_spans(piece: PlacedPiece, figures: Figures, scale: float) -> list[Span]:
    """Width and height of what is cut, nothing for a disc; where edges are turned also those of the finished piece, as
    far as they differ."""
    whole = [] if is_disc(piece.cutting) else _over_all(piece.cutting, "", figures, scale)
    if piece.turned is None or is_disc(piece.outline):
        return whole
    finished = [
        replace(span, rank=Rank.ASKED) for span in _over_all(piece.outline, "finished ", figures, scale)
    ]
    return merged([*whole, *finished])


def _over_all(ring: Ring, state: str, figures: Figures, scale: float) -> list[Span]:
    box, drawn = ring.bounds, ring.scaled(scale, ORIGIN)
    spans = [
        make_span(
            f"{state}{name}",
            f"{state}{figures.length(size)}",
            along,
            edge_end(drawn, along, -1),
            edge_end(drawn, along, 1),
            Rank.OVERALL,
        )
        for name, size, along in (("width", box.width, LEVEL), ("height", box.height, PLUMB))
    ]
    return [span for span in spans if span.length > SAME_PLACE]


def edge_end(ring: Ring | Path, along: Vector, sign: int) -> SpanEnd:
    """The outermost place of a ring along a direction: the far edge for sign 1, the near one for -1."""
    points = list(_extreme_points(ring))
    furthest = max(sign * place_along(point, along) for point in points)
    touching = [point for point in points if furthest - sign * place_along(point, along) < SAME_PLACE]
    across = [place_along(point, along.turned_left()) for point in touching]
    return SpanEnd(sign * furthest, min(across), max(across))


def _extreme_points(way: Ring | Path) -> Iterator[Point]:
    """Corners, ends and the outermost points of bows."""
    for leg in way.legs:
        yield leg.start
        yield leg.end
        if isinstance(leg, Arc):
            turns = (0.0, pi / 2, pi, -pi / 2)
            yield from (leg.point_at_angle(turn) for turn in turns if leg.covers_angle(turn))


def past_lines(span: Span, lines: Iterable[Line]) -> Span:
    """The span with its extension lines begun past the straight lines they would run along: on a dashed line they would
    make it look like one that is drawn through."""
    within = list(lines)
    return replace(
        span, first=_past(span.first, span.along, within), last=_past(span.last, span.along, within)
    )


def _past(end: SpanEnd, along: Vector, lines: list[Line]) -> SpanEnd:
    across = along.turned_left()
    for line in lines:
        if all(abs(place_along(point, along) - end.at) < ON_LINE for point in (line.start, line.end)):
            low, high = sorted((place_along(line.start, across), place_along(line.end, across)))
            end = end.joined(SpanEnd(end.at, low, high))
    return end


def place_along(point: Point, direction: Vector) -> float:
    return (point - ORIGIN).dot(direction)


def asked_spans(piece: PlacedPiece, figures: Figures, scale: float) -> list[Span]:
    """The `dim`s of the maker that have a length."""
    spans = (asked_span(dim, figures, scale) for dim in piece.dims)
    return [span for span in spans if span is not None]


def asked_span(dim: PlacedDim, figures: Figures, scale: float) -> Span | None:
    move = dim.end - dim.start
    along = {"level": LEVEL, "plumb": PLUMB, None: reading_direction(move)}[dim.how]
    value = abs(move.dot(along))
    if value < SAME_PLACE:
        return None
    text = figures.length(value)
    note = short_words(dim.note or "")
    first, last = (point_end(point.scaled(scale, ORIGIN), along) for point in (dim.start, dim.end))
    name = f"{dim.start_name}..{dim.end_name}"
    return make_span(name, f"{note}: {text}" if note else text, along, first, last, Rank.ASKED)


def reading_direction(move: Vector) -> Vector:
    """The direction of a slanted dimension: to the right, or up. What leans up to LEANING to the left of plumb goes up
    too: its words read from the right like those of a plumb one."""
    if abs(move.y) < SAME_PLACE:
        return LEVEL
    if abs(move.x) < SAME_PLACE:
        return PLUMB
    angle = atan2(move.y, move.x)
    return move.unit() if LEANING - pi / 2 < angle <= pi / 2 + LEANING else -move.unit()


def merged(spans: Iterable[Span]) -> list[Span]:
    """One span for each pair of places, told in the words of the first; its ends reach over all that lie there."""
    known: list[Span] = []
    for span in spans:
        index = next((index for index, one in enumerate(known) if _are_same(one, span)), len(known))
        same = known[index] if index < len(known) else span
        rank = max(same.rank, span.rank)
        first, last = same.first.joined(span.first), same.last.joined(span.last)
        known[index : index + 1] = [replace(same, first=first, last=last, rank=rank)]
    return known


def _are_same(one: Span, other: Span) -> bool:
    """True when both measure in one direction between the same places, as far as their figures can tell."""
    return (
        abs(one.along.cross(other.along)) < SAME_PLACE
        and abs(one.first.at - other.first.at) < SAME_FIGURES
        and abs(one.last.at - other.last.at) < SAME_FIGURES
    )


def point_end(point: Point, along: Vector) -> SpanEnd:
    across = place_along(point, along.turned_left())
    return SpanEnd(place_along(point, along), across, across)
