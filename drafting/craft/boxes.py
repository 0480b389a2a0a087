"""Boxes from one flat piece: folded walls, and how they meet at a corner.

Takes the room inside, the thickness and how the walls meet; returns the blank and how far each wall comes in. All is
derived from the bend's neutral line: a wall stands outside the fold, so each fold takes its allowance, and at a corner
one wall must make room for the thickness of the other.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import Literal

from drafting.craft.bends import MIDDLE, bend_allowance
from drafting.craft.faults import expect_not_negative, expect_positive

Corner = Literal["butted", "mitred", "lapped"]
"""Butted: the second wall ends against the first one's inside. Mitred: both edges are cut at 45 deg. Lapped: the second
wall has a tab that goes in behind the first.
"""


@dataclass(frozen=True)
class CornerMeeting:
    """How far two walls end before the outside corner of the box, at their outer faces. `tab` is glued behind."""

    first_in: float
    second_in: float
    tab: float = 0.0


def walls_meet(corner: Corner, thickness: float, tab: float = 0.0) -> CornerMeeting:
    """How far the sides come in at a corner for the leather's thickness."""
    expect_not_negative(thickness=thickness, tab=tab)
    match corner:
        case "butted":
            return CornerMeeting(0.0, thickness)
        case "mitred":
            return CornerMeeting(0.0, 0.0)
        case "lapped":
            return CornerMeeting(0.0, thickness, tab)


@dataclass(frozen=True)
class BoxBlank:
    """A flat piece that folds up into an open box.

    `long` and `wide` are over all; `base_long` and `base_wide` lie between the middles of the folds; `wall` is from
    the middle of a fold to the rim. `first_wall` and `second_wall` are how long the two kinds of walls are cut along
    the rim, without the tab.
    """

    long: float
    wide: float
    base_long: float
    base_wide: float
    wall: float
    first_wall: float
    second_wall: float
    tab: float


def box_blank(
    long: float,
    wide: float,
    high: float,
    thickness: float,
    radius: float = 0.0,
    corner: Corner = "butted",
    tab: float = 0.0,
    neutral: float = MIDDLE,
) -> BoxBlank:
    """The blank of an open box with so much room inside, its four walls folded up by 90 deg.

    The first walls stand along the long sides and run through to the corner, the second ones stand along the wide
    sides and end as `corner` says.
    """
    expect_positive(length=long - 2 * radius, width=wide - 2 * radius, height=high - radius)
    allowance = bend_allowance(pi / 2, radius, thickness, neutral)
    base_long, base_wide = (side - 2 * radius + allowance for side in (long, wide))
    wall = high - radius + allowance / 2
    meeting = walls_meet(corner, thickness, tab)
    first, second = (side + 2 * thickness for side in (long, wide))
    return BoxBlank(
        base_long + 2 * wall,
        base_wide + 2 * wall,
        base_long,
        base_wide,
        wall,
        first - 2 * meeting.first_in,
        second - 2 * meeting.second_in,
        meeting.tab,
    )
