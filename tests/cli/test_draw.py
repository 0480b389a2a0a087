"""`awlwright draw`: every drawing asked for, true to size, or none at all."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from drafting.cli import draw
from drafting.cli.draw import file_names
from tests.cli.conftest import Run
from tests.cli.patterns import LOOSE, OFFCUT, TAG, TWO_SIZES


def files_below(folder: Path) -> list[str]:
    """Hidden ones too."""
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_a_pattern_is_drawn_whole_and_piece_by_piece(run: Run, folder: Path, tag: str) -> None:
    ran = run("draw", tag, "--out", "deep/drawings")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == "deep/drawings/tag.svg\ndeep/drawings/tag-tag.svg\n"
    assert files_below(folder / "deep") == ["drawings/tag-tag.svg", "drawings/tag.svg"]
    for path in (folder / "deep" / "drawings").iterdir():
        assert re.search(r'<svg[^>]* width="[\d.]+mm"', path.read_text(encoding="utf-8"))


def test_the_same_text_gives_the_same_bytes(run_real: Run, folder: Path, tag: str) -> None:
    """Whatever the order of a set may be."""
    for seed in ("1", "2"):
        assert run_real("draw", tag, "--out", f"run-{seed}", "--png", PYTHONHASHSEED=seed).code == 0
    names = files_below(folder / "run-1")
    assert names == files_below(folder / "run-2") and len(names) == 4
    assert all(
        (folder / "run-1" / name).read_bytes() == (folder / "run-2" / name).read_bytes() for name in names
    )


def test_one_piece_alone_comes_without_the_overview(run: Run, folder: Path, sizes: str) -> None:
    ran = run("draw", sizes, "--out", "o", "--piece", "Übersicht", "--size", "slim")
    assert (ran.code, ran.out) == (0, "o/sizes-Übersicht.svg\n")
    assert files_below(folder / "o") == ["sizes-Übersicht.svg"]


def test_a_picture_comes_beside_each_drawing(run: Run, folder: Path, tag: str) -> None:
    ran = run("draw", tag, "--out", "o", "--png")
    assert ran.out == "o/tag.svg\no/tag.png\no/tag-tag.svg\no/tag-tag.png\n"
    assert (folder / "o" / "tag.png").read_bytes().startswith(b"\x89PNG\r\n\x1a\n")


def test_the_first_size_is_drawn_and_the_others_are_named(run: Run, folder: Path, sizes: str) -> None:
    ran = run("draw", sizes, "--out", "o")
    assert ran.code == 0
    assert ran.err == "drawn in size `slim`, the first of 2; for others say --size 'broad' or --every-size\n"
    chosen = run("draw", sizes, "--out", "p", "--size", "slim")
    assert (chosen.code, chosen.err) == (0, "")
    assert (folder / "o" / "sizes.svg").read_bytes() == (folder / "p" / "sizes.svg").read_bytes()


def test_every_size_has_a_folder_of_its_own(run: Run, folder: Path, sizes: str) -> None:
    ran = run("draw", sizes, "--out", "o", "--every-size")
    assert (ran.code, ran.err) == (0, "")
    sheets = ["sizes-tag.svg", "sizes-Übersicht.svg", "sizes.svg"]
    assert files_below(folder / "o") == [f"{size}/{sheet}" for size in ("broad", "slim") for sheet in sheets]


def test_every_size_of_a_pattern_without_sizes_is_the_one_as_written(
    run: Run, folder: Path, tag: str
) -> None:
    assert run("draw", tag, "--out", "o", "--every-size").code == 0
    assert files_below(folder / "o") == ["tag-tag.svg", "tag.svg"]


def test_a_measure_may_be_set_for_one_run(run: Run, folder: Path, tag: str) -> None:
    assert run("draw", tag, "--out", "o").code == 0
    assert run("draw", tag, "--out", "p", "--with", "wide = 5 cm").code == 0
    assert (folder / "o" / "tag.svg").read_bytes() != (folder / "p" / "tag.svg").read_bytes()


def test_a_warning_is_shown_and_stops_nothing(run: Run, folder: Path) -> None:
    """Also when a measure is set."""
    (folder / "offcut.draft").write_text("measure a = 1 mm\n" + OFFCUT, encoding="utf-8")
    for words in ([], ["--with", "a = 2 mm"]):
        ran = run("draw", "offcut.draft", "--out", "o", *words)
        assert ran.code == 0
        assert "warning" in ran.err and ran.out.startswith("o/offcut.svg\n")


def check_nothing_written(run: Run, folder: Path, code: int, told: str, *words: str) -> None:
    """The command ends in `code`, tells, and leaves every file and folder as it was."""
    before = sorted(path.as_posix() for path in folder.rglob("*"))
    ran = run("draw", *words)
    assert (ran.code, ran.out) == (code, "")
    assert told in ran.err
    assert sorted(path.as_posix() for path in folder.rglob("*")) == before


def test_a_fault_leaves_the_folder_as_it_was(run: Run, folder: Path, tag: str) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    check_nothing_written(run, folder, 1, "loose.draft:7:9", "loose.draft", "--out", "o")
    check_nothing_written(run, folder, 1, "tag.draft:11:10", tag, "--out", "o", "--with", "wide=4 mm")


def test_a_fault_in_another_size_is_a_fault(run: Run, folder: Path) -> None:
    """All sizes are checked, whichever is drawn."""
    (folder / "sizes.draft").write_text(TWO_SIZES.replace("wide = 60 mm", "wide = 8 mm"), encoding="utf-8")
    check_nothing_written(run, folder, 1, "\n  broad: ", "sizes.draft", "--out", "o", "--size", "slim")


def test_wrong_words_leave_the_folder_as_it_was(run: Run, folder: Path, tag: str) -> None:
    (folder / "file").touch()
    check_nothing_written(run, folder, 2, "Did you mean `tag`?", tag, "--out", "o", "--piece", "tga")
    check_nothing_written(run, folder, 2, "`--size x` names no size", tag, "--out", "o", "--size", "x")
    check_nothing_written(
        run, folder, 2, "`--with '=4 mm'` sets no measure", tag, "--out", "o", "--with", "=4 mm"
    )
    check_nothing_written(run, folder, 2, "names no measure", tag, "--out", "o", "--with", "widd=4 mm")
    check_nothing_written(run, folder, 2, "a file stands there", tag, "--out", "file")
    check_nothing_written(run, folder, 2, "`file` is a file", tag, "--out", "file/deep")


def test_a_drawing_that_measures_otherwise_is_not_kept(
    run: Run, folder: Path, tag: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The proof is asked of what stands on the disk; its disagreement ends the run with 3."""
    asked: list[str] = []

    def disagree(svg: str, placed: object, piece: str | None) -> list[str]:
        asked.append(svg)
        return ["the outline is 0.5 mm too wide"] if len(asked) == 2 else []

    monkeypatch.setattr("drafting.proof.svg.check_svg", disagree)
    check_nothing_written(run, folder, 3, "the outline is 0.5 mm too wide", tag, "--out", "o")
    assert len(asked) == 2 and all(svg.lstrip().startswith("<") for svg in asked)


