"""A true print passes, and whatever is changed in it is found."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from drafting.drawing.arrows import straight
from drafting.drawing.lines import CUT
from drafting.drawing.marks import Drawing, Group
from drafting.drawing.prints import PrintFacts, PrintSheet, paper_called, print_sheets
from drafting.geometry.point import Point, Vector
from drafting.output.pdf import to_pdf
from drafting.proof.pdf import check_pdf
from drafting.solve.placed import Placed
from tests.drawing.samples import SAMPLES


def sheets_of(drafted: Placed, paper: str = "a4") -> list[PrintSheet]:
    return print_sheets(drafted, paper_called(paper), list(drafted.pieces), PrintFacts("0123abcd"))


@pytest.mark.parametrize("paper", ["a4", "letter", "140x150"])
@pytest.mark.parametrize("name", SAMPLES)
def test_prints_are_true(name: str, paper: str) -> None:
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
