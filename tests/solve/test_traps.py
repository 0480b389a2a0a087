"""Traps that solvers fall into; each once, by name."""

from __future__ import annotations

import json
import math
import os
import subprocess
import sys

import pytest

from drafting.geometry.curves import circle
from drafting.geometry.point import Point
from drafting.solve import program, verify
from drafting.solve.closed_forms import LOCI
from drafting.solve.findings import ChoiceRefuses, NearTouch, NoPlace, SeveralPlaces
from drafting.solve.loci import OneLocus
from drafting.solve.meeting import meet
from drafting.solve.plan import make_plan
from drafting.solve.steps import PointBlock
from drafting.solve.verify import SolverFault
from tests.solve.sheets import Sheet, based, close, measure, number, only, plus


def apex() -> Sheet:
    sheet = based()
    sheet.known("arm", 50)
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", measure("arm"))
    sheet.fact("distance", "toe", "heel", measure("arm"))
    sheet.choice("above", "toe", "foot")
    return sheet


def test_a_block_that_is_passed_over_does_not_go_unseen(monkeypatch: pytest.MonkeyPatch) -> None:
    """A residual over the blocks that ran proves nothing about one that did not."""
    plan = make_plan(apex())
    plan.steps = [step for step in plan.steps if not isinstance(step, PointBlock)]
    with pytest.raises(SolverFault, match=r"toe\.x was never given"):
        plan.evaluate()


def test_a_wrong_closed_form_does_not_go_unseen() -> None:
    """Facts are measured by another road than the one that solved them."""
    plan = make_plan(apex())
    [block] = [step for step in plan.steps if isinstance(step, PointBlock)]
    right = block.sources[0]
    assert isinstance(right, OneLocus)
    wrong = OneLocus(right.equation, lambda *a: (1, 0, 0, -2499.99), right.arguments)
    block.sources = (wrong, block.sources[1])
    with pytest.raises(SolverFault, match="off by"):
        plan.evaluate()


def test_the_right_branch_is_kept_at_every_size() -> None:
    """Newton's method from the nominal place would have jumped; a choice is tested on the finished place."""
    sheet = Sheet()
    sheet.known("arm", 30)
    sheet.points_at(foot=(0, 0), heel=(60, 0))
    for key in ("knee", "elbow"):
        sheet.point(key)
    sheet.fact("distance", "knee", "foot", measure("arm"))
    sheet.fact("distance", "elbow", "heel", 25)
    sheet.fact("distance", "knee", "elbow", 40)
    sheet.fact("equal lengths", "knee", "heel", "elbow", "foot")
    sheet.choice("above", "knee", "foot")
    sheet.choice("below", "elbow", "heel")
    plan = make_plan(sheet)
    before = None
    for step in range(61):
        solution = plan.evaluate({"arm": 27 + step / 10})
        assert solution.findings == ()
        knee, elbow = solution.values["knee"], solution.values["elbow"]
        assert knee.y > 0 > elbow.y
        if before is not None:
            assert before.distance_to(knee) < 1.0
        before = knee


def test_a_size_that_makes_the_pick_jump_is_told_of() -> None:
    sheet = apex()
    sheet.at("post", 30, 41)
    sheet.choice("below", "toe", "post")
    assert sheet.place("toe").y == pytest.approx(40)
    assert isinstance(only(sheet.found(arm=52), ChoiceRefuses), ChoiceRefuses)


def test_an_angle_is_not_its_half_turn_more() -> None:
    """cross * cos - dot * sin = 0 holds for 30 and for 210 deg alike."""
    sheet = based()
    sheet.point("toe")
    sheet.fact("angle", "heel", "foot", "toe", 30)
    sheet.fact("distance", "toe", "foot", 20)
    finding = only(sheet.found(), SeveralPlaces)
    assert sorted(place[1] for place in finding.places) == pytest.approx([-10, 10])
    assert all(place[0] > 0 for place in finding.places)


@pytest.mark.parametrize("angle", [20, 50, 80, 89.999, 90, 90.001, 130, 160])
def test_an_angle_is_not_what_it_lacks_to_a_straight_one(angle: float) -> None:
    """On the middle line the angle at the apex is `angle` or 180 deg less it: only the first was asked for."""
    sheet = Sheet()
    sheet.points_at(a=(-27, 0), b=(27, 0))
    sheet.point("apex")
    sheet.fact("equal lengths", "a", "apex", "b", "apex")
    sheet.fact("angle", "a", "apex", "b", angle)
    sheet.choice("above", "apex", "a")
    assert close(sheet.place("apex"), 0, 27 / math.tan(math.radians(angle / 2)), within=1e-6)


def test_a_ray_is_not_its_line() -> None:
    sheet = based()
    sheet.point("toe")
    sheet.fact("ray", "toe", "foot", 30)
    sheet.fact("distance", "toe", "foot", 20)
    assert close(sheet.place("toe"), 10 * math.sqrt(3), 10)


