"""What is said of a drawing that is loose, held twice, or cannot be."""

from __future__ import annotations

import math

import pytest

from drafting.solve.findings import (
    ChoiceRefuses,
    Contradiction,
    Cycle,
    Degenerate,
    Free,
    Loose,
    NegativeLength,
    NoPlace,
    Repeated,
    SeveralPlaces,
    Slides,
    Turns,
)
from drafting.solve.plan import make_plan
from tests.solve.sheets import Sheet, based, measure, number, only, plus


@pytest.mark.parametrize(
    ("facts", "motion"),
    [
        ([("offset x", "heel", 0)], Slides(0, 1)),
        ([("offset y", "heel", 7)], Slides(1, 0)),
        ([("distance", "heel", 20)], Turns("heel")),
        ([("on line", "foot", "crest")], Slides(0.6, 0.8, ("foot", "crest"))),
        ([("line distance", "foot", "crest", 9)], Slides(0.6, 0.8, ("foot", "crest"))),
        ([("ray", "foot", 30)], Slides(math.sqrt(0.75), 0.5)),
        ([("square off", "foot", "crest", "heel")], Slides(0.8, -0.6)),
        ([], Free()),
    ],
)
def test_a_loose_point_says_how_it_can_move(facts, motion) -> None:  # type: ignore[no-untyped-def]
    sheet = based()
    sheet.at("crest", 30, 40)
    sheet.point("toe", tag="the toe")
    for kind, *operands in facts:
        sheet.fact(kind, "toe", *operands)
    finding = only(sheet.found(), Loose)
    assert (finding.key, finding.tag, finding.n_facts) == ("toe", "the toe", len(facts))
    assert finding.missing == 2 - len(facts)
    assert type(finding.motion) is type(motion)
    if isinstance(motion, Slides):
        assert (finding.motion.x, finding.motion.y) == pytest.approx((motion.x, motion.y))
        assert finding.motion.along == motion.along
    else:
        assert finding.motion == motion


def test_loose_points_are_known_without_numbers() -> None:
    sheet = based()
    sheet.point("toe")
    sheet.fact("offset x", "toe", "heel", 0)
    [finding] = make_plan(sheet).findings
    assert isinstance(finding, Loose)
    assert (finding.key, finding.n_facts, finding.motion) == ("toe", 1, None)


def test_what_hangs_on_a_loose_point_is_quiet_and_the_rest_is_solved() -> None:
    sheet = based()
    sheet.point("toe")
    sheet.fact("offset x", "toe", "heel", 0)
    sheet.point("tip")
    sheet.fact("offset x", "tip", "toe", 4)
    sheet.fact("offset y", "tip", "toe", 4)
    sheet.computed("mid", ["toe", "tip"], lambda toe, tip: toe.midway(tip))
    sheet.point("lip")
    sheet.fact("offset x", "lip", "heel", 1)
    sheet.fact("offset y", "lip", "heel", 1)
    solution = sheet.solved()
    finding = only(solution.findings, Loose)
    assert finding.group == ("toe", "tip")
    assert set(solution.values) == {"foot", "heel", "lip"}


def test_a_drawing_without_a_base_says_so_once() -> None:
    """Three points that hold each other: the whole can slide and turn."""
    sheet = Sheet()
    for key in "abc":
        sheet.point(key)
    for one, other in ("ab", "bc", "ca"):
        sheet.fact("distance", one, other, 30)
    finding = only(sheet.found(), Loose)
    assert finding.as_body
    assert (finding.missing, finding.group) == (3, ("a", "b", "c"))


def test_a_drawing_that_can_slide_but_not_turn() -> None:
    sheet = Sheet()
    sheet.point("a")
    sheet.point("b")
    sheet.fact("offset x", "b", "a", 30)
    sheet.fact("offset y", "b", "a", 0)
    finding = only(sheet.found(), Loose)
    assert finding.as_body
    assert finding.missing == 2


@pytest.mark.parametrize("n", [3, 400])
def test_a_ladder_without_a_base_says_so_however_long(n: int) -> None:
    sheet = Sheet()
    for index in range(n):
        sheet.point(f"p{index}")
        for back in range(1, min(index, 2) + 1):
            sheet.fact("distance", f"p{index}", f"p{index - back}", 20 + 10 * back)
    finding = only(sheet.found(), Loose)
    assert (finding.key, finding.missing, finding.as_body) == ("p0", 3, True)


