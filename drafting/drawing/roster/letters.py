"""Words as lines for a machine that engraves: letters of a single stroke, or the outlines of letters.

Capitals are 1 high here, x goes to the right and y up; each line of words lies about x = 0, and the middle of all
capitals at y = 0.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from functools import cached_property
from unicodedata import normalize

from drafting.drawing.font_outlines import lacks_font, outlines_of, outlines_of_word
from drafting.drawing.fonts import JOINERS, way_to
from drafting.drawing.lettering import LINE_PITCH, plain_text
from drafting.drawing.stroke_letters import (
    CAPITAL,
    Spot,
    missing_letters,
    parts_of,
    shapes_of,
    signs_of,
)
from drafting.records import dataclass
from drafting.text.catalogue import roster as says
from drafting.text.messages import Messages
from drafting.text.source import Span

Lines = tuple[tuple[Spot, ...], ...]
LONGEST_TOLD = 60
Placed = tuple[float, Lines]
"""How far a letter takes the line on, and its lines."""


@dataclass(frozen=True)
class Letters:
    """A kind of letters. `name` is what a message calls it; `lacking` lists what cannot be written of a line of words,
    `set` gives its letters from left to right."""

    name: str
    lacking: Callable[[str], tuple[str, ...]]
    set: Callable[[str], Iterator[Placed]]


def _strokes(text: str) -> Iterator[Placed]:
    for shape in shapes_of(text):
        yield shape.advance / CAPITAL, shape.scaled(1 / CAPITAL).strokes


def _outlines(text: str) -> Iterator[Placed]:
    for part, way in parts_of(text, _is_outlined_alone):
        found = outlines_of(part[0]) if way is None else outlines_of_word(part, way)
        if found:
            yield found.advance, found.contours


def _is_outlined_alone(sign: str) -> bool:
    return len(sign.rstrip(JOINERS)) == 1 and outlines_of(sign[0]) is not None


def _without_outline(text: str) -> tuple[str, ...]:
    letters = (letter for sign in signs_of(text) for letter in sign)
    return tuple(dict.fromkeys(letter for letter in letters if lacks_font(letter)))


LETTERS = {
    "stroke": Letters("the single-stroke letters", missing_letters, _strokes),
    "outline": Letters("the outline letters", _without_outline, _outlines),
}


@dataclass(frozen=True)
class Inked:
    """The lines of words; a line that ends where it starts is closed."""

    lines: Lines

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """Left, low, right and high end of the ink."""
        xs = [x for line in self.lines for x, _ in line] or [0.0]
        ys = [y for line in self.lines for _, y in line] or [0.0]
        return min(xs), min(ys), max(xs), max(ys)


def lines_of_words(text: str) -> list[str]:
    """The lines of a cell, each as plain words, those without any left out."""
    return [words for line in normalize("NFC", text).splitlines() if (words := plain_text(line))]


def shortened(words: Sequence[str]) -> str:
    """Words as a message names them."""
    text = " / ".join(words)
    return text if len(text) <= LONGEST_TOLD else text[: LONGEST_TOLD - 2].rstrip() + " …"


def say_lacking(
    missing: Collection[str], font: str, at: Span, facts: Mapping[str, object], messages: Messages
) -> None:
    """Letters that `font` lacks, as a message, and how they may come to be there."""
    letters = ", ".join(f"`{letter}`" for letter in missing)
    more = {"letters": letters, "font": font, "way": way_to(missing)}
    messages.say(says.LACKING_LETTERS, at, {**facts, **more})


def inked(letters: Letters, lines: Sequence[str]) -> Inked:
    """Lines of words below each other, each in the middle. What is lacking is left out: ask for it first."""
    top = (len(lines) - 1) * LINE_PITCH / 2 - 0.5
    drawn = [_about_middle(letters, line, top - number * LINE_PITCH) for number, line in enumerate(lines)]
    return Inked(tuple(line for part in drawn for line in part))


def _about_middle(letters: Letters, words: str, up: float) -> Lines:
    """One line of words, the middle of its ink at x = 0."""
    drawn: list[tuple[Spot, ...]] = []
    along = 0.0
    for advance, lines in letters.set(words):
        drawn += [tuple((x + along, y + up) for x, y in line) for line in lines]
        along += advance
    xs = [x for line in drawn for x, _ in line] or [0.0]
    middle = (min(xs) + max(xs)) / 2
    return tuple(tuple((x - middle, y) for x, y in line) for line in drawn)
