"""`awlwright check`: every fault of every file, for a reader and for a machine."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.patterns import LOOSE, OFFCUT, TAG, TWO_SIZES


def test_a_pattern_without_faults(run: Run, folder: Path) -> None:
    (folder / "tag.draft").write_text(TAG, encoding="utf-8")
    ran = run("check", "tag.draft")
    assert (ran.code, ran.out, ran.err) == (0, "no faults in 1 file\n", "")


def test_a_loose_point_is_shown_where_it_stands(run: Run, folder: Path) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    ran = run("check", "loose.draft")
    assert ran.code == 1
    assert "loose.draft:7:9  error S" in ran.out
    assert "  |   point brow: plumb with heel\n  |         ^^^^\n" in ran.out
    assert "`brow` has one fact and needs two" in ran.out
    assert "\n  mend: " in ran.out
    assert ran.out.endswith("\n1 fault in 1 file\n")


def test_the_machines_record_says_the_same(run: Run, folder: Path) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    ran = run("check", "loose.draft", "--json")
    assert ran.code == 1
    (record,) = json.loads(ran.out)
    assert list(record) == [
        "code",
        "severity",
        "file",
        "line",
        "column",
        "end_line",
        "end_column",
        "says",
        "mend",
        "sizes",
        "related",
    ]
    assert (record["severity"], record["file"]) == ("error", "loose.draft")
    assert [record[key] for key in ("line", "column", "end_line", "end_column")] == [7, 9, 7, 13]
    assert record["says"].startswith("`brow` has one fact and needs two")
    assert record["mend"] and record["code"].startswith("S")


def test_related_places_are_recorded_too(run: Run, folder: Path) -> None:
    """A contradiction points at every line that takes part."""
    text = TAG.replace("high above foot", "high above foot; 80 mm above heel")
    (folder / "tag.draft").write_text(text, encoding="utf-8")
    records = json.loads(run("check", "tag.draft", "--json").out)
    related = [place for record in records for place in record["related"]]
    assert related
    for place in related:
        assert list(place) == ["file", "line", "column", "end_line", "end_column", "says"]
        assert place["file"] == "tag.draft" and place["line"] > 1


def test_no_fault_is_an_empty_list(run: Run, folder: Path) -> None:
    (folder / "tag.draft").write_text(TAG, encoding="utf-8")
    ran = run("check", "--json", "tag.draft")
    assert (ran.code, json.loads(ran.out)) == (0, [])


def test_a_fault_of_some_sizes_names_them(run: Run, folder: Path) -> None:
    (folder / "sizes.draft").write_text(TWO_SIZES.replace("wide = 60 mm", "wide = 8 mm"), encoding="utf-8")
    ran = run("check", "sizes.draft")
    assert ran.code == 1
    assert "\n  broad: " in ran.out
    records = json.loads(run("check", "sizes.draft", "--json").out)
    assert all(record["sizes"] == ["broad"] for record in records)


def test_several_files_are_told_in_the_order_they_were_named(run: Run, folder: Path) -> None:
    """One that cannot be read does not hide the faults of the others."""
    (folder / "tag.draft").write_text(TAG, encoding="utf-8")
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    (folder / "latin.draft").write_bytes(b'pattern "t\xe4g"\n')
    ran = run("check", "nowhere.draft", "tag.draft", "loose.draft", "latin.draft")
    assert ran.code == 2
    told = [ran.out.index(words) for words in ("`nowhere.draft`", "loose.draft:7:9", "`latin.draft`")]
    assert told == sorted(told)
    assert "line 1 is not UTF-8 text" in ran.out
    assert ran.out.endswith("\n3 faults in 4 files\n")
    records = json.loads(run("check", "nowhere.draft", "--json").out)
    assert [(record["code"], record["file"], record["line"]) for record in records] == [("C01", None, None)]


def test_a_warning_alone_is_fine(run: Run, folder: Path) -> None:
    (folder / "offcut.draft").write_text(OFFCUT, encoding="utf-8")
    ran = run("check", "offcut.draft")
    assert "warning" in ran.out
    assert ran.code == 0
    assert ran.out.endswith("\n1 warning in 1 file\n")


@pytest.mark.parametrize("typed", [TAG.encode(), b"\xef\xbb\xbf" + TAG.replace("\n", "\r\n").encode()])
def test_a_pattern_may_come_in_from_a_pipe(run_real: Run, typed: bytes) -> None:
    """With a byte-order mark and the line ends of another system, too."""
    ran = run_real("check", "-", typed=typed)
    assert (ran.code, ran.out, ran.err) == (0, "no faults in 1 file\n", "")


def test_what_comes_in_may_be_no_text(run_real: Run) -> None:
    ran = run_real("check", "-", typed=b"\xff\xfe")
    assert ran.code == 2
    assert "`standard input` cannot be read: it is not UTF-8 text" in ran.out


def test_an_empty_file_is_no_crash(run: Run, folder: Path) -> None:
    (folder / "empty.draft").write_bytes(b"")
    assert run("check", "empty.draft").code in (0, 1)


SLIT = """\
stock body: leather; 1.4 mm thick
piece back: cut 1 from body
  point a: at (-20 mm, 0)
  point b: at (20 mm, 0)
  outline: box 60 mm by 60 mm
  stitch edge: 2.2 mm inside outline; every 4 mm
