"""Standard numbers for stitches and seams, and what a net area takes of a hide.

The saddle stitch sewn with two needles is stitch 201 (ISO 4915:1991, second-hand): two threads, alternating running
stitches through one line of holes. 209 is a one-thread imitation by machine that the clothing trade calls saddle stitch
(second-hand). Seam classes are those of ISO 4916:1991 (second-hand).
"""

from __future__ import annotations

from drafting.craft.faults import CraftFault, expect_positive
from drafting.text.catalogue import craft as says

SADDLE_STITCH = 201
"""The two-needle hand stitch of this craft."""

STITCH_CLASSES: dict[int, str] = {
    100: "chain",
    200: "hand",
    300: "lock",
    400: "multi-thread chain",
    500: "over-edge",
    600: "covering",
}

SEAM_CLASSES: dict[int, str] = {
    1: "superimposed",
    2: "lapped",
    3: "bound",
    4: "flat",
    5: "decorative",
    6: "edge finishing",
    7: "attaching separate items",
    8: "single ply",
}


class UnknownStitch(CraftFault):
    """A number that is in no class of stitches."""

    entry = says.UNKNOWN_STITCH

    def __init__(self, number: int) -> None:
        super().__init__(number=str(number))
        self.number = number


class YieldRange(CraftFault):
    """A yield of nothing, or of more than all."""

    entry = says.YIELD_RANGE

    def __init__(self, part_used: float) -> None:
        super().__init__(part=f"{part_used * 100:g} %")
        self.part_used = part_used


def stitch_class(number: int) -> str:
    """The class that a three-digit stitch number belongs to."""
    name = STITCH_CLASSES.get(number // 100 * 100)
    if name is None:
        raise UnknownStitch(number)
    return name


def hide_needed(net: float, part_used: float) -> float:
    """The area of hide for a net area of pieces, of which the cutter uses such a part.

    Upholstery gets 50 to 70 % of a whole hide, small goods more (common practice, no source; several trade pages
    agree).
    """
    expect_positive(area=net)
    if not 0 < part_used <= 1:
        raise YieldRange(part_used)
    return net / part_used
