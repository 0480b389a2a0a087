"""Points and numbers that hang on each other: all solutions are found, and choices pick."""

from __future__ import annotations

import math
import random

import pytest

from drafting.geometry.curves import circle
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.solve.coupled.block import CoupledBlock
from drafting.solve.findings import (
    NearTouch,
    NoPlace,
    NotProven,
    OutOfRange,
    SeveralPlaces,
    SeveralValues,
    Undecided,
)
from drafting.solve.plan import Plan, make_plan
from drafting.solve.steps import Remarks
from tests.solve.sheets import Sheet, based, close, measure, number, only, plus, stretch


def linkage() -> Sheet:
    """`knee` on a circle about `foot`, `elbow` on one about `heel`, tied to each other twice."""
    sheet = based()
    for key in ("knee", "elbow"):
        sheet.point(key)
    sheet.fact("distance", "knee", "foot", 30)
    sheet.fact("distance", "elbow", "heel", 25)
    sheet.fact("distance", "knee", "elbow", 40)
    sheet.fact("equal lengths", "knee", "heel", "elbow", "foot")
    return sheet


def test_all_solutions_of_two_tied_points_are_shown() -> None:
    """Two pairs that mirror each other over the line of the fixed points."""
    finding = only(linkage().found(), SeveralPlaces)
    assert finding.keys == ("knee", "elbow")
    assert len(finding.solutions) == 4
    knees = [dict(solution)["knee"] for solution in finding.solutions]
    for x, y in knees:
        assert math.hypot(x, y) == pytest.approx(30)
        assert any(math.dist((x, -y), other) < 1e-9 for other in knees)


def test_choices_pick_among_whole_solutions() -> None:
    sheet = linkage()
    sheet.choice("above", "knee", "foot")
    sheet.choice("below", "elbow", "heel")
    place = sheet.solved().values
    assert place["knee"].y > 0 > place["elbow"].y
    assert place["knee"].distance_to(place["elbow"]) == pytest.approx(40, abs=1e-9)


def n_solutions(sheet: Sheet) -> int:
    findings = sheet.found()
    if not findings:
        return 1
    if isinstance(findings[0], NoPlace):
        return 0
    return len(only(findings, SeveralPlaces).solutions)


def count_by_elimination(sheet: Sheet) -> int:
    """The number of real solutions of the sheet's one block by exact elimination, a road of its own."""
    from drafting.solve.coupled.elimination import eliminated

    plan = make_plan(sheet)
    block = next(step for step in plan.steps if isinstance(step, CoupledBlock))
    run = plan.run()
    exact = eliminated(plan.layout, block.part, run.values)
    assert exact is not None
    return len(exact)


@pytest.mark.parametrize("seed", range(8))
def test_walking_finds_as_many_solutions_as_exact_elimination(seed: int) -> None:
    """Random links: the walk over a circle against the real roots of the eliminant."""
    dice = random.Random(seed)
    sheet = based()
    for key in ("knee", "elbow"):
        sheet.point(key)
    knee = (dice.uniform(-20, 40), dice.uniform(5, 40))
    elbow = (dice.uniform(20, 80), dice.uniform(5, 40))
    sheet.at("post", dice.uniform(0, 60), dice.uniform(-40, 0))
    sheet.fact("distance", "knee", "foot", round(math.hypot(*knee), 2))
    sheet.fact("distance", "elbow", "heel", round(math.dist(elbow, (60, 0)), 2))
    sheet.fact("distance", "knee", "elbow", round(math.dist(knee, elbow), 2))
    if seed % 2:
        sheet.fact("equal lengths", "knee", "post", "elbow", "post")
    else:
        sheet.fact("square", "knee", "elbow", "elbow", "post")
    assert n_solutions(sheet) == count_by_elimination(sheet)


