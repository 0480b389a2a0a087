"""The search: what it lays is true, the same seed gives the same lay, and what fits exactly is laid exactly."""

from __future__ import annotations

import os
import signal
import sys
import time
from dataclasses import replace
from math import cos, pi, sin
from pathlib import Path
from random import Random
from subprocess import Popen, run

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point as Point2
from shapely import Polygon

from drafting.geometry.curves import circle
from drafting.geometry.point import Point
from drafting.lay import Freedom, Kind, Lay, Limits, Sheet, lay_out, panel, roll, strip, verify
from drafting.lay.bare import Bare, discs_in
from drafting.lay.kinds import turned_over
from drafting.lay.laying import Progress, unfit_kinds
from drafting.lay.nofit import SLACK, convex_parts, inner_fit, no_fit
from drafting.lay.search import Best, Laid, Search
from drafting.lay.table import Table
from drafting.lay.workers import _tables
from tests.cli.conftest import environment
from tests.lay.shapes import kind, rectangle, ring

HOOK = ring([(0, 0), (60, 0), (60, 15), (18, 15), (18, 45), (0, 45)])
WEDGE = ring([(0, 0), (50, 0), (35, 30), (15, 30)])
MIXED = (kind(HOOK, 6, "hook"), kind(WEDGE, 8, "wedge"), kind(circle(Point(0, 0), 14), 5, "disc", grain=None))


def laid(*kinds: Kind, sheets: list[Sheet], gap: float = 2.0, steps: int = 15, seed: int = 1) -> Lay:
    found = lay_out(kinds, sheets, gap=gap, limits=Limits(steps=steps, seed=seed))
    assert verify(found) == []
    return found


def test_the_same_seed_and_steps_give_the_same_lay() -> None:
    first = laid(*MIXED, sheets=[panel(240, 160, 5)])
    again = laid(*MIXED, sheets=[panel(240, 160, 5)])
    other = laid(*MIXED, sheets=[panel(240, 160, 5)], seed=2)
    assert first == again
    assert first.sheets[0].spots != other.sheets[0].spots


def test_more_steps_are_never_worse() -> None:
    few, many = (laid(*MIXED, sheets=[panel(200, 120, 5)], steps=steps) for steps in (1, 40))
    assert many.area >= few.area


def test_squares_that_fit_exactly_are_laid_exactly() -> None:
    """4 by 3 squares of 40 with 2 between and 5 round them fill 176 by 134 wholly: 12 of them, with no room to spare."""
    lay = laid(kind(rectangle(40, 40), 12, "square"), sheets=[panel(176, 134, 5)], steps=1)
    assert lay.is_complete


@pytest.mark.parametrize("gap", [0.0, 3.0])
def test_rows_fill_a_strip_exactly(gap: float) -> None:
    """Three rows of 30 mm in a strip of 90 mm and two gaps (a case in which a strip engine was seen to fail)."""
    lay = laid(kind(rectangle(30, 30), 9, "tile"), sheets=[roll(90 + 2 * gap, 400)], gap=gap, steps=30)
    assert lay.length_used(lay.sheets[0]) == pytest.approx(90 + 2 * gap, abs=0.1)


def test_what_does_not_fit_is_missing_and_counted() -> None:
    lay = laid(kind(rectangle(70, 40), 9, "plate"), sheets=[panel(160, 100, 5)], steps=3)
    assert lay.missing == (5,)
    assert lay.missing_area == pytest.approx(5 * 70 * 40)


def test_panels_are_taken_as_they_are_needed() -> None:
    sheets = [panel(160, 100, 5, f"panel {n}") for n in range(8)]
    lay = laid(kind(rectangle(70, 40), 9, "plate"), sheets=sheets, steps=3)
    assert lay.is_complete
    assert [len(one.spots) for one in lay.sheets] == [4, 4, 1]
    assert lay.yield_of_gross == pytest.approx(9 * 2800 / (3 * 16000))


def test_many_alike_panels_are_laid_alike() -> None:
    sheets = [panel(160, 100, 5, f"panel {n}") for n in range(40)]
    lay = laid(kind(rectangle(70, 40), 101, "plate"), sheets=sheets, steps=2)
    assert lay.is_complete
    assert lay.sheets[0].spots == lay.sheets[5].spots
    assert lay.sheets[0].sheet.name != lay.sheets[5].sheet.name


