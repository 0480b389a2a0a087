"""The kinds of line on a sheet: what each means, its ISO 128 type, its width and its dashes.

Widths are of the series of ISO 128-2 (0.13, 0.18, 0.25, 0.35, 0.5 ...), in the group 0.5 wide and 0.25 narrow. Dashes
are counted in line widths: a dash 12, a long dash 24, a short dash 6, a dot one half, a gap 3. Everything is black:
kinds differ by width and dashes alone, so a copy in black and white still tells them apart.

A fold is the bend line of ISO 128, continuous and narrow. That a crease is dashed is common practice, and the legend
says so. A mark is told by its cross, the grain by its arrow.
"""

from __future__ import annotations

from drafting.records import dataclass

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
    shade: float = 0.0
    """Of what is filled: from 0 for black to 1 for white."""

    @property
    def dashes(self) -> tuple[float, ...]:
        """Dash, gap, dash, gap ... in mm; empty for a continuous line."""
        return tuple(element * self.width for element in self.elements)

    @property
    def has_dots(self) -> bool:
        """True for a line whose dots are so short that only round ends make them seen."""
        return _DOT in self.elements

    @property
    def is_cut(self) -> bool:
        return self.name == "cut"


CUT = LineKind("cut", "cut", "01.2", WIDE)
FOLD = LineKind("fold", "fold (not cut)", "01.1", NARROW)
CREASE = LineKind("crease", "crease (not cut)", "02.1", NARROW, (_DASH, _GAP))
DIMENSION = LineKind("dimension", "dimension", "01.1", NARROW)
EXTENSION = LineKind("extension", "extension", "01.1", NARROW)
LEADER = LineKind("leader", "leader", "01.1", NARROW)
GRAIN = LineKind("grain", "direction of the grain", "01.1", NARROW)
MARK = LineKind("mark", "mark (not cut)", "01.1", NARROW)
MARKING = LineKind("marking", "place of a label or stamp", "03.1", NARROW, (_DASH, _WIDE_GAP))
SYMMETRY = LineKind("symmetry", "mirror line, center line", "04.1", NARROW, (_LONG, _GAP, _DOT, _GAP))
TURN = LineKind("turn", "finished edge, turned here", "05.1", NARROW, (_LONG, _GAP, _DOT, _GAP, _DOT, _GAP))
GUIDE = LineKind("guide", "guide (not cut)", "09.1", NARROW, (_LONG, _GAP, _SHORT, _GAP, _SHORT, _GAP))
STITCH = LineKind("stitch", "stitch line with its holes", "07.1", NARROW, (_DOT, _GAP))
PRICK = LineKind("prick", "stitch hole", "01.2", WIDE)
TWICE = LineKind("twice", "sewn twice", "01.1", NARROW)
SKIVE = LineKind("skive", "skived strip", "08.1", NARROW, (_LONG, _GAP, _SHORT, _GAP))
GLUE = LineKind("glue", "glued strip", "10.1", NARROW, (_DASH, _GAP, _DOT, _GAP))
HATCH = LineKind("hatch", "hatching", "01.1", NARROW)
TINT = LineKind("tint", "what stands out", "01.1", NARROW, shade=0.85)
STOCK = LineKind(
    "stock", "edge of the stock, defects (not cut)", "06.1", NARROW, (_LONG, _GAP, *(_DOT, _GAP) * 3)
)
FRAME = LineKind("frame", "frame", "01.2", WIDE)
TABLE = LineKind("table", "table", "01.1", NARROW)

LINE_KINDS: tuple[LineKind, ...] = (
    CUT, FOLD, CREASE, STITCH, PRICK, TWICE, SKIVE, GLUE, HATCH, TURN, SYMMETRY, GUIDE, MARKING, MARK,
    GRAIN, STOCK, DIMENSION, EXTENSION, LEADER, FRAME, TABLE,
)  # fmt: skip

KIND_OF_FEATURE: dict[str, LineKind] = {
    "slot": CUT,
    "hole": CUT,
    "row": CUT,
    "opening": CUT,
    "slit": CUT,
    "snip": CUT,
    "notch": CUT,
    "crease": CREASE,
    "fold": FOLD,
    "stitch": STITCH,
    "skive": SKIVE,
    "glue": GLUE,
    "turn": TURN,
    "guide": GUIDE,
    "mark": MARK,
    "label": MARKING,
    "stamp": MARKING,
}


def kind_of_feature(kind: str, is_removed: bool) -> LineKind:
    """How a feature is drawn: leather taken away is always cut, whatever the feature is called."""
    return CUT if is_removed else KIND_OF_FEATURE.get(kind, MARKING)
