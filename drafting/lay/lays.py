"""A lay: which part lies where, and what it comes to.

Lengths in mm, areas in mm², turns in degrees. A part is turned about its own (0, 0) as drafted (or turned over, that is
mirrored left to right, first) and then moved.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from math import radians

import numpy as np
import shapely
from shapely import Geometry, LineString, Polygon, box
from shapely.affinity import rotate, translate

from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector
from drafting.lay.flatten import COARSE, polygon_close
from drafting.lay.kinds import Kind
from drafting.lay.nofit import grown
from drafting.lay.sheets import Sheet
from drafting.records import dataclass

LEAST_LEFTOVER = 40.0
"""What is left over counts where a square with so many mm to a side goes in."""

GRID = 15
"""So many places across and up are tried for words."""
ROOMY = 0.9
"""As a part of the room at the roomiest place."""


@dataclass(frozen=True)
class Spot:
    """Where one part of a kind lies; `kind` is its number in the lay."""

    kind: int
    turn: float
    x: float
    y: float


@dataclass(frozen=True)
class SetCount:
    """How many of an item are whole, and how many were asked for."""

    item: str
    whole: int
    asked: int


@dataclass(frozen=True)
class LaidSheet:
    """A sheet and what lies on it. `steps` is the step that found it, where our own search did and can do it again."""

    sheet: Sheet
    spots: tuple[Spot, ...]
    steps: int | None = None


@dataclass(frozen=True)
class Lay:
    """Where the parts of an order lie. Those that found no room are told by `missing`.

    `is_repeatable` says whether the same seed and steps give this lay again on the same versions.
    """

    kinds: tuple[Kind, ...]
    sheets: tuple[LaidSheet, ...]
    gap: float
    seed: int
    is_repeatable: bool = True
    was_stopped: bool = False

    @cached_property
    def missing(self) -> tuple[int, ...]:
        """How many of each kind found no room."""
        laid = [spot.kind for laid in self.sheets for spot in laid.spots]
        return tuple(kind.demand - laid.count(number) for number, kind in enumerate(self.kinds))

    @cached_property
    def sets(self) -> tuple[SetCount, ...]:
        """How many of each item have all their parts laid, in the order's order."""
        whole: dict[str, int] = {}
        asked: dict[str, int] = {}
        for kind, missing in zip(self.kinds, self.missing, strict=True):
            if kind.each:
                count = (kind.demand - missing) // kind.each
                whole[kind.item] = min(count, whole.get(kind.item, count))
                asked[kind.item] = kind.demand // kind.each
        return tuple(SetCount(item, count, asked[item]) for item, count in whole.items())

    @property
    def n_laid(self) -> int:
        return sum(len(laid.spots) for laid in self.sheets)

    @property
    def is_complete(self) -> bool:
        return not any(self.missing)

    def area_on(self, laid: LaidSheet) -> float:
        """What the parts on a sheet take, the gaps not counted."""
        return sum(self.kinds[spot.kind].area for spot in laid.spots)

    @property
    def area(self) -> float:
        return sum(self.area_on(laid) for laid in self.sheets)

    @property
    def missing_area(self) -> float:
        return sum(kind.area * count for kind, count in zip(self.kinds, self.missing, strict=True))

    def polygon(self, spot: Spot) -> Polygon:
        """The part as it lies, finely flattened."""
        return placed_outline(self.kinds[spot.kind], spot)

    def length_used(self, laid: LaidSheet) -> float:
        """How far right the parts reach, the margin behind them counted."""
        if not laid.spots:
            return 0.0
        right = max(self.polygon(spot).bounds[2] for spot in laid.spots)
        return float(right - laid.sheet.close.bounds[0] + laid.sheet.margin)

    def gross_area(self, laid: LaidSheet) -> float:
        """The sheet as it is bought; of a roll what is cut off."""
        if laid.sheet.kind == "roll":
            return self.length_used(laid) * laid.sheet.size[1]
        return laid.sheet.area

    def usable_area(self, laid: LaidSheet) -> float:
        """The sheet without its defects."""
        return self.gross_area(laid) if laid.sheet.kind == "roll" else float(laid.sheet.usable.area)

    @property
    def yield_of_gross(self) -> float:
        """Parts over all that is bought, as a fraction."""
        return _ratio(self.area, sum(self.gross_area(laid) for laid in self.sheets))

    @property
    def yield_of_usable(self) -> float:
        """Parts over what is sound of it."""
        return _ratio(self.area, sum(self.usable_area(laid) for laid in self.sheets))

    def leftovers(self, laid: LaidSheet) -> list[Polygon]:
        """What is left of a sheet, a gap off the parts, largest first; scraps do not count."""
        parts = [self.polygon(spot) for spot in laid.spots]
        if laid.sheet.kind != "roll":
            return leftovers(laid.sheet.usable, parts, self.gap)
        return leftovers(box(0, 0, self.length_used(laid), laid.sheet.size[1]), parts, self.gap)


