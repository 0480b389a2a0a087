"""Marks -> the machine, statement by statement.

Takes the statements of a text and feeds them to the machine. On a slip the message is told, and reading goes
on: as if it were mended where that is plain, else at the next clause, else at the next statement.
"""

from __future__ import annotations

from fractions import Fraction

from drafting.records import dataclass
from drafting.syntax import tree
from drafting.syntax.build import SLIP, Builder
from drafting.syntax.layout import Statement
from drafting.syntax.machine import Machine
from drafting.syntax.marks import Mark
from drafting.syntax.reading import VALUED, read_mark
from drafting.syntax.slips import tell_slip
from drafting.syntax.slips.amounts import has_comma_inside, unit_meant
from drafting.syntax.slips.trouble import Repair, Trouble, begins_clause, is_hyphened, is_sign, tell_hyphened
from drafting.syntax.tables import presume_tables
from drafting.syntax.vocabulary import UNITS_ELSEWHERE
from drafting.text.catalogue import syntax as says
from drafting.text.messages import Messages
from drafting.text.source import Source, Span


@dataclass
class Reader:
    """One machine at work on one source."""

    source: Source
    machine: Machine
    messages: Messages
    floor: int = 0
    """How many states there were before the statement that is being read."""

    @classmethod
    def starting(cls, source: Source, start: str, messages: Messages) -> Reader:
        build = Builder(source, messages).build
        return cls(source, Machine.starting(presume_tables(), start, build), messages)

    def feed(self, terminal: str) -> None:
        """Layout, which has no mark of its own: it stands right behind what was read."""
        end = self.machine.values[-1][2] if self.machine.values else 0
        self.machine.feed(terminal, SLIP if terminal == "SLIP" else terminal, end, end)

    def read_statement(self, statement: Statement) -> None:
        """All of one statement; where it cannot be read a BROKEN one."""
        if statement.is_told or not self.read_marks(statement.marks, statement.breaks):
            self.machine.step_back("BROKEN")
            start, end = statement.marks[0].start, statement.marks[-1].end
            self.machine.feed("BROKEN", self._unread(statement), start, end)
            self.feed("_END")

    def _unread(self, statement: Statement) -> tree.Unread:
        """What is known of a broken statement: its first word, and the name that may be gathered from it."""
        marks = statement.marks
        span = Span(self.source, marks[0].start, marks[-1].end)
        name = statement.name
        if name is None and len(marks) > 1 and marks[1].kind in ("word", "quote"):
            name = marks[1].text
        return tree.Unread(span, statement.word, "outline" if statement.word == "outline" else name, None)

    def read_marks(self, marks: list[Mark], breaks: set[int]) -> bool:
        """Whether the marks could be read to their end, perhaps with slips in clauses."""
        at = 0
        while at < len(marks):
            if at in breaks and self._parts_clauses(marks[at]):
                self.feed("_SEP")
            taken = self._told_beforehand(marks, breaks, at)
            if taken:
                at += taken
                continue
            terminal, length = read_mark(marks, at, self.machine.accepts)
            if terminal is None:
                after = self._mend(marks, breaks, at)
                if after is None:
                    return False
                at = after
                continue
            self._feed_mark(terminal, marks[at], marks[at + length - 1].end)
            if at == 0:
                self.floor = len(self.machine.states) - 1
            at += length
        return self._end(marks, breaks)

    def _feed_mark(self, terminal: str, mark: Mark, end: int) -> None:
        self.machine.feed(terminal, mark if terminal in VALUED else terminal, mark.start, end)

    def _end(self, marks: list[Mark], breaks: set[int]) -> bool:
        if not self.machine.accepts("_END") and self._mend(marks, breaks, len(marks)) is None:
            return False
        self.feed("_END")
        return True

    def _parts_clauses(self, mark: Mark) -> bool:
        """Whether a new line that begins so begins a new clause here."""
        return begins_clause(mark) and self.machine.accepts("_SEP")

    def _told_beforehand(self, marks: list[Mark], breaks: set[int], at: int) -> int:
        """Slips that the grammar would take for something else; how many marks they make up."""
        mark = marks[at]
        if is_sign(mark, ";") and (at + 1 == len(marks) or is_sign(marks[at + 1], ";")):
            where = "behind" if at + 1 == len(marks) else "before"
            place = mark if at + 1 == len(marks) else marks[at + 1]
            span = Span(self.source, place.start, place.end)
            self.messages.add(says.NOTHING_BETWEEN, at=span, where=where, sign=";")
            return 1
        if mark.kind == "number" and has_comma_inside(marks, at + 1) and not self._is_in_brackets(marks, at):
            return self._read_comma(marks, at)
        if at == 1 and is_hyphened(marks, at) and self._names_here():
            return self._read_hyphened(marks, at)
        if mark.kind == "number" and self._is_unit_elsewhere(marks, at):
            return self._read_unit(marks, at)
        if mark.kind == "quote" and at + 1 not in breaks and not self.machine.accepts("STRING"):
            return self._told_quote(marks, at)
        return 0

    def _told_quote(self, marks: list[Mark], at: int) -> int:
        """A note with more behind it; and what stands on a label or stamp, without its `text`."""
        mark = marks[at]
        span = Span(self.source, mark.start, mark.end)
        is_wording = marks[0].text in ("label", "stamp") and self.machine.accepts("text")
        if is_wording:
            self.messages.add(says.LACKS, at=span, text=span.text, what="a word", mended=f"text {span.text}")
            self._feed_mark("text", mark, mark.end)
            self._feed_mark("STRING", mark, mark.end)
        elif at + 1 < len(marks) and self.machine.accepts("LINE_NOTE"):
            rest = Span(self.source, marks[at + 1].start, marks[at + 1].end).text
            self.messages.add(says.NOTE_EARLY, at=span, rest=rest)
        else:
            return 0
        return 1

    def _names_here(self) -> bool:
        """Whether a name stands here from which nothing can be taken away, as where a thing gets its name."""
        return self.machine.accepts("NAME") and not self.machine.ahead(["NAME"]).accepts("-")

    def _read_hyphened(self, marks: list[Mark], at: int) -> int:
        """`measure turn-back = …` as `turn_back`, so that nothing is said of a name that was never meant."""
        taken = 1
        while is_hyphened(marks, at + taken - 1):
            taken += 2
        start, end = marks[at].start, marks[at + taken - 1].end
        joined = tell_hyphened(self.messages, Span(self.source, start, end))
        self._feed_mark("NAME", Mark("word", joined, start, end), end)
        return taken

    def _is_unit_elsewhere(self, marks: list[Mark], at: int) -> bool:
        """Whether a bare number stands before a unit by another name, which could be nothing else."""
        if marks[at].unit or at + 1 >= len(marks) or not unit_meant(marks[at], marks[at + 1]):
            return False
        terminal = unit_meant(marks[at], marks[at + 1])
        accepts = self.machine.accepts
        if terminal is None or not accepts("NUMBER") or not accepts(terminal.number_terminal):
            return False
        return read_mark(marks, at + 1, self.machine.ahead(["NUMBER"]).accepts)[0] is None

    def _read_unit(self, marks: list[Mark], at: int) -> int:
        """`12 inches` as 12 in, `1.2 m` as 120 cm."""
        meant = unit_meant(marks[at], marks[at + 1])
        assert meant is not None
        span = Span(self.source, meant.start, meant.end)
        if marks[at + 1].text.casefold() in UNITS_ELSEWHERE:
            self.messages.add(says.UNIT_ELSEWHERE, at=span, text=span.text, mended=meant.text)
        else:
            self.messages.add(says.UNIT_UNKNOWN, at=span, unit=marks[at + 1].text, mended=meant.text)
        self._feed_mark(meant.number_terminal, meant, meant.end)
        return 2

    def _is_in_brackets(self, marks: list[Mark], at: int) -> bool:
        signs = [mark.text for mark in marks[:at] if mark.kind == "sign"]
        return signs.count("(") > signs.count(")")

    def _read_comma(self, marks: list[Mark], at: int) -> int:
        """`3,85 mm` as 3.85 mm."""
        left, right = marks[at], marks[at + 2]
        text = f"{left.text}.{right.text}"
        written = self.source.text[left.start : right.end]
        span = Span(self.source, left.start, right.end)
        self.messages.add(says.DECIMAL_COMMA, at=span, text=written, mended=text)
        number = Fraction(text.split()[0]) if "/" not in text else left.number
        joined = Mark("number", text, left.start, right.end, right.unit, number)
        terminal = joined.number_terminal
        if not self.machine.accepts(terminal):
            return 0
        self._feed_mark(terminal, joined, right.end)
        return 3

    def _mend(self, marks: list[Mark], breaks: set[int], at: int) -> int | None:
        """Tell the slip at `at` and give the place to go on; None where the statement is lost."""
        trouble = Trouble(self.source, self.machine, marks, breaks, at, self.messages)
        repair = tell_slip(trouble)
        if repair.passes_over:
            return self._pass_over(marks, breaks, at)
        return self._repair(repair, at)

    def _repair(self, repair: Repair, at: int) -> int:
        for terminal, mark in repair.terminals:
            self._feed_mark(terminal, mark, mark.end)
        return at + repair.taken

    def _pass_over(self, marks: list[Mark], breaks: set[int], at: int) -> int | None:
        """Put a SLIP where the clause began and go on behind it; None where no clause may hold a slip."""
        if at == 0 or not self.machine.has_behind("SLIP", self.floor):
            return None
        is_first = self.machine.accepts("SLIP")
        self.machine.step_back("SLIP")
        self.feed("SLIP")
        if is_first and at < len(marks) and not is_sign(marks[at], ";"):
            at += 1
        while at < len(marks) and not is_sign(marks[at], ";"):
            if at in breaks and begins_clause(marks[at]):
                break
            at += 1
        return at
