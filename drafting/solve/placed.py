"""A pattern with numbers: every piece of one size, placed.

Lengths are mm, x right and y up, the grain side seen. Directions are degrees, 0 to the right, anticlockwise. What is
drawn, measured and written to files comes from here and from nowhere else.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from drafting.geometry.line import Line
from drafting.geometry.maths import kept
from drafting.geometry.nearness import distinct_points
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.records import dataclass, replace
from drafting.solve.trade import SeamPair, StitchLayout

CornerKind = Literal["sharp", "fillet", "clip"]


@dataclass(frozen=True)
class PlacedCorner:
    """A named corner of an outline. `point` stays the sharp point; `size` is the radius of a fillet or the first
    length of a clip, `run` the leg that took the corner's place."""

    name: str
    point: Point
    kind: CornerKind
    size: float
    second_size: float
    run: Path | None


@dataclass(frozen=True)
class Hole:
    """A round hole, `punch` the name of the shop's punch that it is said to be made with."""

    center: Point
    across: float
    punch: str | None = None

    def mirrored(self, a: Point, b: Point) -> Hole:
        return replace(self, center=self.center.mirrored(a, b))


@dataclass(frozen=True)
class PlacedFold:
    """How a fold is bent: the angle turned through in degrees, the thickness of what lies inside, and of the leather.

    `allowance` is the flat length that the bend takes; both are None where the stock does not say how thick it is.
    """

    turn: float
    inside: float
    thick: float | None
    allowance: float | None

    def mirrored(self, a: Point, b: Point) -> PlacedFold:
        """The twin of a fold is bent alike."""
        return self


@dataclass(frozen=True)
class PlacedSlit:
    """A slit from end to end, its corners as they are made, and the free ends where no hole stops it.

    Its feature's `paths` are what the knife cuts, from hole to hole.
    """

    whole: Path
    bare_ends: tuple[Point, ...]

    def mirrored(self, a: Point, b: Point) -> PlacedSlit:
        return PlacedSlit(self.whole.mirrored(a, b), tuple(end.mirrored(a, b) for end in self.bare_ends))


@dataclass(frozen=True)
class PlacedSkive:
    """What is left of the leather where it is skived, and how thick it was; None where the stock does not say."""

    left: float
    thick: float | None

    def mirrored(self, a: Point, b: Point) -> PlacedSkive:
        """The twin of a strip is skived alike."""
        return self


@dataclass(frozen=True)
class PlacedTurn:
    """A turned edge: how wide the turn is and how much of it is left to glue, the leather as thick as it is turned
    (skived, where it is), how its corners are made, and the line that is cut, outside the finished edge."""

    width: float
    shown: float
    thick: float
    corners: Literal["mitred", "cut", "pleated"] | None
    cut: Path

    def mirrored(self, a: Point, b: Point) -> PlacedTurn:
        return replace(self, cut=self.cut.mirrored(a, b))


PlacedWork = PlacedFold | PlacedSlit | PlacedSkive | PlacedTurn


@dataclass(frozen=True)
class PlacedStitches:
    """One line of stitches: its holes in the order it is walked, with all that `layout` tells of them.

    Of an iron `slits` are the slanted marks, one for each hole, leaning as they are seen on the grain side; of an awl
    or a punch `across` is how large its round holes are. Where nothing is said of marks both are empty, and a hole is a
    place. `is_pricked` tells holes taken from another piece of the sheet: the line then need not lie on this piece.
    """

    name: str
    layout: StitchLayout
    slits: tuple[Line, ...] = ()
    across: float | None = None
    is_pricked: bool = False


@dataclass(frozen=True)
class PlacedFeature:
    """One feature of a piece as it comes to lie; a twin is a feature of its own, named `eye'`.

    `rings` are closed shapes (openings, slots, closed offsets, bands, boxes of labels), `paths` open ones (creases,
    offset lines, cuts of a slit), `holes` round holes of a hole, a row or a slit. `sizes` holds what it measures by
    its word: `long`, `wide`, `high`, `across`, `apart`, `width`, `height`, `radius`, in mm; a count under `holes`.
    `stitches` are the lines of a stitch, one but where it is drawn between two lists of points. Of two lines of a piece
    that meet in one hole both have it: `PlacedPiece.stitch_holes` tells each place once.
    """

    name: str
    kind: str
    is_twin: bool
    is_removed: bool
    """True where leather is cut through or taken away (slot, hole, row, opening, slit), False for lines and marks."""
    center: Point | None
    direction: float | None
    rings: tuple[Ring, ...]
    paths: tuple[Path, ...]
    holes: tuple[Hole, ...]
    sizes: Mapping[str, float]
    text: str | None
    note: str | None
    work: PlacedWork | None = None
    """What is done there: of a fold how it is bent, of a slit its whole line, of a skived strip what is left, of a
    turned edge where it is cut. The `paths` or `rings` of a turn are the finished edge; cuts into its inner corners are
    a feature of kind `snip`, named after it."""
    stitches: tuple[PlacedStitches, ...] = ()
    punch: str | None = None
    """The name of the shop's punch that a round opening is said to be made with; each hole has its own."""


