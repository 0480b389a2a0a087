"""Drawings against the standards of technical drawing and the definition of SVG.

Every check names its source and how the source was reached: *looked up* in the text or a page of it, *second-hand*
from a text that quotes it, *from memory*, or *derived* from the stated formula.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from math import degrees, hypot, pi, sqrt
from pathlib import Path as FilePath
from xml.etree import ElementTree

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from svgelements import Path as ReadPath

from drafting.drawing import Drawing, overview, piece_sheet
from drafting.drawing.font_file import font_files
from drafting.drawing.lines import (
    CREASE,
    CUT,
    DIMENSION,
    EXTENSION,
    FOLD,
    GUIDE,
    LINE_KINDS,
    MARKING,
    SYMMETRY,
    TURN,
)
from drafting.drawing.marks import Group, Lettering, Stroke
from drafting.drawing.sheets import SHEETS
from drafting.drawing.title_block import N_ROWS, ROW
from drafting.drawing.title_block import WIDTH as BLOCK_WIDTH
from drafting.geometry.arc import Arc
from drafting.geometry.curves import circle
from drafting.geometry.path import Path
from drafting.geometry.point import Point, Vector
from drafting.output.svg import to_svg
from tests.drawing.samples import SAMPLES, badge_holder, choir_folder, deck_belt, rigging_strap

SVG = "{http://www.w3.org/2000/svg}"


def sheets() -> Iterator[Drawing]:
    for make in SAMPLES.values():
        placed = make()
        yield overview(placed)
        yield from (piece_sheet(placed, name) for name in list(placed.pieces)[:2])


def test_c01_every_stroke_width_is_of_the_series() -> None:
    """ISO 128-20:1996 / ISO 128-2 (second-hand, several textbooks): steps of the square root of two."""
    series = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)
    assert [after / before for before, after in pairwise(series)] == pytest.approx([sqrt(2)] * 8, abs=0.06)
    for drawing in sheets():
        found = re.findall(r'stroke-width="([^"]+)"', to_svg(drawing))
        assert found and {float(width) for width in found} <= set(series)


def test_c02_wide_lines_are_twice_as_wide_as_narrow_ones() -> None:
    """ÖNORM EN ISO 128-2 in a textbook, ISBN 978-3-7100-2824-3 p. 28 (looked up): group 0.5 for A4 to A2."""
    assert CUT.width == 0.5
    assert {kind.width for kind in (FOLD, CREASE, DIMENSION, EXTENSION, SYMMETRY, TURN, GUIDE)} == {
        CUT.width / 2
    }


@pytest.mark.parametrize(
    ("kind", "dashes"),
    [
        (CREASE, (12, 3)), (MARKING, (12, 18)), (SYMMETRY, (24, 3, 0.5, 3)), (TURN, (24, 3, 0.5, 3, 0.5, 3)),
        (GUIDE, (24, 3, 6, 3, 6, 3)),
    ],
)  # fmt: skip
def test_c03_dashes_are_counted_in_line_widths(kind: object, dashes: tuple[float, ...]) -> None:
    """ISO 128-20, line elements (from memory); the same numbers stand in the public DXF ISO line-type table
    (looked up)."""
    assert kind in LINE_KINDS
    assert kind.dashes == pytest.approx([dash * kind.width for dash in dashes])  # type: ignore[attr-defined]


def test_c03_a_dashed_narrow_line_repeats_every_3_75_mm() -> None:
    """ISO 128-20 (from memory): 12 d dash and 3 d gap at d = 0.25."""
    assert CREASE.dashes == (3.0, 0.75)


def test_c04_which_line_is_for_what() -> None:
    """ISO 128-24:1999 (second-hand): 01.2 visible edges, 01.1 dimensions, extensions and bend lines, 04.1 symmetry,
    05.1 outlines of another state of forming. A bend line is continuous, not dashed."""
    assert (CUT.iso, DIMENSION.iso, EXTENSION.iso, FOLD.iso) == ("01.2", "01.1", "01.1", "01.1")
    assert (SYMMETRY.iso, TURN.iso) == ("04.1", "05.1")
    belt = piece_sheet(deck_belt(), "belt")
    fold = next(belt.find("feature", "crook")[0].strokes)
    assert fold.kind.dashes == () and fold.kind.width == 0.25
    assert {stroke.kind.iso for stroke in belt.find("symmetry")[0].strokes} == {"04.1"}


def dimensions(drawing: Drawing) -> Iterator[tuple[Group, Lettering, Stroke, list[Stroke], list[Stroke]]]:
    """Each dimension with its figures, its line, its extension lines and its arrowheads."""
    for group in drawing.find("dimension"):
        strokes = list(group.strokes)
        line = next(stroke for stroke in strokes if stroke.kind is DIMENSION and not stroke.is_filled)
        extensions = [stroke for stroke in strokes if stroke.kind is EXTENSION]
        yield (
            group,
            next(group.letterings),
            line,
            extensions,
            [stroke for stroke in strokes if stroke.is_filled],
        )


def test_c05_figures_stand_above_the_line_and_read_from_below_or_the_right() -> None:
    """EN ISO 129-1 in textbooks, ISBN 978-3-7100-2443-6 p. 23-25 and 978-3-7100-2824-3 p. 54-56 (looked up)."""
    for drawing in sheets():
        for _, figures, line, _, _ in dimensions(drawing):
            assert -90 < figures.angle <= 90
            direction = (line.way.end - line.way.start).unit()
            assert abs(abs(degrees(direction.angle)) % 180 - abs(figures.angle)) % 180 == pytest.approx(
                0, abs=1e-6
            )
            above = Vector.at_angle(figures.angle * pi / 180).turned_left()
            assert 0 < (figures.at - line.way.start).dot(above) < figures.height


def test_c05_arrowheads_are_15_degrees_and_as_long_as_the_figures_are_high() -> None:
    """The same textbooks (looked up)."""
    for drawing in sheets():
        for _, figures, _, _, arrows in dimensions(drawing):
            assert len(arrows) == 2
            for arrow in arrows:
                tip, left, right = arrow.way.legs[0].start, arrow.way.legs[0].end, arrow.way.legs[1].end
                assert degrees((left - tip).angle_to(right - tip)) == pytest.approx(15, abs=1e-6) or degrees(
                    (right - tip).angle_to(left - tip)
                ) == pytest.approx(15, abs=1e-6)
                assert tip.distance_to(left.midway(right)) == pytest.approx(figures.height)


def test_c05_extension_lines_run_two_millimetres_past() -> None:
    """ISO 129-1, eight line widths (from memory); about 2 mm in the textbooks (looked up)."""
    checked = 0
    for drawing in sheets():
        for _, _, line, extensions, _ in dimensions(drawing):
            direction = (line.way.end - line.way.start).unit()
            for extension in extensions:
                past = abs((extension.way.end - line.way.start).cross(direction))
                assert past == pytest.approx(2.0)
                checked += 1
    assert checked > 50


def test_c05_first_lane_at_ten_millimetres_and_the_next_at_least_seven_on() -> None:
    """The same textbooks (looked up); the smaller dimension lies nearer the part."""
    for drawing in (piece_sheet(choir_folder(), "cover"), piece_sheet(badge_holder(), "front")):
        part = drawing.find("outline")[0].bounds
        assert part is not None
        level = [
            (line.way.start.y, line.way)
            for _, _, line, _, _ in dimensions(drawing)
            if line.way.start.y == pytest.approx(line.way.end.y)
        ]
        below = sorted({round(part.min_y + 0.25 - y, 6) for y, _ in level if y < part.min_y})
        assert not below or below[0] == pytest.approx(10)
        assert all(after - before >= 7 - 1e-6 for before, after in pairwise(below))


def test_c06_lettering_heights_are_of_the_series() -> None:
    """ISO 3098-0 (second-hand): 1.8, 2.5, 3.5, 5, 7, 10, 14, 20. A table that lists 2.8 is a misprint."""
    for drawing in sheets():
        assert {words.height for words in drawing.letterings} <= {1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0}


def test_c07_lettering_height_is_the_height_of_a_capital() -> None:
    """Derived: the bounds of the glyph H at the font size in the file, by fontTools from the very font: 3.5 mm."""
    font = TTFont(font_files()[0])
    pen = BoundsPen(font.getGlyphSet())
    font.getGlyphSet()["H"].draw(pen)
    root = ElementTree.fromstring(to_svg(piece_sheet(badge_holder(), "front")))
    sizes = [
        float(text.get("font-size", "0"))
        for text in root.iter(f"{SVG}text")
        if text.get("class") == "dimension"
    ]
    assert sizes
    for size in sizes:
        assert (pen.bounds[3] - pen.bounds[1]) / font["head"].unitsPerEm * size == pytest.approx(
            3.5, abs=0.02
        )


def test_c08_scales_are_of_the_standard_and_pieces_are_one_to_one() -> None:
    """ISO 5455:1979, 3 and 5.1 (looked up): 1:1, or a reduction 1:2, 1:5, 1:10 and their tenfolds."""
    reductions = {f"1:{step * 10**power}" for step in (1, 2, 5) for power in range(4)}
    for make in SAMPLES.values():
        placed = make()
        assert scale_of(overview(placed)) in reductions
        assert {scale_of(piece_sheet(placed, name)) for name in list(placed.pieces)[:2]} <= {"1:1"}
    assert scale_of(overview(rigging_strap())) == "1:10"


def scale_of(drawing: Drawing) -> str:
    return next(words.text for words in drawing.find("field", "Scale")[0].letterings if words.use == "field")


@pytest.mark.parametrize(("name", "width", "height"), [("A4", 180, 277), ("A3", 390, 277)])
def test_c09_drawing_frame(name: str, width: float, height: float) -> None:
    """ISO 5457:1999 (from memory): 20 mm on the left, 10 mm elsewhere."""
    sheet = next(sheet for sheet in SHEETS if sheet.name == name)
    assert (sheet.frame.width, sheet.frame.height) == (width, height)
    assert (sheet.frame.min_x, sheet.frame.min_y) == (20, 10)


def test_c09_the_frame_is_drawn_where_the_standard_puts_it() -> None:
    """ISO 5457:1999 (from memory)."""
    drawing = piece_sheet(badge_holder(), "back")
    border = next(drawing.find("frame")[0].strokes).way.bounds
    assert (border.min_x, border.min_y, border.max_x, border.max_y) == (20, 10, 200, 287)


def test_a05_sheet_sizes() -> None:
    """ISO 216 (second-hand, several agreeing tables); A4 stands, the larger ones lie."""
    sizes = [tuple(sorted((sheet.width, sheet.height))) for sheet in SHEETS]
    assert sizes == [(210, 297), (297, 420), (420, 594), (594, 841), (841, 1189)]


def test_a06_every_sheet_carries_a_bar_to_check_its_size() -> None:
    """ISO 216 lets a side differ by 2 mm (from memory; the same table in GOST 2.301, looked up): true size cannot be
    proved by the edge of the paper."""
    for drawing in sheets():
        svg = ElementTree.fromstring(to_svg(drawing))
        bar = next(
            group for group in svg.iter(f"{SVG}g") if (group.get("id") or "").startswith("check-bar-100")
        )
        lengths = [ReadPath(path.get("d")).length() for path in bar.iter(f"{SVG}path")]
        assert max(lengths) == pytest.approx(100, abs=1e-6)


def test_c10_title_block_has_the_eight_obligatory_fields() -> None:
    """ISO 7200:2004, field table (second-hand); 180 mm wide (from memory)."""
    wanted = {
        "Legal owner", "Identification number", "Date of issue", "Sheet number", "Title", "Approval person", "Creator",
        "Document type",
    }  # fmt: skip
    for drawing in sheets():
        fields = {group.name: list(group.letterings) for group in drawing.find("field")}
        assert wanted <= set(fields)
        number = "".join(words.text for words in fields["Sheet number"] if words.use == "field")
        assert 1 <= len(number) <= 4
        assert all(words.use == "label" for words in fields["Date of issue"])
    box = next(drawing.find("title-block")[0].strokes).way.bounds
    assert (box.width, box.height) == (BLOCK_WIDTH, N_ROWS * ROW) and BLOCK_WIDTH == 180


@pytest.mark.parametrize(("sweep", "box"), [(1, (0, -20, 40, 0)), (0, (0, 0, 40, 20))])
def test_c11_arc_flags_with_y_down(sweep: int, box: tuple[float, ...]) -> None:
    """SVG 1.1, 8.3.8 (clause from memory, wording looked up in library documentation); boxes read with svgelements."""
    read = ReadPath(f"M0,0 A20,20 0 0 {sweep} 40,0")
    assert read.bbox() == pytest.approx(box, abs=1e-9)
    assert read.length() == pytest.approx(62.83185, abs=1e-5)


def test_c11_an_anticlockwise_arc_is_written_with_sweep_flag_0() -> None:
    """The same clause: anticlockwise with y up is against the angle once y points down."""
    arc = Arc(Point(50, 50), 20, 0.0, 1.0)
    written = [path_data(Stroke(CUT, Path([leg]))) for leg in (arc, arc.reversed())]
    flags = [re.findall(r"A \S+ \S+ 0 0 ([01])", data) for data in written]
    assert flags == [["0"], ["1"]]
    left, top, right, bottom = ReadPath(written[0]).bbox()
    bounds = arc.bounds
    assert (left, 100 - bottom, right, 100 - top) == pytest.approx(
        (bounds.min_x, bounds.min_y, bounds.max_x, bounds.max_y), abs=1e-5
    )


def path_data(stroke: Stroke) -> str:
    drawing = Drawing("test", "", 100, 100, "own", 1.0, (Group("test", "test", (stroke,)),))
    path = next(ElementTree.fromstring(to_svg(drawing)).iter(f"{SVG}path"))
    return path.get("d") or ""


def test_c12_no_arc_ends_where_it_starts_and_no_radius_is_stretched() -> None:
    """SVG 1.1 app. F.6.2 and F.6.6 (clauses from memory, confirmed with svgelements): the one is dropped, the other
    scaled."""
    for drawing in sheets():
        for path in ElementTree.fromstring(to_svg(drawing)).iter(f"{SVG}path"):
            data = path.get("d") or ""
            numbers = [float(number) for number in re.findall(r"-?[\d.]+", re.sub(r"[A-Z]", " ", data))]
            assert numbers
            place = None
            for command, rest in re.findall(r"([MLA]) ([^MLAZ]+)", data):
                values = [float(number) for number in re.findall(r"-?[\d.]+", rest)]
                end = (values[-2], values[-1])
                if command == "A":
                    assert place is not None
                    chord = hypot(end[0] - place[0], end[1] - place[1])
                    assert 0 < chord < 2 * values[0]
                place = end


def test_c12_a_whole_circle_has_its_whole_length() -> None:
    """SVG 1.1 (as above): a circle of diameter 100 measures 314.15927."""
    drawing = Drawing(
        "test", "", 200, 200, "own", 1.0, (Group("test", "test", (Stroke(CUT, circle(Point(99, 99), 50)),)),)
    )
    element = next(ElementTree.fromstring(to_svg(drawing)).iter(f"{SVG}circle"))
    radius = element.get("r")
    read = ReadPath(f"M 0,0 a {radius},{radius} 0 1 0 100,0 a {radius},{radius} 0 1 0 -100,0 Z")
    assert read.length() == pytest.approx(314.15927, abs=1e-5)


def test_c13_the_root_has_millimetres_and_a_view_box_in_millimetres() -> None:
    """CSS Values and Units, absolute lengths (W3C test coords-units-03-b, looked up): one user unit is 1 mm."""
    for drawing in sheets():
        root = ElementTree.fromstring(to_svg(drawing))
        width, height = root.get("width", ""), root.get("height", "")
        assert width.endswith("mm") and height.endswith("mm")
        assert root.get("viewBox") == f"0 0 {width[:-2]} {height[:-2]}"
        assert "px" not in "".join(value for element in root.iter() for value in element.attrib.values())


def test_h05_sharp_tools_are_warned_of() -> None:
    """Common practice, no source: cut away from the hand, on a solid base, keep blades covered."""
    words = " ".join(line.text for line in piece_sheet(badge_holder(), "back").find("wording")[0].letterings)
    assert "Cut away from your hands" in words and "firm base" in words and "covered" in words


def test_the_font_in_use_is_found() -> None:
    """The picture's letters come from a package, not from the machine."""
    assert [FilePath(path).name for path in font_files()] == ["Arimo[wght].ttf"]