def test_in_a_long_loose_chain_each_point_is_judged_by_its_own_facts() -> None:
    sheet = based()
    before = "heel"
    for index in range(50):
        key = f"p{index}"
        sheet.point(key)
        if index % 10 == 3:
            sheet.fact("distance", key, before, 5)
        else:
            sheet.fact("offset x", key, before, 5)
            sheet.fact("offset y", key, before, 1)
        before = key
    found = sheet.found()
    assert [finding.key for finding in found] == ["p3", "p13", "p23", "p33", "p43"]
    assert [finding.motion for finding in found] == [Turns(f"p{index}") for index in (2, 12, 22, 32, 42)]


def test_level_with_a_point_on_a_level_line_is_said_twice() -> None:
    sheet = based()
    sheet.point("toe")
    sheet.fact("offset y", "toe", "foot", 0)
    sheet.fact("on line", "toe", "foot", "heel")
    finding = only(sheet.found(), Degenerate)
    assert finding.motion == Slides(1, 0)


def frame(*diagonals: float) -> Sheet:
    """A quadrilateral of 60 by 50 on the line from `foot` to `heel`."""
    sheet = based()
    for key in ("brow", "lip"):
        sheet.point(key)
    sheet.fact("distance", "brow", "heel", 50)
    sheet.fact("distance", "lip", "foot", 50)
    sheet.fact("distance", "lip", "brow", 60)
    for ends, length in zip((("brow", "foot"), ("lip", "heel")), diagonals, strict=False):
        sheet.fact("distance", *ends, length)
    sheet.choice("above", "brow", "heel")
    sheet.choice("above", "lip", "foot")
    sheet.choice("left of", "lip", "brow")
    return sheet


DIAGONAL = math.hypot(60, 50)


def test_laman_counts_of_a_quadrilateral() -> None:
    """Four sides leave one freedom, a diagonal takes it, a second is one too many: repeated if true, else it
    contradicts (Laman 1970)."""
    loose = frame().found()
    assert {type(finding) for finding in loose} == {Loose}
    assert {finding.missing for finding in loose} == {1}
    assert frame(DIAGONAL).found() == ()
    assert only(frame(DIAGONAL, DIAGONAL).found(), Repeated).tag == f"distance lip heel {DIAGONAL}"
    finding = only(frame(DIAGONAL, DIAGONAL + 1).found(), Contradiction)
    assert finding.misfit == pytest.approx(1)
    assert (finding.wanted, finding.actual) == pytest.approx((DIAGONAL + 1, DIAGONAL))


def test_three_facts_for_one_point() -> None:
    sheet = based()
    sheet.point("snout")
    sheet.fact("offset y", "snout", "heel", 0)
    sheet.fact("offset x", "snout", "heel", 14)
    sheet.fact("distance", "snout", "foot", 75.5)
    finding = only(sheet.found(), Contradiction)
    assert finding.point == "snout"
    assert finding.point_tags == (
        "offset y snout heel 0",
        "offset x snout heel 14",
        "distance snout foot 75.5",
    )
    assert finding.misfit == pytest.approx(1.5)
    assert (finding.wanted, finding.actual) == pytest.approx((75.5, 74))


def test_the_first_fact_that_finds_no_place_is_blamed() -> None:
    sheet = based()
    sheet.point("toe")
    for kind, amount in (("offset x", 10), ("offset x", 12), ("offset y", 3), ("offset y", 3)):
        sheet.fact(kind, "toe", "foot", amount, tag=(kind, amount, len(sheet.facts)))
    repeated, contradiction = sorted(sheet.found(), key=lambda finding: type(finding).__name__, reverse=True)
    assert isinstance(repeated, Repeated)
    assert isinstance(contradiction, Contradiction)
    assert contradiction.tag[:2] == ("offset x", 12)
    assert repeated.tag == ("offset y", 3, 7)


