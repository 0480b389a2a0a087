"""How good lays are after some seconds, side by side with the plain bottom-left rule, and how soon the first is there.

Run by name on a machine that does nothing else: `pytest -s tests/benchmarks/test_laying.py`; SECONDS in the environment
says how long each search takes. What is aimed at, on two cores, at the least and at best:

| case | least | best |
| --- | --- | --- |
| albano, trousers, 10 s | 86, 88 % | 87, 89 % |
| open hide, 60 s | 71 % | 74 % |
| panels, 60 s | 5 panels, 79 % of what is used | 81 % |
| own hide, 60 s, along the backbone; across, too | 73 %; 75 % | 76 %; 78 % |
| first lay on the own hide | 65 % in 1 s | 70 % in 2 s |
| judging 60 parts; 300 parts | 20 ms | 100 ms |
"""

from __future__ import annotations

import json
import os
import random
import resource
import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise
from math import cos, pi, sin
from pathlib import Path

import numpy as np
import pytest
import shapely

import drafting
from drafting.geometry.line import Line
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.lay import Freedom, Kind, LaidSheet, Lay, Limits, Sheet, Spot, lay_out, panel, roll, verify
from drafting.lay.strip import Strip, lay_on_strip
from drafting.lay.table import Table

ROOT = Path(__file__).parents[2]
SECONDS = float(os.environ.get("SECONDS", "10"))
LIMITS = Limits(seconds=SECONDS, steps=None, workers=2)


def ring(corners: Sequence[Sequence[float]]) -> Ring:
    points = [Point(float(x), float(y)) for x, y in corners]
    points = points[:-1] if points[0] == points[-1] else points
    return Ring([Line(a, b) for a, b in pairwise([*points, points[0]])])


def read(name: str) -> dict[str, object]:
    found: dict[str, object] = json.loads(
        (Path(__file__).parent / "nesting" / name).read_text(encoding="utf-8")
    )
    return found


def kinds_of(instance: dict[str, object]) -> list[Kind]:
    items: list[dict[str, object]] = instance["items"]  # type: ignore[assignment]
    return [
        Kind(f"part {n}", ring(one["shape"]["data"]), one["demand"], grain=0.0) for n, one in enumerate(items)
    ]  # type: ignore[index, arg-type]


def bottom_left(kinds: Sequence[Kind], sheet: Sheet, gap: float) -> Lay:
    """The plain rule: largest first, each as far left as it goes and then as low, as drafted or turned by 180 degrees."""
    table, spots = Table(kinds, sheet, gap), []
    laid: list[tuple[int, float, float]] = []
    for kind in sorted(range(len(kinds)), key=lambda n: -kinds[n].area):
        free = {n: taken(table, n, laid) for n in table.by_kind[kind]}
        for _ in range(kinds[kind].demand):
            places = [
                (x + table.shapes[n].bounds[2], y, x, n)
                for n, region in free.items()
                for x, y in shapely.get_coordinates(region)
            ]
            if not places:
                break
            _, y, x, number = min(places)
            laid.append((number, x, y))
            spots.append(Spot(kind, table.shapes[number].turn, x, y))
            free = {n: region.difference(moved(table, number, n, x, y)) for n, region in free.items()}
    return Lay(tuple(kinds), (LaidSheet(sheet, tuple(spots)),), gap, 0)


def taken(table: Table, number: int, laid: Sequence[tuple[int, float, float]]) -> shapely.Geometry:
    blocks = [moved(table, other, number, x, y) for other, x, y in laid]
    return table.inner(number).difference(shapely.union_all(blocks))


def moved(table: Table, one: int, other: int, x: float, y: float) -> shapely.Geometry:
    return shapely.transform(table.no_fit(one, other), lambda corners: corners + np.array((x, y)))


def density(lay: Lay) -> float:
    (laid,) = lay.sheets
    return lay.area / (lay.length_used(laid) * laid.sheet.size[1])


