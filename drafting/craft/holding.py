"""Whether a content goes in: between seams, past an opening, behind a window.

Takes the content's size, how thick the stack of it is and how much ease it is to have; returns what is needed and what
is there. Two flat walls closing round a block of width W and thickness c need W + c between their stitch lines: that
much leather is half of the way round it (derived). The usual four to six mm over the width, all in all, is common
practice, no source.
"""

from __future__ import annotations

from drafting.craft.faults import expect_not_negative, expect_positive
from drafting.records import dataclass

USUAL_EASE = (4.0, 6.0)
"""How much wider than one card a pocket is, from seam to seam (common practice, no source)."""


@dataclass(frozen=True)
class Held:
    """A content, as it goes in: across the opening `wide`, `deep` into the pocket, the whole stack `thick`."""

    name: str
    wide: float
    deep: float
    thick: float
    ease: float = 0.0

    def __post_init__(self) -> None:
        expect_positive(width=self.wide, depth=self.deep)
        expect_not_negative(thickness=self.thick, ease=self.ease)


@dataclass(frozen=True)
class Room:
    """What a content needs and what it has, in mm."""

    needed: float
    given: float

    @property
    def spare(self) -> float:
        """What is left over; negative when it does not go in."""
        return self.given - self.needed

    @property
    def fits(self) -> bool:
        return self.spare >= 0


def least_between_seams(wide: float, thick: float) -> float:
    """The bound below which two flat walls cannot close round a block."""
    return wide + thick


def between_seams(held: Held, given: float) -> Room:
    """The content between two stitch lines this far apart, with its ease."""
    return Room(least_between_seams(held.wide, held.thick) + held.ease, given)


def past_opening(held: Held, mouth: float) -> Room:
    """The content through a straight mouth or slit this long.

    The two lips of a mouth close round the block as walls do. It may be turned to go in with its shorter side first.
    """
    return Room(least_between_seams(min(held.wide, held.deep), held.thick), mouth)
