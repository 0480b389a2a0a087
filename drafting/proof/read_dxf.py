"""Reading a DXF back with ezdxf's reader: its unit, its layers, and each line of them as it measures.

Only the written bytes are used, and of ezdxf only the reader and what it says of an entity; lengths, areas and boxes
are reckoned here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property, lru_cache
from math import atan, atan2, cos, degrees, hypot, radians, sin
from typing import TYPE_CHECKING

import numpy as np

from drafting.proof.dxf_parts import opened
from drafting.proof.expected import Box, Measures
from drafting.proof.svg_shapes import circle_measures, straight_measures
from drafting.records import dataclass

if TYPE_CHECKING:
    from ezdxf.entities import DXFEntity

Place = tuple[float, float]
Ends = tuple[float, float, float, float]
"""Where a straight line starts and ends: x, y, x, y."""


@dataclass(frozen=True)
class LayerLine:
    """One line, and the layer it lies on; None where the format has no layers. One that is straight may have its
    `ends` alone, and is measured when it is asked for."""

    layer: str | None
    known: Measures | None
    ends: Ends | None = None

    @cached_property
    def measures(self) -> Measures:
        if self.known is not None:
            return self.known
        assert self.ends is not None
        return straight_measures([self.ends[:2], self.ends[2:]], is_closed=False)


@dataclass(frozen=True)
class ReadDxf:
    """`unit` is the code of $INSUNITS, None where the release has none; `faults` is what the audit says."""

    is_old: bool
    unit: int | None
    lines: tuple[LayerLine, ...]
    faults: tuple[str, ...]
    strange: tuple[str, ...]
    """Kinds of entity that a sheet for a machine has no use for."""


def read_dxf(data: bytes) -> ReadDxf:
    """Raises ValueError for what is no DXF."""
    from ezdxf import DXFError

    try:
        found = opened(data, KINDS)
    except (DXFError, OSError, ValueError, LookupError, AttributeError, TypeError, StopIteration) as fault:
        # A file that is cut short or no DXF at all may end the reader in any of these.
        raise ValueError(str(fault) or "it cannot be read") from fault
    known = [entity for entity in found.entities if entity.dxftype() in KINDS]
    lines = tuple(_layer_line(entity) for entity in known)
    strange = tuple(sorted({entity.dxftype() for entity in found.entities} - KINDS))
    unit = None if found.is_old else int(found.document.header.get("$INSUNITS", 0))
    return ReadDxf(found.is_old, unit, lines, found.faults, strange)


def _layer_line(entity: DXFEntity) -> LayerLine:
    layer, kind = _layer_called(str(entity.dxf.layer)), entity.dxftype()
    if kind == "LINE":
        return LayerLine(layer, None, (*_flat(entity.dxf.start), *_flat(entity.dxf.end)))
    return LayerLine(layer, READERS[kind](entity))


@lru_cache(maxsize=256)
def _layer_called(written: str) -> str:
    """Release 12 has no letters beyond its code page: it spells them `\\U+0421`."""
    from ezdxf import decode_dxf_unicode

    return decode_dxf_unicode(written)


def _arc(entity: DXFEntity) -> Measures:
    turn = (entity.dxf.end_angle - entity.dxf.start_angle) % 360.0
    ends = [_on_circle(entity, angle) for angle in (entity.dxf.start_angle, entity.dxf.end_angle)]
    return _measured([_Step(ends[0], ends[1], radians(turn))], is_closed=False)


def _circle(entity: DXFEntity) -> Measures:
    return circle_measures(*_flat(entity.dxf.center), float(entity.dxf.radius))


def _polyline(entity: DXFEntity) -> Measures:
    """Bulges turned into angles by the definition: four times the arc tangent."""
    spots = [(float(x), float(y), float(bulge)) for x, y, bulge in entity.get_points("xyb")]  # type: ignore[attr-defined]
    closed = bool(entity.closed)  # type: ignore[attr-defined]
    following = [*spots[1:], spots[0]] if closed else spots[1:]
    steps = [
        _Step((x, y), (to_x, to_y), 4 * atan(bulge))
        for (x, y, bulge), (to_x, to_y, _) in zip(spots, following, strict=False)
    ]
    return _measured(steps, closed)


READERS = {"ARC": _arc, "CIRCLE": _circle, "LWPOLYLINE": _polyline}
KINDS = frozenset(["LINE", *READERS])


def _flat(point: Sequence[float]) -> Place:
    return float(point[0]), float(point[1])


def _on_circle(entity: DXFEntity, angle: float) -> Place:
    x, y = _flat(entity.dxf.center)
    return x + entity.dxf.radius * cos(radians(angle)), y + entity.dxf.radius * sin(radians(angle))


@dataclass(frozen=True)
class _Step:
    """From a place to a place, turning through an angle, anticlockwise where positive; 0 is straight."""

    start: Place
    end: Place
    turn: float

    @property
    def chord(self) -> float:
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    @property
    def radius(self) -> float:
        return self.chord / 2 / abs(sin(self.turn / 2))

    @property
    def length(self) -> float:
        return self.radius * abs(self.turn) if self.turn else self.chord

    def area_seen_from(self, place: Place) -> float:
        """Half the cross product of its ends, seen from a place, and the segment of an arc."""
        (ax, ay), (bx, by), (x, y) = self.start, self.end, place
        triangle = ((ax - x) * (by - y) - (bx - x) * (ay - y)) / 2
        return triangle + (self.radius**2 * (self.turn - sin(self.turn)) / 2 if self.turn else 0.0)

    @property
    def center(self) -> Place:
        """Off the middle of the chord, to the left where it turns anticlockwise."""
        (ax, ay), (bx, by) = self.start, self.end
        off = cos(self.turn / 2) / sin(self.turn / 2) / 2
        return (ax + bx) / 2 - (by - ay) * off, (ay + by) / 2 + (bx - ax) * off

    def at(self, part: float) -> Place:
        (ax, ay), (bx, by) = self.start, self.end
        if not self.turn:
            return ax + (bx - ax) * part, ay + (by - ay) * part
        x, y = self.center
        angle = atan2(ay - y, ax - x) + self.turn * part
        return x + self.radius * cos(angle), y + self.radius * sin(angle)

    def outermost(self) -> Iterator[Place]:
        yield self.start
        yield self.end
        if self.turn:
            first = degrees(atan2(self.start[1] - self.center[1], self.start[0] - self.center[0]))
            for quarter in (0.0, 90.0, 180.0, 270.0):
                reached = (quarter - first if self.turn > 0 else first - quarter) % 360.0
                if reached <= degrees(abs(self.turn)):
                    yield self.at(reached / degrees(abs(self.turn)))


def _measured(steps: Sequence[_Step], is_closed: bool) -> Measures:
    if not any(step.turn for step in steps):
        return straight_measures([steps[0].start, *(step.end for step in steps)], is_closed)
    points = [place for step in steps for place in step.outermost()]
    box: Box = (
        min(x for x, _ in points), min(y for _, y in points),
        max(x for x, _ in points), max(y for _, y in points),
    )  # fmt: skip
    area = abs(sum(step.area_seen_from(steps[0].start) for step in steps)) if is_closed else None
    places = np.array([step.at(part) for step in steps for part in (0.0, 0.5)])
    return Measures(sum(step.length for step in steps), area, box, places)