@pytest.mark.parametrize(("name", "height", "length"), [("albano", 4900, 40000), ("trousers", 79, 800)])
def test_a_strip(name: str, height: float, length: float) -> None:
    kinds, sheet = kinds_of(read(f"{name}.json")), roll(height, length)
    plain = bottom_left(kinds, sheet, 0.0)
    ours = lay_out(kinds, [sheet], gap=0.0, limits=LIMITS)
    assert verify(ours) == [] and ours.is_complete
    print(f"\n{name}: bottom-left {density(plain):.2%}, ours after {SECONDS:g} s {density(ours):.2%}")
    assert density(ours) > density(plain)


def test_an_open_hide() -> None:
    instance = read("baldacci1-hides.json")
    sheet = hide_of(instance["bins"][0])  # type: ignore[index]
    kinds = kinds_of(instance)
    told: list[tuple[float, float]] = []
    cpu = time.process_time()
    ours = lay_out(
        kinds, [sheet], gap=0.0, limits=LIMITS,
        tell=lambda best: told.append((time.process_time() - cpu, best.of_usable)),
    )  # fmt: skip
    assert verify(ours) == []
    plain = bottom_left(kinds, sheet, 0.0)
    print(
        f"\nhide: first lay {told[0][1]:.2%} after {told[0][0]:.2f} s of CPU, "
        f"bottom-left {plain.yield_of_usable:.2%}, ours after {SECONDS:g} s "
        f"{ours.yield_of_usable:.2%}"
    )
    assert ours.yield_of_usable > plain.yield_of_usable


def hide_of(bin_: dict[str, object]) -> Sheet:
    """Zones of lower quality count as defects."""
    data = bin_["shape"]["data"]  # type: ignore[index]
    zones = [zone["shape"]["data"] for zone in bin_["zones"]]  # type: ignore[attr-defined]
    rings = [ring(one["outer"] if isinstance(one, dict) else one) for one in [*data["inner"], *zones]]
    return Sheet("hide", ring(data["outer"]), 0.0, tuple(rings), backbone=0.0)


def test_tags_on_a_hide_with_six_defects() -> None:
    """24 copies of an item of five pieces: the first lay, and the lay after some seconds, beside the plain rule."""
    tag = drafting.load(ROOT / "patterns/hatch-tag.draft").place()
    hide = drafting.load(ROOT / "patterns/hides/shoulder.draft").place()
    first: list[float] = []
    start = time.perf_counter()
    laid = drafting.lay_order(
        [(tag, 24)], hides=[hide], limits=LIMITS, tell=lambda best: first.append(time.perf_counter() - start)
    )
    assert laid.violations() == []
    plain = bottom_left(laid.lay.kinds, laid.lay.sheets[0].sheet, laid.lay.gap)
    print(
        f"\ntags: first lay after {first[0]:.2f} s, bottom-left {plain.yield_of_usable:.2%}, "
        f"ours after {SECONDS:g} s {laid.lay.yield_of_usable:.2%}"
    )
    assert laid.lay.area > plain.area


# A hide, panels and parts of our own

