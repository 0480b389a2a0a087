"""Lays an order on sheets, one sheet after the other.

On each sheet but the last one a mix of parts is laid in the proportions of what is still to come: whoever takes the
largest first is left with a rest that fits badly. The last one holds what remains in as short a length as can be found.
Where the sheets are panels, all alike, and there is time, they are then filled better together, and fewer may do.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable, Sequence
from functools import cached_property
from itertools import takewhile
from math import ceil

from drafting.lay.kinds import Kind
from drafting.lay.lays import LaidSheet, Lay
from drafting.lay.mixes import Mixes, Spots
from drafting.lay.panels import Panels
from drafting.lay.search import Best, spots_of
from drafting.lay.sets import Sets, sets_of
from drafting.lay.sheets import Sheet
from drafting.lay.strip import Strip, lay_on_strip
from drafting.lay.table import Table
from drafting.lay.verify import verify
from drafting.lay.workers import Task, Workers, table_of
from drafting.records import dataclass, replace

HOPED_FOR = 0.82
"""The yield that sheets are reckoned with beforehand, as a fraction."""
LEAST_SECONDS = 2.0
"""The strip engine reckons in whole seconds, so what is shorter is for our own search."""
MANY_SHEETS = 4
"""Of more equal sheets than this a good one is repeated."""
PANELS_SECONDS = 6.0
"""With less time panels are filled one by one only."""
ONE_BY_ONE, TOGETHER = 0.15, 0.88
"""Up to which parts of the time panels are filled one by one and then together; what is left is for the last one."""
TOO_FEW = 0.6
"""The first of them where there are too few panels for all: our own search minds whole items."""
REMEMBERED = 5
"""So many of the best lays of a sheet are kept in mind."""
MIXED = 1.1
"""A sheet is offered so many times what it could hold."""


@dataclass(frozen=True)
class Limits:
    """When to stop: after `seconds`, or after `steps` on each sheet, in `workers` searches side by side."""

    seconds: float | None = None
    steps: int | None = 200
    seed: int = 1
    workers: int = 1


USUAL_LIMITS = Limits()


@dataclass(frozen=True)
class Progress:
    """The best so far of a sheet: its number from 0, how many parts it holds, and what they take of it."""

    sheet: int
    parts: int
    of_usable: float
    length: float


Tell = Callable[[Progress], None]


def lay_out(
    kinds: Sequence[Kind],
    sheets: Sequence[Sheet],
    *,
    gap: float,
    limits: Limits = USUAL_LIMITS,
    tell: Tell = lambda progress: None,
) -> Lay:
    """Lay the parts on the sheets, in their order. What finds no room is told by the lay's `missing`.

    Sheets that stay empty are not in the lay. Ctrl-C ends it with the best so far, and goes on up
    where nothing is laid yet.
    """
    with Workers(limits.workers) as workers:
        laying = _Laying(tuple(kinds), list(sheets), gap, limits, workers, tell)
        laid = laying.run()
    if laying.was_stopped and not laid:
        raise KeyboardInterrupt
    return Lay(laying.kinds, tuple(laid), gap, limits.seed, limits.seconds is None, laying.was_stopped)


def unfit_kinds(kinds: Sequence[Kind], sheets: Sequence[Sheet], gap: float) -> list[int]:
    """The kinds of which not even one has room on any sheet."""
    tables = [Table(kinds, sheet, gap) for sheet in _different(sheets)]
    return [n for n in range(len(kinds)) if not any(table.has_room_for(n) for table in tables)]


def _different(sheets: Sequence[Sheet]) -> list[Sheet]:
    """One of each kind: panels are alike."""
    return list({sheet.likeness: sheet for sheet in sheets}.values())


class _Laying:
    """One run: what is left to lay, and the clock."""

    def __init__(
        self,
        kinds: tuple[Kind, ...],
        sheets: list[Sheet],
        gap: float,
        limits: Limits,
        workers: Workers,
        tell: Tell,
    ) -> None:
        self.kinds, self.sheets, self.gap = kinds, sheets, gap
        self.limits, self.workers, self.tell = limits, workers, tell
        self.left = [kind.demand for kind in kinds]
        self.start = time.time()
        self.end = None if limits.seconds is None else self.start + limits.seconds
        self.pool = Mixes(kinds)
        self.was_stopped = False

    def run(self) -> list[LaidSheet]:
        laid = self.one_by_one()
        if not laid or self.was_stopped or not self.are_panels:
            return laid
        try:
            return self.together(laid)
        except KeyboardInterrupt:
            self.was_stopped = True
            return laid

    @cached_property
    def are_panels(self) -> bool:
        """Whether a mix that goes on one goes on all, and there is time to ask for better mixes."""
        is_time = self.limits.steps is None and (self.limits.seconds or 0.0) >= PANELS_SECONDS
        return is_time and self.sheets[0].kind == "panel" and len(_different(self.sheets)) == 1

    def one_by_one(self) -> list[LaidSheet]:
        laid: list[LaidSheet] = []
        while len(laid) < len(self.sheets) and any(self.left) and not self.was_stopped:
            try:
                one = self.on_sheet(self.sheets[len(laid)], len(laid))
            except KeyboardInterrupt:
                if not laid:
                    raise
                self.was_stopped = True
                break
            for number in range(len(laid), len(laid) + self.repeats(one, len(laid))):
                laid.append(replace(one, sheet=self.sheets[number]))
                self.take(one)
        return [one for one in laid if one.spots]

    def together(self, laid: list[LaidSheet]) -> list[LaidSheet]:
        """The panels filled anew, if our judge finds no fault in it and it is better."""
        assert self.end is not None
        fuller = [one.spots for one in laid]
        areas = [self.pool.area(self.pool.mix_of(spots)) for spots in fuller]
        last = () if any(self.left) else fuller.pop(min(range(len(laid)), key=lambda n: areas[n]))
        rest = self.pool.mix_of(last) if last else tuple(self.left)
        panels = Panels(
            self.kinds, self.sheets[0], self.gap, fuller, rest, last, pool=self.pool, seed=self.limits.seed,
            workers=self.limits.workers,
        )  # fmt: skip

        def told(length: float | None = None) -> None:
            *others, spots = panels.all_spots
            area = self.pool.area(self.pool.mix_of(spots))
            known = panels.length_of(spots)
            long = known if length is None else min(length, known)
            self.tell(Progress(len(others), len(spots), area / self.sheets[0].area, long))

        self.was_stopped = panels.improve(self.time_at(TOGETHER), told)
        if not self.was_stopped and panels.is_last_laid and self.end - time.time() >= LEAST_SECONDS:
            self.was_stopped = panels.shorten_last(self.end - time.time(), self.limits.seed, told)
        return self.better_of(laid, panels.all_spots)

    @cached_property
    def has_spare_sheets(self) -> bool:
        """Whether the order is reckoned to go on fewer sheets than there are."""
        order = sum(kind.area * kind.demand for kind in self.kinds)
        return order <= HOPED_FOR * sum(float(sheet.usable.area) for sheet in self.sheets)

    def time_at(self, share: float) -> float:
        return self.start + share * (self.limits.seconds or 0.0)

    def better_of(self, laid: list[LaidSheet], spots: Sequence[Spots]) -> list[LaidSheet]:
        """More whole items come first, then more parts, then fewer sheets, then a shorter last one."""
        kept = {one.spots: one.steps for one in laid}
        other = [LaidSheet(sheet, one, kept.get(one)) for sheet, one in zip(self.sheets, spots, strict=False)]
        lays = [Lay(self.kinds, tuple(one), self.gap, self.limits.seed) for one in (laid, other)]
        return other if _value(lays[1]) > _value(lays[0]) and not verify(lays[1]) else laid

    def on_sheet(self, sheet: Sheet, number: int) -> LaidSheet:
        one = self.on_strip(sheet) if self.is_for_strip(sheet) else None
        if one is None and self.was_stopped:
            raise KeyboardInterrupt
        return one or self.search(sheet, number)

    def take(self, laid: LaidSheet) -> None:
        for spot in laid.spots:
            self.left[spot.kind] -= 1

    def is_for_strip(self, sheet: Sheet) -> bool:
        """By steps our own search lays a roll, too: what it finds comes again."""
        return (
            sheet.kind == "roll" and self.limits.steps is None and (self.limits.seconds or 0) >= LEAST_SECONDS
        )

    def on_strip(self, sheet: Sheet) -> LaidSheet | None:
        """The lay of the strip engine, if it is whole and our judge finds no fault in it."""
        parts = sum(self.left)
        area = self.area_left()

        def told(length: float) -> None:
            self.tell(Progress(0, parts, area / (length * sheet.size[1]), length))

        strip = Strip(self.kinds, sheet, self.gap)
        seconds, workers = self.limits.seconds or 0.0, self.limits.workers
        spots, self.was_stopped = lay_on_strip(strip, seconds, self.limits.seed, workers, told)
        return LaidSheet(sheet, spots) if spots else None

    def search(self, sheet: Sheet, number: int) -> LaidSheet:
        ahead = self.sheets_ahead(number)
        present = [n for n, left in enumerate(self.left) if left]
        kinds = tuple(self.kinds[n] for n in present)
        demand = self.demand_of(sheet, ahead)
        task = Task(
            kinds, sheet, self.gap, tuple(demand[n] for n in present),
            f"{self.limits.seed}/{number}", self.limits.steps, self.deadline(ahead),
            self.sets_for(number, present),
        )  # fmt: skip
        found: list[Best] = []
        best, stopped = self.workers.search(task, self.teller(sheet, number, found))
        self.was_stopped |= stopped
        table = table_of(kinds, sheet, self.gap)
        for one in [*found[-REMEMBERED:], best]:
            self.pool.learn(spots_of(one, table, present))
        return LaidSheet(sheet, spots_of(best, table, present), best.step)

    def sets_for(self, number: int, present: Sequence[int]) -> Sets | None:
        """Whole items are aimed at on the last sheet there is: before it what does not go in comes next."""
        if number + 1 < len(self.sheets):
            return None
        return sets_of([self.kinds[n] for n in present], [self.left[n] for n in present])

    def teller(self, sheet: Sheet, number: int, found: list[Best]) -> Callable[[Best], None]:
        usable, low = sheet.usable.area, sheet.close.bounds[0]

        def told(best: Best) -> None:
            found.append(best)
            self.tell(Progress(number, len(best.laid), best.area / usable, best.reach - low))

        return told

    def sheets_ahead(self, number: int) -> int:
        """How many sheets, this one too, what is left is reckoned to take."""
        area = self.area_left()
        for count, sheet in enumerate(self.sheets[number:], start=1):
            area -= HOPED_FOR * sheet.usable.area
            if area <= 0:
                return count
        return max(1, len(self.sheets) - number)

    def area_left(self) -> float:
        return sum(kind.area * left for kind, left in zip(self.kinds, self.left, strict=True))

    def demand_of(self, sheet: Sheet, ahead: int) -> list[int]:
        """Everything on the last sheet; before it a mix, a little more than it can hold."""
        if ahead <= 1:
            return self.left[:]
        share = min(1.0, MIXED * sheet.usable.area / self.area_left())
        return [min(left, ceil(left * share)) for left in self.left]

    def deadline(self, ahead: int) -> float | None:
        if self.end is None:
            return None
        end, now = self.end, time.time()
        if self.are_panels:
            end = self.time_at(ONE_BY_ONE if self.has_spare_sheets else TOO_FEW)
            ahead = min(ahead, MANY_SHEETS + 1)
        return now + max(0.0, end - now) / ahead

    def repeats(self, laid: LaidSheet, number: int) -> int:
        """How often this lay is taken in a row: once, or more where many equal sheets are still to be filled.

        Where nothing goes on one nothing goes on its like.
        """
        like = self.sheets[number].likeness
        alike = sum(1 for _ in takewhile(lambda sheet: sheet.likeness == like, self.sheets[number:]))
        if not laid.spots:
            return alike
        ahead = self.sheets_ahead(number)
        if ahead <= MANY_SHEETS or self.sheets[number].kind != "panel":
            return 1
        counts = Counter(spot.kind for spot in laid.spots)
        times = min(self.left[kind] // count for kind, count in counts.items())
        return max(1, min(times, ahead - 1, alike))


def _value(lay: Lay) -> tuple[float, ...]:
    whole = sum(one.whole for one in lay.sets)
    return whole, round(lay.area, 3), -len(lay.sheets), -min(map(lay.length_used, lay.sheets), default=0.0)
