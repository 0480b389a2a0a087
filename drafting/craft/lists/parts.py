"""Placed pieces -> the lines of a cutting list.

A part takes the whole ring it is cut by, turned edges included, for a window cut out of it is too small to be of use;
it weighs what is left of it. Leather that is skived away is neither counted off the area nor off the weight.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import pi

from drafting.craft.rules.shapes import lying_of
from drafting.model.pattern import Piece
from drafting.records import dataclass
from drafting.solve.placed import Placed, PlacedFeature, PlacedPiece

STRAP = 5.0
"""A piece so many times as long as it is wide is cut as a strap (this room's own figure) ..."""
NAMED_STRAP = 2.0
"""... and one that hardware goes on, or that goes through a slot, when it is so many times as long (the same)."""
PAIR = 2


@dataclass(frozen=True)
class Part:
    """One piece of a pattern. Lengths are mm, areas mm²; `in_copy` of them make one item.

    `width` and `height` are those of the box round it as it lies, `area` is what it takes out of the stock and `left`
    what remains of that when all openings and holes are out of it.
    """

    piece: str
    note: str | None
    stock: str | None
    in_copy: int
    pair: bool
    width: float
    height: float
    area: float
    left: float
    strap: tuple[float, float] | None
    """How long and how wide it is, where it is a strap."""
    glue: float
    """The area of its glue bands."""


def parts_of(placed: Placed, straps: frozenset[str] = frozenset()) -> tuple[Part, ...]:
    """The parts of one item; `straps` are pieces that the pattern itself passes through slots."""
    named = {on.partition(".")[0] for hardware in placed.item.hardware for on in hardware.on} | straps
    return tuple(_part(piece, piece.name in named) for piece in placed.pieces.values())


def in_copy(piece: PlacedPiece | Piece) -> int:
    """How many of it make one item: a pair is two."""
    return piece.count * (PAIR if piece.pair else 1)


def _part(piece: PlacedPiece, is_named: bool) -> Part:
    bounds, area = piece.cutting.bounds, piece.cutting.area
    lying = lying_of(piece.cutting)
    is_strap = lying.long >= (NAMED_STRAP if is_named else STRAP) * lying.wide
    return Part(
        piece.name,
        piece.note,
        piece.stock,
        in_copy(piece),
        piece.pair,
        bounds.width,
        bounds.height,
        area,
        area - sum(_taken_out(piece)),
        (lying.long, lying.wide) if is_strap else None,
        sum(ring.area for feature in piece.features if feature.kind == "glue" for ring in feature.rings),
    )


def _taken_out(piece: PlacedPiece) -> Iterator[float]:
    """The area of each window, slot and hole."""
    for feature in piece.features:
        if feature.is_removed:
            yield from _areas(feature)


def _areas(feature: PlacedFeature) -> Iterator[float]:
    yield from (ring.area for ring in feature.rings)
    yield from (pi / 4 * hole.across**2 for hole in feature.holes)
