"""Lengths of straps and belts: turn-backs, blanks, and the sizes a row of holes gives.

All are sums of what a maker measures, and of the allowance of the fold round the bar. Where a size is measured from is
not agreed among makers: the fold at the bar, or the end of the frame where the prong rests. The two differ by the depth
of the buckle, 20 to 35 mm, which is more than a hole (common practice, no source), so the pattern must say which.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from drafting.craft.bends import MIDDLE, fold_allowance
from drafting.craft.faults import expect_not_negative, expect_positive


@dataclass(frozen=True)
class TurnBack:
    """The end of a strap folded back round a bar: lengths from the end of the strap.

    `fold` is where the middle of the bend lies, `straight` where the strap leaves the bar again; the slot for the
    prong has its middle on the fold.
    """

    fold: float
    straight: float
    allowance: float


def strap_turn_back(lap: float, bar: float, thickness: float, neutral: float = MIDDLE) -> TurnBack:
    """A strap that lies back on itself for `lap` behind a bar, sewn or riveted there.

    Sixty to ninety mm is common on belts (common practice, no source).
    """
    expect_positive(turn_back=lap)
    expect_not_negative(bar=bar)
    allowance = fold_allowance(pi, bar, thickness, neutral)
    return TurnBack(lap + allowance / 2, lap + allowance, allowance)


def belt_blank(turn_back: float, size: float, holes: int, apart: float, tail: float) -> float:
    """The length of a belt: turn-back, the size from the bearing point to the middle hole, half the row, the tail.

    Common practice, no source; whether the bearing point is the fold at the bar or the end of the frame is not agreed
    among makers, and is for the pattern to say.
    """
    expect_positive(turn_back=turn_back, size=size, distance_of_holes=apart)
    expect_not_negative(tail=tail)
    return turn_back + size + (holes - 1) / 2 * apart + tail


def sizes_of_row(nominal: float, holes: int, apart: float) -> tuple[float, float]:
    """The smallest and the largest size of a strap whose middle hole gives the nominal one.

    An odd number of holes, usually five, reaches (n - 1)/2 pitches each way (common practice, no source).
    """
    expect_positive(size=nominal, distance_of_holes=apart)
    reach = (holes - 1) / 2 * apart
    return nominal - reach, nominal + reach
