"""A picture is as large as its sheet, and what is drawn is where it should be."""

from __future__ import annotations

import struct
import zlib

import numpy as np
import pytest

from drafting.drawing import Drawing, overview
from drafting.drawing.font_file import font_files
from drafting.drawing.lines import CUT
from drafting.drawing.marks import Group, Lettering, Stroke
from drafting.geometry.curves import circle
from drafting.geometry.point import Point
from drafting.output.png import needs_more_fonts, to_png
from drafting.output.svg import to_svg
from tests.drawing.samples import scripts, tiny


def pixels(png: bytes) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """How dark each pixel of an 8-bit RGBA picture is, 0 to 1, read without any picture library."""
    width, height, depth, color = struct.unpack(">IIBB", png[16:26])
    assert (depth, color) == (8, 6)
    data, place = b"", 8
    while place < len(png):
        size, kind = struct.unpack(">I4s", png[place : place + 8])
        data += png[place + 8 : place + 8 + size] if kind == b"IDAT" else b""
        place += size + 12
    raw = np.frombuffer(zlib.decompress(data), dtype=np.uint8).reshape(height, 1 + 4 * width)
    return 1 - unfiltered(raw, 4).reshape(height, width, 4)[:, :, 0] / 255


def unfiltered(raw: np.ndarray, step: int) -> np.ndarray:  # type: ignore[type-arg]
    """Undoes the five filters of PNG, row by row."""
    rows = np.zeros((raw.shape[0] + 1, raw.shape[1] - 1), dtype=np.int64)
    for index, line in enumerate(raw):
        above, row = rows[index], line[1:].astype(np.int64)
        if line[0] == 2:
            row = (row + above) % 256
        elif line[0] in (1, 3, 4):
            row = slowly_unfiltered(int(line[0]), row, above, step)
        rows[index + 1] = row
    return rows[1:]


def slowly_unfiltered(kind: int, row: np.ndarray, above: np.ndarray, step: int) -> np.ndarray:  # type: ignore[type-arg]
    out = row.tolist()
    up = above.tolist()
    for at in range(len(out)):
        left = out[at - step] if at >= step else 0
        corner = up[at - step] if at >= step else 0
        if kind == 1:
            out[at] = (out[at] + left) % 256
        elif kind == 3:
            out[at] = (out[at] + (left + up[at]) // 2) % 256
        else:
            guess = left + up[at] - corner
            nearest = min(
                (abs(guess - left), 0, left),
                (abs(guess - up[at]), 1, up[at]),
                (abs(guess - corner), 2, corner),
            )
            out[at] = (out[at] + nearest[2]) % 256
    return np.array(out)


def test_a_hundred_millimetres_are_a_thousand_pixels() -> None:
    """Between the centroids of two marks 100 mm apart, at the default 254 dots an inch."""
    marks = tuple(Stroke(CUT, circle(Point(x, 20), 1.5), is_filled=True) for x in (15.3, 115.3))
    drawing = Drawing("marks", "", 130, 40, "own", 1.0, (Group("test", "test", marks),))
    dark = pixels(to_png(to_svg(drawing)))
    assert dark.shape == (400, 1300)
    columns = np.arange(1300) + 0.5
    centers = []
    for low, high in ((0, 650), (650, 1300)):
        half = dark[:, low:high].sum(axis=0)
        centers.append(float((half * columns[low:high]).sum() / half.sum()))
    assert centers[1] - centers[0] == pytest.approx(1000, abs=0.1)
    assert centers[0] == pytest.approx(153, abs=0.1)


def test_capitals_are_as_high_as_asked() -> None:
    """An H of 20 mm is 200 pixels high in the picture."""
    drawing = Drawing(
        "H", "", 60, 40, "own", 1.0, (Group("test", "test", (Lettering("H", Point(30, 10), 20.0),)),)
    )
    rows = np.flatnonzero(pixels(to_png(to_svg(drawing))).max(axis=1) > 0.5)
    assert rows[-1] - rows[0] + 1 == pytest.approx(200, abs=1)


def test_a_diameter_sign_is_drawn() -> None:
    """Arimo lacks it; what is drawn is not the box of a missing letter."""

    def picture(text: str) -> bytes:
        group = Group("test", "test", (Lettering(text, Point(20, 10), 10.0),))
        return to_png(to_svg(Drawing("sign", "", 40, 30, "own", 1.0, (group,))))

    assert picture("⌀") == picture("Ø") != picture("O")


def test_fonts_of_the_machine_are_read_only_when_needed() -> None:
    assert len(font_files()) == 1
    assert not needs_more_fonts(to_svg(overview(tiny())))
    assert needs_more_fonts(to_svg(overview(scripts())))
    assert to_png(to_svg(overview(scripts())), dpi=50).startswith(b"\x89PNG")


def test_coarser_pictures_are_smaller() -> None:
    svg = to_svg(overview(tiny()))
    assert struct.unpack(">II", to_png(svg, dpi=25.4)[16:24]) == (210, 297)
