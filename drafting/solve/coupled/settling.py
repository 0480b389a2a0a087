"""Newton's method in many sizes at once: each stops where it would stop alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy

from drafting.geometry.maths import varies
from drafting.geometry.varied import Array, Varied, agreed, column_of

Step = Callable[[list[Any]], list[Any] | None]
"""How far the numbers are off, or None where that cannot be said."""


def polish_together(step_at: Step, numbers: list[Any], rounds: int) -> bool:
    """As `newton.polish`: numbers are brought to the last digit, in place. Raises Parted where only some settle."""
    n_sizes = next(len(number.each) for number in numbers if varies(number))
    best, settled = numpy.full(n_sizes, numpy.inf), numpy.zeros(n_sizes, dtype=bool)
    going = ~settled
    for _ in range(rounds):
        step = step_at(numbers)
        if step is None:
            return False
        parts = numpy.array([column_of(part, n_sizes) for part in step])
        size = numpy.abs(parts).max(axis=0)
        is_done = (size == 0.0) | ((size >= best) & (size < 1e-9))
        settled |= going & is_done
        going &= ~is_done & numpy.isfinite(size)
        best = numpy.where(going, numpy.minimum(best, size), best)
        _move(numbers, numpy.where(going, parts, 0.0))
        settled |= going & (size < 1e-13)
        going &= size >= 1e-13
        if not going.any():
            break
    return agreed(settled | (going & (best < 1e-7)))


def _move(numbers: list[Any], parts: Array) -> None:
    for index, part in enumerate(parts):
        moved: Any = Varied(column_of(numbers[index], len(part)) - part)
        numbers[index] = moved
