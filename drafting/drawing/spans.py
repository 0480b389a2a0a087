"""What gets a dimension line: overall sizes, the maker's own `dim`s and the places of features.

A Span is a length to be measured between two ends along one direction, with its words; where its line goes is
decided in `lanes`. Places of features are measured from the nearest edge of the piece, or from the mirror line of a
mirrored piece, once for a feature and its twin; equal places are measured once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import IntEnum
from math import atan2, degrees, pi

from drafting.drawing.amounts import Figures
from drafting.drawing.center_marks import MIRROR_OVERSHOOT
from drafting.drawing.view import ORIGIN, center_view, feature_view, mark_view
from drafting.geometry.arc import Arc
from drafting.geometry.bounds import Bounds
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.solve.placed import PlacedDim, PlacedFeature, PlacedPiece

SAME_PLACE = 0.005
"""Two places nearer than this print the same figures."""
LEVEL = Vector(1.0, 0.0)
PLUMB = Vector(0.0, 1.0)
MOST_PLACES = 14
"""So many places of features are dimensioned in each direction; the sheet says when there are more."""
PLACED_KINDS = ("slot", "hole", "row", "opening", "mark", "notch")
LINE_KINDS_PLACED = ("crease", "fold", "slit")


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
        """Of its words in degrees, above -90 up to 90: readable from below or from the right."""
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
    """Width and height of the whole piece; nothing for a disc."""
    if is_disc(piece.outline):
        return []
    box = piece.outline.bounds
    outline = piece.outline.scaled(scale, ORIGIN)
    wide = make_span(
        "width", figures.length(box.width), LEVEL,
        edge_end(outline, LEVEL, -1), edge_end(outline, LEVEL, 1), Rank.OVERALL,
    )  # fmt: skip
    high = make_span(
        "height", figures.length(box.height), PLUMB,
        edge_end(outline, PLUMB, -1), edge_end(outline, PLUMB, 1), Rank.OVERALL,
    )  # fmt: skip
    return [span for span in (wide, high) if span.length > SAME_PLACE]


def edge_end(ring: Ring | Path, along: Vector, sign: int) -> SpanEnd:
    """The outermost place of a ring along a direction: the far edge for sign 1, the near one for -1."""
    points = list(_extreme_points(ring))
    furthest = max(sign * _at(point, along) for point in points)
    touching = [point for point in points if furthest - sign * _at(point, along) < SAME_PLACE]
    across = [_at(point, along.turned_left()) for point in touching]
    return SpanEnd(sign * furthest, min(across), max(across))


def _extreme_points(way: Ring | Path) -> Iterator[Point]:
    """Corners, ends and the outermost points of bows."""
    for leg in way.legs:
        yield leg.start
        yield leg.end
        if isinstance(leg, Arc):
            turns = (0.0, pi / 2, pi, -pi / 2)
            yield from (leg.point_at_angle(turn) for turn in turns if leg.covers_angle(turn))


def _at(point: Point, direction: Vector) -> float:
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
    first, last = (_point_end(point.scaled(scale, ORIGIN), along) for point in (dim.start, dim.end))
    name = f"{dim.start_name}..{dim.end_name}"
    return make_span(name, f"{dim.note}: {text}" if dim.note else text, along, first, last, Rank.ASKED)


def reading_direction(move: Vector) -> Vector:
    """The direction of a slanted dimension: to the right, or straight up. Nearly level or plumb counts as such."""
    if abs(move.y) < SAME_PLACE:
        return LEVEL
    if abs(move.x) < SAME_PLACE:
        return PLUMB
    angle = atan2(move.y, move.x)
    return move.unit() if -pi / 2 < angle <= pi / 2 else -move.unit()


def _point_end(point: Point, along: Vector) -> SpanEnd:
    across = _at(point, along.turned_left())
    return SpanEnd(_at(point, along), across, across)


def place_spans(piece: PlacedPiece, figures: Figures, scale: float) -> list[Span]:
    """Where the features are, level and plumb, each place once."""
    spans = [
        span
        for feature in piece.features
        if not feature.is_twin
        for span in _places_of(piece, feature, figures, scale)
    ]
    return _merged(spans)


def _places_of(piece: PlacedPiece, feature: PlacedFeature, figures: Figures, scale: float) -> Iterator[Span]:
    for along in (LEVEL, PLUMB):
        target = _target_of(feature, piece, along, scale)
        if target is not None:
            base = _base_for(piece, target, along, scale)
            if base is not None and abs(base.at - target.at) > SAME_PLACE:
                text = figures.length(abs(base.at - target.at) / scale)
                yield make_span(feature.name, text, along, base, target, Rank.PLACE)


def _target_of(feature: PlacedFeature, piece: PlacedPiece, along: Vector, scale: float) -> SpanEnd | None:
    """The middle of a feature, or a straight line that lies across the direction."""
    if feature.kind in LINE_KINDS_PLACED:
        return _straight_line_end(feature, along, scale)
    if feature.kind not in PLACED_KINDS:
        return None
    views = (feature_view(feature, scale), mark_view(feature, scale), center_view(feature, scale))
    drawn = [stroke.way.bounds for view in views for stroke in view.strokes]
    center = _placing_point(feature, piece)
    if center is None or not drawn:
        return None
    box, middle = Bounds.joining(drawn), center.scaled(scale, ORIGIN)
    low, high = (box.min_y, box.max_y) if along == LEVEL else (-box.max_x, -box.min_x)
    return SpanEnd(_at(middle, along), low, high)


def _placing_point(feature: PlacedFeature, piece: PlacedPiece) -> Point | None:
    """The middle; of a row with an even count the hole nearest to the lower left, for in its middle is none."""
    if feature.kind == "row" and len(feature.holes) % 2 == 0 and feature.holes:
        corner = piece.outline.bounds
        origin = Point(corner.min_x, corner.min_y)
        return min(
            (hole.center for hole in feature.holes), key=lambda point: round(point.distance_to(origin), 6)
        )
    if feature.center is not None:
        return feature.center
    if feature.holes:
        return feature.holes[len(feature.holes) // 2].center
    return feature.rings[0].bounds.center if feature.rings else None


def _straight_line_end(feature: PlacedFeature, along: Vector, scale: float) -> SpanEnd | None:
    """For a feature that is one straight line square to the direction."""
    if len(feature.paths) != 1 or len(feature.paths[0].legs) != 1:
        return None
    line = feature.paths[0].legs[0]
    if not isinstance(line, Line) or abs(line.direction.dot(along)) > 1e-6:
        return None
    start, end = line.start.scaled(scale, ORIGIN), line.end.scaled(scale, ORIGIN)
    across = [_at(point, along.turned_left()) for point in (start, end)]
    return SpanEnd(_at(start, along), min(across), max(across))


def _base_for(piece: PlacedPiece, target: SpanEnd, along: Vector, scale: float) -> SpanEnd | None:
    """What a place is measured from: the mirror line when it runs square to the direction, else the nearer edge."""
    outline = piece.outline.scaled(scale, ORIGIN)
    if piece.mirror is not None:
        first, second = (point.scaled(scale, ORIGIN) for point in piece.mirror)
        if abs((second - first).unit().dot(along)) < 1e-6:
            across = along.turned_left()
            ends = (edge_end(outline, across, -1).at, edge_end(outline, across, 1).at)
            return SpanEnd(_at(first, along), ends[0] - MIRROR_OVERSHOOT, ends[1] + MIRROR_OVERSHOOT)
    near, far = edge_end(outline, along, -1), edge_end(outline, along, 1)
    return near if target.at - near.at <= far.at - target.at + SAME_PLACE else far


def _merged(spans: Iterable[Span]) -> list[Span]:
    """One span for each pair of places; its ends reach over all that lie there."""
    merged: dict[tuple[float, float, bool], Span] = {}
    for span in spans:
        key = (round(span.first.at, 2), round(span.last.at, 2), span.along == LEVEL)
        known = merged.get(key)
        if known is None:
            merged[key] = span
        else:
            merged[key] = replace(
                known, first=known.first.joined(span.first), last=known.last.joined(span.last)
            )
    return list(merged.values())


def fewest(spans: list[Span]) -> list[Span]:
    """The first MOST_PLACES in each direction."""
    level = [span for span in spans if span.along == LEVEL][:MOST_PLACES]
    plumb = [span for span in spans if span.along == PLUMB][:MOST_PLACES]
    return [span for span in spans if span in level or span in plumb]
