"""Slots to run an awl along, with bridges that hold a template together.

A slot all round, or from edge to edge, would let a part of the template fall out: so it stays short of the ends of its
line, and a long one is parted.
"""

from __future__ import annotations

from drafting.geometry.faults import GeometryFault
from drafting.geometry.offset import round_path
from drafting.geometry.path import Path, Ring

SHORT = 5.0
"""How far a slot stays short of the ends of its line."""
BRIDGE = 6.0
LONGEST = 60.0


def slots_along(way: Path | Ring, across: float) -> list[Ring]:
    """Slots with round ends, all of a length; none where the line is too short, or bends too tightly for one."""
    path = Path(way.legs)
    start, end = (
        (BRIDGE / 2, path.length - BRIDGE / 2) if isinstance(way, Ring) else (SHORT, path.length - SHORT)
    )
    count = max(1, -int(-(end - start + BRIDGE) // (LONGEST + BRIDGE)))
    length = (end - start - BRIDGE * (count - 1)) / count
    if length < 2 * across:
        return []
    try:
        return [
            round_path(path.part(at, at + length), across / 2)
            for at in (start + number * (length + BRIDGE) for number in range(count))
        ]
    except GeometryFault:
        return []
