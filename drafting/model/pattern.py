"""What a pattern text means, with every name bound and every kind checked, and no numbers yet.

A Pattern holds its measures, stocks, sizes and pieces; a piece holds its points with their facts, its outline, runs,
guides and features. References are PointRef and LineRef, whose `key` names a node of the solver.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from drafting.model.expressions import Bound
from drafting.records import dataclass, field, replace
from drafting.syntax import tree
from drafting.text.quantities import LENGTH, Kind
from drafting.text.source import Span


@dataclass(frozen=True)
class PointRef:
    """A point of a piece: `heel`, its twin, or a `part` of a thing, such as `heel.start` or `view.top_left`."""

    piece: str
    name: str
    twin: bool = False
    part: str | None = None

    @property
    def text(self) -> str:
        """As a maker writes it inside the piece."""
        return self.name + ("'" if self.twin else "") + (f".{self.part}" if self.part else "")

    @property
    def key(self) -> str:
        return f"{self.piece}/{self.text}"

    def twinned(self) -> PointRef:
        return PointRef(self.piece, self.name, not self.twin, self.part)


@dataclass(frozen=True)
class LineRef:
    """A run, guide, outline, feature or rounded corner of a piece, or its twin."""

    piece: str
    name: str
    twin: bool = False
    index: int | None = None
    """Which of a list of lines, from 1."""

    @property
    def text(self) -> str:
        return self.name + ("'" if self.twin else "") + (f".{self.index}" if self.index else "")

    @property
    def key(self) -> str:
        """Ends in `:line`, since a rounded corner is a point and a line by one name."""
        return f"{self.piece}/{self.text}:line"


@dataclass(frozen=True)
class StitchesRef:
    """The stitches of a line, as they are laid out."""

    line: LineRef

    @property
    def text(self) -> str:
        return self.line.text

    @property
    def key(self) -> str:
        return self.line.key.removesuffix(":line") + ":stitches"

    def numbered(self, index: int | None) -> StitchesRef:
        """The same of one of a list of lines, where it is not said which."""
        return StitchesRef(replace(self.line, index=index)) if self.line.index is None else self


@dataclass(frozen=True)
class PieceRef:
    piece: str

    @property
    def text(self) -> str:
        return self.piece

    @property
    def key(self) -> str:
        return self.piece


AnyRef = PointRef | LineRef | PieceRef


@dataclass(frozen=True)
class Measured:
    """A number read off something placed: `what` is a word such as `length`, `width` or `gap`."""

    what: str
    of: tuple[AnyRef, ...]
    amount: Bound | None = None
    """What is reckoned with beside: of a thread how thick the stack is that is sewn, and where that is written."""
    at: Span | None = field(default=None, compare=False, repr=False)

    @property
    def key(self) -> str:
        if self.what == "gap":
            return "gap(" + ", ".join(ref.key for ref in self.of) + ")"
        if self.amount is not None:
            return f"{self.what}({self.of[0].key}, {self.amount})"
        return f"{self.of[0].key}.{self.what}"


@dataclass(frozen=True)
class BoundStretch:
    start: PointRef
    end: PointRef
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class BoundWay:
    """A whole line (`line`), or a walk along the outline or a ring (`ring`) from place to place."""

    line: LineRef | None
    ring: LineRef | None
    start: PointRef | None
    round: tuple[PointRef, ...]
    end: PointRef | None
    span: Span = field(compare=False, repr=False)


# Places: facts and choices, with the span of their clause


@dataclass(frozen=True)
class Fact:
    """One clause that places: `kind` is the solver's word, `operands` what it takes, `counts` how many facts it is."""

    kind: str
    operands: tuple[PointRef | LineRef | BoundWay | Bound, ...]
    counts: int
    span: Span = field(compare=False, repr=False)
    amount: Kind = LENGTH
    """What it disagrees by when it cannot hold."""


@dataclass(frozen=True)
class Choice:
    kind: str
    operands: tuple[PointRef | LineRef, ...]
    """One thing, or the two ends of a stretch."""
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class BoundDirection:
    how: Literal["level", "plumb", "along", "square to", "angle"]
    stretch: BoundStretch | None
    angle: Bound | None
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class Placing:
    """Where a point or a feature's middle lies."""

    facts: tuple[Fact, ...]
    choices: tuple[Choice, ...]
    direction: BoundDirection | None

    @property
    def count(self) -> int:
        return sum(fact.counts for fact in self.facts)


# Shapes


