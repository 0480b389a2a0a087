"""Ctrl-C on real runs: what is half written goes away again, and a search keeps its best."""

from __future__ import annotations

import os
import pty
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

import drafting
from tests.cli.conftest import ROOT, Ran, environment
from tests.cli.patterns import STOCKED
from tests.cli.test_together import everything_in
from tests.drawing.rosters import CHOIR, FOLDER

PIECES = "".join(f"piece p{number}: like tag\n" for number in range(10))
PEOPLE = "".join(f"Rower {number},alto,slim\n" for number in range(40))
COMMANDS = {
    "draw": "draw many.draft --out o",
    "print": "print many.draft --out o/many.pdf",
    "cut": "cut many.draft --cutter blade --format dxf --out o",
    "lay": "lay many.draft --panel 600x600 --steps 1 --paper a3 --out o",
    "roster": "roster folder.draft choir.csv --out o",
}


def is_half_written(running: subprocess.Popen[str]) -> bool:
    """Waits until a file stands beside its place, not yet in it."""
    while running.poll() is None and not any(Path("o").glob("**/.*.part")):
        time.sleep(0.005)
    return running.poll() is None


def stopped_at_its_first_file(words: str) -> Ran:
    """A real run that gets Ctrl-C while it writes."""
    with subprocess.Popen(
        [sys.executable, "-m", "drafting", *words.split()],
        stderr=subprocess.PIPE,
        stdout=subprocess.PIPE,
        env=environment(),
        text=True,
        encoding="utf-8",
    ) as running:
        assert is_half_written(running)
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=120)
    return Ran(running.returncode, out, err)


@pytest.mark.parametrize("words", COMMANDS.values(), ids=COMMANDS)
def test_a_stop_while_files_are_written_leaves_none(folder: Path, words: str) -> None:
    """Exit code 130, and the folder that was made is gone again."""
    (folder / "many.draft").write_text(STOCKED + PIECES, encoding="utf-8")
    (folder / "folder.draft").write_text(FOLDER, encoding="utf-8")
    (folder / "choir.csv").write_text(CHOIR.splitlines()[0] + "\n" + PEOPLE, encoding="utf-8")
    before = everything_in(folder)
    ran = stopped_at_its_first_file(words)
    assert (ran.code, ran.out) == (130, "")
    assert "Traceback" not in ran.err and ran.err.endswith("awlwright: stopped; no file was changed\n")
    assert everything_in(folder) == before and not (folder / "o").exists()


TOLD = b"Ctrl-C keeps the best"
SEARCHES = {
    "hide": f"--hide {ROOT / 'patterns/hides/shoulder.draft'} --steps 1000000",
    "panels": "--panel 600x400 --time 600",
    "roll": "--roll 600mm --time 600",
}


@contextmanager
def searching(words: str) -> Iterator[subprocess.Popen[str]]:
    """A real run at a terminal, once the first find of its search is told there."""
    terminal, its_end = pty.openpty()
    with subprocess.Popen(
        [sys.executable, "-m", "drafting", *words.split()],
        stderr=its_end,
        stdout=subprocess.PIPE,
        env=environment(),
        text=True,
        encoding="utf-8",
        start_new_session=True,
    ) as running:
        os.close(its_end)
        err = b""
        while TOLD not in err:
            err += os.read(terminal, 4096)
        yield running
    os.close(terminal)


def stopped_while_it_searches(words: str) -> Ran:
    """All processes of the run get Ctrl-C."""
    with searching(words) as running:
        os.killpg(running.pid, signal.SIGINT)
        out, _ = running.communicate(timeout=120)
    return Ran(running.returncode, out, "")


@pytest.mark.parametrize("words", SEARCHES.values(), ids=SEARCHES)
def test_a_stop_while_a_lay_is_searched_keeps_the_best(folder: Path, words: str) -> None:
    """Long before its ten minutes are over: what it writes is a sound lay that says why it ended."""
    tag = ROOT / "patterns/hatch-tag.draft"
    ran = stopped_while_it_searches(f"lay {tag} --copies 40 --stock body {words} --out o")
    assert ran.code == 0 and "stopped with Ctrl-C: this is the best so far" in ran.out
    laid = drafting.read_lay(Path("o/lay.json").read_text(encoding="utf-8"))
    assert laid.violations() == [] and laid.lay.n_laid > 0
    assert Path("o/sheet-1.svg").is_file()


PROCESSES = Path("/proc")


@pytest.mark.skipif(not (PROCESSES / "self/stat").is_file(), reason="no list of processes here")
@pytest.mark.parametrize("words", SEARCHES.values(), ids=SEARCHES)
def test_a_search_that_is_killed_leaves_none_running(folder: Path, words: str) -> None:
    """Whatever kills the command, what it started ends by itself: it would search on for as long as it was asked to."""
    tag = ROOT / "patterns/hatch-tag.draft"
    with searching(f"lay {tag} --copies 40 --stock body {words} --out o") as running:
        started = children_of(running.pid)
        running.kill()
        running.communicate(timeout=120)
    assert started
    patience = time.monotonic() + 120
    while any(map(is_running, started)):
        assert time.monotonic() < patience
        time.sleep(0.1)
    assert not Path("o").exists()


def children_of(pid: int) -> list[int]:
    """Those that a process has started, and those that these have."""
    parents = {
        int(stat.parent.name): parent for stat in PROCESSES.glob("[0-9]*/stat") if (parent := parent_of(stat))
    }
    found = [child for child, parent in parents.items() if parent == pid]
    return found + [below for child in found for below in children_of(child)]


def parent_of(stat: Path) -> int | None:
    """None for a process that has ended meanwhile."""
    try:
        return int(stat.read_text("utf-8").rpartition(")")[2].split()[1])
    except OSError:
        return None


def is_running(pid: int) -> bool:
    """A process that nobody has asked after yet, a zombie, runs no more."""
    try:
        return (PROCESSES / f"{pid}/stat").read_text("utf-8").rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False
