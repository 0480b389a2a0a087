"""Brackets in words that run both ways, against another implementation of UAX 9.

`bidi.get_display` is that of the Rust crate unicode-bidi, with rule N0; of what python-bidi does step by step in Python,
which the tool uses, it shares no line. It does not mirror the brackets that it moves.
"""

from __future__ import annotations

from bidi import get_display
from hypothesis import example, given
from hypothesis import strategies as st

from drafting.drawing.fonts import visual_parts

LETTERS = "ab אבעم12()[]{} .-+,\u0301"


def from_left_to_right(text: str) -> str:
    return "".join(part[::-1] if is_backward else part for part, is_backward in visual_parts(text))


@given(st.text(st.sampled_from(LETTERS), min_size=1, max_size=14))
@example("Omar عمر 12 (أ)")
@example("עברית (abc) x")
@example("a (ب [1] c) ד")
@example("ע(\u0301a)\u0301ע")
@example("(" * 70 + "א" + ")" * 70)
def test_brackets_run_as_in_another_implementation(text: str) -> None:
    assert from_left_to_right(text) == get_display(text)
