"""Lines -> statements: which lines belong together, and what stands inside what.

Takes the lines of a text and gives its statements in order, with the places where a piece's body opens and
closes. A line that is deeper than a statement continues it; a line below the head of a piece, a block or the
pattern is a statement of its own inside it. A statement that stands where its kind does not belong is told
and put where it does.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from drafting.records import dataclass, field, replace
from drafting.syntax.marks import Line, Mark
from drafting.syntax.slips.openings import Opening, open_statement
from drafting.syntax.slips.signs import PATH_STATEMENTS
from drafting.syntax.slips.trouble import is_sign
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
    clause: frozenset[str]
    """The words a clause may begin with."""

    @property
    def all(self) -> frozenset[str]:
        return self.file | self.body | self.heading


@dataclass
class Statement:
    """The marks of one statement; `breaks` are the numbers of the marks that begin a new line.

    `is_told` says that it cannot be read and why is told already; `name` is then what it would have named.
    """

    level: Level
    indent: int
    marks: list[Mark]
    breaks: set[int] = field(default_factory=set)
    is_told: bool = False
    name: str | None = None

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
    """Sorts lines into statements. `head` is the open head, `body_indent` the column its lines stand in."""

    source: Source
    words: Words
    messages: Messages
    head: Statement | None = None
    body_indent: int | None = None
    leaf: Statement | None = None
    has_begun: bool = False
    is_astray: bool = False
    """The statement before stood in the wrong place: its neighbors are not told again."""
    has_homeless: bool = False
    """A part was told to have no piece to stand in: the others below the same head follow from that."""
    strays: list[Statement] = field(default_factory=list)
    """Statements of the pattern found inside a piece; they wait for its end."""

    def events(self, lines: list[Line]) -> Iterator[Event]:
        """Statements, each once it is complete, and `in` and `out` round the lines of a head."""
        ready: list[Event] = []
        for line in lines:
            if self.leaf is not None and self._continues(self.leaf, line):
                self.leaf.continue_with(line)
                continue
            yield from ready
            ready = self._begin(line)
        yield from ready
        yield from self._close()

    def _continues(self, leaf: Statement, line: Line) -> bool:
        if line.indent <= leaf.indent:
            return self._goes_on(leaf, line)
        if leaf.is_head:
            return is_sign(leaf.marks[-1], ";,")
        return not self._is_statement(line.marks)

    def _goes_on(self, leaf: Statement, line: Line) -> bool:
        """A leg or a clause that is no deeper than its statement: told, and read as if it were."""
        first = line.marks[0]
        if leaf.is_head or line.indent < leaf.indent or not any(is_sign(mark, ":") for mark in leaf.marks):
            return False
        if first.text == "to" and leaf.word not in PATH_STATEMENTS:
            return False
        if first.text in self.words.all or (first.text not in self.words.clause and first.kind != "number"):
            return False
        at = Span(self.source, first.start, line.marks[-1].end)
        self.messages.add(says.GOES_ON, at=at, word=leaf.word)
        return True

    def _is_statement(self, marks: list[Mark]) -> bool:
        """Whether a deeper line is surely no clause: `point brow: …`, `measure rim = …`, `fillet heel by …`."""
        first, second, third = (*marks, NONE, NONE)[:3]
        if first.kind != "word" or first.text not in self.words.all:
            return False
        if second.kind == "quote" or first.text == "fillet":
            return True
        if first.text == "measure" and is_sign(third, "="):
            return True
        return is_sign(second, ":") if first.text == "outline" else is_sign(third, ":")

    def _begin(self, line: Line) -> list[Event]:
        """A new statement, with what opens or closes before it."""
        opening = open_statement(self.source, line.marks, self.words.all, self.messages)
        line = Line(line.indent, opening.marks)
        if self.head is None or line.indent <= self.head.indent:
            return self._at_margin(line, opening)
        level: Level = "heading" if self.head.word == "pattern" else "body"
        belongs = self.words.heading if level == "heading" else self.words.body
        word = opening.word
        if word in self.words.file - belongs:
            return self._astray(line, opening, level)
        if word and word not in belongs:
            self._tell_homeless(line, word)
            opening = replace(opening, is_told=True)
        events: list[Event] = []
        if self.body_indent is None:
            self.body_indent = line.indent
            events.append("in")
        elif line.indent != self.body_indent and not self.is_astray:
            self._tell_uneven(line, line.indent - self.body_indent)
        self.is_astray = line.indent != self.body_indent
        return [*events, self._statement(level, line, opening)]

    def _statement(self, level: Level, line: Line, opening: Opening) -> Statement:
        self.leaf = Statement(level, line.indent, line.marks, set(), opening.is_told, opening.name)
        return self.leaf

    def _at_margin(self, line: Line, opening: Opening) -> list[Event]:
        inside_only = (self.words.body | self.words.heading) - self.words.file
        if opening.word in inside_only:
            fits = self.words.heading if self.head and self.head.word == "pattern" else self.words.body
            if self.head is not None and opening.word in fits:
                return self._in_open_head(line, opening)
            return self._without_head(line, opening)
        self.is_astray = False
        events = self._close()
        statement = self._statement("file", line, opening)
        if opening.word == "pattern" and self.has_begun:
            self.messages.add(says.PATTERN_LATE, at=self._span(line.marks[0]))
            statement.is_told = True
        self.has_begun = True
        if statement.is_head:
            self.head = statement
        return [*events, statement]

    def _in_open_head(self, line: Line, opening: Opening) -> list[Event]:
        """A part at the margin, right behind its piece: it is read as if it were indented."""
        assert self.head is not None
        level: Level = "heading" if self.head.word == "pattern" else "body"
        if not self.is_astray:
            name = self.head.marks[1].text if level == "body" and len(self.head.marks) > 1 else ""
            owner = f"{self.head.word} {name}".strip()
            self.messages.add(says.AT_MARGIN, at=self._span(line.marks[0]), word=opening.word, owner=owner)
        self.is_astray = True
        statement = self._statement(level, line, opening)
        if self.body_indent is None:
            self.body_indent = line.indent
            return ["in", statement]
        return [statement]

    def _without_head(self, line: Line, opening: Opening) -> list[Event]:
        """A part where no piece is open: it has no place to go."""
        if not self.is_astray:
            self._tell_homeless(line, opening.word)
        events = self._close()
        self.is_astray = True
        statement = self._statement("file", line, opening)
        statement.is_told = True
        return [*events, statement]

    def _astray(self, line: Line, opening: Opening, level: Level) -> list[Event]:
        """A statement of the pattern, indented: it is read as if it stood at the margin."""
        assert self.head is not None
        if not self.is_astray:
            at = self._span(line.marks[0])
            self.messages.add(says.NOT_INSIDE, at=at, word=opening.word, owner=self.head.word)
        statement = self._statement("file", line, opening)
        if statement.is_head or level == "heading":
            events = self._close()
            if statement.is_head and statement.word != "pattern":
                self.head = statement
            elif statement.is_head:
                statement.is_told = True
            return [*events, statement]
        self.is_astray = True
        self.strays.append(statement)
        return []

    def _close(self) -> list[Event]:
        """The end of the open head."""
        events: list[Event] = ["out"] if self.body_indent is not None else []
        events += self.strays
        self.head, self.body_indent, self.has_homeless, self.strays = None, None, False, []
        return events

    def _tell_homeless(self, line: Line, word: str) -> None:
        if self.has_homeless:
            return
        self.has_homeless = True
        entry = says.NO_PATTERN if word in self.words.heading else says.NO_PIECE
        self.messages.add(entry, at=self._span(line.marks[0]), word=word)

    def _tell_uneven(self, line: Line, difference: int) -> None:
        assert self.head is not None
        side = "deeper" if difference > 0 else "less deep"
        columns = f"{abs(difference)} column{'s' * (abs(difference) != 1)}"
        at, word = self._span(line.marks[0]), line.marks[0].text
        self.messages.add(says.UNEVEN, at=at, word=word, columns=columns, side=side, owner=self.head.word)

    def _span(self, mark: Mark) -> Span:
        return Span(self.source, mark.start, mark.end)


NONE = Mark("odd", "", 0, 0)
