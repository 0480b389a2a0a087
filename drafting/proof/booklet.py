"""Proving a booklet: every picture shows its pieces in their shape, every step is there, nothing lies off the paper.

A picture is read with another library than wrote it: the cutting line of each piece must be in it, as long and as large
as drafted, at the scale of the picture.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from html.parser import HTMLParser
from io import StringIO

import svgelements

from drafting.drawing.booklet import Booklet, Picture, Step
from drafting.proof.disagreement import SAME_LENGTH, Disagreement
from drafting.proof.expected import Measures
from drafting.proof.read_pdf import read_pdf, seen_in
from drafting.proof.svg_curves import measure_shape
from drafting.solve.placed import Placed

SVG = re.compile(r"<svg\b.*?</svg>", re.DOTALL)
SIZES = re.compile(r'\s(?:width|height|viewBox)="[^"]*"')


def check_pages(data: bytes, placed: Placed, booklet: Booklet) -> list[Disagreement]:
    """What differs in a PDF; empty when all is true."""
    try:
        pages = read_pdf(data)
    except ValueError as fault:
        return [Disagreement("the file", "its form", "a PDF", str(fault))]
    lines = [line.measures for page in pages for line in page.lines if not line.is_filled]
    beyond = [
        Disagreement(
            f"page {number}", "what lies on it", "within the paper", f"at ({box[0]:.1f}, {box[1]:.1f})"
        )
        for number, page in enumerate(pages, start=1)
        for box in [*page.words, *(seen_in(line.box, line.window) for line in page.lines)]
        if min(box[:2]) < 0 or box[2] > page.width or box[3] > page.height
    ]
    return [*beyond, *_outlines(placed, booklet.pictures, [lines] * len(list(booklet.pictures)))]


def check_page(data: bytes, placed: Placed, booklet: Booklet) -> list[Disagreement]:
    """What differs in an HTML page; empty when all is true."""
    text = data.decode("utf-8", errors="replace")
    drawn = [_lines_of(found[0]) for found in SVG.finditer(text)]
    pictures = list(booklet.pictures)
    if len(drawn) != len(pictures):
        return [Disagreement("the page", "the count of its pictures", str(len(pictures)), str(len(drawn)))]
    return [*_steps(text, booklet), *_outlines(placed, pictures, drawn)]


def _lines_of(svg: str) -> list[Measures]:
    opening = re.match(r"<svg\b[^>]*>", svg)
    assert opening is not None
    bare = SIZES.sub("", opening[0]) + svg[opening.end() :]
    parsed = svgelements.SVG.parse(StringIO(bare), reify=True)
    shapes = [shape for shape in parsed.elements() if isinstance(shape, svgelements.Shape)]
    return [
        measure_shape(svgelements.Path(shape).reify())
        for shape in shapes
        if shape.values.get("attributes", {}).get("class", "") in ("cut", "hatch")
    ]


def _outlines(
    placed: Placed, pictures: Iterable[Picture], drawn: Sequence[list[Measures]]
) -> Iterator[Disagreement]:
    """Each piece's cutting line in each picture, whether it stands out there or not; a line serves for one of them."""
    for number, (picture, lines) in enumerate(zip(pictures, drawn, strict=True), start=1):
        for piece in placed.pieces.values():
            ring = piece.cutting
            length, area = ring.length * picture.scale, ring.area * picture.scale**2
            found = next((n for n, line in enumerate(lines) if _is_like(line, length, area)), None)
            if found is not None:
                del lines[found]
            else:
                yield Disagreement(f"picture {number}", f"the outline of {piece.name}", "drawn", "missing")


def _is_like(line: Measures, length: float, area: float) -> bool:
    if line.area is None or abs(line.length - length) > SAME_LENGTH:
        return False
    return abs(line.area - area) <= SAME_LENGTH * length


class _Reader(HTMLParser):
    """The words of a page, less what is inside its pictures."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def _steps(text: str, booklet: Booklet) -> Iterator[Disagreement]:
    reader = _Reader()
    reader.feed(text)
    for step in (part for part in booklet.parts if isinstance(part, Step)):
        if step.text not in reader.words:
            yield Disagreement("the page", f"step {step.number}", "told", "missing")
