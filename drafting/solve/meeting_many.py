"""Where many pairs of loci meet at once: the arithmetic of `meeting` on arrays.

Every pair gives the same number of places, in the order of `meeting.meet`; where one does not exist its coordinates
are not a number. So a branch keeps its index from one size to the next.
"""

from __future__ import annotations

from typing import Any

import numpy

from drafting.solve.closed_forms import chord
from drafting.solve.meeting import PARALLEL, SAME_CENTER, TOUCHING

ManyPlaces = list[tuple[Any, Any]]


def meet_many(first: Any, second: Any) -> ManyPlaces:
    """One place for two lines, else two; arrays, or plain numbers where nothing varies."""
    with numpy.errstate(all="ignore"):
        first_is_line, second_is_line = _is_line(first[0]), _is_line(second[0])
        if first_is_line and second_is_line:
            return _cross_lines(*first[1:], *second[1:])
        if first_is_line:
            return _cross_circle(*second, *first[1:])
        if second_is_line:
            return _cross_circle(*first, *second[1:])
        return _cross_circles(first, second)


def _is_line(k: Any) -> bool:
    """Loci of one fact are all lines or all circles, but for angles of 0 and 180 deg, which are nearly never mixed
    with others; there the circle has no size and gives not a number."""
    return k == 0 if isinstance(k, (int, float)) else bool(numpy.all(k == 0.0))


def _cross_lines(a1: Any, b1: Any, c1: Any, a2: Any, b2: Any, c2: Any) -> ManyPlaces:
    turn = numpy.asarray(a1 * b2 - a2 * b1)
    limit = PARALLEL * (abs(a1) + abs(b1)) * (abs(a2) + abs(b2))
    turn = numpy.where(abs(turn) <= limit, numpy.nan, turn)
    return [((b1 * c2 - b2 * c1) / turn, (c1 * a2 - c2 * a1) / turn)]


def _cross_circle(k: Any, a: Any, b: Any, c: Any, line_a: Any, line_b: Any, line_c: Any) -> ManyPlaces:
    x, y, way_x, way_y, half_squared, radius_squared = (
        numpy.asarray(part) for part in chord(*_floats(k, a, b, c, line_a, line_b, line_c))
    )
    half_squared = numpy.where(abs(half_squared) <= TOUCHING * radius_squared, 0.0, half_squared)
    half = numpy.sqrt(half_squared)
    return [(x + half * way_x, y + half * way_y), (x - half * way_x, y - half * way_y)]


def _floats(*amounts: Any) -> list[Any]:
    """Arrays of floats, so that a division by nought gives no fault but a number that is none."""
    return [numpy.asarray(amount, dtype=float) for amount in amounts]


def _cross_circles(first: Any, second: Any) -> ManyPlaces:
    k, a, b, c = _floats(*first)
    k2, a2, b2, c2 = _floats(*second)
    factor = k / k2
    a2, b2, c2 = a2 * factor, b2 * factor, c2 * factor
    line_a, line_b, line_c = a - a2, b - b2, c - c2
    size, size2 = a * a + b * b - 4 * k * c, a2 * a2 + b2 * b2 - 4 * k * c2
    concentric = line_a * line_a + line_b * line_b <= SAME_CENTER * numpy.maximum(size, size2)
    line_a = numpy.where(concentric, numpy.nan, line_a)
    swap = size > size2
    if numpy.any(swap):
        a, b, c = numpy.where(swap, a2, a), numpy.where(swap, b2, b), numpy.where(swap, c2, c)
    return _cross_circle(k, a, b, c, line_a, line_b, line_c)
