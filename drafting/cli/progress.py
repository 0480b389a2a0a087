"""How far a long run has come, on the error output, once it has taken more than a second.

On a terminal one line with a bar is written over and over and wiped at the end; elsewhere a step has its own line, at
most one in a second.
"""

from __future__ import annotations

import sys
import time
from types import TracebackType
from typing import Self

QUIET_SECONDS = 1.0
TERMINAL_SECONDS = 0.1
"""Between two writings of the line; a terminal takes its time."""
ROUGHLY = 120.0
"""Seconds from which on minutes will do."""
BAR = 20
WIPE = "\r\x1b[K"


class Progress:
    """Use as `with Progress(total) as progress: progress.step("front")`.

    Where all steps are about as long, `is_even`, it tells how long the rest will take.
    """

    def __init__(self, total: int, is_even: bool = False) -> None:
        self.total, self.is_even = total, is_even
        self.n_begun = 0
        self.started = time.monotonic()
        self.told = self.started
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
        now = time.monotonic()
        on_terminal = sys.stderr.isatty()
        pause = TERMINAL_SECONDS if on_terminal else QUIET_SECONDS
        if now - self.started < QUIET_SECONDS or now - self.told < pause:
            return
        line = f"{what} ({self.n_begun} of {self.total}{self.rest(now - self.started)})"
        if on_terminal:
            print(f"{WIPE}{self.bar} {line}", end="", file=sys.stderr, flush=True)
        else:
            print(line, file=sys.stderr, flush=True)
        self.told, self.is_shown = now, True

    def rest(self, passed: float) -> str:
        """How long it will still take, by the steps that are done."""
        n_done = self.n_begun - 1
        if not self.is_even or n_done == 0:
            return ""
        seconds = passed / n_done * (self.total - n_done)
        amount = f"{seconds / 60:.0f} min" if seconds >= ROUGHLY else f"{max(seconds, 1.0):.0f} s"
        return f", about {amount} left"

    @property
    def bar(self) -> str:
        full = BAR * self.n_begun // max(self.total, 1)
        return f"[{'#' * full}{'.' * (BAR - full)}]"
