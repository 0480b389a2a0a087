"""The grammar is one, without a conflict, and what is made from it is fresh."""

from __future__ import annotations

import logging
from functools import cache
from pathlib import Path

import lark
import pytest

from drafting.syntax import tables, vocabulary
from drafting.syntax.build import Builder
from drafting.syntax.grammar import grammar_text
from drafting.syntax.highlight import words_text
from drafting.syntax.machine import Machine
from drafting.syntax.parse import parse, statement_words
from drafting.syntax.tables import STARTS, presume_tables, tables_text
from drafting.text.source import Source, read_source

ITEMS = sorted((Path(__file__).parent / "items").glob("*.draft"))

RESERVED = """
    above along angle any at band below bent box comes corners every fillet from inside level lines lying midway
    nearest on once outside plumb roster steps text to touching mm cm in oz deg
"""


@cache
def lark_itself(**options: bool) -> lark.Lark:
    grammar = grammar_text("pattern.lark")
    return lark.Lark(
        grammar, parser="lalr", lexer="basic", start=list(STARTS), maybe_placeholders=True, **options
    )


def test_the_tables_are_those_of_the_grammar() -> None:
    assert grammar_text("tables.json") == tables_text()


def test_tables_of_another_grammar_are_made_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    """A changed pattern.lark holds at once, and so does one without tables beside it."""
    for stale in ('{"grammar": "another"}', "", "no JSON"):
        texts = {"tables.json": stale, "pattern.lark": grammar_text("pattern.lark")}
        monkeypatch.setattr(tables, "grammar_text", texts.__getitem__)
        assert tables.presume_tables.__wrapped__() == presume_tables()


def test_the_word_lists_are_those_of_the_grammar() -> None:
    assert grammar_text("highlight/words.json") == words_text()


def test_the_grammar_has_no_conflict(caplog: pytest.LogCaptureFixture) -> None:
    """Lark settles a conflict by itself and only logs it."""
    level = lark.logger.level
    lark.logger.setLevel(logging.DEBUG)
    lark.logger.propagate = True
    try:
        lark_itself(debug=True)
    finally:
        lark.logger.setLevel(level)
    assert [record.getMessage() for record in caplog.records if "onflict" in record.getMessage()] == []


def test_the_words_that_cannot_be_names_are_few() -> None:
    assert presume_tables().reserved == set(RESERVED.split())


def test_every_rule_has_a_builder_or_is_a_bare_word() -> None:
    built = [each for each in presume_tables().productions if not each.origin.startswith("_")]
    rules = {each.name for each in built if not each.is_transparent or each.name != each.origin}
    bare = {each.name for each in built if len(each.children) == each.size == 1}
    builders = {name for name in dir(Builder) if not name.startswith("_")} - {"build"}
    assert {rule for rule in rules - bare if not hasattr(Builder, rule)} == set()
    assert builders - rules == set()


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: item.stem)
def test_lark_reads_what_we_read(item: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The terminals of every item, fed to lark's own parser, are a whole file to it too."""
    fed: list[str] = []
    feed = Machine.feed

    def record(self: Machine, terminal: str, value: object, start: int, end: int) -> None:
        fed.append(terminal)
        feed(self, terminal, value, start, end)

    monkeypatch.setattr(Machine, "feed", record)
    parse(read_source(item))
    whole = lark_itself()
    names = {terminal.pattern.value: terminal.name for terminal in whole.terminals}
    reading = whole.parse_interactive(start="file")
    for terminal in fed:
        reading.feed_token(lark.Token(names.get(terminal, terminal), terminal))
    assert reading.feed_eof().data == "file"


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: item.stem)
def test_every_item_is_read_whole(item: Path) -> None:
    file, messages = parse(read_source(item))
    assert [message.says for message in messages] == []
    assert file.unread == ()
    assert file.header is not None
    assert file.items


def test_every_statement_has_an_example_that_can_be_read() -> None:
    words = statement_words()
    assert set(vocabulary.EXAMPLES) == words.all
    for word, example in vocabulary.EXAMPLES.items():
        text = example + "\n"
        if word not in words.file:
            head = 'pattern "x"' if word in words.heading else "piece x"
            text = f"{head}\n  {text}"
        assert [message.says for message in parse(Source(word, text))[1]] == []


def test_what_a_message_proposes_is_a_word_of_the_language() -> None:
    phrases, reserved = presume_tables().phrases, presume_tables().reserved
    statements = statement_words()
    assert set(vocabulary.STATEMENT_WORDS.values()) <= statements.all
    assert not set(vocabulary.STATEMENT_WORDS) & statements.all
    assert set(vocabulary.CLAUSE_WORDS.values()) <= phrases
    assert not set(vocabulary.INSTEAD.values()) & reserved
    assert set(vocabulary.INSTEAD) == reserved - {"mm", "cm", "oz", "deg"}
