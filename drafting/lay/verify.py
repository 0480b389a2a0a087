"""Judges a lay apart from whatever found it.

It lays the finely flattened outlines anew and measures: that each lies in its sheet, off the edge and the defects, in
the zone it must come from, turned as it may be, a gap off every other, and that none is laid more often than asked for.
It shares nothing with the search but the shapes it is given.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

import shapely
from shapely import Geometry, Polygon, STRtree, unary_union
from shapely.affinity import rotate, translate

from drafting.lay.lays import LaidSheet, Lay, Spot
from drafting.records import dataclass

TOLERANCE = 0.01
"""mm; and degrees of turn."""
Fault = Literal["overlap", "gap", "outside", "edge", "defect", "zone", "turn", "count"]


@dataclass(frozen=True)
class Violation:
    """What a lay does that it must not. `sheet` and `spots` are numbers in the lay; `by` is how far, in mm, mm² of
    overlap, degrees, or parts too many."""

    fault: Fault
    sheet: int
    spots: tuple[int, ...]
    by: float

    def __str__(self) -> str:
        where = f"on sheet {self.sheet + 1} " if self.sheet >= 0 else ""
        parts = " and ".join(str(spot + 1) for spot in self.spots)
        return f"{where}{'parts' if len(self.spots) > 1 else 'part'} {parts}: {self.fault}, by {self.by:g}"


def verify(lay: Lay) -> list[Violation]:
    """All that is wrong with a lay; nothing for a good one."""
    found = [fault for number, laid in enumerate(lay.sheets) for fault in _of_sheet(lay, number, laid)]
    return found + list(_counts(lay))


def _of_sheet(lay: Lay, number: int, laid: LaidSheet) -> Iterator[Violation]:
    parts = [_laid(lay, spot) for spot in laid.spots]
    yield from _turns(lay, number, laid)
    yield from _places(lay, number, laid, parts)
    yield from _pairs(lay, number, parts)


def _laid(lay: Lay, spot: Spot) -> Polygon:
    return translate(rotate(lay.kinds[spot.kind].close, spot.turn, origin=(0, 0)), spot.x, spot.y)


def _counts(lay: Lay) -> Iterator[Violation]:
    for kind, missing in enumerate(lay.missing):
        if missing < 0:
            yield Violation("count", -1, (kind,), float(-missing))


def _turns(lay: Lay, number: int, laid: LaidSheet) -> Iterator[Violation]:
    """Asked with the freedom of the part, not with the turns that were tried."""
    backbone = laid.sheet.backbone or 0.0
    for n, spot in enumerate(laid.spots):
        kind = lay.kinds[spot.kind]
        if kind.grain is None:
            continue
        square = 90.0 if kind.freedom.across else 180.0
        off = (spot.turn + kind.grain - backbone) % square
        off = min(off, square - off)
        if off > kind.freedom.within + TOLERANCE / 10:
            yield Violation("turn", number, (n,), off)


def _places(lay: Lay, number: int, laid: LaidSheet, parts: list[Polygon]) -> Iterator[Violation]:
    sheet = laid.sheet
    hurt = unary_union(sheet.defects)
    poor = unary_union(sheet.poor)
    firm = None if sheet.firm is None else unary_union(sheet.firm).buffer(TOLERANCE)
    grown_sheet = sheet.close.buffer(TOLERANCE)
    for n, part in enumerate(parts):
        zone = lay.kinds[laid.spots[n].kind].zone
        if not grown_sheet.contains(part):
            yield Violation("outside", number, (n,), part.difference(sheet.close).area)
        elif (off := sheet.close.exterior.distance(part)) < sheet.margin - TOLERANCE:
            yield Violation("edge", number, (n,), sheet.margin - off)
        if _is_nearer(part, hurt, sheet.margin):
            yield Violation("defect", number, (n,), sheet.margin - part.distance(hurt))
        if zone != "poor" and _is_nearer(part, poor, 0.0):
            yield Violation("zone", number, (n,), part.intersection(poor).area)
        if zone == "firm" and firm is not None and not firm.contains(part):
            yield Violation("zone", number, (n,), part.difference(firm).area)


def _is_nearer(part: Polygon, other: Geometry, distance: float) -> bool:
    """Nearer than a distance less the tolerance; lapping over counts from a tolerance on."""
    if other.is_empty:
        return False
    if distance > TOLERANCE:
        return bool(part.distance(other) < distance - TOLERANCE)
    return bool(part.intersects(other)) and not part.buffer(-TOLERANCE).disjoint(other)


def _pairs(lay: Lay, number: int, parts: list[Polygon]) -> Iterator[Violation]:
    if not parts:
        return
    tree = STRtree(parts)
    near = tree.query(parts, predicate="dwithin", distance=lay.gap + TOLERANCE)
    for one, other in zip(*near, strict=True):
        if one < other:
            yield from _pair(lay, number, (int(one), int(other)), parts[one], parts[other])


def _pair(lay: Lay, number: int, spots: tuple[int, int], one: Polygon, other: Polygon) -> Iterator[Violation]:
    if _is_nearer(one, other, 0.0):
        yield Violation("overlap", number, spots, float(shapely.intersection(one, other).area))
    elif lay.gap > TOLERANCE and (off := one.distance(other)) < lay.gap - TOLERANCE:
        yield Violation("gap", number, spots, lay.gap - off)
