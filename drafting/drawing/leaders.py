"""Where notes go: words beside the piece or on free leather, tied by a leader to what they speak of.

A leader ends in an arrowhead on the line it means and carries its words on a level stub (ISO 128-22). Near places are
tried before far ones; crossing lines costs, crossing words is out of the question.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import pi

from drafting.drawing.arrows import arrowhead, straight
from drafting.drawing.board import CLEARANCE, Board
from drafting.drawing.lettering import natural_width
from drafting.drawing.lines import LEADER
from drafting.drawing.marks import DESCENT, Group, Lettering, Stroke
from drafting.drawing.notes import Note, Target
from drafting.drawing.obstacles import box_meets_segment, segments_of
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector

LENGTHS = (7.0, 10.0, 14.0, 19.0, 25.0, 32.0, 42.0, 55.0, 72.0, 95.0, 130.0, 180.0)
TURNS = (0.0, pi / 9, -pi / 9, pi / 4.5, -pi / 4.5, pi / 3, -pi / 3)
"""How far a leader may lean off the straight way out."""
WORST_CROSSING = 3.0
TANGLE = 15.0
"""What it costs to cross another leader or a dimension line."""
ON_LEATHER = 2.0
GROWTH = 0.3
STUB_CLEARANCE = 1.0


@dataclass(frozen=True)
class Leader:
    """One way to tell a note: from `tip` to `elbow`, then level under the words to the right or left."""

    note: Note
    tip: Point
    elbow: Point
    goes_right: bool
    height: float
    cost: float

    @property
    def words(self) -> Lettering:
        lift = self.height * (DESCENT + 0.15)
        inset = 0.5 if self.goes_right else -0.5
        at = Point(self.elbow.x + inset, self.elbow.y + lift)
        return Lettering(self.note.text, at, self.height, "start" if self.goes_right else "end", 0.0, "note")

    @property
    def lines(self) -> list[Stroke]:
        width = natural_width(self.note.text, self.height) + 1.0
        end = Point(self.elbow.x + (width if self.goes_right else -width), self.elbow.y)
        return [straight(LEADER, self.tip, self.elbow), straight(LEADER, self.elbow, end)]

    @property
    def strokes(self) -> list[Stroke]:
        return [*self.lines, arrowhead(self.tip, (self.tip - self.elbow).unit(), self.height)]


def place_notes_on(
    board: Board, notes: Sequence[Note], outline: Ring, height: float
) -> tuple[list[Group], list[Note]]:
    """Draws notes; gives back also those for which no place was left."""
    placed: list[Group] = []
    refused: list[Note] = []
    for note in notes:
        leader = best_leader(board, note, outline, height)
        if leader is None:
            refused.append(note)
            continue
        group = Group("note", note.name, (*leader.strokes, leader.words), title=note.text)
        board.add(group)
        placed.append(group)
    return placed, refused


def best_leader(board: Board, note: Note, outline: Ring, height: float) -> Leader | None:
    """The least costly way that is free, judged by what it crosses and how far it makes the drawing spread."""
    best: Leader | None = None
    least = float("inf")
    for leader in sorted(leaders(note, height), key=lambda one: one.cost):
        if leader.cost >= least:
            break
        cost = leader.cost + GROWTH * board.growth(leader.words.bounds)
        if cost >= least or not _is_free(board, leader):
            continue
        cost += WORST_CROSSING * board.crossings(leader.lines) + TANGLE * board.leader_crossings(leader.lines)
        if cost < least and outline.contains(leader.elbow):
            cost += ON_LEATHER
        if cost < least:
            best, least = leader, cost
    return best


def _is_free(board: Board, leader: Leader) -> bool:
    return (
        board.is_free_for(leader.words, CLEARANCE)
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
    box = leader.words.corners
    return any(
        box_meets_segment(box, segment, stroke.half_width + 0.1)
        for stroke in leader.strokes
        for segment in segments_of(stroke.way)
    )


def leaders(note: Note, height: float) -> Iterator[Leader]:
    """Every target, lean, length and side."""
    for target in note.targets:
        for lean in TURNS:
            for length in LENGTHS:
                yield from _leaders_at(note, target, lean, length, height)


def _leaders_at(note: Note, target: Target, lean: float, length: float, height: float) -> Iterator[Leader]:
    direction = target.outward.turned(lean)
    if abs(direction.y) < 0.2:
        return
    elbow = target.tip + direction * length
    cost = length + 2.5 * abs(lean) + _plainness(direction)
    for goes_right in (True, False):
        backward = direction.x < -0.05 if goes_right else direction.x > 0.05
        yield Leader(note, target.tip, elbow, goes_right, height, cost + (10.0 if backward else 0.0))


def _plainness(direction: Vector) -> float:
    """Leaders lean: plumb ones are taken for extension lines, flat ones for dimension lines."""
    steep = abs(direction.y)
    return 6.0 if steep > 0.98 else 1.5 if steep < 0.35 else 0.0
