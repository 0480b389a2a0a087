"""How long a text of thousands of points takes to read and to tidy; twice the text takes twice the time.

Run with `pytest tests/benchmarks/test_long_text.py`.
"""

from __future__ import annotations

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from drafting.syntax.parse import parse
from drafting.syntax.tidy import tidy
from drafting.text.source import Source


def text_of(points: int, *, with_slips: bool = False) -> str:
    clause = "{n} mm right p{before}" if with_slips else "{n}/2 mm + 2*rim right of p{before}"
    rows = [
        f"  point p{n}: level with p{n - 1}; {clause.format(n=n, before=n - 1)}\n"
        for n in range(1, points + 1)
    ]
    return 'pattern "Long"\npiece board\n  point p0: at (0, 0)\n' + "".join(rows)


@pytest.mark.parametrize("points", [1250, 2500, 5000])
def test_reading(benchmark: BenchmarkFixture, points: int) -> None:
    source = Source("long.draft", text_of(points))
    file, messages = benchmark(parse, source)
    assert len(file.items[0].parts) == points + 1
    assert len(messages) == 0


@pytest.mark.parametrize("points", [1250, 2500])
def test_reading_a_slip_in_every_line(benchmark: BenchmarkFixture, points: int) -> None:
    source = Source("slips.draft", text_of(points, with_slips=True))
    _, messages = benchmark(parse, source)
    assert len(messages) == points


@pytest.mark.parametrize("points", [1250, 5000])
def test_tidying(benchmark: BenchmarkFixture, points: int) -> None:
    file, _ = parse(Source("long.draft", text_of(points)))
    assert benchmark(tidy, file).count("\n") == points + 3
