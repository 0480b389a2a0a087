"""How many directions some rows leave open, and which.

Rows are slopes of equations, scaled to length 1. numpy is imported only here and only when something is wrong.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

OPEN = 1e-8
"""A direction counts as open when no row changes along it by more than this."""


def open_directions(rows: Sequence[Sequence[float]], n_unknowns: int) -> Any:
    """An array whose columns span the directions along which no row changes."""
    import numpy

    if not rows:
        return numpy.eye(n_unknowns)
    _, sizes, right = numpy.linalg.svd(numpy.array(rows, dtype=float), full_matrices=True)
    n_held = int(numpy.sum(sizes > OPEN))
    return right[n_held:].T


def dependent_rows(rows: Sequence[Sequence[float]]) -> list[tuple[int, list[int]]]:
    """The rows, in order, that are combinations of earlier ones, each with those earlier ones."""
    import numpy

    found: list[tuple[int, list[int]]] = []
    kept: list[int] = []
    matrix = numpy.array(rows, dtype=float)
    for index, row in enumerate(matrix):
        if not kept:
            if numpy.linalg.norm(row) > OPEN:
                kept.append(index)
            else:
                found.append((index, []))
            continue
        base = matrix[kept]
        shares, *_ = numpy.linalg.lstsq(base.T, row, rcond=None)
        if numpy.linalg.norm(base.T @ shares - row) > 1e-7:
            kept.append(index)
        else:
            found.append((index, [k for k, share in zip(kept, shares, strict=True) if abs(share) > 1e-6]))
    return found