PARTS = (
    # A bag's side with a scooped mouth, a flap, a strap end with a tongue, and a keeper.
    [(0, 0), (148, 0), (156, 8), (160, 22), (160, 118), (152, 122), (140, 112), (128, 100), (114, 92), (98, 87),
     (80, 85), (62, 87), (46, 92), (32, 100), (20, 112), (8, 122), (0, 118), (-6, 90), (-9, 60), (-6, 30), (-4, 20),
     (-3, 12), (-2, 5)],
    [(0, 0), (150, 0), (150, 62), (146, 78), (138, 90), (126, 98), (110, 103), (75, 105), (40, 103), (24, 98),
     (12, 90), (4, 78), (0, 62), (-3, 40), (-3, 20)],
    [(0, 0), (60, 0), (66, 6), (120, 6), (132, 10), (140, 20), (132, 30), (120, 34), (66, 34), (60, 40), (34, 40),
     (34, 92), (28, 104), (20, 108), (12, 104), (6, 92), (6, 46), (0, 40)],
    [(0, 0), (70, 0), (78, 12), (78, 70), (70, 82), (0, 82), (-8, 41)],
)  # fmt: skip
SETS = 15
ALONG = Freedom()
LARGER = 1.0352
"""By which the parts are scaled, so that fifteen of each have 0.709 m²."""
BAGS_AREA = 0.709e6
SMALLER = 0.56
"""Strap ends and keepers of the bags that lie closer, against the other parts."""
PANELS_AIMED_AT, HOPED_FOR, TRY = 5, 0.82, 4.0
"""Of each panel so much, and a try of so many seconds, with the strip engine alone."""
MORE = 0.012
"""Of a panel."""
DEFECTS = ((250, 190, 29), (520, 420, 40), (800, 260, 21), (350, 560, 26), (640, 130, 34), (960, 480, 24))
"""Middle and radius."""


def bag(freedom: Freedom = ALONG, sets: int = SETS) -> list[Kind]:
    """Fifteen bags, 0.709 m² in all. Asked for its area only, so nothing makes up a whole item."""
    return [
        Kind(f"part {n}", ring([(x * LARGER, y * LARGER) for x, y in part]), sets, grain=0.0, freedom=freedom)
        for n, part in enumerate(PARTS)
    ]


def own_hide() -> Sheet:
    """0.80 m² with 36 corners and six defects, its backbone level."""
    chance = random.Random(5)
    corners = [
        (610 + 585 * scale * cos(turn) * (1 - 0.1 * cos(4 * turn)), 400 + 385 * scale * sin(turn))
        for turn in (2 * pi * n / 36 for n in range(36))
        for scale in [0.97 + 0.1 * chance.random()]
    ]
    edge = shapely.Polygon(corners)
    scale = (0.80e6 / edge.area) ** 0.5
    spots = [
        [(x + r * cos(pi * n / 8), y + r * 0.7 * sin(pi * n / 8)) for n in range(16)] for x, y, r in DEFECTS
    ]
    outline = ring([(x * scale, y * scale) for x, y in corners])
    return Sheet("own hide", outline, 5.0, tuple(ring(spot) for spot in spots), backbone=0.0)


def used(lay: Lay) -> float:
    """Parts over all the panels, the emptiest of them as far as it is used."""
    lengths = [lay.length_used(laid) for laid in lay.sheets]
    width, height = lay.sheets[0].sheet.size
    return lay.area / (height * (width * (len(lengths) - 1) + min(lengths)))


@pytest.mark.parametrize("across", [False, True])
def test_our_own_hide(across: bool) -> None:
    kinds, sheet = bag(Freedom(across=across)), own_hide()
    told: list[tuple[float, float, float]] = []
    start, cpu = time.perf_counter(), time.process_time()
    ours = lay_out(
        kinds, [sheet], gap=2.0, limits=LIMITS,
        tell=lambda best: told.append(
            (time.perf_counter() - start, time.process_time() - cpu, best.of_usable)
        ),
    )  # fmt: skip
    assert verify(ours) == []
    plain = bottom_left(kinds, sheet, 2.0)
    early = max((share for _, cpu, share in told if cpu <= 2.0), default=0.0)
    print(
        f"\nown hide{', across' if across else ''}: first lay {told[0][2]:.2%} after {told[0][0]:.2f} s "
        f"({told[0][1]:.2f} s of CPU), {early:.2%} after 2 s of CPU; bottom-left {plain.yield_of_usable:.2%}, "
        f"ours after {SECONDS:g} s {ours.yield_of_usable:.2%}"
    )
    assert ours.area > plain.area


