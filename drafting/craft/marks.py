"""The marks an iron or an awl leaves: round, or slanted slits.

Takes a Layout and a kind of mark; returns round holes, or the short lines of slanted marks. Seen on the grain side a
slanted mark leans anticlockwise off its line, whichever way the line is walked: that is how an iron marks the face.
Where the same holes are pricked from the other side, or belong to a twin that is folded over to meet them, the marks
lean the other way, so that they lie on each other through the leather.
"""

from __future__ import annotations

from math import pi

from drafting.craft.faults import CraftFault, degrees_text, expect_positive
from drafting.craft.slits import RoundHole
from drafting.craft.stitches import Layout
from drafting.geometry.line import Line
from drafting.geometry.maths import cos, radians, sin
from drafting.geometry.point import Point
from drafting.records import dataclass
from drafting.text.catalogue import craft as says

USUAL_LEAN = radians(45)
"""How far the teeth of a common pricking iron lean (common practice, no source)."""


@dataclass(frozen=True)
class Round:
    """Marks of an awl or a round punch."""

    across: float

    def __post_init__(self) -> None:
        expect_positive(mark=self.across)


@dataclass(frozen=True)
class Slanted:
    """Marks of a pricking iron: so long, leaning so far off the line."""

    long: float
    lean: float = USUAL_LEAN

    def __post_init__(self) -> None:
        expect_positive(mark=self.long)
        if not 0 <= self.lean < pi:
            raise LeanOutOfRange(self.lean)


class LeanOutOfRange(CraftFault):
    """A lean below nothing, or of half a turn and more, which is the same mark again."""

    entry = says.LEAN_RANGE

    def __init__(self, lean: float) -> None:
        super().__init__(lean=degrees_text(lean))
        self.lean = lean


def round_marks(layout: Layout, mark: Round) -> tuple[RoundHole, ...]:
    return tuple(RoundHole(hole.point, mark.across) for hole in layout.holes)


def slanted_marks(layout: Layout, mark: Slanted, meets_face: bool = False) -> tuple[Line, ...]:
    """A short line through each hole. `meets_face` is for holes that are to lie on those of another face.

    Worked out in numbers, since a sail has ten thousand holes.
    """
    lean = -mark.lean if meets_face else mark.lean
    ahead, aside = cos(lean) * mark.long / 2, sin(lean) * mark.long / 2
    marks: list[Line] = []
    for hole in layout.holes:
        point, way = hole.point, hole.direction
        x, y = way.x * ahead - way.y * aside, way.x * aside + way.y * ahead
        marks.append(Line(Point(point.x - x, point.y - y), Point(point.x + x, point.y + y)))
    return tuple(marks)