def test_a_stop_leaves_the_folder_as_it_was(
    run: Run, folder: Path, tag: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After the first of two drawings is written."""

    def stop_at_second(files: object, sheet: draw.Sheet, with_picture: bool) -> None:
        if sheet.piece is not None:
            raise KeyboardInterrupt
        write_sheet(files, sheet, with_picture)

    write_sheet = draw.write_sheet
    monkeypatch.setattr(draw, "write_sheet", stop_at_second)
    check_nothing_written(run, folder, 130, "stopped; no file was changed", tag, "--out", "o")


def test_a_long_run_tells_how_far_it_has_come(run: Run, tag: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Once it has taken more than a second, on the error output."""
    monkeypatch.setattr("drafting.cli.progress.QUIET_SECONDS", 0.0)
    ran = run("draw", tag, "--out", "o")
    assert ran.err == "drawing tag.svg (1 of 2)\ndrawing tag-tag.svg (2 of 2)\n"


def test_names_become_names_of_files() -> None:
    """Different ones also where capitals do not count."""
    assert file_names(["front", "渡し", "2/in", "a: b", "..", "FRONT", "Front"]) == {
        "front": "front",
        "渡し": "渡し",
        "2/in": "2_in",
        "a: b": "a_ b",
        "..": "_",
        "FRONT": "FRONT-2",
        "Front": "Front-3",
    }


HALF_LOOSE = (
    TAG.replace('pattern "', 'pattern "half ', 1)
    + """
piece strap: cut 1 from body
  point foot_end: at (0, 0)
  point loose_end: 40 mm above foot_end
  outline: foot_end to loose_end to foot_end
"""
)


def test_a_draft_draws_what_can_be_placed_and_says_so(run: Run, folder: Path) -> None:
    (folder / "half.draft").write_text(HALF_LOOSE, encoding="utf-8")
    assert (run("draw", "half.draft", "--out", "o").code, (folder / "o").exists()) == (1, False)
    ran = run("draw", "half.draft", "--out", "o", "--draft")
    assert (ran.code, ran.out) == (1, "o/half.svg\no/half-tag.svg\n")
    assert "left out of the draft, for it cannot be placed: `strap`" in ran.err
    for path in (folder / "o").iterdir():
        assert "DRAFT" in path.read_text(encoding="utf-8")


def test_a_draft_of_nothing_is_not_written(run: Run, folder: Path) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    ran = run("draw", "loose.draft", "--out", "o", "--draft")
    assert (ran.code, ran.out, (folder / "o").exists()) == (1, "", False)


def test_what_is_not_asked_for_is_no_draft(run: Run, folder: Path, tag: str) -> None:
    assert run("draw", tag, "--out", "o").code == 0
    assert "DRAFT" not in (folder / "o" / "tag.svg").read_text(encoding="utf-8")