def test_whole_bags_on_our_own_hide() -> None:
    kinds = [replace(kind, item="bag", each=1) for kind in bag()]
    ours = lay_out(kinds, [own_hide()], gap=2.0, limits=LIMITS)
    assert verify(ours) == []
    (bags,) = ours.sets
    plain = bottom_left(kinds, own_hide(), 2.0)
    print(
        f"\nwhole bags on the own hide: bottom-left {plain.sets[0].whole}, ours after {SECONDS:g} s {bags.whole} "
        f"of {bags.asked}, {ours.yield_of_usable:.2%}"
    )
    assert bags.whole > plain.sets[0].whole


def closer_bag() -> list[Kind]:
    """Fifteen bags whose parts lie closer, of the same area and numbers of corners.

    Their sides are higher by a quarter and their mouths scooped half as deep. How small the strap ends and the keepers
    are against them was chosen so that the plain rule uses 73.8 % of panels: from 0.54 to 0.58 it uses 73.8 to 74.0 %,
    with 0.6 72.9 %, with 0.5 74.5 %.
    """
    side, flap, *small = PARTS
    scooped = [(x, 1.25 * (122 - (122 - y) / 2 if 80 <= y and 0 < x < 156 else y)) for x, y in side]
    parts = [scooped, flap, *([(x * SMALLER, y * SMALLER) for x, y in part] for part in small)]
    larger = (BAGS_AREA / (SETS * sum(ring(part).area for part in parts))) ** 0.5
    return [
        Kind(f"part {n}", ring([(x * larger, y * larger) for x, y in part]), SETS, grain=0.0)
        for n, part in enumerate(parts)
    ]


def bottom_left_on_panels(kinds: Sequence[Kind], panels: Sequence[Sheet], gap: float) -> Lay:
    """The plain rule, one panel after the other."""
    left, laid = list(kinds), []
    for sheet in panels:
        (one,) = bottom_left(left, sheet, gap).sheets
        laid.append(one)
        left = left_of(left, one.spots)
        if not any(kind.demand for kind in left):
            break
    return Lay(tuple(kinds), tuple(laid), gap, 0)


def left_of(kinds: Sequence[Kind], spots: Sequence[Spot]) -> list[Kind]:
    counts = Counter(spot.kind for spot in spots)
    return [replace(kind, demand=kind.demand - counts[n]) for n, kind in enumerate(kinds)]


def by_the_strip_engine(kinds: Sequence[Kind], panels: Sequence[Sheet], gap: float, seconds: float) -> Lay:
    """The way that the figures aimed at come from: the strip engine alone, a panel at a time.

    It is offered parts in the proportions of what is left. What goes on the panel is offered anew with a little more,
    what does not with a little less; four seconds each, and all for the last panel.
    """
    left, laid, end = list(kinds), [], time.time() + seconds
    for number, sheet in enumerate(panels):
        spots = on_one_panel(left, sheet, gap, end, max(1, PANELS_AIMED_AT - number))
        laid.append(LaidSheet(sheet, spots))
        left = left_of(left, spots)
        if not any(kind.demand for kind in left):
            break
    return Lay(tuple(kinds), tuple(laid), gap, 0)


def on_one_panel(kinds: Sequence[Kind], sheet: Sheet, gap: float, end: float, ahead: int) -> tuple[Spot, ...]:
    """The fullest lay of the tries that there is time for, but at least one."""
    until = time.time() + (end - time.time()) / ahead
    area, seed, lays = HOPED_FOR * sheet.area, 0, []
    while not lays or time.time() < until - TRY / 2:
        some, seed = part_of(kinds, area), seed + 1
        is_all = some == list(kinds)
        seconds = max(TRY, until - time.time()) if is_all else TRY
        spots, _ = lay_on_strip(Strip(some, sheet, gap), seconds, seed, LIMITS.workers, lambda length: None)
        if spots:
            lays.append(spots)
        if spots and is_all:
            break
        area += (MORE if spots else -MORE) * sheet.area
    return max(lays, key=lambda spots: sum(kinds[spot.kind].area for spot in spots))


