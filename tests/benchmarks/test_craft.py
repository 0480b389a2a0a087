"""How quick the trade's work is, as a ratio to plain arithmetic on as many numbers.

Run by name: `pytest tests/benchmarks/test_craft.py`. The ratio printed is what a change should not worsen.
"""

from __future__ import annotations

from math import cos, pi, sin
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from drafting.craft.item import Item, PlacedPart, PlacedSlit, PunchedHole, StitchLine, Stock
from drafting.craft.rules import check_rules
from drafting.craft.slits import SlitRequest, cut_slit
from drafting.craft.spacing import Every, Stitches
from drafting.craft.stitches import Request, lay_out
from drafting.geometry.arc import Arc
from drafting.geometry.curves import box
from drafting.geometry.line import Line
from drafting.geometry.offset import offset_ring
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


def one_piece(number: int) -> PlacedPart:
    """A rounded piece with two seams, a slit and a grid of holes."""
    outline = box(Point(0, 0), 220, 150 + number, rounded=12)
    seams = tuple(
        StitchLine(
            f"seam_{inset}",
            lay_out(offset_ring(outline, -inset), Request(Every(3.38), start=Point(110, 0))),
            0.6,
        )
        for inset in (3.5, 12)
    )
    slit = PlacedSlit("mouth", cut_slit(Path((Line(Point(-50, 30), Point(50, 30)),)), SlitRequest(2)))
    holes = tuple(PunchedHole(f"hole_{index}", Point(-80 + 16 * index, -30), 4) for index in range(11))
    stock = Stock("body", "leather", 1.4)
    return PlacedPart(f"piece_{number}", outline, stock, "any", holes, (), (), (slit,), seams)


def test_the_rules_of_twelve_pieces(benchmark: BenchmarkFixture) -> None:
    item = Item("a dozen pieces", tuple(one_piece(number) for number in range(12)))
    assert sum(len(line.layout.holes) for part in item.parts for line in part.stitches) > 4000
    report = benchmark(check_rules, item, 0.0)
    assert {finding.code for finding in report.findings} == {"R02"}
    benchmark.extra_info["times plain arithmetic"] = benchmark.stats.stats.median / yardstick()
