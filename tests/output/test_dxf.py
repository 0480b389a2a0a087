"""DXF for machines: units, bulges, layers and bytes, read back by ezdxf's reader."""

from __future__ import annotations

import os
import subprocess
import sys
from io import StringIO
from math import degrees, hypot, pi, radians, sin, tan

import ezdxf
import pytest
from ezdxf import decode_dxf_unicode
from ezdxf.math import bulge_to_arc

from drafting.drawing.machine import LAYERS, Layer, layers_set
from drafting.drawing.marks import Drawing, Group, Stroke
from drafting.geometry.arc import Arc
from drafting.geometry.curves import box, circle
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.output.dxf import bulge_of, is_our_dxf, to_dxf
from drafting.output.dxf_frame import RELEASES, Release, frame_of, nearest_index

CUT = LAYERS["cut"]


def drawn(*ways: Path | Ring, layer: Layer = CUT) -> Drawing:
    group = Group("layer", layer.name, tuple(Stroke(layer.kind, way) for way in ways))
    return Drawing("Ferry tag", "", 300.0, 200.0, "layers", 1.0, (group,))


def read(data: bytes) -> ezdxf.document.Drawing:
    return ezdxf.read(StringIO(data.decode()))


def arc(sweep: float, radius: float = 20.0, start: float = 0.3) -> Path:
    return Path((Arc(Point(50, 40), radius, start, sweep),))


def test_the_unit_is_declared() -> None:
    """$INSUNITS 4 is mm; without it a reader may take metres (DXF Reference, HEADER; reference value C-16)."""
    header = read(to_dxf(drawn(circle(Point(5, 5), 2)), LAYERS)).header
    assert header["$INSUNITS"] == 4 and header["$MEASUREMENT"] == 1


@pytest.mark.parametrize("release", RELEASES)
def test_the_audit_is_clean_and_the_bytes_are_the_same(release: Release) -> None:
    drawing = drawn(box(Point(50, 50), 40, 30, 0.2, 4), arc(1.0), circle(Point(9, 9), 3))
    first, again = (to_dxf(drawing, LAYERS, release) for _ in range(2))
    assert first == again and is_our_dxf(first)
    audit = read(first).audit()
    assert not audit.errors and not audit.fixes


@pytest.mark.parametrize(
    ("angle", "bulge"),
    [(30, 0.131652), (45, 0.198912), (90, 0.414214), (120, 0.577350), (180, 1.0), (270, 2.414214)],
)
@pytest.mark.parametrize("turning", [1, -1])
def test_bulges(angle: float, bulge: float, turning: int) -> None:
    """DXF Reference, LWPOLYLINE, group 42: the tangent of a quarter of the angle, negative clockwise, which is twice
    the sagitta over the chord (reference value C-15)."""
    leg = Arc(Point(10, 10), 20.0, 0.4, turning * radians(angle))
    assert bulge_of(leg) == pytest.approx(turning * bulge, abs=5e-7)
    chord = leg.start.distance_to(leg.end)
    sagitta = 20.0 * (1 - sin(pi / 2 - radians(angle) / 2))
    assert abs(bulge_of(leg)) == pytest.approx(2 * sagitta / chord, rel=1e-9)


@pytest.mark.parametrize("sweep", [0.5, -0.5, pi / 2, -pi, 1.4 * pi, -1.4 * pi])
def test_an_arc_of_a_joined_line_is_where_it_was_drawn(sweep: float) -> None:
    """By ezdxf's own reckoning of a bulge, whose arcs always turn anticlockwise."""
    leg = Arc(Point(50, 40), 20.0, 0.3, sweep)
    way = Path((leg, Line(leg.end, leg.end + (leg.end - leg.center))))
    (entity,) = read(to_dxf(drawn(way), LAYERS)).modelspace()
    assert entity.dxftype() == "LWPOLYLINE" and not entity.closed
    (x0, y0, bulge), (x1, y1, _), _ = entity.get_points("xyb")
    center, start, end, radius = bulge_to_arc((x0, y0), (x1, y1), bulge)
    assert (center.x, center.y, radius) == pytest.approx((50, 40, 20), abs=1e-5)
    assert (end - start) % (2 * pi) == pytest.approx(abs(sweep), abs=1e-6)


