"""Source -> tree: read a pattern file, an expression, or the value of a setting.

Takes a Source and gives what is written, with every slip told. Nothing raises: a statement with a slip is left out
of the tree (it stands in `File.unread`), and reading goes on at the next clause or statement.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from drafting.syntax import tree
from drafting.syntax.build import SLIP, Builder
from drafting.syntax.layout import Layout, Statement, Words
from drafting.syntax.machine import Machine
from drafting.syntax.marks import Mark, mark_text
from drafting.syntax.slips import tell_slip
from drafting.syntax.tables import Tables, presume_tables
from drafting.text.messages import Messages
from drafting.text.source import Source, Span


def parse(source: Source) -> tuple[tree.File, Messages]:
    """The whole of a pattern file."""
    messages = Messages()
    marked = mark_text(source, messages)
    reader = Reader.of(source, "file", messages)
    for event in Layout(source, statement_words(), messages).events(marked.lines):
        if event == "in":
            reader.feed("_IN")
        elif event == "out":
            reader.feed("_OUT")
        else:
            reader.read_statement(event)
    file: tree.File = reader.machine.finish("file", len(source.text))
    return replace(file, remarks=tuple(marked.remarks)), messages


def parse_expression(source: Source) -> tuple[tree.Expression | None, Messages]:
    """One expression, such as `front.rim.length`."""
    found, messages = _parse_alone(source, "expression")
    return found, messages


def parse_setting_value(source: Source) -> tuple[tuple[tree.Expression, ...] | None, Messages]:
    """What may stand after `NAME =` in a setting: one expression, or several with commas."""
    found, messages = _parse_alone(source, "setting_value")
    return found, messages


def _parse_alone(source: Source, start: str) -> tuple[Any, Messages]:
    messages = Messages()
    marks = [mark for line in mark_text(source, messages).lines for mark in line.marks]
    reader = Reader.of(source, start, messages)
    if not reader.read_marks(marks, set()):
        return None, messages
    return reader.machine.finish(start, len(source.text)), messages


@lru_cache(maxsize=1)
def statement_words() -> Words:
    """The words that may begin a statement, as the grammar has them."""
    return Words(
        _accepted_after([]),
        _accepted_after(["piece", "NAME", "_END", "_IN"]),
        _accepted_after(["pattern", "STRING", "_END", "_IN"]),
    )


def _accepted_after(terminals: list[str]) -> frozenset[str]:
    machine = Machine.starting(presume_tables(), "file", lambda name, start, end, children: None)
    for terminal in terminals:
        machine.feed(terminal, None, 0, 0)
    return frozenset(word.split()[0] for word in machine.accepted() if word[0].islower())


@lru_cache(maxsize=1)
def phrases_by_word() -> dict[str, tuple[tuple[str, ...], ...]]:
    """Of each first word the phrases that begin with it, longest first."""
    listed: dict[str, list[tuple[str, ...]]] = {}
    for phrase in sorted(presume_tables().phrases):
        words = tuple(phrase.split())
        listed.setdefault(words[0], []).append(words)
    return {first: tuple(sorted(phrases, key=len, reverse=True)) for first, phrases in listed.items()}


@dataclass
class Reader:
    """Feeds marks to the machine, and on a slip tells it and goes on."""

    source: Source
    tables: Tables
    machine: Machine
    messages: Messages

    @classmethod
    def of(cls, source: Source, start: str, messages: Messages) -> Reader:
        tables = presume_tables()
        machine = Machine.starting(tables, start, Builder(source, messages).build)
        return cls(source, tables, machine, messages)

    def feed(self, terminal: str) -> None:
        self.machine.feed(terminal, terminal, *self._place())

    def _place(self) -> tuple[int, int]:
        """Where layout stands that has no mark of its own: right behind what was read."""
        end = self.machine.values[-1][2] if self.machine.values else 0
        return end, end

    def read_statement(self, statement: Statement) -> None:
        """All of one statement; on a slip that no clause can take, a BROKEN one."""
        if not self.read_marks(statement.marks, statement.breaks):
            self.machine.step_back("BROKEN")
            start, end = statement.marks[0].start, statement.marks[-1].end
            self.machine.feed("BROKEN", self._unread(statement), start, end)
            self.feed("_END")

    def read_marks(self, marks: list[Mark], breaks: set[int]) -> bool:
        """Whether the marks could be read up to their end, perhaps with slips in clauses."""
        at = 0
        while at < len(marks):
            if at in breaks and self._parts_clauses(marks[at]):
                self.feed("_SEP")
            terminal, length = self._terminal(marks, at)
            if terminal is None:
                tell_slip(self.source, self.machine, marks, at, self.messages)
                at_next = self._skip(marks, breaks, at)
                if at_next is None:
                    return False
                at = at_next
                continue
            mark = marks[at]
            value: Any = mark if terminal in VALUED else terminal
            self.machine.feed(terminal, value, mark.start, marks[at + length - 1].end)
            at += length
        if not self.machine.accepts("_END"):
            tell_slip(self.source, self.machine, marks, at, self.messages)
            if self._skip(marks, breaks, at) is None:
                return False
        self.feed("_END")
        return True

    def _parts_clauses(self, mark: Mark) -> bool:
        """Whether a new line that begins so begins a new clause."""
        if mark.text == "to" or (mark.kind == "sign" and mark.text not in ("(", "-")):
            return False
        return self.machine.accepts("_SEP")

    def _terminal(self, marks: list[Mark], at: int) -> tuple[str | None, int]:
        """What the mark is here, and how many marks the word takes; None where it may not stand."""
        mark = marks[at]
        accepts = self.machine.accepts
        if mark.kind == "word":
            return self._word(marks, at)
        if mark.kind == "number":
            terminal = mark.terminal_of_number
        elif mark.kind == "quote":
            terminal = "STRING" if accepts("STRING") else "LINE_NOTE"
        else:
            terminal = "_SEP" if mark.text == ";" else mark.text
        return (terminal if accepts(terminal) else None), 1

    def _word(self, marks: list[Mark], at: int) -> tuple[str | None, int]:
        """A pair of words wins over a name, a name over a single word, unless that is reserved."""
        word = marks[at].text
        accepts = self.machine.accepts
        for words in phrases_by_word().get(word, ()):
            length = len(words)
            if (
                length > 1
                and tuple(mark.text for mark in marks[at : at + length]) == words
                and accepts(" ".join(words))
            ):
                return " ".join(words), length
        if word not in self.tables.reserved and accepts("NAME"):
            return "NAME", 1
        if word in self.tables.phrases and accepts(word):
            return word, 1
        return None, 1

    def _skip(self, marks: list[Mark], breaks: set[int], at: int) -> int | None:
        """Put a SLIP where the clause began and go on behind it; None where no clause may hold a slip."""
        machine = self.machine
        depth = len(machine.states)
        while depth and not _takes_slip(machine, depth):
            depth -= 1
        if not depth:
            return None
        machine.step_back("SLIP")
        place = self._place()
        machine.feed("SLIP", SLIP, *place)
        while at < len(marks) and marks[at].text != ";" and not (at in breaks and marks[at].text != "to"):
            at += 1
        return at

    def _unread(self, statement: Statement) -> tree.Unread:
        """What is known of a broken statement: its first word, and its name where it begins like others."""
        marks = statement.marks
        span = Span(self.source, marks[0].start, marks[-1].end)
        name = marks[1].text if len(marks) > 1 and marks[1].kind in ("word", "quote") else None
        if statement.word == "outline":
            name = "outline"
        return tree.Unread(span, statement.word, name, None)


def _takes_slip(machine: Machine, depth: int) -> bool:
    actions = machine.tables.actions[machine.states[depth - 1]]
    return "SLIP" in actions


VALUED = ("NAME", "NUMBER", "LENGTH", "OUNCES", "STRING", "LINE_NOTE")
