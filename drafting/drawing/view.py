"""One piece as it is drawn: its outline, its features and its mirror line, without words.

The view has the piece's own origin and is `scale` times its size, on paper x to the right and y up.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from math import pi

from drafting.drawing.arrows import cross
from drafting.drawing.center_marks import center_marks, mirror_line
from drafting.drawing.label_words import boxes_of_words
from drafting.drawing.lines import CUT, GUIDE, MARK, LineKind, kind_of_feature
from drafting.drawing.marks import ORIGIN, Group, Stroke
from drafting.drawing.work_view import hatch_view, hatchings_of, stitch_view
from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.solve.placed import Hole, PlacedFeature, PlacedPiece

MARK_REACH = 2.0
LEAST_GUIDE = 9.0
"""What is left of a guide, in mm on paper, shows no dashes if it is shorter, and looks like a line of another kind."""


def piece_view(piece: PlacedPiece, scale: float, with_guides: bool) -> Group:
    """The lines of a piece in groups: `outline`, one for each feature, and `symmetry`."""
    outline = Group(
        "outline", "outline", (scaled(CUT, piece.cutting, scale),), title=f"{piece.name}: outline"
    )
    groups = [outline, *(feature_view(feature, scale) for feature in piece.features)]
    groups += [stitch_view(feature, scale) for feature in piece.features if feature.stitches]
    hatchings = hatchings_of(piece)
    groups += [hatch_view(feature, scale, hatchings) for feature in piece.features]
    groups += [mark_view(feature, scale) for feature in piece.features if feature.kind == "mark"]
    groups += [center_view(feature, scale, piece.mirror) for feature in piece.features]
    if with_guides and piece.guides:
        groups.append(guides_view(piece, scale))
    if piece.mirror:
        bounds = piece.cutting.scaled(scale, ORIGIN).bounds
        strokes = tuple(mirror_line(piece.mirror, bounds, scale, boxes_of_words(piece, scale)))
        groups.append(Group("symmetry", "mirror", strokes, title="mirror line"))
    kept = tuple(group for group in groups if group.marks)
    return Group("piece", piece.name, kept, title=piece.name, note=piece.note)


def feature_view(feature: PlacedFeature, scale: float) -> Group:
    """All lines of a feature, in the order rings, paths, holes."""
    kind = kind_of_feature(feature.kind, feature.is_removed)
    strokes = [scaled(kind, way, scale) for way in ways_of(feature)]
    title = f"{feature.kind} {feature.name}"
    return Group("feature", feature.name, tuple(strokes), title=title, note=feature.note)


def mark_view(feature: PlacedFeature, scale: float) -> Group:
    """A small cross where a mark has no lines of its own; it is as large on every sheet."""
    if feature.rings or feature.paths or feature.holes or feature.stitches or feature.center is None:
        return Group("mark", feature.name)
    strokes = cross(MARK, feature.center.scaled(scale, ORIGIN), Vector(1.0, 0.0), MARK_REACH)
    return Group("mark", feature.name, strokes, title=f"mark {feature.name}", note=feature.note)


def center_view(feature: PlacedFeature, scale: float, mirror: tuple[Point, Point] | None) -> Group:
    """The center lines of a feature; they are no part of what is cut. One on the mirror line is left out: two lines of
    dashes over each other would read as one heavy line."""
    marks = center_marks(feature, scale)
    if mirror:
        axis = [point.scaled(scale, ORIGIN) for point in mirror]
        marks = [mark for mark in marks if not _lies_along(mark, axis[0], axis[1])]
    return Group("center", feature.name, tuple(marks))


def _lies_along(mark: Stroke, a: Point, b: Point) -> bool:
    along = (b - a).unit()
    return all(abs(along.cross(end - a)) < SAME_POINT for end in (mark.way.start, mark.way.end))


def guides_view(piece: PlacedPiece, scale: float) -> Group:
    """The guides; where another line lies on one only that is drawn, for dashes on dashes read as one heavy line."""
    lines: list[Path | Ring] = [piece.outline]
    for feature in piece.features:
        lines += [*feature.rings, *feature.paths]
    ways: list[Path | Ring] = []
    for guide in piece.guides.values():
        parts = uncovered(guide, [*lines, *ways])
        ways += [part for part in parts if part is guide or part.length * scale > LEAST_GUIDE]
    return Group("guides", "guides", tuple(scaled(GUIDE, way, scale) for way in ways), title="guides")


def uncovered(way: Path | Ring, lines: Sequence[Path | Ring]) -> list[Path | Ring]:
    """What is left of a way without what lies on one of the lines."""
    runs: list[list[Leg]] = []
    is_whole, goes_on = True, False
    for part in (part for leg in way.legs for part in _parts_between(leg, lines)):
        is_free = not any(_lies_on(part, line) for line in lines)
        if is_free and goes_on:
            runs[-1].append(part)
        elif is_free:
            runs.append([part])
        is_whole, goes_on = is_whole and is_free, is_free
    return [way] if is_whole else [Path(tuple(run)) for run in runs]


def _parts_between(leg: Leg, lines: Sequence[Path | Ring]) -> list[Leg]:
    """A leg cut where others begin or end on it."""
    ends = [end for line in lines for other in line.legs for end in (other.start, other.end)]
    cuts = sorted(leg.nearest(end) for end in ends if leg.distance_to_point(end) < SAME_POINT)
    places = [0.0, *(cut for cut in cuts if SAME_POINT < cut < leg.length - SAME_POINT), leg.length]
    return [leg.part(low, high) for low, high in pairwise(places) if high - low > SAME_POINT]


def _lies_on(leg: Leg, line: Path | Ring) -> bool:
    places = (leg.start, leg.point_at(leg.length / 2), leg.end)
    return all(line.distance_to_point(place) < SAME_POINT for place in places)


def scaled(kind: LineKind, way: Path | Ring, scale: float) -> Stroke:
    return Stroke(kind, way if scale == 1 else way.scaled(scale, ORIGIN))


def ways_of(feature: PlacedFeature) -> list[Path | Ring]:
    """All lines of a feature in the order they are drawn."""
    return [*feature.rings, *feature.paths, *(hole_ring(hole) for hole in feature.holes)]


def hole_ring(hole: Hole) -> Ring:
    """The circle of a round hole."""
    half = Arc(hole.center, hole.across / 2, 0.0, pi)
    return Ring((half, replace(half, start_angle=pi)))
