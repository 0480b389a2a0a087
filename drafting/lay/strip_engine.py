"""The strip engine in a process of its own: a task as JSON comes in on the standard input, lines of JSON go out.

It ends with a crash on input that it does not like, it cannot be told to stop but by SIGINT, and only in a main thread:
so nothing else lives in its process. It is not told of margins and does not know of hides.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import time
from math import inf
from threading import Event, Thread
from typing import Any

import spyrrow

ASKED_BY = os.getppid()
REPORT_EVERY = 0.5
LOOK_EVERY = 0.05
"""The same in seconds where a strip that is short enough ends it."""
HOPELESS = 0.07
"""Too long by more than so much of it, the less time is left the less, it will not be short enough."""
STUCK = 0.15
"""If it did not become shorter for so much of the time."""
NEVER = 1e9
FEASIBLE = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas, spyrrow.ReportType.Final)


def main() -> None:
    task: dict[str, Any] = json.load(sys.stdin)
    items = [
        spyrrow.Item(
            item["name"],
            [(x, y) for x, y in item["corners"]],
            item["demand"],
            allowed_orientations=item["turns"],
        )
        for item in task["items"]
    ]
    strip = spyrrow.StripPackingInstance("lay", task["height"], items)
    config = spyrrow.StripPackingConfig(
        early_termination=False,
        total_computation_time=task["seconds"],
        num_workers=task["workers"],
        seed=task["seed"],
        min_items_separation=task["gap"] or None,
    )
    queue, is_over = spyrrow.ProgressQueue(), Event()
    enough = task.get("enough")
    watching = (
        (_report, (queue, is_over)) if enough is None else (_watch, (queue, is_over, enough, task["seconds"]))
    )
    reporter = Thread(target=watching[0], args=watching[1], daemon=True)
    reporter.start()
    found = strip.solve(config, queue)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    is_over.set()
    reporter.join()
    _print_places(found)


def _print_places(found: Any) -> None:
    places = [[int(one.id), one.rotation % 360.0, *one.translation] for one in found.placed_items]
    print(json.dumps({"width": found.width, "places": places}), flush=True)


def _report(queue: Any, is_over: Event) -> None:
    """The shortest so far, now and then. Nobody's search goes on: with who asked for it gone, it ends."""
    while not is_over.wait(REPORT_EVERY):
        if os.getppid() != ASKED_BY:
            os._exit(1)
        widths = [solution.width for kind, solution in queue.drain() if kind in FEASIBLE]
        if widths:
            print(json.dumps({"width": widths[-1]}), flush=True)


def _watch(queue: Any, is_over: Event, enough: float, seconds: float) -> None:
    """Ends it all with the first that is short enough, or when none will be: there is no other way to stop it."""
    shortest, start = inf, time.monotonic()
    latest = start
    while not is_over.wait(LOOK_EVERY):
        for kind, solution in queue.drain():
            if kind in FEASIBLE and solution.width < shortest:
                shortest, latest = solution.width, time.monotonic()
                if shortest <= enough:
                    _print_places(solution)
                    os._exit(0)
        now = time.monotonic()
        too_long = shortest / enough - 1 > HOPELESS * (1 - (now - start) / seconds)
        if too_long and now - latest > STUCK * seconds:
            print(json.dumps({"width": min(shortest, NEVER)}), flush=True)
            os._exit(0)


if __name__ == "__main__":
    main()
