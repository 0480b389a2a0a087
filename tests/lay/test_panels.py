"""Panels filled together: what is known to go is put together for the best, and the strip engine is asked for more."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.geometry.curves import circle
from drafting.geometry.point import Point
from drafting.lay import Kind, LaidSheet, Lay, Limits, Spot, lay_out, panel, panels, strip, verify
from drafting.lay.laying import Progress, _Laying
from drafting.lay.mixes import Mix, Mixes
from drafting.lay.panels import Panels
from drafting.lay.strip import Strip, Try
from tests.lay.shapes import kind, rectangle, ring

HOOK = ring([(0, 0), (60, 0), (60, 15), (18, 15), (18, 45), (0, 45)])
KINDS = (kind(HOOK, 9, "hook"), kind(circle(Point(0, 0), 14), 9, "disc", grain=None))
PANEL = panel(160, 100, 5)


def spots(mix: Mix) -> tuple[Spot, ...]:
    """Anywhere: the mixes are weighed by their areas only."""
    return tuple(Spot(kind, 0.0, float(n), 0.0) for kind, count in enumerate(mix) for n in range(count))


def pool_of(kinds: tuple[Kind, ...], *mixes: Mix) -> Mixes:
    pool = Mixes(kinds)
    for mix in mixes:
        pool.learn(spots(mix))
    return pool


def test_a_mix_less_some_parts_goes_on_as_well() -> None:
    pool = pool_of(KINDS, (2, 3))
    assert pool.spots_of((2, 3)) == spots((2, 3))
    assert pool.spots_of((1, 2)) == spots((1, 2))
    assert pool.spots_of((3, 0)) is None


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6))
def test_two_panels_are_put_together_for_the_best(seed: int) -> None:
    """As good as the best of all pairs, tried one by one; and no part is made out of nothing."""
    random = Random(seed)
    kinds = tuple(kind(rectangle(10 + random.random() * 30, 20), 9, f"strip {n}") for n in range(3))
    mixes = list({tuple(random.randrange(4) for _ in kinds) for _ in range(6)})
    pool, now = pool_of(kinds, *mixes), [random.choice(mixes), random.choice(mixes)]
    rest = tuple(random.randrange(3) for _ in kinds)
    order = [sum(counts) for counts in zip(*now, rest, strict=True)]
    some = [*mixes, (0, 0, 0)]
    fitting = [
        pool.area(one) + pool.area(other)
        for one, other in product(some, some)
        if all(a + b <= most for a, b, most in zip(one, other, order, strict=True))
    ]
    better = pool.better(now, rest, random)
    assert all(mix in some for two in better for mix in two)
    before = sum(map(pool.area, now))
    assert max((sum(map(pool.area, two)) for two in better), default=before) == pytest.approx(max(fitting))


def test_one_good_mix_serves_all_panels_at_once() -> None:
    """Two at a time nothing is gained: the kinds are laid apart, and only all panels together can share them out."""
    kinds = (kind(rectangle(30, 20), 12, "one"), kind(rectangle(20, 29), 12, "other"))
    pool = pool_of(kinds, (4, 0), (0, 4), (3, 3))
    now = [(4, 0), (4, 0), (4, 0), (0, 4), (0, 4)]
    best = pool.better(now, (0, 4), Random(1))[0]
    assert sorted(best) == [(0, 0), (3, 3), (3, 3), (3, 3), (3, 3)]


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6))
def test_panels_nearly_as_full_leave_what_they_do_not_hold(seed: int) -> None:
    """All such ways to change one panel are found, each rest once, and those that lose least come first."""
    random = Random(seed)
    pool = pool_of(KINDS, *((random.randrange(4), random.randrange(4)) for _ in range(6)))
    now, rest, loss = [random.choice(list(pool.known)) for _ in range(3)], (1, 2), pool.area((1, 1)) + 1.0
    order = [sum(counts) for counts in zip(*now, rest, strict=True)]
    ways = pool.nearly_as_full(now, rest, loss)
    lost = [sum(map(pool.area, now)) - sum(map(pool.area, changed)) for changed, _ in ways]
    assert lost == sorted(lost) and max(lost, default=0.0) <= loss
    for changed, left in ways:
        assert [sum(counts) for counts in zip(*changed, left, strict=True)] == order and min(left) >= 0
    rests = {
        tuple(a + b - c for a, b, c in zip(rest, old, new, strict=True))
        for old, new in product(now, pool.known)
        if pool.area(old) - pool.area(new) <= loss
    }
    assert sorted(left for _, left in ways) == sorted(left for left in rests - {rest} if min(left) >= 0)


def test_the_rest_or_one_like_it_is_laid_in_less_length(monkeypatch: pytest.MonkeyPatch) -> None:
    """A hook and a disc come to lie one over the other; and two discs, which another mix leaves, reach less far."""
    monkeypatch.setattr(panels, "MOST_SHORTENED", 1)
    pool = pool_of(KINDS, (6, 0))
    both = Panels(
        KINDS, PANEL, 2.0, [spots((5, 1))], (1, 1), (Spot(0, 0.0, 5.0, 5.0), Spot(1, 0.0, 120.0, 20.0)), pool=pool,
        seed=1, workers=1,
    )  # fmt: skip
    lengths = [both.length_of(both.last)]
    while both.start_shortening(1.0):
        assert both.shortening is not None
        both.shortening[2].process.wait()
        if both.gather_shorter():
            lengths.append(both.length_of(both.last))
    assert lengths == sorted(lengths, reverse=True) and lengths[-1] == pytest.approx(5 + 28 + 5, abs=0.5)
    assert (both.mixes, both.rest) == ([(6, 0)], (0, 2))


def test_without_a_last_panel_there_is_nothing_to_shorten() -> None:
    both = Panels(KINDS, PANEL, 2.0, [spots((2, 1))], (0, 2), (), pool=Mixes(KINDS), seed=1, workers=1)
    assert not both.start_shortening(2.0) and both.shortening is None


@pytest.mark.parametrize("is_upright", [False, True])
def test_what_the_engine_lays_on_a_panel_is_true(is_upright: bool) -> None:
    """Our judge is asked by `found`, and again here; the panel has a margin that is not the gap."""
    kinds = tuple(replace(one, demand=count) for one, count in zip(KINDS, (3, 3), strict=True))
    asked = Strip(kinds, PANEL, 2.0, is_upright)
    one = Try(asked, 5.0, 1, asked.length)
    one.process.wait()
    found = one.found()
    lay = Lay(kinds, (LaidSheet(PANEL, found),), 2.0, 1)
    assert lay.is_complete and verify(lay) == []


def test_what_cannot_go_on_a_panel_is_not_found() -> None:
    kinds = (replace(KINDS[0], demand=30),)
    one = Try(Strip(kinds, PANEL, 2.0), 1.0, 1)
    one.process.wait()
    assert one.found() == () and one.excess > 0.1


def test_mixes_that_take_less_are_hoped_for_and_near_misses_again() -> None:
    both = Panels(
        KINDS, PANEL, 2.0, [spots((2, 1)), spots((2, 2))], (4, 4), spots((4, 4)), pool=Mixes(KINDS), seed=1, workers=1
    )  # fmt: skip
    assert both.chance((2, 2)) > both.chance((2, 4)) > both.chance((9, 9))
    both.excess |= {(2, 3): 0.001, (3, 2): 0.1}
    assert both.chance((2, 3)) > 1000 * both.chance((3, 2))
    for mix, gain in filter(None, (both.changed() for _ in range(50))):
        assert gain > 0 and all(count <= most for count, most in zip(mix, both.order, strict=True))


def in_time(monkeypatch: pytest.MonkeyPatch, count: int, seconds: float = 4.0) -> tuple[Lay, list[LaidSheet]]:
    """The lay with the panels filled together, and as they were filled one by one before."""
    before: list[LaidSheet] = []
    one_by_one = _Laying.one_by_one

    def noted(self: _Laying) -> list[LaidSheet]:
        before.extend(one_by_one(self))
        return list(before)

    monkeypatch.setattr(_Laying, "one_by_one", noted)
    monkeypatch.setattr("drafting.lay.laying.PANELS_SECONDS", seconds)
    sheets = [replace(PANEL, name=f"panel {n}") for n in range(count)]
    told: list[Progress] = []
    lay = lay_out(KINDS, sheets, gap=2.0, limits=Limits(seconds=seconds, steps=None), tell=told.append)
    assert verify(lay) == [] and told
    assert all(0 < one.length <= 160.1 and one.parts for one in told)
    return lay, before


def test_filled_together_panels_are_never_worse(monkeypatch: pytest.MonkeyPatch) -> None:
    lay, before = in_time(monkeypatch, 9)
    assert lay.is_complete and not lay.is_repeatable
    assert len(lay.sheets) <= len(before)
    if len(lay.sheets) == len(before):
        assert min(map(lay.length_used, lay.sheets)) <= min(map(lay.length_used, before)) + 1e-6
    assert [one.sheet.name for one in lay.sheets] == [f"panel {n}" for n in range(len(lay.sheets))]


def test_on_too_few_panels_no_less_is_laid(monkeypatch: pytest.MonkeyPatch) -> None:
    lay, before = in_time(monkeypatch, 2)
    assert not lay.is_complete
    assert lay.n_laid >= 1 and lay.area >= sum(map(lay.area_on, before)) - 1e-6


def test_without_the_engine_what_was_laid_one_by_one_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(strip, "ENGINE", Path("nowhere.py"))
    lay, before = in_time(monkeypatch, 9, 2.5)
    assert lay.is_complete
    assert len(lay.sheets) <= len(before)


def test_ctrl_c_while_panels_are_filled_together_keeps_the_best(monkeypatch: pytest.MonkeyPatch) -> None:
    tries: list[Try] = []
    start_tries = Panels.start_tries

    def interrupted(self: Panels, seconds: float) -> None:
        start_tries(self, seconds)
        tries.extend(self.tries.values())
        raise KeyboardInterrupt

    monkeypatch.setattr(panels.Panels, "start_tries", interrupted)
    lay, before = in_time(monkeypatch, 9, 2.5)
    assert lay.was_stopped and lay.is_complete
    assert len(lay.sheets) <= len(before)
    assert all(one.process.poll() is not None for one in tries)
