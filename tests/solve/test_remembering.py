"""What is taken again from the size before is what would be made afresh."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

import drafting
from drafting.face import MOST_PLACED
from drafting.geometry.point import Point
from drafting.solve.draft import Draft
from drafting.solve.remembering import Memory, is_same_value
from drafting.text.catalogue import shapes as says
from drafting.text.messages import Messages
from drafting.text.quantities import LENGTH
from drafting.text.source import Source
from tests.patterns.starters import STARTERS, starter_path
from tests.solve.forgetting import forget

STEPS = ("+0.3", "-0.2", "+0.3")
"""mm that a measure is moved by, one size after the other."""


def swept_measures(pattern: drafting.Pattern) -> list[tuple[str, float]]:
    """The first and the last of the measures that are lengths, with what they come to."""
    (asked, *_) = pattern.asked_sizes(pattern.sizes[0] if pattern.sizes else None, {})
    placed = pattern.draft.size(asked.title, asked.settings).drawn
    lengths = [name for name, part in pattern.bound.measures.items() if part.kind == LENGTH]
    found = [(name, placed.measures[name]) for name in lengths if name in placed.measures]
    return [found[0], found[-1]]


def outcome(draft: Draft, asked: Any) -> tuple[object, ...]:
    sized = draft.size(asked.title, asked.settings)
    return sized.drawn, sized.placed, list(sized.messages)


@pytest.mark.parametrize("name", STARTERS)
def test_a_sweep_is_as_each_size_alone(name: str) -> None:
    pattern = drafting.load(starter_path(name))
    title = pattern.sizes[0] if pattern.sizes else None
    asked = [
        pattern.asked_sizes(title, {measure: f"{value + float(step or 0):.6f} mm"})[0]
        for measure, value in swept_measures(pattern)
        for step in STEPS
    ]
    assert asked
    in_turn = [outcome(pattern.draft, one) for one in asked]
    for one, together in zip(asked, in_turn, strict=True):
        for planned in pattern.draft.plans.values():
            forget(planned)
        pattern.draft.fits.clear()
        pattern.draft.fitted_parts.clear()
        assert outcome(pattern.draft, one) == together


def test_sizes_that_differ_elsewhere_are_fitted_by_the_same_looks() -> None:
    """Between two sizes of the coin pouch only `depth` and `mouth_w` differ from what its ring hangs on."""
    pattern = drafting.load(starter_path("coin-pouch"))
    looks = []
    for title in pattern.sizes:
        (asked,) = pattern.asked_sizes(title, {})
        assert outcome(pattern.draft, asked)[0] is not None
        looks.append(sum(len(part.made) for part in pattern.draft.fitted_parts.values()))
    first, *later = looks
    assert first > 50
    assert later[-1] <= first + 2, "where the others are written, and no more"


def test_values_are_the_same_to_the_last_bit() -> None:
    assert is_same_value(1.5, 1.5)
    assert is_same_value(Point(1.0, 2.0), Point(1.0, 2.0))
    assert not is_same_value(0.0, -0.0)
    assert not is_same_value(Point(0.0, 1.0), Point(-0.0, 1.0))
    assert not is_same_value(float("nan"), float("nan"))
    assert not is_same_value([1.0], [1.0])


class _Making:
    """Adds two values, one of them only where it is there, and counts how often it has to."""

    def __init__(self) -> None:
        self.n_made = 0

    def __call__(self, values: Mapping[str, Any]) -> float:
        self.n_made += 1
        return float(values["rim"]) + (values["ease"] if "ease" in values else 0.0)


def test_only_what_was_read_counts() -> None:
    memory, make = Memory(), _Making()

    def made(**values: float) -> float:
        return memory.made("frame", values, Messages(), make)

    assert [made(rim=7.0, other=1.0), made(rim=7.0, other=2.0)] == [7.0, 7.0]
    assert make.n_made == 1
    assert made(rim=7.0, ease=1.0) == 8.0
    assert made(rim=8.0, ease=1.0) == 9.0
    assert make.n_made == 3


def test_what_was_told_is_told_in_every_size() -> None:
    memory, span = Memory(), Source("rim.draft", "piece frame").span(0, 5)

    def made() -> Messages:
        messages = Messages()
        memory.made(
            "frame", {}, messages, lambda values: messages.add(says.SWINGS, at=span, to="heel", place="toe")
        )
        return messages

    assert list(made()) == list(made()) != []


def test_after_an_error_all_is_made_afresh() -> None:
    memory, make, messages = Memory(), _Making(), Messages()
    memory.made("frame", {"rim": 7.0}, messages, make)
    messages.add(
        says.NO_WIDTH, at=Source("rim.draft", "piece frame").span(0, 5), what="The line", line="heel..toe"
    )
    memory.made("frame", {"rim": 7.0}, messages, make)
    assert make.n_made == 2


def test_a_size_asked_for_again_is_the_one_that_was_placed() -> None:
    """What was given is kept as it was, and of many sizes only the last."""
    pattern = drafting.load(starter_path("badge-holder"))
    measures: dict[str, str | float] = {"rim": "9 mm"}
    placed = pattern.place_with("visitor", measures)
    assert pattern.place("visitor", rim="9 mm") is placed
    measures["rim"] = "8 mm"
    other = pattern.place_with("visitor", measures)
    assert other is not placed and other.placed.measures["rim"] == 8 and placed.given == {"rim": "9 mm"}
    for tenths in range(MOST_PLACED):
        pattern.place("visitor", rim=8 + tenths / 10)
    again = pattern.place("visitor", rim="9 mm")
    assert again is not placed and again.placed == placed.placed
