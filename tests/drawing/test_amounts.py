"""Lengths print as a maker reads them, in one unit or two."""

from __future__ import annotations

import pytest

from drafting.drawing.amounts import Figures, in_unit


@pytest.mark.parametrize(
    ("show", "value", "text"),
    [
        ((), 55.0, "55"),
        (("mm",), 38.416, "38.42"),
        (("mm",), 0.001, "0"),
        (("mm",), -0.0001, "0"),
        (("cm",), 55.55, "5.555"),
        (("in",), 88.9, "3 1/2"),
        (("in",), 25.4, "1"),
        (("in",), 15.875, "5/8"),
        (("in",), 0.396875, "1/64"),
        (("in",), 55.0, "2.165"),
        (("mm", "in"), 55.0, "55 [2.165]"),
        (("in", "mm"), 101.6, "4 [101.6]"),
        (("mm", "cm", "in"), 127.0, "127 [12.7] [5]"),
    ],
)
def test_length(show: tuple[str, ...], value: float, text: str) -> None:
    assert Figures.shown_by(show).length(value) == text


def test_a_phrase_says_its_words_once() -> None:
    figures = Figures(("mm", "in"))
    assert figures.phrase("slot |{} × {}", 14, 4.5) == "slot 14 × 4.5 [0.551 × 0.177]"
    assert figures.phrase("R |{}", 6) == "R 6 [0.236]"


def test_the_sheet_says_its_units() -> None:
    assert Figures(("mm",)).statement == "Dimensions in mm"
    assert Figures(("mm", "in")).statement == "Dimensions in mm [inches]"


def test_negative_inches_keep_their_sign() -> None:
    assert in_unit(-38.1, "in") == "-1 1/2"
