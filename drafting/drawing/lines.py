"""The kinds of line on a sheet: what each means, its ISO 128 type, its width and its dashes.

Widths are of the series of ISO 128-2 (0.13, 0.18, 0.25, 0.35, 0.5 ...), in the group 0.5 wide and 0.25 narrow. Dashes
are counted in line widths: a dash 12, a long dash 24, a short dash 6, a dot one half, a gap 3. Everything is black:
kinds differ by width and dashes alone, so a copy in black and white still tells them apart.
"""

from __future__ import annotations

from dataclasses import dataclass

WIDE = 0.5
NARROW = 0.25
LETTER_STROKE = 0.35

_DASH, _LONG, _SHORT, _DOT, _GAP, _WIDE_GAP = 12.0, 24.0, 6.0, 0.5, 3.0, 18.0


@dataclass(frozen=True)
class LineKind:
    """One row of the table: `name` marks it in files, `means` explains it in the legend, `iso` is its number."""

    name: str
    means: str
    iso: str
    width: float
    elements: tuple[float, ...] = ()

    @property
    def dashes(self) -> tuple[float, ...]:
        """Dash, gap, dash, gap ... in mm; empty for a continuous line."""
        return tuple(element * self.width for element in self.elements)

    @property
    def is_cut(self) -> bool:
        return self.name == "cut"


CUT = LineKind("cut", "cut", "01.2", WIDE)
CREASE = LineKind("crease", "crease, fold (not cut)", "01.1", NARROW)
DIMENSION = LineKind("dimension", "dimension", "01.1", NARROW)
EXTENSION = LineKind("extension", "extension", "01.1", NARROW)
LEADER = LineKind("leader", "leader", "01.1", NARROW)
SYMBOL = LineKind("symbol", "mark, label, grain", "01.1", NARROW)
HIDDEN = LineKind("hidden", "hidden edge", "02.1", NARROW, (_DASH, _GAP))
MARKING = LineKind("marking", "marking line (not cut)", "03.1", NARROW, (_DASH, _WIDE_GAP))
SYMMETRY = LineKind("symmetry", "mirror line, center line", "04.1", NARROW, (_LONG, _GAP, _DOT, _GAP))
GUIDE = LineKind("guide", "guide (not cut)", "05.1", NARROW, (_LONG, _GAP, _DOT, _GAP, _DOT, _GAP))
STITCH = LineKind("stitch", "stitch line", "07.2", WIDE, (_DOT, _GAP))
SKIVE = LineKind("skive", "skived or glued strip", "08.1", NARROW, (_LONG, _GAP, _SHORT, _GAP))
FRAME = LineKind("frame", "frame", "01.2", WIDE)
TABLE = LineKind("table", "table", "01.1", NARROW)

LINE_KINDS: tuple[LineKind, ...] = (
    CUT, CREASE, STITCH, SKIVE, MARKING, SYMMETRY, GUIDE, HIDDEN,
    SYMBOL, DIMENSION, EXTENSION, LEADER, FRAME, TABLE,
)  # fmt: skip

KIND_OF_FEATURE: dict[str, LineKind] = {
    "slot": CUT,
    "hole": CUT,
    "row": CUT,
    "opening": CUT,
    "slit": CUT,
    "notch": CUT,
    "crease": CREASE,
    "fold": CREASE,
    "stitch": STITCH,
    "skive": SKIVE,
    "glue": SKIVE,
    "turn": HIDDEN,
    "guide": GUIDE,
    "mark": SYMBOL,
    "label": SYMBOL,
    "stamp": SYMBOL,
}


def kind_of_feature(kind: str, is_removed: bool) -> LineKind:
    """How a feature is drawn: leather taken away is always cut, whatever the feature is called."""
    return CUT if is_removed else KIND_OF_FEATURE.get(kind, MARKING)
