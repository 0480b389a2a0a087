"""The papers of home printers, and what of a sheet a printer can reach.

A3 to A5 are of ISO 216, letter and legal of ANSI/ASME Y14.1 (8.5 x 11 in and 8.5 x 14 in, exact). ISO 216 lets a sheet
be 2 mm off, so true size is never judged by the edge of the paper.
"""

from __future__ import annotations

import re

from drafting.geometry.bounds import Bounds
from drafting.records import dataclass

INCH = 25.4
MARGIN = 8.0
"""What printers leave white at the edge: a quarter of an inch on the usual ones (common practice, no source)."""

RULES = 12.0
"""The strip for the rules, at the left and at the bottom."""

WORDS = 9.0
"""The strip for what the sheet says of itself, under the rules."""

LEAST_ROOM = 105.0
"""A rule of 4 in and its figures must find room both ways."""

LARGEST = 5000.0
"""mm; 14 400 points, the longest side of a PDF page (ISO 32000-1), are 5080 mm."""


class PaperFault(ValueError):
    """A paper that is not known or that nothing can be printed on; says why."""


class TooManyTiles(ValueError):
    """A piece that takes more tiles of a paper than one can find the way through."""

    def __init__(self, piece: str, tiles: int, paper: str, bounds: Bounds) -> None:
        """`tiles` of it are needed at least; `bounds` is how large the piece is."""
        self.piece, self.tiles, self.paper, self.bounds = piece, tiles, paper, bounds
        super().__init__(f"{piece} would take {tiles} tiles of {paper}")


@dataclass(frozen=True)
class Paper:
    name: str
    width: float
    height: float

    @property
    def called(self) -> str:
        """A name by which it is found again: its own, or its size."""
        return self.name if PAPERS.get(self.name) == self else f"{self.width!r}x{self.height!r}mm"

    @property
    def room(self) -> Bounds:
        """Where pieces may lie."""
        return Bounds(MARGIN + RULES, MARGIN + WORDS + RULES, self.width - MARGIN, self.height - MARGIN)


PAPERS: dict[str, Paper] = {
    paper.name: paper
    for paper in (
        Paper("a4", 210.0, 297.0),
        Paper("a3", 297.0, 420.0),
        Paper("a5", 148.0, 210.0),
        Paper("letter", 8.5 * INCH, 11 * INCH),
        Paper("legal", 8.5 * INCH, 14 * INCH),
    )
}

OWN_SIZE = re.compile(r"([0-9]*\.?[0-9]+)\s*(mm|cm|in)?\s*[x×]\s*([0-9]*\.?[0-9]+)\s*(mm|cm|in)?")
MM_PER = {"mm": 1.0, "cm": 10.0, "in": INCH}


def paper_called(name: str) -> Paper:
    """A paper by its name, or by its size such as `320x450` (mm) or `11inx17in`."""
    known = PAPERS.get(name.strip().lower())
    paper = known or _own_paper(name)
    room = paper.room
    if room.width < LEAST_ROOM or room.height < LEAST_ROOM:
        least = f"{LEAST_ROOM + 2 * MARGIN + RULES:g} mm by {LEAST_ROOM + 2 * MARGIN + RULES + WORDS:g} mm"
        raise PaperFault(f"margins and rules leave no room on it; the smallest paper is {least}")
    if max(paper.width, paper.height) > LARGEST:
        raise PaperFault(f"the longest side that a file of pages can have is {LARGEST:g} mm")
    return paper


def _own_paper(name: str) -> Paper:
    found = OWN_SIZE.fullmatch(name.strip().lower())
    if found is None:
        raise PaperFault("that is neither the name of a paper nor a size")
    wide, wide_unit, high, high_unit = found.groups()
    last = MM_PER[high_unit or wide_unit or "mm"]
    first = MM_PER[wide_unit] if wide_unit else last
    return Paper(name.strip(), float(wide) * first, float(high) * last)
