"""Fits: a measure moved until stitch lines hold whole pitches, in every size."""

from __future__ import annotations

import numpy
import pytest

from drafting import face
from drafting.text.source import Source
from tests.lowering.drafted import check, codes, drafted

BOX = """
measure tall = 100 mm between 96 mm and 104 mm
fit tall so back.edge stitch whole
piece back
  outline: box 60 mm by tall
  stitch edge: outline.bottom to outline.top; every 3.85 mm; 3 mm short
"""
TAG = """
measure rim = 8 mm between 6.5 mm and 10 mm
fit rim so back.edge stitch whole within 0.03 mm
piece back: mirrored over foot..tip
  point foot: at (0, 0)
  point tip: plumb with foot; 86 mm + 2*rim above foot
  point heel: level with foot; 30 mm + rim right of foot
  point brow: plumb with heel; level with tip
  outline: foot to heel to brow to tip
  stitch edge: 3.5 mm inside outline; every 3.38 mm
"""
PAIR = """
measure wide = 60 mm between 55 mm and 66 mm
measure high = 90 mm between 86 mm and 98 mm
fit wide so back.edge stitch whole within 0.001 mm
fit high so back.side stitch whole within 0.001 mm
piece back
  point foot: at (0, 0)
  point tip: plumb with foot; high + wide/10 above foot
  point heel: level with foot; wide - high/9 right of foot
  point brow: plumb with heel; level with tip
  outline: foot to heel to brow to tip
  fillet heel by 8 mm
  stitch side: 3 mm inside from heel.end to brow; every 3.85 mm
  stitch edge: 3 mm inside from foot to heel.start; every 3.85 mm
"""


def test_a_single_stretch_comes_out_exact_and_nearest_to_what_is_written() -> None:
    """tall - 6 mm is 24 pitches of 3.85 mm at 98.4 mm, and 25 at 102.25 mm."""
    check(BOX, {"tall": 98.4, "back.height": 98.4, "back.edge.pitch": 3.85, "back.edge.stitches": 24})
    assert codes(BOX) == ["S31"]
    check(BOX, {"tall": 102.25}, tall="101 mm")
    (fit,) = drafted(BOX).sized.fits
    assert fit.solutions == pytest.approx((98.4, 102.25), abs=1e-9)
    assert fit.worst < 1e-9


def test_each_size_is_fitted_for_itself() -> None:
    text = 'size "a": as written\nsize "b": tall = 103 mm\n' + BOX
    check(text, {"tall": 98.4}, size="a")
    check(text, {"tall": 102.25}, size="b")


def test_a_value_that_fits_is_kept_without_a_word() -> None:
    assert codes(BOX.replace("tall = 100 mm", "tall = 98.4 mm")) == []


def test_what_is_made_from_a_fitted_measure_follows_it() -> None:
    check("measure twice = 2*tall\n" + BOX, {"twice": 196.8})


def test_a_measure_that_is_read_off_the_drawing_is_fitted_too() -> None:
    """Its formula says where it is written, its range where it may go."""
    text = BOX.replace("tall = 100 mm", "tall = card.height + 2 mm")
    check(text + "piece card\n  outline: box 20 mm by 98 mm\n", {"tall": 98.4})


def test_several_stretches_share_the_miss_and_every_solution_is_found() -> None:
    """Against a scan: two legs that differ cannot both be exact."""
    placed = drafted(TAG)
    (fit,) = placed.sized.fits
    rims = numpy.linspace(6.5, 10, 70001)
    worst = numpy.zeros_like(rims)
    for length in (60 + 2 * rims - 7, 86 + 2 * rims - 7):
        held = length / 3.38
        worst = numpy.maximum(worst, 3.38 * numpy.abs(held / numpy.round(held) - 1))
    dips = [
        float(rims[i])
        for i in range(1, len(rims) - 1)
        if worst[i] < worst[i - 1] and worst[i] <= worst[i + 1] and worst[i] <= 0.03
    ]
    assert fit.solutions == pytest.approx(dips, abs=1e-4)
    assert fit.value == min(fit.solutions, key=lambda value: abs(value - 8))
    offs = [abs(pitch - 3.38) for pitch in placed.pieces["back"].features[0].stitches[0].layout.pitches]
    assert max(offs) == pytest.approx(fit.worst, abs=1e-9)


def test_two_measures_that_bear_on_each_other_are_fitted_together() -> None:
    """Every pair is found that a scan of one along the solutions of the other finds."""
    placed = drafted(PAIR)
    wide, high = placed.sized.fits
    for line in ("back.edge.pitch", "back.side.pitch"):
        assert placed.measure(line).value == pytest.approx(3.85, abs=1e-9)
    pairs = set()
    for edge in range(1, 30):
        for side in range(1, 40):
            # edge: wide - high/9 - 3 - 8 (a corner, then the rounding); side: high + wide/10 - 3 - 8
            matrix = numpy.array([[1, -1 / 9], [1 / 10, 1]])
            at = numpy.linalg.solve(matrix, numpy.array([edge * 3.85 + 11, side * 3.85 + 11]))
            if 55 <= at[0] <= 66 and 86 <= at[1] <= 98:
                pairs.add((round(float(at[0]), 6), round(float(at[1]), 6)))
    found = {(round(a, 6), round(b, 6)) for a, b in zip(wide.solutions, high.solutions, strict=True)}
    assert found == pairs


def test_a_fit_follows_another_that_it_leans_on() -> None:
    """`low` is fitted for its own line; `high` for one that both of them make."""
    text = """
measure high = 50 mm between 46 mm and 54 mm
measure low = 40 mm between 38 mm and 44 mm
fit high so back.all stitch whole within 0.001 mm
fit low so back.part stitch whole within 0.001 mm
piece back
  point a: at (0, 0)
  point c: at (0, low + high)
  point d: at (30 mm, 0)
  point e: at (30 mm - low/2, low/4)
  point f: level with c; plumb with d
  outline: a to c to f to d
  stitch part: d to e; every 4 mm
  stitch all: a to c; every 4 mm; once
"""
    placed = drafted(text)
    assert placed.measure("back.part.pitch").value == pytest.approx(4, abs=1e-9)
    assert placed.measure("back.all.pitch").value == pytest.approx(4, abs=1e-9)
    assert placed.measure("back.all.stitches").value == 23


def test_explaining_a_fitted_measure_tells_what_it_came_to() -> None:
    assert drafted(BOX).explain("tall").splitlines() == [
        "`tall` is 98.4 mm.",
        "  written: measure tall = 100 mm between 96 mm and 104 mm",
        "  fitted to `back.edge` from 100 mm: the nearest of 98.4 mm, 102.25 mm",
        "    pitches of `back.edge`, stretch by stretch, are off by 0 mm",
    ]


def test_an_amount_that_is_measured_besides_sees_the_same_fit() -> None:
    pattern = face.read(Source("test.draft", BOX))
    assert pattern.place().measure("back.edge.start.x + tall").value == pytest.approx(98.4)
