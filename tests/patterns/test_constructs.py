"""The starters together use every form of the language that this version drafts."""

from __future__ import annotations

from drafting.syntax.parse import parse
from drafting.text.source import Source
from tests.patterns.constructs import all_uses, uses_of
from tests.patterns.starters import STARTERS, starter_source


def test_every_construct_is_used_by_a_starter() -> None:
    used = {use for name in STARTERS for use in uses_of(parse(starter_source(name))[0])}
    assert sorted(all_uses() - used) == [], "no starter uses these"


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
