"""A point by two facts of any kind, and the same facts read from any of their points."""

from __future__ import annotations

import math

import pytest

from drafting.geometry.arc import Arc
from drafting.geometry.curves import circle
from drafting.geometry.line import Line
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.model.expressions import Applied, Operation
from drafting.solve.findings import Degenerate, NoPlace
from drafting.solve.plan import make_plan
from tests.solve.sheets import Sheet, based, close, measure, number, only, plus, stretch, times


@pytest.mark.parametrize(
    ("facts", "choice", "place"),
    [
        ([("offset x", 12), ("offset y", 5)], None, (72, 5)),
        ([("offset x", -12), ("distance", 13)], ("above", "heel"), (48, 5)),
        ([("offset y", 5), ("distance", 13)], ("left of", "heel"), (48, 5)),
        ([("ray", 30), ("distance", 20)], None, (60 + 10 * math.sqrt(3), 10)),
        ([("ray", 90), ("distance", 20)], None, (60, 20)),
        ([("ray", 210), ("offset y", -7)], None, (60 - 7 * math.sqrt(3), -7)),
        ([("ray", -45), ("offset x", 4)], None, (64, -4)),
    ],
)
def test_by_two_facts_from_one_point(facts, choice, place) -> None:  # type: ignore[no-untyped-def]
    sheet = based()
    sheet.point("toe")
    for kind, amount in facts:
        sheet.fact(kind, "toe", "heel", amount)
    if choice:
        sheet.choice(choice[0], "toe", choice[1])
    assert close(sheet.place("toe"), *place)


def test_by_two_circles() -> None:
    sheet = based()
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", 50)
    sheet.fact("distance", "toe", "heel", 50)
    sheet.choice("below", "toe", "foot")
    assert close(sheet.place("toe"), 30, -40)


def test_by_distances_from_two_lines() -> None:
    sheet = based()
    sheet.at("crest", 0, 40)
    sheet.point("toe")
    sheet.fact("line distance", "toe", "foot", "heel", 8)
    sheet.fact("line distance", "toe", "foot", "crest", 11)
    sheet.choice("above", "toe", "foot", "heel")
    sheet.choice("left of", "toe", "foot", "crest")
    assert close(sheet.place("toe"), -11, 8)


def test_on_a_line_and_square_off_it() -> None:
    sheet = based()
    sheet.at("crest", 30, 40)
    sheet.point("toe")
    sheet.fact("on line", "toe", "foot", "crest")
    sheet.fact("square off", "toe", "foot", "crest", "heel")
    assert close(sheet.place("toe"), 21.6, 28.8)


def test_at_between_along_and_mirror_take_two_facts_each() -> None:
    sheet = based()
    sheet.at("crest", 60, 45)
    for key in ("copy", "third", "walked", "twin", "back"):
        sheet.point(key)
    sheet.fact("at", "copy", "crest")
    sheet.fact("between", "third", "foot", "crest", 1 / 3)
    sheet.fact("along", "walked", "foot", "crest", 25)
    sheet.fact("mirror", "twin", "heel", "foot", "crest")
    sheet.fact("along", "back", "foot", "crest", -25)
    values = sheet.solved().values
    assert close(values["copy"], 60, 45)
    assert close(values["third"], 20, 15)
    assert close(values["walked"], 20, 15)
    assert close(values["back"], -20, -15)
    assert close(values["twin"], 16.8, 57.6)


def test_a_fact_said_of_one_point_may_give_another() -> None:
    """`heel` is said to be at a distance from `toe`; so it is `toe` that is found."""
    sheet = based()
    sheet.point("toe")
    sheet.fact("distance", "heel", "toe", 13)
    sheet.fact("offset y", "heel", "toe", 5)
    sheet.choice("left of", "toe", "heel")
    assert close(sheet.place("toe"), 48, -5)


