"""`awlwright sizes`: all sizes side by side, swept, and drawn over each other."""

from __future__ import annotations

import csv
import io
import json
import re
from pathlib import Path

import pytest

import drafting
from tests.cli.conftest import Run
from tests.cli.patterns import LOOSE, TWO_SIZES

SEWN = """\
pattern "Reading room tag"
measure wide = 40 mm between 30 mm and 60 mm
measure high = 90 mm
size "slim": as written
size "broad": wide = 60 mm
stock body: leather; 2 mm thick
piece tag: cut 1 from body
  outline: box wide by high
  stitch edge: 4 mm inside outline; every 2 mm
piece back: like tag; cut 1 from body
join tag.edge with back.edge
check wide <= high/2 + 15 mm "slim"
"""


@pytest.fixture
def tag(folder: Path) -> str:
    (folder / "tag.draft").write_text(SEWN, encoding="utf-8")
    return "tag.draft"


def test_few_sizes_stand_side_by_side(run: Run, tag: str) -> None:
    """Of a box 40 by 90 less 4 mm all round 32 mm are 16 pitches and 82 mm are 41: 114 stitches."""
    ran = run("sizes", tag)
    assert (ran.code, ran.err) == (0, "")
    rows = [re.split(r"\s{2,}", line.strip()) for line in ran.out.splitlines()]
    assert rows[:4] == [
        ["Reading room tag: 2 sizes"],
        ["slim", "broad"],
        ["wide", "40", "60"],
        ["tag", "40 × 90", "60 × 90"],
    ]
    assert ["tag.edge, stitches", "114", "134"] in rows
    assert ["body, dm²", "0.72", "1.08"] in rows
    assert ["The same in all: high 90."] in rows


def test_a_sweep_has_a_row_for_each_value(run: Run, tag: str) -> None:
    ran = run("sizes", tag, "--size", "slim", "--with", "wide=35mm..65mm/5mm", "--format", "csv")
    rows = list(csv.DictReader(io.StringIO(ran.out)))
    assert [float(row["wide"]) for row in rows] == [35, 40, 45, 50, 55, 60, 65]
    assert [float(row["tag.width"]) for row in rows] == pytest.approx([35, 40, 45, 50, 55, 60, 65])
    assert ["M38" in row["rules"] for row in rows] == [False] * 6 + [True]
    assert ["M34" in row["rules"] for row in rows] == [False] * 6 + [True]
    assert ran.code == 1  # a size with faults is told, and kept


def test_two_sweeps_are_combined_over_every_size(run: Run, tag: str) -> None:
    ran = run(
        "sizes", tag, "--with", "wide=40mm..42mm/1mm", "--with", "high=90mm..91mm/1mm", "--format", "json"
    )
    found = [(row["size"], row["swept"]["wide"], row["swept"]["high"]) for row in json.loads(ran.out)]
    assert len(found) == len(set(found)) == 2 * 3 * 2
    assert found[:3] == [("slim", "40 mm", "90 mm"), ("slim", "40 mm", "91 mm"), ("slim", "41 mm", "90 mm")]


def test_many_sizes_stand_one_below_the_other(run: Run, tag: str) -> None:
    ran = run("sizes", tag, "--size", "slim", "--with", "wide=40mm..50mm/1mm", "--format", "md")
    lines = ran.out.splitlines()
    assert lines[0] == "## Reading room tag: 11 sizes"
    assert lines[2].startswith("| size | wide | tag | back | tag.edge, stitches |")
    assert lines[4].startswith("| slim, wide 40 mm | 40 | 40 × 90 | 40 × 90 |")