@dataclass(frozen=True)
class PlacedDim:
    """A dimension the maker asked for by `dim A..B`: the distance, or only its level or plumb part."""

    start: Point
    end: Point
    how: Literal["level", "plumb"] | None
    start_name: str
    end_name: str
    note: str | None


@dataclass(frozen=True)
class PlacedPiece:
    """One piece, flat, whole (both halves when mirrored)."""

    name: str
    note: str | None
    count: int
    pair: bool
    stock: str | None
    stock_note: str | None
    mirror: tuple[Point, Point] | None
    """Two points of the mirror line."""
    grain: float | Literal["any"] | None
    """Direction of the grain in degrees, 0 to 180."""
    points: Mapping[str, Point]
    outline: Ring
    corners: tuple[PlacedCorner, ...]
    runs: Mapping[str, Path]
    guides: Mapping[str, Path | Ring]
    features: tuple[PlacedFeature, ...]
    dims: tuple[PlacedDim, ...]
    turned: Ring | None = None
    """Where the piece is cut, if an edge of it is turned."""

    @property
    def cutting(self) -> Ring:
        """The line to cut: the outline, and outside it wherever the edge is turned."""
        return self.turned or self.outline

    @kept
    def stitch_holes(self) -> tuple[Point, ...]:
        """The places of all stitch holes, two in one place being one."""
        return distinct_points(
            hole.point for feature in self.features for line in feature.stitches for hole in line.layout.holes
        )


@dataclass(frozen=True)
class PlacedJoin:
    """A seam: the stitch lines that are sewn to each other, by their names with their pieces (`gusset.near'`), and how
    each two of them compare. Lines between lists of points make a seam for each."""

    lines: tuple[str, ...]
    is_reversed: bool
    pairs: tuple[SeamPair, ...]
    note: str | None


@dataclass(frozen=True)
class PlacedStock:
    """What pieces are cut from: its kind as written (`leather`, `sheet` …), and its thickness in mm where said."""

    name: str
    material: str
    thick: float | None
    note: str | None


@dataclass(frozen=True)
class PlacedThread:
    name: str
    thick: float | None
    note: str | None


@dataclass(frozen=True)
class PlacedPunch:
    """A punch of the shop."""

    name: str
    across: float
    note: str | None


@dataclass(frozen=True)
class PlacedHardware:
    """What is bought, `need` of it. `inside` is the clear width of a frame, `prong` and `bar` how thick they are, in
    mm; None where not said. `on` names the pieces it goes on, or the slot its prong comes through, as `strap.eye`."""

    name: str
    need: int
    inside: float | None
    prong: float | None
    bar: float | None
    on: tuple[str, ...]
    note: str | None


@dataclass(frozen=True)
class PlacedContent:
    """What the item holds, `count` of one kind; lengths are mm.

    `long` and `wide` are the sides of one, the longer first; `width` and `height` the same as they lie, None where
    nobody says how. `thick` is one of them, `stack` all; None where not known. `inside` names the piece, or what of
    it, such as `back.edge`, that it lies inside; `through` what it goes in through.
    """

    name: str
    published: str | None
    """Its name in the table of published sizes."""
    long: float
    wide: float
    width: float | None
    height: float | None
    thick: float | None
    stack: float | None
    count: int
    ease: float | None
    inside: tuple[str, ...]
    through: str | None
    note: str | None


@dataclass(frozen=True)
class PlacedStep:
    """A line of the instructions and the names of what it uses."""

    text: str
    uses: tuple[str, ...]
    note: str | None


@dataclass(frozen=True)
class PlacedItem:
    """What the whole item is made from and holds, beside its pieces."""

    stocks: tuple[PlacedStock, ...] = ()
    threads: tuple[PlacedThread, ...] = ()
    punches: tuple[PlacedPunch, ...] = ()
    hardware: tuple[PlacedHardware, ...] = ()
    contents: tuple[PlacedContent, ...] = ()
    steps: tuple[PlacedStep, ...] = ()
    punch_table: tuple[PlacedPunch, ...] = ()
    """All punches of the shop; `punches` are those that some hole is made with."""


@dataclass(frozen=True)
class Placed:
    """All pieces of a pattern in one size. `size` is None when the pattern has no sizes; `measures` are the
    pattern's own, in mm, mm², degrees or plain numbers."""

    title: str
    edition: str | None
    licence: str | None
    author: str | None
    notes: tuple[str, ...]
    show: tuple[str, ...]
    size: str | None
    stem: str
    """The pattern file's name without `.draft`."""
    measures: Mapping[str, float]
    pieces: Mapping[str, PlacedPiece]
    joins: tuple[PlacedJoin, ...] = ()
    item: PlacedItem = PlacedItem()
