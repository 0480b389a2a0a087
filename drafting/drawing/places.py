"""Where the features and the corners of a piece are, as spans to be dimensioned.

A place is measured from the nearer edge of the piece, or from the mirror line when the piece has one that runs square
to the direction; a corner then from its twin. A feature and its twin are measured once; equal places are measured once.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import asin, radians

from drafting.drawing.amounts import Figures
from drafting.drawing.center_marks import MIRROR_OVERSHOOT
from drafting.drawing.marks import ORIGIN
from drafting.drawing.spans import (
    LEVEL,
    PLUMB,
    SAME_PLACE,
    Rank,
    Span,
    SpanEnd,
    edge_end,
    make_span,
    merged,
    place_along,
    point_end,
)
from drafting.drawing.view import center_view, feature_view, mark_view
from drafting.drawing.work_words import edge_gap
from drafting.geometry.bounds import Bounds
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.path import Path
from drafting.geometry.point import Point, Vector
from drafting.solve.placed import PlacedCorner, PlacedFeature, PlacedPiece, PlacedSlit

MOST_PLACES = 14
"""So many places are dimensioned in each direction; the sheet says when there are more."""
PLACED_BY_MIDDLE = ("slot", "hole", "row", "opening", "mark", "notch")
PLACED_BY_LINE = ("crease", "fold", "slit", "stitch")
LEAST_TURN = radians(5.0)
"""Edges that turn by less make no corner that anybody would mark."""


def place_spans(piece: PlacedPiece, figures: Figures, scale: float) -> list[Span]:
    """The places of all features, level and plumb."""
    bases = {along: Bases(piece, along, scale) for along in (LEVEL, PLUMB)}
    spans: list[Span] = []
    for feature in piece.features:
        if not feature.is_twin and not _follows_an_edge(feature, piece):
            for along, known in bases.items():
                for target in known.told_once(targets_of(feature, known.corner, along, scale)):
                    spans += known.span_to(target, feature.name, figures)
    for corner in straight_corners(piece):
        for known in bases.values():
            spans += known.span_to_corner(corner, figures)
    return merged(spans)


def _follows_an_edge(feature: PlacedFeature, piece: PlacedPiece) -> bool:
    """True for seams that the notes of the sheet place by how far they are from the edge, or by another piece."""
    return any(
        line.is_pricked or edge_gap(line, piece.outline) is not None or len(line.layout.holes) < 2
        for line in feature.stitches
    )


def straight_corners(piece: PlacedPiece) -> Iterator[PlacedCorner]:
    """Corners between two straight edges, each with its twin once: those that are drawn with a rule."""
    legs = piece.outline.legs
    for corner in piece.corners:
        first = corner.run.start if corner.run else corner.point
        last = corner.run.end if corner.run else corner.point
        sides = [leg for leg in legs if _begins_or_ends_at(leg, first, last)]
        edges = [leg for leg in sides if isinstance(leg, Line)]
        if corner.name == corner.name.rstrip("'") and len(edges) == 2 and _turn_between(*edges) > LEAST_TURN:
            yield corner


def _begins_or_ends_at(leg: Leg, first: Point, last: Point) -> bool:
    """True for the edges at a corner, which begin or end there but do not run from its one end to the other."""
    at = [any(end.distance_to(place) < SAME_PLACE for place in (first, last)) for end in (leg.start, leg.end)]
    return any(at) and not all(at)


def _turn_between(one: Line, other: Line) -> float:
    """The angle between two directions, in radians, whichever way they are walked."""
    return abs(asin(max(-1.0, min(1.0, one.direction.cross(other.direction)))))


class Bases:
    """What places along one direction are measured from: edges, or the mirror line."""

    def __init__(self, piece: PlacedPiece, along: Vector, scale: float) -> None:
        outline = piece.outline.scaled(scale, ORIGIN)
        self.along, self.scale = along, scale
        self.corner = Point(outline.bounds.min_x, outline.bounds.min_y)
        self.near, self.far = edge_end(outline, along, -1), edge_end(outline, along, 1)
        self.mirror = _mirror_end(piece, along, scale)

    def base_for(self, target: SpanEnd) -> SpanEnd:
        if self.mirror is not None:
            return self.mirror
        is_nearer = target.at - self.near.at <= self.far.at - target.at + SAME_PLACE
        return self.near if is_nearer else self.far

    def told_once(self, targets: list[SpanEnd]) -> Iterator[SpanEnd]:
        """Of two ends of a feature that are each other's mirror image the first alone."""
        known: list[float] = []
        for target in targets:
            off = abs(target.at - self.mirror.at) if self.mirror else None
            if off is None or not any(abs(off - one) < SAME_PLACE for one in known):
                yield target
            known += [] if off is None else [off]

    def span_to_corner(self, corner: PlacedCorner, figures: Figures) -> Iterator[Span]:
        """From its twin, or from the nearer edge; nothing where the overall sizes tell it, or where the sharp point
        lies beyond them."""
        target = point_end(corner.point.scaled(self.scale, ORIGIN), self.along)
        if not self.near.at + SAME_PLACE < target.at < self.far.at - SAME_PLACE:
            return
        if self.mirror is None:
            yield from self.span_to(target, corner.name, figures)
            return
        twin = replace(target, at=2 * self.mirror.at - target.at)
        if abs(twin.at - target.at) > SAME_PLACE:
            text = figures.length(abs(twin.at - target.at) / self.scale)
            yield make_span(corner.name, text, self.along, twin, target, Rank.PLACE)

    def span_to(self, target: SpanEnd, name: str, figures: Figures) -> Iterator[Span]:
        """The span, unless the place is where it would be measured from."""
        base = self.base_for(target)
        gap = abs(base.at - target.at)
        if gap > SAME_PLACE:
            text = figures.length(gap / self.scale)
            yield make_span(name, text, self.along, base, target, Rank.PLACE)


