"""Sweeps of a measure: each value exact, and what cannot be swept told."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drafting.face import Faults, UnknownName, read
from drafting.text.source import Source

PATTERN = read(
    Source("try.draft", "measure rim = 9 mm\nmeasure turn = 30 deg\nmeasure count = 5\nmeasure lap = 2 in\n")
)


@pytest.mark.parametrize(
    ("name", "text", "values"),
    [
        ("rim", "7mm..8mm/0.5mm", [7, Fraction(15, 2), 8]),
        ("rim", " 7 mm .. 9 mm / 1 mm ", [7, 8, 9]),
        ("rim", "1/4in..3/8in/1/16in", [Fraction(127, 20), Fraction(635, 80), Fraction(381, 40)]),
        ("rim", "1 1/2in..2 1/2in/1/2in", [Fraction(381, 10), Fraction(254, 5), Fraction(127, 2)]),
        ("rim", "1cm..12mm/1mm", [10, 11, 12]),
        ("rim", "9mm..9mm/1mm", [9]),
        ("rim", "9mm..7mm/-1mm", [9, 8, 7]),
        ("turn", "10deg..30deg/10deg", [10, 20, 30]),
        ("count", "3..9/2", [3, 5, 7, 9]),
    ],
)
def test_a_sweep_meets_each_value_exactly(name: str, text: str, values: list[Fraction]) -> None:
    assert [value.value for value in PATTERN.sweep(name, text).values] == values


def test_its_values_read_in_the_unit_of_the_step() -> None:
    assert PATTERN.sweep("rim", "1cm..12mm/0.5mm").shown == ("10 mm", "10.5 mm", "11 mm", "11.5 mm", "12 mm")


@pytest.mark.parametrize(
    ("text", "code", "mend"),
    [
        ("7..14/0.5", "M03", "`7 mm`"),
        ("14mm..7mm/0.5mm", "C105", "rim=7mm..14mm/0.5mm"),
        ("7mm..14mm/0mm", "C105", "rim=7mm..14mm/7mm"),
        ("7mm..14mm/3mm", "C105", "rim=7mm..13mm/3mm"),
        ("7mm..14mm", "C105", "rim=7mm..14mm/0.5mm"),
        ("..", "C105", "rim="),
        ("lap..14mm/1mm", "C105", "rim="),
        ("0mm..1000mm/0.001mm", "C105", "rim=0mm..0.01mm/0.001mm"),
        ("7mm..14deg/1mm", "M05", "length"),
        ("7mm..nowhere/1mm", "M01", "nowhere"),
    ],
)
def test_what_cannot_be_swept_is_told_with_a_mend(text: str, code: str, mend: str) -> None:
    with pytest.raises(Faults) as caught:
        PATTERN.sweep("rim", text)
    first = next(iter(caught.value.messages))
    assert first.code == code and mend in first.mend


def test_a_measure_that_is_not_there_cannot_be_swept() -> None:
    with pytest.raises(UnknownName):
        PATTERN.sweep("rimm", "7mm..14mm/1mm")


@pytest.mark.parametrize(
    "text", ["14mm..7mm/0.5mm", "7mm..14mm/-1mm", "7mm..7mm/0mm", "7mm..14mm/0.3mm", "7mm..14mm"]
)
def test_the_mend_of_a_sweep_is_a_sweep(text: str) -> None:
    with pytest.raises(Faults) as caught:
        PATTERN.sweep("rim", text)
    (mend,) = (message.mend for message in caught.value.messages)
    name, _, mended = mend.removeprefix("Write for instance `--with ").removesuffix("`.").partition("=")
    assert PATTERN.sweep(name, mended).values
