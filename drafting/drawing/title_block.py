"""The title block at the lower right of a sheet: the fields of ISO 7200 and a few of the trade.

What the pattern knows is filled in; what only the maker knows stays a labelled blank to write in. No date is taken
from the clock: the same pattern gives the same sheet.
"""

from __future__ import annotations

from collections.abc import Iterator

from drafting.drawing.arrows import straight
from drafting.drawing.lettering import LINE_PITCH, clip, heights_from, natural_width, plain_text, wrap
from drafting.drawing.lines import FRAME, TABLE
from drafting.drawing.marks import DESCENT, Group, Lettering, Stroke
from drafting.geometry.line import Line
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.records import dataclass

WIDTH = 180.0
ROW = 10.0
LABEL_HEIGHT = 1.8
INSET = 1.2


@dataclass(frozen=True)
class TitleFacts:
    """What the block tells of a sheet. Empty words are blanks for the maker."""

    title: str
    subtitle: str
    document: str
    number: str
    scale: str
    units: str
    size: str
    cut: str
    stock: str
    edition: str
    licence: str
    author: str
    sheet: str
    paper: str


@dataclass(frozen=True)
class Field:
    """A cell: its label, its words, where its upper left corner is in rows and mm, and how large it is."""

    label: str
    words: str
    left: float
    row: int
    width: float
    rows: int = 1
    height: float = 2.5


def fields_of(facts: TitleFacts) -> tuple[Field, ...]:
    """The cells, row by row. The eight obligatory fields of ISO 7200 are all here."""
    return (
        Field("Legal owner", "", 0, 0, 55),
        Field("Document type", facts.document, 55, 0, 60),
        Field("Scale", facts.scale, 115, 0, 20, height=3.5),
        Field("Units", facts.units, 135, 0, 45),
        Field("Creator", facts.author, 0, 1, 55),
        Field("Title", facts.title, 55, 1, 80, 2, height=5.0),
        Field("Identification number", facts.number, 135, 1, 45),
        Field("Approval person", "", 0, 2, 55),
        Field("Edition", facts.edition, 135, 2, 20),
        Field("Paper", facts.paper, 155, 2, 25),
        Field("Date of issue", "", 0, 3, 27),
        Field("Licence", facts.licence, 27, 3, 28),
        Field("Piece", facts.subtitle, 55, 3, 40),
        Field("Size", facts.size, 95, 3, 30),
        Field("Cut", facts.cut, 125, 3, 36),
        Field("Sheet number", facts.sheet, 161, 3, 19),
    )


N_ROWS = 4
HEIGHT = N_ROWS * ROW


def title_block(facts: TitleFacts, right: float, bottom: float) -> Group:
    """The block with its lower right corner at a place."""
    left, top = right - WIDTH, bottom + HEIGHT
    groups = [_field_group(field, left, top) for field in fields_of(facts)]
    box = Stroke(FRAME, rectangle(left, bottom, right, top))
    return Group("title-block", "title-block", (box, *groups), title="Title block")


def _field_group(field: Field, left: float, top: float) -> Group:
    x, y = left + field.left, top - field.row * ROW
    bottom = y - field.rows * ROW
    label = Lettering(
        field.label, Point(x + INSET, y - INSET - LABEL_HEIGHT), LABEL_HEIGHT, "start", use="label"
    )
    words = fitted(field.words, x + INSET, bottom + 0.6, field.width - 2 * INSET, _room(field), field.height)
    return Group("field", field.label, (*_sides(field, x, y, bottom, left), label, *words), title=field.label)


def _room(field: Field) -> float:
    """Height left for words under the label."""
    return field.rows * ROW - LABEL_HEIGHT - INSET - 1.2


def _sides(field: Field, x: float, y: float, bottom: float, left: float) -> Iterator[Stroke]:
    """The upper and the left side of a cell, where these are not the block's own."""
    if field.row > 0:
        yield straight(TABLE, Point(x, y), Point(x + field.width, y))
    if x > left + 0.1:
        yield straight(TABLE, Point(x, bottom), Point(x, y))


def fitted(text: str, x: float, bottom: float, width: float, room: float, height: float) -> list[Lettering]:
    """Words in a cell: as high as wished, or lower and in more lines, at last cut short."""
    plain = plain_text(text)
    if not plain:
        return []
    for step in [one for one in heights_from(height, 3.5) if natural_width(plain, one) <= width]:
        return _stacked([plain], x, bottom, step)
    for step in heights_from(height):
        lines = wrap(plain, step, width)
        whole = all(natural_width(line, step) <= width for line in lines)
        unbroken = len(lines) <= len(plain.split(" "))
        if whole and unbroken and step * (1 + DESCENT + (len(lines) - 1) * LINE_PITCH) <= room:
            return _stacked(lines, x, bottom, step)
    least = heights_from(height)[-1]
    most = max(1, int((room / least - 1 - DESCENT) / LINE_PITCH) + 1)
    return _stacked(clip(wrap(plain, least, width), least, width, most), x, bottom, least)


def _stacked(lines: list[str], x: float, bottom: float, height: float) -> list[Lettering]:
    last = len(lines) - 1
    bottom += DESCENT * height
    return [
        Lettering(line, Point(x, bottom + (last - index) * LINE_PITCH * height), height, "start", use="field")
        for index, line in enumerate(lines)
    ]


def rectangle(left: float, bottom: float, right: float, top: float) -> Ring:
    a, b, c, d = Point(left, bottom), Point(right, bottom), Point(right, top), Point(left, top)
    return Ring((Line(a, b), Line(b, c), Line(c, d), Line(d, a)))
