"""Money: an exact amount of one currency, rounded only where it is shown.

Amounts are fractions, never floats, so that a hundred copies cost a hundred times as much as one. Shown amounts are
rounded half away from nothing, to the smallest coin of the currency.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from drafting.records import dataclass

USUAL_DIGITS = 2
DIGITS = dict.fromkeys(("JPY", "KRW", "ISK", "CLP", "VND", "XAF", "XOF", "PYG", "UGX"), 0)
"""Digits of the smallest coin where it is not a hundredth (ISO 4217, from memory)."""
DIGITS |= dict.fromkeys(("KWD", "BHD", "OMR", "JOD", "TND", "IQD", "LYD"), 3)


class TwoCurrencies(ValueError):
    """Amounts of different currencies cannot be added."""


@dataclass(frozen=True)
class Money:
    """
    >>> print(Money(Fraction(10), "EUR") * Fraction(1, 3))
    3.33 EUR
    """

    amount: Fraction
    currency: str

    @property
    def digits(self) -> int:
        return DIGITS.get(self.currency.upper(), USUAL_DIGITS)

    @property
    def rounded(self) -> Money:
        """To the smallest coin."""
        coins = 10**self.digits
        whole = (abs(self.amount) * coins * 2 + 1) // 2
        return Money(Fraction(whole if self.amount >= 0 else -whole, coins), self.currency)

    @property
    def figures(self) -> str:
        """`1234.50`, without the currency."""
        coins = 10**self.digits
        whole, rest = divmod(abs(self.rounded.amount) * coins, coins)
        text = f"{whole}.{int(rest):0{self.digits}}" if self.digits else f"{whole}"
        return f"-{text}" if self.rounded.amount < 0 else text

    def __add__(self, other: Money) -> Money:
        if self.currency != other.currency:
            raise TwoCurrencies(f"{self.currency} and {other.currency}")
        return Money(self.amount + other.amount, self.currency)

    def __mul__(self, factor: int | Fraction) -> Money:
        return Money(self.amount * factor, self.currency)

    def __str__(self) -> str:
        return f"{self.figures} {self.currency}"


def total_of(amounts: Iterable[Money]) -> Money:
    """The sum of one or more amounts; TwoCurrencies where they differ."""
    first, *others = amounts
    for other in others:
        first += other
    return first
