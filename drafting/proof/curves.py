"""The curves of a page as arrays: their lengths, areas, boxes and places, of all lines at once.

Every curve is a cubic one of four places, a straight one with its handles at its thirds: that changes neither its
length nor its area, and leaves one array for all. Lengths are in mm.
"""

from __future__ import annotations

from functools import cached_property
from math import sqrt
from typing import Any

import numpy as np

from drafting.proof.expected import Box, Measures
from drafting.records import dataclass

NEARER = (322 + 13 * sqrt(70)) / 1800, sqrt(5 - 2 * sqrt(10 / 7)) / 6
FARTHER = (322 - 13 * sqrt(70)) / 1800, sqrt(5 + 2 * sqrt(10 / 7)) / 6
GAUSS = (
    (0.5, 64 / 225),
    *((0.5 + sign * off, weight) for weight, off in (NEARER, FARTHER) for sign in (1, -1)),
)
"""The five places and weights of Gauss and Legendre from 0 to 1, good to the last digits for our short arcs."""


@dataclass(eq=False)
class Curves:
    """Curves of which those from `starts[n]` on, up to those of the next line, are line n. `places` has the shape
    (curves, 4, 2); `bent` are the numbers of those that are not straight."""

    places: Any
    bent: Any
    starts: Any
    is_closed: Any

    @cached_property
    def boxes(self) -> Any:
        """Left, low, right and high of each line, with what its curves bulge."""
        if not len(self.starts):
            return np.zeros((0, 4))
        starts, ends = self.places[:, 0], self.places[:, 3]
        low, high = np.minimum(starts, ends), np.maximum(starts, ends)
        bulges = _bulges(self.places[self.bent])
        low[self.bent] = np.minimum(low[self.bent], bulges.min(axis=1))
        high[self.bent] = np.maximum(high[self.bent], bulges.max(axis=1))
        low = np.minimum.reduceat(low, self.starts, axis=0)
        high = np.maximum.reduceat(high, self.starts, axis=0)
        return np.concatenate([low, high], axis=1)

    @cached_property
    def box_list(self) -> list[Box]:
        return [(left, low, right, high) for left, low, right, high in self.boxes.tolist()]

    @cached_property
    def ends(self) -> Any:
        """Where each line begins and where it ends."""
        last = np.append(self.starts[1:], len(self.places)) - 1
        return np.stack([self.places[self.starts, 0], self.places[last, 3]], axis=1)

    @cached_property
    def _halfway(self) -> Any:
        """Start and middle of every curve."""
        return np.stack([self.places[:, 0], _at(self.places, 0.5)], axis=1)

    @cached_property
    def _lengths(self) -> Any:
        chords = self.places[:, 3] - self.places[:, 0]
        found = np.hypot(chords[:, 0], chords[:, 1])
        handles = np.diff(self.places[self.bent], axis=1)
        bent = np.zeros(len(self.bent))
        for t, weight in GAUSS:
            u = 1 - t
            slope = u * u * handles[:, 0] + 2 * u * t * handles[:, 1] + t * t * handles[:, 2]
            bent += 3 * weight * np.hypot(slope[:, 0], slope[:, 1])
        found[self.bent] = bent
        return found

    @cached_property
    def _areas(self) -> Any:
        """Half of the integral of x dy - y dx along each curve, exact."""
        a, b, c, d = (self.places[:, place] for place in range(4))
        twice = 6 * _cross(a, b) + 3 * _cross(a, c) + _cross(a, d)
        twice += 3 * _cross(b, c) + 3 * _cross(b, d) + 6 * _cross(c, d)
        return twice / 20

    @cached_property
    def lengths(self) -> Any:
        """Of each line."""
        return np.add.reduceat(self._lengths, self.starts)

    @cached_property
    def areas(self) -> Any:
        """Inside each line, were it closed."""
        return np.abs(np.add.reduceat(self._areas, self.starts))

    @cached_property
    def counts(self) -> Any:
        """How many curves each line has."""
        return np.diff(self.starts, append=len(self.places))

    def of_lines(self, lines: Any) -> Any:
        """The places of all curves of some lines, line after line."""
        counts = self.counts[lines]
        before = np.cumsum(counts) - counts
        return self.places[np.repeat(self.starts[lines] - before, counts) + np.arange(counts.sum())]

    def measures(self, line: int) -> Measures:
        """Of one line; the area of an open one is none."""
        first = int(self.starts[line])
        part = slice(first, first + int(self.counts[line]))
        area = float(self.areas[line]) if self.is_closed[line] else None
        places = self._halfway[part].reshape(-1, 2)
        return Measures(float(self.lengths[line]), area, self.box_list[line], places)


def _at(places: Any, t: float) -> Any:
    u = 1 - t
    parts = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
    return sum(part * places[:, place] for place, part in enumerate(parts))


def _cross(one: Any, other: Any) -> Any:
    return one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]


def _bulges(places: Any) -> Any:
    """Two places of each curve at which it may reach farthest on either axis, where its slope is level or plumb; its
    start where there are none."""
    p0, p1, p2, p3 = (places[:, place] for place in range(4))
    a, b, c = p3 - 3 * p2 + 3 * p1 - p0, 2 * (p2 - 2 * p1 + p0), p1 - p0
    with np.errstate(divide="ignore", invalid="ignore"):
        root = np.sqrt(b * b - 4 * a * c)
        # The stable way to both roots: what cancels in one is taken from the other.
        half = -(b + np.where(b < 0, -root, root)) / 2
        turns = np.stack([half / a, c / half], axis=1)
    turns = np.where((turns > 0) & (turns < 1), turns, 0.0)
    u, t = 1 - turns, turns
    return (
        u * u * u * p0[:, None] + 3 * u * u * t * p1[:, None]
        + 3 * u * t * t * p2[:, None] + t * t * t * p3[:, None]
    )  # fmt: skip
