"""The outlines of letters in the font that files carry, as closed lines of straight pieces.

Measured in heights of a capital, y up from the line the letters stand on. Curves are straightened so that no place is
more than TOLERANCE off.
"""

from __future__ import annotations

from functools import cache
from math import ceil, hypot, sqrt
from typing import Any

from fontTools.pens.basePen import BasePen
from fontTools.ttLib import TTFont

from drafting.drawing.font_file import font_files
from drafting.drawing.lettering_widths import CAPITAL
from drafting.records import dataclass

TOLERANCE = 0.001
"""In heights of a capital: five micrometres on letters of 5 mm."""

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
