"""Paper: the sizes of ISO 216, the frame of ISO 5457, and the sheet that something fits on.

A4 stands upright and the larger sizes lie, so that a title block 180 mm wide always fits. What is larger than A0
gets a sheet of its own size.
"""

from __future__ import annotations

from math import ceil

from drafting.geometry.bounds import Bounds
from drafting.records import dataclass

LEFT_MARGIN = 20.0
"""Room to file the sheet; the other margins are EDGE_MARGIN."""
EDGE_MARGIN = 10.0
OWN_SIZE_STEP = 10.0


@dataclass(frozen=True)
class Sheet:
    name: str
    width: float
    height: float

    @property
    def frame(self) -> Bounds:
        """The drawing space within its margins."""
        return Bounds(LEFT_MARGIN, EDGE_MARGIN, self.width - EDGE_MARGIN, self.height - EDGE_MARGIN)


SHEETS: tuple[Sheet, ...] = (
    Sheet("A4", 210, 297),
    Sheet("A3", 420, 297),
    Sheet("A2", 594, 420),
    Sheet("A1", 841, 594),
    Sheet("A0", 1189, 841),
)


LONG_SHEETS: tuple[Sheet, ...] = (
    Sheet("A4×3", 630, 297),
    Sheet("A4×4", 841, 297),
    Sheet("A4×5", 1051, 297),
    Sheet("A3×3", 891, 420),
    Sheet("A3×4", 1189, 420),
)
"""Elongated sheets of ISO 5457: a strap on A1 would waste nine tenths of the paper."""


SHEETS_BY_AREA = tuple(sorted((*SHEETS, *LONG_SHEETS), key=lambda sheet: sheet.width * sheet.height))
"""All standard sheets, least paper first."""


HANDY_SHEETS = SHEETS[:2]
"""What most printers take; an overview is sooner reduced than put on larger paper."""


def own_sheet(width: float, height: float) -> Sheet:
    """A sheet whose frame just holds a box, in whole centimetres and never smaller than A4."""
    wide = _rounded_up(max(width + LEFT_MARGIN + EDGE_MARGIN, SHEETS[0].width))
    high = _rounded_up(max(height + 2 * EDGE_MARGIN, SHEETS[0].width))
    return Sheet(f"{wide:.0f} × {high:.0f} mm", wide, high)


def _rounded_up(length: float) -> float:
    return ceil(round(length / OWN_SIZE_STEP, 6)) * OWN_SIZE_STEP
