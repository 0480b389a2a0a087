"""Marks: slanted ones lean the right way on the face and on what meets it."""

from __future__ import annotations

from math import pi, radians

import pytest

from drafting.craft.faults import NotPositive
from drafting.craft.marks import USUAL_LEAN, LeanOutOfRange, Round, Slanted, round_marks, slanted_marks
from drafting.craft.spacing import Every
from drafting.craft.stitches import Request, lay_out
from drafting.geometry.line import Line
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from tests.craft.samples import hook

LAYOUT = lay_out(hook(), Request(Every(4)))
FOLD = (Point(0, -9), Point(7, -8))


def is_one_line(first: Line, second: Line) -> bool:
    """The same mark, whichever end is named first."""
    ends = (second.start, second.end)
    return any(
        first.start.distance_to(a) < 1e-9 and first.end.distance_to(b) < 1e-9 for a, b in (ends, ends[::-1])
    )


def test_marks_stand_in_their_holes_and_lean_off_the_line() -> None:
    for hole, mark in zip(LAYOUT.holes, slanted_marks(LAYOUT, Slanted(2)), strict=True):
        assert mark.start.midway(mark.end).distance_to(hole.point) < 1e-9
        assert mark.length == pytest.approx(2)
        assert hole.direction.angle_to(mark.direction) == pytest.approx(USUAL_LEAN)


def test_marks_lean_the_same_way_whichever_way_the_line_is_walked() -> None:
    backward = lay_out(LAYOUT.line.reversed(), Request(Every(4)))
    there, back = slanted_marks(LAYOUT, Slanted(2)), slanted_marks(backward, Slanted(2))
    assert all(is_one_line(a, b) for a, b in zip(there, back[::-1], strict=True))


def test_marks_of_a_twin_that_is_folded_over_lie_on_those_of_the_face() -> None:
    twin = LAYOUT.mirrored(*FOLD)
    face, over = slanted_marks(LAYOUT, Slanted(2)), slanted_marks(twin, Slanted(2), meets_face=True)
    assert all(is_one_line(a, b.mirrored(*FOLD)) for a, b in zip(face, over, strict=True))


def test_marks_pricked_on_the_twins_own_face_lean_as_the_iron_does() -> None:
    """So they cross those of the other face when folded over."""
    twin = LAYOUT.mirrored(*FOLD)
    for hole, mark in zip(twin.holes, slanted_marks(twin, Slanted(2)), strict=True):
        assert hole.direction.angle_to(mark.direction) == pytest.approx(USUAL_LEAN)
    face, own = slanted_marks(LAYOUT, Slanted(2)), slanted_marks(twin, Slanted(2))
    assert not any(is_one_line(a, b.mirrored(*FOLD)) for a, b in zip(face, own, strict=True))


def test_upright_and_level_marks_are_their_own_mirror() -> None:
    twin = LAYOUT.mirrored(*FOLD)
    for lean in (0.0, pi / 2):
        own, over = (
            slanted_marks(twin, Slanted(2, lean)),
            slanted_marks(twin, Slanted(2, lean), meets_face=True),
        )
        assert all(is_one_line(a, b) for a, b in zip(own, over, strict=True))


def test_round_marks_are_holes() -> None:
    assert [hole.across for hole in round_marks(LAYOUT, Round(0.8))] == [0.8] * len(LAYOUT.holes)


def test_marks_have_a_size_and_a_lean() -> None:
    with pytest.raises(NotPositive):
        Round(0)
    with pytest.raises(NotPositive):
        Slanted(-1)
    for lean in (-0.1, pi, radians(200)):
        with pytest.raises(LeanOutOfRange):
            Slanted(2, lean)


def test_a_level_line_is_marked_as_a_stroke() -> None:
    """Like a slash: its upper end lies to the right."""
    layout = lay_out(Path((Line(Point(0, 0), Point(40, 0)),)), Request(Every(4)))
    mark = slanted_marks(layout, Slanted(2))[0]
    upper = max((mark.start, mark.end), key=lambda point: point.y)
    assert upper.x > 0