def part_of(kinds: Sequence[Kind], area: float) -> list[Kind]:
    """As many parts as go into an area, in the proportions there are as nearly as can be."""
    share = min(1.0, area / sum(kind.area * kind.demand for kind in kinds))
    counts = [0] * len(kinds)
    while fitting := [n for n, kind in enumerate(kinds) if kind.area <= area and counts[n] < kind.demand]:
        most = max(fitting, key=lambda n: kinds[n].demand * share - counts[n])
        counts[most] += 1
        area -= kinds[most].area
    return [replace(kind, demand=count) for kind, count in zip(kinds, counts, strict=True)]


def cpu_seconds() -> float:
    """Of this process and those it started that have ended."""
    return sum(sum(resource.getrusage(who)[:2]) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))


@pytest.mark.parametrize(("name", "bags"), [("hard", bag), ("closer", closer_bag)])
def test_panels(name: str, bags: Callable[[], list[Kind]]) -> None:
    """Sixty parts on panels of 600 mm by 300 mm, of which 3.94 have their area.

    What is aimed at was found for parts of which no more is known than their areas, their numbers of corners, and that
    the plain rule used 73.8 % with them: it does so with the closer ones. With the hard ones it uses far less.
    """
    kinds = bags()
    panels = [panel(600, 300, 3.0, f"panel {n}") for n in range(60)]
    plain = bottom_left_on_panels(kinds, panels, 2.0)
    told: list[float] = []
    start, cpu = time.perf_counter(), cpu_seconds()
    ours = lay_out(
        kinds, panels, gap=2.0, limits=LIMITS, tell=lambda best: told.append(time.perf_counter() - start)
    )
    wall, cpu = time.perf_counter() - start, cpu_seconds() - cpu
    assert verify(ours) == [] and ours.is_complete and plain.is_complete
    print(
        f"\n{name} panels after {SECONDS:g} s ({wall:.0f} s, {cpu:.0f} s of CPU; first lay of one {told[0]:.2f} s)"
    )
    print(f"  bottom-left: {in_short(plain)}\n  ours: {in_short(ours)}")
    assert len(ours.sheets) <= 6 and used(ours) > used(plain)
    if name == "closer":
        assert used(plain) == pytest.approx(0.738, abs=0.005)


@pytest.mark.parametrize(("name", "bags"), [("hard", bag), ("closer", closer_bag)])
def test_panels_by_the_strip_engine_alone(name: str, bags: Callable[[], list[Kind]]) -> None:
    """What ours must not be below, printed beside it."""
    kinds = bags()
    panels = [panel(600, 300, 3.0, f"panel {n}") for n in range(60)]
    cpu = cpu_seconds()
    lay = by_the_strip_engine(kinds, panels, 2.0, SECONDS)
    assert verify(lay) == [] and lay.is_complete
    print(f"\n{name} panels by the strip engine alone, {cpu_seconds() - cpu:.0f} s of CPU: {in_short(lay)}")


def in_short(lay: Lay) -> str:
    shares = " ".join(f"{lay.area_on(laid) / laid.sheet.area:.0%}" for laid in lay.sheets)
    last = min(map(lay.length_used, lay.sheets))
    return f"{len(lay.sheets)} panels ({shares}), the last {last:.0f} mm, {used(lay):.2%} of what is used"


@pytest.mark.parametrize("sets", [15, 75])
def test_the_judge_is_quick(sets: int) -> None:
    kinds = bag(sets=sets)
    lay = bottom_left(kinds, replace(roll(300 * sets / 15, 5000), margin=3.0), 2.0)
    verify(lay)
    start = time.process_time()
    assert verify(lay) == []
    print(f"\njudged {lay.n_laid} parts in {1000 * (time.process_time() - start):.1f} ms of CPU")
