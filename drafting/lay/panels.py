"""An order that lies on panels is made to lie on fewer of them, or to take less of the last one.

The strip engine is asked again and again whether some mix of parts goes on one panel that holds a little more than a
panel holds now, or that shares the order out evenly. What goes is known from then on, and the panels are put together
anew from all that is known, two at a time, so that less is left for the last one. Where no mix is left that is likely
to go, the rest is laid in less length instead, and so are others that nearly as full panels would leave.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable, Sequence
from math import exp, inf
from random import Random

from drafting.lay.kinds import Kind
from drafting.lay.mixes import Mix, Mixes, Spots
from drafting.lay.search import Best, Search, spots_of
from drafting.lay.sheets import Sheet
from drafting.lay.strip import Strip, Try, lay_on_strip
from drafting.lay.workers import table_of
from drafting.records import replace

SHORTEST_TRY, LONGEST_TRY = 2.0, 30.0
"""Seconds that the engine is given for one mix."""
TRIES = 5
"""So many one after the other are aimed at within the time there is."""
FULLEST = 0.9
"""More of a panel than this is never asked for."""
MOST_GAIN = 0.06
"""A share of the order that is asked for holds at most so much of a panel more than what would do."""
SPREAD = 0.012
"""Of mixes that take so much of a panel more than those that go as often as not about one in four goes."""
LEARNED = 0.02
"""By up to so much of a panel each answer of the engine changes what is hoped for."""
NEAR = 0.007
"""A mix too long by so much of the panel is asked for again about a third as soon."""
MOST_FAILED = 4
"""A mix that did not go so many times is not asked for again."""
LEAST_CHANCE = 0.1
"""Of what is less likely to go no more than one mix is asked for at a time, while the last panel can become shorter."""
MOST_SHORTENED = 2
"""So many times one after the other without any gain a rest is laid in less length."""
MOST_LOSS = 0.02
"""Panels that leave up to so much of one more for the last one may still leave what lies in less length."""
GUESSES = 60
REST_STEPS = 40
"""So many steps of our own search are made to lay the rest on the last panel."""
WEIGHED = 3
"""Of so many of the best ways to put panels together it is asked whether what they leave goes on the last one."""
PAUSE = 0.02


class Panels:
    """The mixes on the full panels, and the `rest`: it lies on the last one, or nowhere, where `last` is empty."""

    def __init__(
        self,
        kinds: tuple[Kind, ...],
        panel: Sheet,
        gap: float,
        laid: Sequence[Spots],
        rest: Mix,
        last: Spots,
        *,
        pool: Mixes,
        seed: int,
        workers: int,
    ) -> None:
        self.kinds, self.panel, self.gap, self.pool = kinds, panel, gap, pool
        self.mixes = [pool.learn(spots) for spots in laid]
        self.rest, self.is_last_laid = rest, bool(last)
        self.rests: dict[Mix, Spots | None] = {pool.mix_of(last): last} if last else {}
        self.failed: Counter[Mix] = Counter()
        self.excess: dict[Mix, float] = {}
        self.random = Random(f"{seed}/panels")
        self.end = 0.0
        self.hope = max(map(pool.hull, pool.known)) / panel.area
        """Parts with hulls that take so much of a panel are as likely to go as not."""
        self.workers = max(1, workers)
        self.tries: dict[Mix, Try] = {}
        self.shortening: tuple[list[Mix], Mix, Try] | None = None
        """The panels, the rest that they leave, and the engine at work on it."""
        self.vain: Counter[Mix] = Counter()

    @property
    def order(self) -> Mix:
        return tuple(sum(mix[kind] for mix in self.mixes) + rest for kind, rest in enumerate(self.rest))

    def improve(self, end: float, told: Callable[[], None]) -> bool:
        """Ask the strip engine for mixes until `end` on the clock of `time.time`; whether Ctrl-C ended it sooner.

        `told` hears of each gain.
        """
        seconds = min(LONGEST_TRY, max(SHORTEST_TRY, (end - time.time()) / TRIES))
        self.end = end
        try:
            self.put_together(told)
            while time.time() < end and any(self.rest):
                self.start_tries(seconds)
                if not self.tries and not self.shortening:
                    break
                if self.gather():
                    self.put_together(told)
                if self.gather_shorter():
                    told()
                time.sleep(PAUSE)
        except KeyboardInterrupt:
            return True
        finally:
            for one in (*self.tries.values(), *([self.shortening[2]] if self.shortening else [])):
                one.end()
        return False

    def start_tries(self, seconds: float) -> None:
        seconds = min(seconds, self.end - time.time())
        while seconds >= 1 and len(self.tries) + bool(self.shortening) < self.workers:
            mix = self.proposed()
            if mix is None or self.chance(mix) < LEAST_CHANCE:
                if self.start_shortening(seconds):
                    continue
            if mix is None:
                break
            seed = self.random.randrange(1, 10**6)
            strip = self.strip_of(mix, self.is_wide == (self.failed[mix] % 3 != 2))
            self.tries[mix] = Try(strip, seconds, seed, strip.length)

    @property
    def is_wide(self) -> bool:
        """Short high strips were measured to be filled sooner than long low ones."""
        width, height = self.panel.size
        return width >= height

    def gather(self) -> bool:
        """Take in the tries that are over; whether one went."""
        is_new = False
        for mix in [mix for mix, one in self.tries.items() if one.is_over]:
            one = self.tries.pop(mix)
            spots = one.found()
            self.hope += LEARNED * (bool(spots) - self.chance(mix))
            if spots:
                self.pool.learn(spots)
                is_new = True
            else:
                self.failed[mix] += 1
                self.excess[mix] = min(one.excess, self.excess.get(mix, inf))
        return is_new

    # The last panel

    def start_shortening(self, seconds: float) -> bool:
        """Have the engine lay the rest in less length, or another rest that panels nearly as full would leave."""
        if self.shortening or not self.is_last_laid:
            return False
        ways = [
            (self.mixes, self.rest),
            *self.pool.nearly_as_full(self.mixes, self.rest, self.panel.area * MOST_LOSS),
        ]
        ways = [(panels, rest) for panels, rest in ways if self.vain[rest] < MOST_SHORTENED]
        if not ways:
            return False
        panels, rest = min(ways, key=lambda way: self.vain[way[1]])
        seed = self.random.randrange(1, 10**6)
        self.shortening = panels, rest, Try(self.strip_of(rest), seconds, seed)
        return True

    def gather_shorter(self) -> bool:
        """Take in the lay of a rest that is over; whether the last panel became shorter by it."""
        if self.shortening is None or not self.shortening[2].is_over:
            return False
        panels, rest, one = self.shortening
        self.shortening = None
        spots, known = one.found(), self.rests.get(rest)
        is_gain = bool(spots) and (known is None or self.length_of(spots) < self.length_of(known))
        self.vain[rest] = 0 if is_gain and rest == self.rest else self.vain[rest] + 1
        if not is_gain:
            return False
        now = self.length_of(self.last)
        self.rests[rest] = spots
        if self.length_of(spots) >= now or len(panels) != len(self.mixes):
            return False
        self.mixes, self.rest = panels, rest
        return True

    def strip_of(self, mix: Mix, is_upright: bool = False) -> Strip:
        kinds = tuple(replace(kind, demand=count) for kind, count in zip(self.kinds, mix, strict=True))
        return Strip(kinds, self.panel, self.gap, is_upright)

    # What to ask for

    def proposed(self) -> Mix | None:
        """A mix that is not known and that promises most: what it gains, times how likely it is to go."""
        ways = self.changed, self.completed, self.shared_out
        guesses = [self.random.choice(ways)() for _ in range(GUESSES if self.mixes else 0)]
        new = [
            (gain * self.chance(mix), mix)
            for mix, gain in filter(None, guesses)
            if mix not in self.pool.known and mix not in self.tries and self.failed[mix] < MOST_FAILED
        ]
        return max(new)[1] if new else None

    def chance(self, mix: Mix) -> float:
        """That a mix goes: the more its parts take, the less; one that did not is judged by how near it was."""
        if mix in self.excess:
            return 0.5 * exp(-max(0.0, self.excess[mix]) / NEAR)
        fuller = self.pool.hull(mix) / self.panel.area - self.hope
        return 1 / (1 + exp(min(fuller / SPREAD, 50.0)))

    def changed(self) -> tuple[Mix, float] | None:
        """A panel with some of the rest, perhaps instead of one or two of its parts."""
        before = self.random.choice(self.mixes)
        mix, rest = list(before), list(self.rest)
        for _ in range(self.random.randrange(3)):
            if present := [kind for kind, count in enumerate(mix) if count]:
                mix[self.random.choice(present)] -= 1
        for _ in range(self.random.randrange(1, 4)):
            if there := [kind for kind, count in enumerate(rest) if count]:
                kind = self.random.choice(there)
                mix[kind] += 1
                rest[kind] -= 1
        return self.if_better(mix, self.pool.area(before))

    def completed(self) -> tuple[Mix, float] | None:
        """What would do for one of two panels if the other one were given a known mix."""
        two = self.random.sample(self.mixes, min(2, len(self.mixes)))
        known = self.random.choice(self.pool.fullest)
        free = [rest + sum(of_kind) - n for rest, n, *of_kind in zip(self.rest, known, *two, strict=True)]
        needed = sum(map(self.pool.area, two)) - self.pool.area(known)
        if min(free) < 0 or len(two) < 2 or needed <= 0:
            return None
        return self.if_better(self.part_of(free, needed), needed)

    def shared_out(self) -> tuple[Mix, float] | None:
        """The order in even parts."""
        mean = sum(self.pool.area(mix) for mix in self.mixes) / len(self.mixes)
        return self.if_better(self.part_of(self.order, mean), mean)

    def part_of(self, parts: Sequence[int], area: float) -> list[int]:
        """As much of some parts as takes an area, or a little more, in the proportions they have, rounded by lot."""
        wanted = area + MOST_GAIN * self.panel.area * self.random.random()
        share = wanted / max(self.pool.area(parts), 1.0)
        return [min(count, int(count * share + self.random.random())) for count in parts]

    def if_better(self, mix: Sequence[int], than: float) -> tuple[Mix, float] | None:
        """The mix and by how much of a panel it holds more, where it is worth asking for."""
        gain = (self.pool.area(mix) - than) / self.panel.area
        is_worth_it = gain > 0 and self.pool.area(mix) <= FULLEST * self.panel.area
        return (tuple(mix), gain) if is_worth_it else None

    # What it comes to

    def put_together(self, told: Callable[[], None]) -> None:
        """Give two panels other mixes as long as that leaves less for the last one."""
        while self.mixes and time.time() < self.end and (better := self.better()):
            self.mixes, self.rest = [mix for mix in better if any(mix)], self.left_by(better)
            if not any(self.rest):
                *fuller, emptiest = sorted(self.mixes, key=self.pool.area, reverse=True)
                self.mixes, self.rest, self.is_last_laid = fuller, emptiest, True
            told()

    def better(self) -> list[Mix] | None:
        for panels in self.pool.better(self.mixes, self.rest, self.random)[:WEIGHED]:
            if not self.is_last_laid or self.rest_laid(self.left_by(panels)) is not None:
                return panels
        return None

    def left_by(self, panels: Sequence[Mix]) -> Mix:
        return tuple(
            rest + sum(mix[kind] for mix in self.mixes) - sum(mix[kind] for mix in panels)
            for kind, rest in enumerate(self.rest)
        )

    def rest_laid(self, rest: Mix) -> Spots | None:
        """Where the rest lies on the last panel; None where it is not found to go on."""
        if rest not in self.rests:
            known = self.pool.spots_of(rest)
            self.rests[rest] = self.searched(rest) if known is None else known
        return self.rests[rest]

    def searched(self, rest: Mix) -> Spots | None:
        if self.pool.area(rest) > FULLEST * self.panel.area:
            return None
        table = table_of(self.kinds, self.panel, self.gap)
        found: list[Best] = []

        def is_found() -> bool:
            return bool(found) and len(found[-1].laid) == sum(rest)

        search = Search(table, rest, "rest", should_stop=is_found, tell=found.append)
        search.run(REST_STEPS)
        if search.was_stopped:
            raise KeyboardInterrupt
        return spots_of(search.best, table) if is_found() else None

    # What it comes to in the end

    @property
    def all_spots(self) -> list[Spots]:
        """The fullest first, and the rest last."""
        fuller = [self.pool.known[mix] for mix in sorted(self.mixes, key=self.pool.area, reverse=True)]
        return [*fuller, *([self.last] if self.is_last_laid else [])]

    @property
    def last(self) -> Spots:
        return self.rest_laid(self.rest) or ()

    def length_of(self, spots: Spots) -> float:
        """How much of a panel is used, the margin behind the parts counted."""
        return Strip(self.kinds, self.panel, self.gap).reach(spots) + self.panel.margin

    def shorten_last(self, seconds: float, seed: int, tell: Callable[[float], None]) -> bool:
        """Lay the rest in the least length that the engine finds; whether Ctrl-C ended it sooner."""
        strip = self.strip_of(self.rest)
        spots, was_stopped = lay_on_strip(strip, seconds, seed, self.workers, tell)
        if spots and strip.reach(spots) < strip.reach(self.last):
            self.rests[self.rest] = spots
        return was_stopped
