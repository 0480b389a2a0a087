"""Whatever is done to a pattern's text, it is read and checked without a fall, and what is wrong is said in words.

Whole patterns lose and double lines, clauses and words, or have two of them change places, or get other amounts; then
each must be read, checked in every size, and either be told something or be placed.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting import face
from drafting.text.source import Source
from tests.patterns.starters import STARTERS

TESTS = Path(__file__).parent.parent
TEXTS = {
    path.stem: path.read_text(encoding="utf-8")
    for path in (
        *sorted((TESTS / "syntax" / "items").glob("*.draft")),
        *sorted(TESTS.parent.glob("patterns/*.draft")),
    )
}


def pieces_of(text: str, kind: str) -> list[str]:
    """The text taken apart, so that joined again it is the same."""
    splits = {
        "lines": r"(?<=\n)",
        "clauses": r"(?<=;)|(?<=\n)",
        "words": r"(?<=\s)(?=\S)",
        "signs": r"(?<=.)",
    }
    return [part for part in re.split(splits[kind], text) if part]


def broken(text: str, seed: int, count: int) -> str:
    """Some changes, the same for the same seed."""
    chance = random.Random(seed)
    for _ in range(count):
        if chance.random() < 0.5:
            text = with_other_amount(text, chance)
            continue
        parts = pieces_of(text, chance.choice(["lines", "clauses", "words", "words", "signs"]))
        if len(parts) < 2:
            break
        at, other = chance.randrange(len(parts)), chance.randrange(len(parts))
        change = chance.choice(["drop", "drop", "double", "swap", "copy"])
        if change == "drop":
            del parts[at]
        elif change == "double":
            parts.insert(at, parts[at])
        elif change == "swap":
            parts[at], parts[other] = parts[other], parts[at]
        else:
            parts[at] = parts[other]
        text = "".join(parts)
    return text


def with_other_amount(text: str, chance: random.Random) -> str:
    """One number of the text set to another: nought, a little, a lot, a little more or less, less than nothing."""
    numbers = list(re.finditer(r"(?<![\w.])\d+(?:\.\d+)?(?![\w.])", text))
    if not numbers:
        return text
    found = chance.choice(numbers)
    value = float(found[0])
    other = chance.choice(
        ["0", "0.001", "1", "1000", f"{value * 0.9:.3f}", f"{value * 1.1:.3f}", f"{value * 3:.3f}"]
    )
    return text[: found.start()] + other + text[found.end() :]


def survives(text: str) -> None:
    pattern = face.read(Source("broken.draft", text))
    messages = pattern.check()
    for message in messages:
        assert message.says and "None" not in message.says
    if not messages.has_errors:
        assert set(pattern.place().pieces) == set(pattern.pieces)


@pytest.mark.parametrize("name", TEXTS)
def test_a_whole_pattern_is_read_and_checked(name: str) -> None:
    survives(TEXTS[name])


@settings(max_examples=60)
@given(st.sampled_from(sorted(TEXTS)), st.integers(0, 2**32), st.integers(1, 4))
def test_a_broken_pattern_is_told_and_never_falls(name: str, seed: int, count: int) -> None:
    survives(broken(TEXTS[name], seed, count))


FAR = ("0 {1}", "-{0} {1}", "0.000000001 {1}", "1000000000 {1}", "{0}0 {1}", "0.{0} {1}", "{0}.0000001 {1}")
"""Nought, less than nothing, hardly anything, more than a country, ten times as much, a little of it, a hair more."""


def with_far_amounts(text: str) -> Iterator[str]:
    """Each whole amount of the measures and sizes out of all proportion, each in another way by turns."""
    lines = re.finditer(r"^(?:measure|size) [^#\n]*", text, re.MULTILINE)
    amounts = [
        (
            line.start() + found.start(),
            line.start() + found.end(),
            FAR[(at + nth) % len(FAR)].format(*found.groups()),
        )
        for nth, line in enumerate(lines)
        for at, found in enumerate(re.finditer(r"(?<![\d./ ]) (\d+) (mm|in|deg)\b", line[0]))
    ]
    for start, end, far in amounts:
        yield f"{text[:start]} {far}{text[end:]}"


@pytest.mark.parametrize("name", STARTERS)
def test_an_amount_out_of_all_proportion_is_told_or_drawn(name: str) -> None:
    """A washer as wide as a country, a seam of no width: there may be no such piece, but the tool does not fall."""
    for text in with_far_amounts(TEXTS[name]):
        survives(text)