@dataclass(frozen=True)
class BoundBow:
    """One leg's bow. `kind` is straight, bowed, radius, through, about, tangent, following or smooth."""

    kind: str
    toward: str | None = None
    amount: Bound | None = None
    point: PointRef | None = None
    points: tuple[PointRef, ...] = ()
    long: bool = False
    line: LineRef | None = None
    leaving: BoundDirection | None = None
    arriving: BoundDirection | None = None


@dataclass(frozen=True)
class BoundLeg:
    to: PointRef
    bow: BoundBow
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class PathForm:
    start: PointRef
    legs: tuple[BoundLeg, ...]
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class BoxForm:
    width: Bound
    height: Bound
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class RoundForm:
    across: Bound
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class OffsetForm:
    """`inside`, `outside`, `beside` or `round` a way; `side` chooses for `beside`."""

    distance: Bound
    side: Literal["inside", "outside", "beside", "round"]
    way: BoundWay
    choice: Choice | None
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class BandForm:
    distance: Bound
    side: Literal["inside", "outside"]
    way: BoundWay
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class AlongForm:
    way: BoundWay | BoundStretch
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class ThroughForm:
    how: Literal["level", "plumb"]
    point: PointRef
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class LinesForm:
    starts: tuple[PointRef, ...]
    ends: tuple[PointRef, ...]
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class SlotForm:
    long: Bound
    wide: Bound
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class RowForm:
    holes: Bound
    apart: Bound
    across: Bound
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class RowAlongForm:
    """A row of holes along a line: a number of them, so far `apart`, or `every` so far with a whole number of gaps.

    `start` is where the first hole of a closed line stands.
    """

    line: PathForm | OffsetForm | AlongForm | ThroughForm
    holes: Bound | None
    apart: Bound | None
    every: Bound | None
    across: Bound
    start: PointRef | None
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class MirrorForm:
    """A stitch line where another comes to lie when the leather is folded over a line."""

    line: LineRef
    over: BoundStretch | LineRef
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class HolesForm:
    """A stitch line pricked through another piece of the sheet."""

    line: LineRef
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class SpotForm:
    """Nothing but a place: a mark, a notch, lettering."""

    span: Span = field(compare=False, repr=False)


Form = (
    PathForm
    | BoxForm
    | RoundForm
    | OffsetForm
    | BandForm
    | AlongForm
    | ThroughForm
    | LinesForm
    | SlotForm
    | RowForm
    | RowAlongForm
    | SpotForm
    | MirrorForm
    | HolesForm
)


@dataclass(frozen=True)
class FoldWork:
    """How far a fold is bent, round what, and the leather that is bent: its thickness where that is known."""

    turn: Bound
    inside: Bound
    thick: Bound | None
    neutral: Bound | None
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class SlitWork:
    """The holes of a slit, by their size across: at its free ends, and at its corners."""

    end_holes: Bound | None
    corner_holes: Bound | None
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class StripWork:
    """A skived or glued strip: what is left of the leather's thickness where it is skived."""

    down_to: Bound | None
    thick: Bound | None
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class TurnWork:
    """How the corners of a turned edge are made, where that is said, and the leather that is turned."""

    corners: Literal["mitred", "cut", "pleated"] | None
    thick: Bound
    neutral: Bound
    span: Span = field(compare=False, repr=False)


Work = FoldWork | SlitWork | StripWork | TurnWork


SpacingWord = Literal["every", "apart", "per inch", "iron", "stitches", "as many as"]


@dataclass(frozen=True)
class Spacing:
    """How stitches are asked for: by an `amount`, or as many as on another line."""

    how: SpacingWord
    amount: Bound | None
    stitches: StitchesRef | None
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class BoundMarks:
    """What is left in the leather: slanted slits so long or round holes so large, where that is said."""

    how: Literal["slanted", "round"]
    size: Bound | None
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class HeldHole:
    """A point that must have a hole, and the clause that says so."""

    point: PointRef
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class StitchPart:
    """What is said of a stitch line beside where it runs; no spacing where it takes the holes of another."""

    spacing: Spacing | None
    held: tuple[HeldHole, ...]
    start: HeldHole | None
    flowing: bool
    across: bool
    back: tuple[tuple[Literal["start", "end"], Bound], ...]
    marks: BoundMarks | None
    back_span: Span = field(compare=False, repr=False)


# Parts of a piece


@dataclass(frozen=True)
class PointPart:
    ref: PointRef
    placing: Placing
    span: Span = field(compare=False, repr=False)
    note: str | None = None


