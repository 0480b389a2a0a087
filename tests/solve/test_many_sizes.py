"""Many sizes at once against the same sizes one by one."""

from __future__ import annotations

import math

import numpy
import pytest

from drafting.geometry.curves import circle
from drafting.solve.plan import make_plan
from tests.solve.sheets import Sheet, measure, number, plus
from tests.solve.test_influence import measured_sheet


def check(sheet: Sheet, **measures: numpy.ndarray) -> None:
    plan = make_plan(sheet)
    columns = plan.evaluate_many(measures)
    n_sizes = len(columns.failed)
    for size in range(n_sizes):
        alone = plan.evaluate({key: column[size] for key, column in measures.items()})
        errors = [
            finding for finding in alone.findings if type(finding).__name__ not in ("NearTouch", "Repeated")
        ]
        assert bool(errors) == bool(columns.failed[size])
        for key, value in alone.values.items():
            if key not in columns.values:
                continue
            column = columns.values[key]
            if hasattr(value, "x"):
                together = (column.x[size], column.y[size])
                assert math.dist(together, (value.x, value.y)) < 1e-9
            elif not errors:
                assert column[size] == pytest.approx(value, abs=1e-9)


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


def test_rings_and_functions_run_size_by_size() -> None:
    sheet = measured_sheet()
    sheet.computed("ring", ["toe", "lean"], circle)
    sheet.computed("unused", ["toe"], lambda toe: 1 / 0)
    sheet.point("touch")
    sheet.fact("touching", "touch", "ring", "heel")
    sheet.choice("right of", "touch", "toe")
    sheet.point("in_it")
    sheet.fact("offset x", "in_it", "toe", 2)
    sheet.fact("distance", "in_it", "heel", 40)
    sheet.choice("inside", "in_it", "ring")
    plan = make_plan(sheet)
    columns = plan.evaluate_many({"wide": numpy.linspace(50, 70, 11)})
    assert "unused" not in columns.values
    for size, wide in enumerate(numpy.linspace(50, 70, 11)):
        values = plan.evaluate({"wide": wide}).values
        for key in ("touch", "in_it"):
            if key in values:
                column = columns.values[key]
                assert math.dist((column.x[size], column.y[size]), (values[key].x, values[key].y)) < 1e-9


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
    columns = make_plan(sheet).evaluate_many({"lean": numpy.array([1.0, 2.0])}, wanted=["round"])
    assert list(columns.values) == ["round"]
    assert columns.values["round"] == pytest.approx([2 * math.pi, 4 * math.pi])


def test_one_number_stands_for_all_sizes() -> None:
    columns = make_plan(measured_sheet()).evaluate_many({"wide": numpy.full(4, 60.0)})
    assert columns.values["arm"].tolist() == [50.0] * 4
    assert len(columns.values["foot"].x) == 4
