"""Letters of single strokes: there for every letter asked, as high as asked, and none lost in silence."""

from __future__ import annotations

from itertools import combinations, pairwise
from unicodedata import normalize

import pytest
from fontTools.ttLib import TTFont
from shapely import LinearRing

from drafting.drawing.font_file import font_files
from drafting.drawing.font_outlines import CAPITALS_IN_A_SIZE, outlines_of, outlines_of_word
from drafting.drawing.stroke_letters import (
    CAPITAL,
    KNOWN_ACCENTS,
    missing_letters,
    parts_of,
    shape_of,
    stroke_text,
    stroke_width,
)
from drafting.drawing.stroke_shapes_added import ADDED_SHAPES, ALIKE, BARRED, RAISED, SMALL_CAPITALS
from drafting.geometry.bounds import Bounds
from drafting.geometry.path import Ring
from tests.drawing import make_stroke_shapes
from tests.output.conftest import Fonts

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


def test_what_no_font_has_is_named_once(machine_has: Fonts) -> None:
    machine_has("字形")
    assert missing_letters("漢字 and 漢") == ("漢",)
    assert len(stroke_text("字", 5.0)) > 0, "a font of the machine has it"
    assert missing_letters("plain, ñ, ж, ψ, ש") == ()
    assert [line.bounds for line in stroke_text("漢", 5.0)] == []


@pytest.mark.parametrize("text", ["غطاء", "ببب", "थै", "क्ष"])
def test_letters_of_other_scripts_join_as_their_script_does(text: str) -> None:
    """Unicode 17.0, chapters 9 and 12: Arabic joins, Devanagari makes one sign of two. Each letter alone takes more
    room."""
    assert missing_letters(text) == ()
    assert all(isinstance(line, Ring) for line in stroke_text(text, 5.0))
    assert stroke_width(text, 5.0) < sum(stroke_width(letter, 5.0) for letter in text) - 0.1


@pytest.mark.parametrize("text", ["غطاء الجلد", "ببب", "हिन्दी थैला", "กระเป๋า", "שָׁלוֹם"])
def test_no_line_of_a_joined_word_crosses_another(text: str) -> None:
    """Shapely, a general library, finds no place where two outlines meet; and what they fill is what the letters fill
    one upon the other."""
    rings = [
        LinearRing([(leg.start.x, leg.start.y) for leg in line.legs]) for line in stroke_text(text, 20.0)
    ]
    assert rings and all(ring.is_simple for ring in rings)
    assert [pair for pair in combinations(rings, 2) if pair[0].intersects(pair[1])] == []


def test_accents_stand_in_their_places() -> None:
    """Points under and over a Hebrew letter, and Thai vowels and tones, take no room of their own (Unicode 17.0,
    sections 9.1 and 16.1)."""
    assert stroke_width("กี่", 5.0) == pytest.approx(stroke_width("ก", 5.0))
    assert stroke_width("שָׁלוֹם", 5.0) == pytest.approx(stroke_width("שלום", 5.0))
    assert box_of("שָ", 5.0).min_y < 0 == round(box_of("ש", 5.0).min_y)


def test_a_joiner_keeps_letters_apart() -> None:
    """Unicode 17.0, section 23.2: U+200C breaks a joint, and is none where nothing joins."""
    assert stroke_width("ب\u200cب", 5.0) > stroke_width("بب", 5.0)
    assert stroke_text("a\u200cb", 5.0) == stroke_text("ab", 5.0)


def test_the_size_is_that_of_the_font() -> None:
    font = TTFont(font_files()[0])
    assert font["head"].unitsPerEm / font["OS/2"].sCapHeight == pytest.approx(CAPITALS_IN_A_SIZE)
    by_word, alone = outlines_of_word("ש", True), outlines_of("ש")
    assert alone and by_word.advance == pytest.approx(alone.advance)


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
    """The first letter stands last, and figures keep their order: Unicode Standard Annex 9, rules W1 to L2. After
    Arabic letters figures are Arabic ones (W2), after Hebrew the blank before them runs left (N1)."""
    first, second = stroke_width("ש", 5.0), stroke_width("שם", 5.0)
    assert box_of("שם", 5.0).max_x <= second and first < second
    assert [len(line.legs) for line in stroke_text("אב", 5.0)] == [
        len(line.legs) for letter in "בא" for line in stroke_text(letter, 5.0)
    ]
    assert signs_in_order("12 אב") == "בא 12" and signs_in_order("tag אב 12") == "tag 12 בא"
    assert signs_in_order("tag ب ١ 12") == "tag 12 ١ ب" and signs_in_order("(אב)") == "(בא)"


def signs_in_order(text: str) -> str:
    return "".join(part for part, _ in parts_of(text, lambda sign: True))


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
