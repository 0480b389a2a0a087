"""A stitch line as it is sewn: hole after hole from its one end to the other.

A line that ends on the mirror line goes on into its twin: on the bench the two are one seam, sewn with one thread
through the hole that they share. Where both its ends lie on the mirror line the two are a ring.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.craft.stitches import Layout
from drafting.craft.thread import ThreadNeed, thread_through, thread_together
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass


@dataclass(frozen=True)
class Walk:
    """`parts` are a stitch line, or a half and its twin that meet; `orders` tell of each, which holes of the walk its
    own are."""

    parts: tuple[Layout, ...]
    orders: tuple[tuple[int, ...], ...]
    is_ring: bool

    @property
    def n_holes(self) -> int:
        return 1 + max(max(order) for order in self.orders)

    @property
    def stitches(self) -> int:
        return sum(part.stitches for part in self.parts)

    def thread(self, thicknesses: Sequence[float], tail: float) -> ThreadNeed:
        """What it takes through such thicknesses, one for each hole of the walk; `tail` is what each needle keeps."""
        parts = [
            thread_through(part, [thicknesses[at] for at in order])
            for part, order in zip(self.parts, self.orders, strict=True)
        ]
        return thread_together(parts, thicknesses, self.is_ring, tail)


def walk_of(line: Layout, twin: Layout | None = None) -> Walk:
    """A line by itself, or with the twin that it goes on into."""
    count = len(line.holes)
    forward = tuple(range(count))
    at_start, at_end = meeting_ends(line, twin) if twin else (False, False)
    if twin is None or not (at_start or at_end):
        return Walk((line,), (forward,), line.is_ring)
    if at_start and at_end:
        around = 2 * count - 2
        return Walk((line, twin), (forward, tuple(-at % around for at in forward)), True)
    if at_end:
        return Walk((line, twin), (forward, tuple(2 * count - 2 - at for at in forward)), False)
    return Walk((line, twin), (forward[::-1], tuple(count - 1 + at for at in forward)), False)


def meeting_ends(line: Layout, twin: Layout) -> tuple[bool, bool]:
    """Whether a line and its twin share their first hole, and their last."""
    if line.is_ring or twin.is_ring or not len(line.holes) == len(twin.holes) > 1:
        return False, False
    first, last = (line.holes[at].point.distance_to(twin.holes[at].point) <= SAME_POINT for at in (0, -1))
    return first, last
