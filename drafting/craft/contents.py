"""What leather is made to hold: published sizes of cards, papers, booklets and bank notes.

Each row names its source and how far that was verified: looked up, second-hand, from memory, or common practice with
no source. A thickness stands only where one is published. Sizes are exact as published; sheets of paper are cut to a
tolerance of 1.5 to 3 mm (ISO 216, from memory), so a drawing's true size is never judged by the edge of its sheet.
"""

from __future__ import annotations

from typing import Literal

from drafting.craft.faults import CraftFault
from drafting.records import dataclass
from drafting.text.catalogue import craft as says
from drafting.text.messages import did_you_mean
from drafting.text.quantities import MM_PER_INCH

Mark = Literal["looked up", "second-hand", "from memory", "common practice, no source"]
"""How far a source was verified."""

INCH = float(MM_PER_INCH)

ID1_RADIUS = 3.18
"""Corner of an ID-1 card, nominal (ISO/IEC 7813, second-hand)."""

ID1_RADIUS_ALLOWED = (2.88, 3.48)
"""Corner of an ID-1 card, smallest and largest (ISO/IEC 7810, second-hand)."""


@dataclass(frozen=True)
class Content:
    """One thing to be held: its two sides, the longer first, and its thickness if that is published."""

    name: str
    long: float
    wide: float
    thick: float | None
    source: str
    mark: Mark
    radius: float = 0.0


class UnknownContent(CraftFault):
    """A name that the table does not have."""

    entry = says.UNKNOWN_CONTENT

    def __init__(self, name: str) -> None:
        super().__init__(
            name=name, offers=", ".join(f"`{one}`" for one in TABLE), near=did_you_mean(name, TABLE)
        )
        self.name = name


ISO_7810 = "ISO/IEC 7810"
ISO_216 = "ISO 216"
ANSI_Y14 = "ANSI/ASME Y14.1"
LISTS = "independent lists agree"
ECB = "ECB Decision ECB/2003/4"
ENGRAVING = "Bureau of Engraving and Printing"

ROWS: tuple[Content, ...] = (
    Content("ID-1 card", 85.60, 53.98, 0.76, f"{ISO_7810}, ID-1", "second-hand", ID1_RADIUS),
    Content("passport", 125, 88, None, f"{ISO_7810}, ID-3; ICAO Doc 9303-4", "second-hand"),
    Content("A0", 1189, 841, None, ISO_216, "second-hand"),
    Content("A1", 841, 594, None, ISO_216, "second-hand"),
    Content("A2", 594, 420, None, ISO_216, "second-hand"),
    Content("A3", 420, 297, None, ISO_216, "second-hand"),
    Content("A4", 297, 210, None, ISO_216, "second-hand"),
    Content("A5", 210, 148, None, ISO_216, "second-hand"),
    Content("A6", 148, 105, None, ISO_216, "second-hand"),
    Content("B5", 250, 176, None, ISO_216, "second-hand"),
    Content("B6", 176, 125, None, ISO_216, "second-hand"),
    Content("US letter", 11 * INCH, 8.5 * INCH, None, f"{ANSI_Y14}, size A", "from memory"),
    Content("US legal", 14 * INCH, 8.5 * INCH, None, f"{ANSI_Y14}, Legal", "from memory"),
    Content("US tabloid", 17 * INCH, 11 * INCH, None, f"{ANSI_Y14}, size B", "from memory"),
    Content("visiting card, western Europe", 85, 55, None, LISTS, "common practice, no source"),
    Content("visiting card, US and Canada", 3.5 * INCH, 2 * INCH, None, LISTS, "common practice, no source"),
    Content("visiting card, Japan", 91, 55, None, LISTS, "common practice, no source"),
    Content("visiting card, China", 90, 54, None, LISTS, "common practice, no source"),
    Content("visiting card, Australia", 90, 55, None, LISTS, "common practice, no source"),
    Content("visiting card, Scandinavia", 90, 55, None, LISTS, "common practice, no source"),
    Content("visiting card, eastern Europe", 90, 50, None, LISTS, "common practice, no source"),
    Content("5 euro note", 120, 62, None, ECB, "looked up"),
    Content("10 euro note", 127, 67, None, ECB, "looked up"),
    Content("20 euro note", 133, 72, None, ECB, "looked up"),
    Content("50 euro note", 140, 77, None, ECB, "looked up"),
    Content("US dollar note", 6.14 * INCH, 2.61 * INCH, 0.0043 * INCH, ENGRAVING, "second-hand"),
)

TABLE: dict[str, Content] = {row.name: row for row in ROWS}


def content_named(name: str) -> Content:
    """The row of that name, or a fault that offers the nearest."""
    if name not in TABLE:
        raise UnknownContent(name)
    return TABLE[name]


def is_id1_radius(radius: float) -> bool:
    """Whether a card with this corner radius is an ID-1 card."""
    low, high = ID1_RADIUS_ALLOWED
    return low <= radius <= high
