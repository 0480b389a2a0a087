"""Reference values of areas A (contents and papers) and C (drawings and files): what no other test of this folder asks.

Each check names its value and its source, and how the source was reached. Where the tool does otherwise on purpose,
the check says why.
"""

from __future__ import annotations

import re
from io import BytesIO, StringIO
from itertools import pairwise
from math import ceil, pi
from pathlib import Path

import ezdxf
import pypdf
import pytest
from ezdxf import units
from ezdxf.math import arc_to_bulge, bulge_to_arc

from drafting import face
from drafting.craft.contents import content_named
from drafting.drawing.machine import LAYERS
from drafting.drawing.marks import Drawing, Group, Stroke
from drafting.drawing.prints import PrintFacts, paper_called, print_sheets
from drafting.drawing.prints.parcels import HEAD
from drafting.drawing.prints.tiling import OVERLAP, count, tile
from drafting.geometry.curves import box, circle
from drafting.geometry.point import Point
from drafting.output.dxf import to_dxf
from drafting.output.pdf import to_pdf
from drafting.text.source import Source
from tests.drawing.samples import piece, placed

FOLDER = Path(__file__).parent
VALUES = [*(f"A-{number:02}" for number in range(1, 10)), *(f"C-{number:02}" for number in range(1, 18))]


@pytest.mark.parametrize("value", VALUES)
def test_every_value_is_asked_for_by_its_name(value: str) -> None:
    """In a test's name (`test_c07_…`, `test_a_01_to_a_09_…`) or its docstring, with the source beside it."""
    letter, number = value.split("-")
    named = re.compile(rf"def test_{letter.lower()}_?{number}_|\b{value}\b")
    others = (path for path in sorted(FOLDER.glob("test_*.py")) if path.name != Path(__file__).name)
    here = Path(__file__).read_text(encoding="utf-8").split("VALUES", 2)[2]
    assert any(named.search(text) for text in (here, *(path.read_text(encoding="utf-8") for path in others)))


@pytest.mark.parametrize(
    ("held", "ease", "deep"),
    [("passport", "2 mm", 90.0), ("50 euro note", "3 mm", 80.0), ("US dollar note", "1/8 in", 69.469)],
)
def test_a_04_and_a_09_a_pocket_takes_its_content_and_ease(held: str, ease: str, deep: float) -> None:
    """A-04: ICAO Doc 9303-4 (second-hand). A-09: the tallest note and its ease, in mixed units; ECB/2003/4 (looked up),
    Bureau of Engraving and Printing (second-hand)."""
    text = (
        f'content held: "{held}"; {ease} ease\n'
        "piece pocket\n  outline: box held.long + held.ease by held.wide + held.ease\n"
    )
    pattern = face.read(Source("pocket.draft", text))
    assert not pattern.messages.has_errors, [message.says for message in pattern.messages]
    assert pattern.place().measure("pocket.height").value == pytest.approx(deep, abs=1e-9)


def test_a_08_visiting_cards_by_region() -> None:
    """Common practice, no source (independent lists agree). The 91 mm of Japan are 3 sun, 90.909 mm, rounded (derived)."""
    regions = {
        "western Europe": (85, 55), "US and Canada": (88.9, 50.8), "Japan": (91, 55), "China": (90, 54),
        "Australia": (90, 55), "Scandinavia": (90, 55), "eastern Europe": (90, 50),
    }  # fmt: skip
    found = {region: content_named(f"visiting card, {region}") for region in regions}
    assert {region: (one.long, one.wide) for region, one in found.items()} == {
        region: pytest.approx(sides) for region, sides in regions.items()
    }
    assert round(3 * 1000 / 33) == regions["Japan"][0]


def sheet_of(*ways: object) -> Drawing:
    strokes = tuple(Stroke(LAYERS["cut"].kind, way) for way in ways)  # type: ignore[arg-type]
    return Drawing("sheet", "", 100.0, 100.0, "layers", 1.0, (Group("layer", "cut", strokes),))


