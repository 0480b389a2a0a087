"""What is cut from: panels, rolls and hides, each a Sheet.

A hide is a piece of the language: its outline, its openings and holes (defects), a guide `backbone`, and closed guides
whose names begin with `poor` or `firm` (zones). A panel and a roll are sheets with four corners whose backbone is level.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import atan2, degrees

from shapely import Geometry, Polygon, box, unary_union

from drafting.geometry.curves import circle
from drafting.geometry.path import Path, Ring
from drafting.lay.flatten import FINE, polygon_close, polygon_inside, polygon_outside
from drafting.solve.placed import PlacedPiece

BACKBONE = "backbone"
POOR, FIRM = "poor", "firm"


@dataclass(frozen=True)
class Sheet:
    """One sheet of stock, in mm. `close` is flattened finely for the verifier, `outline` inward for the search.

    `margin` is kept from its edge and from its defects. `backbone` is in degrees; None where the sheet has none.
    A roll is as long as its outline for the search, and what is used of it is cut off.
    """

    name: str
    outline: Polygon
    close: Polygon
    margin: float = 0.0
    defects: tuple[Polygon, ...] = ()
    poor: tuple[Polygon, ...] = ()
    firm: tuple[Polygon, ...] | None = None
    """None where nothing is said: then all is firm."""
    backbone: float | None = None
    is_roll: bool = False
    is_panel: bool = False

    @cached_property
    def usable(self) -> Geometry:
        """Its leather without the defects, margins not taken off."""
        return self.close.difference(unary_union(self.defects))

    @cached_property
    def area(self) -> float:
        """The whole sheet in mm², defects and all."""
        return float(self.close.area)

    @property
    def size(self) -> tuple[float, float]:
        low_x, low_y, high_x, high_y = self.close.bounds
        return high_x - low_x, high_y - low_y


def panel(width: float, height: float, margin: float = 0.0, name: str = "panel") -> Sheet:
    """A rectangle of stock, its backbone level."""
    shape = box(0, 0, width, height)
    return Sheet(name, shape, shape, margin, backbone=0.0, is_panel=True)


def roll(width: float, length: float, margin: float = 0.0) -> Sheet:
    """A roll so wide, long enough for all that is to be cut; its length lies level, as its backbone does."""
    shape = box(0, 0, length, width)
    return Sheet("roll", shape, shape, margin, backbone=0.0, is_roll=True)


def hide(piece: PlacedPiece, margin: float = 0.0) -> Sheet:
    """The sheet that a piece of a hide file stands for."""
    zones = [(name, ring) for name, ring in piece.guides.items() if isinstance(ring, Ring)]
    firm = tuple(polygon_inside(ring) for name, ring in zones if name.startswith(FIRM))
    return Sheet(
        piece.name,
        polygon_inside(piece.outline),
        polygon_close(piece.outline),
        margin,
        defects=tuple(_defects(piece)),
        poor=tuple(polygon_outside(ring, FINE) for name, ring in zones if name.startswith(POOR)),
        firm=firm or None,
        backbone=_backbone(piece),
    )


def _defects(piece: PlacedPiece) -> list[Polygon]:
    """Whatever is cut through or taken away; openings that touch become one."""
    rings: list[Ring] = []
    for feature in piece.features:
        if feature.is_removed:
            rings += feature.rings
            rings += [circle(hole.center, hole.across / 2) for hole in feature.holes]
    joined = unary_union([polygon_outside(ring, FINE) for ring in rings])
    return [part for part in getattr(joined, "geoms", [joined]) if not part.is_empty]


def _backbone(piece: PlacedPiece) -> float | None:
    line = piece.guides.get(BACKBONE)
    if not isinstance(line, Path):
        return None
    return degrees(atan2(line.end.y - line.start.y, line.end.x - line.start.x)) % 360.0
