"""A DXF opened in parts tells what a DXF opened whole tells."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from drafting.drawing.machine import LAYERS
from drafting.drawing.marks import Drawing, Group, Stroke
from drafting.geometry.arc import Arc
from drafting.geometry.curves import box, circle
from drafting.geometry.line import Line
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.output.dxf import to_dxf
from drafting.output.dxf_frame import RELEASES, Release
from drafting.proof import dxf_parts
from drafting.proof.machine import faults_in_dxf
from drafting.proof.read_dxf import KINDS, read_dxf


def drawn(width: float = 90.0) -> Drawing:
    bow = Arc(Point(30, 30), 12.0, 0.3, -2.0)
    ways = (box(Point(40, 30), 60, 40, 0.2, 4), circle(Point(12, 12), 3), Path((bow,)))
    line = Path((Line(Point(20, 20), Point(60, 20)),))
    groups = (
        Group("layer", "engrave", (Stroke(LAYERS["engrave"].kind, line),)),
        Group("layer", "cut", tuple(Stroke(LAYERS["cut"].kind, way) for way in ways)),
    )
    return Drawing("Oar tag", "", width, 70.0, "layers", 1.0, groups, "made from x")


def is_opened_in_parts(data: bytes) -> bool:
    return dxf_parts._in_parts(data, KINDS) is not None


@pytest.mark.parametrize("release", RELEASES)
def test_parts_tell_what_the_whole_tells(release: Release, monkeypatch: pytest.MonkeyPatch) -> None:
    data = to_dxf(drawn(), LAYERS, release)
    assert is_opened_in_parts(data)
    parts = read_dxf(data)
    monkeypatch.setattr(dxf_parts, "_in_parts", lambda data, kinds: None)
    whole = read_dxf(data)
    told = [
        [(line.layer, line.measures.box, line.measures.length) for line in one.lines]
        for one in (parts, whole)
    ]
    assert told[0] == told[1] and len(told[0]) == len(drawn().groups[1].marks) + (
        1 if release == "R2010" else 8
    )
    assert (parts.is_old, parts.unit, parts.faults) == (whole.is_old, whole.unit, whole.faults)


@pytest.mark.parametrize("release", RELEASES)
def test_files_of_one_kind_have_one_frame(release: Release) -> None:
    dxf_parts._frame.cache_clear()
    for many in (1, 5, 40):
        group = Group(
            "layer",
            "cut",
            tuple(Stroke(LAYERS["cut"].kind, circle(Point(9, 9), 1 + at)) for at in range(many)),
        )
        drawing = Drawing("Oar tag", "", 90.0, 90.0, "layers", 1.0, (group,), f"made from {many}")
        assert faults_in_dxf(to_dxf(drawing, LAYERS, release), drawing) == []
    assert dxf_parts._frame.cache_info().misses == 1


def second_handle_like_the_first(data: bytes) -> bytes:
    entities = data.index(dxf_parts.BEGIN)
    first, second = re.findall(rb"\n  5\n([0-9A-F]+)\n", data[entities:])[:2]
    return data[:entities] + data[entities:].replace(b"\n  5\n" + second, b"\n  5\n" + first, 1)


def handle_of_a_layer(data: bytes) -> bytes:
    entities = data.index(dxf_parts.BEGIN)
    taken = re.findall(rb"\nLAYER\n  5\n([0-9A-F]+)\n", data)[-1]
    return data[:entities] + re.sub(
        rb"(\n  5\n)[0-9A-F]+\n", rb"\g<1>" + taken + b"\n", data[entities:], count=1
    )


def on_a_layer_of_no_name(data: bytes) -> bytes:
    entities = data.index(dxf_parts.BEGIN)
    return data[:entities] + data[entities:].replace(b"\ncut\n", b"\n<cut>\n", 1)


def line_in_words(data: bytes) -> bytes:
    return data.replace(b"  0\nCIRCLE\n", b"  0\nTEXT\n", 1)


def circle_on_paper(data: bytes) -> bytes:
    """Code 67 puts it into the space of the page (DXF Reference, common group codes)."""
    return re.sub(
        rb"(  0\nCIRCLE\n  5\n[0-9A-F]+\n)(?:330\n[0-9A-F]+\n)?((?:100\nAcDbEntity\n)?)",
        rb"\1\2 67\n1\n",
        data,
    )


@pytest.mark.parametrize("release", RELEASES)
@pytest.mark.parametrize(
    "spoil",
    [second_handle_like_the_first, handle_of_a_layer, on_a_layer_of_no_name, line_in_words, circle_on_paper],
)
def test_what_is_amiss_is_told_by_the_whole(release: Release, spoil: Callable[[bytes], bytes]) -> None:
    data = to_dxf(drawn(), LAYERS, release)
    false = spoil(data)
    assert false != data and not is_opened_in_parts(false)
    assert faults_in_dxf(false, drawn())


def test_a_seed_below_the_handles_is_no_short_way() -> None:
    data = to_dxf(drawn(), LAYERS)
    assert not is_opened_in_parts(re.sub(rb"(\$HANDSEED\n  5\n)[0-9A-F]+", rb"\g<1>2F", data))
