"""The blocks that come with the tool: sound by themselves, laid out the tidy way, used by the items and listed."""

from __future__ import annotations

import re

import pytest

import drafting
from drafting.cli.new import USED
from drafting.syntax.parse import parse
from drafting.syntax.tidy import tidy
from tests.patterns.starters import BLOCKS, PATTERNS, STARTERS, block_source, starter_source

README = (PATTERNS / "README.md").read_text(encoding="utf-8")


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
    assert re.findall(r"^\| `([\w-]+)\.draft` \|", README, re.MULTILINE) == list(BLOCKS)


@pytest.mark.parametrize("name", BLOCKS)
def test_a_block_uses_no_further_file(name: str) -> None:
    """What a starter uses is all that `awlwright new` brings along."""
    assert USED.findall(block_source(name).text) == []
