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
STARTS_EACH = 20
"""Starts for each unknown."""

MOST_STARTS = 160
MOST_LOOKS = 1500
"""Looks at the equations after which the search ends, so that nonsense is not searched for a minute."""

ROUNDS = 60
PATIENCE = 12
PRIMES = (2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97, 101)


def searched(newton: Equations, values: Values, layout: Layout) -> list[tuple[float, ...]]:
    found: list[tuple[float, ...]] = []
    count = min(MOST_STARTS, STARTS_EACH * len(newton.unknowns))
    before = newton.n_looks
    for numbers in starts(newton, values, layout, count):
        if newton.n_looks - before > MOST_LOOKS:
            break
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
    """Levenberg's damped steps from a start, in place; True when every equation comes to nought.

    A start that has not halved its error after some rounds is given up: there are others.
    """
    state = _state(newton, values, numbers)
    if state is None:
        return False
    damping, rounds_left, halfway = 1e-2, PATIENCE, math.hypot(*state[1]) / 2
    for _ in range(ROUNDS):
        rows, right = state
        off = math.hypot(*right)
        if off < 1e-11 or damping > 1e12 or rounds_left == 0:
            break
        rounds_left -= 1
        trial = _damped(rows, right, numbers, damping)
        after = _state(newton, values, trial)
        if after is None or not math.hypot(*after[1]) < off:
            damping *= 8
            continue
        numbers[:] = trial
        state = after
        damping = max(damping / 6, 1e-15)
        if math.hypot(*after[1]) < halfway:
            rounds_left, halfway = PATIENCE, math.hypot(*after[1]) / 2
    newton.put_if_defined(values, numbers)
    return math.hypot(*state[1]) < 1e-8


def _state(
    newton: Equations, values: Values, numbers: list[float]
) -> tuple[list[list[float]], list[float]] | None:
    """Rows and values of the equations; None where they are not defined."""
    if not newton.put_if_defined(values, numbers):
        return None
    try:
        rows, right = newton.rows(values)
    except Exception:
        return None
    return (rows, right) if math.isfinite(sum(right)) else None


def _damped(rows: list[list[float]], right: list[float], numbers: list[float], damping: float) -> list[float]:
    import numpy

    matrix = numpy.array(rows)
    normal = matrix.T @ matrix + damping * numpy.eye(matrix.shape[1])
    step = numpy.linalg.solve(normal, matrix.T @ numpy.array(right))
    return [number - float(part) for number, part in zip(numbers, step, strict=True)]
