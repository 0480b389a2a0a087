"""The shapes of an SVG that are more than straight lines and circles, as svgelements reads them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import atan2, cos, hypot, pi, sin

import numpy as np
import svgelements

from drafting.proof.expected import Measures
from drafting.proof.svg_shapes import KINDS, Attributes, Place, box_around

ROUND = 1e-6
"""mm by which the two radii of an arc may differ."""


def path_of(tag: str, attributes: Attributes, transform: str = "") -> svgelements.Path:
    """Any shape, moved as is said. Raises ValueError."""
    own = {name: value for name, value in attributes.items() if name != "transform"}
    try:
        path = svgelements.Path(getattr(svgelements, KINDS[tag])(own))
        return (path * svgelements.Matrix(transform) if transform else path).reify()
    except (ValueError, TypeError, LookupError, AttributeError) as fault:
        raise ValueError(f"a {tag} cannot be read: {fault}") from fault


def first_steps(path: svgelements.Path) -> Iterator[tuple[Place, Place]]:
    """Where the first step of each part begins and ends, y up."""
    for before, step in pairwise(path):
        if isinstance(before, svgelements.Move):
            yield (step.start.x, -step.start.y), (step.end.x, -step.end.y)


def corners_of(drawn: str) -> tuple[list[Place], bool]:
    """The corners of path data, y down, and whether it is closed."""
    steps = list(svgelements.Path(drawn))
    places = [(step.end.x, step.end.y) for step in steps if not isinstance(step, svgelements.Close)]
    return places, len(places) < len(steps)


def _is_known(step: object) -> bool:
    if isinstance(step, svgelements.Arc):
        return bool(abs(step.rx - step.ry) <= ROUND)
    return isinstance(step, svgelements.Line | svgelements.Close)


def measure_shape(path: svgelements.Path) -> Measures:
    """Length, area and box of one shape with its transform in it; the box with y up. Raises ValueError."""
    steps = [segment for segment in path if not isinstance(segment, svgelements.Move)]
    if not steps or not all(map(_is_known, steps)):
        raise ValueError("a shape has other steps than straight ones and arcs of circles")
    length = sum(_length(step) for step in steps)
    closed = any(isinstance(segment, svgelements.Close) for segment in path)
    first = (steps[0].start.x, steps[0].start.y)
    area = abs(sum(_area(step, first) for step in steps)) if closed else None
    left, top, right, bottom = box_around([place for step in steps for place in _outermost(step)])
    places = np.array([place for step in steps for place in _places(step)])
    return Measures(length, area, (left, -bottom, right, -top), places)


def _places(step: object) -> Iterator[Place]:
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


def _area(step: object, first: Place) -> float:
    """What a step adds to the area: half the cross product of its ends, seen from the first place of the shape, and the
    segment of an arc."""
    start, end = step.start, step.end  # type: ignore[attr-defined]
    x, y = first
    triangle = float((start.x - x) * (end.y - y) - (end.x - x) * (start.y - y)) / 2
    if isinstance(step, svgelements.Arc):
        return triangle + float(step.rx**2 * (step.sweep - sin(step.sweep)) / 2)
    return triangle


def _outermost(step: object) -> Iterator[Place]:
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
