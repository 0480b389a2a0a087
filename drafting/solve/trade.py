"""What solving asks of the trade.

craft/ stands on solve/ and computes how leather folds and how a seam is pricked; a drawing needs such figures while it
is solved, since a strap is as long as its fold takes. So whoever drafts a pattern hands the trade down as one Trade.
Its methods raise Unbuildable with the trade's own words where a thing cannot be done, at the place they are given.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, Protocol

from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass, field
from drafting.solve.lines import Unbuildable
from drafting.text.source import Span

SpacingWord = Literal["every", "apart", "per inch", "iron", "stitches", "as many as"]
"""How stitches are asked for: a pitch in mm (the nearest that fits, or exactly), stitches to the inch, the number of a
French iron, a count, or the counts of another line."""


@dataclass(frozen=True)
class Asked:
    """What is asked for, by its maker's name, and where it is written: so a fault knows what to speak of."""

    name: str
    piece: str
    span: Span


class PunchedHole(Protocol):
    """A round hole."""

    @property
    def center(self) -> Point: ...

    @property
    def across(self) -> float: ...


class SlitCuts(Protocol):
    """A slit as it is cut: lines for the knife, holes, and the free ends that have no hole."""

    @property
    def cuts(self) -> tuple[Path, ...]: ...

    @property
    def holes(self) -> tuple[PunchedHole, ...]: ...

    @property
    def bare_ends(self) -> tuple[Point, ...]: ...


class StitchHole(Protocol):
    """A hole: where it is, how far along the line in mm, which way the line leads on, and in which stretch it is."""

    @property
    def point(self) -> Point: ...
    @property
    def place(self) -> float: ...
    @property
    def direction(self) -> Vector: ...
    @property
    def stretch(self) -> int: ...


class StitchStretch(Protocol):
    """A part of a line between two holes that had to be. `pitch` is the true one, `nominal` the one asked for, if one
    was; `rest` is what an exact pitch leaves over at the end."""

    @property
    def stitches(self) -> int: ...
    @property
    def length(self) -> float: ...
    @property
    def pitch(self) -> float: ...
    @property
    def nominal(self) -> float | None: ...
    @property
    def rest(self) -> float: ...


class StitchLayout(Protocol):
    """The holes of a stitch line, in the order it is walked. An open line of N stitches has N + 1 holes, a ring N."""

    @property
    def line(self) -> Path | Ring: ...
    @property
    def holes(self) -> Sequence[StitchHole]: ...
    @property
    def stretches(self) -> Sequence[StitchStretch]: ...
    @property
    def is_ring(self) -> bool: ...
    @property
    def stitches(self) -> int: ...
    @property
    def counts(self) -> tuple[int, ...]: ...
    @property
    def lengths(self) -> tuple[float, ...]: ...
    @property
    def nominal(self) -> float | None: ...
    @property
    def pitch(self) -> float:
        """The mean true pitch."""

    @property
    def pitches(self) -> tuple[float, ...]: ...
    @property
    def remainder(self) -> float:
        """What an exact pitch left over at the end of the line."""

    @property
    def gaps(self) -> tuple[float, ...]:
        """Straight distances from hole to hole, round to the first one on a ring."""

    @property
    def stitched_twice(self) -> tuple[int, ...]:
        """The holes that back-stitches pass again, by index."""

    def mirrored(self, a: Point, b: Point) -> StitchLayout:
        """The holes of its twin, in the same order."""


@dataclass(frozen=True)
class StitchWish:
    """What a maker asks of a stitch line. `spans` and `held_spans` tell where the `held` points, the `start` and the
    `back` stitches are asked for; a fault of the spacing lies where the whole is Asked."""

    how: SpacingWord
    amount: float
    copied: StitchLayout | None
    flowing: bool
    across: bool
    held: tuple[Point, ...]
    start: Point | None
    back: tuple[int, int]
    short: tuple[float, float]
    spans: Mapping[Literal["line", "start", "back"], Span] = field(compare=False, repr=False)
    held_spans: tuple[Span, ...] = field(compare=False, repr=False)


