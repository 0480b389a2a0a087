"""`awlwright template`: templates to trace round, or nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from drafting.cli import template as command
from drafting.proof.disagreement import Disagreement
from tests.cli.conftest import Run
from tests.cli.patterns import LOOSE, TAG

OPENINGS = {"svg": b"<?xml", "dxf": b"999\nAwlwright", "pdf": b"%PDF"}


@pytest.mark.parametrize("form", OPENINGS)
def test_templates_are_written(run: Run, folder: Path, leathers: str, form: str) -> None:
    ran = run("template", leathers, "--out", "deep", "--format", form, "--mirrored")
    assert ran.code == 0
    names = ["tag", "tag-turned", "screen"]
    assert ran.out.splitlines()[:3] == [f"deep/leathers-template-{name}.{form}" for name in names]
    for path in (folder / "deep").iterdir():
        assert path.read_bytes().startswith(OPENINGS[form])
    before = {path: path.read_bytes() for path in (folder / "deep").iterdir()}
    assert run("template", leathers, "--out", "deep", "--format", form, "--mirrored").code == 0
    assert {path: path.read_bytes() for path in (folder / "deep").iterdir()} == before


def test_a_template_larger_than_any_page_is_told(run: Run, folder: Path) -> None:
    """14 400 units are 5080 mm (ISO 32000-1, annex C); other formats have no such bound."""
    (folder / "long.draft").write_text(TAG.replace("90 mm", "5090 mm"), encoding="utf-8")
    ran = run("template", "long.draft", "--format", "pdf", "--out", "o")
    assert ran.code == 2 and "error C193" in ran.err and "5080 mm" in ran.err and not (folder / "o").exists()
    assert run("template", "long.draft", "--format", "dxf", "--out", "o").code == 0


def test_what_has_no_room_is_told(run: Run, folder: Path) -> None:
    small = TAG.replace("40 mm", "9 mm").replace("90 mm", "8 mm").replace("by 6 mm", "by 1 mm")
    (folder / "tag.draft").write_text(small, encoding="utf-8")
    ran = run("template", "tag.draft", "--out", "o")
    assert ran.code == 0
    assert ran.err == (
        "awlwright: warning C55\n  The template of `tag` has no room for a hole to hang it by.\n"
        "  mend: Make do without, or take narrower holes, such as `--pin '0.6 mm'`.\n"
    )


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--format", "png"), "C221"),
        (("--awl-slot", "seem"), "C221"),
        (("--piece", "tga"), "C221"),
        (("--kerf", "2 mm"), "C51"),
        (("--pin", "0 mm"), "C222"),
        (("--pin", "9 mm"), "C222"),
        (("--pin", "thin"), "C222"),
        (("--layers", "none.toml"), "C52"),
    ],
)
def test_wrong_words(run: Run, folder: Path, leathers: str, words: tuple[str, str], code: str) -> None:
    ran = run("template", leathers, "--out", "o", *words)
    assert ran.code == 2 and code in ran.err and not (folder / "o").exists()


def test_cautions_are_those_of_what_it_is_cut_with(run: Run, leathers: str) -> None:
    assert "Knives" in run("template", leathers, "--out", "o", "--format", "pdf").out
    assert "smoke" in run("template", leathers, "--out", "o").out


def test_a_faulty_pattern_has_no_templates(run: Run, folder: Path) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    ran = run("template", "loose.draft", "--out", "o")
    assert ran.code == 1 and not (folder / "o").exists()


@pytest.mark.parametrize(
    "where",
    ["drafting.proof.machine.faults_in_layers_svg", "drafting.proof.machine_sheet.faults_in_template"],
)
def test_an_untrue_file_is_not_kept(
    run: Run, folder: Path, leathers: str, monkeypatch: pytest.MonkeyPatch, where: str
) -> None:
    monkeypatch.setattr(where, lambda *_: [Disagreement("tag.outline", "length", "1 mm", "2 mm")])
    ran = run("template", leathers, "--out", "o")
    assert ran.code == 3 and "C15" in ran.err and not (folder / "o").exists()


def test_help_teaches_by_example() -> None:
    assert all(example.startswith("awlwright template ") for example in command.EXAMPLES)
