"""The SVG that is written: true size, arcs as arcs, y turned once, words escaped, the same bytes every time."""

from __future__ import annotations

import re
from math import pi
from xml.etree import ElementTree

import pytest
from svgelements import Path as ReadPath

from drafting.drawing import Drawing, overview, piece_sheet
from drafting.drawing.lines import CUT, SYMMETRY
from drafting.drawing.marks import Group, Lettering, Stroke
from drafting.geometry.arc import Arc
from drafting.geometry.curves import box, circle, obround
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.output.svg import to_svg
from tests.drawing.samples import SAMPLES, choir_folder, scripts, tiny

SVG = "{http://www.w3.org/2000/svg}"


def sheet(*marks: Stroke | Lettering | Group) -> Drawing:
    return Drawing("A <sheet>", 'of "words" & more', 210, 297, "A4", 1.0, (Group("test", "test", marks),))


def elements(drawing: Drawing, name: str) -> list[ElementTree.Element]:
    return list(ElementTree.fromstring(to_svg(drawing)).iter(f"{SVG}{name}"))


def path_of(way: Path | Ring) -> ReadPath:
    """The first path of a sheet with one stroke, read by another library."""
    return ReadPath(elements(sheet(Stroke(CUT, way)), "path")[0].get("d"))


def test_one_user_unit_is_one_millimetre() -> None:
    root = ElementTree.fromstring(to_svg(sheet()))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("210mm", "297mm", "0 0 210 297")


def test_y_is_turned_to_point_down() -> None:
    line = path_of(Path([Line(Point(10, 20), Point(30, 270))]))
    assert (line.first_point.x, line.first_point.y) == (10, 277)
    assert (line.current_point.x, line.current_point.y) == (30, 27)


@pytest.mark.parametrize("sweep", [0.1, -0.1, 1.5, -1.5, pi, -pi, 5.0, -5.0, 6.28])
def test_an_arc_stays_the_same_arc(sweep: float) -> None:
    """Its length and box read back as drafted, whichever way and however far it turns."""
    arc = Arc(Point(100, 150), 40, 0.7, sweep)
    read = path_of(Path([arc]))
    assert read.length() == pytest.approx(arc.length, abs=1e-4)
    left, top, right, bottom = read.bbox()
    bounds = arc.bounds
    assert (left, 297 - bottom, right, 297 - top) == pytest.approx(
        (bounds.min_x, bounds.min_y, bounds.max_x, bounds.max_y), abs=1e-4
    )


def test_no_arc_is_half_a_circle_or_more() -> None:
    """A reader would have to choose a side, or to stretch a radius that is a hair too short."""
    read = path_of(obround(Point(100, 100), 40, 10))
    assert all(abs(part.sweep) < 0.95 * pi for part in read if hasattr(part, "sweep"))


def test_a_whole_circle_is_a_circle() -> None:
    found = elements(sheet(Stroke(CUT, circle(Point(50, 60), 12.5))), "circle")
    assert [(one.get("cx"), one.get("cy"), one.get("r")) for one in found] == [("50", "237", "12.5")]


def test_closed_lines_are_closed_and_open_ones_open() -> None:
    assert str(path_of(box(Point(50, 50), 20, 10)).d()).upper().endswith("Z")
    assert "Z" not in str(path_of(Path([Line(Point(0, 0), Point(1, 1))])).d()).upper()


def test_strokes_carry_their_kind_width_and_dashes() -> None:
    found = elements(sheet(Stroke(SYMMETRY, Path([Line(Point(0, 0), Point(90, 0))]))), "path")[0]
    assert (found.get("class"), found.get("stroke-width")) == ("symmetry", "0.25")
    assert found.get("stroke-dasharray") == "6 0.75 0.125 0.75"


def test_any_words_are_escaped_and_read_back() -> None:
    words = "a < b & c > \"d\" 'e' ]]> <script>"
    drawing = sheet(Lettering(words, Point(100, 100), 3.5))
    assert [text.text for text in elements(drawing, "text")] == [words]
    assert ElementTree.fromstring(to_svg(drawing)).findtext(f"{SVG}title") == "A <sheet>"


def test_characters_that_xml_lacks_are_replaced() -> None:
    group = Group("feature", "odd", (), title="bell\x07", note="\ufffe\ud800")
    root = ElementTree.fromstring(to_svg(sheet(group, Lettering("nul\x00", Point(9, 9), 2.5))))
    assert [text.text for text in root.iter(f"{SVG}text")] == ["nul\ufffd"]


def test_words_have_their_length_fixed_where_it_is_known() -> None:
    known, unknown = elements(
        sheet(Lettering("R 6", Point(50, 50), 3.5), Lettering("غطاء", Point(50, 90), 3.5)), "text"
    )
    assert float(known.get("textLength", "0")) == pytest.approx(
        Lettering("R 6", Point(0, 0), 3.5).width, abs=0.001
    )
    assert unknown.get("textLength") is None


def test_turned_words_turn_about_their_place() -> None:
    found = elements(sheet(Lettering("55", Point(50, 97), 3.5, angle=90)), "text")[0]
    assert found.get("transform") == "rotate(-90 50 200)"


@pytest.mark.parametrize("name", SAMPLES)
def test_identifiers_are_used_once_and_are_valid(name: str) -> None:
    placed = SAMPLES[name]()
    for drawing in (overview(placed), *(piece_sheet(placed, piece) for piece in list(placed.pieces)[:2])):
        given = [
            element.get("id")
            for element in ElementTree.fromstring(to_svg(drawing)).iter()
            if element.get("id")
        ]
        assert len(given) == len(set(given))
        assert all(identifier and re.fullmatch(r"[^\W\d][\w.\-]*", identifier) for identifier in given)


def test_groups_carry_the_makers_names() -> None:
    root = ElementTree.fromstring(to_svg(piece_sheet(choir_folder(), "cover")))
    given = {group.get("id"): group.findtext(f"{SVG}title") for group in root.iter(f"{SVG}g")}
    assert given["piece-cover"] == "cover"
    assert given["cover-tie"] == "slot tie" and given["cover-tie-twin"] == "slot tie'"
    root = ElementTree.fromstring(to_svg(overview(scripts())))
    assert {"piece-表紙", "piece-крышка", "крышка-имя"} <= {group.get("id") for group in root.iter(f"{SVG}g")}


def test_the_same_drawing_gives_the_same_bytes() -> None:
    assert to_svg(overview(choir_folder())) == to_svg(overview(choir_folder()))


def test_the_file_is_black_and_white() -> None:
    found = set(re.findall(r'(?:stroke|fill)="([^"]+)"', to_svg(overview(choir_folder()))))
    assert found == {"#000000", "#ffffff", "none"}


def test_one_whole_file_is_kept() -> None:
    """The smallest sheet, byte for byte; a change here is looked at, then kept with `KEPT.write_text(...)`."""
    from pathlib import Path as FilePath

    kept = FilePath(__file__).parent / "tiny.svg"
    assert to_svg(piece_sheet(tiny(), "bit")) == kept.read_text(encoding="utf-8")
