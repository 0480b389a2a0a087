"""Amounts as a maker reads them: `87.5 mm (3 7/16 in)`.

Takes a value in mm, mm², degrees or plain, and the units that the pattern shows. An inch is shown as a
fraction down to a 64th where it lies within NEAR_FRACTION of one, else in decimals. Rounds for the eye
only: machines are given the number itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from drafting.text.quantities import UNITS

NEAR_FRACTION = 0.005
"""In mm."""
DECIMALS = {"mm": 2, "cm": 3, "in": 4, "oz": 2}


def readable(value: float, unit: str, show: Sequence[str]) -> str:
    """`value` in the first unit shown, and in the others between brackets."""
    first, *others = [amount_in(value, unit, shown) for shown in show or ("mm",)]
    different = [other for other in dict.fromkeys(others) if other != first]
    return f"{first} ({', '.join(different)})" if different else first


def amount_in(value: float, unit: str, shown: str) -> str:
    if unit == "mm":
        return length_in(value, shown)
    if unit == "mm2":
        return area_in(value, shown)
    return f"{plain(value, 4)} {unit}".rstrip()


def length_in(value: float, shown: str) -> str:
    if shown == "in":
        return f"{inches(value)} in"
    return f"{plain(value / float(UNITS[shown]), DECIMALS[shown])} {shown}"


def area_in(value: float, shown: str) -> str:
    """Leather ounces measure thickness alone, so an area is then given in mm²."""
    length = "mm" if shown == "oz" else shown
    return f"{plain(value / float(UNITS[length]) ** 2, DECIMALS[length])} {length}²"


def inches(value: float) -> str:
    """The inches of a length in mm: `3 7/16`, `-5/8`, `2`, or `3.4423` where no 64th is near."""
    sixty_fourths = round(value / float(UNITS["in"]) * 64)
    if abs(float(UNITS["in"]) * sixty_fourths / 64 - value) > NEAR_FRACTION:
        return plain(value / float(UNITS["in"]), DECIMALS["in"])
    whole, rest = divmod(abs(sixty_fourths), 64)
    part = f"{Fraction(rest, 64)}" if rest else ""
    return ("-" if sixty_fourths < 0 else "") + (f"{whole} {part}".strip() if whole or not part else part)


def plain(value: float, decimals: int) -> str:
    """In decimals, without zeros that say nothing and without a minus before a zero."""
    text = f"{value:.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
