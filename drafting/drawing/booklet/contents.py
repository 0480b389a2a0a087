"""What a booklet is made of."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.drawing.booklet.pictures import Picture
from drafting.drawing.lists.table import Table
from drafting.records import dataclass


@dataclass(frozen=True)
class Words:
    """Paragraphs; `is_list` gives each a bullet."""

    lines: tuple[str, ...]
    is_list: bool = False


@dataclass(frozen=True)
class Step:
    """A step of the work, by its number from 1, with a picture in which what it uses stands out."""

    number: int
    text: str
    uses: str
    note: str | None
    picture: Picture | None


Part = Words | Table | Picture | Step


@dataclass(frozen=True)
class Section:
    title: str
    parts: tuple[Part, ...]


@dataclass(frozen=True)
class Booklet:
    """`facts` are its size, edition and the like, one a line; `running` stands at the foot of each page."""

    title: str
    facts: tuple[str, ...]
    running: str
    sections: tuple[Section, ...]
    record: str = ""
    """The line that tells what it was made from."""

    @property
    def parts(self) -> Iterator[Part]:
        for section in self.sections:
            yield from section.parts

    @property
    def pictures(self) -> Iterator[Picture]:
        for part in self.parts:
            if isinstance(part, Picture):
                yield part
            elif isinstance(part, Step) and part.picture:
                yield part.picture

    @property
    def texts(self) -> Iterator[str]:
        """All words that are printed, those on the pictures too."""
        yield from (self.title, self.running, *self.facts, *(section.title for section in self.sections))
        for part in self.parts:
            yield from texts_of(part)
        for picture in self.pictures:
            yield from (picture.caption, *(lettering.text for lettering in picture.drawing.letterings))


def texts_of(part: Part) -> Iterator[str]:
    """The words of a part that is no picture."""
    match part:
        case Words():
            yield from part.lines
        case Table():
            yield from (part.title, *(column.name for column in part.columns), *part.remarks)
            yield from (cell for row in part.rows for cell in row)
        case Step():
            yield from (str(part.number), part.text, part.uses, part.note or "")
