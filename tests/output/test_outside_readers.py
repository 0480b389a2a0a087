"""PDF files as Debian's own tools read them: qpdf and poppler. At a desk without them these tests are left out."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

import drafting
from drafting.drawing.prints.papers import MARGIN, RULES, WORDS
from tests.patterns.starters import starter_path

DOTS_AN_INCH = 254
"""Ten dots to the mm."""


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("outside") / "tag.pdf"
    path.write_bytes(drafting.load(starter_path("hatch-tag")).place().prints().to_pdf())
    return path


def tool(name: str, *words: str) -> str:
    if shutil.which(name) is None:
        pytest.skip(f"{name} is not installed")
    return subprocess.run([name, *words], check=True, capture_output=True, text=True).stdout


def test_qpdf_finds_no_fault(printed: Path) -> None:
    assert "No syntax or stream encoding errors found" in tool("qpdf", "--check", str(printed))


def test_poppler_finds_all_fonts_embedded(printed: Path) -> None:
    rows = tool("pdffonts", str(printed)).splitlines()[2:]
    assert rows and all(re.search(r" yes +yes +yes ", row) for row in rows)


def test_poppler_shows_100_mm_as_long_as_they_are(printed: Path) -> None:
    """A line of dots across the ticks of the millimetres, half a mm off the rule: from the first to the last 100 mm."""
    tool(
        "pdftoppm",
        "-r",
        str(DOTS_AN_INCH),
        "-gray",
        "-singlefile",
        str(printed),
        str(printed.with_suffix("")),
    )
    kind, size, _, dots = printed.with_suffix(".pgm").read_bytes().split(b"\n", 3)
    wide, high = map(int, size.split())
    assert kind == b"P5" and (wide, high) == pytest.approx((2100, 2970), abs=1)
    row = high - 1 - round((MARGIN + WORDS + RULES / 2 - 1.0) * 10)
    line = dots[row * wide : (row + 1) * wide]
    zero = (MARGIN + RULES) * 10
    dark = [at for at, shade in enumerate(line) if shade < 128 and zero - 10 < at < zero + 1010]
    assert (dark[0] + 1, dark[-1]) == pytest.approx((zero, zero + 1000), abs=2)
