"""Numbers as a message shows them: short, in the unit of the place."""

from __future__ import annotations

from drafting.geometry.point import Point
from drafting.text.quantities import ANGLE, AREA, LENGTH, Kind


def plain(value: float, places: int = 3) -> str:
    """A number without trailing zeros; what rounds to nothing is `0`."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def mm(value: float) -> str:
    """A length. Below a thousandth it shows its first two digits, so that no difference reads as none."""
    if value != 0 and abs(value) < 0.0005:
        return f"{value:.1e} mm"
    return f"{plain(value)} mm"


def place(point: Point) -> str:
    return f"({plain(point.x, 2)}, {plain(point.y, 2)}) mm"


def shown(value: float, kind: Kind) -> str:
    """An amount of any kind with its unit."""
    unit = {LENGTH: " mm", AREA: " mm²", ANGLE: " deg"}.get(kind, "")
    return plain(value) + unit
