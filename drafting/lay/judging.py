"""What keeps an order from being laid, said of the pieces and the hides at their places."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drafting.geometry.path import Path, Ring
from drafting.lay.kinds import Kind
from drafting.lay.laying import unfit_kinds
from drafting.lay.sheets import BACKBONE, FIRM, POOR, Sheet
from drafting.lay.table import region_of
from drafting.model.pattern import Piece
from drafting.solve.amounts import mm
from drafting.solve.placed import PlacedPiece
from drafting.text.catalogue import lays as says
from drafting.text.messages import Messages
from drafting.text.source import Span


def judge_hide(piece: Piece, placed: PlacedPiece, sheet: Sheet, kinds: Sequence[Kind]) -> Messages:
    """What is wrong with a hide, for these kinds of part."""
    found = Messages()
    _judge_backbone(found, piece, placed, kinds)
    for guide in piece.guides:
        if guide.name.startswith((POOR, FIRM)) and isinstance(placed.guides.get(guide.name), Path):
            found.add(says.OPEN_ZONE, at=guide.span, zone=guide.name, hide=piece.name)
    zones = {kind.zone for kind in kinds}
    if all(region_of(sheet, zone).is_empty for zone in zones):
        found.add(says.NOTHING_SOUND, at=piece.span, hide=piece.name, margin=mm(sheet.margin))
    firm = next((kind for kind in kinds if kind.zone == "firm"), None)
    if firm is not None and sheet.firm is None:
        found.add(says.NO_FIRM_ZONE, at=piece.span, piece=firm.name, hide=piece.name)
    return found


def _judge_backbone(found: Messages, piece: Piece, placed: PlacedPiece, kinds: Sequence[Kind]) -> None:
    guide = piece.shape(BACKBONE)
    along = next((kind for kind in kinds if kind.grain is not None), None)
    if guide is not None and isinstance(placed.guides.get(BACKBONE), Ring):
        found.add(says.CLOSED_BACKBONE, at=guide.span, hide=piece.name)
    elif guide is None and along is not None:
        found.add(says.NO_BACKBONE, at=piece.span, hide=piece.name, piece=along.name)


def judge_room(
    kinds: Sequence[Kind], sheets: Sequence[Sheet], gap: float, places: Mapping[str, Span]
) -> Messages:
    """The pieces of which not even one goes on any sheet; `places` is where each kind is written."""
    found = Messages()
    for number in unfit_kinds(kinds, sheets, gap):
        kind = kinds[number]
        wide, high = kind.extent
        found.add(
            says.ROOMLESS_PIECE, at=places.get(kind.name), piece=kind.name, size=f"{mm(wide)} by {mm(high)}",
            sheets=sheets[0].kind,
        )  # fmt: skip
    return found
