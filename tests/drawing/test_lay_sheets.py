"""Drawings of lays: nothing of the stock is drawn over a part, and every part is there once."""

from __future__ import annotations

from shapely import LineString, unary_union

from drafting.drawing.lay_sheets import lay_as_placed, lay_cut, lay_drawing
from drafting.drawing.lay_words import lay_words
from drafting.drawing.lines import CUT, GUIDE, HATCH
from drafting.drawing.marks import Drawing
from drafting.drawing.prints import PrintFacts, paper_called, print_sheets
from drafting.geometry.bounds import Bounds
from drafting.geometry.curves import box, circle
from drafting.geometry.point import Point
from drafting.lay import LaidSheet, Lay, Sheet, Spot, panel
from tests.lay.shapes import kind, rectangle

HIDE = Sheet(
    "hide", rectangle(300, 200), 5.0, (circle(Point(60, 160), 10),), (box(Point(240, 40), 90, 60),),
    (rectangle(140, 90, 20, 20),), 0.0,
)  # fmt: skip
KINDS = (kind(rectangle(60, 30), 3, "flap"), kind(rectangle(50, 20), 1, "lining", zone="poor"))
LAY = Lay(
    KINDS,
    (LaidSheet(HIDE, (Spot(0, 0.0, 130.0, 40.0), Spot(0, 0.0, 120.0, 90.0), Spot(1, 0.0, 220.0, 30.0))),),
    2.0,
    seed=1,
)


def test_every_part_is_drawn_once_with_its_number() -> None:
    drawing = lay_drawing(LAY, 0, "Choir folders")
    parts = drawing.find("part")
    assert [group.title for group in parts] == ["flap", "flap", "lining"]
    assert [next(group.letterings).text for group in parts] == ["1", "1", "2"]
    assert all(next(group.strokes).kind == CUT for group in parts)
    words = " ".join(lettering.text for lettering in drawing.letterings)
    assert "1: 2 flap; 2: 1 lining." in words and "poor zones" in words and "firm zones" in words


SMALL = (
    kind(rectangle(100, 60), 2, "pad"), kind(rectangle(30, 3), 3, "tab"), kind(rectangle(25, 3), 2, "keeper"),
)  # fmt: skip
PADS = tuple(Spot(0, 0.0, 20.0 + 102.0 * n, 20.0) for n in range(2))
TABS = tuple(Spot(1, 0.0, 30.0, 90.0 + 5.0 * n) for n in range(3))
KEEPERS = tuple(Spot(2, 0.0, 62.0, 90.0 + 5.0 * n) for n in range(2))


def small_parts(*spots: Spot) -> tuple[Drawing, str]:
    """A drawing at 1:2, and its words."""
    drawing = lay_drawing(Lay(SMALL, (LaidSheet(HIDE, spots),), 2.0, seed=1), 0, "Choir folders")
    return drawing, " ".join(lettering.text for lettering in drawing.letterings)


def test_small_parts_of_one_kind_go_without_a_number_and_the_notes_say_so() -> None:
    drawing, words = small_parts(*PADS, *TABS)
    assert [[one.text for one in group.letterings] for group in drawing.find("part")] == [
        ["1"],
        ["1"],
        [],
        [],
        [],
    ]
    assert not drawing.find("note") and "1: 2 pad; 2, without a number: 3 tab." in words


def test_small_parts_of_other_kinds_have_their_number_beside_them() -> None:
    """On bare leather or beside it, with a leader that ends on the part."""
    drawing, words = small_parts(*PADS, *TABS, *KEEPERS)
    assert "2, without a number: 3 tab; 3: 2 keeper." in words
    shapes = [next(group.strokes).way.bounds for group in drawing.find("part")]
    notes = drawing.find("note")
    assert [next(note.letterings).text for note in notes] == ["3", "3"]
    boxes = [Bounds.around(next(note.letterings).corners) for note in notes]
    for note, words_box, part in zip(notes, boxes, shapes[-2:], strict=True):
        assert not any(words_box.overlaps(shape) for shape in shapes)
        leader = next(stroke.way for stroke in note.strokes if not stroke.is_filled)
        assert part.grown(0.01).contains(leader.end)
    assert not boxes[0].overlaps(boxes[1])


def test_among_many_small_parts_each_of_the_rarer_kind_is_told() -> None:
    tabs = tuple(Spot(1, 0.0, 30.0 + 32.0 * (n % 6), 20.0 + 5.0 * (n // 6)) for n in range(30))
    keepers = tuple(Spot(2, 0.0, 30.0 + 27.0 * (n % 6), 100.0) for n in range(6))
    drawing, _ = small_parts(*tabs, *keepers)
    assert len(drawing.find("note")) == len(keepers)


def test_lines_of_zones_stop_at_the_parts() -> None:
    """At 1:2 the lines, drawn out again, lie on no part."""
    drawing = lay_drawing(LAY, 0, "Choir folders")
    (stock,) = drawing.find("stock")
    shift = next(iter(drawing.find("part")[0].strokes)).way.bounds
    moved = (shift.min_x - 130.0 * drawing.scale, shift.min_y - 40.0 * drawing.scale)
    parts = unary_union([LAY.polygon(spot) for spot in LAY.sheets[0].spots]).buffer(-0.3)

    def truly(x: float, y: float) -> tuple[float, float]:
        return (x - moved[0]) / drawing.scale, (y - moved[1]) / drawing.scale

    lines = [stroke.way.corners for stroke in stock.strokes if stroke.kind == GUIDE]
    ends = [(stroke.way.start, *stroke.way.corners) for stroke in stock.strokes if stroke.kind == GUIDE]
    assert lines and all(
        not LineString([truly(p.x, p.y) for p in one]).crosses(parts) for one in ends if len(one) > 1
    )
    ticks = [line for flecks in stock.flecks if flecks.kind == HATCH for line in flecks.lines]
    assert ticks
    assert not any(LineString([truly(a.x, a.y), truly(b.x, b.y)]).crosses(parts) for a, b in ticks)


def test_a_machine_gets_the_outlines_within_the_sheet() -> None:
    drawing = lay_cut(LAY, 0, "Choir folders")
    assert (drawing.width, drawing.height, drawing.scale) == (300, 200, 1.0)
    assert sorted(stroke.way.bounds.min_x for stroke in drawing.strokes) == [120.0, 130.0, 220.0]


def test_the_print_has_each_part_and_defect_as_cut_out() -> None:
    piece = lay_as_placed(LAY, "Choir folders").pieces["sheet 1"]
    assert [one.name for one in piece.features if one.kind == "opening"] == [
        "part 1",
        "part 2",
        "part 3",
        "defect 1",
    ]


def test_a_printed_sheet_of_stock_is_not_told_to_be_cut() -> None:
    """Its name and what it is of; only its parts are cut."""
    stock = lay_as_placed(LAY, "Choir folders")
    sheets = print_sheets(stock, paper_called("a3"), ["sheet 1"], PrintFacts("0123abcd"))
    words = [lettering.text for sheet in sheets for lettering in sheet.drawing.letterings]
    assert "sheet 1" in words and stock.pieces["sheet 1"].stock in words
    assert not any("cut 1" in text or "from" in text for text in words)


def test_a_single_part_is_told_as_one() -> None:
    laid = LaidSheet(panel(100, 100), (Spot(0, 0.0, 10.0, 10.0),))
    words = lay_words(Lay((kind(rectangle(40, 40), 1, "mat"),), (laid,), 2.0, seed=1))
    assert "the only part is laid\n" in words and "sheet 1, panel: 1 part, 16.0 % of what is sound" in words
