"""Where a command ends: never in a traceback, whatever happens to it."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from drafting.cli import tidy
from drafting.cli.main import main
from tests.cli.conftest import Run, environment


def test_a_fault_of_the_tool_is_told_in_a_line_to_report(
    run: Run, monkeypatch: pytest.MonkeyPatch, folder: Path
) -> None:
    """It names what failed and where in the package, and no place of this machine."""

    def broken(source: object) -> str:
        return str(1 // 0)

    monkeypatch.setattr(tidy, "tidied", broken)
    (folder / "tag.draft").touch()
    ran = run("tidy", "tag.draft")
    assert ran.code == 3
    assert "error C16\n  The tool itself has failed: ZeroDivisionError" in ran.err
    assert " in drafting/cli/tidy.py, line " in ran.err
    assert "Please report" in ran.err
    assert "Traceback" not in ran.err and str(Path.home()) not in ran.err


def test_a_stop_exits_with_130(run: Run, monkeypatch: pytest.MonkeyPatch, folder: Path) -> None:
    def stopped(source: object) -> str:
        raise KeyboardInterrupt

    monkeypatch.setattr(tidy, "tidied", stopped)
    (folder / "tag.draft").touch()
    ran = run("tidy", "tag.draft")
    assert (ran.code, ran.out, ran.err) == (130, "", "\nawlwright: stopped; no file was changed\n")


def test_a_reader_that_goes_away_is_no_fault(folder: Path) -> None:
    """`awlwright … | head -0` says nothing on the error output."""
    reader, writer = os.pipe()
    os.close(reader)
    words = [sys.executable, "-m", "drafting", "completion", "bash"]
    done = subprocess.run(words, stdout=writer, stderr=subprocess.PIPE, env=environment())
    os.close(writer)
    assert (done.returncode, done.stderr) == (141, b"")


def test_an_output_that_takes_nothing_is_told(folder: Path) -> None:
    """As on a full disk: here it was opened for reading only."""
    words = [sys.executable, "-m", "drafting", "completion", "bash"]
    with open(os.devnull, "rb") as closed:
        done = subprocess.run(words, stdout=closed, stderr=subprocess.PIPE, env=environment(), text=True)
    assert done.returncode == 2
    assert done.stderr.startswith("awlwright: error C02\n  `standard output` cannot be written: ")
    assert done.stderr.count("\n") == 3


def test_the_command_runs_from_any_folder(run_real: Run) -> None:
    ran = run_real("new", "tag")
    assert (ran.code, ran.out) == (0, "tag.draft\n")


def test_an_output_of_few_characters_still_gets_its_lines(run_real: Run) -> None:
    ran = run_real("new", "渡し守", PYTHONIOENCODING="ascii")
    assert (ran.code, ran.out) == (0, "\\u6e21\\u3057\\u5b88.draft\n")


class Terminal(io.StringIO):
    """An output that says it is a terminal."""

    def isatty(self) -> bool:
        return True


def on_terminal(monkeypatch: pytest.MonkeyPatch, **wishes: str) -> str:
    """What a wrong command shows on a terminal of 60 columns with these wishes in the environment."""
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.delenv("NO_COLOR", raising=False)
    for name, value in {"TERM": "xterm", "COLUMNS": "60", **wishes}.items():
        monkeypatch.setenv(name, value)
    assert main(["drw"]) == 2
    return terminal.getvalue()


def test_a_terminal_gets_colors_unless_it_wants_none(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "\x1b[1;31merror C04\x1b[0m" in on_terminal(monkeypatch)
    assert "\x1b" not in on_terminal(monkeypatch, NO_COLOR="1")
    assert "\x1b" in on_terminal(monkeypatch, NO_COLOR="")
    assert "\x1b" not in on_terminal(monkeypatch, TERM="dumb")


def test_a_terminal_gets_lines_of_its_width(monkeypatch: pytest.MonkeyPatch) -> None:
    shown = on_terminal(monkeypatch, NO_COLOR="1").splitlines()
    assert 40 < max(len(line) for line in shown) <= 60
    assert len(shown) > 3


def test_a_pipe_gets_no_colors_and_unbroken_lines(run_real: Run) -> None:
    ran = run_real("drw", TERM="xterm", COLUMNS="40")
    assert "\x1b" not in ran.err
    assert any(len(line) > 60 for line in ran.err.splitlines())
