"""The strip engine in a process of its own: a task as JSON comes in on the standard input, lines of JSON go out.

It ends with a crash on input that it does not like, it cannot be told to stop but by SIGINT, and only in a main thread:
so nothing else lives in its process. It is not told of margins and does not know of hides.
"""

from __future__ import annotations

import json
import signal
import sys
from threading import Event, Thread
from typing import Any

import spyrrow

REPORT_EVERY = 0.5
FEASIBLE = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas, spyrrow.ReportType.Final)


def main() -> None:
    task: dict[str, Any] = json.load(sys.stdin)
    items = [
        spyrrow.Item(
            str(number),
            [(x, y) for x, y in item["corners"]],
            item["demand"],
            allowed_orientations=item["turns"],
        )
        for number, item in enumerate(task["items"])
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
    reporter = Thread(target=_report, args=(queue, is_over), daemon=True)
    reporter.start()
    found = strip.solve(config, queue)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    is_over.set()
    reporter.join()
    places = [[int(one.id), one.rotation % 360.0, *one.translation] for one in found.placed_items]
    print(json.dumps({"places": places}), flush=True)


def _report(queue: Any, is_over: Event) -> None:
    """The shortest so far, now and then."""
    while not is_over.wait(REPORT_EVERY):
        widths = [solution.width for kind, solution in queue.drain() if kind in FEASIBLE]
        if widths:
            print(json.dumps({"width": widths[-1]}), flush=True)


if __name__ == "__main__":
    main()
