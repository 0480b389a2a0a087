"""What is asked of a roster besides the pattern and the table of people."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from drafting.drawing.machine import LAYERS, Layer
from drafting.drawing.prints.papers import PAPERS, Paper

LEAST_ENGRAVED = 1.5
"""mm: capitals lower than this close up when they are engraved in leather (common practice, no source)."""


@dataclass(frozen=True)
class Wishes:
    """`columns` says which heading feeds a stamp, a measure or the size, by their names; what it does not say goes by
    the names in the pattern. Lengths are mm."""

    columns: Mapping[str, str] = field(default_factory=dict)
    size: str | None = None
    """The size of everybody who has none of their own."""
    letters: Literal["stroke", "outline"] = "stroke"
    least: float = LEAST_ENGRAVED
    """The lowest capitals that may be engraved."""
    layers: Mapping[str, Layer] = field(default_factory=lambda: LAYERS)
    """What machines call the layers, and their colours, by operation."""
    is_even: bool = False
    """Whether a stamp has letters of one height for everybody."""
    is_mirrored: bool = False
    """Whether the boxes are made alone and mirrored, for a stamp that prints them the right way round."""
    card: str | None = None
    """The content that cards are printed for; None takes the only one that is flat."""
    has_cards: bool = True
    lines: tuple[str, ...] = ()
    """What stands on a card, headings in braces; nothing said is a line for each column."""
    qr: str | None = None
    """What its QR code says, headings in braces."""
    paper: Paper = PAPERS["a4"]
