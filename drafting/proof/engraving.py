"""Proving an engraving: every line of every letter where it was laid, on a piece whose edge is the drafted one.

The file is read with svgelements and the standard XML reader. Nothing else may be on the sheet, for the machine would
follow it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import hypot
from xml.etree import ElementTree

import svgelements

from drafting.drawing.roster.engraving import Blank, Lettered
from drafting.geometry.path import Path, Ring
from drafting.proof.disagreement import SAME_LENGTH, Disagreement
from drafting.proof.expected import Measures
from drafting.proof.read_svg import MM, SVG, measure_shape
from drafting.proof.svg import compare

SHAPES = ("path", "circle", "ellipse", "line", "polyline", "polygon")
"""What a machine follows; the paper is a rect."""


def check_engraving(text: str, blanks: Sequence[Blank]) -> list[Disagreement]:
    """What differs between a written file and what is to be engraved, in mm; empty when all is true."""
    try:
        root = ElementTree.fromstring(text)
    except ElementTree.ParseError as fault:
        return [Disagreement("the file", "its form", "an SVG", str(fault))]
    return list(_sheet(root, blanks))


def _sheet(root: ElementTree.Element, blanks: Sequence[Blank]) -> Iterator[Disagreement]:
    sizes = [MM.match(root.get(side, "")) for side in ("width", "height")]
    size = [float(found.group(1)) for found in sizes if found]
    if [0.0, 0.0, *size] != [float(part) for part in root.get("viewBox", "").split()]:
        yield Disagreement("the sheet", "its scale", "1:1", "another one")
        return
    groups = [group for group in root.iter(f"{SVG}g") if group.get("class") == "piece"]
    if len(groups) != len(blanks):
        yield Disagreement("the sheet", "the count of its pieces", str(len(blanks)), str(len(groups)))
        return
    wanted = sum(1 + sum(len(each.ways) for each in blank.lettered) for blank in blanks)
    found = sum(1 for name in SHAPES for _ in root.iter(f"{SVG}{name}"))
    if wanted != found:
        yield Disagreement("the sheet", "the count of its lines", str(wanted), str(found))
        return
    for group, blank in zip(groups, blanks, strict=True):
        yield from _blank(group, blank, size[1])


def _blank(group: ElementTree.Element, blank: Blank, high: float) -> Iterator[Disagreement]:
    outline, *words = (part for part in group.iter(f"{SVG}g") if part is not group)
    edge = outline[-1]
    yield from compare(f"{blank.name}.outline", blank.edge, _raised(_measured(*_drawn(edge)), high))
    for part, each in zip(words, blank.lettered, strict=True):
        yield from _words(part, each, high)


def _words(part: ElementTree.Element, each: Lettered, high: float) -> Iterator[Disagreement]:
    lines = [line for line in part if line.tag == f"{SVG}path"]
    where = each.stamp.full_name
    if len(lines) != len(each.ways):
        yield Disagreement(where, "the count of its strokes", str(len(each.ways)), str(len(lines)))
        return
    off = max(_off(line.get("d", ""), way, high) for line, way in zip(lines, each.ways, strict=True))
    if off > SAME_LENGTH:
        yield Disagreement(where, "its letters", "as they were laid", f"{off:.4f} mm off")


def _off(drawn: str, way: Path | Ring, high: float) -> float:
    """How far the corners of a written line are off; infinitely where there are others than there should be."""
    steps = [step for step in svgelements.Path(drawn) if not isinstance(step, svgelements.Close)]
    places = [(step.end.x, high - step.end.y) for step in steps]
    corners = [way.legs[0].start, *(leg.end for leg in way.legs)]
    if len(places) != len(corners):
        return float("inf")
    return max(hypot(x - at.x, y - at.y) for (x, y), at in zip(places, corners, strict=True))


def _drawn(element: ElementTree.Element) -> tuple[str, tuple[tuple[str, str], ...]]:
    return element.tag.removeprefix(SVG), tuple(sorted(element.attrib.items()))


@lru_cache(maxsize=64)
def _measured(tag: str, attributes: tuple[tuple[str, str], ...]) -> Measures:
    """The edge of a piece is the same for all of one size, and so is what it measures."""
    values = dict(attributes)
    shape = svgelements.Circle(values) if tag == "circle" else svgelements.Path(values["d"])
    return measure_shape(svgelements.Path(shape))


def _raised(read: Measures, high: float) -> Measures:
    """With y up from the foot of the sheet."""
    left, low, right, top = read.box
    places = tuple((x, y + high) for x, y in read.places)
    return Measures(read.length, read.area, (left, low + high, right, top + high), places)
