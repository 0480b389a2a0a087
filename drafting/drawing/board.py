"""The drawing board: what is already drawn, and a place for what comes next.

Whoever adds words asks first whether their place is free. Words keep CLEARANCE from everything; lines may cross lines,
never words; dimension lines keep LANE_REACH from one another.
"""

from __future__ import annotations

from collections.abc import Iterable

from drafting.drawing.lines import DIMENSION, LEADER
from drafting.drawing.marks import Group, Lettering, Stroke
from drafting.drawing.obstacles import Obstacles, box_around, grown, segments_of
from drafting.geometry.bounds import Bounds
from drafting.geometry.point import Point

CLEARANCE = 0.6
LANE_REACH = 2.9
SMALL_ROOM = (170.0, 180.0)
"""Width and height of what is left of an A4 sheet beside frame, title block and footer."""
EXTRA = 100.0


class Board:
    """Strokes and words of one view, and the lanes its dimension lines take."""

    def __init__(self) -> None:
        self.bounds: Bounds | None = None
        self.drawn = Obstacles()
        self.lanes = Obstacles()
        self.untouchable = Obstacles()
        """Leaders and dimension lines, which a leader should not cross."""

    def add(self, group: Group) -> None:
        """Takes up all marks of a group."""
        bounds = group.bounds
        if bounds is not None:
            self.bounds = bounds.joined(self.bounds) if self.bounds else bounds
        for stroke in group.strokes:
            self.drawn.add_way(stroke.way, stroke.half_width)
            if stroke.kind in (LEADER, DIMENSION) and not stroke.is_filled:
                self.untouchable.add_way(stroke.way, stroke.half_width)
        for lettering in group.letterings:
            if lettering.text:
                self.drawn.add_box(lettering.corners)

    def is_free_for(self, lettering: Lettering, clearance: float = CLEARANCE) -> bool:
        """True when words here touch nothing."""
        return not self.drawn.meets_box(grown(lettering.corners, clearance))

    def lines_clear_words(self, strokes: Iterable[Stroke]) -> bool:
        """True when no stroke touches words that are already here."""
        return not any(
            self.drawn.segment_meets_boxes(segment, stroke.half_width + CLEARANCE / 2)
            for stroke in strokes
            for segment in segments_of(stroke.way)
        )

    def crossings(self, strokes: Iterable[Stroke]) -> int:
        """How many lines the strokes would cross."""
        return sum(self.drawn.crossings(segment) for stroke in strokes for segment in segments_of(stroke.way))

    def leader_crossings(self, strokes: Iterable[Stroke]) -> int:
        """How many leaders and dimension lines the strokes would cross."""
        return sum(
            self.untouchable.crossings(segment) for stroke in strokes for segment in segments_of(stroke.way)
        )

    def growth(self, bounds: Bounds) -> float:
        """What something would add to the width and to the height of the drawing, and more where it would no longer
        fit the smallest sheet."""
        if self.bounds is None:
            return 0.0
        grown = self.bounds.joined(bounds)
        added = grown.width - self.bounds.width + grown.height - self.bounds.height
        return added + sum(
            EXTRA
            for before, after, room in (
                (self.bounds.width, grown.width, SMALL_ROOM[0]),
                (self.bounds.height, grown.height, SMALL_ROOM[1]),
            )
            if before <= room < after
        )

    def lane_is_free(self, start: Point, end: Point) -> bool:
        return not self.lanes.box_meets_boxes(_lane(start, end))

    def take_lane(self, start: Point, end: Point) -> None:
        self.lanes.add_box(_lane(start, end))


def _lane(start: Point, end: Point) -> tuple[Point, Point, Point, Point]:
    """The box a dimension line keeps for itself: wide to both sides, not past its ends."""
    along = (end - start).unit() * (LANE_REACH - 0.1)
    return box_around(start + along, end - along, LANE_REACH)
