"""Sweeps of 10,000 sizes: with all rules and quick, beside as many worked out one by one.

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
from drafting.craft.lists.sizing import Asked, Settings, sized_row
from drafting.solve.draft import Draft
from tests.craft.test_at_once import MOVED
from tests.solve.forgetting import forget

SWEEPS = {
    "badge-holder": ("rim", "8mm..12mm/0.0004mm"),
    "hatch-tag": ("rim", "9mm..13mm/0.0004mm"),
    "belt": ("waist", "80cm..90cm/0.01mm"),
    "key-fob": ("bowl_d", "44mm..48mm/0.0004mm"),
    "tool-panel": ("margin", "9mm..13mm/0.0004mm"),
}


@pytest.mark.benchmark(group="10,000 sizes")
@pytest.mark.parametrize("name", SWEEPS)
def test_ten_thousand_sizes(benchmark: BenchmarkFixture, name: str) -> None:
    """The timed run has all rules; the time of a quick one and of one size alone stand beside it."""
    pattern = drafting.load(f"patterns/{name}.draft")
    measure, text = SWEEPS[name]
    asked = pattern.asked_sizes(pattern.sizes[0] if pattern.sizes else None, {measure: text})
    sized_row(pattern.draft, asked[0])
    start = time.perf_counter()
    for one in asked[:: len(asked) // 5]:
        sized_row(pattern.draft, one)
    alone = (time.perf_counter() - start) / 6
    start = time.perf_counter()
    assert not any(row.is_judged for row in quick_rows(pattern.draft, asked))
    quick = time.perf_counter() - start
    start = time.perf_counter()
    rows = benchmark.pedantic(lambda: list(rows_of(pattern.draft, asked)), rounds=1)
    judged = time.perf_counter() - start
    assert len(rows) == len(asked)
    assert all(row.is_judged for row in rows)
    benchmark.extra_info["seconds quick"] = round(quick, 2)
    benchmark.extra_info["seconds with rules"] = round(judged, 1)
    benchmark.extra_info["one by one against quick"] = round(alone * len(asked) / quick)
    benchmark.extra_info["one by one against with rules"] = round(alone * len(asked) / judged, 1)


@pytest.mark.benchmark(group="10,000 bare sizes")
@pytest.mark.parametrize("name", MOVED)
def test_ten_thousand_bare_sizes(benchmark: BenchmarkFixture, name: str) -> None:
    """The time of the processor that `--quick` takes, all in one process."""
    pattern = drafting.load(f"patterns/{name}.draft")
    asked = _swept(pattern, MOVED[name], 4, 0.0004)
    start = time.process_time()
    rows = benchmark.pedantic(lambda: list(quick_rows(pattern.draft, asked)), rounds=1)
    benchmark.extra_info["seconds of one processor"] = round(time.process_time() - start, 2)
    assert not any(row.is_judged for row in rows)


FEW = 24


@pytest.mark.benchmark(group="sizes with rules")
@pytest.mark.parametrize("name", MOVED)
def test_sizes_with_rules(benchmark: BenchmarkFixture, name: str) -> None:
    """In one process, by the time of the processor: a size of a sweep against one after which nothing is remembered."""
    pattern = drafting.load(f"patterns/{name}.draft")
    asked = _swept(pattern, MOVED[name], 0.001 * FEW, 0.001)
    sized_row(pattern.draft, asked[0])
    start = time.process_time()
    for one in asked[1 : FEW // 4]:
        _forget(pattern.draft)
        sized_row(pattern.draft, one)
    alone = (time.process_time() - start) / (FEW // 4 - 1)
    pattern.draft.fits.clear()
    start = time.process_time()
    rows = benchmark.pedantic(lambda: [sized_row(pattern.draft, one) for one in asked], rounds=1)
    in_turn = (time.process_time() - start) / len(rows)
    assert all(row.is_judged for row in rows)
    benchmark.extra_info["one alone against one of a sweep"] = round(alone / in_turn, 2)
    benchmark.extra_info["seconds of one processor for 10,000, reckoned"] = round(10_000 * in_turn)


def _swept(pattern: drafting.Pattern, measure: str, more: float, step: float) -> list[Asked]:
    """The first size, a measure of it moved up to so many mm further."""
    title = (pattern.sizes or (None,))[0]
    value = pattern.draft.size(*_given(pattern, title)).drawn.measures[measure]
    return pattern.asked_sizes(title, {measure: f"{value:g}mm..{value + more:g}mm/{step:g}mm"})


def _given(pattern: drafting.Pattern, title: str | None) -> tuple[str | None, Settings]:
    (asked, *_) = pattern.asked_sizes(title, {})
    return asked.title, asked.settings


def _forget(draft: Draft) -> None:
    for planned in draft.plans.values():
        forget(planned)