def test_a_part_that_goes_nowhere_is_known_beforehand() -> None:
    long = kind(rectangle(200, 20), 1, "strap", grain=0.0)
    sheets = [panel(100, 300)]
    assert unfit_kinds((long,), sheets, 2.0) == [0]
    assert unfit_kinds((replace(long, grain=None),), sheets, 2.0) == []
    assert unfit_kinds((replace(long, freedom=Freedom(across=True)),), sheets, 2.0) == []


def test_nothing_lies_on_defects_nor_in_poor_zones_but_what_may() -> None:
    """The poor half takes linings only, the firm quarter holds the straps; the judge is asked by `laid`."""
    hide = Sheet(
        "hide", rectangle(300, 200), 4.0, (circle(Point(60, 60), 10),), (rectangle(150, 200, 150, 0),),
        (rectangle(150, 60, 0, 140),), 0.0,
    )  # fmt: skip
    kinds = (
        kind(rectangle(60, 15), 2, "strap", zone="firm"),
        kind(rectangle(40, 40), 20, "lining", zone="poor"),
        kind(WEDGE, 10, "front"),
    )
    lay = laid(*kinds, sheets=[hide])
    spots = lay.sheets[0].spots
    assert sum(spot.kind == 0 for spot in spots) == 2
    assert any(spot.kind == 1 and lay.polygon(spot).bounds[0] > 150 for spot in spots)
    assert all(lay.polygon(spot).bounds[2] <= 150.01 for spot in spots if spot.kind == 2)


def test_hides_of_one_name_are_laid_each_by_its_own_shape() -> None:
    kinds = [kind(rectangle(40, 30), 60)]
    shapes = rectangle(200, 120), ring([(0, 0), (200, 0), (0, 120)])
    hides = [Sheet("shoulder", shape, backbone=0.0) for shape in shapes]
    lay = lay_out(kinds, hides, gap=1.0, limits=Limits(steps=3))
    assert len(lay.sheets) == 2 and verify(lay) == []


def test_the_same_parts_are_laid_anew_with_another_freedom() -> None:
    """No place is kept from the lay before."""
    sheet = panel(35, 100)
    counts = [
        lay_out(
            [kind(rectangle(48, 30), 3, freedom=freedom)], [sheet], gap=0.0, limits=Limits(steps=3)
        ).n_laid
        for freedom in (Freedom(), Freedom(across=True))
    ]
    assert counts == [0, 2]


def test_no_time_leaves_nothing_out_that_has_room() -> None:
    panels = [panel(100, 60, name=f"panel {n}") for n in range(40)]
    lay = lay_out([kind(HOOK, 30), kind(WEDGE, 30)], panels, gap=2.0, limits=Limits(seconds=1e-6, steps=None))
    assert lay.is_complete and verify(lay) == []


def test_ctrl_c_within_the_first_filling_keeps_what_is_laid(monkeypatch: pytest.MonkeyPatch) -> None:
    put = Search.put

    def interrupted(self: Search, one: Laid) -> None:
        put(self, one)
        if len(self.laid) == 3:
            raise KeyboardInterrupt

    monkeypatch.setattr(Search, "put", interrupted)
    lay = lay_out([kind(HOOK, 6)], [panel(300, 200)], gap=2.0)
    assert (lay.n_laid, lay.was_stopped, verify(lay)) == (3, True, [])


