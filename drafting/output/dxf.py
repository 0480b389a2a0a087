"""A sheet for a machine as DXF: layers by name and colour, millimetres declared, arcs as arcs.

In the release of 2010 the legs of a line are joined: a polyline whose arcs are bulges (the tangent of a quarter of the
angle turned through, DXF Reference, LWPOLYLINE, group 42). The release 12 of 1992, for old machines, has plain lines,
arcs and circles alone. Circles are circles in both. Lines are written here; what stands round them is a Frame.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import degrees, pi, tan

from drafting.drawing.machine import Layer
from drafting.drawing.marks import Drawing
from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.output.dxf_frame import Frame, Release, frame_of
from drafting.output.svg import whole_circle
from drafting.records import dataclass

DECIMALS = 7
LARGEST_SWEEP = 1.5 * pi
"""A longer arc is written as two: its bulge would grow beyond all measure."""
LONGEST_NOTE = 200
"""Letters of a line; the oldest release takes no more than 255."""
OURS = "999\nAwlwright: a sheet for a machine, in millimetres\n"
"""A comment before all else, which every reader passes over."""
CLOSED = 1
"""The flag of a polyline (DXF Reference, LWPOLYLINE, group 70)."""


def to_dxf(drawing: Drawing, layers: Mapping[str, Layer], release: Release = "R2010") -> bytes:
    """The whole file; the same drawing gives the same bytes."""
    by_name = {layer.name: layer for layer in layers.values()}
    frame = frame_of(tuple(by_name[group.name] for group in drawing.groups), release)
    lines = list(_lines(drawing, frame, release))
    filled = frame.filled("".join(lines), len(lines), float(drawing.width), float(drawing.height))
    return (OURS + _notes(drawing.record)).encode() + filled


def is_our_dxf(data: bytes) -> bool:
    """Whether a file was written here: its first comment says so."""
    return data.replace(b"\r\n", b"\n").startswith(OURS.encode())


def _notes(record: str) -> str:
    parts = (record[start : start + LONGEST_NOTE] for start in range(0, len(record), LONGEST_NOTE))
    return "".join(f"999\n{part}\n" for part in parts)


def _lines(drawing: Drawing, frame: Frame, release: Release) -> Iterator[str]:
    """Every line, with a handle of its own."""
    handle = frame.first
    for group in drawing.groups:
        writer = (_OldWriter if release == "R12" else _Writer)(group.name, frame.owner)
        for stroke in group.strokes:
            for line in writer.lines(stroke.way):
                yield line.replace(HANDLE, f"{handle:X}", 1)
                handle += 1


HANDLE = "\0"
"""Stands where the handle of a line will."""


@dataclass(frozen=True)
class _Writer:
    """Writes the lines of one layer, their legs joined."""

    layer: str
    owner: str

    def lines(self, way: Path | Ring) -> Iterator[str]:
        """Each is one entity, of group codes and values by turns."""
        round_one = whole_circle(way)
        if round_one is not None:
            center, radius = round_one
            yield f"{self.start('CIRCLE', 'AcDbCircle')}{_place(10, center)} 40\n{round(radius, DECIMALS)}\n"
            return
        legs = [part for leg in way.legs for part in _parts(leg)]
        yield from self.joined(way, legs)

    def joined(self, way: Path | Ring, legs: list[Leg]) -> Iterator[str]:
        if len(legs) == 1:
            yield self.leg(legs[0])
            return
        spots = [_spot(leg.start, bulge_of(leg)) for leg in legs]
        if not isinstance(way, Ring):
            spots.append(_spot(way.end, 0.0))
        flags = CLOSED if isinstance(way, Ring) else 0
        head = self.start("LWPOLYLINE", "AcDbPolyline")
        yield f"{head} 90\n{len(spots)}\n 70\n{flags}\n{''.join(spots)}"

    def leg(self, leg: Leg) -> str:
        """An ARC turns anticlockwise from its start; of one walked the other way the ends change places."""
        if not isinstance(leg, Arc):
            return f"{self.start('LINE', 'AcDbLine')}{_place(10, leg.start)}{_place(11, leg.end)}"
        first, last = (leg.start_angle, leg.end_angle) if leg.sweep > 0 else (leg.end_angle, leg.start_angle)
        start, end = (round(degrees(angle) % 360.0, 9) for angle in (first, last))
        circle = (
            f"{self.start('ARC', 'AcDbCircle')}{_place(10, leg.center)} 40\n{round(leg.radius, DECIMALS)}\n"
        )
        return f"{circle}{self.part('AcDbArc')} 50\n{start}\n 51\n{end}\n"

    def start(self, kind: str, part: str) -> str:
        return (
            f"  0\n{kind}\n  5\n{HANDLE}\n330\n{self.owner}\n{self.part('AcDbEntity')}"
            f"  8\n{self.layer}\n{self.part(part)}"
        )

    def part(self, name: str) -> str:
        """What begins a part of an entity (DXF Reference, subclass markers)."""
        return f"100\n{name}\n"


class _OldWriter(_Writer):
    """The same leg by leg, as release 12 has them, which knows no parts and no owners."""

    def joined(self, way: Path | Ring, legs: list[Leg]) -> Iterator[str]:
        yield from map(self.leg, legs)

    def start(self, kind: str, part: str) -> str:
        return f"  0\n{kind}\n  5\n{HANDLE}\n  8\n{self.layer}\n"

    def part(self, name: str) -> str:
        return ""


def _parts(leg: Leg) -> list[Leg]:
    if isinstance(leg, Arc) and abs(leg.sweep) > LARGEST_SWEEP + 1e-9:
        return [leg.part(0.0, leg.length / 2), leg.part(leg.length / 2, leg.length)]
    return [leg]


def bulge_of(leg: Leg) -> float:
    """How far a leg of a polyline bows: 0 for a straight one, positive where it turns anticlockwise."""
    return round(tan(leg.sweep / 4), 12) if isinstance(leg, Arc) else 0.0


def _place(code: int, point: Point) -> str:
    """A place in space: its three codes are ten apart."""
    x, y = _flat(point)
    return f" {code}\n{x}\n {code + 10}\n{y}\n {code + 20}\n0.0\n"


def _spot(point: Point, bulge: float) -> str:
    """A corner of a polyline, which is flat."""
    x, y = _flat(point)
    return f" 10\n{x}\n 20\n{y}\n 42\n{bulge}\n" if bulge else f" 10\n{x}\n 20\n{y}\n"


def _flat(point: Point) -> tuple[float, float]:
    return round(point.x, DECIMALS) + 0.0, round(point.y, DECIMALS) + 0.0
