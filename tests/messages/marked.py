"""Pattern texts with the messages they give, marked in remarks under the line each speaks of.

A file holds several cases; each begins with a line `#=== ` and a sentence saying what must hold. Under a line stand
its marks, in remarks: carets under the place, the code, the sentence, the mend, and the other places that take part.

      point brow: 40 mm above heel
    #       ^^^^ S01 `brow` has one fact and needs two: `40 mm above heel` lets it slide left and right.
    #       mend: Add for instance `plumb with heel`.
    #mended|  point brow: 40 mm above heel; plumb with heel

Carets that begin in the first column begin under the `#`. A place that goes on over more lines ends in `+` and their
number. What stands behind `#mended|` is what the line above becomes when the mend is typed; with nothing there the line goes.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from drafting.text.excerpt import column_after, display_width, shown, sizes_prefix
from drafting.text.messages import Message
from drafting.text.source import Source, Span

FOLDER = Path(__file__).parent / "cases"
USED = Path(__file__).parent / "used"
"""Where the files lie that the cases use."""
HEAD = "#=== "
MENDED = "#mended|"
MARK = re.compile(r"#\s*(\^+(\+\d+)? [A-Z]\d\d\d? |mend: |also )|#\^")


@dataclass(frozen=True)
class Line:
    """A line of a pattern with the marks under it, and what it becomes when mended."""

    text: str
    marks: tuple[str, ...] = ()
    mended: tuple[str, ...] = ()


@dataclass(frozen=True)
class Case:
    file: Path
    title: str
    lines: tuple[Line, ...]

    @property
    def name(self) -> str:
        return f"{self.file.stem}: {self.title}"

    @property
    def source(self) -> Source:
        return Source(f"{self.file.stem}.draft", "".join(line.text + "\n" for line in self.lines))

    @property
    def has_mend(self) -> bool:
        return any(line.mended for line in self.lines)

    @property
    def mended_source(self) -> Source:
        """The pattern with every mend typed."""
        written: list[str] = []
        for line in self.lines:
            texts = [mended.removeprefix(MENDED) for mended in line.mended] or [line.text]
            written += [text for text in texts if text.strip() or not line.mended]
        return Source("mended.draft", "".join(text + "\n" for text in written))

    @property
    def written(self) -> str:
        """The case as its file has it."""
        rows = [HEAD + self.title]
        for line in self.lines:
            rows += [line.text, *line.marks, *line.mended]
        return "\n".join(rows) + "\n"

    def marked(self, messages: Iterable[Message]) -> Case:
        """The same case with the marks that `messages` call for."""
        by_line: dict[int, list[str]] = {}
        for message in messages:
            at = message.at or self.source.span(0, 0)
            is_here = at.source == self.source
            rows = (
                marks_of(message, at) if is_here else [f"#^ {message.code} {at.source.name}: {message.says}"]
            )
            by_line.setdefault(at.line if is_here else 1, []).extend(rows)
        lines = [
            replace(line, marks=tuple(by_line.get(number, ()))) for number, line in enumerate(self.lines, 1)
        ]
        return replace(self, lines=tuple(lines))


def marks_of(message: Message, at: Span) -> Iterator[str]:
    """The remark lines for one message."""
    carets = carets_under(at)
    blank = " " * (len(carets) - len(carets[1:].lstrip()) - 1) or " "
    yield f"{carets} {message.code} {sizes_prefix(message.sizes)}{message.says}"
    if message.mend:
        yield f"#{blank}mend: {message.mend}"
    for related in message.related:
        yield f"#{blank}also `{' '.join(related.at.text.split())}`: {related.says}"


def carets_under(at: Span) -> str:
    """`#`, blanks and carets under the part of a place that is on its first line."""
    line = at.source.line_text(at.line)
    start = column_after(line[: at.column - 1])
    more = at.end_line - at.line
    end = len(line) if more else at.end_column - 1
    width = max(1, display_width(shown(line[at.column - 1 : end], start)))
    carets = "#" + "^" * (width - 1) if start == 0 else "#" + " " * (start - 1) + "^" * width
    return carets + (f"+{more}" if more else "")


def read_cases(file: Path) -> list[Case]:
    cases: list[Case] = []
    for row in file.read_text(encoding="utf-8").splitlines():
        if row.startswith(HEAD):
            cases.append(Case(file, row.removeprefix(HEAD), ()))
            continue
        case = cases[-1]
        if row.startswith(MENDED):
            last = case.lines[-1]
            cases[-1] = replace(case, lines=(*case.lines[:-1], replace(last, mended=(*last.mended, row))))
        elif MARK.match(row):
            last = case.lines[-1]
            cases[-1] = replace(case, lines=(*case.lines[:-1], replace(last, marks=(*last.marks, row))))
        else:
            cases[-1] = replace(case, lines=(*case.lines, Line(row)))
    return cases


def all_cases() -> list[Case]:
    return [case for file in sorted(FOLDER.glob("*.draft")) for case in read_cases(file)]


def write_cases(cases: Iterable[Case]) -> None:
    """Each file anew, from all the cases that belong to it."""
    by_file: dict[Path, list[Case]] = {}
    for case in cases:
        by_file.setdefault(case.file, []).append(case)
    for file, held in by_file.items():
        file.write_text("".join(case.written for case in held), encoding="utf-8")
