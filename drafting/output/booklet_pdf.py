"""A booklet as a PDF: words, tables and pictures flow over pages of one paper, by ReportLab's platypus.

Words are set as everywhere here, letter by letter in a font that has it; so they break and stand alike in every script.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from io import BytesIO
from typing import Any

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    CondPageBreak,
    Flowable,
    Frame,
    KeepTogether,
    PageTemplate,
    Spacer,
)

from drafting.drawing.booklet import Booklet, Part, Picture, Section, Step, Words
from drafting.drawing.fonts import FONT
from drafting.drawing.lettering import LINE_PITCH, font_size, natural_width, wrap
from drafting.drawing.lists.table import Table
from drafting.output.letters import expect_letters, register, runs_of, width_of
from drafting.output.pdf import POINTS, PRODUCER, draw_picture, draw_runs
from drafting.records import dataclass
from drafting.version import VERSION

MARGIN = 15.0
FOOT = 8.0
"""The strip at the foot of a page, in mm."""
TITLE, HEADING, SUBHEADING, TEXT, SMALL = 6.0, 4.0, 2.8, 2.3, 1.8
"""Heights of capitals, in mm."""
AFTER = 2.0
CELL_GAP = 3.0
LEAST_COLUMN = 14.0
NUMBER_WIDE = 9.0
BULLET_WIDE = 4.0
RULE = 0.18
LEAST_BLOCK = 40.0
"""A heading so near to the foot of a page, in mm, goes to the next one."""


def room_on(wide: float, high: float) -> tuple[float, float]:
    """What margins and foot leave of a page, in mm."""
    return wide - 2 * MARGIN, high - 2 * MARGIN - FOOT


def booklet_to_pdf(booklet: Booklet, wide: float, high: float) -> bytes:
    """The bytes of the file, on pages of this size in mm. Raises MissingLetters where no font has a letter."""
    expect_letters(booklet.texts)
    register(FONT)
    rl_config.useA85 = 0  # Bytes as they are: smaller files, sooner written.
    count = _built(booklet, wide, high, 0)[1]
    return _built(booklet, wide, high, count)[0]


def _built(booklet: Booklet, wide: float, high: float, count: int) -> tuple[bytes, int]:
    """The file, and how many pages it has; `count` is what each page says of that."""
    held = BytesIO()
    document = BaseDocTemplate(
        held, pagesize=(wide * POINTS, high * POINTS), invariant=1, pageCompression=1, title=booklet.title,
        creator=f"{PRODUCER} {VERSION}", producer=PRODUCER, initialFontName=FONT,
    )  # fmt: skip
    room = room_on(wide, high)
    frame = Frame(
        MARGIN * POINTS, (MARGIN + FOOT) * POINTS, room[0] * POINTS, room[1] * POINTS,
        leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0,
    )  # fmt: skip
    foot = _foot(booklet, wide, count)
    document.addPageTemplates([PageTemplate("page", [frame], onPage=foot)])
    document.build(list(_flow(booklet, room[0])))
    return held.getvalue(), document.page


def _foot(booklet: Booklet, wide: float, count: int) -> Callable[[Canvas, Any], None]:
    def draw(canvas: Canvas, document: Any) -> None:
        canvas.setTitle(booklet.title)
        canvas.setCreator(f"{PRODUCER} {VERSION}")
        canvas.setProducer(PRODUCER)
        canvas.setKeywords(booklet.record)
        number = f"{document.page} of {count}"
        room = wide - 2 * MARGIN - width_of(number) * font_size(SMALL) - 4.0
        line = (wrap(booklet.running, SMALL, room) or [""])[0]
        canvas.setLineWidth(RULE * POINTS)
        canvas.line(
            MARGIN * POINTS, (MARGIN + 4.0) * POINTS, (wide - MARGIN) * POINTS, (MARGIN + 4.0) * POINTS
        )
        _set(canvas, line, SMALL, MARGIN, MARGIN)
        _set(canvas, number, SMALL, wide - MARGIN - width_of(number) * font_size(SMALL), MARGIN)

    return draw


def _set(canvas: Canvas, line: str, height: float, left: float, up: float) -> None:
    """One line of words, in mm from the lower left."""
    canvas.saveState()
    canvas.translate(left * POINTS, up * POINTS)
    draw_runs(canvas, runs_of(line), font_size(height) * POINTS, 0.0)
    canvas.restoreState()


# The order of things


def _flow(booklet: Booklet, wide: float) -> Iterator[Flowable]:
    yield Heading(booklet.title, TITLE, wide, 0)
    yield Text(" · ".join(booklet.facts), TEXT, wide)
    yield _space(AFTER * 2)
    for section in booklet.sections:
        yield from _section(section, wide)


def _section(section: Section, wide: float) -> Iterator[Flowable]:
    """The heading stays with what comes first."""
    heading = [_space(AFTER * 2), Heading(section.title, HEADING, wide, 1), _space(AFTER)]
    blocks = [block for part in section.parts for block in _blocks(part, wide)]
    yield CondPageBreak(LEAST_BLOCK * POINTS)
    yield KeepTogether([*heading, *blocks[0]])
    for block in blocks[1:]:
        yield KeepTogether(block)


def _blocks(part: Part, wide: float) -> Iterator[list[Flowable]]:
    """What is kept together, as far as a page has room for it."""
    match part:
        case Words():
            after = AFTER / 2 if part.is_list else AFTER
            for line in part.lines:
                yield [Text(line, TEXT, wide, bullet="–" if part.is_list else ""), _space(after)]
            yield [_space(AFTER / 2)]
        case Table() if part.rows:
            yield from _table(part, wide)
        case Picture():
            yield list(_picture(part, wide))
        case Step():
            yield [*_step(part, wide), _space(AFTER * 2)]


def _picture(picture: Picture, wide: float) -> Iterator[Flowable]:
    yield Drawn(picture, wide)
    if picture.caption:
        yield _space(AFTER / 2)
        yield Text(picture.caption, SMALL, wide)
    yield _space(AFTER)


def _step(step: Step, wide: float) -> Iterator[Flowable]:
    yield Text(step.text, SUBHEADING, wide, bullet=f"{step.number}", indent=NUMBER_WIDE)
    below = [f"Takes: {step.uses}." if step.uses else "", step.note or ""]
    for line in filter(None, below):
        yield _space(AFTER / 2)
        yield Text(line, TEXT, wide, indent=NUMBER_WIDE)
    if step.picture:
        yield _space(AFTER)
        yield Drawn(step.picture, wide)


def _space(high: float) -> Spacer:
    return Spacer(1, high * POINTS)


# Things that flow


class Text(Flowable):  # type: ignore[misc]
    """Words broken into lines; they may go on on the next page. `bullet` stands before the first, in an indent."""

    def __init__(
        self, text: str, height: float, wide: float, bullet: str = "", indent: float | None = None
    ) -> None:
        super().__init__()
        self.size = height
        self.indent = (BULLET_WIDE if bullet else 0.0) if indent is None else indent
        self.bullet = bullet
        self.lines = broken(text, height, wide - self.indent)
        self.wide = wide

    @property
    def pitch(self) -> float:
        return LINE_PITCH * self.size

    def wrap(self, available_width: float, available_height: float) -> tuple[float, float]:
        return self.wide * POINTS, len(self.lines) * self.pitch * POINTS

    def split(self, available_width: float, available_height: float) -> list[Flowable]:
        """At least two lines stay together on either page."""
        fit = int(available_height / POINTS / self.pitch + 1e-6)
        if fit >= len(self.lines):
            return [self]
        if fit < 2 or len(self.lines) < 4:
            return []
        fit = min(fit, len(self.lines) - 2)
        return [self._with(self.lines[:fit], self.bullet), self._with(self.lines[fit:], "")]

    def _with(self, lines: Sequence[str], bullet: str) -> Text:
        part = Text("", self.size, self.wide, bullet, self.indent)
        part.lines = list(lines)
        return part

    def draw(self) -> None:
        top = len(self.lines) * self.pitch
        for number, line in enumerate(self.lines):
            up = top - number * self.pitch - self.size * (LINE_PITCH + 1) / 2
            _set(self.canv, line, self.size, self.indent, up)
            if number == 0 and self.bullet:
                _set(self.canv, self.bullet, self.size, 0.0, up)


class Heading(Text):
    """Words that the outline of the file lists, too."""

    def __init__(self, text: str, height: float, wide: float, level: int) -> None:
        super().__init__(text, height, wide)
        self.text, self.level = text, level

    def draw(self) -> None:
        key = f"{self.level}-{self.text}"
        self.canv.bookmarkPage(key)
        self.canv.addOutlineEntry(self.text, key, self.level)
        super().draw()


class Drawn(Flowable):  # type: ignore[misc]
    """A picture in the middle of the width."""

    def __init__(self, picture: Picture, wide: float) -> None:
        super().__init__()
        self.picture, self.wide = picture, wide

    def wrap(self, available_width: float, available_height: float) -> tuple[float, float]:
        return self.wide * POINTS, self.picture.drawing.height * POINTS

    def draw(self) -> None:
        left = (self.wide - self.picture.drawing.width) / 2
        self.canv.saveState()
        self.canv.translate(left * POINTS, 0)
        draw_picture(self.canv, self.picture.drawing)
        self.canv.restoreState()


@lru_cache(maxsize=4096)
def _broken(text: str, height: float, wide: float) -> tuple[str, ...]:
    return tuple(wrap(text, height, wide)) or ("",)


def broken(text: str, height: float, wide: float) -> list[str]:
    """Lines of at most `wide` mm."""
    return list(_broken(text, height, wide))


# Tables


def _table(table: Table, wide: float) -> Iterator[list[Flowable]]:
    """A table that a page has no room for goes on with its head on the next one."""
    widths = column_widths(table, wide)
    title = [Text(table.title, SUBHEADING, wide), _space(AFTER / 2)] if table.title else []
    head = [column.name for column in table.columns]
    yield [*title, Rows(table, [head, *table.rows], widths)]
    for remark in table.remarks:
        yield [_space(AFTER / 2), Text(remark, SMALL, wide)]
    yield [_space(AFTER * 1.5)]


def column_widths(table: Table, wide: float) -> list[float]:
    """As wide as their longest cell; where that is too much the widest give way, down to an equal part."""
    cells = [[column.name, *(row[n] for row in table.rows)] for n, column in enumerate(table.columns)]
    wanted = [max(_wide(cell) for cell in column) for column in cells]
    room = wide - CELL_GAP * (len(wanted) - 1)
    limit = max(wanted)
    while sum(min(each, limit) for each in wanted) > room and limit > LEAST_COLUMN:
        limit *= 0.97
    return [min(each, limit) for each in wanted]


def _wide(cell: str) -> float:
    """What a cell takes, reckoned as lines are broken."""
    return natural_width(cell, TEXT) + 0.2


@dataclass
class _Row:
    lines: list[list[str]]
    high: float


class Rows(Flowable):  # type: ignore[misc]
    """The rows of a table, the first of them its head."""

    def __init__(self, table: Table, rows: Sequence[Sequence[str]], widths: Sequence[float]) -> None:
        super().__init__()
        self.table, self.rows, self.widths = table, rows, widths
        self.laid = [self._laid(row) for row in rows]

    def _laid(self, row: Sequence[str]) -> _Row:
        lines = [broken(cell, TEXT, wide) for cell, wide in zip(row, self.widths, strict=True)]
        return _Row(lines, max(map(len, lines)) * TEXT * LINE_PITCH + 1.2)

    def wrap(self, available_width: float, available_height: float) -> tuple[float, float]:
        wide = sum(self.widths) + CELL_GAP * (len(self.widths) - 1)
        return wide * POINTS, sum(row.high for row in self.laid) * POINTS

    def split(self, available_width: float, available_height: float) -> list[Flowable]:
        room, fit = available_height / POINTS + 1e-6, 0
        for row in self.laid:
            room -= row.high
            if room < 0:
                break
            fit += 1
        if fit >= len(self.rows):
            return [self]
        if fit < 2:
            return []
        parts = self.rows[:fit], [self.rows[0], *self.rows[fit:]]
        return [Rows(self.table, part, self.widths) for part in parts]

    def draw(self) -> None:
        top = sum(row.high for row in self.laid)
        self.canv.setLineWidth(RULE * POINTS)
        for number, row in enumerate(self.laid):
            self._row(row, top)
            top -= row.high
            rule = sum(self.widths) + CELL_GAP * (len(self.widths) - 1)
            self.canv.setLineWidth((2 if number == 0 else 1) * RULE * POINTS)
            self.canv.line(0, top * POINTS, rule * POINTS, top * POINTS)

    def _row(self, row: _Row, top: float) -> None:
        left = 0.0
        for column, lines, wide in zip(self.table.columns, row.lines, self.widths, strict=True):
            for number, line in enumerate(lines):
                up = top - number * TEXT * LINE_PITCH - TEXT * (LINE_PITCH + 1) / 2 - 0.4
                shift = wide - width_of(line) * font_size(TEXT) if column.is_number else 0.0
                _set(self.canv, line, TEXT, left + shift, up)
            left += wide + CELL_GAP