@dataclass(frozen=True)
class SeamLine:
    """A stitch line of a seam: its name with its piece, where the seam names it, and its holes."""

    name: str
    span: Span = field(compare=False, repr=False)
    layout: StitchLayout


@dataclass(frozen=True)
class SeamPair:
    """Two lines of a seam: how many stitches each has, and by how much the first is longer in mm."""

    first: str
    second: str
    stitches: tuple[int, int]
    difference: float


@dataclass(frozen=True)
class Seam:
    """What comes of a comparison: each pair of lines, and all that is wrong with them."""

    pairs: tuple[SeamPair, ...]
    faults: tuple[Unbuildable, ...]


@dataclass(frozen=True)
class TurnWish:
    """A turned edge as it is asked for: of a finished outline, from one place forward to another, all round when they
    are one place."""

    start: float
    end: float
    width: float
    thickness: float
    neutral: float
    corners: Literal["mitred", "cut", "pleated"] | None


class TurnedEdge(Protocol):
    """The cutting line along a turned edge, walked anticlockwise; cuts into corners that go in; how much of the width
    is left to glue."""

    @property
    def cut(self) -> Path: ...

    @property
    def snips(self) -> tuple[Path, ...]: ...

    @property
    def shown(self) -> float: ...


class Trade(Protocol):
    """The computations of craft/ that a drawing needs while it is solved. Lengths are mm, angles radians."""

    def fold_allowance(
        self, turn: float, inside: float, thickness: float, neutral: float, asked: Asked
    ) -> float:
        """The flat length that a fold round something `inside` thick takes up."""

    def slit(
        self, line: Path, end_holes: float, corner_holes: float, free: tuple[bool, bool], asked: Asked
    ) -> SlitCuts:
        """The cuts and holes of a slit along a line. Holes are given by their size across, 0 for none; `free` tells
        which of its two ends stop in the leather."""

    def lay_out(self, line: Path | Ring, wish: StitchWish, asked: Asked) -> StitchLayout:
        """The holes of a stitch line."""

    def held(self, line: Path | Ring, wish: StitchWish, asked: Asked) -> tuple[tuple[float, float], ...]:
        """Of each stretch how many pitches it holds, not rounded, and the pitch asked for; of a wish by a pitch."""

    def pricked(self, layout: StitchLayout, outline: Ring, asked: Asked) -> StitchLayout | None:
        """The holes that fall on another piece of the same sheet; None where none does."""

    def slits(self, layout: StitchLayout, long: float | None, folded: bool, asked: Asked) -> tuple[Line, ...]:
        """The slanted marks of an iron, so long, or half a pitch. `folded` is for holes that come to lie on those of
        another face: they lean the other way."""

    def join(self, lines: Sequence[SeamLine], backward: bool, within: float | None) -> Seam:
        """Stitch lines compared, stitch for stitch and stretch by stretch; with `backward` the first one runs against
        the others. Lengths may differ by `within`, or by 2 %."""

    def meet(self, first: SeamLine, second: SeamLine) -> Unbuildable | None:
        """What is wrong with two lines of one sheet that run so near to each other that they are stacked: each hole is
        to lie on one of the other line."""

    def thread(self, layout: StitchLayout, stack: float, asked: Asked) -> float:
        """The thread that a saddle-stitched line takes through so much leather, needle tails left out."""

    def row(
        self, line: Path, count: int, apart: float, placed: Literal["middle", "start", "end"], asked: Asked
    ) -> tuple[Point, ...]:
        """The middles of so many holes so far apart along a line, in its middle or from an end."""

    def turn(self, outline: Ring, wish: TurnWish, asked: Asked) -> TurnedEdge:
        """Where the leather is cut so that it can be folded over to the finished edge."""
