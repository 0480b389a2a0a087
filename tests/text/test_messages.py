"""What is said of many places is said once, and quickly."""

from __future__ import annotations

from drafting.text.catalogue.model import UNKNOWN_NAME
from drafting.text.messages import MOST_PLACES, Messages
from drafting.text.source import Source


def gathered(count: int) -> Messages:
    """One name that is lacking in so many places, told from the last to the first."""
    source = Source("many.draft", "q" * count)
    messages = Messages()
    for at in reversed(range(count)):
        span = source.span(at, at + 1)
        messages.gather(UNKNOWN_NAME, at=span, of="back", what="point", name="q", where="", mend="Add it.")
    return messages


def test_a_few_places_are_all_shown_behind_the_first() -> None:
    (message,) = gathered(MOST_PLACES + 1)
    assert message.at and message.at.start == 0
    assert [related.at.start for related in message.related] == list(range(1, MOST_PLACES + 1))
    assert {related.says for related in message.related} == {"here too"}


def test_of_many_places_the_rest_are_counted() -> None:
    (message,) = gathered(20_000)
    assert len(message.related) == MOST_PLACES
    assert message.related[-1].says == f"here too, the first of {20_000 - MOST_PLACES} more places"


def test_asked_again_it_says_the_same() -> None:
    messages = gathered(MOST_PLACES + 5)
    assert list(messages) == list(messages)
