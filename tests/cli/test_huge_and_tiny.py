"""Pieces of 100 km and of a thousandth of a millimetre: each command ends soon, with the right file or in plain words."""

from __future__ import annotations

from pathlib import Path

import ezdxf
import pytest

from tests.cli.conftest import Run

KM = 1e6
COMMANDS = {
    "draw": ("--out", "drawn"),
    "template": ("--out", "templates", "--format", "dxf"),
    "cut": ("--out", "cut", "--format", "dxf", "--cutter", "blade"),
    "booklet": ("--out", "booklet.pdf"),
}
SIZES = {
    "a rail": f"box {100 * KM:.0f} mm by 200 mm",
    "a thread": f"box {100 * KM:.0f} mm by 0.5 mm",
    "a field": f"box {100 * KM:.0f} mm by {100 * KM:.0f} mm; 300 mm rounded",
    "a ring road": f"{100 * KM:.0f} mm across",
    "a grain": "box 0.001 mm by 0.001 mm",
    "a hair": "box 0.001 mm by 200 mm",
}


def written(folder: Path, outline: str) -> str:
    text = (
        'pattern "Ferry rail"\nstock body: leather; 2 mm thick\n\npiece rail: cut 1 from body; grain level\n'
    )
    (folder / "rail.draft").write_text(f"{text}  outline: {outline}\n", encoding="utf-8")
    return "rail.draft"


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("command", COMMANDS)
def test_files_are_written_and_proved(run: Run, folder: Path, command: str, size: str) -> None:
    ran = run(command, written(folder, SIZES[size]), *COMMANDS[command])
    assert ran.code == 0, ran.err
    assert not [word for word in ran.out.split() if "e+" in word]


@pytest.mark.parametrize("size", ["a rail", "a thread", "a field", "a ring road"])
def test_what_no_paper_carries_is_not_printed(run: Run, folder: Path, size: str) -> None:
    ran = run("print", written(folder, SIZES[size]), "--out", "rail.pdf")
    assert (ran.code, "C192" in ran.err, (folder / "rail.pdf").exists()) == (2, True, False)


@pytest.mark.parametrize("size", ["a grain", "a hair"])
def test_what_is_hardly_there_is_printed(run: Run, folder: Path, size: str) -> None:
    ran = run("print", written(folder, SIZES[size]), "--out", "rail.pdf")
    assert (ran.code, (folder / "rail.pdf").exists()) == (0, True), ran.err


def test_a_hundred_kilometres_are_cut_to_the_millimetre(run: Run, folder: Path) -> None:
    ran = run("cut", written(folder, SIZES["a rail"]), *COMMANDS["cut"])
    assert "on 100000010 mm by 210 mm of body" in ran.out
    (outline,) = ezdxf.readfile(next((folder / "cut").glob("*.dxf"))).modelspace()  # type: ignore[attr-defined]
    across = [x for x, *_ in outline.get_points()]  # type: ignore[attr-defined]
    assert max(across) - min(across) == pytest.approx(100 * KM, abs=1e-3)
