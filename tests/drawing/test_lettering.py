"""Words take the room that the font gives them, and more where the font is unknown."""

from __future__ import annotations

import pytest

from drafting.drawing.lettering import (
    clip,
    font_size,
    has_fixed_width,
    natural_width,
    plain_text,
    short_words,
    wrap,
)
from drafting.drawing.lettering_widths import CAPITAL, EM, WIDTHS
from tests.drawing.make_lettering_widths import read_widths


def test_table_is_the_fonts_own() -> None:
    """The committed widths are those of the font in use."""
    assert (EM, CAPITAL, WIDTHS) == read_widths()


def test_capital_is_as_high_as_asked() -> None:
    """Lettering height is the height of a capital, so the font is larger."""
    assert font_size(3.5) * 1409 / 2048 == pytest.approx(3.5)


def test_digits_are_alike_and_wide_letters_take_a_whole_em() -> None:
    assert natural_width("0", 3.5) == natural_width("7", 3.5)
    assert natural_width("革", 3.5) == pytest.approx(font_size(3.5))
    assert natural_width("e\u0301", 3.5) == natural_width("e", 3.5)


@pytest.mark.parametrize("text", ["", "tag", "one two three four", "x" * 90, "革の表紙を二枚切る"])
def test_wrapped_lines_fit_and_lose_nothing(text: str) -> None:
    lines = wrap(text, 2.5, 20.0)
    assert all(natural_width(line, 2.5) <= 20.0 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_a_letter_wider_than_the_room_still_gets_a_line() -> None:
    assert wrap("革革", 20.0, 1.0) == ["革", "革"]


def test_what_is_cut_short_ends_in_an_ellipsis_and_fits() -> None:
    lines = clip(wrap("a note that runs on and on and on", 2.5, 20.0), 2.5, 20.0, 2)
    assert len(lines) == 2 and lines[1].endswith("…")
    assert natural_width(lines[1], 2.5) <= 20.0
    assert clip(["short"], 2.5, 20.0, 2) == ["short"]


def test_controls_become_blanks_and_noncharacters_vanish() -> None:
    assert plain_text("two\nlines\x00 \ufffe here\ud800") == "two lines here"
    assert short_words("") == ""


def test_only_known_and_wide_letters_have_a_fixed_width() -> None:
    """A viewer may set Arabic in any face, so its length is left alone."""
    assert has_fixed_width("Ø 3.5 革")
    assert not has_fixed_width("غطاء")
    assert not has_fixed_width("")
