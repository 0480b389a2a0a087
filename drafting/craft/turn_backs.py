"""Which folds turn the end of a piece back on itself.

A fold right over, by half a turn or more, is turned back where a stitch line is the mirror of another over it, or where
hardware hangs on its piece.
"""

from __future__ import annotations

from collections.abc import Iterator

from drafting.craft.rules.shapes import lying_of
from drafting.geometry.line import Line
from drafting.model.pattern import LineRef, MirrorForm, Piece
from drafting.solve.placed import Placed, PlacedFeature, PlacedFold, PlacedHardware, PlacedPiece

STRAP = 2.0
"""A piece so many times as long as wide goes through what hangs on it; a broader one only carries it (this room's own
figure)."""
HALF_TURN = 180.0


def base_name(feature: PlacedFeature) -> str:
    """The name as it was drafted, of a twin too."""
    return feature.name.rstrip("'")


def pieces_of(hardware: PlacedHardware) -> list[str]:
    return list(dict.fromkeys(name.partition(".")[0] for name in hardware.on))


def is_strap(piece: PlacedPiece) -> bool:
    lying = lying_of(piece.outline)
    return lying.long >= STRAP * lying.wide


def folded_pairs(piece: Piece) -> Iterator[tuple[str, str, str]]:
    """Stitch lines that meet after folding, and the fold."""
    for part in piece.features:
        form = part.form
        if isinstance(form, MirrorForm) and isinstance(form.over, LineRef):
            yield part.name, form.line.name, form.over.name


def sewn_over(piece: Piece, fold: PlacedFeature) -> set[str]:
    """The stitch lines that hold a fold down, on both its sides."""
    pairs = folded_pairs(piece)
    return {name for under, upper, over in pairs if over == base_name(fold) for name in (under, upper)}


def hangs_on(placed: Placed, piece: PlacedPiece) -> bool:
    return any(piece.name in pieces_of(hardware) for hardware in placed.item.hardware)


def is_right_over(fold: PlacedFeature) -> bool:
    return isinstance(fold.work, PlacedFold) and fold.work.turn >= HALF_TURN - 1e-9 and bool(fold.paths)


def folded_flat(placed: Placed, piece: PlacedPiece, bound: Piece) -> Iterator[Line]:
    """The lines over which the end of a strap comes to lie on the strap, and is sewn through wherever it is sewn there.

    Where stitch lines are mirrored over a fold the maker says which go through both layers: others may be sewn before
    it is turned. Where none are, those that lie over the end of a strap that hardware hangs in are what holds it.
    """
    if hangs_on(placed, piece) and is_strap(piece):
        for fold in piece.features:
            if is_right_over(fold) and not sewn_over(bound, fold):
                yield from (leg for path in fold.paths for leg in path.legs if isinstance(leg, Line))
