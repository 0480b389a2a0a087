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
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.solve.placed import Placed
from tests.patterns.starters import STARTERS, starter_path

SHOWN = (("mm",), ("in",), ("mm", "in"))
ON_THE_LINE = 0.25
"""Nearer than this, in mm on the sheet, a leader ends on a line; the rim of a slot drawn small lies a little farther off."""

MOST_EDGES = 2
"""Of the leather, that a leader crosses: out of a door in the piece, and out of the piece."""


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
    yield from mirrored_dimensions(drawing)
    yield from notes_told_twice(drawing)
    yield from extensions_along_lines(drawing)
    yield from leaders_through_the_piece(drawing)


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


def mirrored_dimensions(drawing: Drawing) -> Iterator[str]:
    """As far to both sides of the mirror line for one feature."""
    for piece in drawing.find("sheet-piece"):
        spans = [(group.name, *span_of(group)) for group in piece.walk() if group.kind == "dimension"]
        for (name, told, one), (other_name, other_told, other) in combinations(spans, 2):
            is_next_to_it = any(abs(one[a] - other[b]) < 0.01 for a, b in ((2, 3), (3, 2)))
            if name == other_name and told == other_told and one[:2] == other[:2] and is_next_to_it:
                yield f"`{told}` of {name} is told to both sides"


def notes_told_twice(drawing: Drawing) -> Iterator[str]:
    """One note says what another does, and its seam as well."""
    for piece in drawing.find("sheet-piece"):
        told = [group.title or "" for group in piece.walk() if group.kind == "note"]
        yield from (
            f"`{one}` and `{two}` say the same"
            for one in told
            for two in told
            if two.startswith(f"{one}, seam")
        )


def extensions_along_lines(drawing: Drawing) -> Iterator[str]:
    """An extension line on a line of the piece: on a dashed one it looks like a line drawn through. Center lines may be
    drawn on as extension lines (ISO 129-1, from memory)."""
    for piece in drawing.find("sheet-piece"):
        lines = [
            (stroke.kind.name, leg)
            for view in piece.walk()
            if view.kind == "piece"
            for stroke in view.strokes
            for leg in stroke.way.legs
            if isinstance(leg, Line) and stroke.kind.name != "symmetry"
        ]
        for group in (group for group in piece.walk() if group.kind == "dimension"):
            for extension in (stroke.way for stroke in group.strokes if stroke.kind.name == "extension"):
                on = [kind for kind, leg in lines if runs_along(extension, leg)]
                yield from (f"an extension line of `{group.title}` runs on a line: {kind}" for kind in on)


def runs_along(extension: Path | Ring, leg: Line) -> bool:
    """True when more than a millimetre of one lies on the other."""
    along = (extension.end - extension.start).unit()
    places = [(point - extension.start).dot(along) for point in (leg.start, leg.end)]
    sides = [abs((point - extension.start).cross(along)) for point in (leg.start, leg.end)]
    both = min(extension.length, max(places)) - max(0.0, min(places))
    return max(sides) < 0.05 and both > 1.0


def leaders_through_the_piece(drawing: Drawing) -> Iterator[str]:
    """A leader takes the short way out."""
    for piece in drawing.find("sheet-piece"):
        edges = [part for stroke in piece.strokes if stroke.kind.is_cut for part in segments_of(stroke.way)]
        for note in (group for group in piece.walk() if group.kind == "note"):
            leader, _ = straight_parts(note)
            crossed = sum(segments_cross(leader, edge) for edge in edges)
            if crossed > MOST_EDGES:
                yield f"the leader of `{note.title}` crosses {crossed} edges of the piece"


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
