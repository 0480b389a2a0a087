"""Writing a file so that it is whole or as it was before.

The bytes go to a new file beside the place, reach the disk, and only then take the place's name. A stop in between
leaves the old file, and no leavings.
"""

from __future__ import annotations

import os
import tempfile
from contextlib import suppress
from pathlib import Path

NEW_FILE_MODE = 0o666


def write_file(path: str | os.PathLike[str], content: bytes) -> None:
    """Puts `content` at `path`. Raises OSError where that cannot be; the old file then stays as it was."""
    place = Path(os.path.realpath(path))
    mode = _mode_for(place)
    handle, name = tempfile.mkstemp(prefix=f".{place.name[:40]}.", suffix=".part", dir=place.parent)
    try:
        with os.fdopen(handle, "wb") as part:
            part.write(content)
            part.flush()
            os.fsync(part.fileno())
        os.chmod(name, mode)
        os.replace(name, place)
    except BaseException:
        with suppress(OSError):
            os.unlink(name)
        raise
    _settle(place.parent)


def _mode_for(place: Path) -> int:
    """The permissions of the file that is there, or those a new file gets here."""
    try:
        return place.stat().st_mode & 0o7777
    except FileNotFoundError:
        mask = os.umask(0)
        os.umask(mask)
        return NEW_FILE_MODE & ~mask


def _settle(folder: Path) -> None:
    """Makes the new name last through a loss of power, where the system allows it."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
