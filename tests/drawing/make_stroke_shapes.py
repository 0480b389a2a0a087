"""Writes drafting/drawing/stroke_shapes.py from the fonts of Dr. A. V. Hershey.

Run it as `python tests/drawing/make_stroke_shapes.py` when the package of the fonts changes; test_stroke_letters.py
holds the table to it. The package itself takes a third of a second to unpack, so only its shapes are kept.
"""

from __future__ import annotations

from pathlib import Path

from HersheyFonts import HersheyFonts

TABLE = Path(__file__).parents[2] / "drafting" / "drawing" / "stroke_shapes.py"
BASE = 9
"""How far the line that the letters stand on lies below the middle that the font counts from, y downward."""
LATIN = "".join(chr(code) for code in range(0x21, 0x7F) if chr(code) not in "\"'-@[]^`{}~")
GREEK = dict(zip("ABCDEFGHIJKLMNOPQRSTUVWX", "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩ", strict=True))
SMALL_GREEK = dict(zip("abcdefghijklmnopqrstuvwx", "αβγδεζηθικλμνξοπρστυφχψω", strict=True))

OPENING = '''\
"""Letters made of single strokes; made by tests/drawing/make_stroke_shapes.py.

The Hershey Fonts were originally created by Dr. A. V. Hershey while working at the U. S. National Bureau of Standards.
The format of the font data that they were read from was originally created by James Hurt, Cognition, Inc. These are
the simplex Roman and Greek letters: how far each takes the line on, then its strokes, with x from its left, y up from
the line the letters stand on, and 21 to the top of a capital.
"""

from __future__ import annotations

HERSHEY_SHAPES: dict[str, str] = {
'''


def shapes() -> dict[str, str]:
    found = {" ": f"{glyphs_of('rowmans')[' '].char_width} | "}
    roman, greek = glyphs_of("rowmans"), glyphs_of("greeks")
    found |= {letter: shape_text(roman[letter]) for letter in LATIN}
    found["−"] = shape_text(roman["-"])
    found |= {
        letter: shape_text(greek[key]) for key, letter in {**GREEK, **SMALL_GREEK}.items() if letter != "Υ"
    }
    return found


def glyphs_of(name: str) -> dict[str, object]:
    fonts = HersheyFonts()
    fonts.load_default_font(name)
    return dict(fonts.all_glyphs)


def shape_text(glyph) -> str:
    strokes = [" ".join(f"{x - glyph.left_offset},{BASE - y}" for x, y in stroke) for stroke in glyph.strokes]
    return f"{glyph.char_width} | {'; '.join(strokes)}"


def table_text() -> str:
    lines = []
    for letter, shape in shapes().items():
        key = '"\\\\"' if letter == "\\" else f'"{letter}"'
        line = f'    {key}: "{shape}",'
        lines += [line] if len(line) <= 110 else [f"    {key}: (", *broken(shape), "    ),"]
    return OPENING + "\n".join([*lines, "}", ""])


def broken(shape: str) -> list[str]:
    """The shape over several lines, each as long as the layout allows."""
    lines, line = [], ""
    for word in shape.split(" "):
        if len(line) + len(word) + 1 > 96:
            lines.append(line)
            line = ""
        line += f"{word} "
    return [f'        "{part}"' for part in [*lines, line.rstrip(" ") if not line.endswith("| ") else line]]


if __name__ == "__main__":
    TABLE.write_text(table_text(), encoding="utf-8")
