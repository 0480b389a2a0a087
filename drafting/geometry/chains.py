"""Join slices end to start, into closed rings and open chains.

Ends within a few SAME_POINT are one node. Chains are walked first, from the nodes that more slices leave
than come to; a walk closes a ring each time it comes back to a node it has passed.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.geometry.arc import Arc
from drafting.geometry.cells import Cells
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.slices import Slice
from drafting.geometry.tangent_arc import leg_from_chord
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass, field

_ONE_NODE = 4 * SAME_POINT
_HARDLY_MOVED = 1e-12


@dataclass
class _Nodes:
    """Points by number, the same number for points that are one."""

    places: Cells[tuple[Point, int]] = field(default_factory=lambda: Cells(_ONE_NODE))
    count: int = 0

    def number(self, point: Point) -> int:
        for known, number in self.places.near(point):
            if known.distance_to(point) <= _ONE_NODE:
                return number
        self.places.put(point, (point, self.count))
        self.count += 1
        return self.count - 1


@dataclass(frozen=True)
class _Link:
    """A slice between two nodes."""

    start: int
    end: int
    slice: Slice


@dataclass(frozen=True)
class Joined:
    """What came of slices: rings, and open chains, each walked the way its slices were."""

    rings: tuple[Ring, ...]
    chains: tuple[Path, ...]


def join_slices(slices: Sequence[Slice]) -> Joined:
    """All rings and chains that slices make; a ring starts from its earliest slice."""
    nodes = _Nodes()
    links = [_Link(nodes.number(one.start), nodes.number(one.end), one) for one in slices]
    links = _without_spurs(_without_twins([link for link in links if link.start != link.end]))
    waiting: dict[int, list[_Link]] = {}
    for link in links:
        waiting.setdefault(link.start, []).append(link)
    cycles: list[list[_Link]] = []
    chains = [_walk_until_stuck(waiting, start, cycles) for start in _chain_starts(links)]
    for link in links:
        if link in waiting[link.start]:
            _walk_until_stuck(waiting, link.start, cycles)
    rings = (_ring_of(cycle) for cycle in cycles)
    return Joined(
        tuple(ring for ring in rings if ring is not None),
        tuple(Path(_healed(_merged(chain), False)) for chain in chains if chain),
    )


def _chain_starts(links: Sequence[_Link]) -> list[int]:
    """The nodes that more slices leave than come to, once for each slice more."""
    surplus: dict[int, int] = {}
    for link in links:
        surplus[link.start] = surplus.get(link.start, 0) + 1
        surplus[link.end] = surplus.get(link.end, 0) - 1
    return [node for node, count in surplus.items() for _ in range(count)]


def _without_twins(links: list[_Link]) -> list[_Link]:
    """Without pairs that run to and fro in one place, and without repeats of a slice."""
    kept: list[_Link] = []
    for link in links:
        twin = next((other for other in kept if _is_one_place(other, link)), None)
        if twin is None:
            kept.append(link)
        elif twin.start == link.end and twin.start != twin.end:
            kept.remove(twin)
    return kept


def _is_one_place(a: _Link, b: _Link) -> bool:
    same_ends = {a.start, a.end} == {b.start, b.end}
    return same_ends and a.slice.midpoint.distance_to(b.slice.midpoint) <= _ONE_NODE


def _without_spurs(links: list[_Link]) -> list[_Link]:
    """Without the short ends beyond a crossing that rounding left, which hang loose from a line that goes on."""
    while True:
        flipped = [_Link(link.end, link.start, link.slice) for link in links]
        spurs = [[one.slice for one in spur] for graph in (links, flipped) for spur in _spurs(graph)]
        if not spurs:
            return links
        shortest = min(spurs, key=lambda spur: sum(one.high - one.low for one in spur))
        links = [link for link in links if link.slice not in shortest]


def _spurs(links: Sequence[_Link]) -> list[list[_Link]]:
    """From each loose start the links up to the first node where others pass; nothing where there is none."""
    leaving: dict[int, list[_Link]] = {}
    arrivals: dict[int, int] = {}
    for link in links:
        leaving.setdefault(link.start, []).append(link)
        arrivals[link.end] = arrivals.get(link.end, 0) + 1
    found: list[list[_Link]] = []
    for first in links:
        if first.start in arrivals or len(leaving[first.start]) > 1:
            continue
        spur = [first]
        while arrivals[spur[-1].end] == 1 and len(leaving.get(spur[-1].end, ())) == 1:
            spur.append(leaving[spur[-1].end][0])
        if arrivals[spur[-1].end] > 1 or len(leaving.get(spur[-1].end, ())) > 1:
            found.append(spur)
    return found


def _walk_until_stuck(waiting: dict[int, list[_Link]], node: int, cycles: list[list[_Link]]) -> list[_Link]:
    """Walk from a node until nothing leads on; rings closed on the way are put with the cycles."""
    walked: list[_Link] = []
    while waiting.get(node):
        link = waiting[node].pop(0)
        walked.append(link)
        node = link.end
        passed = [index for index, earlier in enumerate(walked) if earlier.start == node]
        if passed:
            cycles.append(walked[passed[0] :])
            del walked[passed[0] :]
    return walked


def _ring_of(cycle: list[_Link]) -> Ring | None:
    """The ring of a cycle; None for a sliver that rounding left behind."""
    first = min(range(len(cycle)), key=lambda index: (cycle[index].slice.leg_index, cycle[index].slice.low))
    legs = _healed(_merged([*cycle[first:], *cycle[:first]]), True)
    ring = Ring(legs)
    return ring if ring.area > ring.length * SAME_POINT else None


def _merged(links: Sequence[_Link]) -> list[Leg]:
    """The legs of slices that follow on each other; slices of one leg become one again."""
    spans: list[Slice] = []
    for link in links:
        one = link.slice
        if spans and spans[-1].leg_index == one.leg_index and spans[-1].high == one.low:
            spans[-1] = Slice(one.leg_index, spans[-1].low, one.high, one.leg)
        else:
            spans.append(one)
    return [one.part for one in spans]


def _healed(legs: list[Leg], is_closed: bool) -> list[Leg]:
    """The legs with ends that meet exactly: each meeting moves to the middle of the two ends it was found
    as.
    """
    starts, ends = [leg.start for leg in legs], [leg.end for leg in legs]
    for index in range(0 if is_closed else 1, len(legs)):
        middle = ends[index - 1].midway(starts[index])
        starts[index] = ends[index - 1] = middle
    return [_between(leg, start, end) for leg, start, end in zip(legs, starts, ends, strict=True)]


def _between(leg: Leg, start: Point, end: Point) -> Leg:
    if isinstance(leg, Line):
        return Line(start, end)
    if max(leg.start.distance_to(start), leg.end.distance_to(end)) <= _HARDLY_MOVED * max(1.0, leg.radius):
        return leg
    return leg_from_chord(start, end, leg.sweep / 2) if isinstance(leg, Arc) else leg
