"""The stock of a piece, and whether it says how thick it is.

Folds, turned edges and skived strips reckon with the leather's thickness. Where nobody says it, that is a message: no
thickness is ever taken for granted.
"""

from __future__ import annotations

from drafting.model.expressions import Bound, Value
from drafting.model.references import Binding
from drafting.model.scope import PieceText
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.source import Span


def thickness_of(binding: Binding, piece: PieceText) -> Bound | None:
    """How thick the piece's stock is; None where that is not said."""
    stock = _stock(binding, piece)
    is_said = stock is not None and any(amount.word == "thick" for amount in stock.amounts)
    return Value(f"{stock.name.text}.thick") if stock and is_said else None


def neutral_of(binding: Binding, piece: PieceText) -> Bound | None:
    """The part of the thickness that lies inside the line which keeps its length in a bend."""
    stock = _stock(binding, piece)
    return Value(f"{stock.name.text}.neutral") if stock else None


def expect_thick(binding: Binding, piece: PieceText, name: str, at: Span) -> bool:
    """Whether the piece's stock says how thick it is; a message if not. Of a faulty stock nothing more is said."""
    if thickness_of(binding, piece) is not None:
        return True
    stock = _stock(binding, piece)
    if stock is not None:
        silent = f"`{stock.name.text}` does not say"
        mend = f"Say it: `stock {stock.name.text}: {stock.material}; 1.8 mm thick`."
    elif piece.cut is None:
        silent = f"`{piece.name}` does not say what it is cut from"
        mend = "Add `cut 1 from body`, and `stock body: leather; 1.8 mm thick`."
    else:
        binding.quiet.append(at)
        return False
    binding.messages.add(says.NOT_HOW_THICK, at=at, name=name, silent=silent, mend=mend)
    return False


def _stock(binding: Binding, piece: PieceText) -> tree.Stock | None:
    symbol = binding.scope.names.get(piece.cut.stock.text) if piece.cut else None
    statement = symbol.statement if symbol else None
    return statement if isinstance(statement, tree.Stock) else None
