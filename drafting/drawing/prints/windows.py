"""What a tile shows of a piece: the marks that its window does not hide.

A large piece has some thousand marks and some dozen tiles. The box around each mark, and around all marks of a group,
is found once; a tile then passes over a group that lies beside it, and takes one that lies within it as it is.
"""

from __future__ import annotations

from drafting.drawing.marks import Dots, Group, Lettering, Mark, Stroke, Ticks
from drafting.geometry.bounds import Bounds
from drafting.records import dataclass, replace


@dataclass(frozen=True)
class Boxed:
    """A mark with the box around it, and of a group all that it holds."""

    mark: Mark
    box: Bounds
    parts: tuple[Boxed, ...] = ()

    def within(self, window: Bounds) -> Mark | None:
        """The mark less what the window hides all of; nothing where that is all of it."""
        if not window.overlaps(self.box):
            return None
        if _is_whole(self.box, window):
            return self.mark
        match self.mark:
            case Group():
                return self.group_within(self.mark, window)
            case Dots():
                return _dots_within(self.mark, window)
            case Ticks():
                return _ticks_within(self.mark, window)
        return self.mark

    def group_within(self, group: Group, window: Bounds) -> Group | None:
        kept = tuple(mark for part in self.parts if (mark := part.within(window)) is not None)
        return replace(group, marks=kept) if kept else None


def boxed(mark: Mark) -> Boxed | None:
    """Nothing for what shows nothing."""
    if isinstance(mark, Group):
        parts = tuple(part for inner in mark.marks if (part := boxed(inner)) is not None)
        return Boxed(mark, Bounds.joining(part.box for part in parts), parts) if parts else None
    if isinstance(mark, Stroke):
        return Boxed(mark, mark.way.bounds)
    shows = (
        mark.text if isinstance(mark, Lettering) else mark.points if isinstance(mark, Dots) else mark.lines
    )
    return Boxed(mark, mark.bounds) if shows else None


def _is_whole(box: Bounds, window: Bounds) -> bool:
    return (
        window.min_x <= box.min_x
        and box.max_x <= window.max_x
        and window.min_y <= box.min_y
        and box.max_y <= window.max_y
    )


def _dots_within(dots: Dots, window: Bounds) -> Dots | None:
    """Of a seam only the holes that are seen."""
    seen = window.grown(dots.half_width)
    left, low, right, high = seen.min_x, seen.min_y, seen.max_x, seen.max_y
    points = tuple(point for point in dots.points if left <= point.x <= right and low <= point.y <= high)
    return replace(dots, points=points) if points else None


def _ticks_within(ticks: Ticks, window: Bounds) -> Ticks | None:
    seen = window.grown(ticks.half_width)
    lines = tuple(line for line in ticks.lines if seen.overlaps(Bounds.around(line)))
    return replace(ticks, lines=lines) if lines else None
