"""What a tile shows of a piece."""

from __future__ import annotations

import pytest

from drafting.drawing.lines import CUT, HATCH, PRICK
from drafting.drawing.marks import Dots, Group, Lettering, Mark, Stroke, Ticks
from drafting.drawing.prints.windows import boxed
from drafting.geometry.bounds import Bounds
from drafting.geometry.curves import circle
from drafting.geometry.point import Point

RING = Stroke(CUT, circle(Point(10, 10), 5))
DOTS = Dots(PRICK, tuple(Point(x, 20) for x in range(0, 100, 10)), 2.0)
TICKS = Ticks(HATCH, tuple((Point(x, 30), Point(x + 4, 34)) for x in range(0, 100, 10)))
WORDS = Lettering("grain", Point(50, 50), 5.0)
NOTHING = Group(
    "cell", "nothing", (Lettering("", Point(10, 10), 5.0), Dots(PRICK, (), 2.0), Ticks(HATCH, ()))
)
ALL = Group("cell", "all", (RING, Group("seams", "seams", (DOTS, TICKS)), WORDS, NOTHING))


def seen(mark: Mark, *window: float) -> Mark | None:
    held = boxed(mark)
    return held.within(Bounds(*window)) if held else None


def test_what_lies_within_is_shown_as_it_is() -> None:
    assert seen(ALL, -10, -10, 110, 80) is ALL
    assert seen(ALL, 0, 0, 16, 16) == Group("cell", "all", (RING,))


def test_of_seams_only_the_holes_and_strokes_that_are_seen() -> None:
    shown = seen(ALL, 30.5, 15, 60.5, 33)
    assert isinstance(shown, Group)
    holes, strokes = (mark for group in shown.walk() for mark in group.marks if not isinstance(mark, Group))
    # The hole at 30 reaches 1 mm to the right, and so does the stroke from 30 to 34.
    assert isinstance(holes, Dots) and [point.x for point in holes.points] == [30, 40, 50, 60]
    assert isinstance(strokes, Ticks) and [start.x for start, _ in strokes.lines] == [30, 40, 50, 60]


@pytest.mark.parametrize("window", [(200, 200, 300, 300), (30, 5, 60, 8), (2, 19.5, 8, 20.5)])
def test_what_lies_beside_is_left_out(window: tuple[float, float, float, float]) -> None:
    assert seen(ALL, *window) is None


def test_what_shows_nothing_needs_no_paper() -> None:
    assert boxed(NOTHING) is None
