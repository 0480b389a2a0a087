"""True-size sheets: which paper, how many tiles, and that nothing is lost or laid over something else."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing import collisions
from drafting.drawing.prints import PaperFault, PrintFacts, PrintSheet, paper_called, print_sheets
from drafting.drawing.prints.tiling import OVERLAP, Tiling, column_letters, count, tile
from drafting.geometry.bounds import Bounds
from drafting.geometry.curves import box, circle
from drafting.geometry.point import Point
from drafting.solve.placed import Placed
from tests.drawing.samples import SAMPLES, piece, placed

FACTS = PrintFacts("0123abcd")
HALF_A_LINE = 0.13
"""The frame of a tile stands on the edge of its window."""


def sheets_of(drafted: Placed, paper: str = "a4") -> list[PrintSheet]:
    return print_sheets(drafted, paper_called(paper), list(drafted.pieces), FACTS)


@pytest.mark.parametrize(
    ("name", "wide", "high"),
    [
        ("a4", 210, 297),  # ISO 216
        ("A3", 297, 420),  # ISO 216
        ("letter", 215.9, 279.4),  # ANSI/ASME Y14.1 size A, 8.5 x 11 in
        ("legal", 215.9, 355.6),  # 8.5 x 14 in
        ("320x450", 320, 450),
        ("11x17 in", 279.4, 431.8),  # ANSI/ASME Y14.1 size B
        ("30cm × 400mm", 300, 400),
    ],
)
def test_papers(name: str, wide: float, high: float) -> None:
    paper = paper_called(name)
    assert (paper.width, paper.height) == pytest.approx((wide, high))
    again = paper_called(paper.called)
    assert (again.width, again.height) == (paper.width, paper.height)


@pytest.mark.parametrize("name", ["", "a9", "90x100", "0x0", "6000x300", "a4 lying", "-210x297"])
def test_papers_that_nothing_goes_on(name: str) -> None:
    with pytest.raises(PaperFault):
        paper_called(name)


def test_count_of_tiles() -> None:
    """500 by 400 mm on A4 with margins and overlaps of 10 mm: 3 by 2 sheets, or 2 by 3 lying (derived)."""
    assert (count(500, 190), count(400, 277)) == (3, 2)
    assert (count(500, 277), count(400, 190)) == (2, 3)


def test_letters_of_columns() -> None:
    assert [column_letters(index) for index in (0, 25, 26, 701, 702)] == ["A", "Z", "AA", "ZZ", "AAA"]


@given(
    wide=st.floats(20, 3000), high=st.floats(20, 3000), room=st.tuples(st.floats(60, 400), st.floats(60, 400))
)
def test_tiles_cover_the_piece_and_overlap(wide: float, high: float, room: tuple[float, float]) -> None:
    ring = box(Point(7.0, -3.0), wide, high)
    tiling = tile(ring, ring.bounds, *room)
    assert all(
        part.window.width <= room[0] + 1e-6 and part.window.height <= room[1] + 1e-6 for part in tiling.tiles
    )
    assert Bounds.joining(part.window for part in tiling.tiles).width == pytest.approx(wide)
    assert Bounds.joining(part.window for part in tiling.tiles).height == pytest.approx(high)
    assert overlaps_of(tiling) <= {round(OVERLAP, 6)}


def overlaps_of(tiling: Tiling) -> set[float]:
    """How much neighbours share, in columns and in rows."""
    across = [left[1] - right[0] for left, right in zip(tiling.columns, tiling.columns[1:], strict=False)]
    up = [upper[1] - lower[1] for upper, lower in zip(tiling.rows, tiling.rows[1:], strict=False)]
    shared = [row[1] - row[0] - step for row, step in zip(tiling.rows, up, strict=False)]
    return {round(value, 6) for value in (*across, *shared)}


@given(room=st.tuples(st.floats(60, 400), st.floats(60, 400)))
def test_empty_tiles_are_left_out(room: tuple[float, float]) -> None:
    """Of a disc just those tiles are printed whose nearest place to the middle is nearer than the edge."""
    disc = circle(Point(0, 0), 500)
    tiling = tile(disc, disc.bounds, *room)
    every = [Bounds(left, low, right, high) for low, high in tiling.rows for left, right in tiling.columns]
    needed = [window for window in every if window.distance_to_point(Point(0, 0)) < 500 - 1e-6]
    assert [
        part.window for part in tiling.tiles if part.window.distance_to_point(Point(0, 0)) < 500 - 1e-6
    ] == needed
    assert len(tiling.tiles) - len(needed) <= 4


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
@pytest.mark.parametrize("name", SAMPLES)
def test_sheets_keep_their_parcels_apart(name: str, paper: str) -> None:
    drafted = SAMPLES[name]()
    sheets = sheets_of(drafted, paper)
    assert {shown.piece for sheet in sheets for shown in sheet.shown} == set(drafted.pieces)
    room = paper_called(paper).room.grown(HALF_A_LINE)
    for sheet in sheets:
        cells = [group for group in sheet.drawing.groups if group.kind in ("cell", "tile", "card", "map")]
        boxes = [bounds_seen(group) for group in cells]
        assert all(not one.overlaps(other) for one, other in combinations(boxes, 2))
        assert all(
            room.contains(Point(box.min_x, box.min_y)) and room.contains(Point(box.max_x, box.max_y))
            for box in boxes
        )


def bounds_seen(group) -> Bounds:  # type: ignore[no-untyped-def]
    """The box of a group less what windows hide."""
    inner = [mark for mark in group.marks if getattr(mark, "window", None)]
    if not inner:
        return group.bounds
    rest = [
        mark.bounds for mark in group.marks if mark not in inner and hasattr(mark, "marks") and mark.bounds
    ]
    return Bounds.joining([*(mark.window for mark in inner), *rest])


def test_words_of_small_pieces_meet_nothing() -> None:
    """Without tiles, whose frames and seams may cross what they share."""
    for name in ("key_fob", "badge_holder"):
        for sheet in sheets_of(SAMPLES[name](), "a3"):
            assert list(collisions(sheet.drawing)) == []


def test_a_long_strap_shares_sheets_with_itself() -> None:
    strap = placed("Ferry rope strap", [piece("strap", box(Point(0, 0), 1200, 40))])
    sheets = sheets_of(strap)
    assert len(sheets) == 2
    assert sum(len(sheet.shown) for sheet in sheets) == count(1202, 261)


def test_the_map_names_every_tile_and_its_sheet() -> None:
    roll = placed("Loft tool roll", [piece("roll", box(Point(0, 0), 900, 700))])
    sheets = sheets_of(roll)
    words = " ".join(
        lettering.text
        for sheet in sheets
        for group in sheet.drawing.find("sheet-map")
        for lettering in group.letterings
    )
    for number, sheet in enumerate(sheets, start=1):
        for group in sheet.drawing.find("tile"):
            listed = words.split(f"Sheet {number}: ")[1].split(".")[0]
            assert group.name in listed.split(", ")


def test_nothing_is_too_small_or_too_many() -> None:
    many = placed("Choir tags", [piece(f"tag {index}", circle(Point(0, 0), 8)) for index in range(300)])
    sheets = sheets_of(many)
    assert sum(len(sheet.shown) for sheet in sheets) == 300
