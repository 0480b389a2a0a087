"""Lays by the strip engine, which was measured to find the shortest lays under a time limit.

It keeps no promise of the same lay for the same seed, and its lays count only where our own judge finds no fault. Of a
panel it is asked whether some parts go on it: then the panel is a strip that must not become longer than it is.
"""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from math import inf
from pathlib import Path
from threading import Timer, current_thread, main_thread
from typing import Any, Self

import shapely
from shapely.affinity import rotate

from drafting.lay.kinds import Kind
from drafting.lay.lays import LaidSheet, Lay, Spot
from drafting.lay.sheets import Sheet
from drafting.lay.verify import verify
from drafting.records import dataclass

EXACT = 0.01
"""A little more height than there is, in mm, without which rows that fit exactly are not found; the judge allows it."""
OVERRUN = 20.0
"""Seconds beyond its time after which the engine is ended and does not count; it was measured to overrun by 3."""
ENGINE = Path(__file__).with_name("strip_engine.py")
"""Started by itself, without what the rest of the package loads: it is started often."""
Line = dict[str, Any]


@dataclass(frozen=True)
class Strip:
    """The parts of some kinds, as many as each demands, on a sheet that is a strip to the engine.

    It becomes short from the right, or from the top where `is_upright`. The engine keeps the gap from the edges of its
    strip as well, so the strip is as much wider and longer.
    """

    kinds: Sequence[Kind]
    sheet: Sheet
    gap: float
    is_upright: bool = False

    @property
    def height(self) -> float:
        return self.sheet.size[0 if self.is_upright else 1] - self.wider + EXACT

    @property
    def length(self) -> float:
        """How long the engine's strip is where the sheet is used up."""
        return self.sheet.size[1 if self.is_upright else 0] - self.wider

    @property
    def wider(self) -> float:
        return 2 * (self.sheet.margin - self.gap)

    def task(self, seconds: float, seed: int, workers: int, enough: float | None = None) -> Line:
        return {
            "height": self.height,
            "gap": self.gap,
            "seconds": max(1, round(seconds)),
            "workers": workers,
            "seed": seed,
            "enough": enough,
            "items": [self.item(number) for number, kind in enumerate(self.kinds) if kind.demand],
        }

    def item(self, number: int) -> Line:
        kind = self.kinds[number]
        corners = shapely.get_coordinates(kind.outline)[:-1].tolist()
        return {
            "name": str(number),
            "corners": [(-y, x) for x, y in corners] if self.is_upright else corners,
            "demand": kind.demand,
            "turns": list(kind.turns_by(self.sheet.backbone or 0.0)),
        }

    def spots(self, lines: Sequence[Line]) -> tuple[Spot, ...]:
        """Where the parts lie by what the engine said, moved so that the strip's gap becomes the sheet's margin."""
        places: list[Any] = next((line["places"] for line in lines if "places" in line), [])
        up = self.sheet.margin - self.gap - EXACT / 2
        if self.is_upright:
            spots = [Spot(int(kind), turn, y + up, -x) for kind, turn, x, y in places]
            low = min((self.bounds(spot)[1] for spot in spots), default=inf)
            return _moved(spots, 0.0, self.sheet.margin - low)
        spots = [Spot(int(kind), turn, x, y + up) for kind, turn, x, y in places]
        left = min((self.bounds(spot)[0] for spot in spots), default=inf)
        return _moved(spots, self.sheet.margin - left, 0.0)

    def bounds(self, spot: Spot) -> tuple[float, float, float, float]:
        """A part's ends: left, low, right, high."""
        left, low, right, high = rotate(self.kinds[spot.kind].close, spot.turn, origin=(0, 0)).bounds
        return left + spot.x, low + spot.y, right + spot.x, high + spot.y

    def reach(self, spots: Sequence[Spot]) -> float:
        """How far right the parts reach."""
        return max(self.bounds(spot)[2] for spot in spots)

    def is_true(self, spots: Sequence[Spot]) -> bool:
        """Whether all parts lie there, and our judge finds no fault in it."""
        lay = Lay(tuple(self.kinds), (LaidSheet(self.sheet, tuple(spots)),), self.gap, 0)
        return lay.is_complete and not verify(lay)


