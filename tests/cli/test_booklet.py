"""`awlwright booklet`: all that is read beside the sheets, as a PDF or a page, or nothing."""

from __future__ import annotations

from pathlib import Path

import pypdf
import pytest

from tests.cli.conftest import Run
from tests.cli.patterns import LOOSE


@pytest.mark.parametrize("out", ["tag.pdf", "deep/tag.html", "TAG.PDF"])
def test_a_booklet_is_written_and_written_over(run: Run, folder: Path, tag: str, out: str) -> None:
    paper = ("--paper", "a5") if out.lower().endswith("pdf") else ()
    ran = run("booklet", tag, "--out", out, *paper)
    assert (ran.code, ran.out, ran.err) == (0, f"{out}\n", "")
    first = (folder / out).read_bytes()
    assert run("booklet", tag, "--out", out, *paper).code == 0
    assert (folder / out).read_bytes() == first


@pytest.mark.parametrize("name", ["tag.pdf", "tag.html"])
def test_a_file_of_another_program_stays(run: Run, folder: Path, tag: str, name: str) -> None:
    (folder / name).write_text("<html>the choir's accounts</html>")
    ran = run("booklet", tag, "--out", name)
    assert ran.code == 2 and "C42" in ran.err
    assert (folder / name).read_text() == "<html>the choir's accounts</html>"
    assert run("booklet", tag, "--out", name, "--replace").code == 0


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--out", "tag.txt"), "C223"),
        (("--out", "tag"), "C223"),
        (("--out", "tag.html", "--paper", "a5"), "C227"),
        (("--out", "tag.pdf", "--paper", "60x60"), "C40"),
        (("--out", "tag.pdf", "--size", "huge"), "C221"),
        (("--out", "tag.draft/tag.pdf"), "C02"),
    ],
)
def test_wrong_words(run: Run, folder: Path, tag: str, words: tuple[str, ...], code: str) -> None:
    ran = run("booklet", tag, *words)
    assert ran.code == 2 and code in ran.err
    assert [path.name for path in folder.iterdir()] == ["tag.draft"]


def test_a_faulty_pattern_has_none_but_a_draft(run: Run, folder: Path, tag: str) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    assert run("booklet", "loose.draft", "--out", "loose.pdf").code == 1
    assert not (folder / "loose.pdf").exists()
    assert run("booklet", tag, "--out", "tag.pdf", "--draft").code == 0
    assert "DRAFT" in pypdf.PdfReader(folder / "tag.pdf").pages[0].extract_text()


def test_an_untrue_file_is_not_kept(
    run: Run, folder: Path, tag: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("drafting.proof.booklet.check_pages", lambda *_: ["the tag: lost"])
    ran = run("booklet", tag, "--out", "tag.pdf")
    assert ran.code == 3 and "C15" in ran.err
    assert [path.name for path in folder.iterdir()] == ["tag.draft"]
