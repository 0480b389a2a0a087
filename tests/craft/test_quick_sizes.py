"""Thousands of sizes at once come to what each comes to alone."""

from __future__ import annotations

import pytest

import drafting
from drafting.craft.lists.quick_sizes import quick_rows
from drafting.craft.lists.sizing import SizedRow, sized_row
from drafting.face import Pattern, read
from drafting.text.source import Source
from tests.craft.test_at_once import MOVED

HALF = """\
measure wide = 40 mm between 30 mm and 60 mm
measure bow = 3 mm
stock body: leather; 2 mm thick
piece tag: cut 1 pair from body; mirrored over foot..top
  point foot: at (0, 0)
  point top:  plumb with foot; 90 mm above foot
  point heel: level with foot; wide/2 right of foot
  point brow: level with top; wide/2 - 4 mm right of top
  point hub:  midway foot..top
  outline: {legs}
  {corners}
check wide <= 50 mm "room"
"""
WHOLE = """\
measure wide = 40 mm between 30 mm and 60 mm
stock body: leather; 2 mm thick
piece tag: cut 2 from body
  point a: at (0, 0)
  point b: at (wide, 5 mm)
  point c: at (wide - 12 mm, 60 mm)
  point d: at (20 mm, 25 mm)
  outline: {legs}
  {corners}
"""
THUMB = """\
measure wide = 60 mm
piece tag: mirrored over foot..dip
  point foot: at (0, 0)
  point heel: level with foot; wide/2 right of foot
  point lip:  plumb with foot; 50 mm above foot
  point dip:  plumb with lip; wide/6 below lip
  point edge: level with lip; wide/6 right of lip
  point hip:  level with lip; plumb with heel
  outline: foot to heel to hip to edge to dip about lip
  fillet heel by 9 mm
"""
SHAPES = {
    "rounded": HALF.format(legs="foot to heel to brow to top", corners="fillet heel, brow by 6 mm"),
    "clipped": HALF.format(legs="foot to heel to brow to top", corners="clip brow by 7 mm and 3 mm"),
    "bowed out": HALF.format(legs="foot to heel to brow bowed out bow to top bowed up 2 mm", corners=""),
    "bowed in": HALF.format(legs="foot to heel bowed in 2 mm to brow to top", corners="fillet brow by 5 mm"),
    "going in": WHOLE.format(legs="a to b to c to d", corners="fillet a by 3 mm\n  fillet d by 8 mm"),
    "clockwise": WHOLE.format(legs="a to d to c to b", corners="fillet b by 4 mm\n  clip c by 5 mm and 2 mm"),
    "bowed down": WHOLE.format(legs="a to b bowed down 6 mm to c to d bowed left 2 mm", corners=""),
    "about a point": THUMB,
    "notched": WHOLE.format(legs="a to b to c to d", corners="notch pip: midway b..c; 3 mm deep; 5 mm wide"),
    "turned": WHOLE.format(legs="a to b to c to d", corners="turn hem: 9 mm outside from b to c"),
    "with smooth legs": WHOLE.format(legs="a to b smooth leaving level to c to d", corners=""),
    "box": "measure wide = 40 mm\npiece tag:\n  outline: box wide by 30 mm; 5 mm rounded\n",
    "disc": "measure wide = 40 mm\npiece tag:\n  outline: wide across\n",
}


def both(pattern: Pattern, **swept: str) -> list[tuple[SizedRow, SizedRow]]:
    asked = pattern.asked_sizes(pattern.sizes[0] if pattern.sizes else None, swept)
    return list(
        zip(quick_rows(pattern.draft, asked), (sized_row(pattern.draft, one) for one in asked), strict=True)
    )


def expect_same(quick: SizedRow, alone: SizedRow) -> None:
    """The figures, and what is said of measures."""
    assert quick.measures == pytest.approx(alone.measures, abs=1e-9)
    assert quick.boxes.keys() == alone.boxes.keys()
    for piece, box in alone.boxes.items():
        assert quick.boxes[piece] == pytest.approx(box, abs=1e-9)
    assert quick.stock == pytest.approx(alone.stock, rel=1e-9)
    assert set(quick.found) <= set(alone.found)


@pytest.mark.parametrize("shape", SHAPES)
def test_each_shape_has_the_box_and_the_area_that_it_has_alone(shape: str) -> None:
    pattern = read(Source("try.draft", SHAPES[shape]))
    assert not pattern.check().has_errors, [message.says for message in pattern.check()]
    rows = both(pattern, wide="36mm..48mm/0.3mm")
    assert not any(quick.is_judged for quick, _ in rows)
    for quick, alone in rows:
        expect_same(quick, alone)


@pytest.mark.parametrize("name", MOVED)
def test_whole_items_come_to_the_same(name: str) -> None:
    pattern = drafting.load(f"patterns/{name}.draft")
    title = pattern.sizes[0] if pattern.sizes else None
    (given,) = pattern.asked_sizes(title, {})
    value = pattern.draft.size(given.title, given.settings).drawn.measures[MOVED[name]]
    asked = pattern.asked_sizes(title, {MOVED[name]: f"{value:g}mm..{value + 0.36:g}mm/0.01mm"})
    rows = list(quick_rows(pattern.draft, asked))
    assert len(rows) == len(asked)
    for quick, one in list(zip(rows, asked, strict=True))[::18]:
        expect_same(quick, sized_row(pattern.draft, one))
    assert not any(quick.is_judged or quick.stitches for quick in rows)


def test_ranges_and_checks_of_measures_are_told() -> None:
    pattern = read(Source("try.draft", SHAPES["rounded"]))
    rows = both(pattern, wide="36mm..66mm/2mm")
    for quick, alone in rows:
        asked = [(one.code, one.says) for one in alone.found if one.code in ("M34", "M38")]
        assert [(one.code, one.says) for one in quick.found] == asked
    assert [bool(quick.found) for quick, _ in rows] == [quick.measures["wide"] > 50 for quick, _ in rows]


def test_a_corner_that_does_not_fit_is_worked_out_alone() -> None:
    """Rounded by 6 mm the foot of a narrow tag has no room: that size is told as the check tells it."""
    pattern = read(Source("try.draft", SHAPES["rounded"]))
    rows = both(pattern, wide="10mm..40mm/2mm")
    narrow = [quick for quick, alone in rows if not alone.boxes]
    assert narrow and all(quick.is_judged and not quick.is_sound for quick in narrow)


def test_few_sizes_are_no_other_than_many() -> None:
    pattern = read(Source("try.draft", SHAPES["rounded"]))
    assert not any(quick.is_judged for quick, _ in both(pattern, wide="36mm..40mm/1mm"))
