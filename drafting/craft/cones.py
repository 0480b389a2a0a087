"""A cone cut off at both ends, rolled out flat.

Takes the radii of its two ends and its upright height; returns the two arcs of the flat piece and the angle between its
sides. The arcs are as long as the ends are round, 2 pi R and 2 pi r; the flat area is the mean round times the slant
(Sheet Metal Drafting, p. 91). For leather of some thickness the radii are those of its middle: half a thickness more
than the core's.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, pi

from drafting.craft.faults import CraftFault, expect_not_negative, expect_positive
from drafting.geometry.tolerances import FULL_TURN, SAME_POINT
from drafting.solve.amounts import mm
from drafting.text.catalogue import craft as says


class IsCylinder(CraftFault):
    """A cone with two equal ends, which has no apex to roll about."""

    entry = says.NO_CONE

    def __init__(self, radius: float) -> None:
        super().__init__(radius=mm(radius), length=mm(FULL_TURN * radius))
        self.radius = radius


@dataclass(frozen=True)
class FlatCone:
    """The flat piece: a ring sector between the radii `near` and `far`, over `angle` (radians)."""

    slant: float
    near: float
    far: float
    angle: float

    @property
    def near_arc(self) -> float:
        return self.near * self.angle

    @property
    def far_arc(self) -> float:
        return self.far * self.angle

    @property
    def area(self) -> float:
        return (self.far**2 - self.near**2) * self.angle / 2


def flat_cone(wide_radius: float, narrow_radius: float, height: float) -> FlatCone:
    """The development of a cone between two round ends; a narrow end of 0 is a whole cone."""
    expect_positive(radius=wide_radius, height=height)
    expect_not_negative(radius=narrow_radius)
    wide, narrow = max(wide_radius, narrow_radius), min(wide_radius, narrow_radius)
    if wide - narrow <= SAME_POINT:
        raise IsCylinder(wide)
    slant = hypot(height, wide - narrow)
    far = slant * wide / (wide - narrow)
    return FlatCone(slant, far - slant, far, 2 * pi * wide / far)
