"""What is nearest in each size, where lines or places vary from size to size.

The boxes of all legs are held against each other as whole arrays; only those are measured that may be the nearest in
some size.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

import numpy

from drafting.geometry.bounds import Bounds
from drafting.geometry.maths import first_least
from drafting.geometry.point import Point
from drafting.geometry.varied import Array, asked, number_or_array, stacked

Thing = TypeVar("Thing")


class Boxes:
    """Boxes as arrays: a row for each, a column for each size, or one column where none varies."""

    def __init__(self, boxes: Sequence[Bounds]) -> None:
        self.left, self.low = stacked([box.min_x for box in boxes]), stacked([box.min_y for box in boxes])
        self.right, self.high = stacked([box.max_x for box in boxes]), stacked([box.max_y for box in boxes])

    def apart_from_point(self, point: Point) -> Array:
        """How far each is from a point, 0 around it."""
        x, y = number_or_array(point.x), number_or_array(point.y)
        return _length(_largest(self.left - x, x - self.right), _largest(self.low - y, y - self.high))

    def apart_from(self, others: Boxes) -> Array:
        """How far each is from each of the others: a row for each pair, those of the first box first."""
        across = _largest(others.left - self.right[:, None], self.left[:, None] - others.right)
        up = _largest(others.low - self.high[:, None], self.low[:, None] - others.high)
        found = _length(across, up)
        return found.reshape(-1, found.shape[-1])

    def pairs_with(self, others: Boxes, reach: float) -> list[tuple[int, int]]:
        """Each with those of the others that come within reach of it, to the side and up, in some size."""
        across = numpy.maximum(others.left - self.right[:, None], self.left[:, None] - others.right)
        up = numpy.maximum(others.low - self.high[:, None], self.low[:, None] - others.high)
        near = numpy.maximum(across, up) <= reach
        pairs = numpy.argwhere(_of_those_asked(near).any(axis=-1))
        return [(int(i), int(j)) for i, j in pairs]

    def near_point(self, point: Point, reach: float) -> list[int]:
        """Those within reach of a point in some size."""
        near = _of_those_asked(self.apart_from_point(point) <= reach)
        return numpy.flatnonzero(near.any(axis=-1)).tolist()

    def right_of_point(self, point: Point, reach: float) -> list[int]:
        """Those that a level ray from a point to the right comes within reach of in some size."""
        x, y = number_or_array(point.x), number_or_array(point.y)
        met = (self.right + reach >= x) & (self.low - reach <= y) & (y <= self.high + reach)
        return numpy.flatnonzero(_of_those_asked(met).any(axis=-1)).tolist()


def _of_those_asked(rows: Array) -> Array:
    """The columns of those sizes that are asked; the one column of what is the same in all."""
    return rows if rows.shape[-1] == 1 else asked(rows.T).T


def _largest(one: Array, other: Array) -> Array:
    """Of two amounts and nothing."""
    return numpy.maximum(numpy.maximum(one, other), 0.0)


def _length(across: Array, up: Array) -> Array:
    found: Array = numpy.sqrt(across * across + up * up)
    return found


def least_of(
    apart: Array,
    measure: Callable[[int], Thing],
    distance: Callable[[Thing], float],
    is_in_order: bool = False,
) -> Thing:
    """What has the least distance in each size, of things by their index. `apart` has a row for each, with what its
    distance cannot be below; only those are measured that may be the least. Of those alike it is the one whose
    row is the least, or the first one in their order."""
    floors = _of_those_asked(apart)
    best: Any = numpy.inf
    found: dict[int, Thing] = {}
    for at in numpy.argsort(floors.mean(axis=1), kind="stable").tolist():
        if not found or bool((floors[at] < best).any()):
            found[at] = measure(at)
            amount = number_or_array(distance(found[at]))
            best = numpy.minimum(best, asked(amount) if isinstance(amount, numpy.ndarray) else amount)
    return first_least([found[at] for at in (sorted(found) if is_in_order else found)], distance)
