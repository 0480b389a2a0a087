"""Words as strokes, for what is engraved: a tool runs along each line once and fills nothing.

In come words and the height of a capital in mm; out come lines from (0, 0) to the right, y up, standing on y = 0. Latin
with its accents, Greek and Cyrillic are single strokes. Letters of another script are outlines in a font that has them,
joined and stacked as their script asks; one that no font has is left out, and `missing_letters` names it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache
from itertools import groupby, pairwise
from typing import TYPE_CHECKING
from unicodedata import bidirectional, category, normalize

from drafting.drawing.fonts import JOINERS, visual_parts
from drafting.drawing.lettering import plain_text
from drafting.drawing.stroke_shapes import HERSHEY_SHAPES
from drafting.drawing.stroke_shapes_added import (
    ABOVE,
    ADDED_SHAPES,
    ALIKE,
    BARRED,
    BELOW,
    BESIDE,
    RAISED,
    SMALL_CAPITALS,
)
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.records import dataclass

if TYPE_CHECKING:
    from drafting.drawing.font_outlines import Outlines

CAPITAL = 21.0
"""How high a capital is in the units of the shapes."""
SMALL = 2 / 3
"""A small letter, or a capital drawn as one, against a capital."""
RAISED_SIZE = 0.6
ACCENT_GAP = 3.0
CARON_BESIDE = "dtlL"
"""A caron beside these is an apostrophe."""
COMMA_FOR_CEDILLA = "kKlLnNrRG"

Spot = tuple[float, float]


@dataclass(frozen=True)
class Shape:
    """A letter: how far it takes the line on, and its strokes, in units of which a capital has 21."""

    advance: float
    strokes: tuple[tuple[Spot, ...], ...]

    @property
    def spots(self) -> list[Spot]:
        return [spot for stroke in self.strokes for spot in stroke]

    @property
    def top(self) -> float:
        return max((y for _, y in self.spots), default=0.0)

    @property
    def middle(self) -> float:
        """Halfway between its leftmost and its rightmost place."""
        across = [x for x, _ in self.spots] or [self.advance]
        return (min(across) + max(across)) / 2

    def moved(self, right: float, up: float = 0.0) -> Shape:
        return Shape(
            self.advance, tuple(tuple((x + right, y + up) for x, y in line) for line in self.strokes)
        )

    def scaled(self, factor: float) -> Shape:
        lines = tuple(tuple((x * factor, y * factor) for x, y in line) for line in self.strokes)
        return Shape(self.advance * factor, lines)

    def with_strokes(self, strokes: Iterable[Sequence[Spot]]) -> Shape:
        return Shape(self.advance, (*self.strokes, *(tuple(stroke) for stroke in strokes)))


def stroke_text(text: str, height: float) -> list[Path | Ring]:
    """The strokes of a line of words whose capitals are `height` mm high; closed ones are rings."""
    scale = height / CAPITAL
    lines: list[Path | Ring] = []
    right = 0.0
    for shape in shapes_of(text):
        lines += [_line(stroke, right, scale) for stroke in shape.strokes]
        right += shape.advance
    return lines


def stroke_width(text: str, height: float) -> float:
    """How much room the words take, in mm."""
    return sum(shape.advance for shape in shapes_of(text)) * height / CAPITAL


def missing_letters(text: str) -> tuple[str, ...]:
    """The letters that have neither strokes nor an outline, each once."""
    return tuple(
        dict.fromkeys(sign for sign in signs_of(text) if shape_of(sign) is None and _lacks_font(sign))
    )


def shapes_of(text: str) -> list[Shape]:
    """From left to right: letters, and between them words whose letters stand together."""
    shapes = (
        _as_word(part, way) if way is not None else shape_of(part)
        for part, way in parts_of(text, lambda sign: shape_of(sign) is not None)
    )
    return [shape for shape in shapes if shape]


def parts_of(text: str, is_drawn_alone: Callable[[str], bool]) -> Iterator[tuple[str, bool | None]]:
    """From left to right each letter that is drawn alone, and all others in words, in the order they are read, with
    whether that is backward. What no font has is left out."""
    for part, is_backward in _parts_one_way(plain_text(text)):
        groups = [(is_alone, list(same)) for is_alone, same in groupby(_signs_in(part), key=is_drawn_alone)]
        for is_alone, signs in reversed(groups) if is_backward else groups:
            if is_alone:
                yield from ((sign, None) for sign in (_turned_round(signs) if is_backward else signs))
            else:
                yield "".join(sign for sign in signs if not _lacks_font(sign)), is_backward


def _parts_one_way(text: str) -> Iterator[tuple[str, bool]]:
    if any(bidirectional(letter) in RUNNING_LEFT for letter in text):
        yield from visual_parts(text)
    else:
        yield text, False


RUNNING_LEFT = ("R", "AL", "AN", "RLE", "RLO", "RLI")


def _turned_round(signs: list[str]) -> list[str]:
    """Brackets open the other way."""
    from bidi.mirror import MIRRORED

    return [MIRRORED.get(sign, sign) for sign in reversed(signs)]


def _lacks_font(sign: str) -> bool:
    from drafting.drawing.font_outlines import lacks_font

    return any(lacks_font(letter) for letter in sign)


def signs_of(text: str) -> list[str]:
    """The letters of a line, each with the accents that follow it, and with what forbids it to join or has it join."""
    return _signs_in(plain_text(text))


def _signs_in(text: str) -> list[str]:
    signs: list[str] = []
    for letter in text:
        if signs and (category(letter) in ("Mn", "Me") or letter in JOINERS):
            signs[-1] += letter
        elif category(letter) != "Cf":
            signs.append(letter)
    return signs


def _line(stroke: Sequence[Spot], right: float, scale: float) -> Path | Ring:
    points = [Point((x + right) * scale, y * scale) for x, y in stroke]
    legs = tuple(Line(start, end) for start, end in pairwise(points))
    return Ring(legs) if stroke[0] == stroke[-1] and len(legs) > 2 else Path(legs)


# Letters


@cache
def shape_of(sign: str) -> Shape | None:
    """A letter with its accents that is drawn alone: as strokes where it has some, else as the outline that the font of
    files has of it, else nothing."""
    whole = normalize("NFC", sign.rstrip(JOINERS))
    return _as_strokes(whole) or _accented(normalize("NFD", whole)) or _as_outlines(whole)


def _as_strokes(letter: str) -> Shape | None:
    written = ADDED_SHAPES.get(letter) or HERSHEY_SHAPES.get(letter)
    if written:
        return _read(written)
    if letter in BARRED:
        base, bar = BARRED[letter]
        return _known(base).with_strokes(_strokes_in(bar))
    if letter in ALIKE:
        return _side_by_side([_known(one) for one in ALIKE[letter]])
    if letter in SMALL_CAPITALS and len(letter) == 1:
        return _known(letter.upper()).scaled(SMALL)
    if letter in RAISED:
        return _known(RAISED[letter]).scaled(RAISED_SIZE).moved(0.0, CAPITAL * (1 - RAISED_SIZE))
    return None


def _known(letter: str) -> Shape:
    shape = _as_strokes(letter)
    assert shape is not None, "the tables of shapes refer to letters that they hold"
    return shape


def _side_by_side(shapes: list[Shape]) -> Shape:
    whole = Shape(0.0, ())
    for shape in shapes:
        strokes = (*whole.strokes, *shape.moved(whole.advance).strokes)
        whole = Shape(whole.advance + shape.advance, strokes)
    return whole


def _read(written: str) -> Shape:
    advance, _, strokes = written.partition("|")
    return Shape(float(advance), tuple(_strokes_in(strokes)))


def _strokes_in(written: str) -> Iterator[tuple[Spot, ...]]:
    for stroke in written.split(";"):
        spots = [tuple(map(float, spot.split(","))) for spot in stroke.split()]
        if spots:
            yield tuple((x, y) for x, y in spots)


# Accents


def _accented(letters: str) -> Shape | None:
    """A letter with accents, all of which must be known."""
    base, accents = letters[0], letters[1:]
    if not accents or any(accent not in KNOWN_ACCENTS for accent in accents):
        return None
    above = any(accent in ABOVE for accent in accents)
    shape = _as_strokes({"i": "ı", "j": "ȷ", "і": "ı", "ј": "ȷ"}.get(base, base) if above else base)
    if shape is None:
        return None
    for accent in accents:
        shape = _with_accent(shape, base, accent)
    return shape


KNOWN_ACCENTS = frozenset((*ABOVE, *BELOW, *BESIDE))


def _with_accent(shape: Shape, base: str, accent: str) -> Shape:
    if accent == "\u030c" and base in CARON_BESIDE:
        apostrophe = [[(shape.advance, CAPITAL), (shape.advance - 1, CAPITAL - 5)]]
        return Shape(shape.advance + 2, shape.with_strokes(apostrophe).strokes)
    if accent == "\u0327" and base in COMMA_FOR_CEDILLA:
        accent = "\u0326"
    if accent == "\u0327" and base == "g":
        accent = "\u0312"
    if accent in ABOVE:
        return shape.with_strokes(_moved(ABOVE[accent], shape.middle, shape.top + ACCENT_GAP))
    if accent in BELOW:
        foot = min([0.0, *(y for _, y in shape.spots)])
        return shape.with_strokes(_moved(BELOW[accent], shape.middle, foot))
    corner = max(x for x, _ in shape.spots)
    return shape.with_strokes(_moved(BESIDE[accent], corner, shape.top - 1))


def _moved(written: str, right: float, up: float) -> list[list[Spot]]:
    return [[(x + right, y + up) for x, y in stroke] for stroke in _strokes_in(written)]


# Outlines


def _as_outlines(sign: str) -> Shape | None:
    from drafting.drawing.font_outlines import outlines_of

    outlines = outlines_of(sign) if len(sign) == 1 else None
    return None if outlines is None else _sized(outlines)


def _as_word(letters: str, is_backward: bool) -> Shape:
    from drafting.drawing.font_outlines import outlines_of_word

    return _sized(outlines_of_word(letters, is_backward))


def _sized(outlines: Outlines) -> Shape:
    return Shape(outlines.advance, outlines.contours).scaled(CAPITAL)
