"""The place where reading stopped, and ways to look round there.

Takes the marks of a statement, the number of the one that may not stand where it does, and the machine. Every
check of this folder asks a Trouble and, where it knows the slip, tells it and gives a Repair.
"""

from __future__ import annotations

from collections.abc import Collection
from difflib import get_close_matches
from functools import cached_property
from itertools import pairwise

from drafting.records import dataclass
from drafting.syntax.machine import Machine
from drafting.syntax.marks import Mark
from drafting.syntax.reading import read_mark
from drafting.text.catalogue import syntax as says
from drafting.text.messages import Entry, Messages
from drafting.text.source import Source, Span

LONGEST_TEXT = 70
"""So many characters of the maker's text are quoted in a message."""


@dataclass(frozen=True)
class Repair:
    """Read these terminals in the place of so many marks. With neither, the rest of the clause is passed
    over.
    """

    terminals: tuple[tuple[str, Mark], ...] = ()
    taken: int = 0

    @property
    def passes_over(self) -> bool:
        return not self.terminals and not self.taken


PASS_OVER = Repair()


@dataclass
class Trouble:
    """`marks[at]` may not stand where it does; or the marks may not end, when `at` is their number."""

    source: Source
    machine: Machine
    marks: list[Mark]
    breaks: Collection[int]
    at: int
    messages: Messages

    @cached_property
    def accepted(self) -> list[str]:
        return self.machine.accepted()

    @cached_property
    def clause_words(self) -> list[str]:
        """The words that the clause might have begun with; none in a statement that has no clauses."""
        for depth in range(len(self.machine.states), 0, -1):
            start = self.machine.at_depth(depth)
            if start.accepts("SLIP"):
                return [terminal for terminal in start.accepted() if terminal[:1].islower()]
        return []

    @property
    def found(self) -> Mark | None:
        return self.marks[self.at] if self.at < len(self.marks) else None

    @property
    def before(self) -> Mark | None:
        return self.marks[self.at - 1] if self.at else None

    @property
    def name_before(self) -> str | None:
        """The word before, if it was read as a name."""
        value = self.machine.values[-1][0] if self.machine.values else None
        if isinstance(value, Mark) and value.kind == "word" and value is self.before:
            return value.text
        return None

    @property
    def word(self) -> str:
        """The first word of the statement."""
        return self.marks[0].text if self.marks else ""

    @cached_property
    def clause_start(self) -> int:
        """The first mark of the clause; in a statement without clauses its first word."""
        for index in range(self.at - 1, -1, -1):
            if is_sign(self.marks[index], ":;"):
                return index + 1
            if index in self.breaks and begins_clause(self.marks[index]):
                return index
        return 0

    @cached_property
    def clause_end(self) -> int:
        """The mark behind the clause."""
        return self._clause_end(self.at)

    def _clause_end(self, start: int) -> int:
        for index in range(start, len(self.marks)):
            mark = self.marks[index]
            if is_sign(mark, ";") or mark.kind == "quote":
                return index
            if index in self.breaks and begins_clause(mark):
                return index
        return len(self.marks)

    @property
    def clause(self) -> list[Mark]:
        return self.marks[self.clause_start : self.clause_end]

    def text(self, start: int, end: int) -> str:
        """The maker's text from one mark up to, not including, another, on one line."""
        if start >= end:
            return ""
        between = self.source.text[self.marks[start].start : self.marks[end - 1].end]
        return shortened(" ".join(between.split()))

    def span(self, start: int, end: int) -> Span:
        return Span(self.source, self.marks[start].start, self.marks[end - 1].end)

    @property
    def place(self) -> Span:
        """The mark that may not stand here; where the marks end too early the last one."""
        if self.found is not None:
            return self.span(self.at, self.at + 1)
        return self.span(self.at - 1, self.at) if self.marks else Span(self.source, 0, 0)

    def tell(self, entry: Entry, at: Span | None = None, **facts: object) -> None:
        self.messages.say(entry, at or self.place, facts)

    def mended(self, words: str, taken: int = 0, back: int = 0) -> str:
        """The clause with `words` here, in the place of `taken` marks and of `back` marks before."""
        start = min(self.clause_start, self.at - back)
        front = self.text(start, self.at - back)
        rest = self.text(self.at + taken, self._clause_end(self.at + taken))
        glue = "" if words[:1] in (":", ",", ")", ";", ".", "") else " "
        tail = "" if rest[:1] in (":", ",", ")", ";", ".", "'") or words[-1:] in ("(", ".") else " "
        return shortened(f"{front}{glue}{words}{tail}{rest}".strip())

    def can_read(self, terminals: list[str], taken: int = 0) -> bool:
        """Whether, with `terminals` in the place of `taken` marks, the next mark may stand."""
        if not self.machine.accepts_all(terminals):
            return False
        ahead = self.machine.ahead(terminals)
        at = self.at + taken
        if at >= len(self.marks):
            return ahead.accepts("_END")
        if at in self.breaks and ahead.accepts("_SEP"):
            return True
        return read_mark(self.marks, at, ahead.accepts)[0] is not None

    def can_read_after(self, terminals: list[str], taken: int) -> bool:
        """Whether `terminals` in the place of `taken` marks, and what begins behind them, may stand."""
        return self.at + taken < len(self.marks) and self.can_read(terminals, taken)

    def can_read_clause(self, terminals: list[str]) -> bool:
        """Whether, with `terminals` before it, all that is left of the clause may stand."""
        if not self.machine.accepts_all(terminals):
            return False
        ahead, at = self.machine.ahead(terminals), self.at
        while at < self.clause_end:
            terminal, taken = read_mark(self.marks, at, ahead.accepts)
            if terminal is None:
                return False
            ahead, at = ahead.ahead([terminal]), at + taken
        return ahead.accepts("_SEP") or ahead.accepts("_END")


def is_sign(mark: Mark, signs: str) -> bool:
    return mark.kind == "sign" and mark.text in signs


def begins_clause(mark: Mark) -> bool:
    """Whether a line that goes on with a statement and begins so begins a new clause."""
    return mark.text != "to" and (mark.kind != "sign" or mark.text in "(-")


def touching(marks: list[Mark]) -> bool:
    """Whether no blank stands between the marks."""
    return all(left.end == right.start for left, right in pairwise(marks))


def is_hyphened(marks: list[Mark], at: int) -> bool:
    """Whether `marks[at]` is the part of a name before a hyphen, such as in `turn-back`."""
    if at + 2 >= len(marks) or not is_sign(marks[at + 1], "-") or not touching(marks[at : at + 3]):
        return False
    return marks[at].kind == "word" and marks[at + 2].kind in ("word", "number")


def tell_hyphened(messages: Messages, at: Span) -> str:
    """The name that is meant; where it stands again it is wrong there too, and not told again."""
    joined = at.text.replace("-", "_")
    wherever = ", wherever it stands" if at.source.text.count(at.text) > 1 else ""
    messages.add(says.HYPHEN_NAME, at=at, text=at.text, joined=joined, wherever=wherever)
    return joined


def shortened(text: str) -> str:
    return text if len(text) <= LONGEST_TEXT else text[: LONGEST_TEXT - 1].rstrip() + "…"


def near_word(wanted: str, known: Collection[str]) -> str | None:
    """The known word that a slip of the finger may have made into `wanted`."""
    firsts = {phrase.split()[0]: phrase for phrase in sorted(known) if phrase[:1].islower()}
    cutoff = 0.75 if len(wanted) < 5 else 0.7
    close = get_close_matches(wanted.casefold(), list(firsts), n=1, cutoff=cutoff)
    return firsts[close[0]] if close else None