def test_a_ray_hardly_longer_than_nothing_has_one_place() -> None:
    """Both ends of so short a line lie within what counts as one point; no choice could pick between them."""
    sheet = based()
    sheet.point("toe")
    sheet.fact("ray", "toe", "foot", 290)
    sheet.fact("distance", "toe", "foot", 5e-10)
    solution = sheet.solved()
    assert close(solution.values["toe"], 0, 0)
    assert only(solution.findings, NearTouch).keys == ("toe",)


@pytest.mark.parametrize("radius", [1e3, 1e6, 5e8])
def test_a_huge_circle_is_touched_as_well_as_doubles_can(radius: float) -> None:
    """From a point hardly off it the touch moves by thousands of times the rounding of the circle itself."""
    sheet = Sheet()
    sheet.at("toe", 7.0, -10.0)
    sheet.at("hub", 0, radius)
    sheet.computed("ring", ["hub"], lambda hub: circle(hub, radius))
    sheet.point("touch")
    sheet.fact("touching", "touch", "ring", "toe")
    sheet.choice("right of", "touch", "toe")
    length = math.sqrt(20 * radius + 149)
    found = sheet.place("touch")
    assert found.distance_to(Point(7, -10)) == pytest.approx(length, rel=1e-9)


def test_circles_that_just_touch() -> None:
    """The discriminant is nought but for rounding; there is one place, and a word about how near to none it is."""
    sheet = Sheet()
    sheet.points_at(a=(-3, 2), b=(5, 8))
    sheet.point("toe")
    sheet.fact("distance", "toe", "a", 5)
    sheet.fact("distance", "toe", "b", 5)
    solution = sheet.solved()
    assert close(solution.values["toe"], 1, 5, within=1e-6)
    assert only(solution.findings, NearTouch).apart == 0


@pytest.mark.parametrize("turn", [0.0, 0.3, 1.1, 2.5])
def test_a_touch_is_a_touch_in_every_direction(turn: float) -> None:
    sheet = Sheet()
    sheet.points_at(a=(100.0, 7.0), b=(100 + 17.3 * math.cos(turn), 7 + 17.3 * math.sin(turn)))
    sheet.point("toe")
    sheet.fact("distance", "toe", "a", 11.1)
    sheet.fact("distance", "toe", "b", 6.2)
    solution = sheet.solved()
    assert [type(one) for one in solution.findings] == [NearTouch]
    assert solution.values["toe"].distance_to(Point(100, 7)) == pytest.approx(11.1, abs=1e-9)


def test_two_places_nearly_one_are_told_of_though_a_choice_picks() -> None:
    sheet = based()
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", 30 + 1e-8)
    sheet.fact("distance", "toe", "heel", 30 + 1e-8)
    sheet.choice("above", "toe", "foot")
    assert 0 < only(sheet.found(), NearTouch).apart < 0.01


def test_a_touch_among_places_decided_together_is_told_of() -> None:
    """A choice that reaches forward changes nothing about how near to none the places are."""
    sheet = based()
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", 30 + 1e-8)
    sheet.fact("distance", "toe", "heel", 30 + 1e-8)
    sheet.point("tip")
    sheet.fact("offset x", "tip", "toe", 7)
    sheet.fact("distance", "tip", "heel", 25)
    sheet.choice("below", "tip", "foot")
    sheet.choice("above", "toe", "tip")
    sheet.choice("above", "toe", "foot")
    assert only(sheet.found(), NearTouch).keys == ("toe",)


def test_a_touch_is_not_a_fact_too_many() -> None:
    """Where circles touch the slopes depend on each other, and still no fact says what another says."""
    sheet = Sheet()
    sheet.points_at(a=(0, 0), b=(10, 0))
    sheet.point("toe")
    sheet.fact("distance", "toe", "a", 4)
    sheet.fact("distance", "toe", "b", 6)
    sheet.point("tip")
    sheet.fact("offset x", "tip", "toe", 1)
    sheet.fact("offset y", "tip", "toe", 1)
    solution = sheet.solved()
    only(solution.findings, NearTouch)
    assert close(solution.values["tip"], 5, 1)


@pytest.mark.parametrize("far", [0.0, 1e4, 1e6, -3e6])
def test_far_from_the_origin_no_digits_are_lost_but_those_of_the_place(far: float) -> None:
    sheet = Sheet()
    sheet.points_at(a=(far, -far), b=(far + 60, -far))
    sheet.point("toe")
    sheet.fact("distance", "toe", "a", 50)
    sheet.fact("distance", "toe", "b", 50)
    sheet.choice("above", "toe", "a")
    sheet.point("tip")
    sheet.fact("line distance", "tip", "a", "toe", 10)
    sheet.fact("distance", "tip", "toe", 26)
    sheet.choice("right of", "tip", "toe")
    sheet.choice("below", "tip", "a", "toe")
    solution = sheet.solved()
    assert solution.findings == ()
    assert close(solution.values["toe"], far + 30, -far + 40, within=4e-16 * abs(far) + 1e-12)


