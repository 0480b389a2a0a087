"""The blocks that come with the tool: sound by themselves, laid out the tidy way, used by the items and listed."""

from __future__ import annotations

import pytest

import drafting
from drafting.cli.new import USED
from drafting.syntax.parse import parse
from drafting.syntax.tidy import tidy
from drafting.text.source import Source
from tests.patterns.make_pictures import block_examples
from tests.patterns.starters import BLOCKS, PATTERNS, STARTERS, block_source, starter_source


@pytest.mark.parametrize("name", BLOCKS)
def test_a_block_is_sound_before_a_piece_is_made_from_it(name: str) -> None:
    pattern = drafting.load(PATTERNS / "blocks" / f"{name}.draft")
    assert [(message.code, message.says) for message in pattern.check()] == []


@pytest.mark.parametrize("name", BLOCKS)
def test_a_block_is_laid_out_the_tidy_way(name: str) -> None:
    assert tidy(parse(block_source(name))[0]) == block_source(name).text


def test_each_block_is_used_by_an_item_and_listed() -> None:
    used = {file for name in STARTERS for file in USED.findall(starter_source(name).text)}
    assert used == {f"blocks/{name}.draft" for name in BLOCKS}
    assert tuple(block_examples()) == BLOCKS


@pytest.mark.parametrize("name", BLOCKS)
def test_the_example_of_a_block_is_sound_and_tidy(name: str) -> None:
    """What README shows of it, which its picture is made from."""
    text = block_examples()[name]
    pattern = drafting.read(Source(f"{name}.draft", text), folder=PATTERNS)
    assert [(message.code, message.says) for message in pattern.check()] == []
    assert f'use "blocks/{name}.draft" as ' in text
    assert tidy(pattern.file).split() == text.split()


@pytest.mark.parametrize("name", BLOCKS)
def test_a_block_uses_no_further_file(name: str) -> None:
    """What a starter uses is all that `awlwright new` brings along."""
    assert USED.findall(block_source(name).text) == []
