"""Reference values of area I: what the libraries that judge our work are good for, and where each of them errs.

A test elsewhere trusts these libraries only as far as is shown here. Each figure was measured with the library at hand;
what it should be is derived, or stands in the standard named beside it. Where it can be, our own number is held to the
truth by the library's side.
"""

from __future__ import annotations

import re
import struct
from io import BytesIO, StringIO
from math import acos, asin, cos, pi, sin, sqrt
from pathlib import Path

import ezdxf
import pypdf
import pypdfium2
import pytest
import resvg_py
import scipy.optimize
import shapely
import spyrrow
import svgelements
import sympy
from ezdxf import units
from ezdxf.math import bulge_to_arc
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.pdfgen.canvas import Canvas

import drafting
from drafting.drawing.font_file import font_files
from drafting.drawing.lettering import natural_width
from drafting.geometry.curves import box, circle
from drafting.geometry.offset import offset_ring
from drafting.geometry.point import Point
from drafting.lay import Limits, lay_out, roll
from drafting.text.source import Source
from tests.lay.shapes import kind, ring

FOLDER = Path(__file__).parent
VALUES = [*(f"I-{number:02}" for number in range(1, 15)), "I-20", "I-21"]
NOT_TAKEN = {
    "I-11": "graph counts decide nothing here: whether a drawing is held is told by the rank of its equations",
    "I-12": "it knows no ounce of leather and no French inch; units are held to the laws that define them (area B)",
}


@pytest.mark.parametrize("value", VALUES)
def test_every_value_is_asked_for_by_its_name(value: str) -> None:
    """In a test's name or its docstring; or why the library is not among those of the tests."""
    text = "".join(path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("test_*.py")))
    _, _, here = text.partition("NOT_TAKEN = ")
    named = re.compile(rf"def test_{value[0].lower()}_{value[2:]}_|\"\"\"{value}\b")
    assert named.search(here) or named.search(text) or value in NOT_TAKEN


@pytest.mark.parametrize("segments, short", [(16, 1.6e-3), (64, 1.0e-4), (256, 6.3e-6), (1024, 3.9e-7)])
def test_i_01_a_circle_of_shapely_is_short_by_a_known_part(segments: int, short: float) -> None:
    """An inscribed polygon of N = 4 · segments sides lacks 1 − (N / 2π) sin(2π / N) of the area (derived); ours lacks
    nothing."""
    radius, sides = 10.0, 4 * segments
    theirs = shapely.Point(0, 0).buffer(radius, quad_segs=segments)
    lacks = 1 - theirs.area / (pi * radius**2)
    assert lacks == pytest.approx(1 - sides / (2 * pi) * sin(2 * pi / sides), rel=1e-6)
    assert lacks == pytest.approx(short, rel=0.03)
    assert circle(Point(0, 0), radius).area == pytest.approx(pi * radius**2, rel=1e-14)
    if segments == 64:
        assert radius * (1 - cos(pi / sides)) == pytest.approx(7.5e-4, rel=0.01)


def test_i_02_arcs_of_svgelements_are_exact_but_not_the_degenerate_ones() -> None:
    """SVG 2, section 9.5.1: an arc without a radius is a straight line, here it has no length. A mm is 96 / 25.4 px."""
    assert svgelements.Path("M 0,0 A 10,10 0 0 1 20,0").length() == pytest.approx(10 * pi, rel=1e-12)
    assert svgelements.Path("M 0,0 A 0,0 0 0 1 20,0").length() == 0
    off = svgelements.Length("1mm").value(ppi=96) / (96 / 25.4) - 1
    assert off == pytest.approx(5.4e-7, rel=0.01)


def test_i_03_what_ezdxf_writes_and_reads_of_units_and_arcs() -> None:
    """Unit codes 4 (mm) and 6 (m) of the DXF reference's $INSUNITS, which its R12 does not have."""
    old = StringIO()
    ezdxf.new("R12").write(old)
    assert "$INSUNITS" not in old.getvalue()
    assert ezdxf.new("R2010").units == 6
    off = units.conversion_factor(units.InsertUnits.Inches, units.InsertUnits.Millimeters) / 25.4 - 1
    assert 0 < abs(off) < 5e-12
    for bulge in (1.0, -1.0):
        _, start, end, radius = bulge_to_arc((0, 0), (1, 0), bulge)
        assert radius == pytest.approx(0.5) and (end - start) % (2 * pi) == pytest.approx(pi)


