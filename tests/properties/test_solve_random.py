"""Random drawings: laid out first, then described by facts, then solved from the facts alone."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

import numpy
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares

from drafting.solve.findings import SeveralPlaces
from drafting.solve.plan import make_plan
from drafting.solve.system import System
from drafting.solve.verify import misfit

Place = tuple[float, float]
amounts = st.floats(-100, 100, allow_nan=False).map(lambda value: round(value, 3))
LEVEL_KINDS = ("offset x", "offset y", "ray")
"""Facts that speak of the sheet, not of the shape alone."""

SHAPE_KINDS = ("distance", "line distance", "angle")
RELATIONS = ("on line", "square off", "equal lengths")


@dataclass
class Layout:
    """Where points are, and facts that are true of them: kind, operands, and the amount if there is one."""

    places: dict[str, Place]
    facts: list[tuple[str, tuple[str, ...], float | None]] = field(default_factory=list)

    def system(self, turn: float = 0.0, scale: float = 1.0, move: Place = (0.0, 0.0)) -> System:
        """The facts of this layout turned, scaled and moved as a whole; each point is to be the one nearest its place."""
        system = System()
        told = {key for _, (key, *_), _ in self.facts}
        for key, place in self.places.items():
            goal = transformed(place, turn, scale, move)
            system.point(key)
            if key not in told:
                system.fact("coordinate x", key, goal[0])
                system.fact("coordinate y", key, goal[1])
                continue
            system.known(f"{key} goal x", goal[0])
            system.known(f"{key} goal y", goal[1])
            system.point(f"{key} goal")
            system.fact("coordinate x", f"{key} goal", f"{key} goal x")
            system.fact("coordinate y", f"{key} goal", f"{key} goal y")
            system.choice("nearest", key, f"{key} goal")
        for kind, operands, amount in self.facts:
            if amount is None:
                system.fact(kind, *operands)
            elif kind == "ray":
                system.fact(kind, *operands, amount + math.degrees(turn))
            elif kind == "angle":
                system.fact(kind, *operands, amount)
            else:
                system.fact(kind, *operands, amount * scale)
        return system


def transformed(place: Place, turn: float, scale: float, move: Place) -> Place:
    x, y = place
    return (
        scale * (x * math.cos(turn) - y * math.sin(turn)) + move[0],
        scale * (x * math.sin(turn) + y * math.cos(turn)) + move[1],
    )


def describe(draw: st.DrawFn, layout: Layout, key: str, place: Place, level: bool) -> Place:
    """Add one true fact about a new point; the direction in which it holds the point, a vector of length 1."""
    kind = draw(st.sampled_from(SHAPE_KINDS + LEVEL_KINDS if level else SHAPE_KINDS))
    one, other = draw(st.permutations(list(layout.places)))[:2]
    (ax, ay), (bx, by) = layout.places[one], layout.places[other]
    from_one = (place[0] - ax, place[1] - ay)
    way = unit((bx - ax, by - ay))
    if kind in ("offset x", "offset y"):
        index = "xy".index(kind[-1])
        layout.facts.append((kind, (key, one), from_one[index]))
        return (1.0, 0.0) if index == 0 else (0.0, 1.0)
    if kind == "distance":
        layout.facts.append((kind, (key, one), math.hypot(*from_one)))
        return unit(from_one)
    if kind == "ray":
        layout.facts.append((kind, (key, one), math.degrees(math.atan2(from_one[1], from_one[0]))))
        return across(unit(from_one))
    off = way[0] * from_one[1] - way[1] * from_one[0]
    along = way[0] * from_one[0] + way[1] * from_one[1]
    if kind == "line distance":
        assume(abs(off) > 1)
        layout.facts.append((kind, (key, one, other), abs(off)))
        return across(way)
    turn = math.atan2(abs(off), along)
    assume(0.1 < turn < 3.0)
    layout.facts.append((kind, (key, one, other), math.degrees(turn)))
    return across(unit(from_one))


def relate(draw: st.DrawFn, layout: Layout, key: str) -> tuple[Place, Place]:
    """Lay a new point in a relation to two earlier ones, and tell it; the place, and the direction that is held."""
    kind = draw(st.sampled_from(RELATIONS))
    one, other = draw(st.permutations(list(layout.places)))[:2]
    (ax, ay), (bx, by) = layout.places[one], layout.places[other]
    way = unit((bx - ax, by - ay))
    side = across(way)
    far = draw(amounts)
    if kind == "on line":
        layout.facts.append((kind, (key, one, other), None))
        return (ax + far * way[0], ay + far * way[1]), side
    if kind == "square off":
        layout.facts.append((kind, (key, one, other, one), None))
        return (ax + far * side[0], ay + far * side[1]), way
    layout.facts.append((kind, (key, one, key, other), None))
    return ((ax + bx) / 2 + far * side[0], (ay + by) / 2 + far * side[1]), way


def unit(vector: Place) -> Place:
    length = math.hypot(*vector)
    assume(length > 2)
    return vector[0] / length, vector[1] / length


def across(vector: Place) -> Place:
    return -vector[1], vector[0]


def apart_from(layout: Layout, place: Place) -> bool:
    return all(math.dist(place, other) > 5 for other in layout.places.values())


@st.composite
def layouts(draw: st.DrawFn, level: bool = True) -> Layout:
    """A base of two points, and up to eight more, each by two facts that hold it well from the earlier ones."""
    layout = Layout(
        {"base": (0.0, 0.0), "post": (draw(amounts.filter(lambda v: abs(v) > 10)), draw(amounts))}
    )
    for index in range(draw(st.integers(1, 8))):
        key = f"p{index}"
        if draw(st.integers(0, 3)) == 0:
            place, one = relate(draw, layout, key)
        else:
            place = (draw(amounts), draw(amounts))
            one = describe(draw, layout, key, place, level)
        assume(apart_from(layout, place))
        other = describe(draw, layout, key, place, level)
        assume(abs(one[0] * other[1] - one[1] * other[0]) > 0.2)
        layout.places[key] = place
    return layout


def agree(found: Any, place: Place, within: float = 1e-6) -> bool:
    return math.dist((found.x, found.y), place) <= within


RELAXED = settings(suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow], max_examples=40)


@RELAXED
@given(layouts())
def test_every_point_is_found_again_from_its_facts(layout: Layout) -> None:
    """All facts hold, and of all places the one nearest the first layout is that layout."""
    plan = make_plan(layout.system())
    run = plan.run()
    assert run.findings == []
    for equation in plan.layout.equations:
        assert abs(misfit(equation, run.values)) < 1e-8
    values = plan.evaluate().values
    for key, place in layout.places.items():
        assert agree(values[key], place)


@RELAXED
@given(layouts(), amounts, amounts)
def test_moving_the_base_moves_all(layout: Layout, x: float, y: float) -> None:
    values = make_plan(layout.system(move=(x, y))).evaluate().values
    for key, place in layout.places.items():
        assert agree(values[key], (place[0] + x, place[1] + y))


@RELAXED
@given(layouts(level=False), st.floats(-3, 3))
def test_turning_the_base_turns_all(layout: Layout, turn: float) -> None:
    values = make_plan(layout.system(turn=turn)).evaluate().values
    for key, place in layout.places.items():
        assert agree(values[key], transformed(place, turn, 1.0, (0.0, 0.0)))


@RELAXED
@given(layouts(), st.floats(0.05, 40))
def test_scaling_all_lengths_scales_all(layout: Layout, scale: float) -> None:
    values = make_plan(layout.system(scale=scale)).evaluate().values
    for key, place in layout.places.items():
        assert agree(values[key], (place[0] * scale, place[1] * scale), within=1e-6 * max(1.0, scale))


@RELAXED
@given(layouts())
def test_an_independent_search_settles_on_the_same_places(layout: Layout) -> None:
    """scipy's least squares, on residuals written anew, started a little off each place."""
    keys = [key for key in layout.places if key not in ("base", "post")]
    true = numpy.array([part for key in keys for part in layout.places[key]])

    def off(numbers: Any) -> list[float]:
        at = {"base": layout.places["base"], "post": layout.places["post"]}
        at |= {key: (numbers[2 * i], numbers[2 * i + 1]) for i, key in enumerate(keys)}
        return [
            residual(kind, [at[one] for one in operands], amount) for kind, operands, amount in layout.facts
        ]

    found = least_squares(off, true + 1e-3, xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assume(found.cost < 1e-16)
    values = make_plan(layout.system()).evaluate().values
    for index, key in enumerate(keys):
        assert agree(values[key], tuple(found.x[2 * index : 2 * index + 2]), within=1e-5)


def residual(kind: str, points: list[Place], amount: float | None) -> float:
    """In complex numbers, so as to share nothing with the solver."""
    z = [complex(*point) for point in points]
    if kind == "offset x":
        return (z[0] - z[1]).real - (amount or 0)
    if kind == "offset y":
        return (z[0] - z[1]).imag - (amount or 0)
    if kind == "distance":
        return abs(z[0] - z[1]) - (amount or 0)
    if kind == "ray":
        return ((z[0] - z[1]) * numpy.exp(-1j * math.radians(amount or 0))).imag
    if kind == "line distance":
        return abs(((z[0] - z[1]) / (z[2] - z[1])).imag) * abs(z[2] - z[1]) - (amount or 0)
    if kind == "angle":
        return abs(numpy.angle((z[0] - z[1]) / (z[2] - z[1]))) - math.radians(amount or 0)
    if kind == "equal lengths":
        return abs(z[0] - z[1]) - abs(z[2] - z[3])
    if kind == "on line":
        return ((z[0] - z[1]) / (z[2] - z[1])).imag
    return ((z[0] - z[3]) / (z[2] - z[1])).real


@settings(suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow], max_examples=40)
@given(st.data())
def test_points_that_hang_on_each_other_are_found_again(data: st.DataObject) -> None:
    """Two points, each by one fact from the base and two that tie them; the places they were laid at are among those
    found."""
    posts = {"a": (0.0, 0.0), "b": (70.0, 5.0), "c": (20.0, -60.0)}
    p = (data.draw(amounts), data.draw(amounts))
    q = (data.draw(amounts), data.draw(amounts))
    places = [*posts.values(), p, q]
    assume(min(math.dist(one, other) for i, one in enumerate(places) for other in places[:i]) > 8)
    system = System()
    for key, (x, y) in posts.items():
        system.point(key)
        system.fact("coordinate x", key, x)
        system.fact("coordinate y", key, y)
    system.point("p")
    system.point("q")
    system.fact("distance", "p", "a", math.dist(p, posts["a"]))
    system.fact("distance", "q", "b", math.dist(q, posts["b"]))
    rows = [[*unit((p[0], p[1])), 0.0, 0.0], [0.0, 0.0, *unit((q[0] - 70.0, q[1] - 5.0))]]
    tie = unit((p[0] - q[0], p[1] - q[1]))
    system.fact("distance", "p", "q", math.dist(p, q))
    rows.append([*tie, -tie[0], -tie[1]])
    if data.draw(st.booleans()):
        system.fact("offset y", "q", "p", q[1] - p[1])
        rows.append([0.0, -1.0, 0.0, 1.0])
    else:
        turn = numpy.angle(complex(p[0] - q[0], p[1] - q[1]) / complex(20.0 - q[0], -60.0 - q[1]))
        assume(0.2 < abs(turn) < 2.9)
        system.fact("angle", "p", "q", "c", math.degrees(abs(turn)))
        to_p, to_c = (p[0] - q[0], p[1] - q[1]), (20.0 - q[0], -60.0 - q[1])
        by_p = (-to_p[1] / (to_p[0] ** 2 + to_p[1] ** 2), to_p[0] / (to_p[0] ** 2 + to_p[1] ** 2))
        by_c = (-to_c[1] / (to_c[0] ** 2 + to_c[1] ** 2), to_c[0] / (to_c[0] ** 2 + to_c[1] ** 2))
        row = [by_p[0], by_p[1], by_c[0] - by_p[0], by_c[1] - by_p[1]]
        rows.append([part / math.hypot(*row) for part in row])
    assume(numpy.linalg.svd(numpy.array(rows))[1][-1] > 0.05)
    solution = make_plan(system).evaluate()
    found = [{"p": solution.values.get("p"), "q": solution.values.get("q")}]
    if solution.findings:
        [finding] = solution.findings
        assert isinstance(finding, SeveralPlaces)
        solutions = finding.solutions or tuple(((finding.key, place),) for place in finding.places)
        if finding.keys == ("q",):
            assert any(math.dist(place, q) < 1e-5 for place in finding.places)
            return
        assert any(
            all(math.dist(place, {"p": p, "q": q}[key]) < 1e-5 for key, place in one) for one in solutions
        )
        return
    assert agree(found[0]["p"], p, 1e-5)
    assert agree(found[0]["q"], q, 1e-5)


