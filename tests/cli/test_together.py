"""Files written together: all stand in their places, or none, whatever ends the writing."""

from __future__ import annotations

import os
import signal
from pathlib import Path

import pytest

from drafting.cli.together import FilesTogether
from drafting.cli.words import WrongUse


def everything_in(folder: Path) -> dict[str, bytes | None]:
    """Each file and folder below `folder`, hidden ones too."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else None
        for path in sorted(folder.rglob("*"))
    }


def test_files_stand_in_their_places_only_when_all_are_written(folder: Path) -> None:
    """The folders on the way are made, and what was there is replaced."""
    (folder / "old.svg").write_bytes(b"old")
    with FilesTogether() as files:
        files.write(folder / "old.svg", b"new")
        files.write(folder / "deep" / "er" / "one.svg", b"one")
        assert (folder / "old.svg").read_bytes() == b"old"
        assert not (folder / "deep" / "er" / "one.svg").exists()
    assert everything_in(folder) == {
        "deep": None,
        "deep/er": None,
        "deep/er/one.svg": b"one",
        "old.svg": b"new",
    }


@pytest.mark.parametrize("failure", [KeyboardInterrupt(), ValueError("x")])
def test_a_stop_leaves_the_folder_as_it_was(folder: Path, failure: BaseException) -> None:
    """The new folders go as well."""
    (folder / "old.svg").write_bytes(b"old")
    with pytest.raises(type(failure)), FilesTogether() as files:
        files.write(folder / "old.svg", b"new")
        files.write(folder / "deep" / "one.svg", b"one")
        raise failure
    assert everything_in(folder) == {"old.svg": b"old"}


def test_a_file_keeps_its_permissions(folder: Path) -> None:
    (folder / "old.svg").write_bytes(b"old")
    (folder / "old.svg").chmod(0o640)
    with FilesTogether() as files:
        files.write(folder / "old.svg", b"new")
    assert (folder / "old.svg").stat().st_mode & 0o777 == 0o640


def test_a_link_stays_a_link(folder: Path) -> None:
    (folder / "old.svg").write_bytes(b"old")
    (folder / "link.svg").symlink_to("old.svg")
    with FilesTogether() as files:
        files.write(folder / "link.svg", b"new")
    assert (folder / "link.svg").is_symlink() and (folder / "old.svg").read_bytes() == b"new"


@pytest.mark.parametrize(
    ("path", "reason"),
    [
        ("file/one.svg", "file stands where"),
        ("file/deep/one.svg", "not a directory"),
        ("taken", "folder of that name"),
        ("x" * 300, "too long"),
    ],
)
def test_a_place_that_takes_no_file_is_told(folder: Path, path: str, reason: str) -> None:
    """And what was written before it does not stay."""
    (folder / "file").write_bytes(b"a file")
    (folder / "taken").mkdir()
    before = everything_in(folder)
    with pytest.raises(WrongUse, match=reason) as raised, FilesTogether() as files:
        files.write(folder / "first.svg", b"first")
        files.write(folder / path, b"one")
    assert raised.value.message.code == "C02"
    assert everything_in(folder) == before


def test_the_renames_are_not_parted_by_a_stop(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A Ctrl-C between two of them waits until all are done, and Ctrl-C works again afterwards."""
    rename = Path.replace

    def stopped_rename(path: Path, target: Path) -> Path:
        os.kill(os.getpid(), signal.SIGINT)
        return rename(path, target)

    monkeypatch.setattr(Path, "replace", stopped_rename)
    with FilesTogether() as files:
        files.write(folder / "a.svg", b"a")
        files.write(folder / "b.svg", b"b")
    assert everything_in(folder) == {"a.svg": b"a", "b.svg": b"b"}
    with pytest.raises(KeyboardInterrupt):
        os.kill(os.getpid(), signal.SIGINT)
        signal.sigpending()