def test_a_row_is_what_the_size_itself_measures(run: Run, tag: str) -> None:
    """Shared between processes, and the same as one by one."""
    ran = run("sizes", tag, "--size", "slim", "--with", "wide=30mm..54mm/0.5mm", "--format", "json")
    pattern = drafting.load(tag)
    records = json.loads(ran.out)
    assert len(records) == 49
    for record in records[::15]:
        placed = pattern.place("slim", wide=record["swept"]["wide"])
        assert record["pieces"]["tag"]["width"] == placed.pieces["tag"].outline.bounds.width
        assert record["stitches"]["tag.edge"] == placed.measure("tag.edge.stitches").value
    assert records[:3] == pattern.size_table("slim", wide="30mm..31mm/0.5mm").record()


def test_all_sizes_are_drawn_over_each_other(run: Run, tag: str, folder: Path) -> None:
    ran = run("sizes", tag, "--format", "svg", "--piece", "tag", "--out", "nest.svg")
    assert (ran.code, ran.out) == (0, "")
    svg = (folder / "nest.svg").read_text(encoding="utf-8")
    assert svg.count('class="size-0"') == svg.count('class="size-1"') == 2  # the outline and its sample
    assert 'class="cut"' not in svg and ">slim<" in svg and ">broad<" in svg


def test_a_drawing_of_many_sizes_tells_the_first_and_the_last(run: Run, tag: str, folder: Path) -> None:
    run(
        "sizes",
        tag,
        "--size",
        "slim",
        "--with",
        "wide=30mm..60mm/2mm",
        "--format",
        "svg",
        "--out",
        "nest.svg",
    )
    svg = (folder / "nest.svg").read_text(encoding="utf-8")
    assert "slim, wide 30 mm" in svg and "slim, wide 60 mm" in svg and "sizes between" in svg
    assert svg.count('class="size-between"') == 2 * 14 + 1


def test_thousands_of_sizes_are_quick(run: Run, tag: str) -> None:
    ran = run(
        "sizes", tag, "--quick", "--size", "slim", "--with", "wide=40mm..60mm/0.01mm", "--format", "csv"
    )
    rows = list(csv.DictReader(io.StringIO(ran.out)))
    assert (ran.code, ran.err, len(rows)) == (0, "", 2001)
    assert {row["rules"] for row in rows} == {"not judged"}
    assert [float(row["tag.width"]) for row in rows] == pytest.approx([float(row["wide"]) for row in rows])


def test_sizes_with_faults_are_left_out_of_a_drawing(run: Run, tag: str, folder: Path) -> None:
    swept = ("sizes", tag, "--size", "slim", "--format", "svg", "--out", "nest.svg", "--with")
    ran = run(*swept, "wide=50mm..70mm/10mm")
    assert ran.code == 1 and "left out of the drawing: slim, wide 70 mm: M34" in ran.err
    assert (folder / "nest.svg").read_text(encoding="utf-8").count('class="size-1"') == 2 + 1
    (folder / "nest.svg").unlink()
    ran = run(*swept, "wide=70mm..80mm/10mm")
    assert ran.code == 1 and "M34" in ran.err and not (folder / "nest.svg").exists()


def test_a_drawing_needs_a_file_and_a_piece_that_is_there(run: Run, tag: str) -> None:
    assert "C06" in run("sizes", tag, "--format", "svg").err
    assert "C221" in run("sizes", tag, "--format", "svg", "--piece", "tga", "--out", "o.svg").err
    assert "C221" in run("sizes", tag, "--size", "A5").err


def test_a_pattern_with_faults_of_its_text_is_not_charted(run: Run, folder: Path) -> None:
    (folder / "bad.draft").write_text("measure wide = 40\n", encoding="utf-8")
    assert run("sizes", "bad.draft").code == 1


def test_what_cannot_be_placed_is_told_in_its_row(run: Run, folder: Path) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    ran = run("sizes", "loose.draft")
    assert ran.code == 1 and "S01: `brow` has one fact" in ran.out


def test_a_pattern_without_sizes_has_one(run: Run, folder: Path) -> None:
    (folder / "one.draft").write_text(TWO_SIZES.replace("size ", "# size "), encoding="utf-8")
    assert "1 size" in run("sizes", "one.draft").out
