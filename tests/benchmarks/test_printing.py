"""How long true-size sheets take: a large roll over more than twenty tiles, and a batch of 300 pieces in one file.

Baseline is the composing of the sheets; writing and proving are ratios to it in the same run (`extra_info`). Run with
`pytest tests/benchmarks/test_printing.py`.
"""

from __future__ import annotations

import time
from itertools import pairwise

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from drafting.drawing.prints import PrintFacts, paper_called, print_sheets
from drafting.geometry.curves import box, circle
from drafting.geometry.point import Point
from drafting.output.pdf import to_pdf
from drafting.proof.pdf import check_pdf
from drafting.solve.placed import Placed
from tests.drawing.samples import SAMPLES, piece, placed

FACTS = PrintFacts("0123abcd")


def roll() -> Placed:
    return placed("Loft tool roll", [piece("roll", box(Point(0, 0), 1000, 760, rounded=20))])


def batch() -> Placed:
    tag = SAMPLES["badge_holder"]().pieces
    first = next(iter(tag.values()))
    rounds = [piece(f"disc {number}", circle(Point(0, 0), 20 + number % 7)) for number in range(250)]
    return placed("Ferry batch", [*rounds, *[piece(f"tag {n}", first.outline) for n in range(50)]])


@pytest.mark.parametrize(("name", "drafted", "least"), [("roll", roll, 20), ("batch of 300", batch, 10)])
def test_printing(benchmark: BenchmarkFixture, name: str, drafted, least: int) -> None:  # type: ignore[no-untyped-def]
    pattern = drafted()
    taken = {"composing": 0.0, "writing": 0.0, "proving": 0.0}

    def work() -> int:
        marks = [time.perf_counter()]
        sheets = print_sheets(pattern, paper_called("a4"), list(pattern.pieces), FACTS)
        marks.append(time.perf_counter())
        data = to_pdf([sheet.drawing for sheet in sheets])
        marks.append(time.perf_counter())
        assert check_pdf(data, pattern, sheets) == []
        marks.append(time.perf_counter())
        taken.update(zip(taken, (b - a for a, b in pairwise(marks)), strict=True))
        return len(sheets)

    count = benchmark.pedantic(work, rounds=2, iterations=1)
    assert count >= least
    benchmark.extra_info.update(
        {part: round(seconds / taken["composing"], 2) for part, seconds in taken.items()}
    )
    benchmark.extra_info["sheets"] = count
    print(name, count, taken)
