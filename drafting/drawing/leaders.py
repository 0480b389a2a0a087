"""Where notes go: words beside the piece or on free leather, tied by a leader to what they speak of.

A leader ends in an arrowhead on the line it means and carries its words on a level stub (ISO 128-22). Near places are
tried before far ones; crossing lines costs, crossing words is out of the question.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import pi

from drafting.drawing.arrows import arrowhead, straight
from drafting.drawing.board import CLEARANCE, Board
from drafting.drawing.lettering import LINE_PITCH, natural_width
from drafting.drawing.lines import LEADER
from drafting.drawing.marks import DESCENT, RISE, Group, Lettering, Stroke
from drafting.drawing.notes import Note, Target
from drafting.drawing.obstacles import box_meets_segment, segments_of
from drafting.geometry.bounds import Bounds
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector

LENGTHS = (7.0, 10.0, 14.0, 19.0, 25.0, 32.0, 42.0, 55.0, 72.0, 95.0, 130.0, 180.0)
TURNS = (0.0, pi / 9, -pi / 9, pi / 4.5, -pi / 4.5, pi / 3, -pi / 3)
"""How far a leader may lean off the straight way out."""
CROSSING = 6.0
EXTENSION_CROSSING = 22.0
TANGLE = 150.0
"""What it costs to cross any line, an extension line, and another leader or a dimension line."""
ON_MIRROR = 60.0
"""What it costs to point at a place on the mirror line, where nobody sees what is meant."""
NEAR_MIRROR = 1.2
MOST_ROUNDS = 4
BROKEN = 2.5
"""What it costs to break words into two lines."""
ON_LEATHER = 2.0
GROWTH = 0.3
STUB_CLEARANCE = 1.0

Axis = tuple[Point, Vector]
"""A place on the mirror line, and its direction of length 1."""


@dataclass(frozen=True)
class Leader:
    """One way to tell a note: from `tip` to `elbow`, then level under its lines of words to the right or left."""

    texts: tuple[str, ...]
    tip: Point
    elbow: Point
    goes_right: bool
    height: float
    cost: float

    @cached_property
    def words(self) -> list[Lettering]:
        """The lines of words, stacked on the stub."""
        lift, last = self.height * (DESCENT + 0.15), len(self.texts) - 1
        x = self.elbow.x + (0.5 if self.goes_right else -0.5)
        anchor = "start" if self.goes_right else "end"
        return [
            Lettering(
                text,
                Point(x, self.elbow.y + lift + (last - index) * LINE_PITCH * self.height),
                self.height,
                anchor,
                use="note",
            )
            for index, text in enumerate(self.texts)
        ]

    @property
    def bounds(self) -> Bounds:
        """The box around lines and words, reckoned and not measured: most leaders are only looked at once."""
        rise = self.height * (DESCENT + 0.15 + (len(self.texts) - 1) * LINE_PITCH + RISE)
        xs = (self.tip.x, self.elbow.x, self.end.x)
        ys = (self.tip.y, self.elbow.y, self.elbow.y + rise)
        return Bounds(min(xs), min(ys), max(xs), max(ys))

    @property
    def end(self) -> Point:
        """The end of the stub, a little past the longest line of words."""
        width = max(natural_width(text, self.height) for text in self.texts) + 1.0
        return Point(self.elbow.x + (width if self.goes_right else -width), self.elbow.y)

    @cached_property
    def lines(self) -> list[Stroke]:
        return [straight(LEADER, self.tip, self.elbow), straight(LEADER, self.elbow, self.end)]

    @property
    def strokes(self) -> list[Stroke]:
        return [*self.lines, arrowhead(self.tip, (self.tip - self.elbow).unit(), self.height)]


@dataclass(frozen=True)
class Layout:
    """Notes as they come to stand in one order: their groups, those whose leaders cross others, those without place."""

    groups: list[Group]
    crossing: list[Group]
    tangled: list[Note]
    refused: list[Note]

    @property
    def late(self) -> list[Note]:
        return [*self.refused, *self.tangled]


def place_notes_on(
    board: Board, notes: Sequence[Note], outline: Ring, axis: Axis | None, height: float, may_tangle: bool
) -> tuple[list[Group], list[Note]]:
    """Draws notes about a piece with its mirror line; gives back also those for which no place was left, and those
    whose leaders would cross others unless they may.

    Those with the least choice come first. Where leaders cross, the notes that came too late get the first choice.
    """
    order = sorted(notes, key=lambda note: len(note.targets))
    layouts: list[Layout] = []
    for _ in range(MOST_ROUNDS):
        layouts.append(_laid_out(board.copy(), order, outline, axis, height))
        late = layouts[-1].late
        if not late:
            break
        order = [*late, *(note for note in order if note not in late)]
    best = min(layouts, key=lambda layout: len(layout.late))
    kept = best.groups if may_tangle else [group for group in best.groups if group not in best.crossing]
    for group in kept:
        board.add(group)
    return kept, best.refused if may_tangle else best.late


def _laid_out(board: Board, notes: Sequence[Note], outline: Ring, axis: Axis | None, height: float) -> Layout:
    """The notes in an order, each in the best place that is left."""
    layout = Layout([], [], [], [])
    for note in notes:
        leader = best_leader(board, note, outline, axis, height)
        if leader is None:
            layout.refused.append(note)
            continue
        group = Group("note", note.name, (*leader.strokes, *leader.words), title=note.text)
        if board.leader_crossings(leader.lines):
            layout.tangled.append(note)
            layout.crossing.append(group)
        board.add(group)
        layout.groups.append(group)
    return layout


def best_leader(board: Board, note: Note, outline: Ring, axis: Axis | None, height: float) -> Leader | None:
    """The least costly way that is free, judged by what it crosses and how far it makes the drawing spread."""
    best: Leader | None = None
    least = float("inf")
    for leader in sorted(leaders(note, axis, height), key=lambda one: one.cost):
        if leader.cost >= least:
            break
        cost = leader.cost + GROWTH * board.growth(leader.bounds)
        if cost >= least or not _is_free(board, leader):
            continue
        cost += _entanglement(board, leader)
        if cost < least and outline.contains(leader.elbow):
            cost += ON_LEATHER
        if cost < least:
            best, least = leader, cost
    return best


def _entanglement(board: Board, leader: Leader) -> float:
    """What the lines that the leader crosses cost."""
    lines = leader.lines
    return (
        CROSSING * board.crossings(lines)
        + EXTENSION_CROSSING * board.extension_crossings(lines)
        + TANGLE * board.leader_crossings(lines)
    )


def _is_free(board: Board, leader: Leader) -> bool:
    return (
        all(board.is_free_for(line, CLEARANCE) for line in leader.words)
        and board.lines_clear_words(leader.strokes)
        and not _lies_along_line(board, leader)
        and not _words_meet_own_lines(leader)
    )


def _lies_along_line(board: Board, leader: Leader) -> bool:
    """True when the stub under the words runs on or into another line: it would look like part of it."""
    stub = leader.lines[1].way
    low, high = sorted((stub.start.x, stub.end.x))
    y = leader.elbow.y
    box = (
        Point(low - STUB_CLEARANCE, y - STUB_CLEARANCE),
        Point(high + STUB_CLEARANCE, y - STUB_CLEARANCE),
        Point(high + STUB_CLEARANCE, y + STUB_CLEARANCE),
        Point(low - STUB_CLEARANCE, y + STUB_CLEARANCE),
    )
    return board.drawn.box_meets_strokes(box)


def _words_meet_own_lines(leader: Leader) -> bool:
    """True when the leader would run through its own words on its way back."""
    return any(
        box_meets_segment(line.corners, segment, stroke.half_width + 0.1)
        for line in leader.words
        for stroke in leader.strokes
        for segment in segments_of(stroke.way)
    )


def leaders(note: Note, axis: Axis | None, height: float) -> Iterator[Leader]:
    """Every target, lean, length and side, the words on one line or on two."""
    for target in note.targets:
        on_mirror = axis is not None and abs((target.tip - axis[0]).cross(axis[1])) < NEAR_MIRROR
        for lean in TURNS:
            for length in LENGTHS:
                for leader in _leaders_at(note.texts, target, lean, length, height):
                    yield replace(leader, cost=leader.cost + ON_MIRROR) if on_mirror else leader


def _leaders_at(
    texts: Sequence[tuple[str, ...]], target: Target, lean: float, length: float, height: float
) -> Iterator[Leader]:
    direction = target.outward.turned(lean)
    if abs(direction.y) < 0.2:
        return
    elbow = target.tip + direction * length
    cost = length + 2.5 * abs(lean) + _plainness(direction)
    for goes_right in (True, False):
        backward = direction.x < -0.05 if goes_right else direction.x > 0.05
        for lines in texts:
            more = (10.0 if backward else 0.0) + BROKEN * (len(lines) - 1)
            yield Leader(lines, target.tip, elbow, goes_right, height, cost + more)


def _plainness(direction: Vector) -> float:
    """Leaders lean: plumb ones are taken for extension lines, flat ones for dimension lines."""
    steep = abs(direction.y)
    return 6.0 if steep > 0.98 else 1.5 if steep < 0.35 else 0.0