@pytest.fixture(scope="module")
def page() -> bytes:
    """A4 by ReportLab, with two marks 100 mm apart, each a disc 2 mm across."""
    made = BytesIO()
    canvas = Canvas(made, pagesize=(210 / 25.4 * 72, 297 / 25.4 * 72))
    for across in (50, 150):
        canvas.circle(across / 25.4 * 72, 100 / 25.4 * 72, 1 / 25.4 * 72, stroke=0, fill=1)
    canvas.save()
    return made.getvalue()


def test_i_04_a_page_is_read_to_four_decimals(page: bytes) -> None:
    """ISO 216: A4 is 210 × 297 mm, 595.27559… × 841.88976… pt; the writer rounds."""
    sheet = pypdf.PdfReader(BytesIO(page)).pages[0].mediabox
    assert (float(sheet.width), float(sheet.height)) == (595.2756, 841.8898)


@pytest.mark.parametrize("dpi, pixels", [(300, (2481, 3508)), (254, (2100, 2971))])
def test_i_05_a_page_in_pixels_is_stretched_to_whole_ones(
    page: bytes, dpi: int, pixels: tuple[int, int]
) -> None:
    """Rounded up, so a length is measured by the true scale, pixels over points, and between the middles of marks. They
    are discs: of an upright box every pixel that it touches is inked, which may move its middle by half a pixel."""
    sheet = pypdfium2.PdfDocument(page)[0]
    seen = sheet.render(scale=dpi / 72, grayscale=True).to_numpy().reshape(pixels[1], pixels[0])
    assert (seen.shape[1], seen.shape[0]) == pixels
    ink = (255.0 - seen).sum(axis=0)
    middle = pixels[0] // 2
    left, right = ((half * range(len(half))).sum() / half.sum() for half in (ink[:middle], ink[middle:]))
    apart = right + middle - left
    assert apart * sheet.get_width() / pixels[0] / 72 * 25.4 == pytest.approx(100, abs=0.01)
    assert pixels[0] / (sheet.get_width() / 72) / dpi == pytest.approx(
        {254: 1.0, 300: 1.00028}[dpi], abs=1e-5
    )


def test_i_06_a_picture_needs_its_dots_per_inch() -> None:
    """254 dots per inch are ten a mm: 100 mm are 1000."""
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="10mm" viewBox="0 0 100 10">'
        '<rect width="100" height="10"/></svg>'
    )

    def width(dpi: int) -> int:
        return int(struct.unpack(">I", bytes(resvg_py.svg_to_bytes(svg_string=svg, dpi=dpi))[16:20])[0])

    assert (width(254), width(96)) == (1000, 378)
    with pytest.raises(ValueError, match="invalid size"):
        resvg_py.svg_to_bytes(svg_string=svg)


TWO_CIRCLES = """\
pattern "Oar tag"
measure near = 50 mm
measure far = 70 mm
piece tag:
  point a: at (0, 0)
  point b: at (80 mm, 0)
  point top: near from a; far from b; above a
  outline: a to b to top
"""


def both_roots() -> tuple[float, float]:
    """Where circles of 50 about (0, 0) and of 70 about (80, 0) meet, above, by the theorem of cosines."""
    across = (50**2 + 80**2 - 70**2) / 160
    return across, sqrt(50**2 - across**2)


def test_i_07_scipy_finds_the_root_it_starts_near() -> None:
    """So the start is given, and the mirrored root is looked for, too."""

    def off(at: list[float]) -> list[float]:
        x, y = at
        return [x**2 + y**2 - 50**2, (x - 80) ** 2 + y**2 - 70**2]

    x, y = both_roots()
    for start, side in (([30.0, 40.0], 1.0), ([30.0, -40.0], -1.0)):
        assert scipy.optimize.fsolve(off, start) == pytest.approx([x, side * y], abs=1e-9)
    assert scipy.optimize.brentq(lambda angle: 50 * cos(angle) - x, 0, pi) == pytest.approx(acos(x / 50))


