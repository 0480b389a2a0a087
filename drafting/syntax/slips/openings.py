"""Slips in the first word of a statement.

Takes the marks of a line that begins a statement, and gives them with the first word mended where it is plain
which word is meant; else what is known of the statement, told as one that cannot be read.
"""

from __future__ import annotations

from collections.abc import Collection

from drafting.records import dataclass, replace
from drafting.syntax.marks import Mark
from drafting.syntax.slips.trouble import is_sign, near_word, shortened
from drafting.syntax.vocabulary import EXAMPLES, STATEMENT_WORDS
from drafting.text.catalogue import syntax as says
from drafting.text.messages import Messages
from drafting.text.source import Source, Span


@dataclass(frozen=True)
class Opening:
    """The marks of a statement's first line; `is_told` when they cannot be read and that is told."""

    marks: list[Mark]
    is_told: bool = False
    name: str | None = None

    @property
    def word(self) -> str:
        """The statement's first word, or nothing where it cannot be read."""
        return "" if self.is_told else self.marks[0].text


def open_statement(source: Source, marks: list[Mark], words: Collection[str], messages: Messages) -> Opening:
    """Look at the first mark; everything behind it is left as it is."""
    first = marks[0]
    if first.kind == "word" and first.text in words:
        return Opening(marks)
    at = Span(source, first.start, first.end)
    if first.kind == "odd":
        return Opening(marks, is_told=True)
    if first.kind != "word":
        messages.add(says.STARTS_WRONG, at=at, found=f"`{shortened(at.text)}`", example=EXAMPLES["point"])
        return Opening(marks, is_told=True)
    small = first.text.casefold()
    if small in words:
        messages.add(says.CAPITALS, at=at, small=small)
        return Opening([replace(first, text=small), *marks[1:]])
    return _unknown_word(at, marks, words, messages)


def _unknown_word(at: Span, marks: list[Mark], words: Collection[str], messages: Messages) -> Opening:
    first, second = marks[0], marks[1] if len(marks) > 1 else None
    near = near_word(first.text, words)
    meant = STATEMENT_WORDS.get(first.text.casefold())
    is_name = second is not None and is_sign(second, ":=")
    if is_name and not (near == "outline" and is_sign(marks[1], ":")):
        assert second is not None
        mend = (
            f"Write `point {first.text}: …`." if second.text == ":" else f"Write `measure {first.text} = …`."
        )
        messages.add(says.NAME_FIRST, at=at, name=first.text, mend=mend)
        return Opening(marks, is_told=True, name=first.text)
    if near is not None and meant is None:
        messages.add(says.NO_STATEMENT, at=at, word=first.text, mend=f"Did you mean `{near}`?")
        return Opening([replace(first, text=near), *marks[1:]])
    mend = f"Write for instance `{EXAMPLES[meant or 'point']}`."
    messages.add(says.NO_STATEMENT, at=at, word=first.text, mend=mend)
    name = second.text if second is not None and second.kind == "word" else None
    return Opening(marks, is_told=True, name=name)
