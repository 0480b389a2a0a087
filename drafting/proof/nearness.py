"""How far places lie off a drafted line, of many places at once."""

from __future__ import annotations

from math import hypot
from typing import Any

import numpy as np

from drafting.geometry.arc import Arc
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring

MOST_PAIRS = 200_000
"""Places times legs that are held at one time."""
FEW = 4
"""So many places are told sooner one by one."""


def farthest_off(way: Path | Ring, places: Any) -> float:
    """How many mm the farthest of some places is off the line; 0 where there are none."""
    if not len(places):
        return 0.0
    if len(way.legs) == 1 and isinstance(way.legs[0], Line) and len(places) <= FEW:
        return max(_off_line(way.legs[0], x, y) for x, y in places.tolist())
    whole = circle_of(way)
    if whole is not None:
        return farthest_off_circle(whole, places)
    share = max(MOST_PAIRS // len(way.legs), 1)
    parts = (places[first : first + share] for first in range(0, len(places), share))
    return max(float(_off(way, part).max()) for part in parts)


def _off_line(line: Line, x: float, y: float) -> float:
    """The same as `_off_lines` for one place, which arrays take longer to tell."""
    ax, ay = line.start.x, line.start.y
    along_x, along_y = line.end.x - ax, line.end.y - ay
    squared = along_x**2 + along_y**2
    part = ((x - ax) * along_x + (y - ay) * along_y) / squared if squared > 0 else 0.0
    part = min(max(part, 0.0), 1.0)
    return hypot(x - ax - part * along_x, y - ay - part * along_y)


def farthest_off_circle(arc: Arc, places: Any) -> float:
    """The same for the whole circle that an arc is part of."""
    x, y = arc.center.x, arc.center.y
    return float(np.abs(np.hypot(places[:, 0] - x, places[:, 1] - y) - arc.radius).max())


def circle_of(way: Path | Ring) -> Arc | None:
    """One of the arcs of what goes round one place once: most lines of a sheet are holes."""
    first = way.legs[0]
    if not isinstance(way, Ring) or not isinstance(first, Arc):
        return None
    same = [
        leg.sweep
        for leg in way.legs
        if isinstance(leg, Arc) and (leg.center, leg.radius) == (first.center, first.radius)
    ]
    return first if len(same) == len(way.legs) and abs(abs(sum(same)) - 2 * np.pi) < 1e-9 else None


def _off(way: Path | Ring, places: Any) -> Any:
    """How far each place is off the nearest leg."""
    arcs = [leg for leg in way.legs if isinstance(leg, Arc)]
    lines = [leg for leg in way.legs if not isinstance(leg, Arc)]
    ends = [(leg.start.x, leg.start.y, leg.end.x, leg.end.y) for leg in lines]
    bows = [(arc.center.x, arc.center.y, arc.radius, arc.start_angle, arc.sweep) for arc in arcs]
    x, y = places[:, :1], places[:, 1:]
    found = [_off_lines(x, y, np.array(ends).T)] if ends else []
    found += [_off_arcs(x, y, np.array(bows).T)] if bows else []
    return np.concatenate(found, axis=1).min(axis=1)


def _off_lines(x: Any, y: Any, ends: Any) -> Any:
    ax, ay, bx, by = ends
    along_x, along_y = bx - ax, by - ay
    squared = along_x**2 + along_y**2
    part = np.clip(((x - ax) * along_x + (y - ay) * along_y) / np.where(squared > 0, squared, 1.0), 0.0, 1.0)
    return np.hypot(x - ax - part * along_x, y - ay - part * along_y)


def _off_arcs(x: Any, y: Any, bows: Any) -> Any:
    """Off the bow where a place lies within its angle, off the nearer end elsewhere."""
    center_x, center_y, radius, first, sweep = bows
    from_x, from_y = x - center_x, y - center_y
    turn = np.mod((np.arctan2(from_y, from_x) - first) * np.sign(sweep), 2 * np.pi)
    ends = [
        np.hypot(from_x - radius * np.cos(angle), from_y - radius * np.sin(angle))
        for angle in (first, first + sweep)
    ]
    return np.where(turn <= np.abs(sweep), np.abs(np.hypot(from_x, from_y) - radius), np.minimum(*ends))
