"""Reading an SVG back with svgelements and the standard XML reader: what a cutter or a printer will see.

Lengths are measured in the file's own units, which the root must declare to be 1 mm each; svgelements' pixels are left
out of it, for its factor between mm and pixels is 5e-7 too large.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from io import StringIO
from math import atan2, cos, hypot, pi, sin
from xml.etree import ElementTree

import numpy as np
import svgelements

from drafting.proof.expected import Box, Measures

SVG = "{http://www.w3.org/2000/svg}"
MM = re.compile(r"^([0-9.]+)mm$")
MEASURED = ("outline", "feature", "mark", "layer", "nest")
"""The groups whose lines are the pattern's own; the rest is dimension lines, frame and the like."""
SCALE = re.compile(r"^1:([0-9]+)$")


@dataclass(frozen=True)
class ReadGroup:
    """A named group of the file, the lines that stand in it directly, and the groups within."""

    title: str
    kind: str
    lines: tuple[Measures, ...]
    classes: tuple[str, ...]
    """The class of each line that stands directly in the group, `cut` for what is cut."""
    groups: tuple[ReadGroup, ...]
    pricks: tuple[tuple[tuple[float, float], tuple[float, float]], ...] = ()
    """Of a group of stitches each mark: the ends of a slanted one, or the ends of a diameter of a round one, y up."""

    def walk(self) -> Iterator[ReadGroup]:
        yield self
        for group in self.groups:
            yield from group.walk()


@dataclass(frozen=True)
class ReadSvg:
    """The size of the sheet in mm and in user units, the scale that is printed, and all groups."""

    size: tuple[float, float]
    view_box: tuple[float, float, float, float]
    scale: float | None
    root: ReadGroup

    @property
    def is_true_size(self) -> bool:
        left, top, width, height = self.view_box
        return (left, top) == (0, 0) and (width, height) == self.size


def read_svg(text: str) -> ReadSvg:
    """Raises ValueError for a file that is no SVG of ours."""
    try:
        root = ElementTree.fromstring(text)
    except ElementTree.ParseError as fault:
        raise ValueError(str(fault)) from fault
    size = tuple(float(_mm(root.get(side, ""))) for side in ("width", "height"))
    view_box = tuple(float(part) for part in root.get("viewBox", "0 0 0 0").split())
    return ReadSvg(size, view_box, _printed_scale(root), _groups(text, root))  # type: ignore[arg-type]


def _mm(length: str) -> str:
    found = MM.match(length)
    if found is None:
        raise ValueError(f"the size of the sheet is `{length}`, which is not in mm")
    return found.group(1)


def _printed_scale(root: ElementTree.Element) -> float | None:
    """The scale in the title block, as the maker reads it."""
    for field in root.iter(f"{SVG}g"):
        if field.get("class") == "field" and field.findtext(f"{SVG}title") == "Scale":
            for words in field.iter(f"{SVG}text"):
                found = SCALE.match(words.text or "")
                if found:
                    return 1 / int(found.group(1))
    return None


def _groups(text: str, root: ElementTree.Element) -> ReadGroup:
    titles = {group.get("id", ""): group.findtext(f"{SVG}title") or "" for group in root.iter(f"{SVG}g")}
    parsed = svgelements.SVG.parse(StringIO(_in_user_units(text)), reify=True)
    return _group(parsed, titles)


def _in_user_units(text: str) -> str:
    """The same file with a root that has no size in mm, so that svgelements does not turn it into pixels."""
    opening = re.search(r"<svg\b[^>]*>", text)
    if opening is None:
        raise ValueError("there is no svg element")
    bare = re.sub(r'\s(width|height|viewBox)="[^"]*"', "", opening.group(0))
    return text[: opening.start()] + bare + text[opening.end() :]


def _group(element: svgelements.Group, titles: dict[str, str]) -> ReadGroup:
    name = element.values.get("attributes", {}).get("id", "")
    kind = element.values.get("attributes", {}).get("class", "")
    inner = [child for child in element if isinstance(child, svgelements.Group)]
    shapes = [child for child in element if isinstance(child, svgelements.Shape)]
    return ReadGroup(
        titles.get(name, name),
        kind,
        tuple(measure_shape(svgelements.Path(shape)) for shape in shapes) if kind in MEASURED else (),
        tuple(shape.values.get("attributes", {}).get("class", "") for shape in shapes),
        tuple(_group(child, titles) for child in inner),
        tuple(prick for shape in shapes for prick in _pricks(shape)) if kind == "stitches" else (),
    )


def _pricks(shape: svgelements.Shape) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """The first step of each part of a path of stitch marks: a line, or half of a circle."""
    if shape.values.get("attributes", {}).get("class", "") != "prick":
        return
    is_first = False
    for step in svgelements.Path(shape).reify():
        if isinstance(step, svgelements.Move):
            is_first = True
        elif is_first:
            is_first = False
            yield (step.start.x, -step.start.y), (step.end.x, -step.end.y)


def measure_shape(path: svgelements.Path) -> Measures:
    """Length, area and box of one shape; the box with y up."""
    path = path.reify()
    steps = [segment for segment in path if not isinstance(segment, svgelements.Move)]
    length = sum(_length(step) for step in steps)
    closed = any(isinstance(segment, svgelements.Close) for segment in path)
    area = abs(sum(_area(step) for step in steps)) if closed else None
    left, top, right, bottom = _box(steps)
    places = np.array([place for step in steps for place in _places(step)])
    return Measures(length, area, (left, -bottom, right, -top), places)


def _places(step: object) -> Iterator[tuple[float, float]]:
    """The start and the middle of a step, y up."""
    start, end = step.start, step.end  # type: ignore[attr-defined]
    yield start.x, -start.y
    if isinstance(step, svgelements.Arc):
        angle = atan2(start.y - step.center.y, start.x - step.center.x) + step.sweep / 2
        yield step.center.x + step.rx * cos(angle), -(step.center.y + step.rx * sin(angle))
    else:
        yield (start.x + end.x) / 2, -(start.y + end.y) / 2


def _length(step: object) -> float:
    if isinstance(step, svgelements.Arc):
        return float(abs(step.sweep) * step.rx)
    return hypot(step.end.x - step.start.x, step.end.y - step.start.y)  # type: ignore[attr-defined]


def _area(step: object) -> float:
    """What a step adds to the area: half the cross product of its ends, and the segment of an arc."""
    start, end = step.start, step.end  # type: ignore[attr-defined]
    triangle = float(start.x * end.y - end.x * start.y) / 2
    if isinstance(step, svgelements.Arc):
        return triangle + float(step.rx**2 * (step.sweep - sin(step.sweep)) / 2)
    return triangle


def _box(steps: list[svgelements.PathSegment]) -> Box:
    """The box around the ends of all steps and the outermost points of arcs."""
    points = [point for step in steps for point in _outermost(step)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))


def _outermost(step: object) -> Iterator[tuple[float, float]]:
    start, end = step.start, step.end  # type: ignore[attr-defined]
    yield start.x, start.y
    yield end.x, end.y
    if isinstance(step, svgelements.Arc):
        first = atan2(start.y - step.center.y, start.x - step.center.x)
        for quarter in range(4):
            turn = (quarter * pi / 2 - first) % (2 * pi)
            reached = turn if step.sweep > 0 else 2 * pi - turn
            if reached <= abs(step.sweep):
                angle = quarter * pi / 2
                yield step.center.x + step.rx * cos(angle), step.center.y + step.rx * sin(angle)
