"""Proving cards: each in its place with its words and its code, every cut mark, both scales.

PDFium reads the file: the words are those that it finds in the box of a card, and a code is compared square by square.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from math import hypot
from unicodedata import normalize

import pypdfium2

from drafting.drawing.lines import TABLE
from drafting.drawing.marks import Ticks
from drafting.drawing.prints import PrintSheet
from drafting.drawing.roster.card_sheets import CardSheet, Laid
from drafting.geometry.bounds import Bounds
from drafting.output.letters import is_plain
from drafting.proof.disagreement import SAME_LENGTH, Disagreement
from drafting.proof.expected import Box
from drafting.proof.pdf import PageProof
from drafting.proof.read_pdf import MM, ReadPage, read_pdf


def check_cards(data: bytes, sheets: Sequence[CardSheet]) -> list[Disagreement]:
    """What differs between the file and the cards; empty when all is true."""
    try:
        pages = read_pdf(data)
    except ValueError as fault:
        return [Disagreement("the file", "its form", "a PDF", str(fault))]
    if len(pages) != len(sheets):
        return [Disagreement("the file", "the count of its sheets", str(len(sheets)), str(len(pages)))]
    return [
        found
        for number, (page, sheet) in enumerate(zip(pages, sheets, strict=True), start=1)
        for found in _page(number, page, sheet)
    ]


def _page(number: int, page: ReadPage, sheet: CardSheet) -> Iterator[Disagreement]:
    proof = PageProof(number, page, PrintSheet(sheet.drawing, ()), {}, 1.0)
    yield from proof.paper()
    where = f"sheet {number}"
    yield from _cut_marks(where, page, sheet)
    text = page.page.get_textpage()
    for laid in sheet.laid:
        yield from _words(f"{where}, the card of line {laid.person.row.line}", page, text, laid)
    yield from _codes(where, page, sheet)


def _cut_marks(where: str, page: ReadPage, sheet: CardSheet) -> Iterator[Disagreement]:
    boxes = {_rounded(line.box) for line in page.lines if abs(line.width - TABLE.width) < SAME_LENGTH}
    for mark in (stroke for group in sheet.drawing.find("cut-marks") for stroke in group.strokes):
        bounds = mark.way.bounds
        box = (bounds.min_x, bounds.min_y, bounds.max_x, bounds.max_y)
        if not any(_is_near(box, other) for other in boxes):
            yield Disagreement(where, f"a cut mark at ({box[0]:.1f}, {box[1]:.1f})", "there", "not there")


def _words(where: str, page: ReadPage, text: pypdfium2.PdfTextPage, laid: Laid) -> Iterator[Disagreement]:
    """Letter by letter those of Arimo; of words in another font a reader may give the letters joined, in another order,
    or only their shapes, so that ink must do."""
    box = laid.box
    found = text.get_text_bounded(box.min_x / MM, box.min_y / MM, box.max_x / MM, box.max_y / MM)
    lines = [line for line, _ in laid.card.lines()]
    plain = [line for line in lines if all(map(is_plain, line))]
    wanted, have = _letters(" ".join(plain)), _letters(found)
    if wanted - have or (len(plain) == len(lines) and wanted != have):
        yield Disagreement(where, "what is written on it", " ".join(lines), " ".join(found.split()))
    if len(plain) < len(lines):
        for lettering in laid.group().letterings:
            if not all(map(is_plain, lettering.text)) and not _is_inked(page, lettering.bounds):
                yield Disagreement(where, "what is written on it", lettering.text, "nothing")


def _is_inked(page: ReadPage, box: Bounds) -> bool:
    boxes = (*page.words, *(line.box for line in page.lines if line.is_filled))
    return any(box.overlaps(Bounds(*one)) for one in boxes)


def _letters(text: str) -> Counter[str]:
    """How often each letter is there."""
    return Counter("".join(normalize("NFKC", text).split()))


def _codes(where: str, page: ReadPage, sheet: CardSheet) -> Iterator[Disagreement]:
    """The black squares of all codes, run by run, in the order of the cards."""
    drawn = [
        ticks for group in sheet.drawing.find("qr") for ticks in group.flecks if isinstance(ticks, Ticks)
    ]
    wanted = [(ticks.kind.width, ends) for ticks in drawn for ends in ticks.lines]
    widths = {round(ticks.kind.width, 4) for ticks in drawn}
    found = [line for line in page.lines if round(line.width, 4) in widths and not line.is_filled]
    if len(found) != len(wanted):
        yield Disagreement(where, "the squares of its codes", str(len(wanted)), str(len(found)))
        return
    for (width, ends), line in zip(wanted, found, strict=True):
        off = max(hypot(at.x - x, at.y - y) for at, (x, y) in zip(ends, line.ends, strict=True))
        if max(off, abs(width - line.width)) > SAME_LENGTH:
            yield Disagreement(where, "the squares of its codes", "where they were made", f"{off:.3f} mm off")
            return


def _rounded(box: Box) -> Box:
    left, low, right, high = box
    return round(left, 4), round(low, 4), round(right, 4), round(high, 4)


def _is_near(first: Box, second: Box) -> bool:
    return all(abs(a - b) <= SAME_LENGTH for a, b in zip(first, second, strict=True))
