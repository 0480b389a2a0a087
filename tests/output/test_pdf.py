"""PDF files: page sizes, embedded letters, the same bytes; read by pypdf, which the tool itself does not use."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import pypdf
import pypdfium2
import pytest

from drafting.drawing.lines import CUT
from drafting.drawing.marks import Drawing, Group, Lettering, Stroke
from drafting.geometry.arc import Arc
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.output.pdf import PART, is_ours, to_pdf
from drafting.proof.layers_pdf import layers_of_paths
from drafting.proof.read_pdf import read_pdf


def page(*marks: Stroke | Lettering, wide: float = 210.0, high: float = 297.0) -> Drawing:
    return Drawing("Sheet: sheet 1 of 1", "", wide, high, "a4", 1.0, (Group("any", "any", marks),))


def test_a4_is_595_by_841_points() -> None:
    """ISO 32000-1: a unit is 1/72 in unless UserUnit says otherwise, so A4 is 595.275591 by 841.889764."""
    box = pypdf.PdfReader(BytesIO(to_pdf([page()]))).pages[0]
    assert (float(box.mediabox.width), float(box.mediabox.height)) == pytest.approx(
        (595.275591, 841.889764), abs=1e-3
    )
    assert box.get("/UserUnit", 1) == 1


def test_letters_are_in_the_file_and_can_be_read() -> None:
    words = Lettering("Żółw, мера, Größe ⌀ 4", Point(20, 20), 3.5, "start")
    reader = pypdf.PdfReader(BytesIO(to_pdf([page(words)])))
    fonts = reader.pages[0]["/Resources"]["/Font"]
    described = [font.get_object() for font in fonts.values()]
    assert described and all("/FontFile2" in font["/FontDescriptor"].get_object() for font in described)
    assert "Żółw, мера, Größe Ø 4" in reader.pages[0].extract_text()


def test_the_same_drawing_gives_the_same_bytes() -> None:
    drawn = page(Lettering("twice", Point(30, 30), 5.0))
    assert to_pdf([drawn]) == to_pdf([drawn])


def test_a_file_bears_the_date_it_is_told_and_never_today(monkeypatch: pytest.MonkeyPatch) -> None:
    """reproducible-builds.org, SOURCE_DATE_EPOCH: seconds since 1970; 1700000000 is 14 November 2023, 22:13:20 UTC."""
    words = Lettering("once", Point(30, 30), 5.0)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    dated = to_pdf([page(words)])
    assert pypdf.PdfReader(BytesIO(dated)).metadata["/CreationDate"].startswith("D:20231114221320")
    assert dated == to_pdf([page(words)])
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    undated = pypdf.PdfReader(BytesIO(to_pdf([page(words)])))
    assert undated.metadata["/CreationDate"].startswith("D:20000101000000")


def test_layers_are_optional_content_by_their_names() -> None:
    """ISO 32000-1, 8.11: OCProperties in the catalog, from PDF 1.5 on. Every layer is shown, in the order of the sheet,
    whatever letters its name is of."""
    names = ["cut", "留め穴", "Rand außen (1)"]
    line = Stroke(CUT, Path([Arc(Point(40, 40), 10.0, 0.0, 3.0)]))
    groups = tuple(Group("layer", name, (line,)) for name in names)
    data = to_pdf([replace(page(), groups=groups), replace(page(), groups=groups[1:])])
    reader = pypdf.PdfReader(BytesIO(data))
    listed = reader.trailer["/Root"]["/OCProperties"]
    assert [group.get_object()["/Name"] for group in listed["/OCGs"]] == names
    assert listed["/D"]["/Order"] == listed["/D"]["/ON"] == listed["/OCGs"]
    assert reader.pdf_header == "%PDF-1.5"
    found = [layers_of_paths(one) for one in pypdfium2.PdfDocument(data)]
    assert found == [names, names[1:]]


def test_a_print_has_no_layers() -> None:
    data = to_pdf([page(Stroke(CUT, Path([Arc(Point(40, 40), 10.0, 0.0, 3.0)])))])
    assert "/OCProperties" not in pypdf.PdfReader(BytesIO(data)).trailer["/Root"]
    assert layers_of_paths(pypdfium2.PdfDocument(data)[0]) == [None]


def test_a_file_is_known_as_ours() -> None:
    assert is_ours(to_pdf([page()]))
    blank = BytesIO()
    writer = pypdf.PdfWriter()
    writer.add_blank_page(100, 100)
    writer.write(blank)
    assert not is_ours(blank.getvalue()) and not is_ours(b"")


@pytest.mark.parametrize("radius", [0.5, 20.0, 1000.0])
def test_arcs_stay_within_a_hundredth_of_a_hundredth(radius: float) -> None:
    """A cubic curve over 30 degrees leaves its circle by 4e-7 of the radius (derived: 2/27 sin^6 / cos^2 of a quarter
    turn's sixth)."""
    arc = Arc(Point(1200.0, 1200.0), radius, 0.3, 2.5)
    drawn = page(Stroke(CUT, Path((arc,))), wide=2500, high=2500)
    (line,) = read_pdf(to_pdf([drawn]))[0].lines
    assert line.measures.length == pytest.approx(arc.length, abs=0.002)
    off = [abs(Point(x, y).distance_to(arc.center) - radius) for x, y in line.measures.places]
    assert max(off) < 0.001 and 2.5 > PART