def test_ctrl_c_before_anything_is_laid_keeps_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(self: Search, *given: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(Search, "fill", interrupted)
    with pytest.raises(KeyboardInterrupt):
        lay_out([kind(HOOK, 6)], [panel(300, 200)], gap=2.0)


def test_pairs_are_turned_over() -> None:
    first = kind(HOOK, 2, "hook", grain=30.0)
    second = turned_over(first)
    assert second.grain == 150.0
    assert second.area == pytest.approx(first.area)
    assert second.close.symmetric_difference(first.close).area > 100
    assert turned_over(second).close.equals_exact(first.close, 1e-9)
    laid(first, second, sheets=[panel(300, 200, 5)])


def test_turns_that_look_alike_are_tried_once() -> None:
    assert len(kind(rectangle(40, 40), 1, grain=None).turns_by(0.0)) == 3
    assert len(kind(rectangle(40, 20), 1, grain=0.0).turns_by(0.0)) == 1
    assert len(kind(HOOK, 1, grain=0.0).turns_by(0.0)) == 2
    assert kind(HOOK, 1, grain=90.0).turns_by(30.0) == (300.0, 120.0)


def blob(random: Random, corners: int, size: float) -> Polygon:
    steps = [2 * pi * n / corners for n in range(corners)]
    radii = [random.uniform(0.3, 1.0) * size for _ in steps]
    return Polygon([(r * cos(a), r * sin(a)) for a, r in zip(steps, radii, strict=True)])


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10**6))
def test_convex_parts_make_up_the_whole(seed: int) -> None:
    shape = blob(Random(seed), 3 + seed % 20, 50)
    parts = [Polygon(part) for part in convex_parts(shape)]
    assert shapely.union_all(parts).area == pytest.approx(shape.area)
    assert sum(part.area for part in parts) == pytest.approx(shape.area)
    assert all(part.convex_hull.area == pytest.approx(part.area) for part in parts)


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10**6), st.sampled_from([0.0, 2.0]))
def test_a_region_keeps_shapes_a_gap_apart(seed: int, gap: float) -> None:
    """By definition: outside the region the shapes are a gap apart, inside they are not (measured by shapely)."""
    random = Random(seed)
    one, other = blob(random, 7, 30), blob(random, 9, 20)
    region = no_fit(convex_parts(one), convex_parts(other), gap)
    for _ in range(20):
        x, y = random.uniform(-60, 60), random.uniform(-60, 60)
        moved = shapely.transform(other, lambda corners, x=x, y=y: corners + (x, y))  # noqa: RUF005
        apart = one.distance(moved)
        if not region.contains(shapely.Point(x, y)):
            assert apart >= gap - 2 * SLACK
            assert gap or one.intersection(moved).area < 1.0
        else:
            assert apart <= 1.1 * gap + 0.1


@settings(max_examples=10, deadline=None)
@given(st.integers(0, 10**6))
def test_an_inner_fit_is_where_a_shape_is_inside(seed: int) -> None:
    random = Random(seed)
    shape = blob(random, 8, 12)
    region = blob(random, 12, 100).difference(blob(random, 6, 15))
    if not isinstance(region, Polygon):
        return
    fits = inner_fit(region, shape, convex_parts(shape))
    for _ in range(40):
        x, y = random.uniform(-100, 100), random.uniform(-100, 100)
        moved = shapely.transform(shape, lambda corners, x=x, y=y: corners + (x, y))  # noqa: RUF005
        if moved.distance(region.boundary) > 1e-6 or moved.crosses(region.boundary):
            assert region.contains(moved) == fits.contains(shapely.Point(x, y))


@settings(max_examples=10, deadline=None)
@given(st.integers(0, 10**6))
def test_discs_rule_no_place_out_where_a_shape_may_lie(seed: int) -> None:
    """By definition: wherever a shape lies on the bare leather, clear of what is laid there, is among the places."""
    random = Random(seed)
    shape, other = blob(random, 9, 20), blob(random, 7, 40)
    discs = discs_in(shape)
    assert all(shape.buffer(0.01).contains(Point2(x, y).buffer(radius)) for x, y, radius in discs)
    region = blob(random, 12, 100)
    bare = Bare(region)
    bare.take([other])
    places = bare.places(discs)
    for _ in range(60):
        x, y = random.uniform(-100, 100), random.uniform(-100, 100)
        moved = shapely.transform(shape, lambda corners, x=x, y=y: corners + (x, y))  # noqa: RUF005
        if region.contains(moved) and moved.disjoint(other):
            assert places.contains(Point2(x, y))
    assert Bare(blob(random, 8, 5)).places(discs_in(blob(random, 8, 60))).is_empty


def test_ruling_places_out_changes_no_lay(monkeypatch: pytest.MonkeyPatch) -> None:
    sheets = [panel(240, 160, 5)]
    ruled_out = laid(*MIXED, sheets=sheets, steps=4)
    _tables.clear()
    monkeypatch.setattr(Search, "may_have_room", lambda self, number, bare: True)
    assert laid(*MIXED, sheets=sheets, steps=4) == ruled_out


