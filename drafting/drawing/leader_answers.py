"""What a board says of all the ways to tie a note, asked once for each way.

Notes are laid out in several orders on the same board. What was drawn before them never changes, so that its answers
are kept; only what the notes themselves have put there since is asked anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import Any

import numpy as np

from drafting.drawing.board import CLEARANCE, Board, Questions
from drafting.drawing.leader_choices import Choices, Leader
from drafting.drawing.obstacles import box_meets_segment, closeness, crossings, segments_of
from drafting.geometry.path import Ring
from drafting.geometry.point import Point

CROSSING = 6.0
CUT_CROSSING = 10.0
EXTENSION_CROSSING = 22.0
TANGLE = 150.0
"""What it costs to cross any line, beside that an edge of the leather, an extension line, and another leader or a
dimension line."""
NEAR = 0.8
NEARNESS = 20.0
"""How near a leader may come to another leader or a dimension line, and what it costs to come nearer."""
MOST_EDGES = 2
THROUGH = 60.0
"""So many edges of the leather a leader may cross, out of a door in the piece and out of the piece; and what each
further one costs."""
PRICES = (TANGLE, EXTENSION_CROSSING, CUT_CROSSING, CROSSING, NEARNESS)
UNKNOWN = -1
STUB_CLEARANCE = 1.0


class Answers:
    """Of one note with its words broken in one way: row n is that of way n of its `choices`."""

    def __init__(self, choices: Choices, board: Board, there: Questions) -> None:
        """`there` are the questions to the board."""
        self.choices, self.board, self.there = choices, board, there
        count = len(choices.costs)
        self.is_known, self.is_free = np.zeros(count, dtype=bool), np.zeros(count, dtype=bool)
        self.met = np.full((len(PRICES), count), UNKNOWN)
        self.figures = np.empty((2 + len(choices.texts), count), dtype=object)
        """Leaders, the stubs under the words, and a box for each line of words; none where they were not asked for."""

        self.leaders: dict[int, Leader] = {}
        self.fit: dict[int, bool] = {}
        self.on_leather: dict[int, bool] = {}

    def leader(self, row: int) -> Leader:
        if row not in self.leaders:
            self.leaders[row] = self.choices.leader(row)
        return self.leaders[row]

    def is_fit(self, row: int) -> bool:
        """Whether it is free of the board by itself, looked at closely."""
        if row not in self.fit:
            leader = self.leader(row)
            self.fit[row] = is_free(self.board, leader) and not _words_meet_own_lines(leader)
        return self.fit[row]

    def is_on_leather(self, row: int, outline: Ring) -> bool:
        """Whether its words stand on the piece."""
        if row not in self.on_leather:
            self.on_leather[row] = outline.contains(self.leader(row).elbow)
        return self.on_leather[row]

    @cached_property
    def bounds(self) -> tuple[Any, Any, Any, Any]:
        return self.choices.bounds

    def by_cost(self, rows: Any, costs: Any, most: float, new: Questions) -> Iterator[tuple[float, int]]:
        """Those of some rows that may be free and cost less than `most`, after what they cost, the least first.

        What most ways fail at is asked first, and each question of those alone that are still in the running.
        """
        rows, costs = _where(costs < most, rows, costs)
        self._learn(rows)
        rows, costs = _where(self.is_free[rows], rows, costs)
        rows, costs = _where(self._least(rows, costs) < most, rows, costs)
        rows, costs = _where(~new.run_into_words(self.figures[0, rows]), rows, costs)
        for boxes in self.figures[2:]:
            rows, costs = _where(~new.taken(boxes[rows]), rows, costs)
        for kind, price in enumerate(PRICES):
            self._learn_met(kind, rows)
            met = self.met[kind, rows] + _met(new, kind, self.figures[:2, rows])
            costs = costs + price * met + _through(kind, met)
            rows, costs = _where(costs < most, rows, costs)
        for index in np.argsort(costs, kind="stable"):
            yield float(costs[index]), int(rows[index])

    def _learn(self, rows: Any) -> None:
        """Asks the board for room for those rows of which it was not asked before."""
        rows = rows[~self.is_known[rows]]
        if not len(rows):
            return
        self.is_known[rows] = True
        there, part = self.there, self.choices.chosen(rows)
        is_clear = ~there.run_into_words(part.ways)
        self.figures[0, rows] = part.ways
        rows, part = rows[is_clear], part.chosen(is_clear)
        self.figures[2:, rows] = part.line_boxes
        for boxes in self.figures[2:]:
            rows = rows[~there.taken(boxes[rows])]
        self.figures[1, rows] = self.choices.chosen(rows).stubs
        self.is_free[rows] = True

    def _learn_met(self, kind: int, rows: Any) -> None:
        rows = rows[self.met[kind, rows] == UNKNOWN]
        if not len(rows):
            return
        self.met[kind, rows] = _met(self.there, kind, self.figures[:2, rows])

    def _least(self, rows: Any, costs: Any) -> Any:
        """What rows cost at least, by what is known of them."""
        for kind, price in enumerate(PRICES):
            met = np.maximum(self.met[kind, rows], 0)
            costs = costs + price * met + _through(kind, met)
        return costs


def _through(kind: int, met: Any) -> Any:
    """What it costs to run through the piece."""
    return THROUGH * np.maximum(met - MOST_EDGES, 0) if PRICES[kind] == CUT_CROSSING else 0.0


def _where(kept: Any, rows: Any, costs: Any) -> tuple[Any, Any]:
    return rows[kept], costs[kept]


def _met(there: Questions, kind: int, lines: Any) -> Any:
    """How many lines of a kind leaders and stubs cross, or leaders come near to: in the order of the prices."""
    if kind == len(PRICES) - 1:
        return closeness(there.untouchable.lines, lines[0], NEAR)
    tree = (there.untouchable, there.extensions, there.cuts, there.drawn)[kind].lines
    return crossings(tree, lines.ravel()).reshape(lines.shape).sum(axis=0)


def is_free(board: Board, leader: Leader) -> bool:
    """Whether neither its words nor its lines touch what they must not."""
    return (
        all(board.is_free_for(line, CLEARANCE) for line in leader.words)
        and board.lines_clear_words(leader.strokes)
        and not _lies_along_line(board, leader)
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
