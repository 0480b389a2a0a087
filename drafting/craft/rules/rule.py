"""What a rule is, and what it finds.

A rule looks at a Bench, an item with the tolerance its edges are cut to, and yields a Breach for each place where its
figure is beyond its limit. The figure is judged at its worst: every edge cut by hand that takes part may be off by the
tolerance, to the side that hurts.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from math import inf

from drafting.craft.item import Item, PlacedPart, StitchLine
from drafting.craft.stitches import StitchHole
from drafting.geometry.maths import first_least
from drafting.geometry.nearness import gap_between
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.records import dataclass, field
from drafting.solve.amounts import mm, mm_at_least, mm_at_most
from drafting.text.messages import Entry, Severity

ROUNDING = 1e-6
"""A figure this near to its limit keeps it."""


@dataclass(frozen=True)
class Figure:
    """What was measured, what it may come to with hand-cut edges, and the limit it is beyond."""

    measured: float
    worst: float
    limit: float

    @property
    def beyond(self) -> float:
        """How far the worst is beyond the limit."""
        return abs(self.worst - self.limit)

    def text(self, tolerance: float) -> str:
        if self.worst == self.measured:
            return mm(self.measured)
        worst = mm(self.worst) if self.worst > 0 else "nothing"
        return f"{mm(self.measured)} ({worst} with edges {mm(tolerance)} off)"


@dataclass(frozen=True)
class Breach:
    """One place where a rule does not hold. `facts` fill the catalogue's line; names are `piece.feature`."""

    piece: str
    figure: Figure
    facts: Mapping[str, str]
    features: tuple[str, ...] = ()
    place: Point | None = None


@dataclass(frozen=True)
class Rule:
    """A rule of the workshop. `title` is what it finds fault with, `limit` what it asks for instead.

    `reason` is told to the maker; `source` and `mark` say what backs the limit.
    """

    entry: Entry
    title: str
    limit: str
    reason: str
    source: str
    mark: str
    judge: Callable[[Bench], Iterator[Breach]] = field(repr=False)

    @property
    def code(self) -> str:
        return self.entry.code

    @property
    def severity(self) -> Severity:
        return self.entry.severity


@dataclass
class Bench:
    """An item under judgement. What several rules measure is measured once."""

    item: Item
    tolerance: float = 0.0
    margins: dict[tuple[str, str], tuple[float, Point]] = field(default_factory=dict)

    def margin(self, part: PlacedPart, line: StitchLine) -> tuple[float, Point]:
        """How near a stitch line comes to the edge of its piece, and where."""
        key = (part.name, line.name)
        if key not in self.margins:
            self.margins[key] = nearest_to_edge(part.outline, line)
        return self.margins[key]

    def too_little(self, measured: float, limit: float, edges: int) -> Figure | None:
        """The figure, if with so many edges off it may come below its limit."""
        worst = measured - edges * self.tolerance
        return Figure(measured, worst, limit) if worst < limit - ROUNDING else None

    def too_much(self, measured: float, limit: float, edges: int) -> Figure | None:
        worst = measured + edges * self.tolerance
        return Figure(measured, worst, limit) if worst > limit + ROUNDING else None

    def at_least(self, limit: float, edges: int) -> str:
        """What can be typed so that the limit is kept, with so many edges off."""
        return mm_at_least(limit + edges * self.tolerance)

    def at_most(self, limit: float, edges: int) -> str:
        return mm_at_most(limit - edges * self.tolerance)

    def text(self, figure: Figure) -> str:
        return figure.text(self.tolerance)


def nearest_to_edge(outline: Ring, line: StitchLine) -> tuple[float, Point]:
    """Pricked-through holes are measured one by one, to the edge they run along: where the seam of another piece leaves
    this one over an edge, its last hole may be anywhere. Other lines are measured at once."""
    if line.pricked:
        beside = (_beside_edge(outline, hole) for hole in line.layout.holes)
        found = [one for one in beside if one is not None]
        return _nearest(found) if found else (inf, outline.start)
    gap = gap_between(line.layout.line.legs, outline.legs)
    return gap.distance, gap.here


def _nearest(found: Sequence[tuple[float, Point]]) -> tuple[float, Point]:
    """Of places and how far they are, the nearest; the leftmost and lowest of those as near."""
    return first_least(found, lambda one: one[0], lambda one: one[1].x, lambda one: one[1].y)


def _beside_edge(outline: Ring, hole: StitchHole) -> tuple[float, Point] | None:
    """How far a hole is from the edge, and where it is; None where the line runs over that edge."""
    along, nearest = outline.nearest(hole.point)
    if abs(outline.direction_at(along).dot(hole.direction)) < ALONG:
        return None
    return hole.point.distance_to(nearest), hole.point


ALONG = 0.7
"""A line runs along an edge that it makes less than 45 deg with: this is about the cosine."""


def holes_gap(line: StitchLine, other: Path | Ring, reach: float) -> tuple[float, Point] | None:
    """How near the holes of a stitch line come to another line, and which hole; None when none is within reach."""
    if not line.pricked and gap_between(line.layout.line.legs, other.legs).distance > reach:
        return None
    nearest = _nearest([(other.distance_to_point(hole.point), hole.point) for hole in line.layout.holes])
    return nearest if nearest[0] <= reach else None


def hole_in(line: StitchLine, ring: Path | Ring) -> tuple[float, Point] | None:
    """A stitch hole inside a ring, at no distance; None when there is none."""
    if not isinstance(ring, Ring) or not ring.bounds.overlaps(line.layout.line.bounds):
        return None
    near = (hole.point for hole in line.layout.holes if ring.bounds.may_contain(hole.point))
    return next(((0.0, point) for point in near if ring.contains(point)), None)


def nearest_code(code: str, known: Iterable[str]) -> str:
    """The rule that may have been meant: of `R8` or `8` the one with the nearest number; else the code as it is."""
    found = re.fullmatch(r"[rR]?[oO]?(\d{1,3})", code)
    return min(known, key=lambda one: abs(int(one[1:]) - int(found[1]))) if found else code


def named(part: PlacedPart, feature: str) -> str:
    return f"{part.name}.{feature}"


def at_place(part: PlacedPart, where: Point) -> str:
    """The words that put something there: `at` a point of the piece that lies there, else with its coordinates."""
    there = (name for name, point in part.points.items() if point.distance_to(where) <= SAME_PLACE)
    return f"at {next(there, f'({mm(where.x)}, {mm(where.y)})')}"


SAME_PLACE = 1e-4
