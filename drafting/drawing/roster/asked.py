"""What is asked of a roster by names: of columns, of stamps and measures, of the content that cards are for.

All of it can be told before anything is placed, and of all of it the one who asks can say something else.
"""

from __future__ import annotations

from collections.abc import Collection

from drafting.drawing.roster.feeds import feeds_of
from drafting.drawing.roster.templates import expect_headings
from drafting.drawing.roster.wishes import Wishes
from drafting.model.pattern import Pattern
from drafting.text.catalogue import roster as says
from drafting.text.messages import Messages, did_you_mean
from drafting.text.table import Table


def wrong_wishes(pattern: Pattern, table: Table, wishes: Wishes) -> Messages:
    """What neither the pattern nor the table has of that which is asked for."""
    wrong = Messages()
    feeds_of(pattern, table, wishes, Messages(), wrong)
    if wishes.has_cards:
        expect_content(wishes, pattern.contents, wrong)
    if wishes.has_cards and pattern.contents:
        for template in wishes.templates:
            expect_headings(template, table, wrong)
    return wrong


def expect_content(wishes: Wishes, contents: Collection[str], messages: Messages) -> None:
    """The content that cards are for is one of those there are; who says what stands on cards wants some."""
    if wishes.card is not None and wishes.card not in contents:
        listed = (
            f"Contents are {', '.join(contents)}."
            if contents
            else "The pattern has none; leave `--card` out."
        )
        mend = listed + did_you_mean(wishes.card, contents)
        reason = "the pattern has no such content"
        messages.add(says.UNFIT_CARD, at=None, content=wishes.card, reason=reason, mend=mend)
    elif wishes.card is None and wishes.templates and not contents:
        mend = (
            "Leave it out, or add to the pattern what the item holds, such as `content pass: 86 mm by 54 mm`."
        )
        messages.add(says.NO_CARDS, at=None, template=wishes.templates[0], mend=mend)
