"""File -> text: a pattern in its one canonical layout.

Takes the tree of a text without slips and writes it anew: two spaces to indent, one between words, a clause
list on one line where that fits and else a clause a line. Remarks, notes, the maker's spelling of amounts and
single blank lines between statements stay. Tidying what is tidy changes nothing.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator

from drafting.records import dataclass, field
from drafting.syntax import tree
from drafting.syntax.statements import Chunk, Written, written_head, written_header, written_statement
from drafting.syntax.write import quoted

WIDTH = 100
"""A line is no longer than this if it can be broken."""
INDENT = "  "


def tidy(file: tree.File) -> str:
    """The whole file as text. What has a slip stands in no tree, so such a file cannot be tidied."""
    if file.unread:
        raise ValueError("only a text without slips can be tidied")
    sheet = Sheet(deque(file.remarks))
    if file.header is not None:
        sheet.add(written_header(file.header), 0)
    for index, item in enumerate(file.items):
        if isinstance(item, tree.Piece | tree.Block):
            sheet.add(written_head(item), 0)
            for part in item.parts:
                sheet.add(written_statement(part), 1)
            ahead = file.items[index + 1].span.start if index + 1 < len(file.items) else None
            sheet.add_remarks(ahead, 1, is_wanted=lambda remark: remark.span.column > 1)
        else:
            sheet.add(written_statement(item), 0)
    sheet.add_remarks(None, 0)
    return "".join(f"{line}\n" for line in sheet.lines)


@dataclass
class Sheet:
    """The lines so far, and the remarks still to come."""

    remarks: deque[tree.Remark]
    lines: list[str] = field(default_factory=list)
    last_line: int = 0
    """The line of the source that was written last."""

    def add(self, written: Written, depth: int) -> None:
        """A statement with the remarks before it, inside it and behind it."""
        self.add_remarks(written.start, depth)
        inside = list(self._taken(lambda remark: remark.span.start < written.end))
        behind = list(
            self._taken(lambda remark: not remark.own_line and remark.span.line == written.end_line)
        )
        self._keep_blank(written.line)
        lines = Layout(written, INDENT * depth, inside).lines()
        lines[-1] += "".join(f"  #{remark.text}" for remark in behind)
        self.lines += lines
        self.last_line = written.end_line

    def add_remarks(
        self, before: int | None, depth: int, is_wanted: Callable[[tree.Remark], bool] = lambda remark: True
    ) -> None:
        """The next remarks up to a place, each on a line of its own."""
        for remark in self._taken(
            lambda remark: (before is None or remark.span.start < before) and is_wanted(remark)
        ):
            self._keep_blank(remark.span.line)
            self.lines.append(f"{INDENT * depth}#{remark.text}")
            self.last_line = remark.span.line

    def _keep_blank(self, line: int) -> None:
        if self.lines and line > self.last_line + 1:
            self.lines.append("")

    def _taken(self, is_wanted: Callable[[tree.Remark], bool]) -> Iterator[tree.Remark]:
        """The next remarks, taken off the list as long as they are wanted."""
        while self.remarks and is_wanted(self.remarks[0]):
            yield self.remarks.popleft()


@dataclass
class Layout:
    """The lines of one statement."""

    written: Written
    indent: str
    remarks: list[tree.Remark]

    def lines(self) -> list[str]:
        if not self.written.chunks:
            above = [f"{self.indent}#{remark.text}" for remark in self.remarks]
            return [*above, self.indent + self.written.head + _note(self.written.note)]
        one_line = self._one_line()
        if not self.remarks and not self.written.is_block and len(one_line) <= WIDTH:
            return [one_line]
        if self._is_one_path():
            return self._filled(self.written.chunks, self.indent, self.written.head + " ")
        return self._many_lines()

    def _one_line(self) -> str:
        parts = [self.written.head]
        for index, chunk in enumerate(self.written.chunks):
            parts.append(f"{'' if chunk.is_leg or not index else ';'} {chunk.text}")
        return self.indent + "".join(parts) + _note(self.written.note)

    def _is_one_path(self) -> bool:
        """A single path is broken at its legs and begins behind the head, unless something must stand
        between.
        """
        has_clauses = any(not chunk.is_leg for chunk in self.written.chunks[1:])
        has_note = self.written.note is not None
        return not (has_clauses or self.written.is_block or self.remarks or has_note)

    def _many_lines(self) -> list[str]:
        """The head, and below it a line for each clause, with the remarks where they were."""
        head_note = None if self.written.has_note_last else self.written.note
        above, behind = self._placed_remarks()
        lines = [self.indent + self.written.head + _note(head_note) + behind[-1]]
        inner = self.indent + INDENT
        group: list[Chunk] = []
        for index, chunk in enumerate(self.written.chunks):
            if group and (not chunk.is_leg or above[index]):
                lines += self._filled(group, inner if not group[0].is_leg else inner + INDENT)
                group = []
            lines += [f"{inner}{INDENT if chunk.is_leg else ''}#{text}" for text in above[index]]
            group.append(chunk)
            if behind[index]:
                lines += self._filled(group, inner if not group[0].is_leg else inner + INDENT)
                lines[-1] += behind[index]
                group = []
        if group:
            lines += self._filled(group, inner if not group[0].is_leg else inner + INDENT)
        if self.written.has_note_last:
            lines[-1] += _note(self.written.note)
        return lines

    def _placed_remarks(self) -> tuple[dict[int, list[str]], dict[int, str]]:
        """For each chunk the remarks above it, and the one behind it; -1 is the head."""
        chunks = self.written.chunks
        above: dict[int, list[str]] = {index: [] for index in range(len(chunks))}
        behind = dict.fromkeys(range(-1, len(chunks)), "")
        places = sorted((chunk.start, index) for index, chunk in enumerate(chunks))
        for remark in self.remarks:
            last = max((place for place in places if place[0] < remark.span.start), default=(0, -1))[1]
            following = min((place for place in places if place[0] > remark.span.start), default=places[-1])[
                1
            ]
            if not remark.own_line and not behind[last]:
                behind[last] = f"  #{remark.text}"
            else:
                above[following].append(remark.text)
        return above, behind

    def _filled(self, chunks: tuple[Chunk, ...] | list[Chunk], indent: str, head: str = "") -> list[str]:
        """A clause and its legs, as many to a line as fit."""
        lines: list[str] = []
        line = indent + head + chunks[0].text
        deeper = indent if chunks[0].is_leg else indent + INDENT
        for chunk in chunks[1:]:
            if len(line) + 1 + len(chunk.text) > WIDTH:
                lines.append(line)
                line = deeper + chunk.text
            else:
                line += " " + chunk.text
        return [*lines, line + _note(chunks[-1].note)]


def _note(note: str | None) -> str:
    return "" if note is None else f"  {quoted(note)}"
