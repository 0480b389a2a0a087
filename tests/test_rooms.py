"""Which rooms touch the disk: only text reads pattern files, only output and the command write."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOMS = Path(__file__).parent.parent / "drafting"
READING = {"read_text", "read_bytes", "open"}
WRITING = {"write_text", "write_bytes", "mkdir", "unlink"}
READERS = {"text", "proof", "cli"}
"""The proof and the command read back what was written; a pattern they have from text alone."""
WRITERS = {"output", "cli"}
READ_OWN_DATA = {"syntax/grammar.py", "output/files.py"}
"""What comes with the package and is no pattern; a file as it is being written."""
MAKE_SOURCES = {"solve/derive.py", "syntax/highlight.py", "syntax/tables.py"}
"""Run by hand, by a developer: each makes one file of the sources afresh."""


def calls_in(path: Path) -> set[str]:
    """The names of all that a module calls, `x.read_text()` as `read_text`."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    functions = [node.func for node in ast.walk(tree) if isinstance(node, ast.Call)]
    return {getattr(function, "attr", getattr(function, "id", "")) for function in functions}


def modules_outside(rooms: set[str], but: set[str]) -> list[str]:
    names = [path.relative_to(ROOMS).as_posix() for path in sorted(ROOMS.rglob("*.py"))]
    return [name for name in names if name.split("/")[0] not in rooms and name not in but]


@pytest.mark.parametrize("name", modules_outside(READERS, READ_OWN_DATA))
def test_no_other_room_reads_files(name: str) -> None:
    assert not calls_in(ROOMS / name) & READING


@pytest.mark.parametrize("name", modules_outside(WRITERS, MAKE_SOURCES))
def test_no_other_room_writes_files(name: str) -> None:
    assert not calls_in(ROOMS / name) & WRITING


def test_the_exceptions_are_needed() -> None:
    """And so the two tests above do see the calls they look for."""
    assert all(calls_in(ROOMS / name) & READING for name in READ_OWN_DATA)
    assert all(calls_in(ROOMS / name) & WRITING for name in MAKE_SOURCES)
