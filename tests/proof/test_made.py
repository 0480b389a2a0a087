"""What a file says it was made from survives every format, and nothing else passes for it."""

from __future__ import annotations

import pytest

from drafting.drawing.booklet import Booklet
from drafting.drawing.machine import LAYERS
from drafting.drawing.marks import Drawing
from drafting.drawing.record import Record, record_of
from drafting.output.booklet_html import booklet_to_html
from drafting.output.dxf import to_dxf
from drafting.output.layers_svg import layers_to_svg
from drafting.output.pdf import to_pdf
from drafting.output.svg import to_svg
from drafting.proof.made import kind_of, record_in

RECORD = Record(
    "print",
    'Étui -- "夏" <tag>.draft',
    "0123abcd",
    "1.0",
    "34 inch",
    {"rim": "1 1/2 in", "tie": 12.5},
    True,
    {"pieces": ["غطاء", "--front--"] * 30, "copies": None},
)
DRAWING = Drawing("title", "", 210.0, 297.0, "a4", 1.0, (), RECORD.line)

WRITTEN = {
    "pdf": to_pdf([DRAWING]),
    "svg": to_svg(DRAWING).encode(),
    "html": booklet_to_html(Booklet("title", (), "", (), RECORD.line)).encode(),
}
LAYERED = {
    "svg of layers": layers_to_svg(DRAWING, LAYERS),
    "dxf": to_dxf(DRAWING, LAYERS),
    "old dxf": to_dxf(DRAWING, LAYERS, "R12"),
}


@pytest.mark.parametrize("kind", [*WRITTEN, *LAYERED])
def test_a_record_is_read_as_it_was_written(kind: str) -> None:
    data = {**WRITTEN, **LAYERED}[kind]
    assert record_in(data) == RECORD
    assert kind_of(data) in kind


def test_line_ends_of_another_system_change_nothing() -> None:
    assert record_in(LAYERED["dxf"].replace(b"\n", b"\r\n")) == RECORD


@pytest.mark.parametrize(
    "line",
    ["", "Awlwright made this from ", 'Awlwright made this from {"what":"print"}', RECORD.line[:-9], "[]"],
)
def test_half_a_record_is_none(line: str) -> None:
    assert record_of(line) is None


@pytest.mark.parametrize(
    "data", [b"", b"no file", b"%PDF-1.4", b"<svg></svg>", b"0\nSECTION\n", b"\xff\xfe\x00"]
)
def test_other_files_have_none(data: bytes) -> None:
    assert record_in(data) is None
