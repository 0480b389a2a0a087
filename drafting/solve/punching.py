"""Which of the shop's punches each hole is made with.

A hole is made with a punch where its size is said by the punch's name, be it through measures and arguments of blocks
that are nothing but that name. Takes a placed piece; gives it with the names at its holes.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from drafting.geometry.maths import kept
from drafting.model.evaluate_measures import formulas
from drafting.model.expressions import Bound, Value
from drafting.model.pattern import (
    Pattern,
    Piece,
    PunchPart,
    RoundForm,
    RowAlongForm,
    RowForm,
    ShapePart,
    SlitWork,
)
from drafting.solve.placed import PlacedFeature, PlacedPiece
from drafting.solve.reading import Reader

SAME_SIZE = 1e-6


class Punches:
    """The punches of a pattern in one size, by the amounts that they are named by."""

    def __init__(self, pattern: Pattern, reader: Reader, size: str | None) -> None:
        self.pattern, self.reader, self.size = pattern, reader, size

    def at_holes(self, placed: PlacedPiece, piece: Piece) -> PlacedPiece:
        """The piece with the names of the punches at its holes and its round openings."""
        if not self._names:
            return placed
        names = {part.name: dict(self._of(part)) for part in piece.features}
        features = [
            self._named(feature, names.get(feature.name.rstrip("'"), {})) for feature in placed.features
        ]
        return replace(placed, features=tuple(features))

    @kept
    def used(self) -> frozenset[str]:
        """The names of the punches that any hole is said to be made with, be it placed or not."""
        parts = (part for piece in self.pattern.pieces.values() for part in piece.features)
        names = (self._name_of(bound) for part in parts for bound in _sizes_of_holes(part))
        return frozenset(name for name in names if name)

    @staticmethod
    def _named(feature: PlacedFeature, names: Mapping[str, float]) -> PlacedFeature:
        holes = []
        for hole in feature.holes:
            fits = (name for name, across in names.items() if abs(across - hole.across) < SAME_SIZE)
            holes.append(replace(hole, punch=next(fits, None)))
        punch = next(iter(names), None) if feature.kind == "opening" else None
        return replace(feature, holes=tuple(holes), punch=punch)

    def _of(self, part: ShapePart) -> Iterator[tuple[str, float]]:
        """The punches that a feature names, and their sizes."""
        for bound in _sizes_of_holes(part):
            name = self._name_of(bound)
            if name is not None:
                yield name, self.reader.number(Value(f"{name}.across"))

    def _name_of(self, bound: Bound | None) -> str | None:
        seen: set[str] = set()
        while isinstance(bound, Value) and bound.key not in seen:
            if bound.key in self._names:
                return self._names[bound.key]
            seen.add(bound.key)
            bound = self._amounts.get(bound.key)
        return None

    @kept
    def _names(self) -> dict[str, str]:
        parts = (part for part in self.pattern.item_parts if isinstance(part, PunchPart))
        return {f"{part.name}.across": part.name for part in parts if "across" in part.amounts}

    @kept
    def _amounts(self) -> dict[str, Bound]:
        """What each measure is written as, those of pieces too."""
        settings = next((row.settings for row in self.pattern.sizes if row.title == self.size), {})
        amounts = {key: formula.bound for key, formula in formulas(self.pattern, settings).items()}
        for piece in self.pattern.pieces.values():
            for measure in piece.measures:
                amounts |= dict(zip(measure.keys, measure.values, strict=True))
        return amounts


def _sizes_of_holes(part: ShapePart) -> Iterator[Bound | None]:
    if part.kind in ("hole", "row", "opening") and isinstance(part.form, RoundForm | RowForm | RowAlongForm):
        yield part.form.across
    if isinstance(part.work, SlitWork):
        yield from (part.work.end_holes, part.work.corner_holes)
