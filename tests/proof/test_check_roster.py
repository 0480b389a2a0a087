"""The proof of engravings and cards finds each thing that is wrong in one way."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from drafting.drawing.machine import LAYERS
from drafting.drawing.marks import Drawing, Group, Lettering, Mark, Stroke, Ticks
from drafting.drawing.roster import CardSheet, blanks_of, card_sheets, engraving
from drafting.geometry.point import Vector
from drafting.output.layers_svg import layers_to_svg
from drafting.output.pdf import to_pdf
from drafting.proof.cards import check_cards
from drafting.proof.engraving import check_engraving
from drafting.proof.machine import faults_in_layers_svg
from tests.drawing.rosters import FOLDER, made

ROSTER = made(qr="{name}")
DRAWING = engraving(ROSTER.people[0], ROSTER.wishes, blanks_of(ROSTER.people[0], ROSTER.wishes))
SVG = layers_to_svg(DRAWING, LAYERS).decode()
SHEETS = card_sheets(ROSTER)


def test_what_is_true_is_found_true() -> None:
    assert check_engraving(SVG.encode(), DRAWING) == []
    assert faults_in_layers_svg(SVG.encode(), DRAWING) == []
    assert check_cards(to_pdf([sheet.drawing for sheet in SHEETS]), SHEETS) == []


@pytest.mark.parametrize(
    ("find", "write", "what"),
    [
        (r'width="([0-9.]+)mm"', 'width="90mm"', "its scale"),
        (r'viewBox="0 0 [0-9.]+ (.*) width="[0-9.]+mm"', r'viewBox="0 0 9 \1 width="9mm"', "its size in mm"),
        (r"</svg>", "<svg", "its form"),
        (r"<title>engrave</title>", "<title>cut it</title>", "the count of its lines"),
        (r'<path d="[^"]*" />', "", "the count of its lines"),
        (r"</svg>", '<path d="M 1,1 L 9,9" /></svg>', "a line on no layer"),
        (r"</svg>", '<text x="9" y="9">Ona</text></svg>', "a line on no layer"),
        (r'(<path d="M )[0-9.]+', r"\g<1>1", "a line at"),
        (r'(<path d="M [0-9.,]+) L [0-9.,]+', r"\1", "a line at"),
        (r'(<path d="[^"]*[0-9])(" />)', r"\1 Z\2", "a line at"),
        (r'(?s)(id="layer-cut".*?<path d="M )[0-9.]+', r"\g<1>1", "a line at"),
    ],
)
def test_an_engraving_that_is_wrong_in_one_way(find: str, write: str, what: str) -> None:
    wrong = re.sub(find, write, SVG, count=1)
    assert wrong != SVG
    assert any(found.what.startswith(what) for found in check_engraving(wrong.encode(), DRAWING))


def test_a_rounded_edge_is_measured_as_a_curve() -> None:
    """An arc on the wrong side keeps its ends."""
    rounded = made(pattern=FOLDER.replace("box wide by 130 mm", "box wide by 130 mm; 9 mm rounded"))
    drawing = engraving(rounded.people[0], rounded.wishes, blanks_of(rounded.people[0], rounded.wishes))
    svg = layers_to_svg(drawing, LAYERS)
    assert check_engraving(svg, drawing) == []
    assert check_engraving(re.sub(rb" 0 0 0 (?=[0-9])", b" 0 0 1 ", svg, count=1), drawing)


Change = Callable[[Mark], Mark | None]


def changed(mark: Mark, change: Change) -> Mark | None:
    if isinstance(mark, Group):
        kept = (changed(inner, change) for inner in mark.marks)
        return replace(mark, marks=tuple(inner for inner in kept if inner is not None))
    return change(mark)


def with_change(change: Change) -> bytes:
    def drawing(sheet: CardSheet) -> Drawing:
        groups = (changed(group, change) for group in sheet.drawing.groups)
        return replace(sheet.drawing, groups=tuple(group for group in groups if isinstance(group, Group)))

    return to_pdf([drawing(sheet) for sheet in SHEETS])


def other_name(mark: Mark) -> Mark:
    return replace(mark, text="Ida") if isinstance(mark, Lettering) and mark.text.startswith("Ona") else mark


def card_elsewhere(mark: Mark) -> Mark:
    is_name = isinstance(mark, Lettering) and mark.text.startswith("Ona")
    return mark.moved(Vector(0, -80)) if is_name else mark


def mark_moved(mark: Mark) -> Mark:
    is_mark = isinstance(mark, Stroke) and abs(mark.way.length - 4.0) < 1e-9
    return mark.moved(Vector(0.1, 0.1)) if is_mark else mark


def square_lost(mark: Mark) -> Mark:
    return replace(mark, lines=mark.lines[:-1]) if isinstance(mark, Ticks) else mark


def square_moved(mark: Mark) -> Mark:
    return mark.moved(Vector(0.2, 0)) if isinstance(mark, Ticks) else mark


def no_codes(mark: Mark) -> Mark | None:
    return None if isinstance(mark, Ticks) else mark


def rule_stretched(mark: Mark) -> Mark | None:
    return None if isinstance(mark, Stroke) and mark.way.length > 90 else mark


@pytest.mark.parametrize(
    ("change", "what"),
    [
        (other_name, "what is written on it"),
        (card_elsewhere, "what is written on it"),
        (mark_moved, "a cut mark"),
        (square_lost, "the squares of its codes"),
        (square_moved, "the squares of its codes"),
        (no_codes, "the squares of its codes"),
        (rule_stretched, "its level scale"),
    ],
)
def test_cards_that_are_wrong_in_one_way(change: Change, what: str) -> None:
    assert any(found.what.startswith(what) for found in check_cards(with_change(change), SHEETS))


def test_a_file_with_a_sheet_too_many_and_one_that_is_none() -> None:
    twice = to_pdf([sheet.drawing for sheet in (*SHEETS, *SHEETS)])
    assert [found.what for found in check_cards(twice, SHEETS)] == ["the count of its sheets"]
    assert [found.what for found in check_cards(b"no file", SHEETS)] == ["its form"]
