"""Writes drafting/drawing/lettering_widths.py from the Arimo font.

Run it as `python tests/drawing/make_lettering_widths.py` when the font's package changes; test_lettering.py holds the
table to the font.
"""

from __future__ import annotations

import unicodedata
from collections import defaultdict
from pathlib import Path

import fontpkg_arimo
from fontTools.ttLib import TTFont

FONT = Path(fontpkg_arimo.ROOT) / "files" / "Arimo[wght].ttf"
TABLE = Path(__file__).parents[2] / "drafting" / "drawing" / "lettering_widths.py"
BLOCKS = (
    (0x20, 0x250), (0x2B0, 0x300), (0x370, 0x530), (0x5D0, 0x5F5), (0x1E00, 0x2000), (0x2010, 0x2028),
    (0x2030, 0x205F), (0x2070, 0x20C0), (0x2100, 0x2215),
)  # fmt: skip

OPENING = '''\
"""How wide each letter of Arimo is, in font units; made by tests/drawing/make_lettering_widths.py.

Arimo is licensed under the SIL Open Font License 1.1. These are its measures, not its letters.
"""

from __future__ import annotations

'''


def read_widths() -> tuple[int, int, dict[int, str]]:
    """Units of the em square, height of a capital, and the letters of each width."""
    font = TTFont(FONT)
    names, advances = font.getBestCmap(), font["hmtx"]
    letters: dict[int, list[str]] = defaultdict(list)
    for low, high in BLOCKS:
        for code in range(low, high):
            if (
                code in names and unicodedata.category(chr(code)) not in ("Cc", "Cf", "Zs", "Mn")
            ) or code == 0x20:
                letters[advances[names[code]][0]].append(chr(code))
    widths = {width: "".join(letters[width]) for width in sorted(letters)}
    return font["head"].unitsPerEm, font["OS/2"].sCapHeight, widths


def table_text() -> str:
    em, capital, widths = read_widths()
    lines = [f"EM = {em}", f"CAPITAL = {capital}", "WIDTHS: dict[int, str] = {"]
    for width, letters in widths.items():
        parts = [letters[start : start + 60] for start in range(0, len(letters), 60)]
        if len(parts) == 1:
            lines.append(f"    {width}: {quoted(parts[0])},")
        else:
            lines += [f"    {width}: (", *(f"        {quoted(part)}" for part in parts), "    ),"]
    return OPENING + "\n".join([*lines, "}", ""])


def quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f"'{text}'" if '"' in text and "'" not in text and "\\" not in text else f'"{escaped}"'


if __name__ == "__main__":
    TABLE.write_text(table_text(), encoding="utf-8")
