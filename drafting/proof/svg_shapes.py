"""The shapes of an SVG as they measure, in user units with y up.

Most of them are circles and straight lines, which are read by the grammar of SVG 1.1 (8.3 and 9.3) from what the XML
reader found; all else is read by svgelements, which takes a hundred times as long.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import cos, hypot, pi, sin

import numpy as np

from drafting.proof.expected import Box, Measures

Place = tuple[float, float]
Attributes = Mapping[str, str]

NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)")
PLACE = rf"\s*{NUMBER.pattern}\s*,\s*{NUMBER.pattern}\s*"
STRAIGHT = re.compile(rf"\s*M{PLACE}(?:L{PLACE})*Z?\s*")
"""One line from place to place, measured from the corner of the sheet, and no other step."""
TICKS = re.compile(rf"(?:M{PLACE}L{PLACE})*")
"""Straight lines of one step each."""
GAP = r"[ ,]"
HALF = rf"a({NUMBER.pattern}){GAP}({NUMBER.pattern}){GAP}0{GAP}0{GAP}1{GAP}({NUMBER.pattern}){GAP}({NUMBER.pattern})"
DOT = re.compile(rf"M({NUMBER.pattern}),({NUMBER.pattern}){HALF}{HALF}z")
"""A circle of two half circles, each from place to place by relative steps."""
KINDS = {
    "path": "Path", "circle": "Circle", "ellipse": "Ellipse", "line": "SimpleLine", "polyline": "Polyline",
    "polygon": "Polygon", "rect": "Rect",
}  # fmt: skip
"""The shapes of SVG and what svgelements calls them."""
HALVES = 1e-4
"""mm by which the ends of half a circle may be nearer or farther than its diameter: what rounding makes of both."""
EIGHTHS = np.array([(cos(pi * part / 4), sin(pi * part / 4)) for part in range(8)])


def measure(tag: str, attributes: Attributes, transform: str = "") -> Measures:
    """One shape, moved as its own and all outer `transform` say; ValueError tells what cannot be read."""
    if not transform and tag == "circle":
        found = _circle(attributes)
    else:
        found = None if transform or tag != "path" else _straight(attributes.get("d", ""))
    if found is None:
        from drafting.proof.svg_curves import measure_shape, path_of

        found = measure_shape(path_of(tag, attributes, transform))
    return found


def pricks(attributes: Attributes, transform: str = "") -> Iterator[tuple[Place, Place]]:
    """The first step of each part of a path of stitch marks: a line, or half of a circle."""
    drawn = attributes.get("d", "")
    if not transform and TICKS.fullmatch(drawn):
        numbers = [float(number) for number in NUMBER.findall(drawn)]
        for x, y, to_x, to_y in zip(*(numbers[part::4] for part in range(4)), strict=True):
            yield (x, -y), (to_x, -to_y)
        return
    dots = None if transform else _dots(drawn)
    if dots is not None:
        yield from dots
        return
    from drafting.proof.svg_curves import first_steps, path_of

    yield from first_steps(path_of("path", attributes, transform))


def _dots(drawn: str) -> list[tuple[Place, Place]] | None:
    """Both ends of a diameter of each of many dots; None where one of them is no circle of two halves."""
    found, at = [], 0
    while dot := DOT.match(drawn, at):
        x, y, *halves = map(float, dot.groups())
        (rx, ry, across, up), back = halves[:4], halves[4:]
        if not (rx == ry and abs(hypot(across, up) - 2 * rx) <= HALVES and back == [rx, ry, -across, -up]):
            return None
        found.append(((x, -y), (x + across, -y - up)))
        at = dot.end()
    return found if at == len(drawn) and found else None


def corners(drawn: str) -> tuple[list[Place], bool]:
    """The corners of path data, y down, and whether it is closed."""
    if STRAIGHT.fullmatch(drawn):
        numbers = [float(number) for number in NUMBER.findall(drawn)]
        return list(zip(numbers[::2], numbers[1::2], strict=True)), drawn.rstrip().endswith("Z")
    from drafting.proof.svg_curves import corners_of

    return corners_of(drawn)


def _circle(attributes: Attributes) -> Measures | None:
    """None where its numbers are no plain ones."""
    words = [attributes.get(name, "0") for name in ("cx", "cy", "r")]
    if not all(map(NUMBER.fullmatch, words)):
        return None
    return circle_measures(float(words[0]), -float(words[1]), float(words[2]))


def circle_measures(x: float, y: float, radius: float) -> Measures:
    """Of a whole circle."""
    box = (x - radius, y - radius, x + radius, y + radius)
    return Measures(2 * pi * radius, pi * radius**2, box, EIGHTHS * radius + (x, y))


def _straight(drawn: str) -> Measures | None:
    """None where it has other steps, too, or none."""
    if not STRAIGHT.fullmatch(drawn):
        return None
    down, is_closed = corners(drawn)
    spots = [(x, -y) for x, y in (*down, *(down[:1] if is_closed else ()))]
    return straight_measures(spots, is_closed) if len(spots) > 1 else None


def straight_measures(spots: Sequence[Place], is_closed: bool) -> Measures:
    """Of a line from place to place, two or more; one that is closed ends where it began."""
    steps = list(pairwise(spots))
    length = sum(hypot(bx - ax, by - ay) for (ax, ay), (bx, by) in steps)
    area = _area_of(spots) if is_closed else None
    halfway = [place for (ax, ay), (bx, by) in steps for place in ((ax, ay), ((ax + bx) / 2, (ay + by) / 2))]
    return Measures(length, area, box_around(spots), np.array(halfway))


def _area_of(spots: Sequence[Place]) -> float:
    """Seen from the first of the places: far from the corner of the sheet a small line keeps its digits."""
    x, y = spots[0]
    near = [(at_x - x, at_y - y) for at_x, at_y in spots]
    return abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairwise(near))) / 2


def box_around(places: Sequence[Place]) -> Box:
    xs, ys = [x for x, _ in places], [y for _, y in places]
    return (min(xs), min(ys), max(xs), max(ys))
