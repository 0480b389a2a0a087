"""Where notes go: words beside the piece or on free leather, tied by a leader to what they speak of.

A leader ends in an arrowhead on the line it means and carries its words on a level stub (ISO 128-22). Near places are
tried before far ones; crossing lines costs, crossing words is out of the question.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from drafting.drawing.board import Board
from drafting.drawing.leader_answers import CUT_CROSSING, Answers, is_free
from drafting.drawing.leader_choices import Axis, Leader, choices_of
from drafting.drawing.marks import Group
from drafting.drawing.notes import Note
from drafting.geometry.path import Ring
from drafting.records import dataclass, replace

MOST_ROUNDS = 6
MOST_BETTERED = 2
"""So often notes are placed in another order only because some stand badly."""
DEAR = 75.0
"""What costs more stands badly: its leader is long, and crosses the piece."""
AT_ONCE = 1000
"""Ways that are looked at together."""
ON_LEATHER = CUT_CROSSING + 2.0
"""What it costs to stand on the piece: little more than to leave it."""
GROWTH = 0.3


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
    there = board.questions
    answers = {
        note: [Answers(choices, board, there) for choices in choices_of(note, axis, height)] for note in notes
    }
    layouts: list[Layout] = []
    for turn in range(MOST_ROUNDS):
        layouts.append(_laid_out(board, [(note, answers[note]) for note in order], outline))
        first = layouts[-1].late or (layouts[-1].dear if turn < MOST_BETTERED else [])
        if not first:
            break
        order = [*first, *(note for note in order if note not in first)]
    best = min(layouts, key=lambda layout: (len(layout.late), layout.cost))
    kept = best.groups if may_tangle else [group for group in best.groups if group not in best.crossing]
    for group in kept:
        board.add(group)
    return kept, best.refused if may_tangle else best.late


def _laid_out(board: Board, order: Sequence[tuple[Note, Sequence[Answers]]], outline: Ring) -> Layout:
    """The notes in an order, each in the best place that is left."""
    layout, added = Layout([], [], [], [], []), Board()
    added.bounds = board.bounds
    for note, answers in order:
        cost, leader = best_leader(added, answers, outline)
        if leader is None:
            layout.refused.append(note)
            continue
        group = Group("note", note.name, (*leader.strokes, *leader.words), title=note.text)
        if board.leader_crossings(leader.lines) or added.leader_crossings(leader.lines):
            layout.tangled.append(note)
            layout.crossing.append(group)
        elif cost > DEAR:
            layout.dear.append(note)
        layout = replace(layout, cost=layout.cost + cost)
        added.add(group)
        layout.groups.append(group)
    return layout


def best_leader(added: Board, answers: Sequence[Answers], outline: Ring) -> tuple[float, Leader | None]:
    """The least costly way that is free, judged by what it crosses and how far it makes the drawing spread. `added` is
    what other notes have put on the board, and how far all of it reaches."""
    best: Leader | None = None
    least, new = float("inf"), added.questions
    for ways, rows, costs in _parts(added, answers):
        if costs[0] >= least:
            continue
        for cost, row in ways.by_cost(rows, costs, least, new):
            if cost >= least:
                break
            leader = ways.leader(row)
            whole = cost + ON_LEATHER if ways.is_on_leather(row, outline) else cost
            if whole < least and ways.is_fit(row) and is_free(added, leader):
                best, least = leader, whole
    return least, best


def _parts(added: Board, answers: Sequence[Answers]) -> Iterator[tuple[Answers, Any, Any]]:
    """Some of the choices after others with what they cost, the least costly first, before it is known what they
    cross."""
    for ways in answers:
        costs = ways.choices.costs + GROWTH * added.growths(*ways.bounds)
        order = np.argsort(costs, kind="stable")
        for start in range(0, len(order), AT_ONCE):
            rows = order[start : start + AT_ONCE]
            yield ways, rows, costs[rows]
