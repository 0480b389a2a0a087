"""How long solving takes, and how it grows; `pytest tests/benchmarks`.

Absolute times drift with the machine, so each report also gives ratios: against a plain `sympy.solve` of a whole short
ladder (of four points it takes minutes), and against the same system a fraction of the size.
"""

from __future__ import annotations

import math
import time
from fractions import Fraction
from typing import Any

import numpy
import pytest
import sympy
from pytest_benchmark.fixture import BenchmarkFixture

from drafting.geometry.varied import Varied, many_sizes
from drafting.model.expressions import Constant, Operation, Value
from drafting.solve.plan import Plan, Solution, make_plan
from drafting.solve.system import System
from drafting.solve.verify import misfit


def started(system: System) -> None:
    """Two fixed points, 30 mm apart, to go on from."""
    for key, x, y in (("p0", 0, 0), ("p1", 0, 30)):
        system.point(key)
        system.fact("coordinate x", key, x)
        system.fact("coordinate y", key, y)


MORE_THAN_A_RUNG = Fraction(math.hypot(20, 30) - 30)


def ladder(n_points: int) -> System:
    """Each point by two distances from the two before it."""
    system = System()
    system.known("rung", 30)
    started(system)
    for index in range(2, n_points):
        rung(system, index)
    return system


def rung(system: System, index: int) -> None:
    key = f"p{index}"
    system.point(key)
    system.fact("distance", key, f"p{index - 2}", 20)
    length = Operation("+", Value("rung"), Constant(MORE_THAN_A_RUNG)) if index % 2 == 0 else Value("rung")
    system.fact("distance", key, f"p{index - 1}", length)
    system.choice("right of", key, f"p{index - 2}")


def chain(n_points: int) -> System:
    """Each point from the one before it, in three ways by turns."""
    system = System()
    system.known("step", 7)
    started(system)
    for index in range(2, n_points):
        key, before = f"p{index}", f"p{index - 1}"
        system.point(key)
        if index % 3 == 0:
            system.fact("offset y", key, before, 0)
            system.fact("offset x", key, before, Value("step"))
        elif index % 3 == 1:
            system.fact("ray", key, before, 30)
            system.fact("distance", key, before, Value("step"))
        else:
            system.fact("offset x", key, before, 3)
            system.fact("distance", key, before, 5)
            system.choice("below", key, before)
    return system


def mixed(n_points: int) -> System:
    """A ladder in which of every ten points two hang on each other and can only be found together."""
    system = System()
    system.known("rung", 30)
    started(system)
    index = 2
    while index < n_points:
        if index % 10 == 8 and index + 1 < n_points:
            coupled_pair(system, index)
            index += 2
        else:
            rung(system, index)
            index += 1
    return system


def coupled_pair(system: System, index: int) -> None:
    before, last, one, other = (f"p{number}" for number in range(index - 2, index + 2))
    for key, post in ((one, before), (other, last)):
        system.point(key)
        system.fact("distance", key, post, 20)
        system.choice("right of", key, post)
    system.fact("distance", one, other, Value("rung"))
    system.fact("equal lengths", one, last, other, before)


SYSTEMS = {"ladder": ladder, "chain": chain, "mixed": mixed}
SIZES = (200, 1000, 5000)


def planned_and_solved(system: System) -> tuple[Plan, Solution]:
    plan = make_plan(system)
    return plan, plan.evaluate()


def expect_right(plan: Plan, solution: Solution, n_points: int) -> None:
    """Every point placed, every fact within 1e-9 mm, and the branch that runs on to the right everywhere."""
    assert solution.findings == ()
    assert len(solution.values) >= n_points
    run = plan.run()
    assert max(abs(misfit(equation, run.values)) for equation in plan.layout.equations) < 1e-9
    places = [solution.values[f"p{index}"] for index in range(n_points)]
    assert all(later.x > earlier.x for earlier, later in zip(places, places[2:], strict=False))


@pytest.mark.parametrize("n_points", SIZES)
@pytest.mark.parametrize("name", SYSTEMS)
def test_plan_and_one_evaluation(benchmark: BenchmarkFixture, name: str, n_points: int) -> None:
    system = SYSTEMS[name](n_points)
    benchmark.group = f"plan and evaluate {name}"
    plan, solution = benchmark.pedantic(planned_and_solved, args=(system,), rounds=3, warmup_rounds=1)
    expect_right(plan, solution, n_points)


@pytest.mark.parametrize("name", SYSTEMS)
def test_growth_from_200_to_5000_points(benchmark: BenchmarkFixture, name: str) -> None:
    """The exponent k of time ~ points ** k, from the best of three runs at each end."""

    def exponent() -> float:
        small, large = (best_of_three(SYSTEMS[name](n_points)) for n_points in (SIZES[0], SIZES[-1]))
        return math.log(large / small) / math.log(SIZES[-1] / SIZES[0])

    benchmark.extra_info["exponent"] = round(benchmark.pedantic(exponent, rounds=1), 3)


def best_of_three(system: System) -> float:
    times = []
    for _ in range(3):
        start = time.process_time()
        planned_and_solved(system)
        times.append(time.process_time() - start)
    return min(times)


def whole_ladder_by_sympy(n_points: int) -> int:
    """All equations of a ladder given to sympy at once, the way this solver does not go; the number of solutions."""
    unknowns, equations = [], []
    places: list[tuple[object, object]] = [(0, 0), (0, 30)]
    for index in range(2, n_points + 2):
        x, y = sympy.symbols(f"x{index} y{index}")
        unknowns += [x, y]
        for (ax, ay), squared in zip(places[-2:], (400, 1300 if index % 2 == 0 else 900), strict=True):
            equations.append((x - ax) ** 2 + (y - ay) ** 2 - squared)
        places.append((x, y))
    return len(sympy.solve(equations, unknowns))


@pytest.mark.parametrize("n_points", [1, 2, 3])
def test_against_sympy_on_the_whole_ladder(benchmark: BenchmarkFixture, n_points: int) -> None:
    """`ratio` is how many times longer the whole takes in sympy.solve than here, plan and all."""
    benchmark.group = "a short ladder"
    system = ladder(n_points + 2)
    benchmark(planned_and_solved, system)
    start = time.perf_counter()
    assert whole_ladder_by_sympy(n_points) > 0
    by_sympy = time.perf_counter() - start
    ours = benchmark.stats.stats.min if benchmark.stats else math.inf
    benchmark.extra_info["ratio"] = round(by_sympy / ours)


def test_a_thousand_sizes_of_200_points(benchmark: BenchmarkFixture) -> None:
    """`ratio` is how many times longer the sizes take one by one."""
    plan = make_plan(ladder(200))
    rungs = numpy.linspace(29.5, 30.5, 1000)
    rung: Any = Varied(rungs)
    with many_sizes():
        solution = benchmark(plan.evaluate, {"rung": rung})
    assert not solution.findings
    start = time.perf_counter()
    for rung_length in rungs[::50]:
        plan.evaluate({"rung": rung_length})
    one_by_one = (time.perf_counter() - start) * 50
    ours = benchmark.stats.stats.min if benchmark.stats else math.inf
    benchmark.extra_info["ratio"] = round(one_by_one / ours, 1)


def test_influence_on_the_last_of_5000_points(benchmark: BenchmarkFixture) -> None:
    plan = make_plan(ladder(5000))
    influence = benchmark.pedantic(plan.influence, args=("p4999",), rounds=3)
    assert influence
