"""The outlines of letters as closed lines of straight pieces.

Measured in heights of a capital of Arimo, y up from the line the letters stand on. Curves are straightened so that no
place is more than TOLERANCE off.

`outlines_of` has a letter of Arimo as it stands alone. `outlines_of_word` has letters of any script as they stand
together, in the first font that has them (drafting.drawing.fonts): joined, stacked, accents in their places. Letters
that run into each other, as those of Arabic do, are one outline: a tool must not cross the word at every joint.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import groupby, pairwise
from math import ceil, hypot, sqrt
from typing import Any
from unicodedata import category

from fontTools.pens.basePen import BasePen
from fontTools.ttLib import TTFont

from drafting.drawing.font_file import font_files
from drafting.drawing.fonts import Step, by_font, drawn, font_with
from drafting.drawing.lettering_widths import CAPITAL
from drafting.records import dataclass

TOLERANCE = 0.001
"""In heights of a capital: five micrometres on letters of 5 mm."""
CAPITALS_IN_A_SIZE = 2048 / CAPITAL
"""Letters of every font are set in one size, that in which a capital of Arimo, of 2048 units a size, is 1 high."""

Spot = tuple[float, float]


@dataclass(frozen=True)
class Outlines:
    """How far a letter takes the line on, and its closed lines, each ending where it starts."""

    advance: float
    contours: tuple[tuple[Spot, ...], ...]


@cache
def outlines_of(letter: str) -> Outlines | None:
    """Nothing where the font lacks the letter, or the package of the font is missing."""
    font = _font()
    name = font.getBestCmap().get(ord(letter)) if font is not None else None
    if font is None or name is None:
        return None
    glyphs = font.getGlyphSet()
    pen = _StraightPen(glyphs)
    glyphs[name].draw(pen)
    return Outlines(glyphs[name].width / CAPITAL, tuple(tuple(one) for one in pen.contours if len(one) > 2))


@cache
def outlines_of_word(letters: str, is_backward: bool) -> Outlines:
    """Letters in the order they are read, drawn from left to right. Raises MissingLetters."""
    advance = 0.0
    contours: list[tuple[Spot, ...]] = []
    for font, part in by_font(letters, is_backward):
        width, steps = drawn(font, part, is_backward)
        contours += _straightened(steps, advance)
        advance += width * CAPITALS_IN_A_SIZE
    return Outlines(advance, tuple(_run_together(contours)))


def lacks_font(letter: str) -> bool:
    """Whether no font has a letter, neither of the packages nor of the machine; joiners need none."""
    return category(letter) != "Cf" and font_with(letter) is None


@cache
def _font() -> TTFont | None:
    files = font_files()
    return TTFont(files[0], lazy=True) if files else None


class _StraightPen(BasePen):  # type: ignore[misc]
    """Collects the outlines of a letter."""

    def __init__(self, glyphs: Any) -> None:
        super().__init__(glyphs)
        self.contours: list[list[Spot]] = []

    def _moveTo(self, pt: Spot) -> None:
        self.contours.append([_sized(pt)])

    def _lineTo(self, pt: Spot) -> None:
        self._add(_sized(pt))

    def _qCurveToOne(self, pt1: Spot, pt2: Spot) -> None:
        start, bend, end = self.contours[-1][-1], _sized(pt1), _sized(pt2)
        off = hypot(*(a - 2 * b + c for a, b, c in zip(start, bend, end, strict=True)))
        count = max(1, ceil(sqrt(off / (4 * TOLERANCE))))
        for step in range(1, count + 1):
            t = step / count
            near, mid, far = (1 - t) ** 2, 2 * t * (1 - t), t**2
            x, y = (near * a + mid * b + far * c for a, b, c in zip(start, bend, end, strict=True))
            self._add((x, y) if step < count else end)

    def _closePath(self) -> None:
        self._add(self.contours[-1][0])

    def _add(self, spot: Spot) -> None:
        if spot != self.contours[-1][-1]:
            self.contours[-1].append(spot)


def _sized(spot: Spot) -> Spot:
    return spot[0] / CAPITAL, spot[1] / CAPITAL


# Letters as they stand together


def _straightened(steps: Sequence[Step], left: float) -> list[tuple[Spot, ...]]:
    """The closed lines that a pen draws by these steps, which are in sizes of the font."""
    contours: list[list[Spot]] = []
    for kind, flat in steps:
        spots = [(x * CAPITALS_IN_A_SIZE + left, y * CAPITALS_IN_A_SIZE) for x, y in _in_twos(flat)]
        if kind == "move":
            contours.append(spots)
        elif kind == "line":
            contours[-1] += spots
        elif kind == "curve":
            contours[-1] += _along_curve((contours[-1][-1], *spots))
    closed = ([*contour, contour[0]] for contour in contours)
    apart = (tuple(spot for spot, _ in groupby(contour)) for contour in closed)
    return [contour for contour in apart if len(contour) > 3]


def _in_twos(flat: Sequence[float]) -> Iterator[Spot]:
    """x, y, x, y … as places."""
    return zip(flat[::2], flat[1::2], strict=True)


def _along_curve(handles: Sequence[Spot]) -> Iterator[Spot]:
    """A curve of the third degree in straight pieces, without its start. A piece is off by no more than an eighth of
    the second derivative over the square of their number, and that derivative is six times a bend at most."""
    end = handles[-1]
    bends = ((a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]) for a, b, c in (handles[:3], handles[1:]))
    count = max(1, ceil(sqrt(0.75 * max(hypot(*bend) for bend in bends) / TOLERANCE)))
    for step in range(1, count):
        t = step / count
        parts = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3
        x, y = (sum(part * spot[axis] for part, spot in zip(parts, handles, strict=True)) for axis in (0, 1))
        yield x, y
    yield end


def _run_together(contours: list[tuple[Spot, ...]]) -> list[tuple[Spot, ...]]:
    """The same where no line crosses another, else the outline of what they fill.

    What is filled is what more lines go round one way than the other, as fonts have it (the rule of nonzero winding).
    """
    import shapely

    lines = shapely.union_all([shapely.LineString(contour) for contour in contours])
    if shapely.get_num_coordinates(lines) <= sum(len(one) for one in contours):
        return contours
    areas = [face for face in shapely.get_parts(shapely.polygonize([lines])) if _is_filled(face, contours)]
    whole = shapely.union_all(areas)
    rings = (ring for part in shapely.get_parts(whole) for ring in (part.exterior, *part.interiors))
    return [tuple((x, y) for x, y in ring.coords) for ring in rings]


def _is_filled(face: Any, contours: Sequence[Sequence[Spot]]) -> bool:
    at = face.representative_point()
    return sum(_times_round(contour, at.x, at.y) for contour in contours) != 0


def _times_round(contour: Sequence[Spot], x: float, y: float) -> int:
    """How often a closed line goes round a place, anticlockwise positive: its crossings of the ray to the right."""
    times = 0
    for (ax, ay), (bx, by) in pairwise(contour):
        if (ay <= y) != (by <= y):
            crossing = ax + (y - ay) * (bx - ax) / (by - ay)
            if crossing > x:
                times += 1 if by > ay else -1
    return times
