"""All the ways in which a note may be tied to what it speaks of, as arrays.

A note has some dozens of places to point to, and from each thousands of ways to put its words: they are reckoned
together, and only what is left of them is looked at one by one.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from math import cos, pi, sin
from typing import Any

import numpy as np
import shapely

from drafting.drawing.arrows import arrowhead, straight
from drafting.drawing.board import CLEARANCE
from drafting.drawing.lettering import LINE_PITCH, natural_width
from drafting.drawing.lines import LEADER
from drafting.drawing.marks import DESCENT, RISE, Lettering, Stroke
from drafting.drawing.notes import Note, Target
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass, replace

LENGTHS = (7.0, 10.0, 14.0, 19.0, 25.0, 32.0, 42.0, 55.0, 72.0, 95.0, 130.0, 180.0)
TURNS = (0.0, pi / 9, -pi / 9, pi / 4.5, -pi / 4.5, pi / 3, -pi / 3)
"""How far a leader may lean off the straight way out."""
ON_MIRROR = 60.0
"""What it costs to point at a place on the mirror line, where nobody sees what is meant."""
NEAR_MIRROR = 1.2
BACKWARD = 10.0
"""What it costs to turn back over the leader."""
BROKEN = 2.5
"""What it costs to break words into two lines."""
LIFT = DESCENT + 0.15
"""Of the words over their stub, in heights of a capital."""
BESIDE = 0.5
SURELY = 1e-6
"""What only touches by less than this is left for a closer look."""

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

    @cached_property
    def words(self) -> list[Lettering]:
        """The lines of words, stacked on the stub."""
        last = len(self.texts) - 1
        x = self.elbow.x + (BESIDE if self.goes_right else -BESIDE)
        anchor = "start" if self.goes_right else "end"
        return [
            Lettering(
                text,
                Point(x, self.elbow.y + self.height * (LIFT + (last - index) * LINE_PITCH)),
                self.height,
                anchor,
                use="note",
            )
            for index, text in enumerate(self.texts)
        ]

    @property
    def end(self) -> Point:
        """The end of the stub, a little past the longest line of words."""
        width = stub_length(self.texts, self.height)
        return Point(self.elbow.x + (width if self.goes_right else -width), self.elbow.y)

    @cached_property
    def lines(self) -> list[Stroke]:
        return [straight(LEADER, self.tip, self.elbow), straight(LEADER, self.elbow, self.end)]

    @property
    def strokes(self) -> list[Stroke]:
        return [*self.lines, arrowhead(self.tip, (self.tip - self.elbow).unit(), self.height)]


def stub_length(texts: tuple[str, ...], height: float) -> float:
    return max(natural_width(text, height) for text in texts) + 2 * BESIDE


@dataclass(frozen=True)
class Choices:
    """Every target, lean, length and side, with the words broken in one way. `tips` and `elbows` have a row for each,
    `sides` is 1 to the right and -1 to the left, `costs` is what each costs by itself."""

    texts: tuple[str, ...]
    height: float
    tips: Any
    elbows: Any
    sides: Any
    costs: Any

    def chosen(self, rows: Any) -> Choices:
        """Only those of some rows."""
        return replace(
            self,
            tips=self.tips[rows],
            elbows=self.elbows[rows],
            sides=self.sides[rows],
            costs=self.costs[rows],
        )

    def leader(self, index: int) -> Leader:
        tip, elbow = (Point(float(x), float(y)) for x, y in (self.tips[index], self.elbows[index]))
        return Leader(self.texts, tip, elbow, bool(self.sides[index] > 0), self.height)

    @cached_property
    def ends(self) -> Any:
        """Where the stubs under the words end."""
        reach = self.sides * stub_length(self.texts, self.height)
        return self.elbows + np.stack([reach, np.zeros_like(reach)], axis=1)

    @cached_property
    def bounds(self) -> tuple[Any, Any, Any, Any]:
        """The boxes around lines and words: their lowest x and y, their highest x and y."""
        rise = self.height * (LIFT + (len(self.texts) - 1) * LINE_PITCH + RISE)
        xs = np.stack([self.tips[:, 0], self.elbows[:, 0], self.ends[:, 0]])
        ys = np.stack([self.tips[:, 1], self.elbows[:, 1], self.elbows[:, 1] + rise])
        return xs.min(axis=0), ys.min(axis=0), xs.max(axis=0), ys.max(axis=0)

    @cached_property
    def line_boxes(self) -> list[Any]:
        """The boxes that each line of words needs with its clearance, less SURELY, as shapely boxes."""
        reach = CLEARANCE - SURELY
        found = []
        for index, text in enumerate(self.texts):
            near = self.elbows[:, 0] + self.sides * BESIDE
            far = near + self.sides * natural_width(text, self.height)
            foot = self.elbows[:, 1] + self.height * (LIFT + (len(self.texts) - 1 - index) * LINE_PITCH)
            found.append(
                shapely.box(
                    np.minimum(near, far) - reach,
                    foot - 0.02 * self.height - reach,
                    np.maximum(near, far) + reach,
                    foot + RISE * self.height + reach,
                )
            )
        return found

    @cached_property
    def ways(self) -> Any:
        """The leaders from tip to elbow, as shapely lines."""
        return shapely.linestrings(np.stack([self.tips, self.elbows], axis=1))

    @cached_property
    def stubs(self) -> Any:
        """The level lines under the words, as shapely lines."""
        return shapely.linestrings(np.stack([self.elbows, self.ends], axis=1))


def choices_of(note: Note, axis: Axis | None, height: float) -> list[Choices]:
    """One for each way to break the words."""
    tips, directions, costs = _directions(note.targets, axis)
    if not len(tips):
        return []
    count = len(LENGTHS)
    lengths, turned = np.tile(LENGTHS, len(tips)), np.repeat(directions, count, axis=0)
    tips = np.repeat(tips, count, axis=0)
    elbows = tips + turned * lengths[:, None]
    costs = lengths + np.repeat(costs, count)
    right = np.ones(len(tips))
    sides, doubled = np.concatenate([right, -right]), (np.tile(tips, (2, 1)), np.tile(elbows, (2, 1)))
    backward = np.tile(turned[:, 0], 2) * sides < -0.05
    costs = np.tile(costs, 2) + BACKWARD * backward
    return [
        Choices(texts, height, *doubled, sides, costs + BROKEN * (len(texts) - 1)) for texts in note.texts
    ]


def _directions(targets: Sequence[Target], axis: Axis | None) -> tuple[Any, Any, Any]:
    """Tips, directions that are not too flat, and what these cost."""
    tips = np.array([(target.tip.x, target.tip.y) for target in targets], dtype=float).reshape(-1, 2)
    outward = np.array([(target.outward.x, target.outward.y) for target in targets], dtype=float).reshape(
        -1, 2
    )
    mirrored: Any = np.zeros(len(tips))
    if axis is not None:
        off_x, off_y = tips[:, 0] - axis[0].x, tips[:, 1] - axis[0].y
        mirrored = ON_MIRROR * (np.abs(off_x * axis[1].y - off_y * axis[1].x) < NEAR_MIRROR)
    turns = [_turned(outward, lean) for lean in TURNS]
    directions = np.stack(turns, axis=1).reshape(-1, 2)
    steep = np.abs(directions[:, 1])
    costs = np.repeat(mirrored, len(TURNS)) + np.tile([2.5 * abs(lean) for lean in TURNS], len(tips))
    # Leaders lean: plumb ones are taken for extension lines, flat ones for dimension lines.
    costs += np.where(steep > 0.98, 6.0, np.where(steep < 0.35, 1.5, 0.0))
    kept = steep >= 0.2
    return np.repeat(tips, len(TURNS), axis=0)[kept], directions[kept], costs[kept]


def _turned(directions: Any, lean: float) -> Any:
    """Directions turned anticlockwise."""
    x, y = directions[:, 0], directions[:, 1]
    return np.stack([x * cos(lean) - y * sin(lean), x * sin(lean) + y * cos(lean)], axis=1)
