"""Proving the copies of a piece: what one copy was proved to be, the others are held against line by line.

A batch has hundreds of copies. The first is proved against the solved pattern, a hair closer than it must be; a copy
whose every curve lies within that hair of it is then as true as one that was proved by itself. Any other is proved so.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from drafting.proof.disagreement import SAME_LENGTH
from drafting.proof.expected import Box
from drafting.records import dataclass

HAIR = SAME_LENGTH / 20
"""mm: far more than the last digits of a file and of its reader, far less than what must be found."""


@dataclass(frozen=True, eq=False)
class Lines:
    """Some lines of a page, laid back onto their piece: each a row, with its curves in `places` one after another."""

    counts: Any
    is_closed: Any
    is_solid: Any
    widths: Any
    lengths: Any
    areas: Any
    places: Any
    windows: Any

    def are_like(self, others: Lines) -> bool:
        """Whether they are the same lines, none more than a hair off."""
        return (
            np.array_equal(self.counts, others.counts)
            and np.array_equal(self.is_closed, others.is_closed)
            and np.array_equal(self.is_solid, others.is_solid)
            and bool(np.all(np.abs(self.places - others.places) <= HAIR / 2))
            and bool(np.all(np.abs(self.widths - others.widths) <= HAIR))
            and bool(np.all(np.abs(self.lengths - others.lengths) <= HAIR))
            and self._are_as_large(others)
            and self._are_seen_through(others)
        )

    def _are_as_large(self, others: Lines) -> bool:
        """An area may be off by a hair all along its line; a little less, since the line itself may be shorter."""
        off = np.abs(self.areas - others.areas) <= HAIR * (self.lengths - SAME_LENGTH)
        return bool(np.all(off | ~self.is_closed))

    def _are_seen_through(self, others: Lines) -> bool:
        """Whether the same is hidden of each, if any."""
        is_near = np.abs(self.windows - others.windows) <= HAIR
        return bool(np.all(is_near | (np.isnan(self.windows) & np.isnan(others.windows))))


Kind = tuple[str, int, tuple[float, ...] | None]
"""A piece, how many quarters it is turned (the dots of its stitches are not), and which tile of it is shown, if not
all."""


@dataclass(frozen=True, eq=False)
class Copy:
    """What was proved of a piece or of a tile: its lines, the `box` around the first of them on the piece, and how far
    behind the first each of them stands in the file."""

    box: Box
    behind: Any
    lines: Lines


Copies = dict[Kind, Copy]
