"""What goes into leather goods: cards, notes and papers drafted as patterns (reference values A).

The source stands beside each check, with how it was had.
"""

from __future__ import annotations

import math

import pytest

from drafting import face
from drafting.text.source import Source


def measured(text: str, *asked: str) -> tuple[float, ...]:
    placed = face.read(Source("contents.draft", text)).place()
    return tuple(placed.measure(one).value for one in asked)


FORMS = {
    "a box, rounded": """piece card: cut 1 from board
  outline: box 85.60 mm by 53.98 mm; 3.18 mm rounded
""",
    "a box, its corners rounded by name": """piece card: cut 1 from board
  outline: box 85.60 mm by 53.98 mm
  fillet top_left, top_right, bottom_left, bottom_right by 3.18 mm
""",
    "four points": """piece card: cut 1 from board
  point a: at (0, 0)
  point b: level with a; 85.60 mm right of a
  point c: plumb with b; 53.98 mm above b
  point d: plumb with a; level with c
  outline: a to b to c to d
  fillet a, b, c, d by 3.18 mm
""",
    "one half of it": """piece card: cut 1 from board; mirrored over low..high
  point low: at (0, 0)
  point high: plumb with low; 53.98 mm above low
  point side: level with low; 85.60 mm/2 right of low
  point brow: plumb with side; level with high
  outline: low to side to brow to high
  fillet side, brow by 3.18 mm
""",
    "a quarter circle at each corner": """piece card: cut 1 from board
  point a: at (3.18 mm, 0)
  point b: at (85.60 mm - 3.18 mm, 0)
  point c: at (85.60 mm, 3.18 mm)
  point d: at (85.60 mm, 53.98 mm - 3.18 mm)
  point e: at (85.60 mm - 3.18 mm, 53.98 mm)
  point f: at (3.18 mm, 53.98 mm)
  point g: at (0, 53.98 mm - 3.18 mm)
  point h: at (0, 3.18 mm)
  outline: a to b to c tangent to d to e tangent to f to g tangent to h to a tangent
""",
}


@pytest.mark.parametrize("form", FORMS.values(), ids=FORMS)
def test_the_id_1_card(form: str) -> None:
    """A-01: 85.60 x 53.98 x 0.76 mm; A-02: corners of 3.18 mm (ISO/IEC 7810 and 7813, second-hand). A-03, derived:
    4612.0074 mm² and 273.7005 mm. Square corners would give 4620.688 mm² and 279.16 mm."""
    text = f"stock board: sheet; 0.76 mm thick\n{form}"
    width, height, area, around, thick = measured(
        text, "card.width", "card.height", "card.area", "card.outline.length", "board.thick"
    )
    assert (width, height, thick) == (pytest.approx(85.60, abs=1e-9), pytest.approx(53.98, abs=1e-9), 0.76)
    assert area == pytest.approx(4612.0074, abs=1e-4)
    assert around == pytest.approx(273.7005, abs=1e-4)
    assert area == pytest.approx(85.60 * 53.98 - (4 - math.pi) * 3.18**2, rel=1e-12)


def test_a_pocket_for_cards_is_wider_than_the_card_and_the_stack() -> None:
    """F-18, derived: between the stitch lines at least W + c for a stack of c; four cards of 0.76 mm: 88.64 mm."""
    text = """measure card_w = 85.60 mm
measure cards = 4
stock board: sheet; 0.76 mm thick
piece pocket:
  outline: box card_w + cards*board.thick + 8 mm by 60 mm
  guide seam: 4 mm inside outline
check pocket.seam.width >= card_w + cards*board.thick
"""
    assert measured(text, "pocket.seam.width")[0] == pytest.approx(88.64, abs=1e-9)


def test_a_passport_lies_open_at_176_mm() -> None:
    """A-04: 125 x 88 mm closed (ICAO Doc 9303-4, second-hand): two pages side by side, drafted as one half."""
    text = """piece spread: mirrored over low..high
  point low: at (0, 0)
  point high: plumb with low; 125 mm above low
  point side: level with low; 88 mm right of low
  point top: plumb with side; level with high
  outline: low to side to top to high
"""
    assert measured(text, "spread.width", "spread.height") == (176, 125)


@pytest.mark.parametrize(
    ("written", "width", "height"),
    [
        ("3.5 in by 2 in", 88.9, 50.8),
        ("3 1/2 in by 2 in", 88.9, 50.8),
        ("6.14 in by 2.61 in", 155.956, 66.294),
        ("120 mm by 62 mm", 120, 62),
        ("14 cm by 7.7 cm", 140, 77),
    ],
)
def test_cards_and_notes(written: str, width: float, height: float) -> None:
    """A-08: cards of the USA (common practice, no source). A-09: notes of 5 and 50 euro (ECB Decision ECB/2003/4,
    looked up in its summary), of the USA (Bureau of Engraving and Printing, second-hand)."""
    text = f"piece note:\n  outline: box {written}\n"
    assert measured(text, "note.width", "note.height") == (
        pytest.approx(width, rel=1e-12),
        pytest.approx(height, rel=1e-12),
    )