def test_a_contradiction_names_a_smallest_set() -> None:
    """Whichever of its facts is taken away, the rest can hold; and no fact elsewhere is blamed."""
    sheet = frame(DIAGONAL, DIAGONAL + 1)
    sheet.point("far")
    sheet.fact("distance", "far", "foot", 80)
    sheet.fact("distance", "far", "heel", 90)
    sheet.choice("above", "far", "foot")
    finding = only(sheet.found(), Contradiction)
    assert not any("far" in tag for tag in finding.tags)
    for left_out in finding.tags:
        smaller = frame(DIAGONAL, DIAGONAL + 1)
        smaller.facts = [fact for fact in smaller.facts if fact.tag != left_out]
        assert not any(isinstance(one, (Contradiction, Repeated)) for one in smaller.found())


def test_a_contradiction_keeps_quiet_about_what_touches_no_fault() -> None:
    """A fact far down a chain is measured where the chain ends."""
    sheet = based()
    before = "heel"
    for number_of in range(12):
        key = f"p{number_of}"
        sheet.point(key)
        sheet.fact("offset x", key, before, 5)
        sheet.fact("offset y", key, before, number_of)
        before = key
    sheet.fact("offset y", "p3", "p1", 6)
    finding = only(sheet.found(), Contradiction)
    assert finding.tags == ("offset y p2 p1 2", "offset y p3 p2 3", "offset y p3 p1 6")


def test_a_fact_about_fixed_points_is_one_too_many() -> None:
    sheet = based()
    sheet.fact("distance", "foot", "heel", 60)
    sheet.fact("distance", "heel", "foot", 61)
    repeated, contradiction = sorted(sheet.found(), key=lambda finding: type(finding).__name__, reverse=True)
    assert isinstance(repeated, Repeated)
    assert contradiction.misfit == pytest.approx(1)


@pytest.mark.parametrize(("third", "kind"), [(60, Repeated), (61, Contradiction)])
def test_three_angles_of_a_triangle_say_no_more_than_two(third: float, kind: type) -> None:
    """The counts are right, and still a side is missing."""
    sheet = Sheet()
    sheet.at("a", 0, 0)
    sheet.point("b")
    sheet.point("c")
    sheet.fact("offset y", "b", "a", 0)
    sheet.fact("angle", "b", "a", "c", 60)
    sheet.fact("angle", "a", "b", "c", 60)
    sheet.fact("angle", "a", "c", "b", third)
    sheet.choice("right of", "b", "a")
    sheet.choice("above", "c", "a")
    fault, loose = sheet.found()
    assert isinstance(fault, kind)
    assert fault.tag == f"angle a c b {third}"
    if isinstance(fault, Contradiction):
        assert fault.misfit == pytest.approx(1, abs=1e-6)
    assert isinstance(loose, Loose)
    assert (loose.key, loose.missing) == ("b", 1)
    assert loose.motion == Slides(1, 0)


def test_a_length_that_cannot_reach_says_how_much_is_missing() -> None:
    sheet = based()
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", 20)
    sheet.fact("distance", "toe", "heel", 30)
    sheet.choice("above", "toe", "foot")
    finding = only(sheet.found(), NoPlace)
    assert finding.gap == pytest.approx(10)
    assert finding.keys == ("toe",)
    assert len(finding.tags) == 2


def test_a_circle_within_another_and_a_line_that_passes_it() -> None:
    sheet = based()
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", 100)
    sheet.fact("distance", "toe", "heel", 30)
    assert only(sheet.found(), NoPlace).gap == pytest.approx(10)
    sheet = based()
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", 10)
    sheet.fact("offset y", "toe", "heel", 14)
    assert only(sheet.found(), NoPlace).gap == pytest.approx(4)


def test_parallel_lines_never_meet_and_equal_ones_meet_everywhere() -> None:
    for height, kind in ((5, NoPlace), (0, Degenerate)):
        sheet = based()
        sheet.points_at(c=(10, height), d=(30, height))
        sheet.point("toe")
        sheet.fact("on line", "toe", "foot", "heel")
        sheet.fact("on line", "toe", "c", "d")
        finding = only(sheet.found(), kind)
        if isinstance(finding, Degenerate):
            assert finding.motion == Slides(1, 0)
        else:
            assert finding.gap == pytest.approx(5)


def test_equal_circles_leave_no_single_place() -> None:
    sheet = based()
    sheet.at("same", 0, 0)
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", 10)
    sheet.fact("distance", "toe", "same", 10)
    only(sheet.found(), Degenerate)


