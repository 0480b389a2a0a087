"""Stitches as they come to lie on a piece, with the marks an iron or an awl leaves.

Seen on the grain side an iron's marks lean one way, on either half of a mirrored piece; where a line is to lie on
another when the leather is folded, its marks lean the other way, so that they meet through both layers.
"""

from __future__ import annotations

from drafting.geometry.point import Point
from drafting.model.pattern import (
    BoundMarks,
    HolesForm,
    LineRef,
    MirrorForm,
    Pattern,
    Piece,
    ShapePart,
    StitchesRef,
)
from drafting.records import dataclass, replace
from drafting.solve.placed import PlacedStitches
from drafting.solve.reading import Reader
from drafting.solve.shapes import positive
from drafting.solve.stitching import base_of, lines_of
from drafting.solve.trade import Asked, Trade


@dataclass(frozen=True)
class StitchPlacing:
    """Places the stitches of one part in one size."""

    pattern: Pattern
    trade: Trade
    reader: Reader
    part: ShapePart
    piece: Piece

    def lines(self) -> tuple[PlacedStitches, ...]:
        """The lines of the part."""
        is_pricked = isinstance(self.part.form, HolesForm)
        found = (
            PlacedStitches(line.text, self.reader.stitches(StitchesRef(line)), is_pricked=is_pricked)
            for line in lines_of(self.pattern, self.part, self.piece.name)
        )
        return tuple(self._marked(line) for line in found)

    def twins(
        self, lines: tuple[PlacedStitches, ...], mirror: tuple[Point, Point]
    ) -> tuple[PlacedStitches, ...]:
        """Their twins: an iron marks either half alike, unless one is to lie on the other."""
        return tuple(self._marked(_twin(line, mirror), self._meets_its_twin()) for line in lines)

    def _meets_its_twin(self) -> bool:
        """Whether a seam joins the line with its twin, so that one half is folded over on the other."""
        own = (LineRef(self.piece.name, self.part.name, twin) for twin in (False, True))
        pair = {line.key for line in own}
        return any(
            pair <= {replace(named.line, index=None).key for named in join.lines}
            for join in self.pattern.joins
        )

    def _marked(self, line: PlacedStitches, is_over: bool = False) -> PlacedStitches:
        marks, folded = _marks_of(self.pattern, self.part)
        if marks is None:
            return line
        size = None
        if marks.size is not None:
            size = positive(self.reader, marks.size, self.part.name, "The size of the marks", marks.span)
        if marks.how == "round":
            return replace(line, across=size or USUAL_HOLE)
        asked = Asked(self.part.name, self.piece.name, marks.span)
        return replace(line, slits=self.trade.slits(line.layout, size, folded != is_over, asked))


USUAL_HOLE = 1.0
"""How large a round stitch hole is where nothing is said, in mm (common practice, no source)."""


def _twin(line: PlacedStitches, mirror: tuple[Point, Point]) -> PlacedStitches:
    head, dot, index = line.name.partition(".")
    return replace(line, name=f"{head}'{dot}{index}", layout=line.layout.mirrored(*mirror), slits=())


def _marks_of(pattern: Pattern, part: ShapePart) -> tuple[BoundMarks | None, bool]:
    """The marks of a line, its own or those of the line its holes come from, and whether it is folded over on it."""
    marks = part.stitch.marks if part.stitch else None
    folded = False
    seen = {part.name}
    while isinstance(part.form, MirrorForm | HolesForm) and part.form.line.key not in seen:
        seen.add(part.form.line.key)
        folded ^= isinstance(part.form, MirrorForm)
        part = base_of(pattern, part.form.line)
        marks = marks or (part.stitch.marks if part.stitch else None)
    return marks, folded
