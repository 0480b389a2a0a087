"""`awlwright tidy`: printed, checked or written; never at the cost of a file's meaning."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.patterns import TAG, TWO_SIZES

UNTIDY = TAG.replace("  point foot", "  point   foot").replace("wide/2", "wide  /  2")


@pytest.fixture
def tidied(run: Run, folder: Path) -> str:
    """The tidy text of UNTIDY, as it is printed."""
    (folder / "untidy.draft").write_text(UNTIDY, encoding="utf-8")
    ran = run("tidy", "untidy.draft")
    assert (ran.code, ran.err) == (0, "")
    return ran.out


def test_the_tidy_text_is_printed_and_the_file_stays(folder: Path, tidied: str) -> None:
    assert tidied != UNTIDY and "\n  point foot" in tidied
    assert (folder / "untidy.draft").read_text(encoding="utf-8") == UNTIDY


def test_a_check_names_what_is_not_tidy(run: Run, folder: Path, tidied: str) -> None:
    (folder / "tidy.draft").write_text(tidied, encoding="utf-8")
    assert run("tidy", "--check", "tidy.draft").code == 0
    ran = run("tidy", "--check", "tidy.draft", "untidy.draft")
    assert (ran.code, ran.err) == (1, "")
    assert "`untidy.draft` is not laid out the tidy way" in ran.out and "`tidy.draft`" not in ran.out


def test_what_is_written_is_tidy(run: Run, folder: Path, tidied: str) -> None:
    """Files that were tidy already are not named."""
    (folder / "tidy.draft").write_text(tidied, encoding="utf-8")
    ran = run("tidy", "--write", "untidy.draft", "tidy.draft")
    assert (ran.code, ran.out) == (0, "untidy.draft\n")
    assert (folder / "untidy.draft").read_text(encoding="utf-8") == tidied
    assert run("tidy", "--write", "untidy.draft").out == ""


@pytest.mark.parametrize("way", [["--write"], ["--check"]])
def test_a_fault_in_one_file_leaves_all_as_they_were(
    run: Run, folder: Path, tidied: str, way: list[str]
) -> None:
    (folder / "broken.draft").write_text("point\n", encoding="utf-8")
    ran = run("tidy", *way, "untidy.draft", "broken.draft")
    assert (ran.code, ran.out) == (1, "")
    assert "broken.draft:1:" in ran.err
    assert (folder / "untidy.draft").read_text(encoding="utf-8") == UNTIDY


def test_what_comes_in_from_a_pipe_goes_out_tidy(run_real: Run, tidied: str) -> None:
    assert run_real("tidy", "-", typed=UNTIDY.encode()).out == tidied
    assert run_real("tidy", "--check", "-", typed=tidied.encode()).code == 0
    assert run_real("tidy", "--check", "-", typed=UNTIDY.encode()).code == 1


def test_tidying_needs_no_drafting(run: Run, folder: Path) -> None:
    """A pattern that is not fit to be drawn is laid out all the same."""
    text = TWO_SIZES.replace("plumb with heel; ", "")
    (folder / "loose.draft").write_text(text, encoding="utf-8")
    assert run("tidy", "loose.draft").code == 0
