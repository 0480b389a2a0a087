"""The drawing board: what is already drawn, and a place for what comes next.

Whoever adds words asks first whether their place is free. Words keep CLEARANCE from everything; lines may cross lines,
never words; dimension lines keep LANE_REACH from one another.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np

from drafting.drawing.lines import CUT, DIMENSION, EXTENSION, HATCH, LEADER
from drafting.drawing.marks import Group, Lettering, Stroke
from drafting.drawing.obstacles import (
    Box,
    Obstacles,
    Trees,
    box_around,
    crossings,
    grown,
    line_strings,
    segments_of,
    touched,
)
from drafting.geometry.bounds import Bounds
from drafting.geometry.point import Point
from drafting.records import dataclass

CLEARANCE = 0.6
LANE_REACH = 2.9
ROOMS = ((170.0, 180.0), (380.0, 225.0), (554.0, 348.0))
"""Width and height of what is left of A4, A3 and A2 beside frame, title block and footer."""
EXTRA = 100.0
"""What it costs to need a larger sheet."""


class Board:
    """Strokes and words of one view, and the lanes its dimension lines take."""

    def __init__(self) -> None:
        self.bounds: Bounds | None = None
        self.drawn = Obstacles()
        self.hatching = Obstacles()
        """Hatched strips, which words keep off and lines may cross."""
        self.lanes = Obstacles()
        self.untouchable = Obstacles()
        """Leaders and dimension lines, which a leader must not cross if there is any other way."""
        self.cuts = Obstacles()
        """Edges of the leather: who crosses them leaves the piece, or enters it."""
        self.extensions = Obstacles()
        """Extension lines, which a leader crosses only for want of a better way."""

    def copy(self) -> Board:
        """Another board with the same on it, to try things on."""
        other = Board()
        other.bounds = self.bounds
        other.drawn, other.lanes = self.drawn.copy(), self.lanes.copy()
        other.hatching, other.cuts = self.hatching.copy(), self.cuts.copy()
        other.untouchable, other.extensions = self.untouchable.copy(), self.extensions.copy()
        return other

    def add(self, group: Group) -> None:
        """Takes up all marks of a group."""
        bounds = group.bounds
        if bounds is not None:
            self.bounds = bounds.joined(self.bounds) if self.bounds else bounds
        for stroke in group.strokes:
            self.drawn.add_way(stroke.way, stroke.half_width)
            if stroke.kind in (LEADER, DIMENSION) and not stroke.is_filled:
                self.untouchable.add_way(stroke.way, stroke.half_width)
            if stroke.kind is CUT:
                self.cuts.add_way(stroke.way, stroke.half_width)
            if stroke.kind is EXTENSION:
                self.extensions.add_way(stroke.way, stroke.half_width)
        for flecks in group.flecks:
            there = self.hatching if flecks.kind is HATCH else self.drawn
            for segment in flecks.segments:
                there.add_segment(segment, flecks.half_width)
        for lettering in group.letterings:
            if lettering.text:
                self.drawn.add_box(lettering.corners)

    def is_free_for(self, lettering: Lettering, clearance: float = CLEARANCE) -> bool:
        """True when words here touch nothing."""
        return self.is_clear(grown(lettering.corners, clearance))

    def is_clear(self, box: Box) -> bool:
        """True when nothing is drawn in a box."""
        return not (self.drawn.meets_box(box) or self.hatching.meets_box(box))

    def lines_clear_words(self, strokes: Iterable[Stroke]) -> bool:
        """True when no stroke touches words that are already here."""
        return not any(
            self.drawn.segment_meets_boxes(segment, stroke.half_width + CLEARANCE / 2)
            for stroke in strokes
            for segment in segments_of(stroke.way)
        )

    def crossings(self, strokes: Iterable[Stroke]) -> int:
        """How many lines the strokes would cross."""
        return _crossings(self.drawn, strokes)

    def leader_crossings(self, strokes: Iterable[Stroke]) -> int:
        """How many leaders and dimension lines the strokes would cross."""
        return _crossings(self.untouchable, strokes)

    def growth(self, bounds: Bounds) -> float:
        """What something would add to the width and to the height of the drawing, and more where it would no longer
        fit the sheet it had."""
        return float(self.growths(bounds.min_x, bounds.min_y, bounds.max_x, bounds.max_y))

    def growths(self, min_x: Any, min_y: Any, max_x: Any, max_y: Any) -> Any:
        """`growth` for many bounds at once, given and told as arrays."""
        if self.bounds is None:
            return np.zeros_like(min_x)
        here = self.bounds
        width = np.maximum(max_x, here.max_x) - np.minimum(min_x, here.min_x)
        height = np.maximum(max_y, here.max_y) - np.minimum(min_y, here.min_y)
        outgrown = _sheets_outgrown(width, height) - _sheets_outgrown(here.width, here.height)
        return width - here.width + height - here.height + EXTRA * outgrown

    @property
    def questions(self) -> Questions:
        """Many questions at once to what is here now."""
        kinds = (self.drawn, self.hatching, self.untouchable, self.extensions, self.cuts)
        return Questions(*(kind.trees for kind in kinds))

    def lane_is_free(self, start: Point, end: Point) -> bool:
        return not self.lanes.box_meets_boxes(_lane(start, end))

    def take_lane(self, start: Point, end: Point) -> None:
        self.lanes.add_box(_lane(start, end))


@dataclass(frozen=True)
class Questions:
    """Of many figures at once; the trees are those of a board."""

    drawn: Trees
    hatching: Trees
    untouchable: Trees
    extensions: Trees
    cuts: Trees

    def taken(self, boxes: Any) -> Any:
        """Which of many shapely boxes for words surely touch something."""
        lines, words = touched(self.drawn.lines, boxes), touched(self.drawn.words, boxes)
        return lines | words | touched(self.hatching.lines, boxes)

    def run_into_words(self, lines: Any) -> Any:
        """Which of many shapely lines surely touch words that are there."""
        return touched(self.drawn.words, lines)


def _sheets_outgrown(width: Any, height: Any) -> Any:
    return sum(((width > wide) | (height > high)) * 1.0 for wide, high in ROOMS)


def _crossings(there: Obstacles, strokes: Iterable[Stroke]) -> int:
    segments = [segment for stroke in strokes for segment in segments_of(stroke.way)]
    return int(crossings(there.trees.lines, line_strings(segments)).sum())


def _lane(start: Point, end: Point) -> tuple[Point, Point, Point, Point]:
    """The box a dimension line keeps for itself: wide to both sides, not past its ends."""
    along = (end - start).unit() * (LANE_REACH - 0.1)
    return box_around(start + along, end - along, LANE_REACH)
