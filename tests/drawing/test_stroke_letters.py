"""Letters of single strokes: there for every letter asked, as high as asked, and none lost in silence."""

from __future__ import annotations

from itertools import pairwise
from unicodedata import normalize

import pytest
from fontTools.ttLib import TTFont

from drafting.drawing.font_file import font_files
from drafting.drawing.stroke_letters import (
    CAPITAL,
    KNOWN_ACCENTS,
    in_order_of_sight,
    missing_letters,
    shape_of,
    signs_of,
    stroke_text,
    stroke_width,
)
from drafting.drawing.stroke_shapes_added import ADDED_SHAPES, ALIKE, BARRED, RAISED, SMALL_CAPITALS
from drafting.geometry.bounds import Bounds
from drafting.geometry.path import Ring
from tests.drawing import make_stroke_shapes

LATIN_1_AND_A = [chr(code) for code in (*range(0x21, 0x7F), *range(0xC0, 0x180)) if chr(code) not in "ŉſĸ"]
"""Printable ASCII, and the letters of Latin-1 and Latin Extended-A; three of those are outlines."""
GREEK = "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩαβγδεζηθικλμνξοπρσςτυφχψωάέήίόύώΐΰ"
CYRILLIC = "АБВГДЕЁЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯабвгдеёжзийклмнопрстуфхцчшщъыьэюяєіїґўђћљњџЄІЇҐЎЂЋЉЊЏ"


def box_of(text: str, height: float) -> Bounds:
    return Bounds.joining(line.bounds for line in stroke_text(text, height))


def is_of_strokes(letter: str) -> bool:
    """An outline of the font has other places than the whole numbers of the shapes, or thirds of them."""
    shape = shape_of(letter)
    return shape is not None and all((x * 30) % 1 < 1e-6 or (x * 30) % 1 > 1 - 1e-6 for x, _ in shape.spots)


def test_the_table_is_that_of_the_package() -> None:
    written = make_stroke_shapes.TABLE.read_text(encoding="utf-8")
    assert make_stroke_shapes.table_text() == written


@pytest.mark.parametrize("letters", [LATIN_1_AND_A, GREEK, CYRILLIC, "–—°×÷±…“”€£½²⌀"])
def test_these_letters_are_single_strokes(letters: str) -> None:
    assert [letter for letter in letters if not is_of_strokes(letter)] == []


def test_no_two_letters_of_a_script_look_the_same() -> None:
    """A slip in a table would draw one as the other. What is meant to look alike is left out, as are l and I, which are
    one stroke in Dr. Hershey's table."""
    letters = {normalize("NFD", letter)[0] for letter in (*LATIN_1_AND_A, *CYRILLIC)} - {*ALIKE, "Đ", "l"}
    pictures = {shape_of(letter) for letter in letters}
    assert len(pictures) == len(letters)


@pytest.mark.parametrize("height", [1.8, 5.0, 20.0])
def test_capitals_are_as_high_as_asked(height: float) -> None:
    box = box_of("HEIZ", height)
    assert (round(box.min_y, 9), round(box.max_y, 9)) == (0.0, height)


def test_words_lie_in_the_room_they_ask_for() -> None:
    for words in ("Badge holder, edition 3", "Tooltas", "Сумка", "שלום"):
        box = box_of(words, 5.0)
        assert 0 <= box.min_x and box.max_x <= stroke_width(words, 5.0)


def test_a_letter_without_strokes_is_its_outline() -> None:
    """As high as the font has it, in closed lines; by the font's own numbers (fontTools reads them)."""
    lines = stroke_text("ש", 10.0)
    assert lines and all(isinstance(line, Ring) for line in lines)
    font = TTFont(font_files()[0])
    name = font.getBestCmap()[ord("ש")]
    glyph, capital = font["glyf"][name], font["OS/2"].sCapHeight
    box = box_of("ש", 10.0)
    assert box.max_y == pytest.approx(glyph.yMax / capital * 10.0, abs=0.02)
    assert box.width == pytest.approx((glyph.xMax - glyph.xMin) / capital * 10.0, abs=0.02)


def test_what_no_font_has_is_named_once() -> None:
    assert missing_letters("漢字 and 漢") == ("漢", "字")
    assert missing_letters("plain, ñ, ж, ψ, ש") == ()
    assert [line.bounds for line in stroke_text("漢", 5.0)] == []


def test_a_letter_with_its_accent_apart_is_the_same_letter() -> None:
    for letter in "éñőķșйΐậ":
        assert stroke_text(letter, 5.0) == stroke_text(normalize("NFD", letter), 5.0)


def test_accents_keep_off_their_letters() -> None:
    for letter in "ÀÉÎÕÜŽáèõůž":
        shape, base = shape_of(letter), shape_of(normalize("NFD", letter)[0])
        assert shape and base
        added = shape.strokes[len(base.strokes) :]
        assert min(y for stroke in added for _, y in stroke) > base.top


def test_writing_to_the_left_begins_at_the_right() -> None:
    """The first letter stands last, and figures keep their order (from memory of Unicode Standard Annex 9)."""
    first, second = stroke_width("ש", 5.0), stroke_width("שם", 5.0)
    assert box_of("שם", 5.0).max_x <= second and first < second
    assert [len(line.legs) for line in stroke_text("אב", 5.0)] == [
        len(line.legs) for letter in "בא" for line in stroke_text(letter, 5.0)
    ]
    assert signs_in_order("12 אב") == "בא 12" and signs_in_order("tag אב 12") == "tag בא 12"


def signs_in_order(text: str) -> str:
    return "".join(in_order_of_sight(signs_of(text)))


def test_tables_agree_with_each_other() -> None:
    """Nothing is drawn here that another table draws already, and no stroke is one place."""
    assert not set(ALIKE) & set(ADDED_SHAPES) and not set(BARRED) & set(ADDED_SHAPES)
    for letter in (*ADDED_SHAPES, *ALIKE, *BARRED, *RAISED, *SMALL_CAPITALS):
        shape = shape_of(letter)
        assert shape is not None
        for stroke in shape.strokes:
            assert len(stroke) > 1 and all(a != b for a, b in pairwise(stroke)), letter
        assert shape.top <= CAPITAL + 4


def test_every_accent_draws_something() -> None:
    for accent in KNOWN_ACCENTS:
        plain, with_it = shape_of("o"), shape_of("o" + accent)
        assert plain and with_it and len(with_it.strokes) > len(plain.strokes)
