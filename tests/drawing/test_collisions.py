"""The overlap test finds what overlaps, and only that."""

from __future__ import annotations

import pytest

from drafting.drawing import Collision, Drawing, collisions
from drafting.drawing.lines import CUT
from drafting.drawing.marks import Group, Lettering, Stroke
from drafting.geometry.curves import circle
from drafting.geometry.line import Line
from drafting.geometry.path import Path
from drafting.geometry.point import Point


def sheet(*marks: Stroke | Lettering) -> Drawing:
    return Drawing("test", "", 200, 100, "own", 1.0, (Group("test", "test", marks),))


def line(x0: float, y0: float, x1: float, y1: float) -> Stroke:
    return Stroke(CUT, Path((Line(Point(x0, y0), Point(x1, y1)),)))


WORDS = Lettering("HHHH", Point(50, 50), 5.0)


@pytest.mark.parametrize(
    "stroke",
    [line(50, 40, 50, 70), line(0, 52, 200, 52), line(49, 51, 51, 53), line(0, 0, 100, 100), line(0, 55.6, 200, 55.6)],
)  # fmt: skip
def test_a_line_through_words_is_found(stroke: Stroke) -> None:
    assert collisions(sheet(WORDS, stroke)) == [Collision("HHHH", "cut")]


@pytest.mark.parametrize(
    "stroke", [line(0, 49.4, 200, 49.4), line(0, 56, 200, 56), line(20, 20, 20, 80), line(0, 20, 80, 100)]
)
def test_a_line_beside_words_is_not(stroke: Stroke) -> None:
    assert collisions(sheet(WORDS, stroke)) == []


def test_words_on_words_are_found() -> None:
    assert collisions(sheet(WORDS, Lettering("OO", Point(55, 53), 5.0))) == [Collision("HHHH", "OO")]
    assert collisions(sheet(WORDS, Lettering("OO", Point(55, 60), 5.0))) == []


def test_slanted_words_take_slanted_room() -> None:
    """A line along slanted words stays clear of them, one through their level box's corner too."""
    slanted = Lettering("HHHHHHHH", Point(50, 50), 3.0, angle=45.0)
    assert collisions(sheet(slanted, line(35, 60, 45, 70))) == []
    assert collisions(sheet(slanted, line(40, 60, 60, 40))) == [Collision("HHHHHHHH", "cut")]


def test_words_inside_a_circle_are_free_and_on_its_line_are_not() -> None:
    assert collisions(sheet(WORDS, Stroke(CUT, circle(Point(50, 52), 20)))) == []
    assert collisions(sheet(WORDS, Stroke(CUT, circle(Point(50, 32), 20)))) == [Collision("HHHH", "cut")]


def test_words_past_the_edge_are_found() -> None:
    assert collisions(sheet(Lettering("HHHH", Point(199, 50), 5.0))) == [
        Collision("HHHH", "the edge of the sheet")
    ]
