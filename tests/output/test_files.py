"""A file is written whole or stays as it was."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from drafting.output import files
from drafting.output.files import write_file


def test_writes_a_new_file_and_leaves_nothing_else(tmp_path: Path) -> None:
    write_file(tmp_path / "tag.svg", b"<svg/>")
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("tag.svg", b"<svg/>")]


def test_a_new_file_has_the_permissions_of_any_new_file(tmp_path: Path) -> None:
    plain = tmp_path / "plain"
    plain.write_bytes(b"")
    write_file(tmp_path / "tag.svg", b"")
    assert stat.S_IMODE((tmp_path / "tag.svg").stat().st_mode) == stat.S_IMODE(plain.stat().st_mode)


def test_replaces_a_file_and_keeps_its_permissions(tmp_path: Path) -> None:
    place = tmp_path / "tag.svg"
    place.write_bytes(b"old")
    place.chmod(0o640)
    write_file(place, b"new")
    assert place.read_bytes() == b"new" and stat.S_IMODE(place.stat().st_mode) == 0o640


def test_writes_through_a_link(tmp_path: Path) -> None:
    """The link stays a link, and what it points to is replaced."""
    (tmp_path / "real.svg").write_bytes(b"old")
    (tmp_path / "link.svg").symlink_to("real.svg")
    write_file(tmp_path / "link.svg", b"new")
    assert (tmp_path / "link.svg").is_symlink() and (tmp_path / "real.svg").read_bytes() == b"new"


@pytest.mark.parametrize("failure", [OSError("the disk is full"), KeyboardInterrupt()])
@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_stop_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, failure: BaseException, step: str
) -> None:
    place = tmp_path / "tag.svg"
    place.write_bytes(b"old")

    def stop(*_: object) -> None:
        raise failure

    monkeypatch.setattr(files.os, step, stop)
    with pytest.raises(type(failure)):
        write_file(place, b"new")
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("tag.svg", b"old")]


def test_a_folder_that_is_not_there_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        write_file(tmp_path / "none" / "tag.svg", b"")


def test_a_name_as_long_as_a_name_may_be(tmp_path: Path) -> None:
    name = "夏" * 80 + ".svg"
    write_file(tmp_path / name, b"long")
    assert os.listdir(tmp_path) == [name]
