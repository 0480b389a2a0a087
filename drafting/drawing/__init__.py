"""The drawing room: takes pieces that have numbers, gives a sheet as data.

`overview` shows all pieces of a pattern, `piece_sheet` one piece at true size. A Drawing holds lines by their ISO 128
kind, words by their height and groups by the maker's names; it knows no file format and decides all that is seen.
"""

from __future__ import annotations

from drafting.drawing.collisions import Collision, collisions
from drafting.drawing.marks import Drawing
from drafting.drawing.nested import MOST_DRAWN, nested
from drafting.drawing.overview import overview
from drafting.drawing.piece_sheet import piece_sheet

__all__ = ["MOST_DRAWN", "Collision", "Drawing", "collisions", "nested", "overview", "piece_sheet"]
