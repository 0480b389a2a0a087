"""Rosters: one set a row of a table of people. Words engraved on stamps, and cards for what the item holds.

Takes a bound pattern, a way to place it in a size, and a Table; gives people with letters fitted, and from each a sheet
for engraving and a card. Knows no file; every fault is told at its row.
"""

from __future__ import annotations

from drafting.drawing.roster.asked import wrong_wishes
from drafting.drawing.roster.card_sheets import CardSheet, NoRoom, card_sheets
from drafting.drawing.roster.engraving import blanks_of, engraving
from drafting.drawing.roster.people import Person, Roster, roster_of
from drafting.drawing.roster.wishes import Wishes, wishes_of

__all__ = [
    "CardSheet",
    "NoRoom",
    "Person",
    "Roster",
    "Wishes",
    "blanks_of",
    "card_sheets",
    "engraving",
    "roster_of",
    "wishes_of",
    "wrong_wishes",
]
