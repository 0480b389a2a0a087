"""REFERENCE.md teaches the language as it is: examples can be drafted, words are told of, traps spring."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from drafting import face
from drafting.syntax.grammar import grammar_text
from drafting.syntax.parse import parse, statement_words
from drafting.syntax.tables import presume_tables
from drafting.syntax.tidy import tidy
from drafting.text.messages import Message, Severity
from drafting.text.source import Source
from tests.patterns.starters import PATTERNS

REFERENCE = grammar_text("REFERENCE.md")
EXAMPLES = re.findall(r"^```draft\n(.*?)^```$", REFERENCE, re.MULTILINE | re.DOTALL)
TRAPS = re.findall(r"^\| `([^`\n]+)` \| `([^`\n]+)` \|$", REFERENCE.split("## Traps")[1], re.MULTILINE)


def title(example: str) -> str:
    found = re.search(r'pattern "(.*?)"', example)
    return found[1] if found else example[:20]


def slips(text: str) -> list[str]:
    return [message.says for message in parse(Source("reference.draft", text))[1]]


@pytest.mark.parametrize("example", EXAMPLES, ids=title)
def test_every_example_is_read_and_tidied(example: str) -> None:
    file, messages = parse(Source("example.draft", example))
    assert [message.says for message in messages] == []
    once = tidy(file)
    again, messages = parse(Source("tidied.draft", once))
    assert [message.says for message in messages] == []
    assert again == file
    assert tidy(again) == once


SAID = ("S31", "K40")
"""What a fit came to, and what is allowed."""
USED = {example.split("\n", 1)[0].removeprefix("# "): example for example in EXAMPLES if example[0] == "#"}
"""Examples that others use: their first line says where they lie."""


@pytest.mark.parametrize("example", EXAMPLES, ids=title)
def test_every_example_is_drafted(example: str, tmp_path: Path) -> None:
    """In every size; all that may be said is what a fit came to. The blocks that come with the tool are there."""
    for name, text in USED.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    pattern = face.read(Source("example.draft", example), folder=tmp_path, blocks=PATTERNS)
    assert [message.says for message in pattern.check() if not may_be_said(message)] == []
    for size in pattern.sizes or (None,):
        assert pattern.place(size).pieces or example in USED.values()


def may_be_said(message: Message) -> bool:
    """An example shows statements, and is no whole item: the workshop may warn of it, but nothing is wrong with it."""
    is_wish_of_workshop = message.code[0] == "R" and message.severity is not Severity.ERROR
    return message.code in SAID or is_wish_of_workshop


def test_every_statement_and_every_word_stands_in_an_example_or_a_table() -> None:
    shown = "\n".join([*EXAMPLES, *re.findall(r"`[^`\n]+`", REFERENCE)])
    statements = "\n".join(EXAMPLES)
    missing = [word for word in sorted(statement_words().all) if not re.search(rf"\b{word}\b", statements)]
    phrases = [phrase for phrase in sorted(presume_tables().phrases) if phrase[0].isalpha()]
    missing += [phrase for phrase in phrases if not re.search(rf"\b{phrase}\b", shown)]
    missing += [phrase for phrase in presume_tables().phrases if phrase not in shown]
    assert missing == []


def test_the_words_that_cannot_be_names_are_listed() -> None:
    listed = re.search(r"\*\*These words cannot be names:\*\* (.*?)\. All others", REFERENCE, re.DOTALL)
    assert listed is not None
    words = set(re.findall(r"[a-z]+", " ".join(re.findall(r"\*([^*]+)\*", listed[1]))))
    assert words == presume_tables().reserved


def test_there_are_traps() -> None:
    assert len(TRAPS) > 20


@pytest.mark.parametrize(("written", "mended"), TRAPS)
def test_every_trap_springs_once_and_has_its_way_out(written: str, mended: str) -> None:
    assert len(slips(f"piece back\n  {written}\n")) == 1
    assert slips(f"piece back\n  {mended}\n") == []
