"""Where two loci meet: the closed form behind nearly every point of a pattern.

A locus is (k, a, b, c) of k (x² + y²) + a x + b y + c = 0 about a local origin. Two circles share the line through
their crossings; a line and a circle are walked with a parameter from the middle of the chord; two lines are crossed
by Cramer's rule.
"""

from __future__ import annotations

from drafting.geometry import maths as math
from drafting.solve.closed_forms import chord

Locus = tuple[float, float, float, float]
Places = list[tuple[float, float]]

TOUCHING = 1e-12
"""Half a chord, squared and relative to the radius squared, that still counts as a touch. A touch costs half of the
digits, so rounding alone makes this much."""

SAME = 1e-9
"""mm within which two loci are one and the same."""

SAME_CENTER = 1e-26
"""Square of the distance of two centers, relative to the radii squared, within which circles are concentric."""

PARALLEL = 1e-13
"""Sine of the angle between two lines that count as parallel."""


class Miss(Exception):
    """Two loci that do not meet: `gap` mm apart, or one and the same where `same` is true."""

    def __init__(self, gap: float, same: bool = False) -> None:
        super().__init__(gap, same)
        self.gap = gap
        self.same = same


def meet(first: Locus, second: Locus) -> Places:
    """The one or two places, or a Miss. A pair closer than a touch is given as one place."""
    k1, a1, b1, c1 = first
    k2, a2, b2, c2 = second
    if k1 == 0.0 and k2 == 0.0:
        return _cross_lines(a1, b1, c1, a2, b2, c2)
    if k1 == 0.0:
        return _cross_circle(k2, a2, b2, c2, a1, b1, c1)
    if k2 == 0.0:
        return _cross_circle(k1, a1, b1, c1, a2, b2, c2)
    return _cross_circles(first, second)


def _cross_circle(
    k: float, a: float, b: float, c: float, line_a: float, line_b: float, line_c: float
) -> Places:
    if line_a == 0.0 and line_b == 0.0:
        raise Miss(0.0, same=line_c == 0.0)
    x, y, way_x, way_y, half_squared, radius_squared = chord(k, a, b, c, line_a, line_b, line_c)
    if abs(half_squared) <= TOUCHING * radius_squared:
        return [(x, y)]
    if not half_squared > 0.0:
        raise Miss(_miss_of_line(half_squared, radius_squared))
    half = math.sqrt(half_squared)
    return [(x + half * way_x, y + half * way_y), (x - half * way_x, y - half * way_y)]


def _miss_of_line(half_squared: float, radius_squared: float) -> float:
    """How far a line passes outside a circle; of an impossible circle, how far its radius is from being one."""
    if radius_squared <= 0.0:
        return math.sqrt(-radius_squared)
    return math.sqrt(radius_squared - half_squared) - math.sqrt(radius_squared)


def _cross_circles(first: Locus, second: Locus) -> Places:
    """By the line through the crossings, walked on the smaller circle, where it loses fewer digits."""
    k, a, b, c = first
    k2, a2, b2, c2 = second
    if k2 != k:
        a2, b2, c2 = a2 * k / k2, b2 * k / k2, c2 * k / k2
    line_a, line_b, line_c = a - a2, b - b2, c - c2
    size, size2 = a * a + b * b - 4 * k * c, a2 * a2 + b2 * b2 - 4 * k * c2
    if line_a * line_a + line_b * line_b <= SAME_CENTER * max(size, size2):
        raise _miss_of_circles(first, second)
    if size > size2:
        a, b, c = a2, b2, c2
    try:
        return _cross_circle(k, a, b, c, line_a, line_b, line_c)
    except Miss:
        raise _miss_of_circles(first, second) from None


def _miss_of_circles(first: Locus, second: Locus) -> Miss:
    x1, y1, r1 = _center_and_radius(first)
    x2, y2, r2 = _center_and_radius(second)
    apart = math.hypot(x2 - x1, y2 - y1)
    gap = max(apart - (r1 + r2), abs(r1 - r2) - apart, 0.0)
    return Miss(gap, same=gap <= SAME * (1 + r1) and abs(r1 - r2) + apart <= SAME * (1 + r1))


def _center_and_radius(locus: Locus) -> tuple[float, float, float]:
    """A circle that cannot be, because its radius squared is negative, counts as one of no size."""
    k, a, b, c = locus
    x, y = -a / (2 * k), -b / (2 * k)
    return x, y, math.sqrt(max(x * x + y * y - c / k, 0.0))


def _cross_lines(a1: float, b1: float, c1: float, a2: float, b2: float, c2: float) -> Places:
    turn = a1 * b2 - a2 * b1
    if not abs(turn) > PARALLEL * (abs(a1) + abs(b1)) * (abs(a2) + abs(b2)):
        raise _miss_of_lines(a1, b1, c1, a2, b2, c2)
    return [((b1 * c2 - b2 * c1) / turn, (c1 * a2 - c2 * a1) / turn)]


def _miss_of_lines(a1: float, b1: float, c1: float, a2: float, b2: float, c2: float) -> Miss:
    length1, length2 = math.hypot(a1, b1), math.hypot(a2, b2)
    if length1 == 0.0 or length2 == 0.0:
        return Miss(0.0, same=(length1 > 0.0 or c1 == 0.0) and (length2 > 0.0 or c2 == 0.0))
    sign = 1.0 if a1 * a2 + b1 * b2 > 0 else -1.0
    gap = abs(c1 / length1 - sign * c2 / length2)
    return Miss(gap, same=gap <= SAME)  # a locus that is not a number is never the same
