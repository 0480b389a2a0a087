"""Punches: a hole made with one says so, however its size comes to be that of the punch."""

from __future__ import annotations

from pathlib import Path

import pytest

import drafting
from drafting.face import PlacedPattern
from drafting.solve.placed import PlacedPunch
from tests.lowering.drafted import check, drafted

TABLE = """punch no_2: 2.5 mm across
punch no_5: 3/16 in across  "worn"
punch no_9: 9 mm across
"""
STRAP = """  outline: box 90 mm by 30 mm
  point mid: at (0, 0)
"""


def punched(placed: PlacedPattern, piece: str) -> dict[str, set[tuple[float, str | None]]]:
    """Size and punch of the holes of each feature."""
    features = placed.pieces[piece].features
    return {each.name: {(round(hole.across, 6), hole.punch) for hole in each.holes} for each in features}


def test_a_punch_is_its_size() -> None:
    text = TABLE + f"measure twice = 2*no_5\npiece strap:\n{STRAP}  hole eye: at mid; no_5 across\n"
    check(text, {"strap.eye.across": 4.7625, "no_5.across": 4.7625, "twice": 9.525})


def test_holes_rows_and_the_ends_of_slits_name_their_punch() -> None:
    text = f"""{TABLE}piece strap: mirrored over low..high
{STRAP}  point low: 20 mm below mid; plumb with mid
  point high: 20 mm above mid; plumb with mid
  point a: at (15 mm, 5 mm)
  point b: at (35 mm, 5 mm)
  point c: at (35 mm, 10 mm)
  hole eye: at mid; no_5 across
  hole plain: 8 mm above mid; plumb with mid; 2.5 mm across
  row spots: along a..b; 3 holes; no_2 across
  slit mouth: a to b to c; end holes no_2; corner holes no_5
"""
    assert punched(drafted(text), "strap") == {
        "eye": {(4.7625, "no_5")},
        "plain": {(2.5, None)},
        "spots": {(2.5, "no_2")},
        "spots'": {(2.5, "no_2")},
        "mouth": {(2.5, "no_2"), (4.7625, "no_5")},
        "mouth'": {(2.5, "no_2"), (4.7625, "no_5")},
    }


def test_a_punch_is_known_through_measures_sizes_and_arguments() -> None:
    text = f"""{TABLE}measure prong = no_2
size "fine": as written
size "stout": prong = no_5
size "drawn": prong = 4 mm
block end(hole = 3 mm, other = 2*no_2)
{STRAP}  hole eye: at mid; hole across
  hole far: 20 mm right of mid; level with mid; other across
piece one: like end(hole = prong)
piece two: like end(hole = no_9)
"""
    for size, eye in (("fine", (2.5, "no_2")), ("stout", (4.7625, "no_5")), ("drawn", (4, None))):
        placed = drafted(text, size)
        assert punched(placed, "one") == {"eye": {eye}, "far": {(5, None)}}
        assert punched(placed, "two")["eye"] == {(9, "no_9")}
    with_another = drafted(text, "fine", prong="6 mm")
    assert punched(with_another, "one")["eye"] == {(6, None)}


def test_the_item_tells_the_punches_it_needs() -> None:
    text = f"{TABLE}piece strap:\n{STRAP}  hole eye: at mid; no_5 across\n"
    assert drafted(text).placed.item.punches == (PlacedPunch("no_5", pytest.approx(4.7625), "worn"),)


def test_two_shops_may_differ_about_a_number(tmp_path: Path) -> None:
    """F-16: punch numbers are a named table. That No. 5 is 5/32 in at one maker and 3/16 in at another, No. 0 5/64 in,
    is common practice, no source."""
    (tmp_path / "one.draft").write_text("punch no_0: 5/64 in across\npunch no_5: 5/32 in across\n")
    (tmp_path / "other.draft").write_text("punch no_5: 3/16 in across\n")
    text = f"""use "one.draft" as one
use "other.draft" as other
piece strap: grain any
{STRAP}  hole eye: at mid; one.no_5 across
  hole far: 20 mm right of mid; level with mid; other.no_5 across
"""
    (tmp_path / "strap.draft").write_text(text)
    placed = drafting.load(tmp_path / "strap.draft").place()
    sizes = {name: across for holes in punched(placed, "strap").values() for across, name in holes}
    assert sizes == {"one.no_5": pytest.approx(3.97, abs=5e-3), "other.no_5": pytest.approx(4.76, abs=5e-3)}
    assert [punch.name for punch in placed.placed.item.punches] == ["one.no_5", "other.no_5"]
    assert not drafting.load(tmp_path / "one.draft").check()
