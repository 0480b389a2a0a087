"""A true print passes, and whatever is changed in it is found."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

import drafting
from drafting.drawing.arrows import straight
from drafting.drawing.lines import CUT
from drafting.drawing.marks import Dots, Drawing, Group, Ticks
from drafting.drawing.prints import PrintFacts, PrintSheet, Shown, paper_called, print_sheets
from drafting.geometry.point import Point, Vector
from drafting.output.pdf import to_pdf
from drafting.proof.pdf import check_pdf
from drafting.proof.times import check_times
from drafting.solve.placed import Placed
from drafting.text.source import Source
from tests.drawing.samples import SAMPLES
from tests.output.conftest import Fonts


def sheets_of(drafted: Placed, paper: str = "a4") -> list[PrintSheet]:
    return print_sheets(drafted, paper_called(paper), list(drafted.pieces), PrintFacts("0123abcd"))


@pytest.mark.parametrize("paper", ["a4", "letter", "140x150"])
@pytest.mark.parametrize("name", SAMPLES)
def test_prints_are_true(name: str, paper: str, machine_has: Fonts) -> None:
    machine_has("表紙革植物タンニンなめし夏のケース")
    drafted = SAMPLES[name]()
    sheets = sheets_of(drafted, paper)
    assert check_pdf(to_pdf([sheet.drawing for sheet in sheets]), drafted, sheets) == []


@pytest.mark.parametrize("correction", [0.97, 0.992, 1.013])
def test_corrected_prints_are_true_by_their_own_scale(correction: float) -> None:
    drafted = SAMPLES["deck_belt"]()
    sheets = sheets_of(drafted)
    data = to_pdf([sheet.drawing for sheet in sheets], correction)
    assert check_pdf(data, drafted, sheets, correction) == []
    assert check_pdf(data, drafted, sheets) != []


def each_group(change: Callable[[Group], Group | None]) -> Callable[[Drawing], Drawing]:
    """Changes groups of a drawing, at any depth."""

    def changed(group: Group) -> Group | None:
        new = change(group)
        if new is None or new is not group:
            return new
        marks = (changed(mark) if isinstance(mark, Group) else mark for mark in group.marks)
        return replace(group, marks=tuple(mark for mark in marks if mark is not None))

    return lambda drawing: replace(
        drawing, groups=tuple(new for group in drawing.groups for new in [changed(group)] if new is not None)
    )


def of_kind(kind: str, change: Callable[[Group], Group | None]) -> Callable[[Drawing], Drawing]:
    return each_group(lambda group: change(group) if group.kind == kind else group)


def with_cut(drawing: Drawing) -> Drawing:
    stray = Group("stray", "stray", (straight(CUT, Point(50, 50), Point(60, 50)),))
    return replace(drawing, groups=(*drawing.groups, stray))


WRONGS: dict[str, tuple[Callable[[Drawing], Drawing], str]] = {
    "a feature left out": (of_kind("feature", lambda group: None), "missing"),
    "an outline moved by 0.02 mm": (
        of_kind("outline", lambda group: group.moved(Vector(0.02, 0))),
        "missing",
    ),
    "a second outline": (
        of_kind("outline", lambda group: replace(group, marks=(*group.marks, *group.marks))),
        "a cut line",
    ),
    "a stray cut": (with_cut, "a cut line"),
    "no scale": (of_kind("rule", lambda group: None), "its level scale"),
    "a scale without its ticks": (
        of_kind("rule", lambda group: replace(group, marks=group.marks[:1])),
        "scale in dots",
    ),
    "another paper": (lambda drawing: replace(drawing, width=drawing.width + 1), "its width"),
    "words off the paper": (
        of_kind("sheet-words", lambda group: group.moved(Vector(-30, 0))),
        "what lies on it",
    ),
}


@pytest.mark.parametrize("wrong", WRONGS)
def test_what_is_wrong_is_found(wrong: str) -> None:
    change, told = WRONGS[wrong]
    drafted = SAMPLES["badge_holder"]()
    sheets = sheets_of(drafted)
    found = check_pdf(to_pdf([change(sheet.drawing) for sheet in sheets]), drafted, sheets)
    assert any(told in str(one) for one in found), [str(one) for one in found]


def test_a_tile_that_shows_too_little_is_found() -> None:
    drafted = SAMPLES["deck_belt"]()
    sheets = sheets_of(drafted)
    narrow = each_group(
        lambda group: replace(group, window=group.window.grown(-3)) if group.window else group
    )
    found = check_pdf(to_pdf([narrow(sheet.drawing) for sheet in sheets]), drafted, sheets)
    assert any("what its tile shows" in str(one) for one in found)


def test_no_pdf_and_lost_sheets() -> None:
    drafted = SAMPLES["badge_holder"]()
    sheets = sheets_of(drafted)
    assert [one.what for one in check_pdf(b"no file", drafted, sheets)] == ["its form"]
    twice = to_pdf([sheets[0].drawing, sheets[0].drawing])
    assert [one.what for one in check_pdf(twice, drafted, sheets)] == ["the count of its sheets"]


SEWN = """\
pattern "Ferry ditty bag"
stock body: leather
piece base: cut 1 from body
  point hub: at (0, 0)
  outline: 90 mm across; at hub
  stitch ring: 4 mm inside outline; every 3.85 mm; start at outline.top; marks round 1.2 mm
  mark middle: at hub
