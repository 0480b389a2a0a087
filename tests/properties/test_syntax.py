"""What must hold for every text and every tree."""

from __future__ import annotations

from pathlib import Path

from hypothesis import example, given
from hypothesis import strategies as st

from drafting.syntax import tree
from drafting.syntax.parse import parse, parse_expression, parse_setting_value
from drafting.syntax.tidy import tidy
from drafting.text.source import Source
from tests.syntax.trees import files

ITEMS = sorted((Path(__file__).parents[1] / "syntax" / "items").glob("*.draft"))
TEXTS = [path.read_text(encoding="utf-8") for path in ITEMS]


def read(text: str) -> tree.File:
    """The tree of a text that must have no slip."""
    file, messages = parse(Source("read.draft", text))
    assert [message.says for message in messages] == [], text
    return file


@given(files)
def test_a_tree_written_and_read_is_the_same_tree(file: tree.File) -> None:
    assert read(tidy(file)) == file


@given(files)
def test_tidy_twice_is_tidy_once(file: tree.File) -> None:
    once = tidy(file)
    assert tidy(read(once)) == once


@given(st.sampled_from(TEXTS), st.data())
def test_no_remark_is_lost(text: str, data: st.DataObject) -> None:
    """Remarks on lines of their own and behind others, anywhere; tidied, they are all there and stay in place."""
    lines = text.splitlines()
    for number in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(lines) - 1))
        indent = " " * data.draw(st.integers(0, 5))
        if data.draw(st.booleans()) and "#" not in lines[at]:
            lines[at] += f"{indent}#{number}"
        else:
            lines.insert(at, f"{indent}# {number}")
    file = read("\n".join(lines))
    once = tidy(file)
    again = read(once)
    assert sorted(remark.text for remark in again.remarks) == sorted(remark.text for remark in file.remarks)
    assert again == file
    assert tidy(again) == once


@given(st.text(max_size=80))
@example("\x00")
@example("piece a:\n  \x0b point")
def test_no_text_raises(text: str) -> None:
    file, messages = parse(Source("any.draft", text))
    for message in messages:
        assert message.at is not None
        assert 0 <= message.at.start <= message.at.end <= len(text)
    assert file.unread == () or messages.has_errors


WORDS = [
    "piece",
    "point",
    "outline:",
    "at",
    "(",
    ")",
    ";",
    ":",
    "=",
    "12 mm",
    "5",
    "heel",
    "to",
    "level",
    "with",
]
WORDS += [
    "\n",
    "\n  ",
    "\n    ",
    '"',
    '"note"',
    "#",
    "..",
    "-",
    "right of",
    "right",
    "from",
    "cut 1 from b",
    "½",
    "oz",
]


@given(st.lists(st.sampled_from(WORDS), max_size=25).map(" ".join))
def test_no_jumble_of_words_raises(text: str) -> None:
    parse(Source("jumble.draft", text))


@given(st.sampled_from(TEXTS), st.data())
def test_no_damaged_item_raises(text: str, data: st.DataObject) -> None:
    """Take a few stretches out of a whole item, and put a few characters in."""
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(text)))
        length = data.draw(st.integers(0, 12))
        put = data.draw(st.text(st.sampled_from(" \n\t:;,.()=\"'-+*/#a1éक"), max_size=3))
        text = text[:at] + put + text[at + length :]
    file, messages = parse(Source("damaged.draft", text))
    if not messages.has_errors:
        assert read(tidy(file)) == file


@given(st.text(max_size=40) | st.lists(st.sampled_from(WORDS), max_size=8).map(" ".join))
def test_no_expression_raises(text: str) -> None:
    found, messages = parse_expression(Source("measured", text))
    assert (found is None) == messages.has_errors
    values, messages = parse_setting_value(Source("set", text))
    assert (values is None) == messages.has_errors
