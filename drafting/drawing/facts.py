"""What title block and footer say, taken from the pattern."""

from __future__ import annotations

from drafting.drawing.amounts import Figures
from drafting.drawing.dressing import amount_words
from drafting.drawing.footer import FooterFacts
from drafting.drawing.lines import LineKind
from drafting.drawing.scales import scale_words
from drafting.drawing.title_block import TitleFacts
from drafting.solve.placed import Placed, PlacedPiece


def piece_facts(placed: Placed, piece: PlacedPiece, figures: Figures, paper: str) -> TitleFacts:
    names = list(placed.pieces)
    return TitleFacts(
        title=placed.title,
        subtitle=piece.name,
        document="Piece drawing, true size",
        number=f"{placed.stem}/{piece.name}",
        scale="1:1",
        units=figures.statement,
        size=placed.size or "",
        cut=f"{amount_words(piece)}{f' from {piece.stock}' if piece.stock else ''}",
        stock=stock_words(piece),
        edition=placed.edition or "",
        licence=placed.licence or "",
        author=placed.author or "",
        sheet=str(names.index(piece.name) + 2),
        paper=paper,
    )


def overview_facts(placed: Placed, figures: Figures, paper: str, scale: float) -> TitleFacts:
    count = sum(piece.count * (2 if piece.pair else 1) for piece in placed.pieces.values())
    return TitleFacts(
        title=placed.title,
        subtitle="all pieces",
        document="Overview",
        number=placed.stem,
        scale=scale_words(scale),
        units=figures.statement,
        size=placed.size or "",
        cut=f"{count} in all",
        stock="",
        edition=placed.edition or "",
        licence=placed.licence or "",
        author=placed.author or "",
        sheet="1",
        paper=paper,
    )


def stock_words(piece: PlacedPiece) -> str:
    """`body: vegetable-tanned shoulder`."""
    if piece.stock and piece.stock_note:
        return f"{piece.stock}: {piece.stock_note}"
    return piece.stock or ""


def footer_facts(
    placed: Placed, figures: Figures, kinds: tuple[LineKind, ...], remarks: tuple[str, ...], note: str = ""
) -> FooterFacts:
    """What the footer tells: units, the maker's notes, and what found no place on the drawing."""
    words: list[str] = []
    words += [note] if note else []
    words += placed.notes
    words += remarks
    return FooterFacts(kinds, f"{figures.statement}.", "in" in figures.units, tuple(words))
