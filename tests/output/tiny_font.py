"""Fonts of a few letters, made as they are needed: each letter is a box, half as wide as the font is large."""

from __future__ import annotations

from pathlib import Path

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.pens.ttGlyphPen import TTGlyphPen

UNITS = 1000


def make_font(path: Path, letters: str, *, postscript: bool) -> Path:
    """A font file with outlines of PostScript, which ReportLab does not carry, or with those it does."""
    builder = FontBuilder(UNITS, isTTF=not postscript)
    names = [".notdef", *(f"u{ord(letter):x}" for letter in dict.fromkeys(letters))]
    builder.setupGlyphOrder(names)
    builder.setupCharacterMap({ord(letter): f"u{ord(letter):x}" for letter in letters})
    pens = {name: T2CharStringPen(500, None) if postscript else TTGlyphPen(None) for name in names}
    for pen in pens.values():
        draw_box(pen)
    if postscript:
        drawn = {name: pen.getCharString() for name, pen in pens.items()}
        builder.setupCFF("Tiny", {}, drawn, {})
    else:
        builder.setupGlyf({name: pen.glyph() for name, pen in pens.items()})
    builder.setupHorizontalMetrics({name: (500, 50) for name in names})
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupNameTable({"familyName": "Tiny", "styleName": "Regular", "psName": path.stem})
    builder.setupOS2()
    builder.setupPost(keepGlyphNames=False)
    builder.save(path)
    return path


def draw_box(pen) -> None:  # type: ignore[no-untyped-def]
    pen.moveTo((50, 0))
    for corner in ((50, 700), (450, 700), (450, 0)):
        pen.lineTo(corner)
    pen.closePath()
