"""What is cut from: panels, rolls and hides, each a Sheet.

A hide is a piece of the language: its outline, its openings and holes (defects), a guide `backbone`, and closed guides
whose names begin with `poor` or `firm` (zones). A panel and a roll have four corners, and their backbone is level.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from math import atan2, degrees
from typing import Literal

from shapely import Geometry, Polygon, unary_union

from drafting.geometry.curves import box as rectangle
from drafting.geometry.curves import circle
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.lay.flatten import FINE, polygon_close, polygon_inside, polygon_outside
from drafting.records import dataclass
from drafting.solve.placed import PlacedPiece

BACKBONE = "backbone"
POOR, FIRM = "poor", "firm"
SheetKind = Literal["panel", "roll", "hide"]


@dataclass(frozen=True)
class Sheet:
    """One sheet of stock, in mm, by its true lines.

    `margin` is kept from its edge and from its defects. `backbone` is in degrees; None where the sheet has none.
    A roll is as long as its outline for the search, and what is used of it is cut off.
    """

    name: str
    ring: Ring
    margin: float = 0.0
    defect_rings: tuple[Ring, ...] = ()
    poor_rings: tuple[Ring, ...] = ()
    firm_rings: tuple[Ring, ...] = ()
    """Where none is said all is firm."""
    backbone: float | None = None
    kind: SheetKind = "hide"

    @cached_property
    def outline(self) -> Polygon:
        """Flattened inward: what the search lays on."""
        return polygon_inside(self.ring)

    @cached_property
    def close(self) -> Polygon:
        """Flattened finely."""
        return polygon_close(self.ring)

    @cached_property
    def defects(self) -> tuple[Polygon, ...]:
        """Flattened outward; those that touch are one."""
        joined = unary_union([polygon_outside(ring, FINE) for ring in self.defect_rings])
        return tuple(part for part in getattr(joined, "geoms", [joined]) if not part.is_empty)

    @cached_property
    def poor(self) -> tuple[Polygon, ...]:
        return tuple(polygon_outside(ring, FINE) for ring in self.poor_rings)

    @cached_property
    def firm(self) -> tuple[Polygon, ...] | None:
        return tuple(polygon_inside(ring) for ring in self.firm_rings) or None

    @cached_property
    def usable(self) -> Geometry:
        """Its leather without the defects, margins not taken off."""
        return self.close.difference(unary_union(self.defects))

    @cached_property
    def area(self) -> float:
        """The whole sheet in mm², defects and all."""
        return self.ring.area

    @property
    def size(self) -> tuple[float, float]:
        low_x, low_y, high_x, high_y = self.close.bounds
        return high_x - low_x, high_y - low_y

    @property
    def likeness(self) -> tuple[object, ...]:
        """All that a search goes by, so all but the name: panels of one size are alike."""
        zones = self.defect_rings, self.poor_rings, self.firm_rings
        return (self.kind, self.ring, self.margin, *zones, self.backbone)


def panel(width: float, height: float, margin: float = 0.0, name: str = "panel") -> Sheet:
    """A rectangle of stock, its backbone level."""
    return Sheet(name, _rectangle(width, height), margin, backbone=0.0, kind="panel")


def roll(width: float, length: float, margin: float = 0.0) -> Sheet:
    """A roll so wide, long enough for all that is to be cut; its length lies level, as its backbone does."""
    return Sheet("roll", _rectangle(length, width), margin, backbone=0.0, kind="roll")


def _rectangle(width: float, height: float) -> Ring:
    return rectangle(Point(width / 2, height / 2), width, height)


def hide(piece: PlacedPiece, margin: float = 0.0) -> Sheet:
    """The sheet that a piece of a hide file stands for."""
    zones = [(name, ring) for name, ring in piece.guides.items() if isinstance(ring, Ring)]
    return Sheet(
        piece.name,
        piece.outline,
        margin,
        defect_rings=tuple(_defects(piece)),
        poor_rings=tuple(ring for name, ring in zones if name.startswith(POOR)),
        firm_rings=tuple(ring for name, ring in zones if name.startswith(FIRM)),
        backbone=_backbone(piece),
    )


def _defects(piece: PlacedPiece) -> Iterator[Ring]:
    """Whatever is cut through or taken away."""
    for feature in piece.features:
        if feature.is_removed:
            yield from feature.rings
            yield from (circle(hole.center, hole.across / 2) for hole in feature.holes)


def _backbone(piece: PlacedPiece) -> float | None:
    line = piece.guides.get(BACKBONE)
    if not isinstance(line, Path):
        return None
    return degrees(atan2(line.end.y - line.start.y, line.end.x - line.start.x)) % 360.0