def _moved(spots: Sequence[Spot], across: float, up: float) -> tuple[Spot, ...]:
    return tuple(Spot(one.kind, one.turn, round(one.x + across, 4), round(one.y + up, 4)) for one in spots)


def lay_on_strip(
    strip: Strip, seconds: float, seed: int, workers: int, tell: Callable[[float], None]
) -> tuple[tuple[Spot, ...], bool]:
    """Where all the parts lie in the least length, and whether Ctrl-C stopped it; nothing where the engine failed.

    `tell` hears the length so far, margins counted.
    """
    with _SoftStop() as stop:
        lines = _run(strip.task(seconds, seed, workers), stop, lambda width: tell(width + strip.wider))
        spots = strip.spots(lines)
        return (spots if strip.is_true(spots) else ()), stop.is_asked


class Try:
    """The engine is asked, beside whatever else is done, whether all parts of a strip go on its sheet.

    It ends as soon as they lie in no more than `enough`; without, it goes on to make the strip shorter.
    """

    def __init__(self, strip: Strip, seconds: float, seed: int, enough: float | None = None) -> None:
        self.strip = strip
        self.process = _started(strip.task(seconds, seed, 1, enough))
        self.excess = inf
        """By what part of its length the strip was too long at least."""
        self.latest = time.monotonic() + seconds + OVERRUN

    @property
    def is_over(self) -> bool:
        if time.monotonic() > self.latest:
            self.end()
        return self.process.poll() is not None

    def found(self) -> tuple[Spot, ...]:
        """Where the parts lie; nothing where they do not all go on, and then `excess` says how near it was."""
        assert self.process.stdout is not None
        with self.process:
            lines = [json.loads(line) for line in self.process.stdout]
        self.excess = min((line["width"] for line in lines), default=inf) / self.strip.length - 1
        spots = self.strip.spots(lines)
        return spots if self.strip.is_true(spots) else ()

    def end(self) -> None:
        self.process.kill()
        self.process.wait()


def _started(task: Line) -> subprocess.Popen[str]:
    """The engine at work in a process of its own, which does not hear Ctrl-C."""
    process = subprocess.Popen(
        [sys.executable, "-P", str(ENGINE)], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL, text=True, start_new_session=True,
    )  # fmt: skip
    assert process.stdin is not None
    json.dump(task, process.stdin)
    process.stdin.close()
    return process


def _run(task: Line, stop: _SoftStop, tell: Callable[[float], None]) -> list[Line]:
    """The engine's lines."""
    process = _started(task)
    stop.hand_on_to(process)
    assert process.stdout is not None
    lines: list[Line] = []
    watch = Timer(task["seconds"] + OVERRUN, process.kill)
    watch.daemon = True
    watch.start()
    with process:
        for line in process.stdout:
            lines.append(json.loads(line))
            if "width" in lines[-1]:
                tell(lines[-1]["width"])
    watch.cancel()
    return lines


class _SoftStop:
    """Meanwhile Ctrl-C does not end us wherever we are, which might be between two lines of the engine: it goes to the
    engine, which then gives its best so far."""

    def __init__(self) -> None:
        self.is_asked = False
        self.process: subprocess.Popen[str] | None = None

    def __enter__(self) -> Self:
        """Only a main thread hears it; where it is ignored, as in the background, it stays so."""
        self.before: Any = None
        hears = current_thread() is main_thread() and signal.getsignal(signal.SIGINT) is not signal.SIG_IGN
        if hears:
            self.before = signal.signal(signal.SIGINT, self.ask)
        return self

    def __exit__(self, *error: object) -> None:
        if self.before is not None:
            signal.signal(signal.SIGINT, self.before)

    def ask(self, *signal_and_frame: object) -> None:
        self.is_asked = True
        if self.process is not None:
            self.process.send_signal(signal.SIGINT)

    def hand_on_to(self, process: subprocess.Popen[str]) -> None:
        self.process = process
        if self.is_asked:
            process.send_signal(signal.SIGINT)
