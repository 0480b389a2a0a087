"""How the tests of this folder run a command: in this process, or as one of its own."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from drafting.cli.main import main
from tests.cli.patterns import LEATHERS, STOCKED, TAG, TWO_SIZES
from tests.drawing.rosters import CHOIR, FOLDER

ROOT = Path(__file__).parent.parent.parent


@dataclass(frozen=True)
class Ran:
    """What came of a command line."""

    code: int
    out: str
    err: str


Run = Callable[..., Ran]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder to work in."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def tag(folder: Path) -> str:
    """The file of a pattern of one piece."""
    (folder / "tag.draft").write_text(TAG, encoding="utf-8")
    return "tag.draft"


@pytest.fixture
def sizes(folder: Path) -> str:
    """The file of a pattern of two sizes."""
    (folder / "sizes.draft").write_text(TWO_SIZES, encoding="utf-8")
    return "sizes.draft"


@pytest.fixture
def leathers(folder: Path) -> str:
    """The file of a pattern of two stocks."""
    (folder / "leathers.draft").write_text(LEATHERS, encoding="utf-8")
    return "leathers.draft"


@pytest.fixture
def goods(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that each command can write from: patterns, and a table of people."""
    monkeypatch.setattr("drafting.cli.lay.WORKERS", 1)
    for name, text in (
        ("tag.draft", STOCKED),
        ("leathers.draft", LEATHERS),
        ("folder.draft", FOLDER),
        ("choir.csv", CHOIR),
    ):
        (folder / name).write_text(text, encoding="utf-8")


@pytest.fixture
def no_sync(monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk is not waited for where nothing is learnt from it."""
    monkeypatch.setattr("os.fsync", lambda handle: None)


@pytest.fixture(autouse=True, scope="session")
def can_be_stopped() -> None:
    """A shell that starts the tests behind its back has them ignore Ctrl-C, and so would the runs they start."""
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture(autouse=True)
def is_never_long(monkeypatch: pytest.MonkeyPatch) -> None:
    """A slow machine must not make a run tell of its progress."""
    monkeypatch.setattr("drafting.cli.progress.QUIET_SECONDS", float("inf"))


@pytest.fixture
def run(folder: Path, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command line in this process, from an empty folder."""

    def run_words(*words: str) -> Ran:
        code = main(words)
        return Ran(code, *capsys.readouterr())

    return run_words


def environment(**changes: str) -> dict[str, str]:
    """The environment of a real command: this package, and a terminal's wishes only where they are given."""
    wishes = ("NO_COLOR", "TERM", "COLUMNS", "PYTHONIOENCODING", "FORCE_COLOR")
    kept = {key: value for key, value in os.environ.items() if key not in wishes}
    return {**kept, "PYTHONPATH": str(ROOT), **changes}


@pytest.fixture
def run_real(folder: Path) -> Run:
    """Run a command line as a process, from an empty folder; `typed` is what a pipe brings."""

    def run_words(*words: str, typed: bytes = b"", **changes: str) -> Ran:
        done = subprocess.run(
            [sys.executable, "-m", "drafting", *words],
            input=typed,
            capture_output=True,
            env=environment(**changes),
            timeout=120,
        )
        return Ran(done.returncode, done.stdout.decode(), done.stderr.decode())

    return run_words
