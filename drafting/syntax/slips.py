"""A slip -> its message."""

from __future__ import annotations

from drafting.syntax.machine import Machine
from drafting.syntax.marks import Mark
from drafting.text.catalogue import syntax as says
from drafting.text.messages import Messages
from drafting.text.source import Source, Span


def tell_slip(source: Source, machine: Machine, marks: list[Mark], at: int, messages: Messages) -> None:
    """Say what cannot stand at `marks[at]` (or at their end) and what can."""
    accepted = ", ".join(machine.accepted())
    if at < len(marks):
        span, found = Span(source, marks[at].start, marks[at].end), f"`{marks[at].text}`"
    else:
        end = marks[-1].end if marks else 0
        span, found = Span(source, end, end), "the end of the line"
    messages.add(says.UNEXPECTED, at=span, found=found, after="", mend=f"Expected {accepted}.")
