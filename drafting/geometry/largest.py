"""The largest size that fits, when the one asked for does not.

Found by halving, which takes nothing for granted but that small sizes fit; where sizes fit again beyond a
gap the answer lies at the edge of one of the ranges.
"""

from __future__ import annotations

from collections.abc import Callable

_SMALLEST_SHARE = 2.0**-30


def largest_that_fits(fits: Callable[[float], bool], asked: float, within: float) -> float | None:
    """A size that fits, at most `within` below one that does not; None when nothing fits."""
    low, high = asked / 2, asked
    while not fits(low):
        low, high = low / 2, low
        if low < asked * _SMALLEST_SHARE:
            return None
    while high - low > min(within, high * within):
        middle = (low + high) / 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low