def test_a_distance_below_nought() -> None:
    sheet = based()
    sheet.known("reach", -5)
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", measure("reach"))
    sheet.fact("offset y", "toe", "foot", 0)
    finding = only(sheet.found(), NegativeLength)
    assert finding.value == -5
    assert [type(one) for one in sheet.found(reach=5)] == [SeveralPlaces]


def test_nodes_that_need_each_other_show_the_ring() -> None:
    sheet = based()
    sheet.formula("width", plus(measure("depth"), number(1)), tag="w")
    sheet.formula("depth", plus(measure("reach"), number(1)), tag="d")
    sheet.formula("reach", plus(measure("width"), number(1)), tag="r")
    sheet.point("toe")
    sheet.fact("offset x", "toe", "foot", measure("width"))
    sheet.fact("offset y", "toe", "foot", 0)
    solution = sheet.solved()
    finding = only(solution.findings, Cycle)
    assert finding.keys == ("width", "depth", "reach")
    assert finding.tags == ("w", "d", "r")
    assert set(solution.values) == {"foot", "heel"}


def test_a_node_that_needs_itself() -> None:
    sheet = Sheet()
    sheet.formula("width", plus(measure("width"), number(1)))
    assert only(sheet.found(), Cycle).keys == ("width",)


def test_computed_points_that_need_each_other_with_a_fact_between_are_no_ring() -> None:
    """`toe` is 40 mm from its own mirror image: an equation, not a ring."""
    sheet = based()
    sheet.point("toe")
    sheet.computed("twin", ["toe", "foot", "heel"], lambda toe, foot, heel: toe.mirrored(foot, heel))
    sheet.fact("distance", "toe", "twin", 40)
    sheet.fact("offset x", "toe", "foot", 9)
    sheet.choice("above", "toe", "foot")
    assert sheet.place("toe").y == pytest.approx(20, abs=1e-9)


def test_independent_faults_are_all_told_in_one_run() -> None:
    sheet = based()
    sheet.point("loose")
    sheet.fact("offset x", "loose", "foot", 1)
    sheet.point("two")
    sheet.fact("distance", "two", "foot", 40)
    sheet.fact("distance", "two", "heel", 40)
    sheet.point("none")
    sheet.fact("distance", "none", "foot", 4)
    sheet.fact("distance", "none", "heel", 4)
    sheet.point("over")
    sheet.fact("offset x", "over", "foot", 4)
    sheet.fact("offset y", "over", "foot", 4)
    sheet.fact("distance", "over", "foot", 9)
    sheet.point("refused")
    sheet.fact("offset x", "refused", "foot", 4)
    sheet.fact("offset y", "refused", "foot", 4)
    sheet.choice("below", "refused", "foot")
    kinds = {type(finding) for finding in sheet.found()}
    assert kinds == {Loose, SeveralPlaces, NoPlace, Contradiction, ChoiceRefuses}


def test_a_formula_that_cannot_be_computed_is_a_failure() -> None:
    from drafting.model.expressions import Applied, Operation

    sheet = based()
    sheet.known("play", 0)
    sheet.formula("share", Operation("/", number(1), measure("play")))
    sheet.formula("side", Applied("sqrt", (Operation("-", measure("play"), number(1)),)))
    sheet.point("toe")
    sheet.fact("offset x", "toe", "foot", measure("share"))
    sheet.fact("offset y", "toe", "foot", measure("side"))
    solution = sheet.solved()
    assert set(solution.failures) == {"share", "side"}
    assert "toe" not in solution.values
    assert sheet.place("toe", play=2).x == 0.5


def test_a_group_without_base_whose_facts_depend_on_each_other() -> None:
    """A 3-4-5 triangle told by its sides and by level and plumb: five facts, and still the whole can slide two ways."""
    sheet = Sheet()
    for key in ("foot", "heel", "brow"):
        sheet.point(key)
    sheet.fact("distance", "foot", "heel", 40)
    sheet.fact("distance", "foot", "brow", 50)
    sheet.fact("distance", "heel", "brow", 30)
    sheet.fact("offset y", "heel", "foot", 0)
    sheet.fact("offset x", "brow", "heel", 0)
    finding = only(sheet.found(), Loose)
    assert (finding.as_body, finding.missing) == (True, 2)
