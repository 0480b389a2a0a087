"""Units against their definitions (reference values B): written in the language, not only in the code.

The source stands beside each check, with how it was had: looked up, from memory, or derived.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from drafting import face
from drafting.text.quantities import MM_PER_INCH, UNITS
from drafting.text.source import Source

CARD = "piece back:\n  outline: box 40 mm by 60 mm\n"


def measured(text: str, asked: str) -> float:
    return face.read(Source("units.draft", text)).place().measure(asked).value


def leather(thick: str) -> float:
    """The thickness of a stock, in mm."""
    return measured(f"stock hide: leather; {thick} thick\n{CARD}", "hide.thick")


def test_an_inch_is_25_4_mm_exactly() -> None:
    """B-01. NBS Circular 572, addendum of 22 January 1960 (looked up)."""
    assert Fraction(254, 10) == MM_PER_INCH == UNITS["in"]
    assert measured(f"measure one = 1 in\n{CARD}", "one") == 25.4
    assert measured(CARD, "10000 in") == 254000
    assert measured(CARD, "36 in") == 914.4


def test_an_ounce_of_leather_is_a_64th_of_an_inch() -> None:
    """B-02. ASTM D1814-70, 1.2 (looked up); the standard prints 0.396 mm."""
    assert UNITS["oz"] == Fraction(396875, 1000000)
    assert leather("1 oz") == 0.396875
    assert round(leather("1 oz") - 0.0005, 3) == 0.396


OUNCES = [0.3969, 0.7938, 1.1906, 1.5875, 1.9844, 2.3813, 2.7781, 3.1750, 3.5719, 3.9688, 4.3656, 4.7625]


@pytest.mark.parametrize(
    ("ounces", "thick"),
    list(enumerate(OUNCES, 1)),
)
def test_the_table_of_ounces(ounces: int, thick: float) -> None:
    """B-03, derived from B-02, to half a unit of the last printed digit."""
    assert leather(f"{ounces} oz") == pytest.approx(thick, abs=5e-5)


@pytest.mark.parametrize("ounces", range(1, 13))
def test_no_calculation_rounds_an_ounce_to_0_4_mm(ounces: int) -> None:
    """B-04. The trade prints 0.4 mm an ounce, 0.787 % above the exact one (common practice, no source)."""
    assert 0.4 * ounces / leather(f"{ounces} oz") == pytest.approx(1.00787, abs=5e-6)
    assert leather("8 oz") == 3.175


def test_an_iron_of_sole_leather_is_four_thirds_of_an_ounce() -> None:
    """B-05. 1 iron = 1/48 in, 0.53 mm (ASTM D1814-70, 1.2, looked up); the ratio is derived: 6 oz are 4.5 iron."""
    assert measured(CARD, "1/48 in") == pytest.approx(0.529167, abs=5e-7)
    assert round(measured(CARD, "1/48 in"), 2) == 0.53
    assert leather("6 oz") / measured(CARD, "1/48 in") == pytest.approx(4.5, rel=1e-12)


def test_a_square_foot_is_9_290304_square_decimeters() -> None:
    """B-06, derived from B-01; a glossary's 10 dm² is 7.6 % high and must not come out."""
    assert measured(CARD, "12 in * 12 in") == pytest.approx(92903.04, rel=1e-12)
    assert measured(CARD, "10 cm * 10 cm / (12 in * 12 in)") == pytest.approx(0.1076391, abs=5e-8)


@pytest.mark.parametrize(
    ("per_inch", "pitch"),
    list(zip(range(4, 10), [6.3500, 5.0800, 4.2333, 3.6286, 3.1750, 2.8222], strict=True)),
)
def test_stitches_to_the_international_inch(per_inch: int, pitch: float) -> None:
    """B-10, derived: 25.4/n, written as a fraction of an inch."""
    assert measured(CARD, f"1/{per_inch} in") == pytest.approx(pitch, abs=5e-5)


@pytest.mark.parametrize(
    ("written", "mm"),
    [
        ("5 1/4 in", Fraction(21, 4) * MM_PER_INCH),
        ("3 1/2 in", Fraction(7, 2) * MM_PER_INCH),
        ("1 1/4 in", Fraction(5, 4) * MM_PER_INCH),
        ("5/8 in", Fraction(127, 8)),
        ("63/64 in", Fraction(63, 64) * MM_PER_INCH),
        ("0.125 in", Fraction(127, 40)),
        ("2 1/2 cm", Fraction(25)),
        ("12 3/4 mm", Fraction(51, 4)),
    ],
)
def test_fractions_of_an_inch_stay_exact(written: str, mm: Fraction) -> None:
    """An inch is 127/5 mm, so 5/8 in is 127/8 mm and nothing is rounded on the way (derived from B-01)."""
    pattern = face.read(Source("units.draft", f"measure one = {written}\n{CARD}"))
    assert pattern.place().sized.known["one"] == mm


def test_us_sheets_in_inches() -> None:
    """A-07. ANSI/ASME Y14.1 (from memory): Letter, Legal and Tabloid, exact in mm."""
    for written, (width, height) in {
        "8 1/2 in by 11 in": (215.9, 279.4),
        "8.5 in by 14 in": (215.9, 355.6),
        "11 in by 17 in": (279.4, 431.8),
    }.items():
        text = f"piece sheet:\n  outline: box {written}\n"
        assert measured(text, "sheet.width") == pytest.approx(width, rel=1e-15)
        assert measured(text, "sheet.height") == pytest.approx(height, rel=1e-15)
