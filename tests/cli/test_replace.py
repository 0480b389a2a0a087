"""Every command that writes: a file of another program stays unless told otherwise, one of our own is written anew."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.test_together import everything_in
from tests.drawing.rosters import CHOIR

pytestmark = pytest.mark.usefixtures("goods", "no_sync")

FOREIGN = b"the accounts of the ferry crew"
LAY = "lay tag.draft:2 --panel 300x300 --steps 1 --paper a3 --dxf --png --out ."
COMMANDS = {
    "tag.svg": "draw tag.draft --out .",
    "tag-tag.png": "draw tag.draft --png --out .",
    "tag.pdf": "print tag.draft --out tag.pdf",
    "tag-template-tag.svg": "template tag.draft --out .",
    "tag-template-tag.dxf": "template tag.draft --format dxf --out .",
    "tag-template-tag.pdf": "template tag.draft --format pdf --out .",
    "tag-cut.svg": "cut tag.draft --cutter blade --out .",
    "tag-cut.dxf": "cut tag.draft --cutter blade --format dxf --out .",
    "book.pdf": "booklet tag.draft --out book.pdf",
    "book.html": "booklet tag.draft --out book.html",
    "list.txt": "list tag.draft --out list.txt",
    "list.csv": "list tag.draft --format csv --out list.csv",
    "list.json": "list tag.draft --format json --out list.json",
    "list.md": "list tag.draft --format md --out list.md",
    "sizes.txt": "sizes tag.draft --out sizes.txt",
    "sizes.csv": "sizes tag.draft --format csv --out sizes.csv",
    "sizes.json": "sizes tag.draft --format json --out sizes.json",
    "sizes.md": "sizes tag.draft --format md --out sizes.md",
    "sizes.svg": "sizes tag.draft --format svg --out sizes.svg",
    "lay.json": LAY,
    "lay.pdf": LAY,
    "sheet-1.svg": LAY,
    "sheet-1.png": LAY,
    "sheet-1.dxf": LAY,
    "leftover-1-1.draft": LAY,
    "cards.pdf": "roster folder.draft choir.csv --out .",
    "roster.csv": "roster folder.draft choir.csv --out .",
    "engraving/001-Ona Vale.svg": "roster folder.draft choir.csv --out .",
}
"""A file of each kind, and the command that writes it."""


@pytest.mark.parametrize(("file", "words"), COMMANDS.items(), ids=COMMANDS)
def test_a_file_of_another_program_stays_unless_told(run: Run, folder: Path, file: str, words: str) -> None:
    place = folder / file
    place.parent.mkdir(exist_ok=True)
    place.write_bytes(FOREIGN)
    before = everything_in(folder)
    ran = run(*words.split())
    assert (ran.code, ran.out) == (2, "") and "error C42" in ran.err and Path(file).name in ran.err
    assert everything_in(folder) == before
    assert run(*words.split(), "--replace").code == 0 and place.read_bytes() != FOREIGN
    assert run(*words.split()).code == 0


def test_a_table_that_goes_to_the_terminal_says_nothing_of_what_it_was_made_from(run: Run) -> None:
    for command in ("list", "sizes"):
        for form in ("table", "csv", "json", "md"):
            assert "made" not in run(command, "tag.draft", "--format", form).out


def test_a_table_of_people_is_not_written_over_by_the_work_list(run: Run, folder: Path) -> None:
    """The people may stand in a file called as the work list is."""
    (folder / "roster.csv").write_text(CHOIR, encoding="utf-8")
    ran = run("roster", "folder.draft", "roster.csv", "--out", ".")
    assert ran.code == 2 and "C226" in ran.err
    assert (folder / "roster.csv").read_text(encoding="utf-8") == CHOIR


def test_what_another_command_wrote_stays_unless_told(run: Run, folder: Path) -> None:
    """A print and a booklet are easily called alike."""
    assert run("print", "tag.draft", "--out", "tag.pdf").code == 0
    before = everything_in(folder)
    ran = run("booklet", "tag.draft", "--out", "tag.pdf")
    assert (
        (ran.code, ran.out) == (2, "")
        and "C42" in ran.err
        and "holds what `awlwright print` wrote" in ran.err
    )
    assert everything_in(folder) == before
    assert run("booklet", "tag.draft", "--out", "tag.pdf", "--replace").code == 0
    assert "`awlwright booklet`" in run("print", "tag.draft", "--out", "tag.pdf").err
    assert run("list", "tag.draft", "--format", "csv", "--out", "tag.csv").code == 0
    assert "`awlwright list`" in run("sizes", "tag.draft", "--format", "csv", "--out", "tag.csv").err


def test_the_size_that_was_taken_is_told(run: Run, sizes: str) -> None:
    """With no word of an option that the command has not."""
    for command in ("print", "booklet", "cut", "template"):
        out = "o.pdf" if command in ("print", "booklet") else "o"
        told = run(command, sizes, "--out", out, "--replace").err
        assert "drawn in size `slim`, the first of 2; for others say --size 'broad'\n" in told
    assert "--size 'broad' or --every-size" in run("draw", sizes, "--out", "o").err
