"""Numbers as a message shows them: short, in the unit of the place."""

from __future__ import annotations

from math import ceil, floor

from drafting.geometry.maths import in_words
from drafting.geometry.point import Point
from drafting.text.quantities import ANGLE, AREA, LENGTH, Kind


@in_words
def plain(value: float, places: int = 3) -> str:
    """A number without trailing zeros; what rounds to nothing is `0`."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


@in_words
def mm(value: float) -> str:
    """A length. Below a thousandth it shows more digits, so that no difference reads as none."""
    if value == 0 or abs(value) >= 0.0005:
        return f"{plain(value)} mm"
    return f"{plain(value, 6)} mm" if abs(value) >= 0.000001 else "less than 0.000001 mm"


@in_words
def mm_at_most(value: float) -> str:
    """A length that is the most there may be: rounded down, so that it still fits when it is typed."""
    return mm(floor(value * 1000 + 1e-6) / 1000)


@in_words
def mm_at_least(value: float) -> str:
    """A length that is the least there may be: rounded up."""
    return mm(ceil(value * 1000 - 1e-6) / 1000)


def place(point: Point) -> str:
    return f"({plain(point.x, 2)}, {plain(point.y, 2)}) mm"


def shown(value: float, kind: Kind) -> str:
    """An amount of any kind with its unit."""
    unit = {LENGTH: " mm", AREA: " mm²", ANGLE: " deg"}.get(kind, "")
    return plain(value) + unit