def test_the_end_of_a_line_by_its_distance_from_a_point() -> None:
    """`lip` lies on the line through `foot` that passes `heel` at 36 mm: two lines, for `heel` has two sides."""
    sheet = based()
    sheet.point("lip")
    sheet.fact("line distance", "heel", "foot", "lip", 36)
    sheet.fact("offset x", "lip", "foot", 40)
    sheet.choice("above", "lip", "foot")
    assert close(sheet.place("lip"), 40, 30)


@pytest.mark.parametrize("end", ["toe", "vertex", "arm"])
def test_an_angle_gives_any_of_its_three_points(end: str) -> None:
    sheet = Sheet()
    places = {"toe": (30.0, 0.0), "vertex": (0.0, 0.0), "arm": (10.0, 10 * math.sqrt(3))}
    for key, (x, y) in places.items():
        if key == end:
            sheet.point(key)
            sheet.fact("coordinate x", key, x)
        else:
            sheet.at(key, x, y)
    sheet.fact("angle", "toe", "vertex", "arm", 60)
    sheet.at("near", *(part + 0.1 for part in places[end]))
    sheet.choice("nearest", end, "near")
    assert close(sheet.place(end), *places[end])


def test_equal_lengths_from_one_point_is_the_line_midway() -> None:
    sheet = based()
    sheet.point("toe")
    sheet.fact("equal lengths", "toe", "foot", "toe", "heel")
    sheet.fact("offset y", "toe", "foot", 9)
    assert close(sheet.place("toe"), 30, 9)


def test_parallel_and_square_by_lines_elsewhere() -> None:
    sheet = based()
    sheet.points_at(a=(3, 4), b=(11, 10), c=(5, 5))
    sheet.point("toe")
    sheet.fact("parallel", "foot", "toe", "a", "b")
    sheet.fact("square", "toe", "heel", "a", "b")
    assert close(sheet.place("toe"), 38.4, 28.8)


def test_on_a_path_each_leg_has_its_own_places() -> None:
    """A line crosses a run of a straight leg and a bow; the places off the legs are none."""
    sheet = based()
    bow = Arc(Point(40, 0), 20, math.pi, -math.pi)
    sheet.computed("rim", ["foot", "heel"], lambda foot, heel: Path((Line(foot, Point(20, 0)), bow)))
    sheet.point("toe")
    sheet.fact("on path", "toe", "rim")
    sheet.fact("offset x", "toe", "foot", 40)
    assert close(sheet.place("toe"), 40, 20)
    sheet.point("low")
    sheet.fact("on path", "low", "rim")
    sheet.fact("offset x", "low", "foot", 11)
    assert close(sheet.place("low"), 11, 0)


def test_the_corner_of_a_path_is_one_place_and_not_two() -> None:
    sheet = based()
    sheet.computed(
        "rim", [], lambda: Path((Line(Point(0, 0), Point(20, 0)), Line(Point(20, 0), Point(26, 30))))
    )
    sheet.point("toe")
    sheet.fact("on path", "toe", "rim")
    sheet.fact("distance", "toe", "foot", 20)
    assert close(sheet.place("toe"), 20, 0)


def test_touching_a_ring_from_a_point() -> None:
    sheet = Sheet()
    sheet.at("hub", 0, 0)
    sheet.at("toe", 25, 0)
    sheet.computed("ring", ["hub"], lambda hub: circle(hub, 7))
    sheet.point("touch")
    sheet.fact("touching", "touch", "ring", "toe")
    sheet.choice("above", "touch", "hub")
    assert close(sheet.place("touch"), 1.96, 6.72)


def test_a_line_held_to_touch_a_ring() -> None:
    sheet = Sheet()
    sheet.points_at(hub=(0, 0), toe=(25, 0))
    sheet.computed("ring", ["hub"], lambda hub: circle(hub, 7))
    sheet.point("end")
    sheet.fact("touches", "toe", "end", "ring")
    sheet.fact("distance", "end", "toe", 24)
    sheet.choice("above", "end", "hub")
    sheet.choice("left of", "end", "toe")
    assert close(sheet.place("end"), 1.96, 6.72)


