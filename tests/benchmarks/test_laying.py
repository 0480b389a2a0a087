"""How good lays are after some seconds, side by side with the plain bottom-left rule, and how soon the first is there.

Run by name on a machine that does nothing else: `pytest -s tests/benchmarks/test_laying.py`; SECONDS in the environment
says how long each search takes. Aims after 10 s on two cores: albano 86 %, trousers 88 %; the open hide 71 % after 60 s.
"""

from __future__ import annotations

import json
import os
import time
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import shapely

import drafting
from drafting.geometry.line import Line
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.lay import Kind, LaidSheet, Lay, Limits, Sheet, Spot, lay_out, roll, verify
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
    plain = bottom_left(kinds, sheet, 0.0)
    ours = lay_out(kinds, [sheet], gap=0.0, limits=LIMITS)
    assert verify(ours) == []
    print(
        f"\nhide: bottom-left {plain.yield_of_usable:.2%}, ours after {SECONDS:g} s {ours.yield_of_usable:.2%}"
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
