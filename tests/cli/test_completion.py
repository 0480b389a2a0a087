"""Completion: the scripts parse, and offer what the commands take."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

from drafting.cli.commands import COMMANDS, command_module
from drafting.cli.completion import SCRIPTS
from drafting.cli.words import parser_of
from tests.cli.conftest import Run


def need(shell: str) -> None:
    """At a desk without a shell it is left out; the guard has put all of them in place."""
    if shutil.which(shell) is None and not os.environ.get("CI"):
        pytest.skip(f"no {shell} here")


@pytest.mark.parametrize("shell", SCRIPTS)
def test_the_script_parses(run: Run, folder: Path, shell: str) -> None:
    need(shell)
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


def test_bash_offers_what_may_come_next(run: Run, folder: Path) -> None:
    need("bash")
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


def test_fish_offers_what_may_come_next(run: Run, folder: Path) -> None:
    need("fish")
    (folder / "script").write_text(run("completion", "fish").out)
    (folder / "tag.draft").touch()
    for typed, offered in (
        ("awlwright dr", {"draw"}),
        ("awlwright draw --pi", {"--piece"}),
        ("awlwright completion z", {"zsh"}),
        ("awlwright check t", {"tag.draft"}),
    ):
        done = subprocess.run(
            ["fish", "--no-config", "-c", f"source script; complete -C '{typed}'"],
            capture_output=True,
            text=True,
            cwd=folder,
        )
        assert done.stderr == ""
        assert {line.split("\t")[0] for line in done.stdout.splitlines()} == offered


def test_zsh_offers_what_may_come_next(run: Run, folder: Path) -> None:
    """Its own line editor is not there without a terminal, so what it is told is caught where it is told."""
    need("zsh")
    (folder / "script").write_text(run("completion", "zsh").out)
    caught = "_describe() { print -l $commands }; _arguments() { print -l -- $@ }; _files() { }"
    for words, offered in (
        ("awlwright ''", "draw:write true-to-size drawings"),
        ("awlwright draw ''", "*--piece[draw this piece only"),
        ("awlwright completion ''", "*:word:(bash zsh fish)"),
    ):
        asked = f"{caught}; words=({words}); CURRENT=$#words; source ./script"
        done = subprocess.run(["zsh", "-f", "-c", asked], capture_output=True, text=True, cwd=folder)
        assert done.stderr == "" and offered in done.stdout
