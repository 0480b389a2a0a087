"""An SVG as a picture: 254 dots an inch, which is ten to the millimetre, unless asked otherwise.

The letters come from the Arimo font of a package, so pictures look alike on every machine; scripts that Arimo lacks
are looked for among the machine's own fonts.
"""

from __future__ import annotations

import zlib

from drafting.drawing.font_file import font_files

DOTS_AN_INCH = 254.0
END = b"\0\0\0\0IEND\xaeB`\x82"
SOFTWARE = b"Software\0awlwright"
ARIMO_WORDS = {"⌀": "Ø"}
"""Signs that Arimo lacks, and what looks the same in it."""


def to_png(svg: str, dpi: float = DOTS_AN_INCH) -> bytes:
    """The bytes of a PNG file."""
    import resvg_py

    for missing, alike in ARIMO_WORDS.items():
        svg = svg.replace(missing, alike)
    png = bytes(
        resvg_py.svg_to_bytes(
            svg_string=svg, dpi=dpi, background="#ffffff", font_files=font_files(), font_family="Arimo",
            sans_serif_family="Arimo", skip_system_fonts=bool(font_files()) and not needs_more_fonts(svg),
        )
    )  # fmt: skip
    if not png.endswith(END):
        raise AssertionError("a PNG ends with its IEND chunk")
    return png.removesuffix(END) + text_chunk(SOFTWARE) + END


def text_chunk(text: bytes) -> bytes:
    """A keyword, a nought and what it says, as a chunk of a PNG (W3C PNG, 11.3.4.3)."""
    body = b"tEXt" + text
    return (len(text)).to_bytes(4, "big") + body + zlib.crc32(body).to_bytes(4, "big")


def is_our_picture(data: bytes) -> bool:
    """Whether a picture was made here: it says so before its end."""
    return SOFTWARE in data[-200:]


def needs_more_fonts(svg: str) -> bool:
    """True when some letter is not in Arimo; reading the machine's fonts takes time and is left out otherwise."""
    from drafting.drawing.lettering import has_known_width

    return not all(has_known_width(letter) or letter in "\n\t" for letter in set(svg))
