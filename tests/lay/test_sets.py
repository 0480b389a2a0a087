"""Whole items: counted over all sheets, and aimed at where not everything goes in."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.lay import Kind, LaidSheet, Lay, Limits, Spot, lay_out, panel, verify
from drafting.lay.sets import SetPart, Sets, sets_of
from drafting.lay.workers import Workers
from tests.lay.shapes import kind, rectangle

BIG = replace(kind(rectangle(50, 40), 10, "big"), item="box", each=1)
SMALL = replace(kind(rectangle(25, 20), 40, "small"), item="box", each=4)


def test_an_item_is_whole_when_all_its_parts_are_laid() -> None:
    spots = tuple(Spot(n, 0.0, 0.0, 0.0) for n in [0] * 3 + [1] * 11)
    lay = Lay((BIG, SMALL), (LaidSheet(panel(600, 400), spots), LaidSheet(panel(600, 400), spots)), 0.0, 1)
    (box,) = lay.sets
    assert (box.item, box.whole, box.asked) == ("box", 5, 10)


def test_parts_of_no_item_make_no_set() -> None:
    assert Lay((kind(rectangle(5, 5), 3),), (), 0.0, 1).sets == ()
    assert sets_of([kind(rectangle(5, 5), 3)], [3]) is None


def test_goals_go_up_and_down_one_item_at_a_time() -> None:
    sets = Sets(((SetPart(0, 1, 0), SetPart(1, 4, 2)), (SetPart(2, 2, 0),)), (10, 4))
    assert sets.complete([3, 11, 3]) == (3, 1)
    assert sets.caps((3, 1), [10, 38, 8]) == [3, 10, 2]
    assert sets.more((5, 1)) == (5, 2)
    assert sets.more((10, 4)) == (10, 4)
    assert sets.less((5, 3), (2, 1)) == (5, 2)
    assert sets.less((2, 1), (2, 1)) == (2, 1)
    assert sets.share(0.5, (3, 1)) == (5, 2)
    assert sets.share(0.0, (3, 1)) == (3, 2)


@pytest.mark.parametrize("each", [0, 1])
def test_whole_items_are_preferred_to_more_leather(each: int) -> None:
    """A panel of 200 mm by 200 mm is filled by twenty large parts, or by ten boxes with their small ones."""
    big, small = (replace(one, demand=5 * one.demand, each=one.each * each) for one in (BIG, SMALL))
    lay = lay_out([big, small], [panel(200, 200)], gap=0.0, limits=Limits(steps=40))
    assert verify(lay) == []
    whole = min(big.demand - lay.missing[0], (small.demand - lay.missing[1]) // 4)
    assert whole >= 9 if each else whole == 0
    assert [one.whole for one in lay.sets] == ([whole] if each else [])


def test_what_lies_on_other_sheets_counts() -> None:
    """5.4 boxes are the most that two such panels hold by area."""
    lay = lay_out([BIG, SMALL], [panel(120, 90), panel(120, 90)], gap=0.0, limits=Limits(steps=20))
    assert verify(lay) == []
    assert len(lay.sheets) == 2
    assert [one.whole for one in lay.sets] == [4]


def test_a_search_goes_on_without_a_helper_that_died() -> None:
    kinds: list[Kind] = [kind(rectangle(40, 40), 4)]
    with Workers(2) as workers:
        process, _ = workers.helpers[0]
        process.kill()
        process.join()
        from drafting.lay.workers import Task

        best, stopped = workers.search(
            Task(tuple(kinds), panel(100, 100), 0.0, (4,), "1", 2, None), lambda best: None
        )
        assert len(best.laid) == 4 and not stopped
        best, stopped = workers.search(
            Task(tuple(kinds), panel(100, 100), 0.0, (4,), "1", 2, None), lambda best: None
        )
        assert len(best.laid) == 4 and workers.helpers == []