"""


def test_rules_may_hold_only_while_edges_are_cut_true(run: Run, folder: Path) -> None:
    (folder / "back.draft").write_text(SLIT, encoding="utf-8")
    assert run("check", "back.draft").out == "no faults in 1 file\n"
    ran = run("check", "back.draft", "--tolerance", "1/2 mm")
    assert ran.code == 0
    assert "R01" in ran.out and "2.2 mm (1.7 mm with edges 0.5 mm off)" in ran.out


STRAPS = "block strap(wide)\n  outline: box 40 mm by wide\n  hole eye: at outline.centre; 3 across\n"
USER = 'use "straps.draft" as s\npiece tab: like s.strap(wide = 9 mm)\n'


def test_faults_of_a_used_file_carry_its_name(run: Run, folder: Path) -> None:
    (folder / "blocks").mkdir()
    (folder / "blocks" / "straps.draft").write_text(STRAPS, encoding="utf-8")
    (folder / "tab.draft").write_text(USER.replace("straps.draft", "blocks/straps.draft"), encoding="utf-8")
    ran = run("check", "tab.draft")
    assert ran.code == 1
    assert ran.out.startswith("blocks/straps.draft:3:32  error M03\n")
    ran = run("check", "tab.draft", "--json")
    assert [(record["file"], record["line"]) for record in json.loads(ran.out)] == [
        ("blocks/straps.draft", 3)
    ]


@pytest.mark.parametrize("command", [("check",), ("measure", "tab.width"), ("explain", "tab.eye.centre")])
def test_shared_blocks_are_found_where_they_are_said_to_be(
    run: Run, folder: Path, command: tuple[str, ...]
) -> None:
    (folder / "shared").mkdir()
    (folder / "shared" / "straps.draft").write_text(
        STRAPS.replace("3 across", "3 mm across"), encoding="utf-8"
    )
    (folder / "work").mkdir()
    (folder / "work" / "tab.draft").write_text(USER, encoding="utf-8")
    name, *rest = command
    assert run(name, "work/tab.draft", *rest).code == 1
    assert run(name, "work/tab.draft", *rest, "--blocks", "shared").code == 0


def test_a_folder_of_blocks_must_be_there(run: Run, folder: Path) -> None:
    (folder / "tag.draft").write_text(TAG, encoding="utf-8")
    ran = run("check", "tag.draft", "--blocks", "nowhere")
    assert (ran.code, ran.out) == (2, "")
    assert "C20" in ran.err and "`--blocks nowhere` is no folder." in ran.err