def _mirror_end(piece: PlacedPiece, along: Vector, scale: float) -> SpanEnd | None:
    """The mirror line as something to measure from, if it runs square to a direction."""
    if piece.mirror is None:
        return None
    first, second = (point.scaled(scale, ORIGIN) for point in piece.mirror)
    if abs((second - first).unit().dot(along)) > 1e-6:
        return None
    outline, across = piece.outline.scaled(scale, ORIGIN), along.turned_left()
    low, high = edge_end(outline, across, -1).at, edge_end(outline, across, 1).at
    return SpanEnd(place_along(first, along), low - MIRROR_OVERSHOOT, high + MIRROR_OVERSHOOT)


def targets_of(feature: PlacedFeature, corner: Point, along: Vector, scale: float) -> list[SpanEnd]:
    """The middle of a feature, a straight line that lies across the direction, or the ends of a slit."""
    if feature.kind in PLACED_BY_LINE and feature.paths:
        lines = (feature.work.whole,) if isinstance(feature.work, PlacedSlit) else feature.paths
        paths = [path.scaled(scale, ORIGIN) for path in lines]
        return [target for path in paths for target in _line_targets(feature.kind, path, along)]
    center = _middle_of(feature, corner)
    is_placed = feature.kind in PLACED_BY_MIDDLE or (feature.kind == "stitch" and feature.rings)
    if not is_placed or center is None or _runs_across(feature, along):
        return []
    views = (feature_view(feature, scale), mark_view(feature, scale), center_view(feature, scale, None))
    box = Bounds.joining(stroke.way.bounds for view in views for stroke in view.strokes)
    low, high = (box.min_y, box.max_y) if along == LEVEL else (-box.max_x, -box.min_x)
    return [SpanEnd(place_along(center.scaled(scale, ORIGIN), along), low, high)]


def _runs_across(feature: PlacedFeature, along: Vector) -> bool:
    """True for a notch on an edge that runs across the direction: its place along the edge is enough."""
    if feature.kind != "notch" or feature.direction is None:
        return False
    inward = Vector.at_angle(radians(feature.direction))
    return abs(inward.dot(along)) > abs(inward.dot(along.turned_left())) + 1e-9


def _middle_of(feature: PlacedFeature, corner: Point) -> Point | None:
    """The middle; of a row with an even count the hole nearest to the lower left, for in its middle is none."""
    if feature.kind == "row" and feature.holes and len(feature.holes) % 2 == 0:
        return min(
            (hole.center for hole in feature.holes), key=lambda point: round(point.distance_to(corner), 6)
        )
    if feature.center is not None:
        return feature.center
    if feature.holes:
        return feature.holes[len(feature.holes) // 2].center
    return feature.rings[0].bounds.center if feature.rings else None


def _line_targets(kind: str, path: Path, along: Vector) -> list[SpanEnd]:
    """One place for a straight line square to the direction; of any other slit both ends, and how far it reaches."""
    line = path.legs[0]
    if len(path.legs) == 1 and isinstance(line, Line) and abs(line.direction.dot(along)) < 1e-6:
        return [point_end(line.start, along).joined(point_end(line.end, along))]
    if kind != "slit":
        return []
    ends = [point_end(path.start, along), point_end(path.end, along)]
    return [*ends, edge_end(path, along, -1), edge_end(path, along, 1)]


def fewest(spans: list[Span]) -> list[Span]:
    """The first MOST_PLACES in each direction."""
    return [
        span
        for along in (LEVEL, PLUMB)
        for span in [one for one in spans if one.along == along][:MOST_PLACES]
    ]
