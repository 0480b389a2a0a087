"""`awlwright cut`: files for a machine, or nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from drafting.cli import cut as command
from drafting.proof.disagreement import Disagreement
from tests.cli.conftest import Run
from tests.cli.patterns import LEATHERS, LOOSE, TWO_SIZES


def everything_in(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*"))


@pytest.mark.parametrize(("form", "opening"), [("svg", b"<?xml"), ("dxf", b"999\nAwlwright")])
def test_a_pattern_is_cut(run: Run, folder: Path, tag: str, form: str, opening: bytes) -> None:
    ran = run("cut", tag, "--out", "deep", "--format", form, "--kerf", "0.2 mm")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0] == f"deep/tag-cut.{form}: 1 piece on 51 mm by 101 mm; cut 1"
    assert (folder / f"deep/tag-cut.{form}").read_bytes().startswith(opening)


def test_each_stock_has_its_file_and_what_is_left_is_told(run: Run, folder: Path, leathers: str) -> None:
    ran = run("cut", leathers, "--out", "machine")
    assert ran.code == 0
    assert everything_in(folder / "machine") == ["leathers-cut-body.svg", "leathers-cut-clear.svg"]
    assert "by hand, for no file holds them: tag.rim" in ran.out
    assert "warning C54" in ran.err and "`漢`" in ran.err


def test_the_column_of_a_table_is_engraved_on_no_item(run: Run, folder: Path, leathers: str) -> None:
    text = LEATHERS.replace('text "漢 No 7"', 'roster "number"')
    (folder / leathers).write_text(text, encoding="utf-8")
    ran = run("cut", leathers, "--out", "machine")
    assert ran.code == 0 and "engrave" not in ran.out
    assert "for `awlwright roster`, one value to each item: tag.name" in ran.out


def test_cautions_are_those_of_the_cutter(run: Run, leathers: str) -> None:
    laser, blade = (
        run("cut", leathers, "--out", "machine", "--cutter", one).out for one in ("laser", "blade")
    )
    assert "Never put PVC" in laser and "smoke" in laser and "Knives" not in laser
    assert "Knives" in blade and "PVC" not in blade and "smoke" not in blade


def test_a_laser_is_kept_from_pvc_and_a_blade_is_not(run: Run, folder: Path, leathers: str) -> None:
    text = LEATHERS.replace("0.3 mm thick", '0.3 mm thick "vinyl"')
    (folder / leathers).write_text(text, encoding="utf-8")
    ran = run("cut", leathers, "--out", "machine")
    assert ran.code == 2 and "C53" in ran.err and "`vinyl`" in ran.err and "hydrogen chloride" in ran.err
    assert not (folder / "machine").exists()
    assert run("cut", leathers, "--out", "machine", "--cutter", "blade").code == 0
    assert run("cut", leathers, "--out", "machine", "--piece", "tag").code == 0


def test_chrome_leather_and_a_laser(run: Run, folder: Path, leathers: str) -> None:
    text = LEATHERS.replace("2 mm thick", '2 mm thick "chrome-tanned side"')
    (folder / leathers).write_text(text, encoding="utf-8")
    ran = run("cut", leathers, "--out", "machine", "--piece", "tag")
    assert ran.code == 2 and "chromium VI" in ran.err


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--format", "hpgl"), "C221"),
        (("--dxf-version", "r9"), "C221"),
        (("--cutter", "axe"), "C221"),
        (("--piece", "tga"), "C221"),
        (("--size", "huge"), "C221"),
        (("--kerf", "wide"), "C222"),
        (("--kerf", "0.2"), "C222"),
        (("--kerf", "0.2 deg"), "C222"),
        (("--layers", "none.toml"), "C52"),
        (("--layers", "bad.toml"), "C52"),
        (("--layers", "unknown.toml"), "C52"),
        (("--layers", "latin.toml"), "C52"),
    ],
)
def test_wrong_words(run: Run, folder: Path, tag: str, words: tuple[str, str], code: str) -> None:
    (folder / "bad.toml").write_text("[cut\nname = 1")
    (folder / "unknown.toml").write_text('[drill]\nname = "D"')
    (folder / "latin.toml").write_bytes(b"[cut]\nname = '\xe9'")
    ran = run("cut", tag, "--out", "machine", *words)
    assert ran.code == 2 and code in ran.err
    assert not (folder / "machine").exists()


def test_a_kerf_wider_than_a_hole(run: Run, folder: Path, leathers: str) -> None:
    ran = run("cut", leathers, "--out", "machine", "--kerf", "4.5 mm")
    assert ran.code == 2 and "C51" in ran.err
    assert "A cutter that takes away 4.5 mm is too wide for `tag.eye`: 4 mm is the most there." in ran.err
    assert not (folder / "machine").exists()


def test_layers_are_named_by_a_file(run: Run, folder: Path, leathers: str) -> None:
    (folder / "cutter.toml").write_text('cut = { name = "RIM", color = "#00ff00" }\n', encoding="utf-8")
    ran = run("cut", leathers, "--out", "machine", "--layers", "cutter.toml")
    assert ran.code == 0 and "RIM 2" in ran.out
    text = (folder / "machine/leathers-cut-body.svg").read_text(encoding="utf-8")
    assert 'id="layer-RIM"' in text and 'stroke="#00ff00"' in text


def test_a_faulty_pattern_is_not_cut(run: Run, folder: Path) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    ran = run("cut", "loose.draft", "--out", "machine")
    assert ran.code == 1 and not (folder / "machine").exists()


@pytest.mark.parametrize(
    "where", ["drafting.proof.machine.faults_in_layers_svg", "drafting.proof.machine_sheet.faults_in_sheet"]
)
def test_an_untrue_file_is_not_kept(
    run: Run, folder: Path, leathers: str, monkeypatch: pytest.MonkeyPatch, where: str
) -> None:
    assert run("cut", leathers, "--out", "machine").code == 0
    before = {path: path.read_bytes() for path in (folder / "machine").iterdir()}
    monkeypatch.setattr(where, lambda *_: [Disagreement("tag.outline", "length", "1 mm", "2 mm")])
    ran = run("cut", leathers, "--out", "machine", "--kerf", "1 mm")
    assert ran.code == 3 and "C15" in ran.err and "tag.outline: length is 1 mm" in ran.err
    assert {path: path.read_bytes() for path in (folder / "machine").iterdir()} == before


def test_the_first_size_is_cut_unless_another_is_named(run: Run, folder: Path) -> None:
    (folder / "sizes.draft").write_text(TWO_SIZES, encoding="utf-8")
    slim = run("cut", "sizes.draft", "--out", "a")
    broad = run("cut", "sizes.draft", "--out", "b", "--size", "broad")
    assert "drawn in size `slim`" in slim.err and broad.err == ""
    assert slim.out.splitlines()[0] != broad.out.splitlines()[0]


def test_help_teaches_by_example() -> None:
    assert all(example.startswith("awlwright cut ") for example in command.EXAMPLES)


def test_messages_are_shown_with_their_mends(run: Run, folder: Path, leathers: str) -> None:
    (folder / "own.toml").write_text('[drill]\nname = "D"')
    ran = run("cut", leathers, "--out", "o", "--layers", "own.toml")
    assert ran.err == (
        "awlwright: error C52\n  `--layers own.toml` sets no layers: there is no operation `drill`; there are engrave, crease, "
        "stitch, punch, slit, inner-cut, cut.\n  mend: Write for each operation what you want otherwise, such as "
        '`inner-cut = { name = "HOLES", color = "#0000ff" }`.\n'
    )
    ran = run("cut", leathers, "--out", "o", "--kerf", "4.5 mm")
    assert ran.err.endswith(
        "\n  mend: Say what your cutter takes away, such as `--kerf '0.1 mm'`, or draw `tag.eye` wider.\n"
    )
    ran = run("cut", leathers, "--out", "o")
    assert ran.err == (
        "awlwright: warning C54\n  No stroke and no outline is known of `漢`, so the engraved words lack them.\n"
        "  mend: Write the words with other letters, engrave them by hand, or install the letters of China, Japan and "
        "Korea with `pip install noto-cjk-sans-jp-regular`.\n"
    )
    text = LEATHERS.replace("0.3 mm thick", '0.3 mm thick "clear PVC"')
    (folder / leathers).write_text(text, encoding="utf-8")
    ran = run("cut", leathers, "--out", "o")
    assert ran.err == (
        "awlwright: error C53\n  The stock `clear` is PVC, for `PVC` is written of it, and a laser must not cut that: "
        "heated it gives off hydrogen chloride, which is poisonous and corrodes the machine.\n  mend: Cut it with a "
        "knife and say `--cutter blade`. If it is something else, say so beside it, such as `stock clear: leather "
        '"vegetable-tanned"`.\n'
    )
