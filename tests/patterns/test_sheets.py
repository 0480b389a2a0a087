"""Every sheet of every starter in every size can be read: nothing on words, no tangle of leaders, nothing told twice."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

import pytest

import drafting
from drafting.drawing import Drawing, collisions, overview, piece_sheet
from drafting.drawing.marks import Group
from drafting.drawing.obstacles import Segment, segments_of
from drafting.solve.placed import Placed
from tests.patterns.starters import STARTERS, starter_path

SHOWN = (("mm",), ("in",), ("mm", "in"))
ON_THE_LINE = 0.25
"""Nearer than this, in mm on the sheet, a leader ends on a line; the rim of a slot drawn small lies a little farther off."""


def placed_in_every_size(name: str) -> Iterator[Placed]:
    """Each size in the units of the pattern, and the first in mm, in inches and in both."""
    pattern = drafting.load(starter_path(name))
    placed = [pattern.place(size).placed for size in pattern.sizes or (None,)]
    yield from placed
    yield from (replace(placed[0], show=show) for show in SHOWN if show != placed[0].show)


def sheets_of(placed: Placed) -> Iterator[tuple[str, Drawing]]:
    where = f"{placed.stem}, {placed.size}, {' and '.join(placed.show)}"
    yield f"{where}: overview", overview(placed)
    for name in placed.pieces:
        yield f"{where}: {name}", piece_sheet(placed, name)


@pytest.mark.parametrize("name", STARTERS)
def test_every_sheet_can_be_read(name: str) -> None:
    found: list[str] = []
    for placed in placed_in_every_size(name):
        for where, drawing in sheets_of(placed):
            found += [f"{where}: {fault}" for fault in faults_of(drawing)]
    assert found == []


def faults_of(drawing: Drawing) -> Iterator[str]:
    yield from (f"`{one.text}` lies on {one.on}" for one in collisions(drawing))
    yield from crossed_leaders(drawing)
    yield from leaders_to_the_mirror_line(drawing)
    yield from doubled_dimensions(drawing)


def crossed_leaders(drawing: Drawing) -> Iterator[str]:
    """Leaders that cross each other or a dimension line."""
    notes, dimensions = drawing.find("note"), drawing.find("dimension")
    pairs = [*combinations(notes, 2), *((note, dimension) for note in notes for dimension in dimensions)]
    for one, other in pairs:
        if any(segments_cross(a, b) for a in straight_parts(one) for b in straight_parts(other)):
            yield f"the leader of `{one.title}` crosses that of `{other.title}`"


def straight_parts(group: Group) -> list[Segment]:
    """Leaders and dimension lines of a group."""
    strokes = [stroke for stroke in group.strokes if stroke.kind.name in ("leader", "dimension")]
    return [part for stroke in strokes if not stroke.is_filled for part in segments_of(stroke.way)]


def leaders_to_the_mirror_line(drawing: Drawing) -> Iterator[str]:
    """In true size; on a reduced overview a whole strap may be no wider than what is asked here."""
    if drawing.scale < 1:
        return
    lines = [stroke.way for group in drawing.find("symmetry") for stroke in group.strokes]
    for note in drawing.find("note"):
        tip = next(stroke for stroke in note.strokes if stroke.is_filled).way.start
        if any(line.distance_to_point(tip) < ON_THE_LINE for line in lines):
            yield f"the leader of `{note.title}` ends on the mirror line"


def doubled_dimensions(drawing: Drawing) -> Iterator[str]:
    """Parallel dimension lines between the same two places of one piece."""
    for piece in drawing.find("sheet-piece"):
        spans = [span_of(group) for group in piece.walk() if group.kind == "dimension"]
        for (one, ends), (other, others) in combinations(spans, 2):
            if all(abs(a - b) < 0.01 for a, b in zip(ends, others, strict=True)):
                yield f"`{one}` and `{other}` measure the same"


def span_of(group: Group) -> tuple[str, tuple[float, ...]]:
    """The words of a dimension, its direction and where its two ends are along it: the tips of its arrowheads."""
    first, last = (stroke.way.start for stroke in group.strokes if stroke.is_filled)
    along = (last - first).unit()
    places = [point.x * along.x + point.y * along.y for point in (first, last)]
    return group.title or "", (along.x, along.y, *places)


def segments_cross(one: Segment, other: Segment) -> bool:
    """True when two straight pieces cross at inner points."""
    ax, ay, bx, by = one
    cx, cy, dx, dy = other
    first = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
    second = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax)
    third = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx)
    fourth = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx)
    return first * second < 0 and third * fourth < 0
