"""PDF files of every kind as Debian's own tools read them: qpdf and poppler.

At a desk without them these tests are left out; where CI is set they must be there.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

import drafting
from drafting.drawing.prints.papers import MARGIN, RULES, WORDS
from drafting.lay import Limits
from tests.drawing.rosters import CHOIR, FOLDER
from tests.patterns.starters import starter_path

DOTS_AN_INCH = 254
"""Ten dots to the mm."""


def starter(name: str) -> drafting.PlacedPattern:
    return drafting.load(starter_path(name)).place()


def lay() -> bytes:
    order = [(starter("key-fob"), 2)]
    laid = drafting.lay_order(order, panel=(300, 300, None), stocks=["body"], limits=Limits(steps=1))
    return laid.prints().to_pdf()


def cards(folder: Path) -> bytes:
    for name, text in (("folder.draft", FOLDER), ("choir.csv", CHOIR)):
        (folder / name).write_text(text, encoding="utf-8")
    return drafting.load(folder / "folder.draft").roster(folder / "choir.csv").cards_pdf()


KINDS: dict[str, Callable[[Path], bytes]] = {
    "print": lambda _: starter("hatch-tag").prints().to_pdf(),
    "booklet": lambda _: starter("coin-pouch").booklet().to_pdf(),
    "template": lambda _: starter("key-fob").templates(["tag"])[0].to_pdf(),
    "cards": cards,
    "lay": lambda _: lay(),
}
ON_A4 = ("print", "cards", "lay")
"""Those whose sheets carry scales."""


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("outside")
    for kind, write in KINDS.items():
        (folder / f"{kind}.pdf").write_bytes(write(folder))
    return {kind: folder / f"{kind}.pdf" for kind in KINDS}


def tool(name: str, *words: str) -> str:
    if shutil.which(name) is None and not os.environ.get("CI"):
        pytest.skip(f"{name} is not installed")
    done = subprocess.run([name, *words], check=True, capture_output=True, text=True)
    assert done.stderr == ""
    return done.stdout


@pytest.mark.parametrize("kind", KINDS)
def test_qpdf_finds_no_fault(written: dict[str, Path], kind: str) -> None:
    assert "No syntax or stream encoding errors found" in tool("qpdf", "--check", str(written[kind]))


@pytest.mark.parametrize("kind", KINDS)
def test_poppler_finds_all_fonts_embedded(written: dict[str, Path], kind: str) -> None:
    """A template has no letters but those that are engraved as lines."""
    rows = tool("pdffonts", str(written[kind])).splitlines()[2:]
    assert bool(rows) == (kind != "template") and all(re.search(r" yes +yes +yes ", row) for row in rows)


def shown(file: Path) -> tuple[int, int, bytes]:
    """The first page in grey: how wide and high, and its dots row by row."""
    dots = ("-r", str(DOTS_AN_INCH), "-gray", "-singlefile")
    tool("pdftoppm", *dots, str(file), str(file.with_suffix("")))
    kind, size, _, shades = file.with_suffix(".pgm").read_bytes().split(b"\n", 3)
    wide, high = map(int, size.split())
    assert kind == b"P5"
    return wide, high, shades


@pytest.mark.parametrize("kind", ON_A4)
def test_poppler_shows_100_mm_as_long_as_they_are(written: dict[str, Path], kind: str) -> None:
    """A line of dots across the ticks of the millimetres, half a mm off the rule: from the first to the last 100 mm."""
    wide, high, dots = shown(written[kind])
    assert (wide, high) == pytest.approx((2100, 2970), abs=1)
    row = high - 1 - round((MARGIN + WORDS + RULES / 2 - 1.0) * 10)
    line = dots[row * wide : (row + 1) * wide]
    zero = (MARGIN + RULES) * 10
    dark = [at for at, shade in enumerate(line) if shade < 128 and zero - 10 < at < zero + 1010]
    assert (dark[0] + 1, dark[-1]) == pytest.approx((zero, zero + 1000), abs=2)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ON_A4])
def test_poppler_shows_what_was_drawn(written: dict[str, Path], kind: str) -> None:
    """Ink on the page, and white all round it."""
    wide, high, dots = shown(written[kind])
    rows = [dots[row * wide : (row + 1) * wide] for row in range(high)]
    dark = [row for row, line in enumerate(rows) if min(line) < 128]
    assert dark and dark[0] > 20 and dark[-1] < high - 20
    assert all(min(line[:20]) == min(line[-20:]) == 255 for line in rows)
