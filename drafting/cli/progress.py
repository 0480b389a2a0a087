"""How far a long run has come, on the error output, once it has taken more than a second.

On a terminal one line is written over and over and wiped at the end; elsewhere each step has its own line.
"""

from __future__ import annotations

import sys
import time
from types import TracebackType
from typing import Self

QUIET_SECONDS = 1.0
WIPE = "\r\x1b[K"


class Progress:
    """Use as `with Progress(total) as progress: progress.step("front")`."""

    def __init__(self, total: int) -> None:
        self.total = total
        self.n_begun = 0
        self.started = time.monotonic()
        self.is_shown = False

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self.is_shown and sys.stderr.isatty():
            print(WIPE, end="", file=sys.stderr, flush=True)

    def step(self, what: str) -> None:
        """`what` is begun now."""
        self.n_begun += 1
        if time.monotonic() - self.started < QUIET_SECONDS:
            return
        line = f"{what} ({self.n_begun} of {self.total})"
        on_terminal = sys.stderr.isatty()
        print(
            WIPE + line if on_terminal else line, end="" if on_terminal else "\n", file=sys.stderr, flush=True
        )
        self.is_shown = True
