"""Choices pick among places, are checked where nothing is left to pick, and are asked for where they lack."""

from __future__ import annotations

import pytest

from drafting.geometry.curves import circle
from drafting.geometry.point import Point
from drafting.solve.findings import ChoiceRefuses, NoPlace, SeveralPlaces
from tests.solve.sheets import Sheet, based, close, measure, only


def two_circles() -> Sheet:
    """`toe` can be at (30, 40) or (30, -40)."""
    sheet = based()
    sheet.known("arm", 50)
    sheet.point("toe")
    sheet.fact("distance", "toe", "foot", measure("arm"))
    sheet.fact("distance", "toe", "heel", 50)
    return sheet


@pytest.mark.parametrize(
    ("kind", "operands", "y"),
    [
        ("above", ["foot"], 40),
        ("below", ["foot"], -40),
        ("above", ["foot", "heel"], 40),
        ("below", ["heel", "foot"], -40),
        ("left of", ["low", "high"], 40),
        ("right of", ["high", "low"], -40),
        ("nearest", ["high"], 40),
        ("farthest from", ["high"], -40),
        ("inside", ["ring"], 40),
        ("outside", ["ring"], -40),
    ],
)
def test_each_choice_picks(kind: str, operands: list[str], y: float) -> None:
    sheet = two_circles()
    sheet.points_at(low=(20, -60), high=(40, 70))
    sheet.computed("ring", ["high"], lambda high: circle(Point(30, 40), 5))
    sheet.choice(kind, "toe", *operands)
    assert close(sheet.place("toe"), 30, y)


def test_without_a_choice_both_places_are_shown() -> None:
    finding = only(two_circles().found(), SeveralPlaces)
    assert finding.key == "toe"
    assert sorted(finding.places) == [(30, -40), (30, 40)]
    assert finding.tags == ("distance toe foot Value(key='arm')", "distance toe heel 50")


def test_a_choice_that_leaves_both_is_named() -> None:
    sheet = two_circles()
    sheet.choice("right of", "toe", "foot")
    sheet.at("left", 30, 0)
    sheet.choice("nearest", "toe", "left")
    finding = only(sheet.found(), SeveralPlaces)
    assert len(finding.places) == 2


def test_a_choice_that_no_place_meets_refuses() -> None:
    sheet = two_circles()
    sheet.choice("left of", "toe", "foot")
    finding = only(sheet.found(), ChoiceRefuses)
    assert finding.choice == "toe left of foot"
    assert len(finding.places) == 2


def test_the_choice_that_takes_the_last_place_is_the_one_that_refuses() -> None:
    sheet = two_circles()
    sheet.choice("above", "toe", "foot")
    sheet.choice("below", "toe", "heel")
    finding = only(sheet.found(), ChoiceRefuses)
    assert finding.choice == "toe below heel"
    assert finding.places == ((30, 40),)


def test_level_with_is_neither_above_nor_below() -> None:
    for kind in ("above", "below"):
        sheet = based()
        sheet.point("toe")
        sheet.fact("offset x", "toe", "heel", 5)
        sheet.fact("offset y", "toe", "heel", 0)
        sheet.choice(kind, "toe", "heel")
        assert only(sheet.found(), ChoiceRefuses).places == ((65, 0),)


def test_a_plumb_line_has_no_above_and_a_level_one_no_left() -> None:
    for kind, end in (("above", (0, 50)), ("left of", (50, 0))):
        sheet = two_circles()
        sheet.at("end", *end)
        sheet.choice(kind, "toe", "foot", "end")
        only(sheet.found(), ChoiceRefuses)


def test_a_choice_is_tested_again_at_every_size() -> None:
    """At 60 mm the upper place lies right of 30, at 40 mm left of it."""
    sheet = two_circles()
    sheet.at("post", 30, 0)
    sheet.choice("above", "toe", "foot")
    sheet.choice("right of", "toe", "post")
    assert sheet.place("toe", arm=60).x > 30
    refused = only(sheet.found(arm=40), ChoiceRefuses)
    assert refused.choice == "toe right of post"


def test_what_hangs_on_a_point_of_two_places_is_quiet() -> None:
    sheet = two_circles()
    sheet.point("tip")
    sheet.fact("distance", "tip", "toe", 5)
    sheet.fact("offset x", "tip", "toe", 90)
    assert only(sheet.found(), SeveralPlaces).key == "toe"


def forward(reach: float) -> Sheet:
    """`toe` is to lie above `tip`, which hangs on it: plumb below 30 mm right of it, at `reach` from `heel`."""
    sheet = two_circles()
    sheet.point("tip")
    sheet.fact("offset x", "tip", "toe", 30)
    sheet.fact("distance", "tip", "heel", reach)
    sheet.choice("above", "toe", "tip")
    return sheet


def test_a_choice_may_speak_of_a_point_found_later() -> None:
    """With `tip` above `heel` only the upper `toe` lies above it; below, either might, and one more choice is due."""
    sheet = forward(38)
    sheet.choice("above", "tip", "heel")
    assert close(sheet.place("toe"), 30, 40)
    assert close(sheet.place("tip"), 60, 38)
    sheet = forward(45)
    sheet.choice("below", "tip", "heel")
    finding = only(sheet.found(), SeveralPlaces)
    assert finding.key == "toe"
    assert sorted(finding.places) == [(30, -40), (30, 40)]
    sheet.choice("below", "toe", "foot")
    assert close(sheet.place("toe"), 30, -40)
    assert close(sheet.place("tip"), 60, -45)


def test_a_choice_that_nothing_later_can_meet_refuses() -> None:
    sheet = forward(45)
    sheet.choice("above", "tip", "heel")
    assert only(sheet.found(), ChoiceRefuses).key == "toe"


def test_two_coordinates_found_apart_are_picked_together() -> None:
    """x and y each have two values; the choice `nearest` needs both."""
    sheet = based()
    sheet.point("toe")
    sheet.computed("ladder", ["foot"], lambda foot: circle(foot, 50))
    sheet.fact("offset x", "toe", "foot", 30)
    sheet.fact("on path", "toe", "ladder")
    sheet.at("goal", 28, 33)
    sheet.choice("nearest", "toe", "goal")
    assert close(sheet.place("toe"), 30, 40)


def test_a_choice_that_speaks_of_a_loose_point_stays_quiet() -> None:
    sheet = two_circles()
    sheet.point("tip")
    sheet.fact("offset x", "tip", "foot", 3)
    sheet.choice("above", "toe", "tip")
    assert [finding.key for finding in sheet.found()] == ["tip"]


@pytest.mark.parametrize(("kind", "operands"), [("on stretch", ("foot", "heel")), ("ray", ("foot", 0))])
def test_on_between_two_points_is_no_endless_line(kind: str, operands: tuple[str, ...]) -> None:
    """Left of `foot` there is neither a stretch to `heel` nor a ray toward it."""
    sheet = based()
    sheet.point("toe")
    sheet.fact(kind, "toe", *operands)
    sheet.fact("offset x", "toe", "foot", -10)
    finding = only(sheet.found(), NoPlace)
    assert finding.condition == f"{kind} toe {' '.join(map(str, operands))}"
    assert finding.places == ((-10, 0),)


def test_a_stretch_leaves_one_of_two_places() -> None:
    sheet = based()
    sheet.point("toe")
    sheet.fact("on stretch", "toe", "foot", "heel")
    sheet.fact("distance", "toe", "foot", 12)
    assert close(sheet.place("toe"), 12, 0)
