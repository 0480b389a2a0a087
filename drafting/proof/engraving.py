"""Proving an engraving as SVG: every corner of every stroke where it was laid, and nothing else to follow.

As strict as the proof of any sheet for a machine, and quick enough for a thousand people: letters are straight steps,
so their corners are held against each other in the order in which they were laid; only edges are measured as curves.
svgelements and the standard XML reader read the file.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import hypot
from xml.etree import ElementTree

from drafting.drawing.marks import Drawing, Stroke
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.proof.disagreement import SAME_LENGTH, Disagreement
from drafting.proof.expected import Measures
from drafting.proof.machine import raised
from drafting.proof.read_svg import MM, SVG
from drafting.proof.svg import compare
from drafting.proof.svg_shapes import corners, measure

SHAPES = ("path", "circle", "ellipse", "line", "polyline", "polygon", "rect", "text", "use", "image")
"""What a machine may follow."""


def check_engraving(data: bytes, drawing: Drawing) -> list[Disagreement]:
    """What differs between a written file and its drawing of layers; empty when all is true."""
    try:
        root = ElementTree.fromstring(data)
    except ElementTree.ParseError as fault:
        return [Disagreement("the file", "its form", "an SVG", str(fault))]
    return list(_sheet(root, drawing))


def _sheet(root: ElementTree.Element, drawing: Drawing) -> Iterator[Disagreement]:
    sizes = [MM.match(root.get(side, "")) for side in ("width", "height")]
    size = [float(found.group(1)) for found in sizes if found]
    wanted = [drawing.width, drawing.height]
    if not _is_near([0, 0, *size], [float(part) for part in root.get("viewBox", "").split()]):
        yield Disagreement("the sheet", "its scale", "1:1", "another one")
    elif not _is_near(size, wanted):
        yield Disagreement("the sheet", "its size in mm", str(wanted), str(size))
    else:
        yield from _layers(root, drawing, size[1])


def _is_near(first: Sequence[float], second: Sequence[float]) -> bool:
    pairs = zip(first, second, strict=False)
    return len(first) == len(second) and all(abs(a - b) <= SAME_LENGTH for a, b in pairs)


def _layers(root: ElementTree.Element, drawing: Drawing, high: float) -> Iterator[Disagreement]:
    found = {group.findtext(f"{SVG}title"): list(group) for group in root.iter(f"{SVG}g")}
    for group in drawing.groups:
        lines = [line for line in found.get(group.name, []) if line.tag.removeprefix(SVG) in SHAPES]
        ways = [mark.way for mark in group.marks if isinstance(mark, Stroke)]
        if len(lines) != len(ways):
            counts = (str(len(ways)), str(len(lines)))
            yield Disagreement(f"layer `{group.name}`", "the count of its lines", *counts)
            return
        for line, way in zip(lines, ways, strict=True):
            yield from _line(f"layer `{group.name}`", line, way, high)
    count = sum(1 for name in SHAPES for _ in root.iter(f"{SVG}{name}"))
    if count != sum(len(group.marks) for group in drawing.groups):
        yield Disagreement("the sheet", "a line on no layer", "not there", "there")


def _line(where: str, line: ElementTree.Element, way: Path | Ring, high: float) -> Iterator[Disagreement]:
    if not all(isinstance(leg, Line) for leg in way.legs):
        values = tuple(sorted(line.attrib.items()))
        yield from compare(where, way, raised(_measured(line.tag.removeprefix(SVG), values), high))
        return
    off = _off(line.get("d", ""), way, high)
    if off > SAME_LENGTH:
        place = f"at ({way.start.x:.2f}, {way.start.y:.2f})"
        yield Disagreement(where, f"a line {place}", "as it was laid", f"{off:.4f} mm off")


def _off(drawn: str, way: Path | Ring, high: float) -> float:
    """How far the corners of a written line are off; infinitely where it has others, or is open for closed."""
    places, is_closed = corners(drawn)
    wanted = [way.legs[0].start, *(leg.end for leg in way.legs)]
    if len(places) != len(wanted) or is_closed != isinstance(way, Ring):
        return float("inf")
    return max(hypot(x - at.x, high - y - at.y) for (x, y), at in zip(places, wanted, strict=True))


@lru_cache(maxsize=64)
def _measured(tag: str, attributes: tuple[tuple[str, str], ...]) -> Measures:
    """The edge of a piece is the same for all of one size, and so is what it measures."""
    return measure(tag, dict(attributes))
