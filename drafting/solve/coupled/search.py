"""Search from many starts, for blocks that nothing surer can solve.

Damped Newton steps from places spread over the neighbourhood of the block, always the same ones. What it finds are
solutions; that there are no others it cannot prove, and the finding says so.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from drafting.solve.coupled.newton import Equations
from drafting.solve.layout import Layout

Values = list[Any]
STARTS_EACH = 24
"""Starts for each unknown."""

MOST_STARTS = 240
ROUNDS = 60
PRIMES = (2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97, 101)


def searched(newton: Equations, values: Values, layout: Layout) -> list[tuple[float, ...]]:
    found: list[tuple[float, ...]] = []
    count = min(MOST_STARTS, STARTS_EACH * len(newton.unknowns))
    for numbers in starts(newton, values, layout, count):
        if descend(newton, values, numbers) and newton.holds(values, slack=1e3):
            place = tuple(numbers)
            if not any(math.dist(place, other) < 1e-6 for other in found):
                found.append(place)
    return found


def starts(newton: Equations, values: Values, layout: Layout, count: int) -> Iterator[list[float]]:
    """Evenly spread numbers (a Halton sequence) about the known points of the block, or within the bounds given."""
    boxes = [_box(newton, values, layout, slot) for slot in newton.unknowns]
    for number in range(1, count + 1):
        yield [
            low + (high - low) * _halton(number + 20 * (index // len(PRIMES)), PRIMES[index % len(PRIMES)])
            for index, (low, high) in enumerate(boxes)
        ]


def _halton(number: int, base: int) -> float:
    result, factor = 0.0, 1.0
    while number:
        factor /= base
        result += factor * (number % base)
        number //= base
    return result


def _box(newton: Equations, values: Values, layout: Layout, slot: int) -> tuple[float, float]:
    if slot in layout.ranges:
        bounds = [values[bound] for bound in layout.ranges[slot]]
        if all(isinstance(bound, float) for bound in bounds):
            return bounds[0], bounds[1]
    index = 1 if layout.names[slot].endswith(".y") else 0
    unknowns = set(newton.unknowns)
    at: list[float] = []
    size = 0.0
    for equation in newton.equations:
        for pair in equation.points:
            known = values[pair[index]]
            if pair[index] not in unknowns and isinstance(known, float):
                at.append(known)
        if equation.form.name not in ("angle", "ray"):
            size = max([size, *(abs(values[s]) for s in equation.scalars if isinstance(values[s], float))])
    low, high = (min(at), max(at)) if at else (0.0, 0.0)
    reach = max(size, high - low) or 100.0
    return low - 1.5 * reach, high + 1.5 * reach


def descend(newton: Equations, values: Values, numbers: list[float]) -> bool:
    """Levenberg's damped steps from a start, in place; True when every equation comes to nought."""
    import numpy

    damping = 1e-2
    try:
        newton.put(values, numbers)
        rows, right = newton.rows(values)
    except Exception:
        return False
    off = math.hypot(*right)
    for _ in range(ROUNDS):
        if off < 1e-11:
            return True
        matrix, target = numpy.array(rows), numpy.array(right)
        normal = matrix.T @ matrix + damping * numpy.eye(matrix.shape[1])
        step = numpy.linalg.solve(normal, matrix.T @ target)
        trial = [number - float(part) for number, part in zip(numbers, step, strict=True)]
        try:
            newton.put(values, trial)
            trial_rows, trial_right = newton.rows(values)
        except Exception:
            damping *= 8
            continue
        trial_off = math.hypot(*trial_right)
        if trial_off < off:
            numbers[:] = trial
            rows, right, off = trial_rows, trial_right, trial_off
            damping = max(damping / 6, 1e-15)
        else:
            damping *= 8
            if damping > 1e12:
                break
    newton.put(values, numbers)
    return off < 1e-8
