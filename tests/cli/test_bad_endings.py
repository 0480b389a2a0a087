"""Whatever ends a command that writes: a full disk, a stop, no place to write in. What was there stays as it was."""

from __future__ import annotations

import re
from errno import ENOSPC
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.test_together import everything_in

pytestmark = pytest.mark.usefixtures("goods")

COMMANDS = {
    "draw": "draw tag.draft --out o",
    "print": "print tag.draft --out o/tag.pdf",
    "template": "template tag.draft --format dxf --out o",
    "cut": "cut leathers.draft --cutter blade --out o",
    "booklet pdf": "booklet tag.draft --out o/tag.pdf",
    "booklet html": "booklet tag.draft --out o/tag.html",
    "list": "list tag.draft --copies 3 --out o/list.txt",
    "sizes": "sizes tag.draft --format csv --out o/sizes.csv",
    "sizes drawn": "sizes tag.draft --format svg --piece tag --out o/sizes.svg",
    "lay": "lay tag.draft:2 --panel 300x300 --steps 1 --out o",
    "roster": "roster folder.draft choir.csv --out o",
}
"""Every command that writes files, as it is typed."""


@pytest.mark.parametrize("words", COMMANDS.values(), ids=COMMANDS)
def test_a_bad_ending_leaves_the_old_files_whole(
    run: Run, folder: Path, words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """First a disk that is full at the last file of a run, then a stop there. The patterns have changed since the old
    files were made, so that none of them could be taken for a new one."""
    handles: list[int] = []
    monkeypatch.setattr("os.fsync", handles.append)
    assert run(*words.split()).code == 0 and handles
    for name in ("tag.draft", "leathers.draft", "folder.draft"):
        (folder / name).write_text(
            "# Changed.\n" + (folder / name).read_text(encoding="utf-8"), encoding="utf-8"
        )
    before, last = everything_in(folder), len(handles)

    def ends_at_last(ending: BaseException) -> None:
        handles.clear()

        def sync(handle: int) -> None:
            handles.append(handle)
            if len(handles) == last:
                raise ending

        monkeypatch.setattr("os.fsync", sync)

    ends_at_last(OSError(ENOSPC, "No space left on device"))
    full = run(*words.split())
    assert (full.code, full.out) == (2, "") and "C02" in full.err and "no space left" in full.err
    assert everything_in(folder) == before
    ends_at_last(KeyboardInterrupt())
    stopped = run(*words.split())
    assert stopped.code == 130 and "stopped" in stopped.err and "Traceback" not in stopped.err
    assert everything_in(folder) == before


@pytest.mark.parametrize("words", COMMANDS.values(), ids=COMMANDS)
def test_a_folder_that_cannot_be_written_is_told(run: Run, folder: Path, words: str) -> None:
    """A file stands where the folder should be."""
    (folder / "o").write_bytes(b"no folder")
    before = everything_in(folder)
    ran = run(*words.split())
    assert ran.code == 2 and re.search("error C(02|223|224)\\n.*(a file stands|is a file)", ran.err)
    assert everything_in(folder) == before
