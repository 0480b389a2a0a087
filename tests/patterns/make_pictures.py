"""Make the pictures of the starters and the blocks afresh, those that are no longer of their drawings:
`python -m tests.patterns.make_pictures`.

One overview for each starter and the front of the badge holder, all in the first size written, and one of the example
that README gives of each block. A picture carries the
digest of the drawing it was made from, by which a test tells whether it is still that of its pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

import drafting
from drafting.output.png import END, text_chunk, to_png
from drafting.text.source import Source
from tests.patterns.starters import PATTERNS, STARTERS, starter_path

PICTURES = PATTERNS / "pictures"
LARGEST = 150_000
"""Bytes of a picture, at most."""
WIDTHS = (1440, 1360, 1280, 1200)
"""Dots from left to right, at most: the first of these with which the picture is no larger than LARGEST."""
FINEST = 110.0
"""Dots an inch, at most: an A4 sheet is then some 900 dots wide."""
MM_PER_INCH = 25.4
KEYWORD = b"Drawn from\0"


def drawings() -> Iterator[tuple[Path, str, float]]:
    """Each picture's file, the drawing that it shows, as SVG, and the drawing's width in mm."""
    for name in STARTERS:
        placed = drafting.load(starter_path(name)).place()
        pieces = (None, "front") if name == "badge-holder" else (None,)
        for piece in pieces:
            sheet = placed.drawing(piece)
            stem = name if piece is None else f"{name}-{piece}"
            yield PICTURES / f"{stem}.png", sheet.to_svg(), sheet.drawing.width
    for name, text in block_examples().items():
        sheet = drafting.read(Source(f"{name}.draft", text), folder=PATTERNS).place().drawing()
        yield PICTURES / f"block-{name}.png", sheet.to_svg(), sheet.drawing.width


def block_examples() -> dict[str, str]:
    """The pattern that README makes of each block, by the block's name."""
    readme = (PATTERNS / "README.md").read_text(encoding="utf-8")
    found = re.findall(
        r"^### `blocks/([\w-]+)\.draft`\n.*?^```draft\n(.*?)^```$", readme, re.MULTILINE | re.DOTALL
    )
    return dict(found)


def picture(svg: str, width: float) -> bytes:
    """A PNG small enough for a page, with the digest of its drawing in a text chunk before its end."""
    tried = (to_png(svg, min(FINEST, dots / width * MM_PER_INCH)) for dots in WIDTHS)
    png = next(png for png in tried if len(png) < LARGEST - 200)
    return png.removesuffix(END) + text_chunk(KEYWORD + digest(svg)) + END


def digest(svg: str) -> bytes:
    return sha256(svg.encode()).hexdigest().encode()


def drawn_from(png: bytes) -> bytes:
    """The digest that a picture carries; nothing if it has none."""
    _, _, rest = png.partition(b"tEXt" + KEYWORD)
    return rest[:64]


def main() -> None:
    PICTURES.mkdir(exist_ok=True)
    for path, svg, width in drawings():
        if path.exists() and drawn_from(path.read_bytes()) == digest(svg):
            continue
        path.write_bytes(picture(svg, width))
        print(path.relative_to(PATTERNS.parent), path.stat().st_size)


if __name__ == "__main__":
    main()
