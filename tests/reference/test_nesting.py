"""Open instances of laying parts, read and laid: areas as published, and no lay better than can be.

Sources: the ESICUP collection of nesting problems, *shapes0* (Oliveira, Gomes, Ferreira 2000, from memory), as its corners
stand in the assets of jagua-rs (looked up); *baldacci1* (Baldacci, Boschetti, Ganovelli, Maniezzo, from memory), the file
beside the benchmarks.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drafting.lay import Limits, lay_out, roll, verify
from tests.lay.shapes import kind, ring

NESTING = Path(__file__).parent.parent / "benchmarks" / "nesting"
SHAPES0 = (
    ([(0, 0), (2, 0), (2, 3), (12, 3), (12, 0), (14, 0), (14, 5), (0, 5)], 15, 40),
    ([(0, 0), (6, -6), (12, 0), (6, 6)], 7, 72),
    ([(0, 0), (6, 0), (6, -2), (7, -2), (11, 2), (11, 4), (8, 4), (8, 1), (2, 1), (2, 4), (0, 4)], 9, 28),
    (
        [(0, 0), (2, 0), (2, -2), (4, -2), (4, 0), (6, 0), (6, 2), (4, 2), (4, 4), (2, 4), (2, 2), (0, 2)],
        12,
        20,
    ),
)


def test_shapes0_lies_in_its_strip_and_wastes_no_less_than_nothing() -> None:
    """I-20: 43 parts of 1596 square units in a strip 40 high: 39.9 at the least, whatever is found."""
    kinds = tuple(kind(ring(corners), count, f"shape {n}") for n, (corners, count, _) in enumerate(SHAPES0))
    assert [one.area for one in kinds] == pytest.approx([area for _, _, area in SHAPES0])
    assert sum(one.area * one.demand for one in kinds) == pytest.approx(1596)
    lay = lay_out(kinds, [roll(40, 160)], gap=0.0, limits=Limits(steps=15))
    assert verify(lay) == []
    assert lay.is_complete
    length = lay.length_used(lay.sheets[0])
    assert 39.9 <= length < 90
    assert lay.yield_of_gross == pytest.approx(1596 / (40 * length))


def test_the_parts_of_the_open_hides_take_what_is_published() -> None:
    """I-21: 227 503 625.5 square units in 54 parts, each a sound polygon. All twelve hides are said to have 743 411 519,
    so the parts 0.306027 of them; four are kept here, and take a plausible share of that."""
    read = json.loads((NESTING / "baldacci1-hides.json").read_text(encoding="utf-8"))
    items = read["items"]
    kinds = [kind(ring(one["shape"]["data"][:-1]), one["demand"]) for one in items]
    assert len(kinds) == 41 and sum(one.demand for one in kinds) == 54
    assert sum(one.area * one.demand for one in kinds) == pytest.approx(227_503_625.5)
    assert all(one.close.is_valid for one in kinds)
    hides = [abs(ring(one["shape"]["data"]["outer"][:-1]).area) for one in read["bins"]]
    assert len(hides) == 4 and 0.25 < sum(hides) / 743_411_519 < 0.4
    assert sum(one.area * one.demand for one in kinds) / 743_411_519 == pytest.approx(0.306027, abs=5e-7)
