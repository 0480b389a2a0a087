"""A sheet for a machine as DXF, written by ezdxf: layers by name and colour, millimetres declared, arcs as arcs.

In the release of 2010 the legs of a line are joined: a polyline whose arcs are bulges (the tangent of a quarter of the
angle turned through, DXF Reference, LWPOLYLINE, group 42). The release 12 of 1992, for old machines, has plain lines,
arcs and circles alone. Circles are circles in both. Nothing depends on the time: dates and identifiers are fixed.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import lru_cache
from io import StringIO
from math import degrees, pi, tan
from typing import TYPE_CHECKING, Literal

from drafting.drawing.machine import Layer
from drafting.drawing.marks import Drawing
from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.output.svg import whole_circle

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts import Modelspace

Release = Literal["R2010", "R12"]
RELEASES: tuple[Release, ...] = ("R2010", "R12")
MILLIMETRES = 4
"""The code of $INSUNITS (DXF Reference, HEADER); without it a reader may take inches or metres.
Release 12 has no such word and does not get one: the comment at its head says the unit."""
METRIC = 1
DECIMALS = 7
LARGEST_SWEEP = 1.5 * pi
"""A longer arc is written as two: its bulge would grow beyond all measure."""
LONGEST_NOTE = 200
"""Letters of a line; the oldest release takes no more than 255."""
OURS = "999\nAwlwright: a sheet for a machine, in millimetres\n"
"""A comment before all else, which every reader passes over."""


def to_dxf(drawing: Drawing, layers: Mapping[str, Layer], release: Release = "R2010") -> bytes:
    """The whole file; the same drawing gives the same bytes."""
    import ezdxf

    # It warns of what release 12 lacks, which is known here.
    logging.getLogger("ezdxf").setLevel(logging.ERROR)
    with _fixed_dates():
        document = ezdxf.new(release)
    document.header["$INSUNITS"], document.header["$MEASUREMENT"] = MILLIMETRES, METRIC
    document.header["$EXTMIN"], document.header["$EXTMAX"] = (0, 0, 0), (drawing.width, drawing.height, 0)
    space = document.modelspace()
    space.reset_extents((0, 0, 0), (drawing.width, drawing.height, 0))
    by_name = {layer.name: layer for layer in layers.values()}
    for group in drawing.groups:
        _add_layer(document, by_name[group.name], release)
        for stroke in group.strokes:
            _add(space, stroke.way, group.name, release)
    return _written(document, drawing.record)


def is_our_dxf(data: bytes) -> bool:
    """Whether a file was written here: its first comment says so."""
    return data.replace(b"\r\n", b"\n").startswith(OURS.encode())


def _written(document: Document, record: str) -> bytes:
    held = StringIO()
    with _fixed_dates():
        document.write(held)
    parts = (record[start : start + LONGEST_NOTE] for start in range(0, len(record), LONGEST_NOTE))
    notes = "".join(f"999\n{part}\n" for part in parts)
    return (OURS + notes).encode() + bytes(document.encode(held.getvalue()))


@contextmanager
def _fixed_dates() -> Iterator[None]:
    """ezdxf puts the time and new identifiers into a file unless it is told not to."""
    import ezdxf

    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before


def _add_layer(document: Document, layer: Layer, release: Release) -> None:
    red, green, blue = (int(layer.color[at : at + 2], 16) for at in (1, 3, 5))
    color = (red, green, blue)
    added = document.layers.add(layer.name, color=nearest_index(color))
    if release != "R12":
        added.rgb = color
        added.description = layer.means


@lru_cache(maxsize=256)
def nearest_index(color: tuple[int, int, int]) -> int:
    """The colour of DXF's own table, 1 to 255, that looks most like a colour of red, green and blue; black is 7, which
    a screen shows as black or white, whichever is seen."""
    from ezdxf.colors import aci2rgb

    if max(color) == 0:
        return 7

    def off(index: int) -> float:
        return sum((a - b) ** 2 for a, b in zip(aci2rgb(index), color, strict=True))

    return min(range(1, 256), key=off)


def _add(space: Modelspace, way: Path | Ring, layer: str, release: Release) -> None:
    at = {"layer": layer}
    round_one = whole_circle(way)
    if round_one is not None:
        space.add_circle(_place(round_one[0]), round(round_one[1], DECIMALS), dxfattribs=at)
        return
    legs = [part for leg in way.legs for part in _parts(leg)]
    if release == "R12" or len(legs) == 1:
        for leg in legs:
            _add_leg(space, leg, at)
    else:
        spots = [(*_place(leg.start), bulge_of(leg)) for leg in legs]
        if not isinstance(way, Ring):
            spots.append((*_place(way.end), 0.0))
        space.add_lwpolyline(spots, format="xyb", close=isinstance(way, Ring), dxfattribs=at)


def _parts(leg: Leg) -> list[Leg]:
    if isinstance(leg, Arc) and abs(leg.sweep) > LARGEST_SWEEP + 1e-9:
        return [leg.part(0.0, leg.length / 2), leg.part(leg.length / 2, leg.length)]
    return [leg]


def _add_leg(space: Modelspace, leg: Leg, at: dict[str, str]) -> None:
    """An ARC turns anticlockwise from its start; of one walked the other way the ends change places."""
    if not isinstance(leg, Arc):
        space.add_line(_place(leg.start), _place(leg.end), dxfattribs=at)
        return
    first, last = (leg.start_angle, leg.end_angle) if leg.sweep > 0 else (leg.end_angle, leg.start_angle)
    start, end = (round(degrees(angle) % 360.0, 9) for angle in (first, last))
    space.add_arc(_place(leg.center), round(leg.radius, DECIMALS), start, end, dxfattribs=at)


def bulge_of(leg: Leg) -> float:
    """How far a leg of a polyline bows: 0 for a straight one, positive where it turns anticlockwise."""
    return round(tan(leg.sweep / 4), 12) if isinstance(leg, Arc) else 0.0


def _place(point: Point) -> tuple[float, float]:
    return round(point.x, DECIMALS) + 0.0, round(point.y, DECIMALS) + 0.0