piece wall: cut 2 from body
  point low: at (0, 0)
  point right: at (520 mm, 0)
  point high: at (520 mm, 80 mm)
  point left: at (0, 80 mm)
  point west: at (30 mm, 30 mm)
  point east: at (490 mm, 30 mm)
  outline: low to right to high to left
  stitch seam: west to east; every 4 mm; 2 back; marks slanted 2 mm
"""


@cache
def sewn() -> Placed:
    return drafting.read(Source("ditty-bag.draft", SEWN)).place().placed


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("correction", [1.0, 0.992])
def test_seams_are_proved_whole_and_in_tiles(paper: str, correction: float) -> None:
    sheets = sheets_of(sewn(), paper)
    data = to_pdf([sheet.drawing for sheet in sheets], correction)
    assert check_pdf(data, sewn(), sheets, correction, {"base": 1, "wall": 1}) == []


def moved_one(mark: Dots) -> Dots:
    first, *rest = mark.points
    return replace(mark, points=(first + Vector(0.02, 0), *rest))


def turned_one(mark: Ticks) -> Ticks:
    (start, end), *rest = mark.lines
    low, high = Point(start.x, end.y), Point(end.x, start.y)
    return replace(mark, lines=((low, high), *rest))


STITCH_WRONGS: dict[str, tuple[Callable[[Dots], Dots], Callable[[Ticks], Ticks], str]] = {
    "a hole left out": (lambda mark: replace(mark, points=mark.points[1:]), lambda mark: mark, "base.ring"),
    "a hole moved by 0.02 mm": (moved_one, lambda mark: mark, "base.ring"),
    "a hole of another size": (lambda mark: replace(mark, across=1.22), lambda mark: mark, "base.ring"),
    "a mark left out": (lambda mark: mark, lambda mark: replace(mark, lines=mark.lines[1:]), "wall.seam"),
    "a mark that leans the other way": (lambda mark: mark, turned_one, "wall.seam"),
    "a mark too many": (
        lambda mark: mark,
        lambda mark: replace(mark, lines=(*mark.lines, (Point(60, 60), Point(61, 61)))),
        "a cut line",
    ),
}


@pytest.mark.parametrize("wrong", STITCH_WRONGS)
def test_a_wrong_stitch_is_found(wrong: str) -> None:
    on_dots, on_ticks, told = STITCH_WRONGS[wrong]

    def changed(group: Group) -> Group:
        marks = [
            on_dots(mark) if isinstance(mark, Dots) else on_ticks(mark) if isinstance(mark, Ticks) else mark
            for mark in group.marks
        ]
        return replace(group, marks=tuple(marks))

    def is_told(group: Group) -> bool:
        return group.name == ("ring" if told == "base.ring" else "seam")

    change = of_kind("stitches", lambda group: changed(group) if is_told(group) else group)
    sheets = sheets_of(sewn(), "600x300")
    found = check_pdf(to_pdf([change(sheet.drawing) for sheet in sheets]), sewn(), sheets)
    assert any(told in str(one) for one in found), [str(one) for one in found]


def test_a_mark_without_its_cross_is_found() -> None:
    sheets = sheets_of(sewn())
    half = of_kind("mark", lambda group: replace(group, marks=group.marks[:1]))
    found = check_pdf(to_pdf([half(sheet.drawing) for sheet in sheets]), sewn(), sheets)
    assert [one.what for one in found] == ["a mark"]


def test_each_piece_is_there_as_often_as_it_must_be() -> None:
    drafted = sewn()
    sheets = print_sheets(drafted, paper_called("a4"), ["base"], PrintFacts("0123abcd"), {"base": 3})
    data = to_pdf([sheet.drawing for sheet in sheets])
    assert check_pdf(data, drafted, sheets, 1.0, {"base": 3}) == []
    assert [str(one) for one in check_pdf(data, drafted, sheets, 1.0, {"base": 2, "wall": 1})] == [
        "base: how often it is there is 2 as drafted and 3 in the file",
        "wall: how often it is there is 1 as drafted and 0 in the file",
    ]


def test_tiles_that_leave_a_strip_out_are_found() -> None:
    drafted = sewn()
    sheets = sheets_of(drafted)
    fewer = [replace(sheet, shown=tuple(one for one in sheet.shown if not is_last(one))) for sheet in sheets]
    found = list(check_times(drafted, fewer, {"base": 1, "wall": 1}))
    assert [(one.where, one.what) for one in found] == [("wall", "what its tiles show")]


def is_last(shown: Shown) -> bool:
    tiles = [one for sheet in sheets_of(sewn()) for one in sheet.shown if one.piece == shown.piece]
    return shown.piece == "wall" and shown == tiles[-1]
