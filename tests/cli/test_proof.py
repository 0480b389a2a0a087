"""`awlwright proof`: files that the tool wrote, held against their patterns as those are now."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.patterns import LOOSE, TAG

WRITE = {
    "tag.pdf": "print tag.draft --out tag.pdf --paper letter --copies 2 --correct 99.2%",
    "drawn/tag.svg": "draw tag.draft --out drawn",
    "drawn/tag-tag.svg": "draw tag.draft --out drawn --piece tag",
    "book.pdf": "booklet tag.draft --out book.pdf --paper a5",
    "book.html": "booklet tag.draft --out book.html",
    "cut/tag-cut.svg": "cut tag.draft --out cut --cutter blade",
    "t/tag-template-tag.svg": "template tag.draft --out t",
    "t/tag-template-tag.dxf": "template tag.draft --out t --format dxf --pin 2mm",
    "t/tag-template-tag.pdf": "template tag.draft --out t --format pdf",
    "cut/tag-cut.dxf": "cut tag.draft --out cut --format dxf --cutter blade",
}
"""A file of each kind, and how it is written."""
OLD = "cut tag.draft --out cut --format dxf --dxf-version r12 --cutter blade"


@pytest.fixture
def tag(folder: Path) -> Path:
    place = folder / "tag.draft"
    place.write_text(TAG, encoding="utf-8")
    return place


@pytest.mark.parametrize("file", WRITE)
def test_a_file_as_it_was_written_is_true(run: Run, tag: Path, file: str) -> None:
    assert run(*WRITE[file].split(), "--with", "wide=42 mm").code == 0
    ran = run("proof", file)
    what = WRITE[file].split()[0].replace("draw", "drawing")
    assert (ran.code, ran.out, ran.err) == (0, f"{file}: {what} true to tag.draft\n", "")


def test_old_dxf_is_proved_too(run: Run, tag: Path) -> None:
    assert run(*OLD.split()).code == 0
    assert run("proof", "cut/tag-cut.dxf").code == 0


@pytest.mark.parametrize("file", WRITE)
def test_a_pattern_that_changed_since_is_told_and_what_differs(run: Run, tag: Path, file: str) -> None:
    assert run(*WRITE[file].split()).code == 0
    tag.write_text(TAG.replace("wide = 40 mm", "wide = 40.1 mm"), encoding="utf-8")
    ran = run("proof", file)
    assert ran.code == 1 and ran.err == ""
    assert "warning C77\n  `tag.draft` has changed since" in ran.out
    assert f"error C78\n  `{file}` is not as its pattern has it: " in ran.out


def test_a_change_that_does_not_matter_is_told_alone(run: Run, tag: Path) -> None:
    assert run(*WRITE["tag.pdf"].split()).code == 0
    tag.write_text("# For the choir.\n" + TAG, encoding="utf-8")
    ran = run("proof", "tag.pdf")
    assert ran.code == 0
    assert "C77" in ran.out and "C78" not in ran.out and "true to tag.draft" in ran.out


def test_many_differences_are_counted(run: Run, tag: Path) -> None:
    assert run(*WRITE["drawn/tag-tag.svg"].split()).code == 0
    tag.write_text(TAG.replace("90 mm", "80 mm"), encoding="utf-8")
    assert " more.\n  mend: Do not cut by it" in run("proof", "drawn/tag-tag.svg").out
    (told,) = json.loads(run("proof", "drawn/tag-tag.svg", "--json").out)
    assert told["true"] is False and len(told["differences"]) > 3
    assert set(told["differences"][0]) == {"where", "what", "drafted", "written"}


def test_a_file_that_was_tampered_with_is_found(run: Run, tag: Path) -> None:
    assert run(*WRITE["drawn/tag-tag.svg"].split()).code == 0
    place = tag.parent / "drawn/tag-tag.svg"
    text = place.read_text()
    place.write_text(text.replace('width="210mm"', 'width="208mm"'))
    ran = run("proof", "drawn/tag-tag.svg")
    assert ran.code == 1 and "its size" in ran.out and "C77" not in ran.out


def test_the_pattern_may_lie_elsewhere(run: Run, tag: Path, folder: Path) -> None:
    assert run(*WRITE["tag.pdf"].split()).code == 0
    (folder / "patterns").mkdir()
    tag.rename(folder / "patterns/other.draft")
    ran = run("proof", "tag.pdf")
    assert ran.code == 2
    assert ran.out == (
        "error C76\n  `tag.pdf` was made from `tag.draft`, which is not beside it, above it or here.\n"
        "  mend: Say where it is: `--pattern tag.draft`.\n"
    )
    ran = run("proof", "tag.pdf", "--pattern", "patterns/other.draft")
    assert (ran.code, ran.out) == (0, "tag.pdf: print true to patterns/other.draft\n")


def test_what_cannot_be_proved_is_said_of_each_file(run: Run, tag: Path, folder: Path) -> None:
    (folder / "other.pdf").write_bytes(b"%PDF-1.4 of another program")
    assert run(*WRITE["tag.pdf"].split()).code == 0
    ran = run("proof", "nowhere.pdf", "tag.draft", "other.pdf", "tag.pdf")
    assert ran.code == 2
    assert ran.out == (
        "error C74\n  `nowhere.pdf` cannot be read: no such file or directory.\n"
        "  mend: Name a file that this tool wrote and that is there.\n"
        "error C75\n  `tag.draft` does not say that this tool made it, so there is nothing to hold it against.\n"
        "  mend: Name a file as the tool wrote it; what another program saves again has lost that word.\n"
        "error C75\n  `other.pdf` does not say that this tool made it, so there is nothing to hold it against.\n"
        "  mend: Name a file as the tool wrote it; what another program saves again has lost that word.\n"
        "tag.pdf: print true to tag.draft\n"
    )
    told = json.loads(run("proof", "nowhere.pdf", "tag.pdf", "--json").out)
    assert [one["true"] for one in told] == [None, True]
    assert told[0]["messages"][0]["code"] == "C74"


def test_a_pattern_with_faults_proves_nothing(run: Run, tag: Path) -> None:
    assert run(*WRITE["tag.pdf"].split()).code == 0
    tag.write_text(LOOSE, encoding="utf-8")
    ran = run("proof", "tag.pdf")
    assert ran.code == 1 and "S01" in ran.out


def test_a_size_that_is_gone_is_a_difference(run: Run, tag: Path) -> None:
    sized = TAG.replace("piece tag", 'size "small": as written\npiece tag', 1)
    tag.write_text(sized, encoding="utf-8")
    assert run(*WRITE["tag.pdf"].split(), "--size", "small").code == 0
    tag.write_text(sized.replace("small", "little"), encoding="utf-8")
    ran = run("proof", "tag.pdf")
    assert ran.code == 1 and "the size `small`" in ran.out
