"""The judge of lays finds each fault in a lay that has just that one, and none in a good lay.

The wrong lays are made by hand; what else they do is kept right, so that a rule that never fires would be seen.
"""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from shapely.affinity import rotate, translate

from drafting.geometry.curves import circle
from drafting.geometry.point import Point
from drafting.lay import Freedom, Kind, LaidSheet, Lay, Sheet, Spot, panel, verify
from tests.lay.shapes import kind, rectangle, ring

HOOK = ring([(0, 0), (40, 0), (40, 10), (12, 10), (12, 30), (0, 30)])
DISC = circle(Point(0, 0), 10)
KINDS = (
    kind(HOOK, 3, "hook"),
    kind(DISC, 2, "disc", grain=None),
    kind(rectangle(30, 12), 1, "tab", zone="firm"),
)
HIDE = Sheet(
    "hide",
    rectangle(300, 200),
    margin=5.0,
    defect_rings=(circle(Point(150, 100), 12),),
    poor_rings=(rectangle(60, 60, 240, 140),),
    firm_rings=(rectangle(120, 60, 0, 0),),
    backbone=0.0,
)
GOOD = (
    Spot(0, 0.0, 6.0, 60.0),
    Spot(0, 180.0, 100.0, 100.0),
    Spot(1, 33.0, 200.0, 40.0),
    Spot(2, 0.0, 10.0, 10.0),
)


def lay(*spots: Spot, sheet: Sheet = HIDE, kinds: tuple[Kind, ...] = KINDS, gap: float = 2.0) -> Lay:
    return Lay(kinds, (LaidSheet(sheet, spots),), gap, seed=1)


def faults(one: Lay) -> list[str]:
    return sorted({violation.fault for violation in verify(one)})


def test_a_good_lay_has_no_fault() -> None:
    assert verify(lay(*GOOD)) == []


@pytest.mark.parametrize(
    ("fault", "number", "wrong"),
    [
        ("overlap", 2, Spot(1, 0.0, 40.0, 70.0)),
        ("gap", 2, Spot(1, 0.0, 57.0, 65.0)),
        ("outside", 2, Spot(1, 0.0, 296.0, 40.0)),
        ("edge", 2, Spot(1, 0.0, 286.0, 40.0)),
        ("defect", 2, Spot(1, 0.0, 175.0, 100.0)),
        ("zone", 2, Spot(1, 0.0, 250.0, 150.0)),
        ("zone", 3, Spot(2, 0.0, 100.0, 20.0)),
        ("turn", 0, Spot(0, 0.5, 6.0, 60.0)),
        ("turn", 0, Spot(0, 90.0, 45.0, 60.0)),
    ],
)  # fmt: skip
def test_a_lay_wrong_in_one_way_has_that_fault(fault: str, number: int, wrong: Spot) -> None:
    spots = [wrong if n == number else spot for n, spot in enumerate(GOOD)]
    assert faults(lay(*spots)) == [fault]


def test_a_part_too_many_is_found() -> None:
    assert faults(lay(*GOOD, Spot(2, 0.0, 50.0, 30.0))) == ["count"]


def test_a_part_laid_twice_in_one_place_is_found() -> None:
    assert faults(lay(*GOOD, Spot(1, 33.0, 200.0, 40.0))) == ["overlap"]


def test_a_mirrored_part_is_another_shape() -> None:
    """Laid as its mirror image the hook laps over the disc that the true hook leaves free."""
    snug = (Spot(0, 0.0, 50.0, 100.0), Spot(1, 0.0, 75.0, 123.0))
    assert faults(lay(*snug, sheet=panel(300, 200))) == []
    turned = replace(KINDS[0], ring=HOOK.mirrored(Point(20, 0), Point(20, 1)))
    assert faults(lay(*snug, sheet=panel(300, 200), kinds=(turned, *KINDS[1:]))) == ["overlap"]


def test_a_defect_inside_a_part_is_found() -> None:
    hide = replace(HIDE, defect_rings=(circle(Point(40, 40), 3),), margin=0.0)
    assert faults(lay(Spot(0, 0.0, 30.0, 32.0), sheet=hide)) == ["defect"]


@pytest.mark.parametrize(
    ("off", "good"), [(0.0, True), (9.9, True), (10.2, False), (90.0, False), (170.5, True)]
)
def test_a_grain_may_stray_as_far_as_is_said(off: float, good: bool) -> None:
    free = replace(KINDS[0], freedom=Freedom(within=10.0))
    assert (faults(lay(Spot(0, off, 150.0, 100.0), sheet=panel(400, 300), kinds=(free,))) == []) is good


def test_a_part_may_lie_across_where_that_is_said() -> None:
    free = replace(KINDS[0], freedom=Freedom(across=True))
    assert faults(lay(Spot(0, 270.0, 150.0, 100.0), sheet=panel(400, 300), kinds=(free,))) == []


def test_the_backbone_and_the_grain_count_together() -> None:
    """A grain that stands plumb lies along a plumb backbone as drafted."""
    plumb = replace(KINDS[0], grain=90.0)
    hide = replace(panel(400, 300), backbone=90.0)
    assert faults(lay(Spot(0, 0.0, 150.0, 100.0), sheet=hide, kinds=(plumb,))) == []
    assert faults(lay(Spot(0, 90.0, 150.0, 100.0), sheet=hide, kinds=(plumb,))) == ["turn"]


def test_moved_parts_are_judged_as_a_second_method_judges_them() -> None:
    """Random moves, judged by areas of grown shapes: every illegal one is found and no legal one is blamed."""
    random, kinds = Random("moves"), (kind(HOOK, 9, "hook"), kind(DISC, 9, "disc", grain=None))
    sheet = panel(160, 120, margin=5.0)
    base = (
        Spot(0, 0.0, 10.0, 10.0),
        Spot(0, 0.0, 60.0, 10.0),
        Spot(1, 0.0, 40.0, 60.0),
        Spot(0, 180.0, 150.0, 100.0),
    )
    seen = {True: 0, False: 0}
    for _ in range(150):
        number = int(random.random() * len(base))
        spot = base[number]
        moved = replace(spot, x=spot.x + random.uniform(-25, 25), y=spot.y + random.uniform(-25, 25))
        spots = tuple(moved if n == number else one for n, one in enumerate(base))
        legal = _is_legal_by_areas(kinds, sheet, spots)
        if legal is not None:
            seen[legal] += 1
            assert (verify(lay(*spots, sheet=sheet, kinds=kinds)) == []) is legal
    assert min(seen.values()) > 20


def _is_legal_by_areas(kinds: tuple[Kind, ...], sheet: Sheet, spots: tuple[Spot, ...]) -> bool | None:
    """None where it is too near to call."""
    shapes = [translate(rotate(kinds[s.kind].close, s.turn, origin=(0, 0)), s.x, s.y) for s in spots]
    verdicts = []
    for slack in (-0.03, 0.03):
        inner = sheet.close.buffer(-5.0 - slack, join_style="mitre")
        out = sum(shape.difference(inner).area for shape in shapes)
        grown = [shape.buffer(1.0 + slack / 2, quad_segs=64) for shape in shapes]
        lap = sum(a.intersection(b).area for n, a in enumerate(grown) for b in grown[:n])
        verdicts.append(out + lap < 1e-9)
    return verdicts[0] if verdicts[0] == verdicts[1] else None
