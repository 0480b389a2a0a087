"""How quick a pattern with many stitches is drafted, and how quick a fit is, as ratios to the same pattern without.

Run by name: `pytest tests/benchmarks/test_stitching.py`. The ratio printed is what a change should not worsen.
"""

from __future__ import annotations

from pathlib import Path
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from drafting import face
from drafting.craft.judging import judge
from drafting.text.source import Source

SAIL = """
measure rim = 8 mm between 6 mm and 10 mm
piece sail: mirrored over foot..top
  point foot: at (0, 0)
  point top: plumb with foot; 6600 mm above foot
  point heel: level with foot; 3400 mm + 2*rim right of foot
  point brow: plumb with heel; level with top
  outline: foot to heel to brow to top
  fillet heel, brow by 300 mm
  guide inner: rim inside outline
"""
HATCH_TAG = Path(__file__).parents[2] / "patterns" / "hatch-tag.draft"
MANY = "  stitch edge: rim inside outline; 10000 stitches; start at foot\n"
FIT = """  stitch edge: 8 mm inside from heel.end to brow.start; every 3.85 mm
  stitch foot_edge: 8 mm inside from foot to heel.start; every 3.85 mm
fit rim so sail.foot_edge stitch whole within 0.001 mm
"""


def seconds(text: str) -> float:
    """The best of five, the plan being made."""
    pattern = face.read(Source("sail.draft", text))
    best = float("inf")
    for _ in range(5):
        begin = perf_counter()
        pattern.place()
        best = min(best, perf_counter() - begin)
    return best


@pytest.mark.parametrize("how", ["", "; marks slanted 2 mm", "; measured across"])
def test_ten_thousand_holes_of_a_pattern(benchmark: BenchmarkFixture, how: str) -> None:
    pattern = face.read(Source("sail.draft", SAIL + MANY.replace("; start", how + "; start")))
    placed = benchmark(pattern.place)
    assert placed.measure("sail.edge.holes").value == 10_000
    benchmark.extra_info["times the bare pattern"] = benchmark.stats.stats.median / seconds(SAIL)


def test_the_rules_of_a_pattern_beside_its_solving(benchmark: BenchmarkFixture) -> None:
    """All sizes of a whole item judged, as a ratio to placing them."""
    pattern = face.load(HATCH_TAG)
    runs = [(size, pattern.place(size).placed) for size in pattern.sizes]
    assert not benchmark(judge, pattern.bound, runs).messages.has_errors
    begin = perf_counter()
    for size in pattern.sizes:
        pattern.place(size)
    benchmark.extra_info["times the solving"] = benchmark.stats.stats.median / (perf_counter() - begin)


def test_a_fit_over_a_range(benchmark: BenchmarkFixture) -> None:
    pattern = face.read(Source("sail.draft", SAIL + FIT))

    def fitted() -> face.PlacedPattern:
        pattern.draft.fits.clear()
        return pattern.place()

    placed = benchmark(fitted)
    assert placed.sized.fits[0].worst < 1e-9
    benchmark.extra_info["times the bare pattern"] = benchmark.stats.stats.median / seconds(SAIL)
