"""How long a maker waits for `awlwright check` from cold, beside importing the libraries it stands on.

The baseline is `import sympy, shapely, lark` in a fresh Python, in the same run; the aim is at most twice that.
Run with `pytest tests/benchmarks/test_cold_start.py`.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path
from statistics import median

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

ROOT = Path(__file__).parents[2]
PATTERNS = sorted((ROOT / "patterns").glob("*.draft"))
BADGE = ROOT / "patterns" / "badge-holder.draft"
ROUNDS = 7


AS_INSTALLED = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
"""Installing compiles a package; where a shell forbids Python to do so, a working copy would be compiled at each run."""


def run(*arguments: str) -> None:
    subprocess.run([sys.executable, *arguments], check=True, capture_output=True, cwd=ROOT, env=AS_INSTALLED)


def import_libraries() -> None:
    run("-c", "import sympy, shapely, lark")


def check(pattern: Path) -> None:
    run("-m", "drafting", "check", str(pattern))


def check_badge() -> None:
    check(BADGE)


def seconds(what: object) -> float:
    start = time.perf_counter()
    what()  # type: ignore[operator]
    return time.perf_counter() - start


@pytest.mark.benchmark(group="cold start", min_rounds=ROUNDS)
def test_import_of_the_libraries(benchmark: BenchmarkFixture) -> None:
    benchmark(import_libraries)


@pytest.mark.benchmark(group="cold start", min_rounds=ROUNDS)
def test_check_of_the_badge_holder(benchmark: BenchmarkFixture) -> None:
    """The ratio to the baseline, each taken in turn with the other, stands under `extra_info`."""
    check_badge()
    pairs = [(seconds(check_badge), seconds(import_libraries)) for _ in range(ROUNDS)]
    ratio = median(ours / theirs for ours, theirs in pairs)
    benchmark.extra_info["ratio to the libraries' import"] = round(ratio, 2)
    benchmark(check_badge)


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.stem)
@pytest.mark.benchmark(group="cold check of a pattern", min_rounds=3)
def test_check_of_every_pattern(benchmark: BenchmarkFixture, pattern: Path) -> None:
    """All its sizes with all their rules; the aim is below a second on a desk machine."""
    pairs = [(seconds(lambda: check(pattern)), seconds(import_libraries)) for _ in range(3)]
    ratio = median(ours / theirs for ours, theirs in pairs)
    benchmark.extra_info["ratio to the libraries' import"] = round(ratio, 2)
    benchmark(check, pattern)
