"""Many sizes at once against the same sizes one by one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import numpy
import pytest

from drafting.geometry.curves import circle
from drafting.geometry.maths import NotTogether, Parted
from drafting.geometry.varied import Array, Varied, many_sizes, of_size
from drafting.model.expressions import Operation
from drafting.solve.plan import Plan, Solution, make_plan
from tests.solve.sheets import Sheet, measure, number, plus
from tests.solve.test_influence import measured_sheet


def lots(plan: Plan, measures: Mapping[str, Array]) -> Iterator[tuple[list[int], Solution | None]]:
    """The sizes that go one way, by number, and what comes of them; None where they are to be worked out alone."""
    waiting = [numpy.arange(len(next(iter(measures.values()))))]
    while waiting:
        lot = waiting.pop()
        given: dict[str, Any] = {key: Varied(column[lot]) for key, column in measures.items()}
        try:
            with many_sizes():
                yield lot.tolist(), plan.evaluate(given)
        except NotTogether:
            yield lot.tolist(), None
        except Parted as parted:
            waiting += [lot[parted.ways == way] for way in numpy.unique(parted.ways)]


def check(sheet: Sheet, **measures: Array) -> int:
    """How many sizes were worked out together, all of them as each is alone."""
    plan = make_plan(sheet)
    n_together = 0
    for sizes, solution in lots(plan, measures):
        for at, size in enumerate(sizes if solution else ()):
            assert solution is not None
            expect_same(solution, plan.evaluate({key: column[size] for key, column in measures.items()}), at)
            n_together += 1
    return n_together


def expect_same(together: Solution, alone: Solution, at: int) -> None:
    assert [type(finding) for finding in together.findings] == [type(finding) for finding in alone.findings]
    assert together.values.keys() == alone.values.keys()
    for key, value in alone.values.items():
        own = of_size(together.values[key], at)
        if hasattr(value, "x"):
            assert own.distance_to(value) < 1e-9
        elif isinstance(value, float):
            assert own == pytest.approx(value, abs=1e-9)


WIDE = numpy.linspace(20, 130, 23)


def test_two_circles_some_of_which_miss() -> None:
    check(measured_sheet(), wide=WIDE)


def test_every_kind_of_fact_and_choice() -> None:
    sheet = measured_sheet()
    for key in ("a", "b", "c", "d", "e", "f", "g"):
        sheet.point(key)
    sheet.fact("ray", "a", "foot", measure("lean"))
    sheet.fact("distance", "a", "foot", measure("arm"))
    sheet.fact("between", "b", "a", "toe", measure("share"))
    sheet.fact("angle", "b", "foot", "c", plus(measure("lean"), number(10)))
    sheet.fact("distance", "c", "b", measure("arm"))
    sheet.choice("above", "c", "foot", "b")
    sheet.choice("farthest from", "c", "foot")
    sheet.fact("line distance", "d", "foot", "toe", 8)
    sheet.fact("on stretch", "d", "toe", "heel")
    sheet.fact("along", "e", "toe", "heel", measure("lean"))
    sheet.fact("mirror", "f", "e", "foot", "toe")
    sheet.fact("offset x", "g", "f", 3)
    sheet.fact("distance", "g", "f", measure("share"))
    sheet.choice("below", "g", "f")
    check(sheet, wide=WIDE, share=numpy.linspace(-1, 8, 23), lean=numpy.linspace(5, 30, 23))


def test_rings_and_functions() -> None:
    sheet = measured_sheet()
    sheet.computed("ring", ["toe", "lean"], circle)
    sheet.point("touch")
    sheet.fact("touching", "touch", "ring", "heel")
    sheet.choice("right of", "touch", "toe")
    sheet.point("in_it")
    sheet.fact("offset x", "in_it", "toe", 2)
    sheet.fact("distance", "in_it", "heel", 40)
    sheet.choice("inside", "in_it", "ring")
    check(sheet, wide=numpy.linspace(50, 70, 11))


def test_points_that_hang_on_each_other_and_forward_choices() -> None:
    sheet = measured_sheet()
    for key in ("knee", "elbow", "tip"):
        sheet.point(key)
    sheet.fact("distance", "knee", "foot", 30)
    sheet.fact("distance", "elbow", "heel", 25)
    sheet.fact("distance", "knee", "elbow", 40)
    sheet.fact("equal lengths", "knee", "heel", "elbow", "foot")
    sheet.choice("above", "knee", "foot")
    sheet.choice("below", "elbow", "heel")
    sheet.fact("offset x", "tip", "toe", 9)
    sheet.fact("distance", "tip", "toe", 12)
    sheet.choice("below", "tip", "toe")
    sheet.choice("above", "toe", "tip")
    check(sheet, wide=numpy.linspace(55, 65, 6))


def test_a_repeated_fact_fails_the_sizes_it_disagrees_with() -> None:
    sheet = measured_sheet()
    sheet.fact("offset x", "heel", "foot", 60)
    check(sheet, wide=numpy.array([59.0, 60.0, 61.0]))


def test_only_what_is_wanted_is_computed() -> None:
    sheet = measured_sheet()
    sheet.computed("ring", ["toe", "lean"], circle)
    sheet.computed("round", ["ring"], lambda ring: ring.length)
    sheet.computed("unused", ["toe"], lambda toe: 1 / 0)
    solution = make_plan(sheet).only(["round"]).evaluate({"lean": 2.0})
    assert solution.values["round"] == pytest.approx(4 * numpy.pi)
    assert "unused" not in solution.values and not solution.failures
    assert make_plan(sheet).evaluate({"lean": 2.0}).failures


# What is found by walking


def test_a_number_found_from_a_length() -> None:
    sheet = measured_sheet()
    sheet.unknown("radius", 1, 50)
    sheet.computed("ring", ["toe", "radius"], circle)
    sheet.computed("round", ["ring"], lambda ring: ring.length)
    sheet.fact("equation", measure("round"), measure("wide"))
    assert check(sheet, wide=numpy.linspace(50, 70, 41)) == 41


def test_choices_pick_among_what_is_found_in_each_size() -> None:
    sheet = measured_sheet()
    sheet.point("crest")
    sheet.fact("offset x", "crest", "foot", 30)
    sheet.computed("rim", ["foot", "crest", "heel"], lambda a, b, c: a.distance_to(b) + b.distance_to(c))
    sheet.fact("equation", measure("rim"), plus(measure("wide"), number(35)))
    sheet.choice("above", "crest", "foot")
    assert check(sheet, wide=numpy.linspace(55, 65, 21)) == 21


def humped() -> Sheet:
    """`slack` from a curve that rises to 16 at 4 and falls again, within a range that ends at 5."""
    sheet = Sheet()
    sheet.known("high", 10)
    sheet.unknown("slack", 0, 5)
    sheet.computed("hump", ["slack"], lambda slack: slack * (8 - slack))
    sheet.fact("equation", measure("hump"), measure("high"))
    return sheet


def test_sizes_with_one_solution_with_two_and_with_none() -> None:
    """One below 15, two from there on, one that touches at 16; those above, with none, are worked out alone."""
    assert check(humped(), high=numpy.arange(10.0, 18.0, 0.25)) == 25


def test_a_function_that_goes_two_ways() -> None:
    """Rising twice as fast from 3 on: the sizes try places on both sides."""
    sheet = Sheet()
    sheet.known("high", 10)
    sheet.unknown("slack", 0, 9)
    sheet.computed("ramp", ["slack"], lambda slack: slack if slack < 3 else 2 * slack - 3)
    sheet.fact("equation", measure("ramp"), measure("high"))
    assert check(sheet, high=numpy.linspace(0.5, 12.5, 37)) == 37


def test_points_that_hang_on_each_other_are_found_together() -> None:
    """A bar across a gable, as wide as it should be; where it is wider than its foot there is none."""
    sheet = measured_sheet()
    for key in ("left", "right"):
        sheet.point(key)
    sheet.fact("on stretch", "left", "foot", "toe")
    sheet.fact("on stretch", "right", "heel", "toe")
    sheet.fact("parallel", "left", "right", "foot", "heel")
    sheet.fact("distance", "left", "right", measure("lean"))
    assert check(sheet, wide=WIDE[6:12], lean=numpy.linspace(12, 30, 6)) == 6
    assert check(sheet, lean=numpy.linspace(30, 80, 21)) == 13


def test_ranges_that_vary() -> None:
    sheet = Sheet()
    sheet.known("low", 1)
    sheet.known("high", 10)
    sheet.unknown("slack", measure("low"), Operation("*", measure("low"), number(9)))
    sheet.computed("square", ["slack"], lambda slack: slack * slack)
    sheet.fact("equation", measure("square"), measure("high"))
    assert check(sheet, high=numpy.linspace(9, 20, 12), low=numpy.linspace(1, 2, 12)) == 12
