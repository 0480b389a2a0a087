"""Numbers as files hold them: the one place where a length becomes digits."""

from __future__ import annotations

DECIMALS = 6
"""A millionth of a millimetre: even at 1:1000 far below what is proved."""


def number_text(value: float, decimals: int = DECIMALS) -> str:
    """At most so many decimals, no zeros at the end, never `-0` and never an exponent.

    >>> number_text(12.5), number_text(-0.000001), number_text(3.0)
    ('12.5', '0', '3')
    """
    text = f"{value:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
