"""Prints: pieces at true size on the paper of any home printer.

Takes a placed pattern and a Paper; gives the sheets, each a Drawing with what it shows of which piece. Pieces share
sheets as far as they fit; a larger one is spread over tiles that overlap. Each sheet carries rules to hold a real rule
against, since what a printer does to a page only the printed page can tell.
"""

from __future__ import annotations

from drafting.drawing.prints.papers import PAPERS, Paper, PaperFault, TooManyTiles, paper_called
from drafting.drawing.prints.parcels import Shown, can_carry, expect_few_tiles
from drafting.drawing.prints.sheets import PrintFacts, PrintSheet, print_sheets, times_needed

__all__ = [
    "PAPERS",
    "Paper",
    "PaperFault",
    "PrintFacts",
    "PrintSheet",
    "Shown",
    "TooManyTiles",
    "can_carry",
    "expect_few_tiles",
    "paper_called",
    "print_sheets",
    "times_needed",
]
