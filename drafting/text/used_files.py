"""The files that a pattern may use: those below the folder it starts in, and below a folder of shared blocks.

Takes a path as it is written and the file that says it; gives its Source, the same one each time. A path counts from
the folder of the file that says it, then from the shared folder. It is judged by where it truly lies, so `..` and
symbolic links lead nowhere else, and nothing is looked up outside.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from drafting.records import dataclass, field
from drafting.text.source import Source, UnreadableSource, read_source


class OutOfReach(Exception):
    """The file lies outside the folders that a pattern may use files from."""


@dataclass
class UsedFiles:
    """`folder` is where the starting file lies, `shared` the folder of shared blocks; either may be missing."""

    folder: Path | None = None
    shared: Path | None = None
    places: dict[Source, Path] = field(default_factory=dict)
    """Where each file that was read lies."""
    fetched: dict[Path, Source] = field(default_factory=dict)
    """What was read, by its true place."""

    @classmethod
    def beginning(cls, source: Source, path: str | Path, shared: str | Path | None) -> UsedFiles:
        """The files of a pattern whose own file is read already."""
        files = cls(Path(path).parent, Path(shared) if shared is not None else None)
        files.places[source] = Path(path)
        files.fetched[_true_place(Path(path))] = source
        return files

    def fetch(self, path: str, user: Source) -> Source:
        """The file that `user` calls `path`. OutOfReach and UnreadableSource tell why there is none."""
        if os.path.isabs(path):
            raise OutOfReach(path)
        within = [(place, name) for place, name in self._candidates(path, user) if self._is_within(place)]
        if not within:
            raise OutOfReach(path)
        return self._read(*next((each for each in within if each[0].exists()), within[0]))

    def _candidates(self, path: str, user: Source) -> Iterator[tuple[Path, str]]:
        """Where the file may lie, and how it is called then."""
        said_in = self.places[user].parent if user in self.places else self.folder
        if said_in is not None:
            name = os.path.normpath(os.path.join(os.path.dirname(user.name), path))
            yield Path(os.path.normpath(said_in / path)), name
        if self.shared is not None:
            place = os.path.normpath(self.shared / path)
            yield Path(place), place

    def _is_within(self, place: Path) -> bool:
        roots = [_true_place(folder) for folder in (self.folder, self.shared) if folder is not None]
        return any(_true_place(place).is_relative_to(root) for root in roots)

    def _read(self, place: Path, name: str) -> Source:
        true_place = _true_place(place)
        if true_place not in self.fetched:
            source = Source(name, read_source(place).text)
            self.fetched[true_place] = source
            self.places[source] = place
        return self.fetched[true_place]


def _true_place(path: Path) -> Path:
    """Where a path truly leads, symbolic links followed."""
    try:
        return path.resolve()
    except (OSError, RuntimeError, ValueError):
        raise UnreadableSource(str(path), "it leads nowhere") from None
