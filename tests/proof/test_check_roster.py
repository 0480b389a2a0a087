"""The proof of engravings and cards finds each thing that is wrong in one way."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from drafting.drawing.marks import Drawing, Group, Lettering, Mark, Stroke, Ticks
from drafting.drawing.roster import CardSheet, blanks_of, card_sheets, engraving
from drafting.geometry.point import Vector
from drafting.output.pdf import to_pdf
from drafting.output.svg import to_svg
from drafting.proof.cards import check_cards
from drafting.proof.engraving import check_engraving
from tests.drawing.rosters import made

ROSTER = made(qr="{name}")
BLANKS = blanks_of(ROSTER.people[0], ROSTER.wishes)
SVG = to_svg(engraving(ROSTER.people[0], ROSTER.wishes, BLANKS))
SHEETS = card_sheets(ROSTER)


def test_what_is_true_is_found_true() -> None:
    assert check_engraving(SVG, BLANKS) == []
    assert check_cards(to_pdf([sheet.drawing for sheet in SHEETS]), SHEETS) == []


@pytest.mark.parametrize(
    ("find", "write", "what"),
    [
        (r'width="([0-9.]+)mm"', 'width="90mm"', "its scale"),
        (r"</svg>", "<svg", "its form"),
        ('class="piece"', 'class="scrap"', "the count of its pieces"),
        (r'<path class="mark"[^>]*/>', "", "the count of its lines"),
        (r"</g>\s*</svg>", '<path d="M 1,1 L 9,9" /></g></svg>', "the count of its lines"),
        (r'(<path class="cut" d="M )[0-9.]+', r"\g<1>1", "length"),
        (r'(<path class="mark" d="M )[0-9.]+', r"\g<1>1", "its letters"),
        (r'(<path class="mark" d="M [0-9.,]+) L [0-9.,]+', r"\1", "its letters"),
    ],
)
def test_an_engraving_that_is_wrong_in_one_way(find: str, write: str, what: str) -> None:
    wrong = re.sub(find, write, SVG, count=1)
    assert wrong != SVG
    assert what in [found.what for found in check_engraving(wrong, BLANKS)]


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
