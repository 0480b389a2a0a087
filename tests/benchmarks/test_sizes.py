"""Sweeps of 10,000 sizes: all at once, beside as many worked out one by one, and with all rules in several processes.

Figures stand under `extra_info` as ratios to one size worked out alone. Run with
`pytest tests/benchmarks/test_sizes.py`.
"""

from __future__ import annotations

import time

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

import drafting
from drafting.craft.lists.in_processes import rows_of
from drafting.craft.lists.quick_sizes import quick_rows
from drafting.craft.lists.sizing import sized_row

SWEEPS = {
    "badge-holder": ("rim", "8mm..12mm/0.0004mm"),
    "hatch-tag": ("rim", "9mm..13mm/0.0004mm"),
    "belt": ("waist", "80cm..90cm/0.01mm"),
}
JUDGED = 200
"""Sizes worked out with their rules; 10,000 are reckoned from them."""


@pytest.mark.benchmark(group="10,000 sizes")
@pytest.mark.parametrize("name", SWEEPS)
def test_ten_thousand_sizes(benchmark: BenchmarkFixture, name: str) -> None:
    pattern = drafting.load(f"patterns/{name}.draft")
    measure, text = SWEEPS[name]
    asked = pattern.asked_sizes(pattern.sizes[0], {measure: text})
    sized_row(pattern.draft, asked[0])
    start = time.perf_counter()
    for one in asked[:: len(asked) // 5]:
        sized_row(pattern.draft, one)
    alone = (time.perf_counter() - start) / 6
    start = time.perf_counter()
    assert not any(row.is_judged for row in quick_rows(pattern.draft, asked))
    quick = time.perf_counter() - start
    start = time.perf_counter()
    assert len(list(rows_of(pattern.draft, asked[:JUDGED]))) == JUDGED
    judged = (time.perf_counter() - start) / JUDGED
    benchmark.extra_info["seconds at once"] = round(quick, 2)
    benchmark.extra_info["seconds with rules, reckoned"] = round(judged * len(asked), 1)
    benchmark.extra_info["one by one against at once"] = round(alone * len(asked) / quick)
    benchmark.extra_info["one by one against several processes"] = round(alone / judged, 2)
    benchmark.pedantic(lambda: list(quick_rows(pattern.draft, asked)), rounds=3)