@dataclass(frozen=True)
class PointsPart:
    """A list of points in steps along a line."""

    piece: str
    name: str
    along: BoundStretch | BoundWay
    steps: tuple[Bound, ...]
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class ShapePart:
    """A guide, the outline or a feature: a form, where its middle lies, and what else is said of it."""

    kind: str
    name: str
    form: Form
    placing: Placing
    rounded: Bound | None
    short: tuple[tuple[Literal["start", "end"], Bound], ...]
    once: bool
    deep: Bound | None
    wide: Bound | None
    high: Bound | None
    text: str | None
    roster: str | None
    span: Span = field(compare=False, repr=False)
    name_span: Span = field(compare=False, repr=False)
    note: str | None = None
    work: Work | None = None
    """What is done along the line or in the ring, beside being marked there."""
    stitch: StitchPart | None = None


@dataclass(frozen=True)
class RunPart:
    name: str
    way: BoundWay
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class FindPart:
    key: str
    name: str
    low: Bound
    high: Bound
    kind: Kind
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class CornerPart:
    """`fillet` or `clip` of one corner; `after` is the second length of a clip."""

    kind: Literal["fillet", "clip"]
    corner: PointRef
    by: Bound
    after: Bound | None
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class DimPart:
    line: BoundStretch
    how: Literal["level", "plumb"] | None
    span: Span = field(compare=False, repr=False)
    note: str | None = None


@dataclass(frozen=True)
class CutAwayPart:
    side: str
    of: PointRef | BoundStretch
    naming: tuple[str, ...]
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class MeasurePart:
    """A measure of the pattern or a piece; a list has several values."""

    key: str
    name: str
    values: tuple[Bound, ...]
    kind: Kind
    low: Bound | None
    high: Bound | None
    span: Span = field(compare=False, repr=False)
    note: str | None = None

    @property
    def keys(self) -> tuple[str, ...]:
        """A key for each value: the measure's own, or `widths.1` and so on for a list."""
        if len(self.values) == 1:
            return (self.key,)
        return tuple(f"{self.key}.{index}" for index in range(1, len(self.values) + 1))


@dataclass(frozen=True)
class CheckPart:
    left: Bound
    operator: str
    right: Bound
    within: Bound | None
    kind: Kind
    span: Span = field(compare=False, repr=False)
    note: str | None = None


@dataclass(frozen=True)
class StockPart:
    """What pieces are cut from. `amounts` has `thick` and `neutral`, where they are said."""

    name: str
    material: str
    amounts: Mapping[str, Bound]
    span: Span = field(compare=False, repr=False)
    note: str | None = None


@dataclass(frozen=True)
class ThreadPart:
    """Thread; `amounts` has `thick`."""

    name: str
    amounts: Mapping[str, Bound]
    span: Span = field(compare=False, repr=False)
    note: str | None = None


@dataclass(frozen=True)
class PunchPart:
    """A punch of the shop; `amounts` has `across`, the size of its holes."""

    name: str
    amounts: Mapping[str, Bound]
    span: Span = field(compare=False, repr=False)
    note: str | None = None


@dataclass(frozen=True)
class HardwarePart:
    """What is bought: `amounts` has `need`, a count, and where they are said `inside`, the clear width of a frame,
    `prong` and `bar`, the thickness of either."""

    name: str
    amounts: Mapping[str, Bound]
    on: tuple[PieceRef | LineRef, ...]
    """The pieces it goes on, or the slots of pieces that its prong comes through."""
    span: Span = field(compare=False, repr=False)
    note: str | None = None


@dataclass(frozen=True)
class ContentPart:
    """What the item holds. `amounts` has `long` and `wide`, its sides, the longer first; `width` and `height` where it
    is said how it lies; `thick`, of one, and `stack`, of all, where that is known; `count`; and `ease` where said."""

    name: str
    published: str | None
    """Its name in the table of published sizes; None for a size of its own."""
    lying: Literal["level", "plumb"] | None
    """How the longer side of a published size lies."""
    amounts: Mapping[str, Bound]
    inside: tuple[PieceRef | LineRef, ...]
    """The piece, seams, lines or openings that it lies inside."""
    through: PieceRef | LineRef | None
    """The opening or run that it goes in through."""
    span: Span = field(compare=False, repr=False)
    note: str | None = None


@dataclass(frozen=True)
class StepPart:
    """A line of the instructions, with the names of what it uses: pieces, `piece.feature`, or things of the item."""

    text: str
    uses: tuple[str, ...]
    span: Span = field(compare=False, repr=False)
    note: str | None = None


