"""Proving a file for a machine: read by a library that did not write it and held against the sheet it should hold.

Every line is there once, on its layer, in place and in size, and there is no other. That the sheet holds the pattern is
proved apart, in `machine_sheet.py`, whatever the format.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from math import degrees

import numpy as np

from drafting.drawing.marks import Drawing
from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.proof.disagreement import SAME_LENGTH, Disagreement
from drafting.proof.expected import Box, Measures, box_of
from drafting.proof.layers_pdf import layers_of_paths
from drafting.proof.read_dxf import LayerLine, read_dxf
from drafting.proof.read_pdf import read_pdf
from drafting.proof.read_svg import ReadSvg, read_svg
from drafting.proof.svg import compare

MILLIMETRES = 4
"""The code of $INSUNITS."""
HALVED = 270.0
"""An arc of more degrees is written as two."""
ENDS = 3
"""Decimals of mm to which ends agree that are the same: closer than lines must."""
CELL = 1.0
"""mm: how coarsely lines are looked up by their middles."""

Wanted = tuple[str | None, Path | Ring]
"""A line and the layer it should lie on."""


def faults_in_dxf(data: bytes, drawing: Drawing) -> list[Disagreement]:
    """What differs between a DXF and the sheet it should hold; empty when all is true."""
    try:
        read = read_dxf(data)
    except ValueError as fault:
        return [Disagreement("the file", "its form", "a DXF", str(fault))]
    found = [Disagreement("the file", "its audit", "clean", fault) for fault in read.faults]
    if read.unit not in (None, MILLIMETRES):
        found.append(Disagreement("the file", "the code of its unit", str(MILLIMETRES), str(read.unit)))
    found += [Disagreement("the file", "an entity", "lines, arcs and circles", kind) for kind in read.strange]
    wanted = lines_of(drawing)
    return [*found, *_lines(list(_apart(wanted)) if read.is_old else wanted, read.lines)]


def faults_in_layers_svg(data: bytes, drawing: Drawing) -> list[Disagreement]:
    """The same for an SVG."""
    try:
        read = read_svg(data.decode())
    except ValueError as fault:
        return [Disagreement("the file", "its form", "an SVG in mm", str(fault))]
    return [*_svg_size(drawing, read), *_lines(lines_of(drawing), _written(read, "layer", drawing.height))]


def faults_in_nests(data: bytes, drawing: Drawing) -> list[Disagreement]:
    """The same for an SVG of all sizes over each other: each line of each nest."""
    try:
        read = read_svg(data.decode())
    except ValueError as fault:
        return [Disagreement("the file", "its form", "an SVG in mm", str(fault))]
    wanted: list[Wanted] = [(nest.title, one.way) for nest in drawing.find("nest") for one in nest.strokes]
    return [*_svg_size(drawing, read), *_lines(wanted, _written(read, "nest", drawing.height))]


def _svg_size(drawing: Drawing, read: ReadSvg) -> Iterator[Disagreement]:
    yield from _size(drawing, read.size)
    if not read.is_true_size:
        yield Disagreement("the sheet", "its size", f"{read.size} mm", f"{read.view_box} units")


def _written(read: ReadSvg, kind: str, height: float) -> list[LayerLine]:
    groups = (group for group in read.root.walk() if group.kind == kind)
    return [LayerLine(group.title, raised(line, height)) for group in groups for line in group.lines]


def faults_in_layers_pdf(data: bytes, drawing: Drawing) -> list[Disagreement]:
    """The same for a PDF, which has one page."""
    try:
        pages = read_pdf(data)
    except ValueError as fault:
        return [Disagreement("the file", "its form", "a PDF", str(fault))]
    if len(pages) != 1:
        return [Disagreement("the file", "the count of its sheets", "1", str(len(pages)))]
    page = pages[0]
    layers = layers_of_paths(page.page)
    owners = page.owners.tolist()
    written = [
        LayerLine(layers[owner], line.measures) for line, owner in zip(page.lines, owners, strict=True)
    ]
    return [*_size(drawing, (page.width, page.height)), *_lines(lines_of(drawing), written)]


def _size(drawing: Drawing, written: Sequence[float]) -> list[Disagreement]:
    sides = zip(("width", "height"), (drawing.width, drawing.height), written, strict=True)
    return [
        Disagreement("the sheet", f"its {side}", f"{want:.3f} mm", f"{have:.3f} mm")
        for side, want, have in sides
        if abs(want - have) > SAME_LENGTH
    ]


def lines_of(drawing: Drawing) -> list[Wanted]:
    """Each line of a sheet with its layer."""
    return [(group.name, stroke.way) for group in drawing.groups for stroke in group.strokes]


def raised(line: Measures, height: float) -> Measures:
    """A line measured from the upper edge of the sheet, from its lower edge."""
    left, low, right, high = line.box
    return replace(
        line, box=(left, low + height, right, high + height), places=line.places + np.array((0.0, height))
    )


def _apart(wanted: Iterable[Wanted]) -> Iterator[Wanted]:
    """Leg by leg, as release 12 has them; circles stay whole."""
    for layer, way in wanted:
        if _is_circle(way):
            yield layer, way
        else:
            yield from ((layer, Path((part,))) for leg in way.legs for part in _halves(leg))


def _halves(leg: Leg) -> list[Leg]:
    if isinstance(leg, Arc) and degrees(abs(leg.sweep)) > HALVED + 1e-6:
        return [leg.part(0.0, leg.length / 2), leg.part(leg.length / 2, leg.length)]
    return [leg]


def _is_circle(way: Path | Ring) -> bool:
    """All of its legs turn about one place."""
    arcs = [leg for leg in way.legs if isinstance(leg, Arc)]
    same = len(arcs) == len(way.legs) and all(
        arc.center.distance_to(arcs[0].center) < SAME_LENGTH / 10
        and abs(arc.radius - arcs[0].radius) < SAME_LENGTH / 10
        for arc in arcs
    )
    return same and isinstance(way, Ring)


def _lines(wanted: Sequence[Wanted], written: Sequence[LayerLine]) -> Iterator[Disagreement]:
    """Each wanted line is written once; what is written besides is told."""
    claimed, others = _straight_ones(wanted, written)
    by_middle: dict[tuple[int, int], list[int]] = defaultdict(list)
    for index, line in enumerate(written):
        if index not in claimed:
            by_middle[_cell(line.measures.box)].append(index)
    for layer, way in others:
        alike = _alike(layer, box_of(way), written, by_middle)
        nearest = _nearest(layer, way, written, [index for index in alike if index not in claimed])
        if nearest is None:
            yield Disagreement(_where(layer, box_of(way)), "its line", "there", "missing")
        else:
            claimed.add(nearest[0])
            yield from nearest[1]
    for index, line in enumerate(written):
        if index not in claimed:
            yield Disagreement(_where(line.layer, line.measures.box), "a line", "not there", "there")


def _straight_ones(wanted: Sequence[Wanted], written: Sequence[LayerLine]) -> tuple[set[int], list[Wanted]]:
    """The written lines whose ends are those of a wanted straight one on their layer, and the wanted lines that are
    left. Release 12 has little else, so that these are worth a short way; what it misses is found as any other line."""
    by_ends: dict[tuple[object, ...], list[int]] = defaultdict(list)
    for index in range(len(written) - 1, -1, -1):
        line = written[index]
        if line.ends is not None:
            by_ends[line.layer, *_rounded(*line.ends)].append(index)
    claimed: set[int] = set()
    others: list[Wanted] = []
    for layer, way in wanted:
        alike = by_ends.get((layer, *_ends(way))) if by_ends else None
        if alike:
            claimed.add(alike.pop())
        else:
            others.append((layer, way))
    return claimed, others


def _ends(way: Path | Ring) -> tuple[float, ...]:
    """Nothing of a way that is not one straight line."""
    leg = way.legs[0]
    is_straight = len(way.legs) == 1 and isinstance(leg, Line)
    return _rounded(leg.start.x, leg.start.y, leg.end.x, leg.end.y) if is_straight else ()


def _rounded(x: float, y: float, to_x: float, to_y: float) -> tuple[float, ...]:
    """Ends as coarsely as they may differ at most; a line may be written from either of them."""
    one, other = (round(x, ENDS), round(y, ENDS)), (round(to_x, ENDS), round(to_y, ENDS))
    return (*one, *other) if one <= other else (*other, *one)


def _alike(
    layer: str | None, box: Box, written: Sequence[LayerLine], by_middle: Mapping[tuple[int, int], list[int]]
) -> Iterator[int]:
    """The lines with this box on this layer."""
    column, row = _cell(box)
    for cell in ((column + dx, row + dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1)):
        for index in by_middle.get(cell, ()):
            if written[index].layer == layer and _is_near(box, written[index].measures.box):
                yield index


def _is_near(one: Box, other: Box) -> bool:
    (left, low, right, high), (left2, low2, right2, high2) = one, other
    return (
        abs(left - left2) <= SAME_LENGTH
        and abs(low - low2) <= SAME_LENGTH
        and abs(right - right2) <= SAME_LENGTH
        and abs(high - high2) <= SAME_LENGTH
    )


def _nearest(
    layer: str | None, way: Path | Ring, written: Sequence[LayerLine], alike: Sequence[int]
) -> tuple[int, list[Disagreement]] | None:
    """The first of some lines that runs along the same way, else the first of all with what it differs in."""
    first: tuple[int, list[Disagreement]] | None = None
    for index in alike:
        if not any(True for _ in compare("", way, written[index].measures)):
            return index, []
        if first is None:
            first = index, list(compare(_where(layer, box_of(way)), way, written[index].measures))
    return first


def _cell(box: Box) -> tuple[int, int]:
    return round((box[0] + box[2]) / 2 / CELL), round((box[1] + box[3]) / 2 / CELL)


def _where(layer: str | None, box: Box) -> str:
    on = f"layer `{layer}`" if layer else "the sheet"
    return f"{on}, from ({box[0]:.2f}, {box[1]:.2f}) to ({box[2]:.2f}, {box[3]:.2f})"