@settings(max_examples=3, deadline=None)
@given(st.integers(0, 10**6))
def test_whatever_is_laid_is_true(seed: int) -> None:
    random = Random(seed)
    kinds = tuple(
        kind(ring(list(blob(random, 5 + n, random.uniform(10, 40)).exterior.coords)[:-1]), 4, f"blob {n}",
             grain=random.choice([None, 0.0, 45.0]), freedom=random.choice([Freedom(), Freedom(10), Freedom(0, True)]))
        for n in range(3)
    )  # fmt: skip
    outline = blob(random, 14, 150)
    hide = Sheet(
        "hide", ring(list(outline.exterior.coords)[:-1]), 3.0, (circle(Point(20, 10), 8),),
        backbone=random.uniform(0, 360),
    )  # fmt: skip
    lay = laid(*kinds, sheets=[hide], gap=random.choice([0.0, 2.0]), steps=2)
    assert all(0 <= missing <= one.demand for missing, one in zip(lay.missing, kinds, strict=True))
    assert lay.n_laid + sum(lay.missing) == sum(one.demand for one in kinds)
    assert lay.area + lay.missing_area == pytest.approx(sum(one.area * one.demand for one in kinds))


def test_a_roll_is_laid_by_the_strip_engine_and_judged_like_any_other() -> None:
    """The engine is given a gap and a margin of its own making; both must hold on the roll, and all parts lie on it."""
    lay = lay_out(MIXED, [roll(160, 2000, 6)], gap=2.0, limits=Limits(seconds=2, steps=None))
    assert verify(lay) == []
    assert lay.is_complete and not lay.is_repeatable
    (laid,) = lay.sheets
    assert laid.steps is None
    own = laid_on_roll()
    assert lay.length_used(laid) < 1.1 * own.length_used(own.sheets[0])


def test_ctrl_c_between_two_lines_of_the_strip_engine_keeps_its_best() -> None:
    """It may come while a find is told of: neither that nor the end is lost."""
    told: list[float] = []

    def stop(progress: Progress) -> None:
        if not told:
            os.kill(os.getpid(), signal.SIGINT)
        told.append(progress.length)

    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        start = time.monotonic()
        lay = lay_out(MIXED, [roll(160, 2000, 6)], gap=2.0, limits=Limits(seconds=500, steps=None), tell=stop)
        assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
    finally:
        signal.signal(signal.SIGINT, before)
    assert time.monotonic() - start < 300
    assert lay.was_stopped and lay.is_complete and verify(lay) == [] and told


def test_ctrl_c_before_the_strip_engine_found_anything_ends_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(strip, "ENGINE", Path("nowhere.py"))
    started = strip._started

    def stopped(task: strip.Line) -> Popen[str]:
        process = started(task)
        os.kill(os.getpid(), signal.SIGINT)
        return process

    monkeypatch.setattr(strip, "_started", stopped)
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        with pytest.raises(KeyboardInterrupt):
            lay_out(MIXED, [roll(160, 2000, 6)], gap=2.0, limits=Limits(seconds=500, steps=None))
    finally:
        signal.signal(signal.SIGINT, before)


def laid_on_roll() -> Lay:
    return laid(*MIXED, sheets=[roll(160, 2000, 6)], steps=5)


def test_of_many_turns_a_first_lay_tries_two() -> None:
    """It is told before the others are worked out, and then the sheet is filled with all of them."""
    hook = kind(HOOK, 30, "hook", grain=None)
    table = Table((hook,), panel(200, 150, 5), 2.0)
    told: list[Best] = []
    best = Search(table, (30,), "1", tell=told.append).run(0)
    assert {one.shape for one in told[0].laid} <= {0, 6} and len(table.by_kind[0]) == 12
    assert best.value >= told[0].value and len(best.laid) >= len(told[0].laid) > 0
    assert len({one.shape for one in best.laid} - {0, 6}) > 0


SCRIPT = """
from pathlib import Path
from drafting.geometry.curves import box
from drafting.geometry.point import Point
from drafting.lay import Kind, Limits, lay_out, panel
with Path("runs").open("a") as runs:
    runs.write("run ")
lay = lay_out([Kind("keeper", box(Point(0, 0), 30, 20), 8)], [panel(200, 100, 5)], gap=2, limits=Limits(steps=2, workers=2))
assert lay.is_complete
"""


def test_a_script_that_asks_for_several_searches_is_run_once(tmp_path: Path) -> None:
    """It needs no guard against being imported by the processes of the searches, and they have no word to say."""
    script = tmp_path / "script.py"
    script.write_text(SCRIPT, encoding="utf-8")
    done = run([sys.executable, str(script)], cwd=tmp_path, env=environment(), capture_output=True, text=True)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    assert (tmp_path / "runs").read_text(encoding="utf-8") == "run "
