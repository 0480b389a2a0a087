"""Sizes worked out in one run come to what each comes to alone: numbers, stitches, and every word that is told."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

import drafting
from drafting.craft.lists import at_once
from drafting.craft.lists.at_once import rows_at_once
from drafting.craft.lists.in_processes import rows_of
from drafting.craft.lists.sizing import Asked, SizedRow, sized_row
from drafting.face import Pattern, read
from drafting.geometry.maths import varies
from drafting.model.expressions import Constant
from drafting.solve.draft import Draft
from drafting.text.source import Source

MOVED = {
    "badge-holder": "rim",
    "belt": "waist",
    "blade-sheath": "blade_l",
    "card-wallet": "card_w",
    "coaster-tray": "disc_d",
    "coin-pouch": "disc_d",
    "cup-sleeve": "top_d",
    "glasses-case": "reach",
    "hatch-tag": "rim",
    "key-fob": "bowl_d",
    "key-tray": "room_l",
    "notebook-cover": "book_w",
    "pitch-pipe-case": "pipe_w",
    "strap-end": "strap_w",
    "tool-panel": "margin",
    "tool-roll": "margin",
    "watch-strap": "lug",
}
"""A measure of each starter."""
MOST_ALONE = 4
"""In two lots one size each to hold it against, or a lot of one."""


class Alone:
    """Works out rows, and keeps the names of the sizes that are worked out alone."""

    def __init__(self) -> None:
        self.names: list[str] = []

    def row(self, draft: Draft, asked: Asked) -> SizedRow:
        if not any(
            varies(bound.value) for (bound, *_) in asked.settings.values() if isinstance(bound, Constant)
        ):
            self.names.append(asked.name)
        return sized_row(draft, asked)


@pytest.fixture
def alone(monkeypatch: pytest.MonkeyPatch) -> Alone:
    """Few enough are worked out together."""
    monkeypatch.setattr(at_once, "FEW", 1)
    return Alone()


def expect_same(rows: Sequence[SizedRow], pattern: Pattern, asked: Sequence[Asked]) -> None:
    for row, one in zip(rows, asked, strict=True):
        by_itself = sized_row(pattern.draft, one)
        assert row.asked is one
        assert row.found == by_itself.found
        assert row.stitches == by_itself.stitches
        assert row.measures == pytest.approx(by_itself.measures, abs=1e-9)
        assert row.stock == pytest.approx(by_itself.stock, rel=1e-9)
        assert row.thread == (by_itself.thread and pytest.approx(by_itself.thread, rel=1e-9))
        assert {name: pytest.approx(box, abs=1e-9) for name, box in row.boxes.items()} == by_itself.boxes


@pytest.mark.parametrize("name", MOVED)
def test_a_starter_in_one_run(name: str, alone: Alone) -> None:
    pattern = drafting.load(f"patterns/{name}.draft")
    title = pattern.sizes[0] if pattern.sizes else None
    (given,) = pattern.asked_sizes(title, {})
    value = pattern.draft.size(given.title, given.settings).drawn.measures[MOVED[name]]
    asked = pattern.asked_sizes(title, {MOVED[name]: f"{value:g}mm..{value + 0.04:g}mm/0.01mm"})
    rows = rows_at_once(pattern.draft, asked, alone.row)
    assert len(alone.names) <= MOST_ALONE
    expect_same(rows, pattern, asked)


FLAP = """\
measure wide = 40 mm between 30 mm and 60 mm
measure room = wide - 2*4 mm
stock body: leather; 2 mm thick
thread linen: 0.8 mm thick
piece flap: cut 2 from body
  point foot: at (0, 0)
  point heel: level with foot; wide right of foot
  point brow: plumb with heel; 30 mm above heel
  point top:  level with brow; plumb with foot
  point mark: midway foot..heel
  point eye_at: plumb with mark; 9 mm above mark
  outline: foot to mark to heel to brow to top
  fillet heel, brow, top by 5 mm
  hole eye: 4 mm across; at eye_at
  stitch seam: 4 mm inside outline; every 4 mm; start at mark
check room >= 30 mm "what goes in"
"""


def test_lots_part_by_their_stitches_and_by_what_is_told() -> None:
    """Counts change, the check and the range are broken by some, and each says so with its own figures."""
    pattern = read(Source("flap.draft", FLAP))
    assert not pattern.messages.has_errors, list(pattern.messages)
    asked = pattern.asked_sizes(None, {"wide": "28mm..64mm/0.25mm"})
    rows = rows_at_once(pattern.draft, asked, sized_row)
    assert len({tuple(row.stitches.values()) for row in rows}) > 5
    said = {one.says for row in rows for one in row.found}
    assert len(said) > 10
    expect_same(rows, pattern, asked)
    assert list(rows_of(pattern.draft, asked)) == rows


def test_a_lot_that_comes_to_something_else_is_worked_out_alone(
    alone: Alone, monkeypatch: pytest.MonkeyPatch
) -> None:
    pattern = read(Source("flap.draft", FLAP))
    asked = pattern.asked_sizes(None, {"wide": "40mm..40.4mm/0.1mm"})
    monkeypatch.setattr(at_once, "column_of", lambda amount, n_sizes: [1.0] * n_sizes)
    expect_same(rows_at_once(pattern.draft, asked, alone.row), pattern, asked)
    assert len(alone.names) > len(asked)


WHEEL = """\
measure deep = 30 mm
stock body: leather; 2 mm thick
piece flap: cut 1 from body
  point foot: at (0, 0)
  point heel: at (60 mm, 0)
  point mid:  at (30 mm, 40 mm)
  outline: box 200 mm by 160 mm
  guide wheel: deep across; at mid
  point a: on wheel; 45 mm from b; above mid; left of mid
  point b: 50 mm from foot; 30 mm from c; right of foot
  point c: 40 mm from heel; 50 mm from a; left of heel
  hole eye: 4 mm across; at a
check flap.foot..flap.a >= 60 mm "the reach"
"""


def test_places_found_by_search_where_only_a_path_varies(alone: Alone) -> None:
    pattern = read(Source("flap.draft", WHEEL))
    asked = pattern.asked_sizes(None, {"deep": "29mm..31mm/0.25mm"})
    rows = rows_at_once(pattern.draft, asked, alone.row)
    assert len(alone.names) == 1
    assert len({one.says for row in rows for one in row.found}) == len(rows)
    expect_same(rows, pattern, asked)


def test_a_size_in_which_a_seam_cannot_be_laid_keeps_its_row() -> None:
    pattern = drafting.load("patterns/key-fob.draft")
    rows = list(rows_of(pattern.draft, pattern.asked_sizes("rowing boat", {"bowl_d": "20mm..24mm/2mm"})))
    assert all(not row.is_sound and "fob.bowl_seam" not in row.stitches for row in rows)
