"""Where notes go: words beside the piece or on free leather, tied by a leader to what they speak of.

A leader ends in an arrowhead on the line it means and carries its words on a level stub (ISO 128-22). Near places are
tried before far ones; crossing lines costs, crossing words is out of the question.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from drafting.drawing.board import CLEARANCE, Board
from drafting.drawing.leader_choices import Axis, Choices, Leader, choices_of
from drafting.drawing.marks import Group
from drafting.drawing.notes import Note
from drafting.drawing.obstacles import box_meets_segment, closeness, crossings, segments_of
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.records import dataclass, replace

CROSSING = 6.0
CUT_CROSSING = 10.0
EXTENSION_CROSSING = 22.0
TANGLE = 150.0
"""What it costs to cross any line, beside that an edge of the leather, an extension line, and another leader or a
dimension line."""
NEAR = 0.8
NEARNESS = 20.0
"""How near a leader may come to another leader or a dimension line, and what it costs to come nearer."""
MOST_ROUNDS = 6
MOST_BETTERED = 2
"""So often notes are placed in another order only because some stand badly."""
DEAR = 75.0
"""What costs more stands badly: its leader is long, and crosses the piece."""
AT_ONCE = 400
"""Ways that are looked at together."""
ON_LEATHER = CUT_CROSSING + 2.0
"""What it costs to stand on the piece: little more than to leave it."""
GROWTH = 0.3
STUB_CLEARANCE = 1.0


@dataclass(frozen=True)
class Layout:
    """Notes as they come to stand in one order: their groups, those whose leaders cross others, those without place;
    those that stand badly, and what all cost together."""

    groups: list[Group]
    crossing: list[Group]
    tangled: list[Note]
    refused: list[Note]
    dear: list[Note]
    cost: float = 0.0

    @property
    def late(self) -> list[Note]:
        return [*self.refused, *self.tangled]


def place_notes_on(
    board: Board, notes: Sequence[Note], outline: Ring, axis: Axis | None, height: float, may_tangle: bool
) -> tuple[list[Group], list[Note]]:
    """Draws notes about a piece with its mirror line; gives back also those for which no place was left, and those
    whose leaders would cross others unless they may.

    Those with the least choice come first. Where leaders cross, the notes that came too late get the first choice; else
    those that stand badly.
    """
    order = sorted(notes, key=lambda note: len(note.targets))
    layouts: list[Layout] = []
    for turn in range(MOST_ROUNDS):
        layouts.append(_laid_out(board.copy(), order, outline, axis, height))
        first = layouts[-1].late or (layouts[-1].dear if turn < MOST_BETTERED else [])
        if not first:
            break
        order = [*first, *(note for note in order if note not in first)]
    best = min(layouts, key=lambda layout: (len(layout.late), layout.cost))
    kept = best.groups if may_tangle else [group for group in best.groups if group not in best.crossing]
    for group in kept:
        board.add(group)
    return kept, best.refused if may_tangle else best.late


def _laid_out(board: Board, notes: Sequence[Note], outline: Ring, axis: Axis | None, height: float) -> Layout:
    """The notes in an order, each in the best place that is left."""
    layout = Layout([], [], [], [], [])
    for note in notes:
        cost, leader = best_leader(board, note, outline, axis, height)
        if leader is None:
            layout.refused.append(note)
            continue
        group = Group("note", note.name, (*leader.strokes, *leader.words), title=note.text)
        if board.leader_crossings(leader.lines):
            layout.tangled.append(note)
            layout.crossing.append(group)
        elif cost > DEAR:
            layout.dear.append(note)
        layout = replace(layout, cost=layout.cost + cost)
        board.add(group)
        layout.groups.append(group)
    return layout


def best_leader(
    board: Board, note: Note, outline: Ring, axis: Axis | None, height: float
) -> tuple[float, Leader | None]:
    """The least costly way that is free, judged by what it crosses and how far it makes the drawing spread."""
    best: Leader | None = None
    least = float("inf")
    for part in _parts(board, choices_of(note, axis, height)):
        if part.costs[0] >= least:
            continue
        for cost, leader in _by_cost(board, part, least):
            if cost >= least:
                break
            if not _is_free(board, leader):
                continue
            whole = cost + ON_LEATHER if outline.contains(leader.elbow) else cost
            if whole < least:
                best, least = leader, whole
    return least, best


def _parts(board: Board, choices: Sequence[Choices]) -> Iterator[Choices]:
    """Some of the choices after others, the least costly first, before it is known what they cross."""
    for one in choices:
        costs = one.costs + GROWTH * board.growths(*one.bounds)
        order = np.argsort(costs, kind="stable")
        ordered = replace(one, costs=costs).chosen(order)
        for start in range(0, len(order), AT_ONCE):
            yield ordered.chosen(slice(start, start + AT_ONCE))


def _by_cost(board: Board, choices: Choices, most: float) -> Iterator[tuple[float, Leader]]:
    """The leaders that may be free and cost less than `most`, with what they cost, the least first.

    What most ways fail at is asked first, and each question of those alone that are still in the running.
    """
    left = choices.cheaper(most)
    left = left.chosen(~board.run_into_words(left.ways))
    for index in range(len(left.texts)):
        left = left.chosen(~board.taken(left.line_boxes[index]))
    for there, price in (
        (board.untouchable, TANGLE),
        (board.extensions, EXTENSION_CROSSING),
        (board.cuts, CUT_CROSSING),
        (board.drawn, CROSSING),
    ):
        crossed = crossings(there, left.ways) + crossings(there, left.stubs)
        left = replace(left, costs=left.costs + price * crossed).cheaper(most)
    near = closeness(board.untouchable, left.ways, NEAR)
    left = replace(left, costs=left.costs + NEARNESS * near).cheaper(most)
    for row in np.argsort(left.costs, kind="stable"):
        yield float(left.costs[row]), left.leader(row)


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
