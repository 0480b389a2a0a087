"""Lengths as they are printed: millimetres in, figures out.

A pattern says by `show` which units it prints. Two units stand as `55 [2.165]`, the second in square brackets, and the
sheet says once which units they are. Millimetres keep at most two decimals, centimetres three. Inches are written as
a whole and a fraction where they are exact to 1/64, as on a maker's rule, else with three decimals.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from drafting.records import dataclass, replace
from drafting.text.quantities import UNITS

EXACT_FRACTION = 1e-5
"""How near to a 64th of an inch, in inches, an amount must be to be written as one."""
_DECIMALS = {"mm": 2, "cm": 3, "in": 3, "oz": 2}
_UNIT_NAMES = {"mm": "mm", "cm": "cm", "in": "inches", "oz": "oz"}


@dataclass(frozen=True)
class Figures:
    """Writes lengths in the units of one pattern."""

    units: tuple[str, ...] = ("mm",)
    with_units: bool = False

    @classmethod
    def shown_by(cls, show: Sequence[str]) -> Figures:
        return cls(tuple(show) or ("mm",))

    def length(self, value: float) -> str:
        return self.phrase("{}", value)

    def phrase(self, pattern: str, *values: float) -> str:
        """A phrase with lengths in it, in the first unit, and in brackets the lengths in each further unit.

        What stands before a first bar in the pattern and after a second is said once.

        >>> Figures(("mm", "in")).phrase("slot |{} × {}|, deep", 14, 4.5)
        'slot 14 × 4.5, deep [0.551 × 0.177]'
        """
        parts = pattern.split("|")
        opening, repeated, ending = ("", parts[0], "") if len(parts) == 1 else (*parts, "")[:3]
        first, *others = (self._filled(repeated, values, unit) for unit in self.units)
        return " ".join([f"{opening}{first}{ending}", *(f"[{other}]" for other in others)])

    def told(self, pattern: str, *values: float) -> str:
        """The same for words away from the drawing, where each length carries its unit.

        >>> Figures(("mm", "in")).told("slot |{} × {}|, deep", 14, 4.5)
        'slot 14 mm × 4.5 mm, deep [0.551 in × 0.177 in]'
        """
        return replace(self, with_units=True).phrase(pattern, *values)

    def _filled(self, pattern: str, values: Sequence[float], unit: str) -> str:
        name = f" {unit}" if self.with_units else ""
        return pattern.format(*(f"{in_unit(value, unit)}{name}" for value in values))

    @property
    def statement(self) -> str:
        """What the sheet says about its figures."""
        first, *others = (_UNIT_NAMES[unit] for unit in self.units)
        return " ".join(["Dimensions in", first, *(f"[{other}]" for other in others)])


def in_unit(value: float, unit: str) -> str:
    """An amount of mm as figures in one unit, without the unit's name."""
    amount = value / float(UNITS[unit])
    if unit == "in":
        sixty_fourths = round(amount * 64)
        if abs(amount - sixty_fourths / 64) < EXACT_FRACTION:
            return mixed_fraction(Fraction(sixty_fourths, 64))
    return trimmed(amount, _DECIMALS[unit])


def mixed_fraction(amount: Fraction) -> str:
    """`3 1/2`, `5/8` or `4`."""
    whole, rest = divmod(abs(amount), 1)
    parts = ([str(whole)] if whole or not rest else []) + ([str(rest)] if rest else [])
    return ("-" if amount < 0 else "") + " ".join(parts)


def trimmed(amount: float, decimals: int) -> str:
    """At most so many decimals, without zeros at the end and without a minus before zero."""
    text = f"{amount:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
