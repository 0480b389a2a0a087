"""What is done along the lines of a piece, in numbers: what folds take, and what a placed feature keeps of each work.

Takes a feature's Work and a Reader; gives what the solver reads of it, and what a placed feature keeps of it. How
leather behaves is the Trade's to say.
"""

from __future__ import annotations

from drafting.geometry.maths import radians
from drafting.model.pattern import FoldWork, LineRef, Piece, ShapePart, SlitWork, StripWork
from drafting.solve.amounts import mm
from drafting.solve.lines import Unbuildable
from drafting.solve.placed import PlacedFold, PlacedSkive, PlacedSlit, PlacedWork
from drafting.solve.reading import Reader
from drafting.solve.slitting import cuts_of, slit_line
from drafting.solve.trade import Asked, Trade
from drafting.text.catalogue import shapes as says


def allowance_key(piece: Piece, shape: ShapePart) -> str:
    """The solver's key for what a fold takes: it hangs on no place, so that points may be placed by it."""
    return f"{LineRef(piece.name, shape.name).key}.allowance"


def fold_allowance(reader: Reader, trade: Trade, shape: ShapePart, piece: Piece, fold: FoldWork) -> float:
    """The flat length that a fold takes, in mm; that of leather of no thickness where nobody says how thick it is."""
    inside = reader.number(fold.inside)
    if inside < 0:
        raise Unbuildable(says.ROUND_LESS_THAN_NOTHING, fold.span, name=shape.name, amount=mm(inside))
    turn = radians(reader.number(fold.turn))
    thick = reader.number(fold.thick) if fold.thick is not None else 0.0
    neutral = reader.number(fold.neutral) if fold.neutral is not None else 0.0
    return trade.fold_allowance(turn, inside, thick, neutral, Asked(shape.name, piece.name, fold.span))


def placed_work(reader: Reader, shape: ShapePart, piece: Piece) -> PlacedWork | None:
    """What a placed feature keeps of its work."""
    match shape.work:
        case FoldWork(turn=turn, inside=inside, thick=thick):
            takes: float = reader.values[allowance_key(piece, shape)]
            known = thick is not None
            return PlacedFold(
                reader.number(turn),
                reader.number(inside),
                reader.number(thick) if thick is not None else None,
                takes if known else None,
            )
        case SlitWork():
            return PlacedSlit(slit_line(reader, shape, piece).whole, cuts_of(reader, shape, piece).bare_ends)
        case StripWork(down_to=down_to, thick=thick) as strip if down_to is not None:
            left, whole = reader.number(down_to), reader.number(thick) if thick is not None else None
            _expect_skived(shape, strip, left, whole)
            return PlacedSkive(left, whole)
    return None


def _expect_skived(shape: ShapePart, strip: StripWork, left: float, whole: float | None) -> None:
    """Skiving takes something away, and not more than there is."""
    if left < 0:
        raise Unbuildable(says.LESS_THAN_NOTHING_LEFT, strip.span, name=shape.name, left=mm(left))
    if whole is not None and left >= whole:
        raise Unbuildable(says.NOT_SKIVED, strip.span, name=shape.name, left=mm(left), thick=mm(whole))
