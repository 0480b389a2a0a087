"""The starters, their blocks and the examples of the book together use every form of the language that this version drafts."""

from __future__ import annotations

import re

from drafting.syntax.grammar import grammar_text
from drafting.syntax.parse import parse
from drafting.text.source import Source
from tests.patterns.constructs import all_uses, uses_of
from tests.patterns.starters import BLOCKS, STARTERS, block_source, starter_source


def test_every_construct_is_used_by_a_starter_or_shown_in_the_book() -> None:
    examples = re.findall(r"^```draft\n(.*?)^```$", grammar_text("REFERENCE.md"), re.MULTILINE | re.DOTALL)
    sources = [*map(starter_source, STARTERS), *map(block_source, BLOCKS)]
    sources += [Source("example.draft", example) for example in examples]
    used = {use for source in sources for use in uses_of(parse(source)[0])}
    assert sorted(all_uses() - used) == [], "nothing shows these"


def test_the_list_of_constructs_is_as_long_as_the_language() -> None:
    """Guards the list itself: an empty text uses nothing, and unused forms are told."""
    nothing = uses_of(parse(Source("empty", 'pattern "empty"\n'))[0])
    unused = all_uses() - nothing
    assert {
        "Touching",
        "Bowed.toward left",
        "Short.at start",
        "the function loop",
        "notch with wide",
    } <= unused
    assert len(unused) > 250
