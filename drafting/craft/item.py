"""An item as the workshop rules see it: placed pieces, what they are made of, and what goes through what.

Plain values, filled from a placed pattern; lengths in mm, the grain side seen. A rule looks here and nowhere else, so
what stands here is all that a rule can know. Names are the maker's: a feature is told as `piece.feature`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from drafting.craft.holding import Held
from drafting.craft.slits import Slit
from drafting.craft.stitches import Layout
from drafting.geometry.maths import kept
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.records import dataclass, field


@dataclass(frozen=True)
class Stock:
    """What a piece is cut from: its kind (`leather`, `sheet` ...), and all that is written of it."""

    name: str
    kind: str
    thick: float
    words: str = ""


@dataclass(frozen=True)
class PunchedHole:
    """A round hole, alone or in a row. `loaded` holes bear a pull: rivets, eyelets, the holes of a strap."""

    name: str
    center: Point
    across: float
    loaded: bool = False


@dataclass(frozen=True)
class HoleRow:
    """The holes of a strap, in order, named as a row. `for_size` tells the row that a buckle's prong goes into."""

    name: str
    holes: tuple[PunchedHole, ...]
    nominal: Point | None = None
    """Where the middle hole should be: the place that the size is measured to."""
    for_size: bool = False


@dataclass(frozen=True)
class Opening:
    """Leather taken away inside a ring: a window, a slot, a thumb cut. `long` and `wide` are over all."""

    name: str
    ring: Ring
    kind: Literal["window", "slot"]
    long: float
    wide: float


@dataclass(frozen=True)
class PlacedSlit:
    name: str
    slit: Slit


@dataclass(frozen=True)
class StitchLine:
    """A stitch line on its piece. `sewn` is how thick all the layers are that it sews, None when unknown."""

    name: str
    layout: Layout
    thread: float | None = None
    sewn: float | None = None
    pricked: bool = False
    """True for holes pricked through from another piece: its line need not lie on this piece, only its holes."""
    source: str | None = None
    """The line they are pricked through from, as `piece.line`."""


@dataclass(frozen=True)
class PlacedFold:
    """A fold over the piece. `inside` is the thickness of what lies in it; `thick` what is left where it was skived."""

    name: str
    line: Path
    turn: float
    inside: float
    thick: float | None = None


@dataclass(frozen=True)
class PlacedTurn:
    """A turned edge, with what is left of the leather where it was skived (None: as thick as the stock)."""

    name: str
    width: float
    thick: float | None = None


@dataclass(frozen=True)
class Notch:
    name: str
    place: Point
    deep: float


@dataclass(frozen=True)
class PlacedPart:
    """A piece of the item, flat and whole. `grain` is its direction in radians, `any`, or None when nothing is said."""

    name: str
    outline: Ring
    stock: Stock | None = None
    grain: float | Literal["any"] | None = None
    holes: tuple[PunchedHole, ...] = ()
    rows: tuple[HoleRow, ...] = ()
    openings: tuple[Opening, ...] = ()
    slits: tuple[PlacedSlit, ...] = ()
    stitches: tuple[StitchLine, ...] = ()
    folds: tuple[PlacedFold, ...] = ()
    turns: tuple[PlacedTurn, ...] = ()
    notches: tuple[Notch, ...] = ()
    words: tuple[str, ...] = ()
    """Titles, notes and texts of the piece and its features."""
    points: Mapping[str, Point] = field(default_factory=dict)
    """The maker's own points, by name."""

    @kept
    def all_holes(self) -> tuple[PunchedHole, ...]:
        return (*self.holes, *(hole for row in self.rows for hole in row.holes))

    @property
    def thick(self) -> float:
        return self.stock.thick if self.stock else 0.0


@dataclass(frozen=True)
class Buckle:
    """A buckle, ring or bar that a strap goes through: the clear width inside its frame, and its prong if it has
    one."""

    name: str
    inside: float
    prong: float | None = None


@dataclass(frozen=True)
class StrapThroughBuckle:
    """That a strap, so wide, goes through a buckle. `slot` is the opening its prong comes through, as `piece.slot`."""

    strap: str
    wide: float
    buckle: Buckle
    slot: str | None = None


@dataclass(frozen=True)
class StrapThroughSlot:
    """That a strap, so wide and thick, goes through a slot, `piece.slot`."""

    strap: str
    wide: float
    thick: float
    slot: str


@dataclass(frozen=True)
class WindowHolds:
    """That a window, `piece.opening`, is to hold in a content of this size, lying as the window does."""

    window: str
    content: Held


@dataclass(frozen=True)
class InsertBehind:
    """That a piece lies behind a window on the same sheet: `insert` is the name of the piece."""

    insert: str
    window: str


@dataclass(frozen=True)
class Pocket:
    """A content between two stitch lines or edges `between` apart, that goes in by a mouth so long.

    None where the width or the mouth is not known.
    """

    name: str
    content: Held
    between: float | None = None
    mouth: float | None = None
    is_cut: bool = False
    """True where its walls are cut edges, and no seam."""
    opening: str = ""
    """The name of what it goes in by."""


@dataclass(frozen=True)
class StrapTurnBack:
    """The end of a strap folded back: the fold's name, how far the end reaches past it, and what is sewn there."""

    piece: str
    fold: str
    reach: float
    seams: tuple[tuple[str, float], ...] = ()
    """Each seam through both layers and how far its farthest hole is from the fold."""
    slot: str | None = None
    """The prong's slot, over the fold."""
    slot_off_fold: float = 0.0
    """How far the slot's middle is from the middle of the fold."""
    on_fold: Point | None = None
    """The place of the fold beside it, where the slot's middle should be."""


@dataclass(frozen=True)
class Punch:
    """A punch of the shop, and how large its round holes are."""

    name: str
    across: float


@dataclass(frozen=True)
class Item:
    """The whole item in one size. `words` are its title, notes, steps and hardware."""

    title: str
    parts: tuple[PlacedPart, ...]
    size: str | None = None
    straps_in_buckles: tuple[StrapThroughBuckle, ...] = ()
    straps_in_slots: tuple[StrapThroughSlot, ...] = ()
    windows: tuple[WindowHolds, ...] = ()
    inserts: tuple[InsertBehind, ...] = ()
    pockets: tuple[Pocket, ...] = ()
    turn_backs: tuple[StrapTurnBack, ...] = ()
    stocks: tuple[Stock, ...] = ()
    hardware: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    for_laser: bool = False
    """True when a file for a laser is asked for."""
    punches: tuple[Punch, ...] = ()
    """The shop's own table, empty where it says none."""

    def part(self, name: str) -> PlacedPart | None:
        return next((part for part in self.parts if part.name == name), None)

    def opening(self, name: str) -> tuple[PlacedPart, Opening] | None:
        """An opening by `piece.feature`."""
        for part in self.parts:
            for opening in part.openings:
                if f"{part.name}.{opening.name}" == name:
                    return part, opening
        return None

    @property
    def all_stocks(self) -> Iterator[Stock]:
        """Every stock once, in the order it is named."""
        seen: set[str] = set()
        for stock in (*self.stocks, *(part.stock for part in self.parts if part.stock)):
            if stock.name not in seen:
                seen.add(stock.name)
                yield stock
