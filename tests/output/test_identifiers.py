"""Names become identifiers, each once."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.output.identifiers import Identifiers
from drafting.output.numbers import number_text


@pytest.mark.parametrize(
    ("words", "identifier"),
    [
        (("piece", "back"), "piece-back"),
        (("back", "eye'"), "back-eye-twin"),
        (("note", "表紙"), "note-表紙"),
        (("field", "Legal owner"), "field-Legal-owner"),
        (("dimension", "a..b"), "dimension-a..b"),
        (("x", "a<&>\"'b"), "x-a-----twinb"),
    ],
)
def test_words_become_an_identifier(words: tuple[str, ...], identifier: str) -> None:
    assert Identifiers().give(*words) == identifier


def test_the_same_words_get_a_number() -> None:
    names = Identifiers()
    assert [names.give("a", "b"), names.give("a-b"), names.give("a-b-2"), names.give("a", "b")] == [
        "a-b", "a-b-2", "a-b-2-2", "a-b-3",
    ]  # fmt: skip


@given(st.lists(st.text(max_size=8)))
def test_never_the_same_twice(words: list[str]) -> None:
    names = Identifiers()
    given_names = [names.give("x", word) for word in words]
    assert len(set(given_names)) == len(words)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.0, "0"), (-0.0, "0"), (-1e-9, "0"), (1e-7, "0"), (100.0, "100"),
        (12.50, "12.5"), (-3.25, "-3.25"), (1234567.125, "1234567.125"),
    ],
)  # fmt: skip
def test_numbers_are_short_and_plain(value: float, text: str) -> None:
    assert number_text(value) == text
