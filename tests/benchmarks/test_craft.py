"""How quick the trade's work is, as a ratio to plain arithmetic on as many numbers.

Run by name: `pytest tests/benchmarks/test_craft.py`. The ratio printed is what a change should not worsen.
"""

from __future__ import annotations

from math import cos, pi, sin
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from drafting.craft.spacing import Stitches
from drafting.craft.stitches import Request, lay_out
from drafting.geometry.arc import Arc
from drafting.geometry.line import Line
from drafting.geometry.path import Path
from drafting.geometry.point import Point

HOLES = 10_000


def plain_arithmetic() -> float:
    """The yardstick: a sine and a cosine for each of ten thousand numbers."""
    return sum(sin(number * 1e-3) * cos(number * 1e-3) for number in range(HOLES))


def yardstick() -> float:
    best = float("inf")
    for _ in range(5):
        begin = perf_counter()
        plain_arithmetic()
        best = min(best, perf_counter() - begin)
    return best


def long_hook() -> Path:
    there, back = Line(Point(0, 0), Point(15000, 0)), Line(Point(15000, 1000), Point(0, 1000))
    return Path((there, Arc(Point(15000, 500), 500, -pi / 2, pi), back))


@pytest.mark.parametrize("measured", ["along", "across"])
def test_ten_thousand_holes(benchmark: BenchmarkFixture, measured: str) -> None:
    line = long_hook()
    request = Request(Stitches(HOLES), measured=measured)  # type: ignore[arg-type]
    layout = benchmark(lay_out, line, request)
    assert layout.stitches == HOLES
    benchmark.extra_info["times plain arithmetic"] = benchmark.stats.stats.median / yardstick()
