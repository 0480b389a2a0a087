"""Several files written as one: all of them come to stand in their places, or none does.

Each file is first written beside its place under a name of its own. When the block ends well all are
renamed, and a Ctrl-C waits until the last one is; when it ends in any other way they are removed, with
the folders made for them.
"""

from __future__ import annotations

import os
import shutil
import signal
from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from types import TracebackType
from typing import Self

from drafting.cli.values import folder_to_write
from drafting.cli.words import WrongUse
from drafting.records import dataclass
from drafting.text.catalogue.files import NOT_OURS, OVER_INPUT, UNWRITABLE_FILE


@dataclass(frozen=True)
class Replacing:
    """What may be written over: files of other programs, if told so, and never what the command reads."""

    others: bool
    inputs: frozenset[Path] = frozenset()


def add_replace(parser: ArgumentParser) -> None:
    parser.add_argument("--replace", action="store_true", help="write over files of another program, too")


def add_out_folder(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--out",
        metavar="DIR",
        required=True,
        type=folder_to_write,
        help="the folder to write into; made if need be",
    )


def replacing(given: Namespace) -> Replacing:
    """As `--replace` says it. Every word beside `--out` that names a file is taken to be read."""
    words = [word for key, value in vars(given).items() if key != "out" for word in listed(value)]
    files = frozenset(Path(word).resolve() for word in words if "\0" not in word and Path(word).is_file())
    return Replacing(given.replace, files)


def listed(value: object) -> list[str]:
    """The words that are the value of an option."""
    return [word for word in (value if isinstance(value, list) else [value]) if isinstance(word, str)]


def expect_ours(
    path: Path, is_ours: Callable[[bytes], bool], may_replace: Replacing, what: str | None = None
) -> None:
    """Nothing that another program wrote is written over unasked; `is_ours` knows a file of this tool by its bytes.

    Neither is a file of this tool that says it is something else than `what`, such as a booklet where a print goes.
    """
    if not path.is_file():
        return
    if path.resolve() in may_replace.inputs:
        raise WrongUse(OVER_INPUT, file=path)
    if may_replace.others:
        return
    data = path.read_bytes()
    if not is_ours(data):
        raise WrongUse(NOT_OURS, file=path, why="was not written by this tool")
    if what is not None:
        expect_same(path, data, what)


def expect_same(path: Path, data: bytes, what: str) -> None:
    from drafting.proof.made import record_in

    record = record_in(data)
    if record is not None and record.what != what:
        raise WrongUse(NOT_OURS, file=path, why=f"holds what `awlwright {record.what}` wrote")


@dataclass(frozen=True)
class Waiting:
    """A file that is written `beside` its `place`; the place is no link."""

    place: Path
    beside: Path


class FilesTogether:
    """Use as `with FilesTogether() as files: files.write(path, data)`."""

    def __init__(self) -> None:
        self.waiting: dict[Path, Waiting] = {}
        self.made_folders: list[Path] = []

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if kind is not None:
            self.discard()
            return
        with uninterrupted():
            self.put_in_place()

    def write(self, path: Path, data: bytes) -> Path:
        """Write `data` beside `path`; gives the name that it has until all are put in place."""
        place = Path(os.path.realpath(path))
        beside = place.with_name(f".{place.name[:40]}.{os.getpid()}-{len(self.waiting)}.part")
        try:
            self.make_folder(place.parent)
            if place.is_dir():
                raise IsADirectoryError(None, "there is a folder of that name")
            self.waiting[path] = Waiting(place, beside)
            with beside.open("wb") as part:
                part.write(data)
                part.flush()
                os.fsync(part.fileno())
            if place.exists():
                shutil.copymode(place, beside)
        except OSError as error:
            raise unwritable(path, error) from None
        return beside

    def make_folder(self, folder: Path) -> None:
        missing = [place for place in (folder, *folder.parents) if not place.exists()]
        for place in reversed(missing):
            place.mkdir()
            self.made_folders.append(place)
        if not folder.is_dir():
            raise NotADirectoryError(None, "a file stands where its folder should be")

    def put_in_place(self) -> None:
        for path, waiting in self.waiting.items():
            try:
                waiting.beside.replace(waiting.place)
            except OSError as error:
                self.discard()
                raise unwritable(path, error) from None

    def discard(self) -> None:
        for waiting in self.waiting.values():
            with suppress(OSError):
                waiting.beside.unlink()
        for folder in reversed(self.made_folders):
            with suppress(OSError):
                folder.rmdir()


def unwritable(path: Path, error: OSError) -> WrongUse:
    reason = error.strerror or "it cannot be opened"
    return WrongUse(UNWRITABLE_FILE, file=path, reason=reason[:1].lower() + reason[1:])


@contextmanager
def uninterrupted() -> Iterator[None]:
    """Ctrl-C does nothing inside; what happens here is over in the time of a few renames."""
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
