"""The lay: where the parts of many copies come to lie on panels, rolls and hides.

Takes placed pieces and the sheets they are cut from; gives a Lay, in which each part has its sheet, its turn and its
place. `verify` judges a lay apart from the search that found it. Knows no file, no text and no clock but the one that
it is told to stop by.
"""

from __future__ import annotations

from drafting.lay.kinds import Freedom, Kind, kinds_of
from drafting.lay.laying import Limits, lay_out
from drafting.lay.lays import LaidSheet, Lay, Spot
from drafting.lay.sheets import Sheet, hide, panel, roll
from drafting.lay.verify import Violation, verify

__all__ = [
    "Freedom",
    "Kind",
    "LaidSheet",
    "Lay",
    "Limits",
    "Sheet",
    "Spot",
    "Violation",
    "hide",
    "kinds_of",
    "lay_out",
    "panel",
    "roll",
    "verify",
]
