"""Of many copies each is proved: what is wrong with one alone is found, whichever it is."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import cache

import pytest

import drafting
from drafting.drawing.marks import Dots, Drawing, Group, Mark, Stroke, Ticks
from drafting.drawing.prints import PrintFacts, PrintSheet, Shown, paper_called, print_sheets
from drafting.geometry.curves import circle
from drafting.geometry.point import Vector
from drafting.output.pdf import to_pdf
from drafting.proof.disagreement import Disagreement
from drafting.proof.pdf import PageProof, check_pdf
from drafting.solve.placed import Placed
from drafting.text.source import Source

TOKEN = """\
pattern "Tool library tokens"
stock body: leather
piece token: cut 1 from body
  point middle: at (0, 0)
  outline: box 40 mm by 34 mm; 5 mm rounded; at middle
  hole eye: 4 mm across; at (0, 11 mm)
  stitch rim: 4 mm inside outline; every 3.85 mm; start at outline.bottom; marks slanted 2 mm
  mark center: at middle
piece strap: cut 1 from body
  point west: at (-130 mm, 0)
  point east: at (130 mm, 0)
  outline: box 300 mm by 20 mm; at middle
  point middle: at (0, 0)
  stitch row: west to east; every 4 mm; marks round 1 mm
"""
TIMES = {"token": 60, "strap": 9}


@cache
def tokens() -> Placed:
    return drafting.read(Source("tokens.draft", TOKEN)).place().placed


@cache
def sheets() -> list[PrintSheet]:
    return print_sheets(tokens(), paper_called("a4"), list(tokens().pieces), PrintFacts("0123abcd"), TIMES)


Change = Callable[[Group], Group | None]


def drawings() -> list[Drawing]:
    return [sheet.drawing for sheet in sheets()]


def with_one_changed(
    whole: Sequence[Drawing], kind: str, name: str, number: int, change: Change
) -> list[Drawing]:
    """All sheets with one group changed: of those so named, the one of that number."""
    seen = 0

    def changed(group: Group) -> Group | None:
        nonlocal seen
        if (group.kind, group.name) == (kind, name):
            seen += 1
            return change(group) if seen == number else group
        marks = (changed(mark) if isinstance(mark, Group) else mark for mark in group.marks)
        return replace(group, marks=tuple(mark for mark in marks if mark is not None))

    found = [[changed(group) for group in drawing.groups] for drawing in whole]
    assert seen >= number, f"there are {seen} of {kind} {name}"
    return [
        replace(drawing, groups=tuple(group for group in groups if group))
        for drawing, groups in zip(whole, found, strict=True)
    ]


def each_mark(change: Callable[[Mark], Mark]) -> Change:
    def changed(group: Group) -> Group:
        marks = (changed(mark) if isinstance(mark, Group) else change(mark) for mark in group.marks)
        return replace(group, marks=tuple(marks))

    return changed


@each_mark
def larger(mark: Mark) -> Mark:
    return replace(mark, way=circle(mark.way.bounds.center, 2.02)) if isinstance(mark, Stroke) else mark


@each_mark
def one_moved(mark: Mark) -> Mark:
    off = Vector(0.0, 0.02)
    if isinstance(mark, Ticks):
        start, end = mark.lines[5]
        return replace(mark, lines=(*mark.lines[:5], (start + off, end + off), *mark.lines[6:]))
    if isinstance(mark, Dots):
        return replace(mark, points=(*mark.points[:5], mark.points[5] + off, *mark.points[6:]))
    return mark


@each_mark
def one_missing(mark: Mark) -> Mark:
    return replace(mark, lines=mark.lines[:-1]) if isinstance(mark, Ticks) else mark


@each_mark
def thinner(mark: Mark) -> Mark:
    return replace(mark, across=mark.across - 0.02) if isinstance(mark, Dots) else mark


def moved(group: Group) -> Group:
    return group.moved(Vector(0.02, 0.0))


def none(group: Group) -> None:
    return None


def narrower(group: Group) -> Group:
    assert group.window is not None
    return replace(group, window=group.window.grown(-0.02))


def cut_twice(group: Group) -> Group:
    return replace(group, marks=(*group.marks, *group.marks))


WRONGS: dict[str, tuple[str, str, Change, str]] = {
    "a piece moved by 0.02 mm": ("piece", "token", moved, "token.outline"),
    "a hole moved by 0.02 mm": ("feature", "eye", moved, "token.eye"),
    "a hole too large by 0.04 mm": ("feature", "eye", larger, "token.eye"),
    "a hole missing": ("feature", "eye", none, "token.eye"),
    "a hole twice": ("feature", "eye", cut_twice, "a cut line"),
    "a stitch moved by 0.02 mm": ("stitches", "rim", one_moved, "token.rim"),
    "a stitch missing": ("stitches", "rim", one_missing, "token.rim"),
    "a mark moved by 0.02 mm": ("mark", "center", moved, "a mark"),
    "a mark missing": ("mark", "center", none, "a mark"),
}
TILE_WRONGS: dict[str, tuple[str, str, Change, str]] = {
    "a stitch moved by 0.02 mm": ("stitches", "row", one_moved, "strap.row"),
    "stitches too thin by 0.02 mm": ("stitches", "row", thinner, "strap.row"),
    "a tile narrower by 0.04 mm": ("tiled", "strap", narrower, "what its tile shows"),
}


def faults_of(drawings: list[Drawing], correction: float = 1.0) -> list[str]:
    return [
        str(one) for one in check_pdf(to_pdf(drawings, correction), tokens(), sheets(), correction, TIMES)
    ]


@pytest.mark.parametrize("correction", [1.0, 0.985])
def test_all_copies_are_true_and_few_are_proved_by_themselves(
    correction: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    proved: list[Shown] = []
    by_itself = PageProof._piece

    def counted(proof: PageProof, shown: Shown) -> Iterator[Disagreement]:
        proved.append(shown)
        return by_itself(proof, shown)

    monkeypatch.setattr(PageProof, "_piece", counted)
    assert faults_of(drawings(), correction) == []
    # Both pieces upright and lying, the strap in two tiles.
    assert len(proved) <= 6


@pytest.mark.parametrize("number", [1, 57])
@pytest.mark.parametrize("wrong", WRONGS)
def test_one_wrong_copy_is_found(wrong: str, number: int) -> None:
    kind, name, change, told = WRONGS[wrong]
    found = faults_of(with_one_changed(drawings(), kind, name, number, change))
    assert any(told in one for one in found), found


@pytest.mark.parametrize("number", [12])
@pytest.mark.parametrize("wrong", TILE_WRONGS)
def test_one_wrong_tile_is_found(wrong: str, number: int) -> None:
    kind, name, change, told = TILE_WRONGS[wrong]
    found = faults_of(with_one_changed(drawings(), kind, name, number, change))
    assert any(told in one for one in found), found


@pytest.mark.parametrize("first", [0.0, 0.0098])
def test_no_copy_leans_on_another_for_more_than_may_be_off(first: float) -> None:
    """The first copy is off by nearly as much as may be, the second by a little more than that."""

    def eye_moved(off: float) -> Change:
        return lambda group: group.moved(Vector(0.0, off))

    one_off = with_one_changed(drawings(), "feature", "eye", 1, eye_moved(first))
    assert faults_of(one_off) == []
    both_off = with_one_changed(one_off, "feature", "eye", 2, eye_moved(0.0103))
    assert any("token.eye" in one for one in faults_of(both_off))
