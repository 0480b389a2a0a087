"""Whole items: a batch is worth those of which every part is laid, so a search that cannot lay all aims at them."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.lay.kinds import Kind
from drafting.records import dataclass

Goals = tuple[int, ...]
"""How many of each item are to be whole."""


@dataclass(frozen=True)
class SetPart:
    """A kind by its number, how many of it one item takes, and how many lie on other sheets."""

    kind: int
    each: int
    elsewhere: int


@dataclass(frozen=True)
class Sets:
    """The parts of each item, and how many of the item are asked for."""

    items: tuple[tuple[SetPart, ...], ...]
    copies: Goals

    def complete(self, laid: Sequence[int]) -> Goals:
        """How many of each item are whole where so many of each kind are laid here."""
        return tuple(
            min((part.elsewhere + laid[part.kind]) // part.each for part in parts) for parts in self.items
        )

    def caps(self, goals: Goals, demand: Sequence[int]) -> list[int]:
        """How many of each kind the goals take here; of what makes up no item all that is asked for."""
        found = list(demand)
        for parts, goal in zip(self.items, goals, strict=True):
            for part in parts:
                found[part.kind] = min(demand[part.kind], max(0, part.each * goal - part.elsewhere))
        return found

    def share(self, part: float, complete: Goals) -> Goals:
        """The goals where that part of everything is laid, but always one item more than are whole."""
        goals = tuple(
            max(done, int(copies * part)) for done, copies in zip(complete, self.copies, strict=True)
        )
        return self.more(goals) if goals == complete else goals

    def more(self, goals: Goals) -> Goals:
        """One more of the item that is furthest behind."""
        open_items = [n for n, goal in enumerate(goals) if goal < self.copies[n]]
        if not open_items:
            return goals
        behind = min(open_items, key=lambda n: (goals[n] / self.copies[n], n))
        return _changed(goals, behind, +1)

    def less(self, goals: Goals, complete: Goals) -> Goals:
        """One less of the item that is furthest ahead, but none that is whole already."""
        ahead = [n for n, goal in enumerate(goals) if goal > complete[n]]
        if not ahead:
            return goals
        return _changed(goals, max(ahead, key=lambda n: (goals[n] / self.copies[n], -n)), -1)


def _changed(goals: Goals, item: int, by: int) -> Goals:
    return tuple(goal + by * (n == item) for n, goal in enumerate(goals))


def sets_of(kinds: Sequence[Kind], left: Sequence[int]) -> Sets | None:
    """The items of which something is left to lay, by the numbers of the kinds; None where there are none."""
    items: dict[str, list[SetPart]] = {}
    for number, (kind, rest) in enumerate(zip(kinds, left, strict=True)):
        if kind.each and rest:
            items.setdefault(kind.item, []).append(SetPart(number, kind.each, kind.demand - rest))
    copies = {kind.item: kind.demand // kind.each for kind in kinds if kind.each}
    if not items:
        return None
    return Sets(tuple(tuple(parts) for parts in items.values()), tuple(copies[item] for item in items))
