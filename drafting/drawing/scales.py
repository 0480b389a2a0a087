"""Scales a drawing may have: those of ISO 5455.

1:1, or a reduction of 1:2, 1:5 or 1:10 times a power of ten. A scale is said as drawn to true size.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count

STEPS = (1, 2, 5)


def reductions() -> Iterator[int]:
    """1, 2, 5, 10, 20, 50 ... : how many millimetres of leather one millimetre of paper stands for."""
    for power in count():
        yield from (step * 10**power for step in STEPS)


def scale_words(scale: float) -> str:
    """`1:1`, `1:2` ..."""
    return f"1:{round(1 / scale)}"