def test_numbers_are_computed_from_measures_and_points() -> None:
    sheet = based()
    sheet.known("play", 2)
    sheet.formula("reach", plus(stretch("foot", "heel"), times(number(2), measure("play"))))
    sheet.point("toe")
    sheet.fact("offset x", "toe", "foot", measure("reach"))
    sheet.fact("offset y", "toe", "foot", Applied("max", (measure("toe.x"), number(10))))
    assert close(sheet.place("toe"), 64, 64)
    assert close(sheet.place("toe", play=-30), 0, 10)


def test_a_computed_point_is_a_point_like_any_other() -> None:
    sheet = based()
    sheet.computed("mid", ["foot", "heel"], lambda foot, heel: foot.midway(heel))
    sheet.point("toe")
    sheet.fact("offset x", "toe", "mid", measure("mid.x"))
    sheet.fact("distance", "toe", "mid", 50)
    sheet.choice("above", "toe", "mid")
    assert close(sheet.place("toe"), 60, 40)


def test_a_fault_of_a_computed_node_is_kept_and_all_that_hangs_on_it_is_quiet() -> None:
    def fails(foot: Point) -> Point:
        raise RuntimeError("no such offset")

    sheet = based()
    sheet.computed("mid", ["foot"], fails)
    sheet.point("toe")
    sheet.fact("at", "toe", "mid")
    sheet.point("tip")
    sheet.fact("offset x", "tip", "toe", 1)
    sheet.fact("offset y", "tip", "foot", 1)
    sheet.choice("above", "tip", "toe")
    solution = sheet.solved()
    assert [str(fault) for fault in solution.failures.values()] == ["no such offset"]
    assert solution.findings == ()
    assert set(solution.values) == {"foot", "heel"}


def test_order_of_facts_and_points_does_not_matter() -> None:
    sheet = Sheet()
    sheet.fact("distance", "toe", "heel", 50)
    sheet.choice("above", "toe", "foot")
    sheet.fact("distance", "toe", "foot", 50)
    sheet.point("toe")
    sheet.points_at(heel=(60, 0), foot=(0, 0))
    assert close(sheet.place("toe"), 30, 40)


def test_a_plan_is_made_once_and_evaluated_for_every_size() -> None:
    sheet = Sheet()
    sheet.known("wide", 60)
    sheet.at("foot", 0, 0)
    sheet.at("heel", measure("wide"), 0)
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", 50)
    sheet.fact("distance", "toe", "heel", 50)
    sheet.choice("above", "toe", "foot")
    plan = make_plan(sheet)
    assert close(plan.evaluate().values["toe"], 30, 40)
    assert close(plan.evaluate({"wide": 80}).values["toe"], 40, 30)
    assert close(plan.evaluate().values["toe"], 30, 40)


def test_a_coordinate_by_an_equation_that_is_straight_in_it() -> None:
    """No walk is needed, and none is made: the place is exact."""
    sheet = based()
    sheet.known("play", 22)
    sheet.point("toe")
    twice = times(number(2), Operation("-", measure("heel.x"), measure("toe.x")))
    sheet.fact("equation", twice, plus(measure("play"), measure("toe.x")))
    sheet.fact("equation", measure("toe.y"), stretch("foot", "heel"))
    plan = make_plan(sheet)
    kinds = [type(step).__name__ for step in plan.steps if "toe" in getattr(step, "keys", ())]
    assert sorted(kinds) == ["AmountBlock", "StraightBlock"]
    assert plan.evaluate().values["toe"] == Point(98 / 3, 60)
    assert close(plan.evaluate({"play": -30}).values["toe"], 50, 60)


def test_an_equation_that_says_nothing_of_its_number() -> None:
    """Nought times a number is straight in it, and still gives it no place."""
    for amount, kind in ((5, NoPlace), (0, Degenerate)):
        sheet = based()
        sheet.known("share", 0)
        sheet.unknown("slack", 0, 10)
        sheet.fact("equation", times(measure("share"), measure("slack")), number(amount))
        only(sheet.found(), kind)
