"""How many layers of a piece an awl goes through at a place, and how thick each is.

Takes a placed piece and the lines it is turned back over; gives for a point of the flat piece its Plies: the point
itself, the strip of a turned edge that comes to lie on it, and of a strap folded back on itself the place over the
fold. Leather that is skived there is as thick as it is left.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass
from drafting.solve.placed import PlacedFeature, PlacedPiece, PlacedSkive, PlacedTurn

SAME_PLY = 1e-3
"""mm: two places of a piece so near to each other are one, however they were reckoned."""


@dataclass(frozen=True)
class Ply:
    """A place of a flat piece, and how thick its leather is there in mm."""

    place: Point
    thick: float

    def is_among(self, others: Iterable[Ply]) -> bool:
        return any(self.place.distance_to(other.place) <= SAME_PLY for other in others)


class Leather:
    """One piece with what is folded on itself. `thick` is that of its stock, `folds` what it is turned back over."""

    def __init__(self, piece: PlacedPiece, thick: float, folds: Sequence[Line] = ()) -> None:
        self.piece, self.thick, self.folds = piece, thick, folds
        self.skived = [
            (ring, feature.work.left)
            for feature in piece.features
            if isinstance(feature.work, PlacedSkive)
            for ring in feature.rings
        ]
        self.turned = [
            (edge, feature.work)
            for feature in piece.features
            if isinstance(feature.work, PlacedTurn)
            for edge in _edges(feature)
        ]

    def plies(self, point: Point) -> tuple[Ply, ...]:
        """Every layer of the piece at a point, once; the flat leather itself first."""
        if not (self.folds or self.skived or self.turned):
            return (Ply(point, self.thick),)
        found: list[Ply] = []
        for place in self._places(point):
            for ply in (Ply(place, self._thick(place)), *self._strips(place)):
                if not ply.is_among(found):
                    found.append(ply)
        return tuple(found)

    def _places(self, point: Point) -> Iterator[Point]:
        yield point
        for fold in self.folds:
            over = point.mirrored(fold.start, fold.end)
            if _is_beside(fold, point) and self.piece.outline.contains(over):
                yield over

    def _thick(self, place: Point) -> float:
        return min([self.thick, *(left for ring, left in self.skived if ring.contains(place))])

    def _strips(self, place: Point) -> Iterator[Ply]:
        """Of a turned edge that lies square beside the place, near enough for its strip to reach there."""
        for edge, turn in self.turned:
            along, nearest = edge.nearest(place)
            inward = place - nearest
            if inward.length <= turn.shown + SAME_POINT and _is_square(edge, along, inward):
                yield Ply(nearest - inward, turn.thick)


def _edges(feature: PlacedFeature) -> tuple[Path | Ring, ...]:
    return (*feature.paths, *feature.rings)


def _is_beside(fold: Line, point: Point) -> bool:
    """Whether the foot of the perpendicular falls on the fold itself."""
    way = fold.end - fold.start
    along = way.unit().dot(point - fold.start)
    return -SAME_POINT <= along <= way.length + SAME_POINT


def _is_square(edge: Path | Ring, along: float, inward: Vector) -> bool:
    """Off the end of an edge there is no strip."""
    if isinstance(edge, Ring) or SAME_POINT < along < edge.length - SAME_POINT:
        return True
    return abs(edge.direction_at(along).dot(inward)) <= SAME_POINT