def test_a_corner_held_square_is_walked_without_a_fold() -> None:
    """Of three facts that may give a corner those two are taken that meet wherever the walk has come to: the line
    through the middle of the circle. The third would only touch its line just where the solution is."""
    sheet = based()
    for key in ("knee", "elbow"):
        sheet.point(key)
    sheet.fact("distance", "knee", "foot", 30)
    sheet.fact("distance", "elbow", "heel", 30)
    sheet.fact("distance", "knee", "elbow", 60)
    sheet.fact("square", "foot", "knee", "knee", "elbow")
    for key, post in (("knee", "foot"), ("elbow", "heel")):
        sheet.choice("above", key, post)
    plan = make_plan(sheet)
    block = next(step for step in plan.steps if isinstance(step, CoupledBlock))
    block.triangles = None
    places = plan.evaluate().values
    assert close(places["knee"], 0, 30) and close(places["elbow"], 60, 30)
    assert block._torn is not None
    [corner] = block._torn.order.steps
    facts = {plan.layout.system.facts[plan.layout.equations[e].fact].tag for e in corner.equations}
    assert facts == {"distance knee elbow 60", "square foot knee knee elbow"}


def cornered(seed: int) -> tuple[Sheet, dict[str, Point]]:
    """Three points that hang on each other: two corners, of which the second stands on the third side of the first."""
    dice = random.Random(seed)
    sheet = based()
    made = {key: Point(dice.uniform(-40, 90), dice.uniform(10, 90)) for key in ("knee", "elbow", "brow")}
    knee, elbow, brow = (made[key] for key in ("knee", "elbow", "brow"))
    for key in made:
        sheet.point(key)
    for one, other in (("knee", "foot"), ("knee", "elbow"), ("elbow", "brow"), ("brow", "heel")):
        at = {"foot": Point(0, 0), "heel": Point(60, 0), **made}
        sheet.fact("distance", one, other, at[one].distance_to(at[other]))
    sheet.fact("angle", "foot", "knee", "elbow", angle_between(Point(0, 0), knee, elbow))
    sheet.fact("angle", "foot", "elbow", "brow", angle_between(Point(0, 0), elbow, brow))
    return sheet, made


def angle_between(one: Point, vertex: Point, other: Point) -> float:
    ways = [math.atan2(end.y - vertex.y, end.x - vertex.x) for end in (one, other)]
    return abs(math.degrees(math.remainder(ways[1] - ways[0], 2 * math.pi)))


def solutions_of(plan: Plan) -> list[tuple[float, ...]]:
    """All places of the one coupled block, whatever was chosen."""
    block = next(step for step in plan.steps if isinstance(step, CoupledBlock))
    return sorted(tuple(round(n, 6) for n in place) for place in block.places(plan.run().values, Remarks()))


@pytest.mark.parametrize("seed", range(12))
def test_third_sides_give_the_same_places_as_a_walk(seed: int) -> None:
    sheet, made = cornered(seed)
    plan = make_plan(sheet)
    block = next(step for step in plan.steps if isinstance(step, CoupledBlock))
    assert block.triangles is not None and len(block.triangles.corners) == 2
    by_triangles = solutions_of(plan)
    block.triangles = None
    assert by_triangles == solutions_of(plan)
    there = tuple(round(n, 6) for key in made for n in (made[key].x, made[key].y))
    assert any(math.dist(there, place) < 1e-5 for place in by_triangles)


@pytest.mark.parametrize("width", [60.0, 60.0 + 1e-7, 59.0])
def test_a_corner_whose_third_side_just_reaches(width: float) -> None:
    """Where two places nearly touch, the walk looks closely; a width that cannot be reached has none."""
    sheet = based()
    for key in ("knee", "elbow"):
        sheet.point(key)
    sheet.fact("distance", "knee", "foot", 30)
    sheet.fact("distance", "knee", "elbow", 40)
    sheet.fact("square", "foot", "knee", "knee", "elbow")
    sheet.fact("distance", "elbow", "heel", width - 50)
    plan = make_plan(sheet)
    block = next(step for step in plan.steps if isinstance(step, CoupledBlock))
    assert block.triangles is not None
    assert block.triangles.all_places(plan.run().values, block.unknowns) == []


def test_a_fixed_triangle_laid_on_three_circles() -> None:
    """A rigid triangle whose corners are each at a distance from a post: up to six ways to lay it."""
    corners = {"a": (0.0, 0.0), "b": (30.0, 0.0), "c": (10.0, 25.0)}
    posts = {"pa": (-20.0, -5.0), "pb": (55.0, -10.0), "pc": (12.0, 60.0)}
    sheet = Sheet()
    sheet.points_at(**posts)
    for key in corners:
        sheet.point(key)
    for one, other in ("ab", "bc", "ca"):
        sheet.fact("distance", one, other, math.dist(corners[one], corners[other]))
    for key in corners:
        sheet.fact("distance", key, "p" + key, math.dist(corners[key], posts["p" + key]))
    finding = only(sheet.found(), SeveralPlaces)
    assert 2 <= len(finding.solutions) <= 6
    assert any(
        all(math.dist(dict(solution)[key], corners[key]) < 1e-8 for key in corners)
        for solution in finding.solutions
    )


