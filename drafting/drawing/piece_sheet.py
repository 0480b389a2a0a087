"""The sheet of one piece: true size, dimensioned, to print, check with a rule and cut by."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.drawing.amounts import Figures
from drafting.drawing.assembly import Base, assemble, make_base
from drafting.drawing.dressing import Dressed, dress_fully
from drafting.drawing.facts import footer_facts, piece_facts
from drafting.drawing.marks import Drawing, kinds_in
from drafting.drawing.seams import seam_letters
from drafting.drawing.sheets import SHEETS_BY_AREA, Sheet, own_sheet
from drafting.drawing.work_words import seam_remarks
from drafting.geometry.point import Vector
from drafting.solve.placed import Placed


def piece_sheet(placed: Placed, name: str, *, draft: bool = False, remarks: Sequence[str] = ()) -> Drawing:
    """The drawing of the piece called `name`, on the smallest sheet that holds it at 1:1.

    `draft` says on it that the pattern was not checked; `remarks` stand among its notes.
    """
    piece = placed.pieces[name]
    figures = Figures.shown_by(placed.show)
    dressed = dress_fully(piece, figures, seam_letters(placed))
    kinds = kinds_in([dressed.group])
    note = f"{piece.name}: {piece.note}" if piece.note else ""
    told = (*seam_remarks(piece, figures), *dressed.remarks, *remarks)
    base = make_base(footer_facts(placed, figures, kinds, told, note), draft)
    sheet = _sheet_for(dressed, base)
    facts = piece_facts(placed, piece, figures, sheet.name)
    view = dressed.group.moved(_move_to_middle(dressed, base, sheet))
    note = f"True-size drawing of {name}, {sheet.name}. Lengths in mm, y downward, one user unit is 1 mm."
    return assemble(sheet, base, facts, [view], note, 1.0)


def _sheet_for(dressed: Dressed, base: Base) -> Sheet:
    width, height = dressed.bounds.width, dressed.bounds.height
    for sheet in (*SHEETS_BY_AREA, own_sheet(*base.size_for(width, height))):
        room = base.room_in(sheet)
        if room.width >= width - 1e-6 and room.height >= height - 1e-6:
            return sheet
    raise AssertionError("a sheet of its own size holds any piece")


def _move_to_middle(dressed: Dressed, base: Base, sheet: Sheet) -> Vector:
    """In whole millimetres, so that the file keeps the round numbers of the pattern."""
    move = base.room_in(sheet).center - dressed.bounds.center
    return Vector(round(move.x), round(move.y))
