"""What solving asks of the trade.

craft/ stands on solve/ and computes how leather folds and how a seam is pricked; a drawing needs such figures while it
is solved, since a strap is as long as its fold takes. So whoever drafts a pattern hands the trade down as one Trade.
Its methods raise Unbuildable with the trade's own words where a thing cannot be done, at the place they are given.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from drafting.text.source import Span


@dataclass(frozen=True)
class Asked:
    """What is asked for, by its maker's name, and where it is written: so a fault knows what to speak of."""

    name: str
    piece: str
    span: Span


class Trade(Protocol):
    """The computations of craft/ that a drawing needs while it is solved. Lengths are mm, angles radians."""

    def fold_allowance(
        self, turn: float, inside: float, thickness: float, neutral: float, asked: Asked
    ) -> float:
        """The flat length that a fold round something `inside` thick takes up."""
