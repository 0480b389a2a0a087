"""A band: the strip between a run of a ring and its offset."""

from __future__ import annotations

from drafting.geometry.leg import line_if_any
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass


@dataclass(frozen=True)
class Band:
    """The strip between the near line, which is the run, and the far line, which is its offset.

    Both lines are walked the way of the run. The ring goes along the near line, across at the end, back
    along the far line and across at the start. A band all round a ring is closed by two lines across in one
    place.
    """

    near: Path
    far: Path
    ring: Ring

    @property
    def near_start(self) -> Point:
        return self.near.start

    @property
    def near_end(self) -> Point:
        return self.near.end

    @property
    def far_start(self) -> Point:
        return self.far.start

    @property
    def far_end(self) -> Point:
        return self.far.end


def strip_between(near: Path, far: Path) -> Band:
    """The strip between two lines that are walked the same way."""
    at_end, at_start = (
        line_if_any(*ends, SAME_POINT) for ends in ((near.end, far.end), (far.start, near.start))
    )
    return Band(near, far, Ring((*near.legs, *at_end, *far.reversed().legs, *at_start)))
