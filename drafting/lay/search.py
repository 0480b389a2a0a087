"""The search for a lay on one sheet: fill it greedily, then tear out a few neighbors and fill that window again.

A part is put where, of all the corners of the region it may lie in, it reaches least far in a direction drawn by lot.
A window filled anew stays if no less leather is used than before. Where not all parts go in, only those of so many
whole items are laid, one item more each time, and the rest of the sheet takes what else goes in. Once all parts are
laid, those that reach farthest right are torn out and must find room further left, so that what is left over stays in
one piece.

Chance comes from one generator and steps are counted, so that the same seed and number of steps give the same lay on
the same versions of the libraries, however long it took.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import cos, inf, pi, sin
from random import Random

import numpy as np
import shapely
from shapely import Geometry

from drafting.lay.bare import Bare
from drafting.lay.lays import Spot
from drafting.lay.nofit import Corners
from drafting.lay.sets import Goals, Sets
from drafting.lay.table import Table
from drafting.records import dataclass

MOST_TORN_OUT = 7
TOUCH = 0.003
"""A place deeper than so many mm inside a forbidden region is none, whatever the region's corners say."""
MOST_REJECTED = 20
"""After so many places that are none the rest of a region is not trusted."""
SHORTER = 0.004
"""By how much of its length a complete lay is shortened at a time."""
LEAST_SHORTER = 0.2
MOST_MISSES = 30
"""After so many steps without it a goal of whole items is lowered, unless it is the next above the best."""
MOST_REGIONS = 5000
"""So many moved regions are kept."""
FEW = 12
"""So many regions are taken away one by one; more are joined first."""
MANY_TURNS, FIRST_TURNS = 4, 2
"""Where a part has more turns than many, a first lay is made with so few of them: the others take their time."""
WORTH = {"firm": 4.0, "usable": 1.0, "poor": 0.8}
"""What a part counts for its area: whoever may only lie in a firm zone goes before those who may lie anywhere."""
Window = tuple[float, float, float, float]


@dataclass(frozen=True)
class Laid:
    """A shape of the table at its place."""

    shape: int
    x: float
    y: float


@dataclass(frozen=True)
class Best:
    """The best so far: what lies where, how much leather the parts take in mm² and what that is worth, how far right
    they reach, the step that found it, and how many items are whole."""

    laid: tuple[Laid, ...]
    area: float
    worth: float
    reach: float
    step: int
    sets: int = 0

    @property
    def value(self) -> tuple[float, float, float]:
        """More whole items come first, then more parts, then a shorter lay."""
        return self.sets, round(self.worth, 6), -round(self.reach, 6)


