"""What is asked of a roster besides the pattern and the table of people."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from drafting.drawing.machine import LAYERS, Layer, layers_set
from drafting.drawing.prints.papers import PAPERS, Paper, paper_called
from drafting.records import dataclass, field, replace

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

    @property
    def templates(self) -> tuple[str, ...]:
        """What is said of cards and their codes."""
        return (*self.lines, *([self.qr] if self.qr else []))

    def words(self) -> dict[str, Any]:
        """All of it in plain words, for a record."""
        set_otherwise = {key: one for key, one in self.layers.items() if one != LAYERS[key]}
        layers = {key: {"name": one.name, "color": one.color} for key, one in set_otherwise.items()}
        return {**vars(self), "columns": dict(self.columns), "layers": layers, "paper": self.paper.called}


def wishes_of(words: Mapping[str, Any]) -> Wishes:
    """The wishes that were put in such words; whatever else stands among them is left out."""
    known = {name: words[name] for name in Wishes.__dataclass_fields__}
    layers, paper = layers_set(known["layers"]), paper_called(known["paper"])
    return replace(Wishes(**known), layers=layers, paper=paper, lines=tuple(known["lines"]))