def test_an_arc_nearly_all_round_is_written_as_two() -> None:
    way = Path((Arc(Point(50, 40), 20.0, 0.0, 1.9 * pi),))
    (entity,) = read(to_dxf(drawn(way), LAYERS)).modelspace()
    assert [round(b, 6) for _, _, b in entity.get_points("xyb")][:2] == [round(tan(1.9 * pi / 8), 6)] * 2


def test_a_closed_line_is_one_closed_polyline() -> None:
    (entity,) = read(to_dxf(drawn(box(Point(50, 50), 40, 30, 0.0, 4)), LAYERS)).modelspace()
    assert entity.dxftype() == "LWPOLYLINE" and entity.closed
    assert len(entity.get_points()) == 8


def test_release_12_has_plain_lines_arcs_and_circles() -> None:
    """As old machines take them; an ARC turns anticlockwise, so one walked clockwise starts at its other end."""
    ways = box(Point(50, 50), 40, 30, 0.0, 4), circle(Point(9, 9), 3), arc(-pi / 2, start=0.0)
    document = read(to_dxf(drawn(*ways), LAYERS, "R12"))
    assert document.dxfversion == "AC1009"
    kinds = [entity.dxftype() for entity in document.modelspace()]
    assert sorted(kinds) == ["ARC"] * 5 + ["CIRCLE"] + ["LINE"] * 4
    last = list(document.modelspace())[-1].dxf
    assert (last.start_angle, last.end_angle) == pytest.approx((270, 0))
    end = last.center.x + last.radius, last.center.y
    assert hypot(end[0] - 70, end[1] - 40) < 1e-6
    assert degrees(pi / 2) == pytest.approx((last.end_angle - last.start_angle) % 360)


@pytest.mark.parametrize("release", RELEASES)
def test_layers_have_their_names_and_colours(release: Release) -> None:
    """In any script; release 12 knows only the colours of its table."""
    layers = layers_set({"cut": {"name": "Снаружи", "color": "#0000ff"}})
    document = read(to_dxf(drawn(circle(Point(5, 5), 2), layer=layers["cut"]), layers, release))
    names = {decode_dxf_unicode(layer.dxf.name): layer for layer in document.layers}
    layer = names["Снаружи"]
    assert layer.color == 5 and (release == "R12" or layer.rgb == (0, 0, 255))
    assert {decode_dxf_unicode(entity.dxf.layer) for entity in document.modelspace()} == {"Снаружи"}


@pytest.mark.parametrize(
    ("color", "index"),
    [((255, 0, 0), 1), ((255, 255, 0), 2), ((0, 255, 0), 3), ((0, 0, 255), 5), ((0, 0, 0), 7)],
)
def test_colours_of_the_table(color: tuple[int, int, int], index: int) -> None:
    """1 red, 2 yellow, 3 green, 5 blue, 7 black or white (AutoCAD Color Index, from memory)."""
    assert nearest_index(color) == index


@pytest.mark.parametrize("seed", ["1", "4"])
def test_another_run_gives_the_same_bytes(seed: str) -> None:
    """ezdxf keeps some of what it writes in sets, whose order differs from run to run: seeds 1 and 4 had two orders."""
    script = (
        "import sys; from drafting.drawing.machine import LAYERS; from drafting.output.dxf_frame import frame_of; "
        "sys.stdout.write(frame_of((LAYERS['cut'],), 'R2010').head)"
    )
    environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)}
    ran = subprocess.run(
        [sys.executable, "-c", script], env=environment, capture_output=True, text=True, check=True
    )
    assert ran.stdout == frame_of((CUT,), "R2010").head and "AcDbLayout" in ran.stdout


def test_nothing_is_ours_but_what_we_wrote() -> None:
    document, held = ezdxf.new("R2010"), StringIO()
    document.write(held)
    assert not is_our_dxf(held.getvalue().encode())
