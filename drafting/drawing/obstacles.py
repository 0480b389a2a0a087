"""What is already on the sheet, and whether something new would touch it.

Strokes are kept as short straight pieces, words as their slanted boxes, both in a grid of cells so that a question
looks only at the neighbourhood. Where thousands of places are asked for at once, shapely sorts out most of those that
are taken. Bows become chords that stay within CHORD_ERROR, for touching only: nothing is drawn from here.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import acos, ceil, floor, hypot
from typing import Any

import numpy as np
import shapely

from drafting.drawing.marks import Segment
from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass

CHORD_ERROR = 0.03
CELL = 8.0
MOST_CELLS = 500
"""What passes more of them, such as 4 m of strap, is kept apart and asked every time."""
SURE = 1e-9
"""mm: nearer to a line it is left to the last digits on which side of it a place lies."""

Box = tuple[Point, Point, Point, Point]
"""Four corners of a rectangle, anticlockwise."""
Cell = tuple[int, int]


def segments_of(way: Path | Ring) -> Iterator[Segment]:
    """A path in straight pieces."""
    for leg in way.legs:
        points = chords(leg)
        yield from ((a.x, a.y, b.x, b.y) for a, b in pairwise(points))


def chords(leg: Leg) -> list[Point]:
    """Points along a leg, near enough for its chords to stay within CHORD_ERROR."""
    if not isinstance(leg, Arc):
        return [leg.start, leg.end]
    widest = 2 * acos(max(1 - CHORD_ERROR / leg.radius, 0.7))
    count = min(max(2, ceil(abs(leg.sweep) / widest)), 720)
    return [leg.point_at(leg.length * step / count) for step in range(count + 1)]


def box_around(start: Point, end: Point, reach: float) -> Box:
    """The box that reaches so far to both sides of a line, and past its ends."""
    along = (end - start).unit() * reach
    side = along.turned_left()
    return (start - along - side, end + along - side, end + along + side, start - along + side)


def grown(box: Box, distance: float) -> Box:
    """A box with its sides moved out."""
    if distance == 0:
        return box
    first, second, third, fourth = box
    along, up = _unit(first, second) * distance, _unit(second, third) * distance
    return (first - along - up, second + along - up, third + along + up, fourth - along + up)


def _unit(start: Point, end: Point) -> Vector:
    move = end - start
    return move / move.length if move.length else Vector(0.0, 0.0)


def boxes_touch(one: Box, other: Box) -> bool:
    """True when two slanted boxes share a place: no side of either parts them."""
    return not (_parts(one, other) or _parts(other, one))


def _parts(one: Box, other: Box) -> bool:
    for start, end in ((one[0], one[1]), (one[1], one[2])):
        x, y = end.x - start.x, end.y - start.y
        mine = [point.x * x + point.y * y for point in one]
        theirs = [point.x * x + point.y * y for point in other]
        if max(mine) <= min(theirs) or max(theirs) <= min(mine):
            return True
    return False


def box_meets_segment(box: Box, segment: Segment, reach: float = 0.0) -> bool:
    """True when a straight piece, `reach` thick to each side, touches a box."""
    x0, y0, x1, y1 = segment
    corner = box[0]
    for end in (box[1], box[3]):
        ux, uy = end.x - corner.x, end.y - corner.y
        length = hypot(ux, uy)
        if length == 0:
            return False
        a = ((x0 - corner.x) * ux + (y0 - corner.y) * uy) / length
        b = ((x1 - corner.x) * ux + (y1 - corner.y) * uy) / length
        if max(a, b) <= -reach or min(a, b) >= length + reach:
            return False
    dx, dy = x1 - x0, y1 - y0
    sides = [(point.x - x0) * dy - (point.y - y0) * dx for point in box]
    thick = reach * hypot(dx, dy)
    return min(sides) < thick and max(sides) > -thick


class Obstacles:
    """Strokes and boxes by the cells of the grid they lie in."""

    def __init__(self) -> None:
        self._segments: dict[Cell, list[tuple[Segment, float]]] = defaultdict(list)
        self._boxes: dict[Cell, list[Box]] = defaultdict(list)
        self._long: list[tuple[Segment, float]] = []
        self._large: list[Box] = []
        """Segments and boxes in more than MOST_CELLS."""
        self._lines: list[Segment] = []
        self._corners: list[Box] = []
        self._trees: Trees | None = None

    def copy(self) -> Obstacles:
        other = Obstacles()
        for cell, segments in self._segments.items():
            other._segments[cell] = segments.copy()
        for cell, boxes in self._boxes.items():
            other._boxes[cell] = boxes.copy()
        other._long, other._large = self._long.copy(), self._large.copy()
        other._lines, other._corners = self._lines.copy(), self._corners.copy()
        other._trees = self._trees
        return other

    def add_way(self, way: Path | Ring, half_width: float) -> None:
        for segment in segments_of(way):
            self.add_segment(segment, half_width)

    def add_segment(self, segment: Segment, half_width: float) -> None:
        cells = _cells_along(segment)
        if cells is None:
            self._long.append((segment, half_width))
        for cell in cells or ():
            self._segments[cell].append((segment, half_width))
        self._lines.append(segment)
        self._trees = None

    def add_box(self, box: Box) -> None:
        cells = _cells_of(box)
        if cells is None:
            self._large.append(box)
        for cell in cells or ():
            self._boxes[cell].append(box)
        self._corners.append(box)
        self._trees = None

    def meets_box(self, box: Box) -> bool:
        """True when something here touches the box."""
        return self.box_meets_boxes(box) or self.box_meets_strokes(box)

    def box_meets_boxes(self, box: Box) -> bool:
        return any(boxes_touch(box, other) for other in self._boxes_in(_cells_of(box)))

    def box_meets_strokes(self, box: Box) -> bool:
        return any(
            box_meets_segment(box, segment, half) for segment, half in self._segments_in(_cells_of(box))
        )

    def segment_meets_boxes(self, segment: Segment, half_width: float) -> bool:
        """True when a straight stroke touches some words."""
        return any(
            box_meets_segment(box, segment, half_width) for box in self._boxes_in(_cells_along(segment))
        )

    def _segments_in(self, cells: Iterable[Cell] | None) -> Iterator[tuple[Segment, float]]:
        """Those that may pass some cells; all of them where the cells are too many to be told."""
        yield from self._long
        for found in self._segments.values() if cells is None else map(self._segments.get, cells):
            yield from found or ()

    def _boxes_in(self, cells: Iterable[Cell] | None) -> Iterator[Box]:
        yield from self._large
        for found in self._boxes.values() if cells is None else map(self._boxes.get, cells):
            yield from found or ()

    @property
    def trees(self) -> Trees:
        """All of it, for many questions at once."""
        if self._trees is None:
            self._trees = Trees.of(list(dict.fromkeys(self._lines)), self._corners)
        return self._trees


@dataclass(frozen=True)
class Trees:
    """The middles of strokes, and boxes of words."""

    lines: shapely.STRtree
    words: shapely.STRtree

    @classmethod
    def of(cls, lines: Sequence[Segment], boxes: Sequence[Box]) -> Trees:
        corners = [[(corner.x, corner.y) for corner in box] for box in boxes]
        polygons = shapely.polygons(np.array(corners, dtype=float).reshape(-1, 4, 2))
        return cls(shapely.STRtree(line_strings(lines)), shapely.STRtree(polygons))


def touched(tree: shapely.STRtree, figures: Any) -> Any:
    """Which of many shapely figures touch something in the tree, as an array of truths."""
    found = np.zeros(len(figures), dtype=bool)
    if len(tree) and len(figures):
        found[tree.query(figures, predicate="intersects")[0]] = True
    return found


def line_strings(segments: Sequence[Segment]) -> Any:
    """Straight pieces as shapely lines."""
    return shapely.linestrings(np.array(segments, dtype=float).reshape(-1, 2, 2))


def crossings(tree: shapely.STRtree, lines: Any) -> Any:
    """How many straight pieces in the tree each of many shapely lines crosses at inner points."""
    if not (len(tree) and len(lines)):
        return np.zeros(len(lines), dtype=int)
    asked, found = tree.query(lines)
    crossed = _cross(lines[asked], tree.geometries[found])
    return np.bincount(asked[crossed], minlength=len(lines))


def _cross(lines: Any, others: Any) -> Any:
    """Which of some pairs of straight pieces cross: each has the ends of the other on its two sides. Where the last
    digits decide, shapely does."""
    one, other = (shapely.get_coordinates(pieces).reshape(-1, 2, 2) for pieces in (lines, others))
    starts, ends = _sides(other, one)
    others_starts, others_ends = _sides(one, other)
    found = (starts * ends < 0) & (others_starts * others_ends < 0)
    unsure = np.flatnonzero((starts * ends == 0) | (others_starts * others_ends == 0))
    # What lies to one side for sure does not cross, however unsure the rest is.
    unsure = unsure[~((starts * ends > 0) | (others_starts * others_ends > 0))[unsure]]
    found[unsure] = shapely.crosses(lines[unsure], others[unsure])
    return found


def _sides(pieces: Any, ends: Any) -> Any:
    """On which side of each piece both ends of another lie, 1 or -1; 0 where that is less than sure."""
    start, along = pieces[:, 0], pieces[:, 1] - pieces[:, 0]
    least, signs = SURE * np.hypot(along[:, 0], along[:, 1]), []
    for away in (ends[:, 0] - start, ends[:, 1] - start):
        off = along[:, 0] * away[:, 1] - along[:, 1] * away[:, 0]
        signs.append(np.sign(off) * (np.abs(off) > least))
    return signs


def closeness(tree: shapely.STRtree, lines: Any, near: float) -> Any:
    """How many straight pieces in the tree each of many shapely lines comes near to."""
    if not (len(tree) and len(lines)):
        return np.zeros(len(lines), dtype=int)
    found = tree.query(lines, predicate="dwithin", distance=near)[0]
    return np.bincount(found, minlength=len(lines))


def _cells_of(box: Sequence[Point]) -> list[Cell] | None:
    """The cells that a box may lie in; nothing for more than MOST_CELLS."""
    xs, ys = [point.x for point in box], [point.y for point in box]
    columns = range(floor(min(xs) / CELL), floor(max(xs) / CELL) + 1)
    rows = range(floor(min(ys) / CELL), floor(max(ys) / CELL) + 1)
    if len(columns) * len(rows) > MOST_CELLS:
        return None
    return [(column, row) for column in columns for row in rows]


def _cells_along(segment: Segment) -> Iterable[Cell] | None:
    """The cells a straight piece passes, its neighbours for its width among them; nothing for more than MOST_CELLS."""
    x0, y0, x1, y1 = segment
    count = ceil(max(abs(x1 - x0), abs(y1 - y0)) / CELL)
    if count <= 1:
        return _cells_near(x0, y0, x1, y1)
    if count > MOST_CELLS:
        return None
    cells: dict[Cell, None] = {}
    for step in range(count):
        ax, ay = x0 + (x1 - x0) * step / count, y0 + (y1 - y0) * step / count
        bx, by = x0 + (x1 - x0) * (step + 1) / count, y0 + (y1 - y0) * (step + 1) / count
        cells.update(dict.fromkeys(_cells_near(ax, ay, bx, by)))
    return cells


def _cells_near(x0: float, y0: float, x1: float, y1: float) -> list[Cell]:
    left, right = (x0, x1) if x0 < x1 else (x1, x0)
    low, high = (y0, y1) if y0 < y1 else (y1, y0)
    rows = range(floor((low - 1) / CELL), floor((high + 1) / CELL) + 1)
    return [
        (column, row)
        for column in range(floor((left - 1) / CELL), floor((right + 1) / CELL) + 1)
        for row in rows
    ]
