"""Several searches at once, one process each, of which the best counts.

The first search runs here; the others in processes of their own, which ignore Ctrl-C and stop when they are told to. Of
two that are equally good the first counts, so that the choice does not hang on which was quicker.
"""

from __future__ import annotations

import multiprocessing
import signal
import time
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.synchronize import Event
from typing import Self

from drafting.lay.kinds import Kind
from drafting.lay.search import Best, Search
from drafting.lay.sheets import Sheet
from drafting.lay.table import Table

PATIENCE = 5.0
"""Seconds that a search which is told to stop may take to do so."""


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

    def search(self, worker: int, should_stop: Callable[[], bool], tell: Callable[[Best], None]) -> Search:
        """The search, done."""
        table = table_of(self.kinds, self.sheet, self.gap)

        def is_over() -> bool:
            return should_stop() or (self.deadline is not None and time.time() >= self.deadline)

        seed = f"{self.seed}/{worker}"
        search = Search(table, self.demand, seed, should_stop=is_over, tell=tell)
        search.run(self.steps)
        return search


_tables: dict[tuple[object, ...], Table] = {}


def table_of(kinds: tuple[Kind, ...], sheet: Sheet, gap: float) -> Table:
    """Panels are alike: the table of the last sheet serves the next."""
    key = (sheet.likeness, gap, *((kind.name, kind.is_turned_over, kind.area) for kind in kinds))
    if key not in _tables:
        _tables.clear()
        _tables[key] = Table(kinds, sheet, gap)
    return _tables[key]


class Workers:
    """Use as `with Workers(2) as workers: workers.search(task)`."""

    def __init__(self, count: int) -> None:
        self.count = max(1, count)
        self.helpers: list[tuple[multiprocessing.process.BaseProcess, Connection]] = []
        self.stop: Event | None = None

    def __enter__(self) -> Self:
        if self.count > 1:
            context = multiprocessing.get_context("spawn")
            self.stop = context.Event()
            for number in range(1, self.count):
                here, there = context.Pipe()
                process = context.Process(target=_serve, args=(there, self.stop, number), daemon=True)
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
        for _, connection in self.helpers:
            connection.send(task)
        mine = task.search(0, lambda: False, tell)
        was_stopped = mine.was_stopped
        if self.stop is not None and (was_stopped or task.steps is None):
            self.stop.set()
        found = [mine.best]
        for _, connection in self.helpers:
            try:
                found += _answer(connection)
            except KeyboardInterrupt:
                was_stopped = True
                self.presume_stop().set()
                found += _answer(connection)
        if self.stop is not None:
            self.stop.clear()
        return max(found, key=lambda best: best.value), was_stopped

    def presume_stop(self) -> Event:
        assert self.stop is not None
        return self.stop


def _answer(connection: Connection) -> list[Best]:
    """What a helper found; nothing from one that died."""
    try:
        answer = connection.recv()
    except (EOFError, OSError):
        return []
    return [answer] if isinstance(answer, Best) else []


def _serve(connection: Connection, stop: Event, number: int) -> None:
    """Searches what comes in until nothing more comes."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    while True:
        try:
            task: Task = connection.recv()
        except (EOFError, OSError):
            return
        connection.send(task.search(number, stop.is_set, lambda best: None).best)