def test_c_14_a_unit_of_a_page_is_a_72nd_of_an_inch() -> None:
    """ISO 32000-1 (default of UserUnit and the limit of 14 400 units looked up, clauses from memory): 100 mm are
    283.464567 pt."""
    page = pypdf.PdfReader(BytesIO(to_pdf([sheet_of(circle(Point(50, 50), 20))]))).pages[0]
    assert [float(side) for side in page.mediabox] == pytest.approx([0, 0, 283.464567, 283.464567], abs=1e-3)
    assert page.get("/UserUnit", 1) == 1
    assert 14_400 * 25.4 / 72 == pytest.approx(5080)


def test_c_15_bulges_are_those_of_an_outside_reader() -> None:
    """DXF Reference, LWPOLYLINE, group 42 (looked up): tangent of a quarter of the angle; the reckoning is ezdxf's. A
    whole circle would be two vertices of bulge 1. The tool writes a CIRCLE instead, on purpose: every reader knows it,
    and a cutter follows it without a seam."""
    for angle, bulge in ((30, 0.131652), (90, 0.414214), (180, 1.0), (270, 2.414214)):
        start, end, written = arc_to_bulge((0, 0), 0, angle * pi / 180, 20)
        assert written == pytest.approx(bulge, abs=5e-7)
        assert bulge_to_arc(start, end, written)[3] == pytest.approx(20)
    document = ezdxf.read(StringIO(to_dxf(sheet_of(circle(Point(50, 50), 20)), LAYERS).decode()))
    (entity,) = document.modelspace()
    assert (entity.dxftype(), entity.dxf.radius) == ("CIRCLE", 20)


def test_c_16_millimetres_are_declared() -> None:
    """DXF Reference, HEADER (looked up): $INSUNITS 4 is mm; ezdxf starts with 6, metres, unless it is told."""
    codes = {"in": units.IN, "ft": units.FT, "mm": units.MM, "cm": units.CM, "m": units.M}
    assert codes == {"in": 1, "ft": 2, "mm": 4, "cm": 5, "m": 6}
    assert ezdxf.new().header["$INSUNITS"] == units.M
    header = ezdxf.read(StringIO(to_dxf(sheet_of(circle(Point(50, 50), 20)), LAYERS).decode())).header
    assert (header["$INSUNITS"], header["$MEASUREMENT"]) == (units.MM, 1)


def test_c_17_tiles_of_a4_for_a_piece_of_500_by_400_mm() -> None:
    """Derived: with 190 by 277 mm printable and 10 mm of overlap 3 by 2 sheets, or 2 by 3 lying.

    The tool's own A4 has less room on purpose, for rules in both directions and words stand beside the tiles; the
    formula is the same, and every place of the piece lies on some tile, overlapping its neighbours by 10 mm."""
    assert (count(500, 190), count(400, 277), count(500, 277), count(400, 190)) == (3, 2, 2, 3)
    ring = box(Point(250, 200), 500, 400)
    tiles = tile(ring, ring.bounds, 190, 277).tiles
    assert len(tiles) == 6
    for x in range(0, 501, 10):
        assert all(any(one.window.contains(Point(x, y)) for one in tiles) for y in range(0, 401, 10))
    columns = sorted({(one.window.min_x, one.window.max_x) for one in tiles})
    assert [left[1] - right[0] for left, right in pairwise(columns)] == [OVERLAP] * 2 == [10, 10]
    room = paper_called("a4").room
    sheets = print_sheets(
        placed("Loft tool roll", [piece("roll", ring)]), paper_called("a4"), ["roll"], PrintFacts("0")
    )
    printed = sum(len(sheet.drawing.find("tile")) for sheet in sheets)
    upright, lying = (
        ceil((wide + 2 - 10) / (room.width - 10)) * ceil((high + 2 - 10) / (room.height - HEAD - 10))
        for wide, high in ((500, 400), (400, 500))
    )
    assert printed == min(upright, lying)