@dataclass(frozen=True)
class AllowPart:
    """That a rule of the workshop need not hold, in one piece or, where `piece` is None, in the whole item."""

    code: str
    reason: str
    piece: str | None
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class PassPart:
    """That a strap, a piece, goes through slots or openings."""

    strap: PieceRef
    through: tuple[LineRef, ...]
    span: Span = field(compare=False, repr=False)


ItemPart = StockPart | ThreadPart | PunchPart | HardwarePart | ContentPart


@dataclass(frozen=True)
class Piece:
    """One piece; `sheet` is the piece whose sheet it is drafted on (itself, unless `like` or `over` another)."""

    name: str
    sheet: str
    count: int
    pair: bool
    stock: str | None
    mirror: BoundStretch | None
    grain: BoundDirection | Literal["any"] | None
    points: tuple[PointPart, ...]
    lists: tuple[PointsPart, ...]
    outline: ShapePart | None
    guides: tuple[ShapePart, ...]
    features: tuple[ShapePart, ...]
    runs: tuple[RunPart, ...]
    finds: tuple[FindPart, ...]
    holds: tuple[Fact, ...]
    corners: tuple[CornerPart, ...]
    cuts: tuple[CutAwayPart, ...]
    dims: tuple[DimPart, ...]
    measures: tuple[MeasurePart, ...]
    checks: tuple[CheckPart, ...]
    span: Span = field(compare=False, repr=False)
    note: str | None = None

    def shape(self, name: str) -> ShapePart | None:
        """The outline, guide or feature of that name."""
        if name == "outline":
            return self.outline
        return next((part for part in (*self.guides, *self.features) if part.name == name), None)


@dataclass(frozen=True)
class JoinedLine:
    """A stitch line of a seam or a fit, and where it is named there."""

    line: LineRef
    span: Span = field(compare=False, repr=False)

    @property
    def text(self) -> str:
        return f"{self.line.piece}.{self.line.text}"


@dataclass(frozen=True)
class JoinPart:
    """A seam: stitch lines that are sewn to each other. `reversed` lays the first the other way round."""

    lines: tuple[JoinedLine, ...]
    reversed: bool
    within: Bound | None
    span: Span = field(compare=False, repr=False)
    note: str | None = None


@dataclass(frozen=True)
class FitPart:
    """A measure that is moved in its range until stitch lines hold whole pitches, each off by `within` at most."""

    measure: str
    lines: tuple[JoinedLine, ...]
    within: Bound | None
    span: Span = field(compare=False, repr=False)
    note: str | None = None


@dataclass(frozen=True)
class SizeRow:
    """One size as it is made: its title and the formulas that stand in for the measures' own."""

    title: str
    settings: Mapping[str, tuple[Bound, ...]]
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class Pattern:
    """A whole pattern, bound. `measured` lists every number that is read off something placed."""

    tree: tree.File = field(repr=False, compare=False)
    title: str
    edition: str | None
    licence: str | None
    author: str | None
    notes: tuple[str, ...]
    show: tuple[str, ...]
    measures: Mapping[str, MeasurePart]
    stocks: Mapping[str, StockPart]
    threads: Mapping[str, ThreadPart]
    punches: Mapping[str, PunchPart]
    hardware: Mapping[str, HardwarePart]
    contents: Mapping[str, ContentPart]
    steps: tuple[StepPart, ...]
    sizes: tuple[SizeRow, ...]
    pieces: Mapping[str, Piece]
    checks: tuple[CheckPart, ...]
    measured: Mapping[str, Measured]
    joins: tuple[JoinPart, ...] = ()
    fits: tuple[FitPart, ...] = ()
    allowances: tuple[AllowPart, ...] = ()
    passes: tuple[PassPart, ...] = ()
    brought_measures: Mapping[str, MeasurePart] = field(default_factory=dict)
    """The measures of used files, by their keys, such as `s.wide`; the stocks of used files stand among the stocks."""
    brought_items: tuple[ItemPart, ...] = ()
    """What else used files have amounts of, for their own blocks to read."""

    @property
    def item_parts(self) -> Iterator[ItemPart]:
        """All that has amounts of its own beside the measures and the pieces."""
        for parts in (self.stocks, self.threads, self.punches, self.hardware, self.contents):
            yield from parts.values()
        yield from self.brought_items

    @property
    def item_amounts(self) -> Iterator[tuple[str, Bound]]:
        """Every such amount by its key, such as `body.thick`."""
        for part in self.item_parts:
            for word, bound in part.amounts.items():
                yield f"{part.name}.{word}", bound