EVERY_FACT = (
    ("offset x", "PPs"),
    ("offset y", "PPs"),
    ("coordinate x", "Ps"),
    ("coordinate y", "Ps"),
    ("distance", "PPs"),
    ("line distance", "PPPs"),
    ("on line", "PPP"),
    ("on stretch", "PPP"),
    ("square off", "PPPP"),
    ("ray", "PPs"),
    ("at", "PP"),
    ("between", "PPPs"),
    ("along", "PPPs"),
    ("mirror", "PPPP"),
    ("parallel", "PPPP"),
    ("square", "PPPP"),
    ("equal lengths", "PPPP"),
    ("angle", "PPPs"),
)


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(st.data())
def test_no_heap_of_facts_makes_it_stumble(data: st.DataObject) -> None:
    """Facts and choices thrown together, mostly nonsense: every one is answered by places or by findings."""
    keys = [f"p{index}" for index in range(data.draw(st.integers(1, 4)))]
    system = System()
    for key in keys:
        system.point(key)
    if len(keys) > 2:
        system.computed("twin", keys[:3], lambda p, a, b: p.mirrored(a, b))
        keys.append("twin")
    some_key = st.sampled_from(keys)
    for _ in range(data.draw(st.integers(0, 8))):
        kind, roles = data.draw(st.sampled_from(EVERY_FACT))
        operands = [data.draw(some_key) if role == "P" else data.draw(st.integers(-20, 90)) for role in roles]
        system.fact(kind, *operands)
    for _ in range(data.draw(st.integers(0, 3))):
        kind = data.draw(st.sampled_from(["above", "left of", "nearest", "farthest from"]))
        system.choice(kind, data.draw(some_key), data.draw(some_key))
    plan = make_plan(system)
    solution = plan.evaluate()
    unplaced = [key for key in keys if key not in solution.values]
    assert not unplaced or solution.findings or solution.failures
    for key in solution.values:
        plan.explain(key)


def test_the_helper_sees_a_wrong_place() -> None:
    """`residual` must be able to fail: it is nought at the place told of and nowhere beside it."""
    assert residual("distance", [(3.0, 4.0), (0.0, 0.0)], 5.0) == pytest.approx(0)
    assert residual("distance", [(3.1, 4.0), (0.0, 0.0)], 5.0) != pytest.approx(0, abs=1e-3)
