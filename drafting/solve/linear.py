"""Small systems of linear equations in plain Python; numpy only where they are large."""

from __future__ import annotations

from collections.abc import Sequence

LARGE = 12
SINGULAR = 1e-11
"""A pivot this small against rows of length 1 leaves a direction open."""


def solve(rows: Sequence[Sequence[float]], right: Sequence[float]) -> list[float] | None:
    """The solution of as many equations as unknowns, or None where they do not give one."""
    n = len(rows)
    if n > LARGE:
        return _solve_large(rows, right)
    work = [[*row, value] for row, value in zip(rows, right, strict=True)]
    for column in range(n):
        pivot = max(range(column, n), key=lambda index: abs(work[index][column]))
        if abs(work[pivot][column]) <= SINGULAR:
            return None
        work[column], work[pivot] = work[pivot], work[column]
        top = work[column]
        for index in range(column + 1, n):
            row = work[index]
            factor = row[column] / top[column]
            if factor:
                for at in range(column, n + 1):
                    row[at] -= factor * top[at]
    found = [0.0] * n
    for column in reversed(range(n)):
        row = work[column]
        rest = sum(row[at] * found[at] for at in range(column + 1, n))
        found[column] = (row[n] - rest) / row[column]
    return found


def _solve_large(rows: Sequence[Sequence[float]], right: Sequence[float]) -> list[float] | None:
    import numpy

    matrix = numpy.array(rows, dtype=float)
    try:
        found = numpy.linalg.solve(matrix, numpy.array(right, dtype=float))
    except numpy.linalg.LinAlgError:
        return None
    return [float(value) for value in found] if bool(numpy.all(numpy.isfinite(found))) else None
