"""The stock of a piece, and whether it says how thick it is.

Folds, turned edges and skived strips reckon with the leather's thickness. Where nobody says it, that is a message: no
thickness is ever taken for granted.
"""

from __future__ import annotations

from drafting.model.expressions import Bound, Value
from drafting.model.references import Binding
from drafting.model.scope import PieceText, Symbol
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.source import Span


def thickness_of(binding: Binding, piece: PieceText) -> Bound | None:
    """How thick the piece's stock is; None where that is not said."""
    symbol = stock_of(binding, piece)
    stock = symbol.statement if symbol else None
    is_said = isinstance(stock, tree.Stock) and any(amount.word == "thick" for amount in stock.amounts)
    return Value(f"{symbol.prefix}{symbol.name}.thick") if symbol and is_said else None


def neutral_of(binding: Binding, piece: PieceText) -> Bound | None:
    """The part of the thickness that lies inside the line which keeps its length in a bend."""
    symbol = stock_of(binding, piece)
    return Value(f"{symbol.prefix}{symbol.name}.neutral") if symbol else None


def expect_thick(binding: Binding, piece: PieceText, name: str, at: Span) -> bool:
    """Whether the piece's stock says how thick it is; a message if not. Of a faulty stock nothing more is said, and a
    block may leave its stock to its pieces."""
    if thickness_of(binding, piece) is not None or (piece.is_block and piece.cut is None):
        return True
    symbol = stock_of(binding, piece)
    stock = symbol.statement if symbol else None
    if isinstance(stock, tree.Stock):
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


def stock_of(binding: Binding, piece: PieceText) -> Symbol | None:
    """The stock that a piece is cut from, of its own file or of one it uses; None where there is none."""
    if piece.cut is None:
        return None
    ref = piece.cut.stock
    symbol = binding.names(ref.span).get(ref.text) if len(ref.parts) == 1 else binding.brought(ref)
    return symbol if symbol and symbol.kind == "stock" and len(ref.parts) <= 2 else None
