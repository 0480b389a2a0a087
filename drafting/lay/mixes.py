"""Mixes of parts that are known to go on one panel, and the panels that an order takes of them.

A mix says how many of each kind lie on a panel. Whatever is found once serves every panel that can have it, and a mix
less some of its parts goes on, too.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import combinations
from random import Random

import numpy as np
from numpy.typing import NDArray

from drafting.lay.kinds import Kind
from drafting.lay.lays import Spot

MOST_MIXES = 150
"""So many are weighed against each other, those that hold most first."""
MOST_GROUPS = 30
"""Of more panels, and pairs of them, so many are drawn by lot."""
MANY = 6
"""So many panels, and no more, are given other mixes at once."""
LEAST_GAIN = 1e-6
Mix = tuple[int, ...]
Spots = tuple[Spot, ...]
Table = NDArray[np.int64]
"""Mixes, one a row, or a single one."""
Weights = NDArray[np.float64]


class Mixes:
    """What is known to go on a panel, by its mix."""

    def __init__(self, kinds: Sequence[Kind]) -> None:
        self.areas = np.array([kind.area for kind in kinds])
        self.hulls = np.array([kind.outline.convex_hull.area for kind in kinds])
        self.known: dict[Mix, Spots] = {(0,) * len(kinds): ()}

    def mix_of(self, spots: Sequence[Spot]) -> Mix:
        counts = Counter(spot.kind for spot in spots)
        return tuple(counts[kind] for kind in range(len(self.areas)))

    def learn(self, spots: Sequence[Spot]) -> Mix:
        mix = self.mix_of(spots)
        self.known.setdefault(mix, tuple(spots))
        return mix

    def area(self, mix: Sequence[int]) -> float:
        return float(self.areas @ np.array(mix))

    def hull(self, mix: Sequence[int]) -> float:
        """What the convex hulls of the parts take: by it mixes that go were seen to differ from those that do not."""
        return float(self.hulls @ np.array(mix))

    def spots_of(self, mix: Mix) -> Spots | None:
        """Where the parts of a mix lie, if they are known to go on a panel: perhaps as part of a larger mix."""
        if mix in self.known:
            return self.known[mix]
        larger = next((one for one in self.known if all(a >= b for a, b in zip(one, mix, strict=True))), None)
        return None if larger is None else _some(self.known[larger], mix)

    @property
    def fullest(self) -> list[Mix]:
        """Those that hold most, first."""
        return sorted(self.known, key=lambda mix: (-self.area(mix), mix))[:MOST_MIXES]

    def better(self, panels: Sequence[Mix], rest: Mix, random: Random) -> list[list[Mix]]:
        """Some of the panels given other mixes, so that less is left over, best first."""
        table = np.array(list(dict.fromkeys([*self.fullest, *panels])))
        weights = table @ self.areas
        found: list[tuple[float, list[Mix]]] = []
        for group in _groups(len(panels), random):
            free = np.array(rest) + sum(np.array(panels[n]) for n in group)
            now = sum(self.area(panels[n]) for n in group)
            fill = _best_two if len(group) <= 2 else _repeated
            area, rows = fill(table, weights, free, len(group))
            if area > now + LEAST_GAIN:
                changed = list(panels)
                for number, row in zip(group, rows, strict=True):
                    changed[number] = tuple(table[row].tolist())
                found.append((area - now, changed))
        return [changed for _, changed in sorted(found, key=lambda one: -one[0])]

    def nearly_as_full(self, panels: Sequence[Mix], rest: Mix, loss: float) -> list[tuple[list[Mix], Mix]]:
        """One of the panels given another mix that holds at most so much less; and what that leaves."""
        found: dict[Mix, tuple[float, list[Mix]]] = {}
        for number, panel in enumerate(panels):
            free = [a + b for a, b in zip(rest, panel, strict=True)]
            for mix in self.fullest:
                lost = self.area(panel) - self.area(mix)
                left = tuple(a - b for a, b in zip(free, mix, strict=True))
                if min(left) >= 0 and lost <= loss and left != rest:
                    found.setdefault(left, (lost, [*panels[:number], mix, *panels[number + 1 :]]))
        return [(changed, left) for left, (_, changed) in sorted(found.items(), key=lambda one: one[1][0])]


Filled = tuple[float, list[int]]
"""An area, and the rows of the mixes that hold it."""


def _groups(count: int, random: Random) -> list[tuple[int, ...]]:
    """The panels that are given other mixes at once: single ones, pairs, and as many as can be weighed."""
    groups = [group for size in (1, 2) for group in combinations(range(count), size)]
    groups = random.sample(groups, min(len(groups), MOST_GROUPS))
    return [*groups, tuple(random.sample(range(count), min(count, MANY)))] if count > 2 else groups


def _best_two(table: Table, weights: Weights, free: Table, count: int) -> Filled:
    """The two mixes, or the one, that these parts suffice for and that hold most."""
    found: Filled = 0.0, []
    fits = np.flatnonzero((table <= free).all(axis=1))
    for one in fits.tolist():
        both = fits[(table[fits] <= free - table[one]).all(axis=1)] if count == 2 else fits[:0]
        rows = [one, int(both[weights[both].argmax()])] if len(both) else [one]
        if len(rows) == count and weights[rows].sum() > found[0]:
            found = float(weights[rows].sum()), rows
    return found


def _repeated(table: Table, weights: Weights, free: Table, count: int) -> Filled:
    """One mix again and again, and then whatever holds most of what is left: the best of all ways to do so."""
    found: Filled = 0.0, []
    for first in range(len(table)):
        for times in range(1, count + 1):
            left = free - times * table[first]
            if (left < 0).any():
                break
            rows = [first] * times
            while len(rows) < count and len(fits := np.flatnonzero((table <= left).all(axis=1))):
                rows.append(int(fits[weights[fits].argmax()]))
                left = left - table[rows[-1]]
            if len(rows) == count and weights[rows].sum() > found[0]:
                found = float(weights[rows].sum()), rows
    return found


def _some(spots: Spots, mix: Mix) -> Spots:
    """Of a lay as many of each kind as a mix has, those furthest left."""
    left, found = list(mix), []
    for spot in sorted(spots, key=lambda spot: spot.x):
        if left[spot.kind]:
            left[spot.kind] -= 1
            found.append(spot)
    return tuple(found)
