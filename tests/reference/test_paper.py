"""Sheets against published sizes: the card to lay a real one on, and scales that do not trust the paper."""

from __future__ import annotations

from functools import cache
from io import BytesIO

import pypdf
import pytest

from drafting.drawing.prints import PAPERS, PrintFacts, PrintSheet, paper_called, print_sheets
from drafting.geometry.curves import box
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.output.pdf import to_pdf
from tests.drawing.samples import piece, placed

A_SERIES = {"a3": (297, 420), "a4": (210, 297), "a5": (148, 210)}
"""ISO 216 (second-hand, several tables that agree)."""


@cache
def sheets() -> tuple[PrintSheet, ...]:
    roll = placed("Loft tool roll", [piece("roll", box(Point(0, 0), 500, 400))])
    return tuple(print_sheets(roll, paper_called("a4"), ["roll"], PrintFacts("0123abcd")))


def test_papers_are_those_of_their_standards() -> None:
    """A-05 and A-07. US sheets: ANSI/ASME Y14.1 A, and legal (from memory); the sizes that reportlab 5.1 has are the same."""
    from reportlab.lib import pagesizes

    assert {name: (PAPERS[name].width, PAPERS[name].height) for name in A_SERIES} == A_SERIES
    for name, paper in PAPERS.items():
        known = getattr(pagesizes, name.upper() if name.startswith("a") else name)
        assert (paper.width, paper.height) == pytest.approx([side * 25.4 / 72 for side in known], abs=1e-6)


def test_each_paper_is_half_of_the_one_before() -> None:
    """A-05. ISO 216: each is the one before cut in half, down to whole millimetres."""
    for large, small in (("a3", "a4"), ("a4", "a5")):
        assert PAPERS[small].width == PAPERS[large].height // 2
        assert PAPERS[small].height == PAPERS[large].width


def test_the_card_is_that_of_iso_7810() -> None:
    """A-01 to A-03. ID-1, 85.60 by 53.98 mm with corners of 3.18 mm (second-hand): 4612.0074 mm² and 273.7005 mm round it (derived)."""
    cards = [group for sheet in sheets() for group in sheet.drawing.find("card")]
    (ring,) = [stroke.way for group in cards for stroke in group.strokes]
    assert isinstance(ring, Ring)
    assert (ring.area, ring.length) == pytest.approx((4612.0074, 273.7005), abs=1e-4)
    assert {round(leg.radius, 6) for leg in ring.legs if hasattr(leg, "radius")} == {3.18}


def test_every_sheet_carries_scales() -> None:
    """A-06. ISO 216 lets a sheet be 2 mm off, so true size is never judged by its edge."""
    for sheet in sheets():
        rules = sheet.drawing.find("rule")
        assert {group.title for group in rules} == {"100 mm and 4 in, level", "100 mm and 4 in, plumb"}


def test_a_page_is_72_points_an_inch() -> None:
    """C-14. ISO 32000-1: 100 mm are 283.464567 pt; no side of a page is longer than 14 400 units."""
    reader = pypdf.PdfReader(BytesIO(to_pdf([sheet.drawing for sheet in sheets()])))
    for page in reader.pages:
        assert float(page.mediabox.width) * 100 / 210 == pytest.approx(283.464567, abs=1e-3)
        assert max(page.mediabox[2:]) <= 14_400
