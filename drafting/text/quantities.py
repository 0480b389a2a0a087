"""Lengths, angles and plain numbers, exact and with their kind.

A Quantity is an exact value with a Kind. Inside the tool lengths are mm, areas mm² and angles degrees; a unit is
turned into them once, where it stands beside its number, and nowhere else.

An inch is 25.4 mm exactly (NBS Circular 572, addendum of 22 January 1960). A leather ounce is 1/64 inch of
thickness (ASTM D1814-70, 1.2).
"""

from __future__ import annotations

from fractions import Fraction

from drafting.records import dataclass

MM_PER_INCH = Fraction(127, 5)
UNITS: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "in": MM_PER_INCH,
    "oz": MM_PER_INCH / 64,
}


@dataclass(frozen=True)
class Kind:
    """What sort of amount an expression gives: powers of length and of angle.

    A root may give half powers, so both are fractions. `NUMBER`, `LENGTH`, `AREA` and `ANGLE` are the ones with a
    name.
    """

    length: Fraction = Fraction(0)
    angle: Fraction = Fraction(0)

    def __mul__(self, other: Kind) -> Kind:
        return Kind(self.length + other.length, self.angle + other.angle)

    def __truediv__(self, other: Kind) -> Kind:
        return Kind(self.length - other.length, self.angle - other.angle)

    def root(self) -> Kind:
        return Kind(self.length / 2, self.angle / 2)

    @property
    def name(self) -> str:
        """In the maker's words: `a length`, `an angle`, `a plain number`, `an area`, or the powers."""
        known = {NUMBER: "a plain number", LENGTH: "a length", AREA: "an area", ANGLE: "an angle"}
        if self in known:
            return known[self]
        parts = [f"mm^{self.length}" if self.length else "", f"deg^{self.angle}" if self.angle else ""]
        return "an amount in " + "·".join(part for part in parts if part)

    @property
    def unit(self) -> str:
        """The unit that machine-read output gives it in: `mm`, `mm2`, `deg` or nothing."""
        return {NUMBER: "", LENGTH: "mm", AREA: "mm2", ANGLE: "deg"}.get(self, self.name)


NUMBER = Kind()
LENGTH = Kind(length=Fraction(1))
AREA = Kind(length=Fraction(2))
ANGLE = Kind(angle=Fraction(1))


@dataclass(frozen=True)
class Quantity:
    """An exact amount: `value` in mm, mm² or degrees by its `kind`."""

    value: Fraction
    kind: Kind

    @classmethod
    def of(cls, number: Fraction, unit: str) -> Quantity:
        """The amount that a number and the unit word beside it mean; `unit` may be empty for a plain number."""
        if unit == "":
            return cls(number, NUMBER)
        if unit == "deg":
            return cls(number, ANGLE)
        return cls(number * UNITS[unit], LENGTH)
