"""Dashes that meet at the corners of a box (ISO 128-2, from memory): a frame whose corners fall into gaps looks torn,
the more the smaller it is.

A dashed line has at most eleven dashes and gaps before it repeats: older printers take no more (PostScript Language
Reference, 3rd edition, appendix B). A small box gets exact dashes for two of its sides, which the others repeat; a
large one a length of dash and gap that comes out well at every corner.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring

MOST_GAPS = 5
"""Along two sides together, each with a dash beside it."""
LEAST_SHARE = 0.25
"""Of a short side, what half a dash may take at each of its ends."""
STRETCH = 0.25
"""So much a dash with its gap may be longer or shorter than what is usual, in steps of a hundredth."""
SAME_SIDE = 1e-3


def fitted_dashes(elements: tuple[float, ...], way: Path | Ring) -> tuple[tuple[float, ...], float]:
    """Dash, gap, dash, gap ... in mm, and how far into them the line starts: in the middle of a dash for a box."""
    sides = _sides_of_box(way) if len(elements) == 2 else None
    if sides is None:
        return elements, 0.0
    half = min(elements[0] / 2, LEAST_SHARE * min(sides))
    counts = [max(1, round(side / sum(elements))) for side in sides]
    if sum(counts) > MOST_GAPS:
        factor = _best_stretch(sides, sum(elements))
        dash, gap = (factor * one for one in elements)
        return (dash, gap), dash / 2
    runs = ((2 * half, side / count - 2 * half) * count for side, count in zip(sides, counts, strict=True))
    return tuple(one for run in runs for one in run), half


def _sides_of_box(way: Path | Ring) -> tuple[float, float] | None:
    """Two sides that meet, of a ring of four straight sides of which those across from each other are as long."""
    lengths = [leg.length for leg in way.legs if isinstance(leg, Line)]
    if not isinstance(way, Ring) or not len(way.legs) == len(lengths) == 4:
        return None
    first, second, third, fourth = lengths
    is_even = abs(first - third) < SAME_SIDE and abs(second - fourth) < SAME_SIDE
    return (first, second) if is_even and min(first, second) > SAME_SIDE else None


def _best_stretch(sides: Sequence[float], period: float) -> float:
    """By how much dash and gap grow so that corners come as near as can be to the middle of a dash."""
    corners = list(accumulate([*sides, *sides]))
    factors = sorted(
        (1.0 + step / 100 for step in range(-int(STRETCH * 100), int(STRETCH * 100) + 1)), key=_off
    )
    return min(
        factors, key=lambda factor: round(max(_miss(corner, factor * period) for corner in corners), 2)
    )


def _off(factor: float) -> float:
    return abs(factor - 1.0)


def _miss(corner: float, period: float) -> float:
    """How far a corner is from the middle of the nearest dash, as a part of dash and gap."""
    return abs(corner / period - round(corner / period))
