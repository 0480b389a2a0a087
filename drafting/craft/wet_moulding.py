"""Leather pressed wet over a block: how large the blank must be, and how much it is gathered at the corners.

Takes the block's sizes, the depth, the radii of the bends and the thickness. Along a straight side the section is
unrolled on its neutral line: flange, a bend at the foot, the wall, a bend at the top, the top. At a corner of the block
the leather behaves like a drawn shell, and a blank of radius sqrt(r^2 + 2rh) holds as much leather as a cup of radius r
and depth h: Machinery's Handbook's diameter of shell blanks, D = sqrt(d^2 + 4dh), from memory. That it keeps its area
is a model; how much a side of leather gives is common practice, no source, and is to be tried in scrap.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from drafting.craft.bends import MIDDLE, bend_allowance
from drafting.craft.faults import expect_not_negative, expect_positive


@dataclass(frozen=True)
class Moulded:
    """The blank of a moulded front.

    `long` and `wide` are over all, flanges and all; `rise` is what one side adds to the block's half; `corner_radius`
    is where the flange starts on the blank round a corner; `gather` is by what share the leather there is narrowed.
    """

    long: float
    wide: float
    rise: float
    corner_radius: float
    gather: float


def moulded(
    long: float,
    wide: float,
    depth: float,
    thickness: float,
    flange: float,
    corner_radius: float,
    top_radius: float = 0.0,
    foot_radius: float = 0.0,
    neutral: float = MIDDLE,
) -> Moulded:
    """The blank for a block with vertical walls. `top_radius` is that of the block's edge, where the leather bends over
    it; `foot_radius` that on the outer face where it bends out into the flange."""
    expect_positive(length=long, width=wide, depth=depth, corner_radius=corner_radius)
    expect_not_negative(flange=flange, top_radius=top_radius, foot_radius=foot_radius)
    rise = _rise(depth, thickness, top_radius, foot_radius, neutral)
    blank_radius = sqrt(corner_radius**2 + 2 * corner_radius * rise)
    return Moulded(
        long + 2 * (rise + flange),
        wide + 2 * (rise + flange),
        rise,
        blank_radius,
        1 - corner_radius / blank_radius,
    )


def _rise(depth: float, thickness: float, top: float, foot: float, neutral: float) -> float:
    """What a wall and its two bends take beyond the block's own half and the flange.

    The inside of the top's bend is the block; of the foot's the air outside, so its neutral line is the other way, and
    the flange's underside lies the leather's thickness below where that bend begins.
    """
    straight = depth - top - foot - thickness
    expect_positive(straight_part_of_the_wall=straight)
    over, out = (
        bend_allowance(pi / 2, top, thickness, neutral),
        bend_allowance(pi / 2, foot, thickness, 1 - neutral),
    )
    return over - top + straight + out
