"""How planning and solving grow with the number of points, beside one whole-system `sympy.solve`.

The baseline is a ladder of five points given to `sympy.solve` at once; each figure stands as a ratio to it under
`extra_info`, with the growth exponent between 200 and 5,000 points. Every run is checked: each point must come to the
place it was made from. Run with `pytest tests/benchmarks/test_solving.py`.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from functools import cache
from math import hypot, log
from typing import Any

import numpy
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from drafting.geometry.point import Point
from drafting.geometry.varied import Varied, many_sizes
from drafting.model.expressions import Value
from drafting.solve.plan import make_plan
from drafting.solve.system import System

Places = dict[str, tuple[float, float]]
FEW, MANY, SIZES = 200, 5000, 1000


def based(system: System) -> None:
    """A rung from (0, 0) to (40, 0) that everything else stands on."""
    system.known("rise", 30)
    system.known("across", 40)
    for key in ("a0", "b0"):
        system.point(key)
    system.fact("coordinate x", "a0", 0)
    system.fact("coordinate y", "a0", 0)
    system.fact("offset x", "b0", "a0", Value("across"))
    system.fact("offset y", "b0", "a0", 0)


def ladder(count: int) -> tuple[System, Places]:
    """Rungs of two points, each by two distances from the rung below; the upper place is chosen."""
    system, places = System(), {"a0": (0.0, 0.0), "b0": (40.0, 0.0)}
    based(system)
    for rung in range(1, count // 2):
        for own, other in (("a", "b"), ("b", "a")):
            key = f"{own}{rung}"
            system.point(key)
            system.fact("distance", key, f"{own}{rung - 1}", Value("rise"))
            system.fact("distance", key, f"{other}{rung - 1}", hypot(30, 40))
            system.choice("above", key, f"{own}{rung - 1}")
            places[key] = (0.0 if own == "a" else 40.0, 30.0 * rung)
    return system, places


def chain(count: int) -> tuple[System, Places]:
    """Each point so far right of and above the one before."""
    system, places = System(), {"a0": (0.0, 0.0), "b0": (40.0, 0.0)}
    based(system)
    for index in range(1, count - 1):
        key, before = f"a{index}", f"a{index - 1}"
        system.point(key)
        system.fact("offset x", key, before, 3)
        system.fact("offset y", key, before, 4)
        places[key] = (3.0 * index, 4.0 * index)
    return system, places


def mixed(count: int) -> tuple[System, Places]:
    """Rungs by two distances, and every fifth by two points that hang on each other."""
    system, places = System(), {"a0": (0.0, 0.0), "b0": (40.0, 0.0)}
    based(system)
    for rung in range(1, count // 2):
        a, b, a_below, b_below = f"a{rung}", f"b{rung}", f"a{rung - 1}", f"b{rung - 1}"
        system.point(a)
        system.point(b)
        system.fact("distance", a, a_below, Value("rise"))
        system.fact("distance", b, b_below, Value("rise"))
        if rung % 5:
            system.fact("distance", a, b_below, hypot(30, 40))
            system.fact("distance", b, a_below, hypot(30, 40))
        else:
            system.fact("distance", a, b, Value("across"))
            system.fact("square", a_below, a, a, b)
        system.choice("above", a, a_below)
        system.choice("above", b, b_below)
        places[a], places[b] = (0.0, 30.0 * rung), (40.0, 30.0 * rung)
    return system, places


KINDS: dict[str, Callable[[int], tuple[System, Places]]] = {"ladder": ladder, "chain": chain, "mixed": mixed}


def solve(system: System, places: Places) -> float:
    """Plan and evaluate; the largest distance of a point from the place it was made from, in mm."""
    values = make_plan(system).evaluate().values
    found = {key: values[key] for key in places}
    return max(found[key].distance_to(Point(*place)) for key, place in places.items())


def seconds(kind: str, count: int) -> float:
    system, places = KINDS[kind](count)
    start = time.perf_counter()
    worst = solve(system, places)
    taken = time.perf_counter() - start
    assert worst < 1e-6
    return taken


@cache
def baseline() -> float:
    """`sympy.solve` of a ladder of five points pinned by two distances each."""
    import sympy

    unknowns, equations = [], []
    rails = {"a": [(sympy.Integer(0), sympy.Integer(0))], "b": [(sympy.Integer(40), sympy.Integer(0))]}
    for index in range(5):
        own, other = ("a", "b") if index % 2 == 0 else ("b", "a")
        x, y = sympy.symbols(f"x{index} y{index}", real=True)
        below, across = rails[own][-1], rails[other][(index // 2)]
        unknowns += [x, y]
        equations += [
            (x - below[0]) ** 2 + (y - below[1]) ** 2 - 900,
            (x - across[0]) ** 2 + (y - across[1]) ** 2 - 2500,
        ]
        rails[own].append((below[0], below[1] + 30))
    start = time.perf_counter()
    sympy.solve(equations, unknowns, dict=True)
    return time.perf_counter() - start


@pytest.mark.benchmark(group="plan and solve 5,000 points")
@pytest.mark.parametrize("kind", KINDS)
def test_plan_and_solve(benchmark: BenchmarkFixture, kind: str) -> None:
    system, places = KINDS[kind](MANY)
    turns = [(seconds(kind, FEW), seconds(kind, MANY)) for _ in range(6)]
    few, many = min(few for few, _ in turns), min(many for _, many in turns)
    benchmark.extra_info["growth exponent"] = round(log(many / few) / log(MANY / FEW), 3)
    benchmark.extra_info["ratio to sympy.solve of five points"] = round(many / baseline(), 2)
    benchmark.extra_info["seconds"] = round(many, 3)
    benchmark.extra_info["worst, mm"] = solve(system, places)
    benchmark.pedantic(lambda: solve(*KINDS[kind](MANY)), rounds=3)


@pytest.mark.benchmark(group="1,000 sizes of 200 points")
@pytest.mark.parametrize("kind", ("ladder", "chain"))
def test_many_sizes_at_once(benchmark: BenchmarkFixture, kind: str) -> None:
    system, _ = KINDS[kind](FEW)
    plan = make_plan(system)
    rises = numpy.linspace(29.0, 31.0, SIZES)
    rise: Any = Varied(rises)
    with many_sizes():
        plan.evaluate({"rise": rise})
        benchmark(lambda: plan.evaluate({"rise": rise}))
    one = min(seconds(kind, FEW) for _ in range(3))
    benchmark.extra_info["ratio to planning and solving one size"] = round(benchmark.stats.stats.min / one, 2)