def placed_outline(kind: Kind, spot: Spot) -> Polygon:
    return translate(rotate(kind.close, spot.turn, origin=(0, 0)), spot.x, spot.y)


def true_ring(kind: Kind, spot: Spot) -> Ring:
    """The true line to cut, where the part lies."""
    return kind.ring.turned(radians(spot.turn), Point(0, 0)).moved(Vector(spot.x, spot.y))


def room_in(part: Polygon) -> tuple[float, float, float]:
    """A place well inside, and how far it is from the edge, for words: of the roomy places of a grid the middle one."""
    low_x, low_y, high_x, high_y = part.bounds
    across, up = np.linspace(low_x, high_x, GRID + 2)[1:-1], np.linspace(low_y, high_y, GRID + 2)[1:-1]
    places = shapely.points(*(axis.ravel() for axis in np.meshgrid(across, up)))
    off = np.where(shapely.contains(part, places), shapely.distance(part.boundary, places), 0.0)
    roomy = np.flatnonzero(off >= ROOMY * off.max())
    best = roomy[int(shapely.distance(places[roomy], part.centroid).argmin())]
    place = places[best] if off[best] > 0 else part.representative_point()
    return float(place.x), float(place.y), float(part.boundary.distance(place))


def corners_of(ring: Ring) -> list[tuple[float, float]]:
    """A ring as a line that comes back to its start, flattened for the eye."""
    return [(x, y) for x, y in polygon_close(ring, COARSE).exterior.coords]


def beside_parts(
    lay: Lay, laid: LaidSheet, corners: Sequence[tuple[float, float]]
) -> list[list[tuple[float, float]]]:
    """What of a line no part lies on, in pieces of a mm or more."""
    parts = shapely.union_all([lay.polygon(spot) for spot in laid.spots])
    bare = LineString(corners).difference(parts)
    lines = [one for one in getattr(bare, "geoms", [bare]) if isinstance(one, LineString) and one.length >= 1]
    return [[(x, y) for x, y in one.coords] for one in lines]


def bare_of(lay: Lay, laid: LaidSheet, zones: Sequence[Polygon]) -> list[list[tuple[float, float]]]:
    """The edges of what no part lies on in some zones: the corners of each, outer ones and holes alike."""
    parts = shapely.union_all([lay.polygon(spot) for spot in laid.spots])
    bare = laid.sheet.close.intersection(shapely.union_all(list(zones))).difference(parts).simplify(COARSE)
    shapes = [one for one in getattr(bare, "geoms", [bare]) if isinstance(one, Polygon) and one.area > 1]
    return [[(x, y) for x, y in ring.coords] for one in shapes for ring in (one.exterior, *one.interiors)]


def leftovers(leather: Geometry, parts: Sequence[Polygon], gap: float) -> list[Polygon]:
    """What is left of the sound leather, where it is wide enough to cut from; defects are holes in it."""
    taken = shapely.union_all([grown(part, max(gap, 0.01)) for part in parts])
    rest: Geometry = leather.difference(taken)
    half = LEAST_LEFTOVER / 2
    wide = rest.buffer(-half, join_style="mitre").buffer(half * 0.99, join_style="mitre", mitre_limit=2)
    pieces = [
        part.simplify(0.2) for part in getattr(wide.intersection(rest), "geoms", [wide.intersection(rest)])
    ]
    sound = [part for part in pieces if isinstance(part, Polygon) and part.is_valid]
    return sorted((part for part in sound if part.area > LEAST_LEFTOVER**2), key=lambda part: -part.area)


def _ratio(part: float, whole: float) -> float:
    return part / whole if whole else 0.0
