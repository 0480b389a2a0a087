"""Several searches at once, one process each, of which the best counts.

The first search runs here; the others in processes of their own, which ignore Ctrl-C and stop when they are told to. Of
two that are equally good the first counts, so that the choice does not hang on which was quicker.
"""

from __future__ import annotations

import multiprocessing
import signal
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from multiprocessing.connection import Connection
from multiprocessing.synchronize import Event
from threading import current_thread, main_thread
from typing import Self

from drafting.lay.kinds import Kind
from drafting.lay.search import Best, Search
from drafting.lay.sets import Sets
from drafting.lay.sheets import Sheet
from drafting.lay.table import Table
from drafting.records import dataclass, replace

PATIENCE = 5.0
"""Seconds that a process which is ended may take to end."""
LAST_STEP = 20.0
"""Seconds that a search which is told to stop may take for the step it is in; then it does not count."""


@dataclass(frozen=True)
class Task:
    """One sheet to search a lay for. It ends after `steps`, or at `deadline` on the clock of `time.time`."""

    kinds: tuple[Kind, ...]
    sheet: Sheet
    gap: float
    demand: tuple[int, ...]
    seed: str
    steps: int | None
    deadline: float | None
    sets: Sets | None = None

    def search(self, worker: int, should_stop: Callable[[], bool], tell: Callable[[Best], None]) -> Search:
        """The search, done."""
        table = table_of(self.kinds, self.sheet, self.gap)

        def is_over() -> bool:
            return should_stop() or (self.deadline is not None and time.time() >= self.deadline)

        seed = f"{self.seed}/{worker}"
        search = Search(table, self.demand, seed, sets=self.sets, should_stop=is_over, tell=tell)
        search.run(self.steps)
        return search


_tables: dict[tuple[object, ...], Table] = {}


def table_of(kinds: tuple[Kind, ...], sheet: Sheet, gap: float) -> Table:
    """Panels are alike: the table of the last sheet serves the next."""
    key = (sheet.likeness, gap, *(replace(kind, demand=0) for kind in kinds))
    if key not in _tables:
        _tables.clear()
        _tables[key] = Table(kinds, sheet, gap)
    return _tables[key]


Helper = tuple[multiprocessing.process.BaseProcess, Connection]


class Workers:
    """Use as `with Workers(2) as workers: workers.search(task)`."""

    def __init__(self, count: int) -> None:
        self.count = max(1, count)
        self.helpers: list[Helper] = []
        self.stop: Event | None = None

    def __enter__(self) -> Self:
        if self.count > 1:
            context = multiprocessing.get_context("spawn")
            self.stop = context.Event()
            for number in range(1, self.count):
                here, there = context.Pipe()
                process = context.Process(target=_serve, args=(there, self.stop, number), daemon=True)
                with _deaf_to_ctrl_c(), _apart_from_main():
                    process.start()
                there.close()
                self.helpers.append((process, here))
        return self

    def __exit__(self, *error: object) -> None:
        for process, connection in self.helpers:
            connection.close()
            process.terminate()
            process.join(PATIENCE)

    def search(self, task: Task, tell: Callable[[Best], None]) -> tuple[Best, bool]:
        """The best of all searches, and whether Ctrl-C stopped them."""
        self.helpers = [helper for helper in self.helpers if _sent(helper[1], task)]
        mine = task.search(0, lambda: False, tell)
        was_stopped = mine.was_stopped
        if self.stop is not None and (was_stopped or task.steps is None):
            self.stop.set()
        found = [mine.best]
        for helper in list(self.helpers):
            try:
                found += self.answer(helper)
            except KeyboardInterrupt:
                was_stopped = True
                self.presume_stop().set()
                found += self.answer(helper)
        if self.stop is not None:
            self.stop.clear()
        return max(found, key=lambda best: best.value), was_stopped

    def answer(self, helper: Helper) -> list[Best]:
        """What a helper found. One that was told to stop and does not is ended: nothing waits for it for ever."""
        process, connection = helper
        if self.presume_stop().is_set() and not connection.poll(LAST_STEP):
            self.helpers.remove(helper)
            process.terminate()
            return []
        return _answer(connection)

    def presume_stop(self) -> Event:
        assert self.stop is not None
        return self.stop


@contextmanager
def _deaf_to_ctrl_c() -> Iterator[None]:
    """A process started meanwhile never hears Ctrl-C, not even before it searches."""
    if current_thread() is not main_thread():
        yield
        return
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


@contextmanager
def _apart_from_main() -> Iterator[None]:
    """A process started meanwhile does not run the script again that asked for the lay: it needs nothing of it."""
    main = vars(sys.modules["__main__"])
    kept = {name: value for name, value in main.items() if name in ("__spec__", "__file__")}
    main.update(dict.fromkeys(kept))
    try:
        yield
    finally:
        main.update(kept)


def _sent(connection: Connection, task: Task) -> bool:
    """Whether there is still somebody to take it."""
    try:
        connection.send(task)
    except OSError:
        return False
    return True


def _answer(connection: Connection) -> list[Best]:
    """What a helper found; nothing from one that died."""
    try:
        answer = connection.recv()
    except (EOFError, OSError):
        return []
    return [answer] if isinstance(answer, Best) else []


def _serve(connection: Connection, stop: Event, number: int) -> None:
    """Searches what comes in until nothing more comes, or who asked for it is gone."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    asked_by = multiprocessing.parent_process()
    assert asked_by is not None

    def should_stop() -> bool:
        return stop.is_set() or not asked_by.is_alive()

    while True:
        try:
            task: Task = connection.recv()
        except (EOFError, OSError):
            return
        found = task.search(number, should_stop, lambda best: None).best
        if asked_by.is_alive():
            connection.send(found)