def test_i_08_thirty_digits_of_a_chord() -> None:
    """The pitch straight across of 4 mm along an arc of 6 mm, and the other way (F-07), by sympy's mpmath: ours are
    right to the last bits."""
    chord = sympy.N(12 * sympy.sin(sympy.Rational(1, 3)), 30)
    along = sympy.N(12 * sympy.asin(sympy.Rational(1, 3)), 30)
    assert str(chord)[:8] == "3.926336" and str(along)[:8] == "4.078042"
    assert 12 * sin(1 / 3) == pytest.approx(float(chord), rel=1e-15)
    assert 12 * asin(1 / 3) == pytest.approx(float(along), rel=1e-15)


def test_i_09_sympy_has_the_surds_and_so_have_we() -> None:
    """Both places of a small system exactly; a text of ours is placed at the upper."""
    x, y = sympy.symbols("x y", real=True)
    roots = sympy.solve([x**2 + y**2 - 2500, (x - 80) ** 2 + y**2 - 4900], [x, y])
    assert sorted(roots) == [(25, -25 * sympy.sqrt(3)), (25, 25 * sympy.sqrt(3))]
    top = drafting.read(Source("tag.draft", TWO_CIRCLES)).place().pieces["tag"].points["top"]
    assert (top.x, top.y) == pytest.approx((25, 25 * sqrt(3)), abs=1e-12)


def test_i_10_letters_are_measured_in_the_very_font_that_is_embedded() -> None:
    """The capital of its table OS/2 and the ink of an H are one height; our widths are those of its table hmtx."""
    font = TTFont(font_files()[0])
    glyphs, names = font.getGlyphSet(), font.getBestCmap()
    pen = BoundsPen(glyphs)
    glyphs[names[ord("H")]].draw(pen)
    assert pen.bounds is not None and pen.bounds[3] == font["OS/2"].sCapHeight
    units_wide = sum(font["hmtx"][names[ord(letter)]][0] for letter in "Tailstock")
    assert natural_width("Tailstock", 5.0) == pytest.approx(
        units_wide / font["OS/2"].sCapHeight * 5.0, rel=1e-3
    )


@settings(max_examples=10)
@given(st.floats(20, 200), st.floats(20, 200), st.floats(0.1, 4), st.floats(0.1, 4))
def test_i_13_an_outline_set_farther_out_holds_the_nearer(
    wide: float, high: float, near: float, more: float
) -> None:
    """A property that hypothesis searches to break: with `geometry.offset`, against shapely's one-sided answer."""
    plain = box(Point(0, 0), wide, high)
    first, second = (offset_ring(plain, out) for out in (near, near + more))
    assert plain.area < first.area < second.area
    corners = [(leg.start.x, leg.start.y) for leg in plain.legs]
    theirs = shapely.Polygon(corners).buffer(near, join_style="mitre")
    assert first.area == pytest.approx(theirs.area)


def test_i_14_a_strip_of_spyrrow_is_no_optimum() -> None:
    """Eight parts of 50 × 30 need 120 of a strip 100 high (by their areas); whatever is found is no shorter, and ours
    is no longer than by a part."""
    part = [(0.0, 0.0), (50.0, 0.0), (50.0, 30.0), (0.0, 30.0)]
    item = spyrrow.Item("part", part, demand=8, allowed_orientations=[0.0, 90.0])
    config = spyrrow.StripPackingConfig(
        early_termination=True, total_computation_time=1, num_workers=1, seed=1
    )
    found = spyrrow.StripPackingInstance("strip", 100.0, [item]).solve(config)
    assert found.width >= 120 - 1e-3
    ours = lay_out((kind(ring(part), 8, "part"),), [roll(100, 400)], gap=0.0, limits=Limits(steps=10))
    assert 120 - 1e-6 <= ours.length_used(ours.sheets[0]) <= 150
