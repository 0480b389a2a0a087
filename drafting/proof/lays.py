"""Proving the files of a lay: the lay by its judge and its patterns, the drawings of its sheets by the lay.

A drawing of a sheet is reduced, so that the scale printed in its title block counts, as on an overview: places are
compared from the lower left of the sheet of stock.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from drafting.drawing.lay_sheets import edge_of
from drafting.geometry.path import Ring
from drafting.lay.kinds import Kind
from drafting.lay.lays import LaidSheet, Lay, true_ring
from drafting.lay.ordering import Ordered
from drafting.lay.sheets import Sheet
from drafting.proof.disagreement import LACKING, SAME_LENGTH, Disagreement
from drafting.proof.expected import Measures, box_of
from drafting.proof.read_svg import ReadGroup, ReadSvg, read_svg
from drafting.proof.svg import compare, faults_in_size, in_place, stray_cuts

SAME_TURN = 1e-6
"""Degrees."""


def check_lay_svg(svg: str, lay: Lay, number: int) -> list[Disagreement]:
    """What differs in the drawing of this sheet, the first being 1; empty when all is true."""
    try:
        read = read_svg(svg)
    except ValueError as fault:
        return [Disagreement("the file", "its form", "an SVG in mm", str(fault))]
    laid = lay.sheets[number - 1]
    wanted = [edge_of(lay, laid), *laid.sheet.defect_rings]
    written = [line for group in _groups(read, "stock") for line in _lines_of(group, "stock")]
    found = [*faults_in_size(read), *stray_cuts(read, ("part",))]
    if len(written) != len(wanted):
        counts = (str(len(side)) for side in (wanted, written))
        return [*found, Disagreement("the stock", "the count of its lines", *counts)]
    return [*found, *_stock(wanted, written, read), *_parts(lay, laid, wanted[0], written[0], read)]


def _groups(read: ReadSvg, kind: str) -> list[ReadGroup]:
    return [group for group in read.root.walk() if group.kind == kind]


def _lines_of(group: ReadGroup, kind: str) -> list[Measures]:
    return [line for line, named in zip(group.lines, group.classes, strict=True) if named == kind]


def _stock(wanted: Sequence[Ring], written: Sequence[Measures], read: ReadSvg) -> Iterator[Disagreement]:
    for number, (ring, line) in enumerate(zip(wanted, written, strict=True)):
        where = f"defect {number}" if number else "the edge of the stock"
        yield from compare(where, ring, in_place(line, written[0].box, box_of(wanted[0]), read.scale or 1.0))


def _parts(
    lay: Lay, laid: LaidSheet, edge: Ring, written_edge: Measures, read: ReadSvg
) -> Iterator[Disagreement]:
    written = [line for group in _groups(read, "part") for line in _lines_of(group, "cut")]
    if len(written) != len(laid.spots):
        counts = (str(len(side)) for side in (laid.spots, written))
        yield Disagreement("the sheet", "the count of its parts", *counts)
        return
    for number, (spot, line) in enumerate(zip(laid.spots, written, strict=True), start=1):
        kind = lay.kinds[spot.kind]
        placed = in_place(line, written_edge.box, box_of(edge), read.scale or 1.0)
        yield from compare(f"part {number}, {kind.name}", true_ring(kind, spot), placed)


# The lay against its patterns


def compare_lay(lay: Lay, now: Ordered) -> Iterator[Disagreement]:
    """Each part and each sheet of a lay against those that its patterns and hides come to now."""
    parts = {(kind.name, kind.is_turned_over): kind for kind in now.kinds}
    laid = {(kind.name, kind.is_turned_over): kind for kind in lay.kinds}
    for key in dict.fromkeys([*parts, *laid]):
        yield from _kind(_called(*key), parts.get(key), laid.get(key))
    sheets = {sheet.name: sheet for sheet in now.sheets}
    for one in lay.sheets:
        yield from _sheet(one.sheet, sheets.get(one.sheet.name))


def _called(name: str, is_turned_over: bool) -> str:
    return f"{name}, turned over" if is_turned_over else name


def _kind(where: str, now: Kind | None, laid: Kind | None) -> Iterator[Disagreement]:
    if now is None or laid is None:
        yield Disagreement(where, "the part", *("there" if kind else LACKING for kind in (now, laid)))
        return
    if now.demand != laid.demand:
        yield Disagreement(where, "the number asked for", str(now.demand), str(laid.demand))
    if not _same_turn(now.grain, laid.grain):
        yield Disagreement(where, "its grain", _degrees(now.grain), _degrees(laid.grain))
    yield from _ring(where, now.ring, laid.ring)


def _same_turn(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs((one - other + 180.0) % 360.0 - 180.0) < SAME_TURN


def _degrees(grain: float | None) -> str:
    return "any way" if grain is None else f"{grain:g}°"


def _sheet(laid: Sheet, now: Sheet | None) -> Iterator[Disagreement]:
    """A roll is searched on as much of it as its parts may need, so only its width is its own."""
    if now is None:
        yield Disagreement(laid.name, "the sheet", LACKING, "there")
    elif laid.kind == "roll":
        if abs(now.size[1] - laid.size[1]) > SAME_LENGTH:
            yield Disagreement(laid.name, "its width", f"{now.size[1]:.3f} mm", f"{laid.size[1]:.3f} mm")
    else:
        yield from _ring(laid.name, now.ring, laid.ring)
        for zone in ("defect", "poor", "firm"):
            yield from _zones(
                f"{laid.name}, {zone}", getattr(now, f"{zone}_rings"), getattr(laid, f"{zone}_rings")
            )
        if not _same_turn(now.backbone, laid.backbone):
            yield Disagreement(laid.name, "its backbone", _degrees(now.backbone), _degrees(laid.backbone))


def _zones(where: str, now: Sequence[Ring], laid: Sequence[Ring]) -> Iterator[Disagreement]:
    if len(now) != len(laid):
        yield Disagreement(where, "how many there are", str(len(now)), str(len(laid)))
        return
    for number, (one, other) in enumerate(zip(now, laid, strict=True), start=1):
        yield from _ring(f"{where} {number}", one, other)


def _ring(where: str, now: Ring, laid: Ring) -> Iterator[Disagreement]:
    yield from compare(where, now, _measures(laid))


def _measures(ring: Ring) -> Measures:
    """As if it had been read from a file: with the ends and the middle of each leg."""
    places = [leg.point_at(s) for leg in ring.legs for s in (0.0, leg.length / 2)]
    return Measures(ring.length, ring.area, box_of(ring), np.array([(point.x, point.y) for point in places]))
