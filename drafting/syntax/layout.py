"""Lines -> statements: which lines belong together, and what stands inside what.

Takes the lines of a text and gives its statements in order, with the places where a piece's body opens and closes.
A line that is deeper than a statement continues it; a line below the head of a piece, a block or the pattern is a
statement of its own inside it. A statement that stands where its kind does not belong is told and put where it does.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

from drafting.syntax.marks import Line, Mark
from drafting.text.catalogue import syntax as says
from drafting.text.messages import Messages
from drafting.text.source import Source, Span

Level = Literal["file", "body", "heading"]

HEADS = ("piece", "block")


@dataclass(frozen=True)
class Words:
    """The words a statement may begin with, at each level."""

    file: frozenset[str]
    body: frozenset[str]
    heading: frozenset[str]

    @property
    def all(self) -> frozenset[str]:
        return self.file | self.body | self.heading


@dataclass
class Statement:
    """The marks of one statement; `breaks` are the numbers of the marks that begin a new line."""

    level: Level
    indent: int
    marks: list[Mark]
    breaks: set[int] = field(default_factory=set)

    @property
    def word(self) -> str:
        return self.marks[0].text

    @property
    def is_head(self) -> bool:
        return self.level == "file" and self.word in (*HEADS, "pattern")

    def continue_with(self, line: Line) -> None:
        self.breaks.add(len(self.marks))
        self.marks += line.marks


Event = Statement | Literal["in", "out"]


@dataclass
class Layout:
    """Sorts lines into statements. `head` is the open head and `body_indent` the column its lines stand in."""

    source: Source
    words: Words
    messages: Messages
    head: Statement | None = None
    body_indent: int | None = None
    leaf: Statement | None = None
    is_astray: bool = False
    """The statement before stood at the wrong level: its neighbors are not told again."""
    stray: list[Statement] = field(default_factory=list)
    """Statements of the pattern found inside a piece; they wait for its end."""

    def events(self, lines: list[Line]) -> Iterator[Event]:
        ready: list[Event] = []
        for line in lines:
            if self.leaf is not None and self._continues(line):
                self.leaf.continue_with(line)
                continue
            yield from ready
            ready = self._begin(line)
        yield from ready
        yield from self._close()

    def _continues(self, line: Line) -> bool:
        leaf = self.leaf
        assert leaf is not None
        if line.indent <= leaf.indent:
            return False
        if leaf.is_head:
            return leaf.marks[-1].text in (";", ",") and leaf.marks[-1].kind == "sign"
        return not self._is_statement(line.marks)

    def _is_statement(self, marks: list[Mark]) -> bool:
        """Whether a deeper line is surely no clause: `point brow: …`, `measure rim = …`, `fillet heel by …`."""
        word, second, third = (mark.text if mark.kind != "quote" else '"' for mark in (*marks, END, END)[:3])
        if word not in self.words.all:
            return False
        if word in ("outline", "show", "edition", "licence"):
            return second in (":", '"', "mm", "cm", "in")
        if word in ("hold", "fillet", "clip", "dim", "check", "find", "join", "step", "size", "use", "piece"):
            return second not in ("to", ".", ";", "") and not (word == "step" and second != '"')
        return third in (":", "=") and marks[1].kind == "word"

    def _begin(self, line: Line) -> list[Event]:
        """A new statement, with what opens or closes before it."""
        if self.head is None or line.indent <= self.head.indent:
            return self._at_margin(line)
        level: Level = "heading" if self.head.word == "pattern" else "body"
        belongs = self.words.heading if level == "heading" else self.words.body
        if line.marks[0].text in self.words.file - belongs:
            return self._astray(line, level)
        events: list[Event] = []
        if self.body_indent is None:
            self.body_indent = line.indent
            events.append("in")
        elif line.indent != self.body_indent and not self.is_astray:
            self._tell(says.UNEVEN, line, line.indent - self.body_indent)
        self.is_astray = line.indent != self.body_indent
        self.leaf = Statement(level, line.indent, line.marks)
        return [*events, self.leaf]

    def _at_margin(self, line: Line) -> list[Event]:
        word = line.marks[0].text
        wanted = self.words.body - self.words.file
        if self.head is not None and self.head.word != "pattern" and word in wanted:
            return self._in_open_piece(line)
        if self.head is not None and self.head.word == "pattern" and word in self.words.heading:
            return self._in_open_piece(line)
        self.is_astray = False
        events = self._close()
        self.leaf = Statement("file", line.indent, line.marks)
        if self.leaf.is_head:
            self.head = self.leaf
        return [*events, self.leaf]

    def _in_open_piece(self, line: Line) -> list[Event]:
        """A part at the margin, right after its piece: it is read as if it were indented."""
        assert self.head is not None
        if not self.is_astray:
            name = self.head.marks[1].text if len(self.head.marks) > 1 else ""
            owner = f"{self.head.word} {name}" if self.head.word != "pattern" else "pattern"
            at = self._span(line.marks[0])
            self.messages.add(says.AT_MARGIN, at=at, word=line.marks[0].text, owner=owner.strip())
        self.is_astray = True
        level: Level = "heading" if self.head.word == "pattern" else "body"
        self.leaf = Statement(level, line.indent, line.marks)
        if self.body_indent is None:
            self.body_indent = line.indent
            return ["in", self.leaf]
        return [self.leaf]

    def _astray(self, line: Line, level: Level) -> list[Event]:
        """A statement of the pattern, indented: it is read as if it stood at the margin."""
        assert self.head is not None
        if not self.is_astray:
            owner = self.head.word
            self.messages.add(
                says.NOT_INSIDE, at=self._span(line.marks[0]), word=line.marks[0].text, owner=owner
            )
        statement = Statement("file", line.indent, line.marks)
        self.leaf = statement
        if statement.is_head or level == "heading":
            events = self._close()
            self.leaf = statement
            self.head = statement if statement.is_head else None
            return [*events, statement]
        self.is_astray = True
        self.stray.append(statement)
        return []

    def _close(self) -> list[Event]:
        """The end of the open head."""
        events: list[Event] = ["out"] if self.body_indent is not None else []
        events += self.stray
        self.head, self.body_indent, self.stray = None, None, []
        return events

    def _tell(self, entry: says.Entry, line: Line, difference: int) -> None:
        side = "deeper" if difference > 0 else "less deep"
        columns = f"{abs(difference)} column{'s' * (abs(difference) != 1)}"
        self.messages.add(
            entry, at=self._span(line.marks[0]), word=line.marks[0].text, columns=columns, side=side
        )

    def _span(self, mark: Mark) -> Span:
        return Span(self.source, mark.start, mark.end)


END = Mark("sign", "", 0, 0)