def pinned_ladder(n: int) -> tuple[Sheet, dict[str, tuple[float, float]]]:
    """Pinned at its first point and held level at its last: nothing can be placed before all is."""
    places = {
        f"p{i}": (20.0 * (i // 2) + (3.0 if i % 2 else 0.0), 30.0 + i % 5 if i % 2 else 0.0) for i in range(n)
    }
    sheet = Sheet()
    sheet.at("p0", 0, 0)
    for i in range(1, n):
        key, before = f"p{i}", f"p{i - 1}"
        sheet.point(key)
        sheet.fact("distance", key, before, math.dist(places[key], places[before]))
        if i > 1:
            sheet.fact("distance", key, f"p{i - 2}", math.dist(places[key], places[f"p{i - 2}"]))
            sheet.choice("right of", key, f"p{i - 2}")
        sheet.choice("above" if i % 2 else "below", key, before)
    sheet.fact("offset y", f"p{n - 1}", "p0", places[f"p{n - 1}"][1])
    return sheet, places


@pytest.mark.parametrize("n", [5, 12, 40, 301])
def test_a_ladder_pinned_at_one_end_only(n: int) -> None:
    """Too long for any elimination: it is solved in a frame of its own and then laid down."""
    sheet, places = pinned_ladder(n)
    solution = sheet.solved()
    assert solution.findings == ()
    for key, place in places.items():
        assert close(solution.values[key], *place, within=1e-7)


def test_a_ladder_without_choices_has_too_many_ways() -> None:
    sheet, _ = pinned_ladder(40)
    sheet.choices.clear()
    finding = only(sheet.found(), Undecided)
    assert finding.n_ways > 1000
    assert "p39" in finding.keys


def test_a_short_ladder_without_choices_shows_them_all() -> None:
    """Every joint may be folded over, and the whole may be mirrored or turned round: 2 ** 4 shapes of six points,
    and two ways to lay each, but for those whose end cannot reach its height."""
    sheet, places = pinned_ladder(6)
    sheet.choices.clear()
    finding = only(sheet.found(), SeveralPlaces)
    assert 8 <= len(finding.solutions) <= 32
    assert any(
        all(math.dist(dict(solution)[key], places[key]) < 1e-7 for key in dict(solution))
        for solution in finding.solutions
    )


def test_an_unknown_number_and_a_point_at_once() -> None:
    """A hole that keeps the same distance from three posts, and how much that is."""
    sheet = Sheet()
    sheet.points_at(a=(0, 0), b=(40, 0), c=(0, 30))
    sheet.point("hub")
    sheet.unknown("reach", 1, 100)
    for post in "abc":
        sheet.fact("distance", "hub", post, measure("reach"))
    solution = sheet.solved()
    assert solution.findings == ()
    assert close(solution.values["hub"], 20, 15)
    assert solution.values["reach"] == pytest.approx(25, abs=1e-9)


def test_a_number_with_two_solutions_in_its_range_is_reported() -> None:
    """A point 30 mm right of `foot` and as far from `heel` as from the top: two heights."""
    sheet = based()
    sheet.unknown("rise", -100, 100)
    sheet.point("toe")
    sheet.fact("offset x", "toe", "foot", 20)
    sheet.fact("offset y", "toe", "foot", measure("rise"))
    sheet.fact("distance", "toe", "heel", 50)
    finding = only(sheet.found(), SeveralPlaces)
    assert sorted(place[1] for place in finding.places) == pytest.approx([-30, 30])
    narrow = based()
    narrow.unknown("rise", 0, 100)
    narrow.point("toe")
    narrow.fact("offset x", "toe", "foot", 20)
    narrow.fact("offset y", "toe", "foot", measure("rise"))
    narrow.fact("distance", "toe", "heel", 50)
    assert narrow.solved().values["rise"] == pytest.approx(30)


def test_a_number_alone_in_an_equation() -> None:
    sheet = based()
    sheet.unknown("slack", 0, 40)
    sheet.fact("equation", stretch("foot", "heel"), plus(number(35), measure("slack")))
    assert sheet.solved().values["slack"] == pytest.approx(25, abs=1e-9)
    sheet = based()
    sheet.unknown("slack", 0, 20)
    sheet.fact("equation", stretch("foot", "heel"), plus(number(35), measure("slack")))
    finding = only(sheet.found(), OutOfRange)
    assert (finding.key, finding.low, finding.high) == ("slack", 0, 20)
    assert finding.nearest == pytest.approx(25)


def test_a_number_with_no_solution_anywhere() -> None:
    """The ring about `heel` stays 10 mm short of the plumb line of `toe`, whatever the rise."""
    sheet = based()
    sheet.unknown("rise", -100, 100)
    sheet.point("toe")
    sheet.fact("offset x", "toe", "foot", 0)
    sheet.fact("offset y", "toe", "foot", measure("rise"))
    sheet.fact("distance", "toe", "heel", 50)
    assert only(sheet.found(), NoPlace).gap == pytest.approx(10)


def test_a_range_that_is_empty() -> None:
    sheet = based()
    sheet.unknown("slack", 40, 20)
    sheet.fact("equation", stretch("foot", "heel"), plus(number(35), measure("slack")))
    assert only(sheet.found(), OutOfRange).nearest is None


def test_a_number_found_from_a_point_may_be_out_of_its_range() -> None:
    sheet = based()
    sheet.unknown("slack", 0, 20)
    sheet.point("toe")
    sheet.fact("offset x", "toe", "foot", 30)
    sheet.fact("offset y", "toe", "foot", 0)
    sheet.fact("offset x", "toe", "foot", measure("slack"))
    finding = only(sheet.found(), OutOfRange)
    assert finding.nearest == pytest.approx(30)


def test_a_number_with_several_values() -> None:
    from drafting.model.expressions import Operation

    sheet = Sheet()
    sheet.unknown("side", 0, 10)
    product = Operation("*", measure("side"), Operation("-", number(7), measure("side")))
    sheet.fact("equation", product, number(12))
    finding = only(sheet.found(), SeveralValues)
    assert sorted(finding.values) == pytest.approx([3, 4])


def test_a_number_at_the_very_end_of_its_range() -> None:
    sheet = based()
    sheet.unknown("slack", 25, 40)
    sheet.fact("equation", stretch("foot", "heel"), plus(number(35), measure("slack")))
    assert sheet.solved().values["slack"] == pytest.approx(25, abs=1e-9)


def test_a_number_that_only_just_has_a_solution_is_told_of() -> None:
    """slack * (8 - slack) is at most 16: the curve touches and does not cross."""
    from drafting.model.expressions import Operation

    sheet = Sheet()
    sheet.unknown("slack", 0, 8)
    product = Operation("*", measure("slack"), Operation("-", number(8), measure("slack")))
    sheet.fact("equation", product, number(16))
    solution = sheet.solved()
    assert solution.values["slack"] == pytest.approx(4, abs=1e-6)
    only(solution.findings, NearTouch)


def test_the_length_of_a_run_computed_from_loose_points_may_be_held() -> None:
    """A function of the caller's stands between the unknown and the fact: it is walked, not differentiated."""
    sheet = based()
    sheet.point("crest")
    sheet.fact("offset x", "crest", "foot", 30)
    sheet.computed("rim", ["foot", "crest", "heel"], lambda a, b, c: a.distance_to(b) + b.distance_to(c))
    sheet.fact("equation", measure("rim"), number(100))
    sheet.choice("above", "crest", "foot")
    assert close(sheet.place("crest"), 30, 40)


def test_a_radius_found_from_the_length_of_an_arc() -> None:
    """A ring about `foot` as long as the stretch to `heel` and back."""
    sheet = based()
    sheet.unknown("radius", 1, 50)
    sheet.computed("ring", ["foot", "radius"], lambda foot, radius: circle(foot, radius))
    sheet.computed("round", ["ring"], lambda ring: ring.length)
    sheet.fact("equation", measure("round"), number(120))
    assert sheet.solved().values["radius"] == pytest.approx(60 / math.pi, abs=1e-9)


def test_a_point_on_a_run_that_hangs_on_it() -> None:
    """`toe` lies on the line from `foot` to `tip`, and `tip` is 20 mm above `toe`'s mirror image: a ring through a
    computed path."""
    from drafting.geometry.line import Line

    sheet = based()
    sheet.point("toe")
    sheet.fact("offset x", "toe", "foot", 20)
    sheet.computed("tip", ["toe"], lambda toe: Point(60, 20 + toe.y / 2))
    sheet.computed("run", ["foot", "tip"], lambda foot, tip: Path((Line(foot, tip),)))
    sheet.fact("on path", "toe", "run")
    assert close(sheet.place("toe"), 20, 8)


def test_two_ellipses_by_exact_elimination() -> None:
    """A point by two sums of distances: no circle and no line in it, so it is eliminated."""
    sheet = Sheet()
    sheet.points_at(a=(0, 0), b=(60, 0), c=(10, 50))
    sheet.point("toe")
    sheet.fact("equation", plus(stretch("toe", "a"), stretch("toe", "b")), number(90))
    sheet.fact("equation", plus(stretch("toe", "a"), stretch("toe", "c")), number(70))
    finding = only(sheet.found(), SeveralPlaces)
    assert len(finding.places) == 2
    for place in finding.places:
        assert math.dist(place, (0, 0)) + math.dist(place, (60, 0)) == pytest.approx(90, abs=1e-9)
        assert math.dist(place, (0, 0)) + math.dist(place, (10, 50)) == pytest.approx(70, abs=1e-9)


def test_what_only_search_can_solve_says_that_it_proves_nothing() -> None:
    """Three points on circles, tied by two angles and a sum of lengths."""
    places = {"a": (43.8, 40.3), "b": (26.8, 20.4), "c": (30.5, 26.2)}
    posts = {"pa": (0.0, 0.0), "pb": (60.0, 0.0), "pc": (20.0, 70.0)}
    sheet = Sheet()
    sheet.points_at(**posts)
    for key, place in places.items():
        sheet.point(key)
        sheet.fact("distance", key, "p" + key, math.dist(place, posts["p" + key]))

    def corner(one: str, vertex: str, other: str) -> float:
        (ax, ay), (vx, vy), (bx, by) = places[one], places[vertex], places[other]
        turn = math.atan2(ay - vy, ax - vx) - math.atan2(by - vy, bx - vx)
        return math.degrees(abs(math.remainder(turn, 2 * math.pi)))

    sheet.fact("angle", "a", "b", "c", corner("a", "b", "c"))
    sheet.fact("angle", "b", "c", "a", corner("b", "c", "a"))
    whole = math.dist(places["a"], places["b"]) + math.dist(places["b"], places["c"])
    sheet.fact("equation", plus(stretch("a", "b"), stretch("b", "c")), number(whole))
    near = {key: (x + 0.2, y - 0.1) for key, (x, y) in places.items()}
    sheet.at("goal", *near["a"])
    sheet.choice("nearest", "a", "goal")
    solution = sheet.solved()
    only(solution.findings, NotProven)
    for key, place in places.items():
        assert close(solution.values[key], *place, within=1e-7)


def test_a_solution_where_the_walk_begins_and_ends() -> None:
    """`knee` lies just right of its post, where the walk round the circle starts; rounding hid the change of sign."""
    posts = {"a": (0.0, 0.0), "b": (70.0, 5.0), "c": (20.0, -60.0)}
    sheet = Sheet()
    sheet.points_at(**posts)
    knee, elbow = (12.0, 0.0), (12.0, -35.0)
    sheet.point("knee")
    sheet.point("elbow")
    sheet.fact("distance", "knee", "a", 12)
    sheet.fact("distance", "elbow", "b", math.dist(elbow, posts["b"]))
    sheet.fact("distance", "knee", "elbow", 35)
    turn = math.atan2(35, 0) - math.atan2(-25, 8)
    sheet.fact("angle", "knee", "elbow", "c", math.degrees(turn))
    finding = only(sheet.found(), SeveralPlaces)
    assert any(math.dist(dict(solution)["knee"], knee) < 1e-9 for solution in finding.solutions)
