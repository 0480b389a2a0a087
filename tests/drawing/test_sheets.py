"""Paper is chosen by need, and never smaller than what it has to hold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.drawing import collisions, piece_sheet
from drafting.drawing.footer import FooterFacts, columns
from drafting.drawing.lines import CUT
from drafting.drawing.marks import Group
from drafting.drawing.overview import Cell, arranged, fill_rows, place_rows
from drafting.drawing.scales import reductions, scale_words
from drafting.drawing.sheets import own_sheet
from drafting.drawing.view import piece_view
from drafting.geometry.bounds import Bounds
from drafting.geometry.curves import box
from drafting.geometry.point import Point
from tests.drawing.samples import piece, placed


@pytest.mark.parametrize(
    ("width", "height", "name"),
    [
        (150, 60, "A4"), (175, 60, "A3"), (355, 130, "A3"), (390, 80, "A4×3"), (780, 60, "A4×4"),
        (160, 160, "A3"), (560, 500, "A1"), (980, 60, "A4×5"), (2000, 40, "2060 × 210 mm"),
    ],
)  # fmt: skip
def test_a_piece_gets_the_least_paper_that_holds_it(width: float, height: float, name: str) -> None:
    plain = placed("plain", [piece("plain", box(Point(0, 0), width, height))])
    drawing = piece_sheet(plain, "plain")
    assert (drawing.sheet, drawing.scale) == (name, 1.0)


@given(st.floats(1, 9000), st.floats(1, 9000))
def test_own_sheet_holds_what_it_is_made_for(width: float, height: float) -> None:
    frame = own_sheet(width, height).frame
    assert frame.width >= width - 1e-6 and frame.height >= height - 1e-6


def test_reductions_are_those_of_the_standard() -> None:
    steps = reductions()
    assert [next(steps) for _ in range(7)] == [1, 2, 5, 10, 20, 50, 100]
    assert (scale_words(1.0), scale_words(1 / 5), scale_words(0.001)) == ("1:1", "1:5", "1:1000")


def test_small_pieces_stand_above_each_other_before_the_overview_is_reduced_further() -> None:
    """The two flat cells go in one column, as high as the highest of the others; without need none do."""
    sizes = [(59, 110), (59, 110), (52, 76), (132, 50), (50, 52)]
    cells = [Cell(Group("cell", str(size)), Bounds(0, 0, *size)) for size in sizes]
    rows = arranged(cells, Bounds(0, 0, 380, 166))
    assert rows is not None
    assert [[len(column.cells) for column in row.columns] for row in rows] == [[1, 1, 1, 2]]
    assert (rows[0].width, rows[0].height) == (59 + 59 + 52 + 132 + 3 * 14, 50 + 12 + 52)
    flat = arranged(cells, Bounds(0, 0, 380, 180))
    assert flat == fill_rows(cells, 380) and len(flat) == 2
    assert arranged(cells, Bounds(0, 0, 180, 166)) is None


def test_cells_of_a_column_stand_below_each_other() -> None:
    boards = [piece(str(size), box(Point(0, 0), *size)) for size in [(50, 110), (132, 40), (50, 40)]]
    cells = [Cell(piece_view(board, 1.0, False), board.outline.bounds) for board in boards]
    groups = place_rows(fill_rows(cells, 400, 110), Bounds(0, 0, 400, 200))
    _, upper, lower = (group.bounds for group in groups)
    assert upper is not None and lower is not None
    assert upper.min_y - lower.max_y == pytest.approx(12.0, abs=1.5)
    assert upper.center.x == pytest.approx(lower.center.x, abs=1.0)


def test_a_paragraph_goes_on_in_another_column_with_two_lines_at_least() -> None:
    """Of whatever length the paragraphs are, no line stands alone above the title block or is left alone."""
    plain = placed("plain", [piece("plain", box(Point(0, 0), 300, 60))])
    for count in range(1, 40):
        remarks = [f"Remark {number}: " + "word " * count for number in range(3)]
        first, second = columns(FooterFacts((CUT,), "", False, tuple(remarks)), 40.0)
        left, right = (
            [line.text for line in group.letterings if line.use == "caution"] for group in (first, second)
        )
        if right and not right[0].startswith("Remark"):
            start = max(index for index, line in enumerate(left) if line.startswith("Remark"))
            rest = [*right, "Remark"]
            goes_on = next(index for index, line in enumerate(rest) if line.startswith("Remark"))
            assert len(left) - start >= 2 and goes_on >= 2
    assert collisions(piece_sheet(plain, "plain", remarks=remarks)) == []
