"""README keeps its word: its commands are what the guard runs, and its tour goes as it says."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from drafting.cli.new import SMALLEST, entitled

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


@dataclass(frozen=True)
class Fenced:
    """A fenced block: its language, its text, and the line of prose before it."""

    language: str
    text: str
    before: str


def fenced_blocks() -> list[Fenced]:
    found = re.findall(r"^([^\n]*)\n\n```(\w+)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
    return [Fenced(language, text, before) for before, language, text in found]


def blocks(language: str) -> list[Fenced]:
    return [block for block in fenced_blocks() if block.language == language]


def guard_command(wanted: str) -> str:
    """What `.ci/run` reads from README: its own function, run."""
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    function = re.search(r"^readme_command\(\) \{.*?^\}$", script, re.MULTILINE | re.DOTALL)
    assert function and f"bash -euo pipefail -c \"$(readme_command '{wanted}')\"" in script
    asked = f"{function[0]}\nreadme_command '{wanted}'"
    return subprocess.run(["bash", "-c", asked], cwd=ROOT, capture_output=True, text=True).stdout


@pytest.mark.parametrize(("index", "wanted"), [(0, "awlwright draw"), (1, "pytest")])
def test_the_guard_runs_the_commands_of_readme(index: int, wanted: str) -> None:
    """Each is one line that does all its own set-up."""
    command = blocks("sh")[index].text
    assert command.count("\n") == 1 and command.startswith("python3 -m venv .venv && .venv/bin/pip install ")
    assert guard_command(wanted) == command
    assert len(blocks("sh")) == 2


def test_the_picture_is_there_and_of_the_pattern_drawn() -> None:
    (picture,) = re.findall(r"!\[[^]]+\]\(([^)]+)\)", README)
    assert (ROOT / picture).read_bytes().startswith(b"\x89PNG")
    (drawn,) = re.findall(r"awlwright draw (patterns/\S+\.draft) --out drawings$", README, re.MULTILINE)
    assert Path(picture).name.startswith(Path(drawn).stem)


def write_pattern(block: Fenced, folder: Path) -> None:
    (folder / block.before.strip("`:")).write_text(block.text, encoding="utf-8")


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    """A folder with the command in it, where the tour is taken."""
    command = tmp_path / "bin" / "awlwright"
    command.parent.mkdir()
    command.write_text(f'#!/bin/sh\nPYTHONPATH="{ROOT}" exec "{sys.executable}" -m drafting "$@"\n')
    command.chmod(0o755)
    return tmp_path


def shell(line: str, desk: Path) -> str:
    """What a line shows on both outputs, but for what only a slow machine shows."""
    path = f"{desk / 'bin'}{os.pathsep}{os.environ['PATH']}"
    done = subprocess.run(
        ["bash", "-c", line],
        cwd=desk,
        env={**os.environ, "PATH": path},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    return re.sub(r"^[a-z]+ing .* \(\d+ of \d+.*\)\n", "", done.stdout, flags=re.MULTILINE)


def test_the_tour_goes_as_it_says(desk: Path) -> None:
    """Every command of it, in its order, shows what stands below it."""
    shown = ""
    for block in fenced_blocks():
        if block.language == "csv" or (block.language == "draft" and block.before.startswith("`loose")):
            write_pattern(block, desk)
        if block.language == "console":
            lines = re.findall(r"^\$ (.*)$", block.text, re.MULTILINE)
            shown += "".join(f"$ {line}\n{shell(line, desk)}" for line in lines)
    assert shown == "".join(block.text for block in blocks("console"))


def test_the_pattern_shown_is_the_one_that_new_writes() -> None:
    (shown,) = [block.text for block in blocks("draft") if block.before == "`tag.draft`:"]
    assert shown == entitled(SMALLEST, "tag")


def test_the_python_of_readme_runs(desk: Path) -> None:
    (block,) = blocks("python")
    (desk / "tag.draft").write_text(entitled(SMALLEST, "tag"), encoding="utf-8")
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-c", block.text], cwd=desk, env=env, capture_output=True, text=True
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert float(done.stdout.split("\n")[0]) > 0


def test_every_file_that_readme_names_is_there() -> None:
    for name in set(re.findall(r"`((?:grammar|patterns|drafting)/[^`]*)`", README)):
        assert (ROOT / name).exists(), name
