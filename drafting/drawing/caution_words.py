"""The cautions that an overview carries, asked for by what is written of the item, its stocks and its work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from drafting.craft.cautions import cautions_for
from drafting.craft.item import Item, PlacedPart, Stock
from drafting.solve.placed import Placed, PlacedFeature, PlacedPiece

TOLD_ON_EVERY_SHEET = ("H05",)
"""That blades are sharp stands in the notes of every sheet."""
WORK_WORDS = {"skive": "skived", "glue": "glued"}


def caution_remarks(placed: Placed) -> tuple[str, ...]:
    """A paragraph for each caution."""
    asked = cautions_for(_seen(placed))
    return tuple(f"Caution: {one.text}" for one in asked if one.code not in TOLD_ON_EVERY_SHEET)


LASER = ("H01", "H02", "H50")
BLADE = ("H05",)
CHROME = "H02"


def cutter_cautions(placed: Placed, cutter: str, of_stock: bool = True) -> tuple[str, ...]:
    """What a cutter asks to be careful of: a `laser` burns, a `blade` is sharp. What the stock adds to that does not
    count for a template, which is cut from something else."""
    codes = [code for code in (LASER if cutter == "laser" else BLADE) if of_stock or code != CHROME]
    asked = cautions_for(replace(_seen(placed), for_laser=cutter == "laser"))
    return tuple(one.text for one in asked if one.code in codes)


def caution_texts(placed: Placed) -> tuple[str, ...]:
    """All cautions, also that of every sheet."""
    return tuple(one.text for one in cautions_for(_seen(placed)))


def _seen(placed: Placed) -> Item:
    """The item as the cautions see it: its words, stocks and fittings."""
    item = placed.item
    stocks = [Stock(one.name, one.material, one.thick or 0.0, one.note or "") for one in item.stocks]
    return Item(
        placed.title,
        tuple(
            PlacedPart(piece.name, piece.outline, words=tuple(_words(piece)))
            for piece in placed.pieces.values()
        ),
        stocks=tuple(stocks),
        hardware=tuple(f"{one.name.replace('_', ' ')} {one.note or ''}" for one in item.hardware),
        words=(*placed.notes, *(step.text for step in item.steps)),
    )


def _words(piece: PlacedPiece) -> Iterator[str]:
    yield piece.note or ""
    for feature in piece.features:
        yield from _feature_words(feature)


def _feature_words(feature: PlacedFeature) -> Iterator[str]:
    yield from (feature.note or "", feature.text or "", WORK_WORDS.get(feature.kind, ""))
