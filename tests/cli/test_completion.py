"""Completion: the scripts parse, and offer what the commands take."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from drafting.cli.commands import COMMANDS, command_module
from drafting.cli.completion import SCRIPTS
from drafting.cli.words import parser_of
from tests.cli.conftest import Run

needs = {
    shell: pytest.mark.skipif(shutil.which(shell) is None, reason=f"no {shell} here") for shell in SCRIPTS
}


@pytest.mark.parametrize("shell", [pytest.param(shell, marks=needs[shell]) for shell in SCRIPTS])
def test_the_script_parses(run: Run, folder: Path, shell: str) -> None:
    script = folder / "script"
    script.write_text(run("completion", shell).out)
    parsed = subprocess.run([shell, "-n", str(script)], capture_output=True, text=True)
    assert (parsed.returncode, parsed.stderr) == (0, "")


@pytest.mark.parametrize("shell", SCRIPTS)
def test_the_script_knows_every_command_and_option(run: Run, shell: str) -> None:
    script = run("completion", shell).out
    for name in COMMANDS:
        assert name in script
        for option in parser_of(name, command_module(name)).option_names:
            assert (option.removeprefix("--") if shell == "fish" else option) in script


def completed(folder: Path, script: str, *words: str) -> set[str]:
    """What bash offers for the last of `words`."""
    listed = " ".join(f"'{word}'" for word in words)
    asked = f"COMP_WORDS=({listed}); COMP_CWORD={len(words) - 1}; _awlwright"
    told = "printf '%s\\n' \"${COMPREPLY[@]}\""
    done = subprocess.run(
        ["bash", "-c", f"{script}\n{asked}\n{told}"], capture_output=True, text=True, cwd=folder
    )
    assert done.stderr == ""
    return set(done.stdout.split("\n")) - {""}


@needs["bash"]
def test_bash_offers_what_may_come_next(run: Run, folder: Path) -> None:
    script = run("completion", "bash").out
    for name in ("tag.draft", "tag two.draft", "note.txt"):
        (folder / name).touch()
    (folder / "drawings").mkdir()
    assert completed(folder, script, "awlwright", "d") == {"draw"}
    assert completed(folder, script, "awlwright", "--v") == {"--version"}
    assert completed(folder, script, "awlwright", "draw", "--p") == {"--piece", "--png"}
    assert completed(folder, script, "awlwright", "check", "t") == {"tag.draft", "tag two.draft"}
    assert completed(folder, script, "awlwright", "draw", "tag.draft", "--out", "") == {"drawings"}
    assert completed(folder, script, "awlwright", "completion", "z") == {"zsh"}
