"""`awlwright print`: true-size sheets for a printer, or nothing."""

from __future__ import annotations

from pathlib import Path

import pypdf
import pytest

from drafting.cli import print as command
from drafting.proof.disagreement import Disagreement
from tests.cli.conftest import Run
from tests.cli.patterns import LOOSE, TAG, TWO_SIZES


def test_a_pattern_is_printed(run: Run, folder: Path, tag: str) -> None:
    ran = run("print", tag, "--out", "deep/tag.pdf", "--correct", "99.2%")
    assert (ran.code, ran.out, ran.err) == (0, "deep/tag.pdf: 1 sheet of a4\n", "")
    assert (folder / "deep/tag.pdf").read_bytes().startswith(b"%PDF")


def test_it_is_written_over_and_the_bytes_are_the_same(run: Run, folder: Path, tag: str) -> None:
    first = run("print", tag, "--out", "tag.pdf"), (folder / "tag.pdf").read_bytes()
    again = run("print", tag, "--out", "tag.pdf"), (folder / "tag.pdf").read_bytes()
    assert first == again


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--paper", "a9"), "C40"),
        (("--paper", "60x60"), "C40"),
        (("--correct", "99.2"), "C41"),
        (("--correct", "12%"), "C41"),
        (("--copies", "many"), "C71"),
        (("--copies", "1001"), "C71"),
        (("--piece", "tga"), "C221"),
        (("--size", "huge"), "C221"),
    ],
)
def test_wrong_words(run: Run, folder: Path, tag: str, words: tuple[str, str], code: str) -> None:
    ran = run("print", tag, "--out", "tag.pdf", *words)
    assert ran.code == 2 and code in ran.err
    assert not (folder / "tag.pdf").exists()


def sized(wide: str, high: str) -> str:
    return TAG.replace("wide = 40 mm", f"wide = {wide}").replace("high = 90 mm", f"high = {high}")


@pytest.mark.parametrize(
    ("wide", "high", "paper", "code", "mend"),
    [
        ("5000 mm", "5000 mm", "a4", "C70", "--paper 914x1200"),
        ("30 mm", "75000 mm", "a4", "C70", "--paper 914x1200"),
        ("30 mm", "27500 mm", "134x143", "C70", "--paper 914x1200"),
        ("30000 mm", "30000 mm", "a3", "C192", "--piece"),
        ("30 mm", "1000000 mm", "legal", "C192", "--piece"),
        ("1000000 mm", "100000000 mm", "5000x5000", "C192", "--piece"),
    ],
)
def test_a_piece_that_no_tiling_can_carry_is_told(
    run: Run, folder: Path, wide: str, high: str, paper: str, code: str, mend: str
) -> None:
    """Too many tiles, a map of them that has no room on the paper, and what no paper at all will do for; however large
    it is, it is told at once."""
    (folder / "large.draft").write_text(sized(wide, high), encoding="utf-8")
    ran = run("print", "large.draft", "--out", "large.pdf", "--paper", paper)
    assert (ran.code, ran.out) == (2, "") and f"error {code}\n" in ran.err and mend in ran.err
    assert not (folder / "large.pdf").exists()


def test_the_paper_that_is_named_for_a_large_piece_carries_it(run: Run, folder: Path) -> None:
    (folder / "large.draft").write_text(sized("5000 mm", "5000 mm"), encoding="utf-8")
    assert run("print", "large.draft", "--out", "large.pdf", "--paper", "914x1200").code == 0


def test_a_batch_has_each_piece_as_often_as_it_is_cut(run: Run, folder: Path) -> None:
    text = TAG.replace(
        "piece tag: mirrored", "stock body: leather\npiece tag: cut 2 pair from body; mirrored"
    )
    (folder / "tag.draft").write_text(text, encoding="utf-8")
    assert run("print", "tag.draft", "--out", "tags.pdf", "--copies", "3").code == 0
    words = "".join(page.extract_text() for page in pypdf.PdfReader(folder / "tags.pdf").pages)
    assert words.count("turn over for") == 3 * 2 * 2


def test_a_faulty_pattern_is_not_printed(run: Run, folder: Path) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    ran = run("print", "loose.draft", "--out", "loose.pdf")
    assert ran.code == 1 and not (folder / "loose.pdf").exists()


def test_an_untrue_file_is_not_kept(
    run: Run, folder: Path, tag: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert run("print", tag, "--out", "tag.pdf").code == 0
    before = (folder / "tag.pdf").read_bytes()
    fault = Disagreement("tag.outline", "length", "1 mm", "2 mm")
    monkeypatch.setattr("drafting.proof.pdf.check_pdf", lambda *_, **__: [fault])
    ran = run("print", tag, "--out", "tag.pdf", "--paper", "a3")
    assert "C15" in ran.err and ran.code != 0
    assert (folder / "tag.pdf").read_bytes() == before
    assert sorted(path.name for path in folder.iterdir()) == ["tag.draft", "tag.pdf"]


def test_every_size_can_be_printed(run: Run, folder: Path) -> None:
    (folder / "sizes.draft").write_text(TWO_SIZES, encoding="utf-8")
    assert run("print", "sizes.draft", "--out", "slim.pdf", "--size", "slim").code == 0


def test_help_teaches_by_example() -> None:
    assert all(example.startswith("awlwright print ") for example in command.EXAMPLES)


def test_a_draft_says_so_on_its_sheets(run: Run, folder: Path, tag: str) -> None:
    assert run("print", tag, "--out", "tag.pdf", "--draft").code == 0
    page = pypdf.PdfReader(folder / "tag.pdf").pages[0]
    assert "DRAFT" in page.extract_text()
