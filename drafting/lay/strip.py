"""Lays on a roll by the strip engine, which was measured to find the shortest lays under a time limit.

It keeps no promise of the same lay for the same seed, and its lays count only where our own judge finds no fault.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Sequence
from math import inf
from pathlib import Path
from threading import Timer
from typing import Any

import shapely
from shapely.affinity import rotate

from drafting.lay.kinds import Kind
from drafting.lay.lays import Spot
from drafting.lay.sheets import Sheet

EXACT = 0.01
"""A little more height than there is, in mm, without which rows that fit exactly are not found; the judge allows it."""
OVERRUN = 20.0
"""Seconds beyond its time after which the engine is ended and does not count; it was measured to overrun by 3."""
PACKAGES = Path(__file__).parent.parent.parent


def lay_on_strip(
    kinds: Sequence[Kind],
    sheet: Sheet,
    gap: float,
    seconds: float,
    seed: int,
    workers: int,
    tell: Callable[[float], None],
) -> tuple[tuple[Spot, ...], bool]:
    """Where all the parts lie on a roll, and whether Ctrl-C stopped it; nothing where the engine failed.

    `tell` hears the length so far, margins counted.
    """
    task = _task(kinds, sheet, gap, seconds, seed, workers)
    lines, was_stopped = _run(task, lambda width: tell(width + 2 * (sheet.margin - gap)))
    for line in lines:
        if "places" in line:
            return _spots(kinds, sheet, gap, line["places"]), was_stopped
    return (), was_stopped


def _task(
    kinds: Sequence[Kind], sheet: Sheet, gap: float, seconds: float, seed: int, workers: int
) -> dict[str, Any]:
    """The engine keeps the gap from the edges of its strip as well, so the strip is as much wider."""
    return {
        "height": sheet.size[1] - 2 * sheet.margin + 2 * gap + EXACT,
        "gap": gap,
        "seconds": max(1, round(seconds)),
        "workers": workers,
        "seed": seed,
        "items": [
            {
                "corners": shapely.get_coordinates(kind.outline)[:-1].tolist(),
                "demand": kind.demand,
                "turns": list(kind.turns_by(sheet.backbone or 0.0)),
            }
            for kind in kinds
        ],
    }


def _run(task: dict[str, Any], tell: Callable[[float], None]) -> tuple[list[dict[str, Any]], bool]:
    """The engine's lines. It is stopped softly by one SIGINT, which makes it give its best so far."""
    paths = os.pathsep.join([str(PACKAGES), *filter(None, [os.environ.get("PYTHONPATH")])])
    process = subprocess.Popen(
        [sys.executable, "-m", "drafting.lay.strip_engine"], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL, text=True, start_new_session=True, env={**os.environ, "PYTHONPATH": paths},
    )  # fmt: skip
    assert process.stdin is not None and process.stdout is not None
    lines: list[dict[str, Any]] = []
    was_stopped = False
    watch = Timer(task["seconds"] + OVERRUN, process.kill)
    watch.daemon = True
    watch.start()
    with process:
        json.dump(task, process.stdin)
        process.stdin.close()
        while True:
            try:
                line = process.stdout.readline()
            except KeyboardInterrupt:
                was_stopped = True
                process.send_signal(signal.SIGINT)
                continue
            if not line:
                break
            lines.append(json.loads(line))
            if "width" in lines[-1]:
                tell(lines[-1]["width"])
    watch.cancel()
    return lines, was_stopped


def _spots(
    kinds: Sequence[Kind], sheet: Sheet, gap: float, places: Sequence[Sequence[float]]
) -> tuple[Spot, ...]:
    """Moved so that the strip's gap becomes the roll's margin."""
    up = sheet.margin - gap - EXACT / 2
    spots = [Spot(int(kind), turn, x, y + up) for kind, turn, x, y in places]
    left = min((_left(kinds[spot.kind], spot) for spot in spots), default=inf)
    return tuple(
        Spot(spot.kind, spot.turn, round(spot.x - left + sheet.margin, 4), round(spot.y, 4)) for spot in spots
    )


def _left(kind: Kind, spot: Spot) -> float:
    return float(rotate(kind.close, spot.turn, origin=(0, 0)).bounds[0]) + spot.x