def test_level_and_plumb_lines_are_ordinary() -> None:
    """Closed forms that divide by a difference of coordinates fail on level lines."""
    for along in ((10, 0), (0, 10), (-7, 0), (0, -7)):
        sheet = Sheet()
        sheet.points_at(a=(3, 4), b=(3 + along[0], 4 + along[1]))
        sheet.point("toe")
        sheet.fact("on line", "toe", "a", "b")
        sheet.fact("distance", "toe", "a", 5)
        sheet.at("goal", 3 + along[0], 4 + along[1])
        sheet.choice("nearest", "toe", "goal")
        size = math.hypot(*along)
        assert close(sheet.place("toe"), 3 + 5 * along[0] / size, 4 + 5 * along[1] / size)


def test_a_size_without_a_place_is_never_a_near_miss() -> None:
    sheet = apex()
    plan = make_plan(sheet)
    solution = plan.evaluate({"arm": 29.9999})
    assert only(solution.findings, NoPlace).gap == pytest.approx(0.0002)
    assert "toe" not in solution.values


def test_nothing_depends_on_salted_hashes() -> None:
    """Two interpreters with other salts give the same plan, findings and digits."""
    script = """
import json, sys
from tests.solve.test_coupled import linkage, pinned_ladder
from tests.solve.test_diagnosis import frame, DIAGONAL
from drafting.solve.plan import make_plan
from tests.solve.sheets import based
ladder, _ = pinned_ladder(9)
loose = based(); loose.point("p"); loose.point("q"); loose.fact("distance", "p", "q", 4)
said = []
for sheet in (linkage(), ladder, frame(DIAGONAL, 79), loose):
    plan = make_plan(sheet)
    solution = plan.evaluate()
    steps = [(type(step).__name__, step.outputs) for step in plan.steps]
    said.append([repr(solution.values), repr(solution.findings), repr(steps)])
print(json.dumps(said))
"""
    outputs = []
    for salt in ("1", "2", "77"):
        environment = {**os.environ, "PYTHONHASHSEED": salt, "PYTHONPATH": os.pathsep.join(sys.path)}
        run = subprocess.run(
            [sys.executable, "-c", script], env=environment, capture_output=True, text=True, check=True
        )
        outputs.append(json.loads(run.stdout))
    assert outputs[0] == outputs[1] == outputs[2]


def test_closed_forms_hold_for_lengths_of_both_signs() -> None:
    """A form derived for positive numbers would be wrong on the other side."""
    function, _ = LOCI["distance", "01", 0]
    for x, y in ((3.0, 4.0), (-3.0, 4.0), (-3.0, -4.0), (3.0, -4.0)):
        places = meet(function(0.0, 0.0, x, y, 5.0), (0.0, 1.0, 0.0, -x))
        assert sorted(py for _, py in places) == pytest.approx(sorted((y + 5, y - 5)))


def test_a_chain_of_formulas_does_not_grow() -> None:
    """Substituting each closed form into the next would multiply by ten at every step; here 300 steps are 300."""
    sheet = Sheet()
    sheet.points_at(a=(0, 0), b=(5, 0))
    before, last = "a", "b"
    for index in range(300):
        key = f"p{index}"
        sheet.point(key)
        sheet.fact("distance", key, before, 5)
        sheet.fact("distance", key, last, 5)
        sheet.choice("farthest from", key, f"p{index - 3}" if index > 2 else "a")
        before, last = last, key
    plan = make_plan(sheet)
    assert len(plan.steps) < 400


def test_thousands_of_points_in_one_chain_need_no_recursion() -> None:
    sheet = Sheet()
    sheet.at("p0", 0, 0)
    for index in range(1, 4000):
        sheet.point(f"p{index}")
    for index in reversed(range(1, 4000)):
        sheet.fact("offset x", f"p{index}", f"p{index - 1}", 1)
        sheet.fact("offset y", f"p{index}", f"p{index - 1}", 0)
    assert close(sheet.place("p3999"), 3999, 0)


def test_a_compound_that_grows_too_large_stops_and_tells(monkeypatch: pytest.MonkeyPatch) -> None:
    """Choices that reach forward over many points of two places each: told of, not followed without end."""
    monkeypatch.setattr(program, "MOST_BRANCHES", 64)
    sheet = based()
    before = "heel"
    for index in range(12):
        key = f"p{index}"
        sheet.point(key)
        sheet.fact("offset x", key, before, 3)
        sheet.fact("distance", key, before, 5)
        before = key
    sheet.choice("above", "p0", "p11")
    finding = only(sheet.found(), SeveralPlaces)
    assert finding.key == "p0"


def test_every_fact_is_measured_within_its_allowance() -> None:
    plan = make_plan(apex())
    run = plan.run()
    for equation in plan.layout.equations:
        assert abs(verify.misfit(equation, run.values)) <= verify.EXACT


def test_a_measure_reaches_a_point_through_formulas_and_points() -> None:
    sheet = apex()
    sheet.formula("twice", plus(measure("arm"), measure("arm")))
    sheet.point("tip")
    sheet.fact("offset x", "tip", "toe", measure("twice"))
    sheet.fact("offset y", "tip", "toe", number(0))
    assert close(sheet.place("tip", arm=34), 98, 16)
