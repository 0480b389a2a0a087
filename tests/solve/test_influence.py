"""How far a point moves when a measure does: against small steps of the whole plan."""

from __future__ import annotations

import pytest

from drafting.geometry.curves import circle
from drafting.model.expressions import AngleAt, Applied, Operation
from drafting.solve.influence import Unsteady
from drafting.solve.plan import Plan, make_plan
from tests.solve.sheets import Sheet, measure, number, plus, stretch


def stepped(plan: Plan, key: str, known: str, at: dict[str, float]) -> tuple[float, float]:
    here = at.get(known, float(plan.layout.start_values[plan.layout.knowns[known]]))
    high = plan.evaluate({**at, known: here + 1e-5}).values[key]
    low = plan.evaluate({**at, known: here - 1e-5}).values[key]
    if isinstance(high, float):
        return (high - low) / 2e-5, 0.0
    return (high.x - low.x) / 2e-5, (high.y - low.y) / 2e-5


def check(sheet: Sheet, key: str, **at: float) -> None:
    plan = make_plan(sheet)
    assert plan.evaluate(at).findings == ()
    influence = plan.influence(key, at)
    assert influence
    for known in plan.layout.knowns:
        exact = influence.get(known, (0.0, 0.0))
        exact = exact if isinstance(exact, tuple) else (exact, 0.0)
        assert exact == pytest.approx(stepped(plan, key, known, at), rel=1e-5, abs=1e-6)


def measured_sheet() -> Sheet:
    sheet = Sheet()
    for key, value in (("wide", 60), ("arm", 50), ("lean", 20), ("share", 0.3)):
        sheet.known(key, value)
    sheet.at("foot", 0, 0)
    sheet.at("heel", measure("wide"), 0)
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", measure("arm"))
    sheet.fact("distance", "toe", "heel", plus(measure("arm"), Operation("/", measure("lean"), number(4))))
    sheet.choice("above", "toe", "foot")
    return sheet


def test_through_two_circles() -> None:
    check(measured_sheet(), "toe")
    check(measured_sheet(), "toe", arm=70, wide=90)


def test_through_rays_angles_and_fractions() -> None:
    sheet = measured_sheet()
    for key in ("a", "b", "c", "d"):
        sheet.point(key)
    sheet.fact("ray", "a", "foot", measure("lean"))
    sheet.fact("distance", "a", "foot", measure("arm"))
    sheet.fact("between", "b", "a", "toe", measure("share"))
    sheet.fact("angle", "b", "foot", "c", measure("lean"))
    sheet.fact("distance", "c", "b", measure("arm"))
    sheet.choice("above", "c", "foot", "b")
    sheet.choice("farthest from", "c", "foot")
    sheet.fact("line distance", "d", "foot", "c", measure("lean"))
    sheet.fact("on line", "d", "b", "heel")
    sheet.choice("nearest", "d", "heel")
    for key in "abcd":
        check(sheet, key)


def test_through_formulas_of_every_kind() -> None:
    sheet = measured_sheet()
    bend = Applied("bend", (measure("lean"), number(3), measure("share"), number(0.4)))
    loop = Applied("loop", (measure("wide"), measure("share"), number(2)))
    waves = Applied("sum", (Applied("sin", (measure("lean"),)), Applied("tan", (measure("lean"),))))
    least = Applied("min", (measure("wide"), measure("arm")))
    angle = AngleAt("heel", "foot", "toe")
    rooted = Applied("sqrt", (plus(measure("arm"), Applied("max", (number(2), measure("share")))),))
    parts = [
        bend,
        loop,
        waves,
        least,
        angle,
        rooted,
        Applied("cos", (measure("lean"),)),
        stretch("toe", "heel"),
    ]
    whole = Applied("sum", tuple(parts))
    sheet.formula("whole", Operation("-", Operation("*", whole, measure("share")), measure("lean")))
    sheet.point("tip")
    sheet.fact("offset x", "tip", "foot", measure("whole"))
    sheet.fact("offset y", "tip", "toe", measure("lean"))
    check(sheet, "tip")
    check(sheet, "whole")


def test_through_mirror_along_and_touching() -> None:
    sheet = measured_sheet()
    for key in ("twin", "walked", "touch", "on"):
        sheet.point(key)
    sheet.fact("mirror", "twin", "heel", "foot", "toe")
    sheet.fact("along", "walked", "toe", "heel", measure("lean"))
    sheet.computed("ring", ["toe", "lean"], circle)
    sheet.fact("touching", "touch", "ring", "heel")
    sheet.choice("right of", "touch", "toe")
    sheet.fact("on path", "on", "ring")
    sheet.fact("offset y", "on", "toe", 3)
    sheet.choice("right of", "on", "toe")
    for key in ("twin", "walked", "touch", "on"):
        check(sheet, key)


def test_through_points_that_hang_on_each_other() -> None:
    sheet = measured_sheet()
    for key in ("knee", "elbow"):
        sheet.point(key)
    sheet.fact("distance", "knee", "foot", 30)
    sheet.fact("distance", "elbow", "heel", 25)
    sheet.fact("distance", "knee", "elbow", Operation("*", measure("arm"), number(0.8)))
    sheet.fact("equal lengths", "knee", "heel", "elbow", "foot")
    sheet.choice("above", "knee", "foot")
    sheet.choice("below", "elbow", "heel")
    check(sheet, "knee")
    check(sheet, "elbow")


def test_through_a_computed_length_that_is_held() -> None:
    sheet = measured_sheet()
    sheet.point("crest")
    sheet.fact("offset x", "crest", "foot", 30)
    sheet.computed("rim", ["foot", "crest", "heel"], lambda a, b, c: a.distance_to(b) + b.distance_to(c))
    sheet.fact("equation", measure("rim"), Operation("*", measure("arm"), number(2)))
    sheet.choice("above", "crest", "foot")
    check(sheet, "crest")
    sheet.point("tip")
    sheet.fact("offset x", "tip", "foot", measure("rim"))
    sheet.fact("offset y", "tip", "foot", 0)
    check(sheet, "tip")


def test_where_circles_touch_there_is_no_rate() -> None:
    sheet = Sheet()
    sheet.known("arm", 5)
    sheet.points_at(a=(-3, 2), b=(5, 8))
    sheet.point("toe")
    sheet.fact("distance", "toe", "a", measure("arm"))
    sheet.fact("distance", "toe", "b", 5)
    with pytest.raises(Unsteady):
        make_plan(sheet).influence("toe")


def test_a_point_that_could_not_be_placed_has_no_influence() -> None:
    sheet = measured_sheet()
    with pytest.raises(KeyError):
        make_plan(sheet).influence("toe", {"arm": 10})
