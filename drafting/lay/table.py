"""All that a search looks up again and again: shapes in every turn, and where they fit.

Made once for the kinds and the sheet of a search; what is asked for is worked out the first time and kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

import numpy as np
import shapely
from shapely import Geometry, Polygon, unary_union
from shapely.affinity import rotate

from drafting.geometry.path import Ring
from drafting.lay.bare import Disc, discs_in
from drafting.lay.flatten import polygon_outside
from drafting.lay.kinds import Kind, Zone
from drafting.lay.nofit import SLACK, Corners, convex_parts, grown, inner_fit, no_fit
from drafting.lay.sheets import Sheet
from drafting.records import dataclass, field


@dataclass(frozen=True)
class Shape:
    """A kind in one of its turns. It is laid by its own (0, 0)."""

    kind: int
    turn: float
    polygon: Polygon
    parts: Sequence[Corners] = field(repr=False)

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        return self.polygon.bounds  # type: ignore[no-any-return]

    @cached_property
    def corners(self) -> Corners:
        return np.asarray(shapely.get_coordinates(self.polygon.convex_hull))

    @cached_property
    def discs(self) -> list[Disc]:
        return discs_in(self.polygon)

    def reach(self, direction: Corners) -> float:
        """How far it reaches in a direction, from its own (0, 0)."""
        return float((self.corners @ direction).max())


class Table:
    """Shapes by number, and the places they fit in."""

    def __init__(self, kinds: Sequence[Kind], sheet: Sheet, gap: float) -> None:
        self.kinds, self.sheet, self.gap = tuple(kinds), sheet, gap
        self.shapes: list[Shape] = []
        self.by_kind: list[tuple[int, ...]] = []
        for number, kind in enumerate(kinds):
            parts = convex_parts(kind.outline)
            first = len(self.shapes)
            for turn in kind.turns_by(sheet.backbone or 0.0):
                polygon = rotate(kind.outline, turn, origin=(0, 0))
                self.shapes.append(Shape(number, turn, polygon, [turned(part, turn) for part in parts]))
            self.by_kind.append(tuple(range(first, len(self.shapes))))
        self._no_fits: dict[tuple[int, int], Geometry] = {}
        self._relative: dict[tuple[int, int, float], Geometry] = {}
        self._inner: dict[int, Geometry] = {}
        self._regions: dict[Zone, Geometry] = {}

    def region(self, zone: Zone) -> Geometry:
        """Where parts of this zone may lie."""
        if zone not in self._regions:
            self._regions[zone] = region_of(self.sheet, zone)
        return self._regions[zone]

    def inner(self, number: int) -> Geometry:
        """Where a shape lies wholly in its region."""
        if number not in self._inner:
            shape = self.shapes[number]
            region = self.region(self.kinds[shape.kind].zone)
            self._inner[number] = inner_fit(region, shape.polygon, shape.parts)
        return self._inner[number]

    def knows_inner(self, number: int) -> bool:
        """Whether it is worked out already where a shape lies wholly in its region."""
        return number in self._inner

    def no_fit(self, first: int, second: int) -> Geometry:
        """Where the second may not lie when the first lies at (0, 0)."""
        found = self._no_fits.get((first, second))
        if found is None:
            found = self._no_fits[first, second] = self._made(self.shapes[first], self.shapes[second])
        return found

    def _made(self, one: Shape, other: Shape) -> Geometry:
        """Two shapes turned alike keep each other off alike: the region is made once and turned along.

        What the first keeps of the second, the second keeps of the first, seen from the other side.
        """
        if one.kind > other.kind:
            return rotate(self._made(other, one), 180.0, origin=(0, 0))
        key = (one.kind, other.kind, round((other.turn - one.turn) % 360.0, 9))
        if key not in self._relative:
            parts = [[turned(part, -one.turn) for part in shape.parts] for shape in (one, other)]
            self._relative[key] = no_fit(parts[0], parts[1], self.gap)
        return rotate(self._relative[key], one.turn, origin=(0, 0)) if one.turn else self._relative[key]

    def has_room_for(self, kind: int) -> bool:
        return any(not self.inner(number).is_empty for number in self.by_kind[kind])


def turned(corners: Corners, degrees: float) -> Corners:
    """Corners turned about (0, 0)."""
    angle = np.radians(degrees)
    cosine, sine = np.cos(angle), np.sin(angle)
    return np.asarray(corners @ np.array([[cosine, sine], [-sine, cosine]]))


def region_of(sheet: Sheet, zone: Zone) -> Geometry:
    """The leather of a sheet that parts of a zone may take: margins off, defects out."""
    margin = sheet.margin - SLACK
    region: Geometry = shapely.buffer(sheet.outline, -margin, join_style="mitre")
    if sheet.defect_rings:
        region = region.difference(grown(_coarse(sheet.defect_rings), margin))
    if zone != "poor" and sheet.poor_rings:
        region = region.difference(grown(_coarse(sheet.poor_rings), -SLACK))
    if zone == "firm" and sheet.firm is not None:
        region = region.intersection(grown(unary_union(sheet.firm), SLACK))
    return region


def _coarse(rings: Sequence[Ring]) -> Geometry:
    """Few corners, and never less than the rings."""
    return unary_union([polygon_outside(ring) for ring in rings])