class Search:
    """One search; `demand` says how many of each kind of the table may be laid, `sets` what makes up whole items."""

    def __init__(
        self,
        table: Table,
        demand: Sequence[int],
        seed: str,
        *,
        sets: Sets | None = None,
        should_stop: Callable[[], bool] = lambda: False,
        tell: Callable[[Best], None] = lambda best: None,
    ) -> None:
        self.table, self.left = table, list(demand)
        self.demand, self.sets = tuple(demand), sets
        self.goals: Goals | None = None
        self.misses = 0
        self.regions: dict[tuple[Laid, int], Geometry] = {}
        self.random = Random(seed)
        self.should_stop, self.tell = should_stop, tell
        self.laid: list[Laid] = []
        self.boxes: list[Window] = []
        self.limit = inf
        self.steps = 0
        self.is_filled = self.was_stopped = False
        self.worths = [WORTH[kind.zone] * kind.area for kind in table.kinds]
        self.best = Best((), 0.0, 0.0, 0.0, 0)

    def run(self, steps: int | None) -> Best:
        """Search until so many steps are done or it is told to stop; Ctrl-C stops it, too.

        However short the time, the sheet is filled once: what is not laid then really finds no room.
        """
        try:
            if max(map(len, self.table.by_kind)) > MANY_TURNS:
                self.fill_soon()
            self.fill(None, self.kinds_by_size(0.0), self.direction(0.15))
            self.is_filled = True
            self.keep_if_better()
            while self.laid and (steps is None or self.steps < steps) and not self.should_stop():
                self.steps += 1
                self.aim()
                self.step()
                self.keep_if_better()
        except KeyboardInterrupt:
            self.was_stopped = True
            if not self.best.laid:
                self.best = self.now()
        return self.best

    @property
    def area(self) -> float:
        return sum(self.table.kinds[self.table.shapes[one.shape].kind].area for one in self.laid)

    @property
    def worth(self) -> float:
        return sum(self.worths[self.table.shapes[one.shape].kind] for one in self.laid)

    @property
    def reach(self) -> float:
        return max((box[2] for box in self.boxes), default=0.0)

    @property
    def is_complete(self) -> bool:
        return not any(self.left) and self.goals is None

    @property
    def counts(self) -> list[int]:
        """How many of each kind are laid."""
        found = [0] * len(self.demand)
        for one in self.laid:
            found[self.table.shapes[one.shape].kind] += 1
        return found

    def keep_if_better(self) -> None:
        if self.goals is not None and not any(self.left):
            self.drop_goals()
            self.fill(None, self.kinds_by_size(0.0), self.direction(0.15))
        now = self.now()
        if now.value > self.best.value:
            self.best = now
            self.tell(now)
        if self.is_complete and self.laid:
            self.shorten()

    def now(self) -> Best:
        whole = sum(self.sets.complete(self.counts)) if self.sets else 0
        return Best(tuple(self.laid), self.area, self.worth, self.reach, self.steps, whole)

    def shorten(self) -> None:
        """Nothing may reach as far right as now: what does is torn out."""
        low = self.table.sheet.outline.bounds[0]
        self.limit = self.reach - max(LEAST_SHORTER, SHORTER * (self.reach - low))
        self.tear_out([n for n, box in enumerate(self.boxes) if box[2] > self.limit])

    # Whole items

    def aim(self) -> None:
        """Where not everything goes in: want so many whole items, and lay nothing else until they are."""
        if self.sets is None or self.limit < inf or not self.laid:
            return
        complete = self.sets.complete(self.counts)
        if self.goals is None:
            self.aim_at(self.sets.share(self.part_laid if self.steps == 1 else 0.0, complete))
            return
        self.misses += 1
        if self.misses > MOST_MISSES and sum(self.goals) > self.best.sets + 1:
            self.aim_at(self.sets.less(self.goals, complete))

    def aim_at(self, goals: Goals) -> None:
        assert self.sets is not None
        self.goals, self.misses = goals, 0
        caps = self.sets.caps(goals, self.demand)
        over = [count - cap for count, cap in zip(self.counts, caps, strict=True)]
        surplus = []
        for number in reversed(range(len(self.laid))):
            kind = self.table.shapes[self.laid[number].shape].kind
            if over[kind] > 0:
                over[kind] -= 1
                surplus.append(number)
        self.tear_out(surplus)
        self.left = [cap - count for cap, count in zip(caps, self.counts, strict=True)]
        self.fill(None, self.kinds_by_size(0.0), self.direction(2 * pi))

    def drop_goals(self) -> None:
        self.goals = None
        self.left = [wanted - count for wanted, count in zip(self.demand, self.counts, strict=True)]

    @property
    def part_laid(self) -> float:
        """Of all that is wanted, by area."""
        areas = [kind.area for kind in self.table.kinds]
        wanted = sum(area * count for area, count in zip(areas, self.demand, strict=True))
        return self.area / wanted

    # One step

    def step(self) -> None:
        before = self.laid[:], self.boxes[:], self.left[:]
        worth = self.worth
        torn = self.neighbors_of_a_place()
        window = self.window_around([self.boxes[n] for n in torn])
        self.tear_out(torn)
        noise = 0.5 if self.random.random() < 0.7 else 4.0
        self.fill(window, self.kinds_by_size(noise), self.direction(2 * pi))
        if self.worth < worth - 1e-6:
            self.laid, self.boxes, self.left = before

    def neighbors_of_a_place(self) -> list[int]:
        """The parts nearest to a place drawn by lot on the sheet."""
        low_x, low_y, high_x, high_y = self.table.sheet.outline.bounds
        high_x = min(high_x, max(self.reach, low_x + 1.0))
        x = low_x + self.random.random() * (high_x - low_x)
        y = low_y + self.random.random() * (high_y - low_y)
        count = 1 + int(self.random.random() * MOST_TORN_OUT)
        boxes = np.array(self.boxes)
        off = np.hypot((boxes[:, 0] + boxes[:, 2]) / 2 - x, (boxes[:, 1] + boxes[:, 3]) / 2 - y)
        return [int(n) for n in np.argsort(off, kind="stable")[:count]]

    def window_around(self, boxes: Sequence[Window]) -> Window:
        low_x, low_y = min(box[0] for box in boxes), min(box[1] for box in boxes)
        high_x, high_y = max(box[2] for box in boxes), max(box[3] for box in boxes)
        wider = 0.3 * self.random.random() * max(high_x - low_x, high_y - low_y)
        return low_x - wider, low_y - wider, high_x + wider, high_y + wider

    def tear_out(self, numbers: Iterable[int]) -> None:
        gone = set(numbers)
        for number in gone:
            self.left[self.table.shapes[self.laid[number].shape].kind] += 1
        self.laid = [one for n, one in enumerate(self.laid) if n not in gone]
        self.boxes = [box for n, box in enumerate(self.boxes) if n not in gone]

    def direction(self, spread: float) -> Corners:
        """Right, turned left by up to so many radians."""
        angle = self.random.random() * spread
        return np.array([cos(angle), sin(angle)])

    def kinds_by_size(self, noise: float) -> list[int]:
        """The kinds that are left, those of most worth first but for chance."""
        weighted = [
            (worth * (1 + noise * self.random.random()), number) for number, worth in enumerate(self.worths)
        ]
        return [number for _, number in sorted(weighted, key=lambda one: -one[0]) if self.left[number]]

    # Filling

    def fill(self, window: Window | None, kinds: Sequence[int], direction: Corners) -> None:
        if window is None:
            self.fill_all(kinds, direction)
            return
        room = self.room_in(window)
        for kind in kinds:
            if 0.99 * self.table.kinds[kind].area <= room:
                laid = self.fill_kind(self.table.by_kind[kind], window, direction)
                room -= laid * self.table.kinds[kind].area

    def fill_soon(self) -> None:
        """A first lay with few turns of each part, told at once, and taken up again."""
        self.fill_all(self.kinds_by_size(0.0), self.direction(0.15), FIRST_TURNS)
        self.best = self.now()
        self.tell(self.best)
        self.tear_out(range(len(self.laid)))

    def fill_all(self, kinds: Sequence[int], direction: Corners, turns: int | None = None) -> None:
        """The whole sheet. Where a shape fits takes long to work out, so none is asked for that has no room anyway."""
        bare = Bare(self.table.region("poor"))
        bare.take(self.polygon(one) for one in self.laid)
        for kind in kinds:
            tried = self.table.by_kind[kind]
            tried = tried[:: -(-len(tried) // turns)] if turns else tried
            numbers = [number for number in tried if self.may_have_room(number, bare)]
            if numbers:
                count = self.fill_kind(numbers, None, direction)
                bare.take(self.polygon(one) for one in self.laid[len(self.laid) - count :])

    def may_have_room(self, number: int, bare: Bare) -> bool:
        if self.table.knows_inner(number):
            return True
        places = bare.places(self.table.shapes[number].discs)
        return self.without_neighbors(places, number) is not None

    def polygon(self, one: Laid) -> Geometry:
        return _moved(self.table.shapes[one.shape].polygon, one.x, one.y)

    def room_in(self, window: Window) -> float:
        """How much leather is free in a window, in mm²."""
        low_x, low_y, high_x, high_y = window
        near = [
            self.polygon(one)
            for one, box in zip(self.laid, self.boxes, strict=True)
            if box[0] < high_x and box[2] > low_x and box[1] < high_y and box[3] > low_y
        ]
        taken = shapely.area(shapely.clip_by_rect(near, *window)).sum() if near else 0.0
        return float(shapely.clip_by_rect(self.table.region("poor"), *window).area - taken)

    def fill_kind(self, numbers: Sequence[int], window: Window | None, direction: Corners) -> int:
        """Lay as many of a kind, in these of its turns, as there is room for; how many."""
        kind = self.table.shapes[numbers[0]].kind
        free = {number: self.free(number, window) for number in numbers}
        reaches = {number: self.table.shapes[number].reach(direction) for number in free}
        count = rejected = 0
        while self.left[kind] and rejected < MOST_REJECTED and not (self.is_filled and self.should_stop()):
            places = [
                (*nearest, number)
                for number, region in free.items()
                if region is not None and (nearest := _nearest(region, direction, reaches[number]))
            ]
            if not places:
                break
            _, x, y, number = min(places)
            if not self.is_free(number, x, y):
                free[number] = _without_place(free[number], x, y)
                rejected += 1
                continue
            self.put(Laid(number, x, y))
            count += 1
            for other, region in free.items():
                if region is not None:
                    free[other] = _polygons(region.difference(_moved(self.table.no_fit(number, other), x, y)))
        return count

    def put(self, one: Laid) -> None:
        shape = self.table.shapes[one.shape]
        left, bottom, right, top = shape.bounds
        self.laid.append(one)
        self.boxes.append((left + one.x, bottom + one.y, right + one.x, top + one.y))
        self.left[shape.kind] -= 1

    def free(self, number: int, window: Window | None) -> Geometry | None:
        """Where a shape may lie now, within the window."""
        left, bottom, right, top = self.table.shapes[number].bounds
        low_x, low_y, high_x, high_y = window or (-inf, -inf, inf, inf)
        high_x = min(high_x, self.limit)
        region: Geometry | None = self.table.inner(number)
        if window is not None or self.limit < inf:
            around = self.table.inner(number).bounds
            sides = (low_x - left, low_y - bottom, high_x - right, high_y - top)
            rect = tuple(min(max(a, b), 1e9) for a, b in zip(sides[:2], around[:2], strict=True)) + tuple(
                min(a, b) for a, b in zip(sides[2:], around[2:], strict=True)
            )
            if not (rect[0] < rect[2] and rect[1] < rect[3]):
                return None
            region = _polygons(shapely.clip_by_rect(self.table.inner(number), *rect))
        return self.without_neighbors(region, number)

    def without_neighbors(self, region: Geometry | None, number: int) -> Geometry | None:
        if region is None or region.is_empty:
            return None
        blocked = [moved for moved in self.blocking(number, region.bounds)]
        if len(blocked) > FEW:
            return _polygons(region.difference(shapely.union_all(blocked)))
        for block in blocked:
            region = _polygons(region.difference(block))
            if region is None:
                return None
        return region

    def blocking(self, number: int, places: Window) -> list[Geometry]:
        """The regions that parts near enough keep a shape out of, when it lies at one of these places."""
        if not self.boxes:
            return []
        left, bottom, right, top = self.table.shapes[number].bounds
        gap = self.table.gap
        boxes = np.array(self.boxes)
        near = (
            (boxes[:, 0] < places[2] + right + gap)
            & (boxes[:, 2] > places[0] + left - gap)
            & (boxes[:, 1] < places[3] + top + gap)
            & (boxes[:, 3] > places[1] + bottom - gap)
        )
        return [self.kept_out(self.laid[n], number) for n in np.flatnonzero(near)]

    def kept_out(self, one: Laid, number: int) -> Geometry:
        """Where a laid part keeps a shape out. Most parts lie still, so it is kept."""
        key = (one, number)
        if key not in self.regions:
            if len(self.regions) >= MOST_REGIONS:
                self.regions.clear()
            self.regions[key] = _moved(self.table.no_fit(one.shape, number), one.x, one.y)
        return self.regions[key]

    def is_free(self, number: int, x: float, y: float) -> bool:
        """Asked again of each place that is chosen: the corner of a sliver may lie where nothing may."""
        blocks = self.blocking(number, (x, y, x, y))
        if not blocks:
            return True
        inside = shapely.contains_xy(blocks, x, y)
        point = shapely.Point(x, y)
        return not any(
            shapely.distance(shapely.boundary(block), point) > TOUCH
            for block, is_inside in zip(blocks, inside, strict=True)
            if is_inside
        )


def _nearest(region: Geometry, direction: Corners, reach: float) -> tuple[float, float, float] | None:
    """Of the corners of a region the one that lies least far in a direction."""
    corners = shapely.get_coordinates(region)
    far = corners @ direction
    first = int(far.argmin())
    return float(far[first]) + reach, float(corners[first, 0]), float(corners[first, 1])


def _polygons(region: Geometry) -> Geometry | None:
    """A region without what has no area."""
    return region if region.area > 1e-9 else None


def _without_place(region: Geometry | None, x: float, y: float) -> Geometry | None:
    """A region less the surroundings of a corner that proved to be a sliver's."""
    return None if region is None else _polygons(region.difference(shapely.Point(x, y).buffer(0.05)))


def _moved(shape: Geometry, x: float, y: float) -> Geometry:
    return shapely.transform(shape, lambda corners: corners + np.array((x, y)))


def spots_of(best: Best, table: Table, kinds: Sequence[int] | None = None) -> tuple[Spot, ...]:
    """Where the parts lie; `kinds` gives the numbers that the table's kinds have in the order."""
    shapes = [(table.shapes[one.shape], one) for one in best.laid]
    return tuple(
        Spot(kinds[shape.kind] if kinds else shape.kind, shape.turn, round(one.x, 4), round(one.y, 4))
        for shape, one in shapes
    )
