"""The tree of a pattern text: one frozen class for each form of the language.

Every node knows its span; two nodes are equal when they say the same, wherever they stand. A `note` is the
remark in quotes that may end a line.
"""

from __future__ import annotations

from typing import Literal

from drafting.records import dataclass, field
from drafting.text.quantities import Quantity
from drafting.text.source import Source, Span


@dataclass(frozen=True)
class Node:
    span: Span = field(compare=False, repr=False)


# Names and amounts


@dataclass(frozen=True)
class Name(Node):
    """A name as written; a twin's ends in `'`."""

    text: str


@dataclass(frozen=True)
class Ref(Node):
    """A dotted name: `heel'.start`, `back.edge.length`, `pleat.1`."""

    parts: tuple[str, ...]

    @property
    def text(self) -> str:
        return ".".join(self.parts)


@dataclass(frozen=True)
class Stretch(Node):
    """`A..B`: from a point to a point; as an expression its length."""

    start: Ref
    end: Ref


@dataclass(frozen=True)
class Amount(Node):
    """A number with its unit (or without), exact; `written` keeps the maker's spelling, such as `5 1/4 in`."""

    quantity: Quantity
    written: str


@dataclass(frozen=True)
class AngleOf(Node):
    """`angle A..B..C`: the angle at B."""

    start: Ref
    vertex: Ref
    end: Ref


@dataclass(frozen=True)
class Binary(Node):
    operator: Literal["+", "-", "*", "/"]
    left: Expression
    right: Expression


@dataclass(frozen=True)
class Negative(Node):
    of: Expression


@dataclass(frozen=True)
class Argument(Node):
    name: str | None
    value: Expression


@dataclass(frozen=True)
class Call(Node):
    function: Name
    arguments: tuple[Argument, ...]


Expression = Amount | Ref | Stretch | AngleOf | Binary | Negative | Call


# Ways, directions, legs


@dataclass(frozen=True)
class Walk(Node):
    """`from A round B to C of RING`; `of` is None for the piece's own outline."""

    start: Ref
    round: tuple[Ref, ...]
    end: Ref
    of: Ref | None


Way = Ref | Walk


@dataclass(frozen=True)
class Direction(Node):
    """`level`, `plumb`, `along A..B`, `square to A..B`, or an angle."""

    how: Literal["level", "plumb", "along", "square to", "angle"]
    of: Stretch | Expression | None


@dataclass(frozen=True)
class Bowed(Node):
    """`bowed out 3 mm`: the height of the arc, or with `with_radius` its radius."""

    toward: Literal["out", "in", "left", "right", "up", "down"]
    with_radius: bool
    amount: Expression


@dataclass(frozen=True)
class Through(Node):
    point: Ref


@dataclass(frozen=True)
class About(Node):
    center: Ref
    long: bool


@dataclass(frozen=True)
class Tangent(Node):
    pass


@dataclass(frozen=True)
class Following(Node):
    """A leg `along LINE`."""

    line: Ref


@dataclass(frozen=True)
class Smooth(Node):
    through: tuple[Ref, ...]
    leaving: Direction | None
    arriving: Direction | None


Bow = Bowed | Through | About | Tangent | Following | Smooth


@dataclass(frozen=True)
class Leg(Node):
    to: Ref
    bows: tuple[Bow, ...]
    """One bow at most is right; several are read, so that the fault can be told."""


# Clauses


@dataclass(frozen=True)
class Clause(Node):
    note: str | None = field(kw_only=True, default=None)


@dataclass(frozen=True)
class OffsetFrom(Clause):
    distance: Expression
    direction: Literal["right of", "left of", "above", "below"]
    origin: Ref


@dataclass(frozen=True)
class Aligned(Clause):
    how: Literal["level", "plumb"]
    to: Ref


@dataclass(frozen=True)
class DistanceFrom(Clause):
    distance: Expression
    of: Ref | Stretch


@dataclass(frozen=True)
class On(Clause):
    what: Ref | Stretch
    extended: bool


@dataclass(frozen=True)
class SquareOff(Clause):
    line: Stretch
    at: Ref


@dataclass(frozen=True)
class AtCoordinates(Clause):
    x: Expression
    y: Expression
    origin: Ref | None


@dataclass(frozen=True)
class AtPoint(Clause):
    point: Ref


@dataclass(frozen=True)
class Ray(Clause):
    """`at 30 deg from P`."""

    angle: Expression
    origin: Ref


@dataclass(frozen=True)
class Midway(Clause):
    what: Ref | Stretch


@dataclass(frozen=True)
class Along(Clause):
    """`12 mm along A..B`, `1/3 along LINE`; `extended` only after a stretch."""

    amount: Expression
    what: Way | Stretch
    extended: bool


@dataclass(frozen=True)
class MirrorOf(Clause):
    """Of a point, or of a whole feature: `mirror of seam over fold_line`."""

    of: Ref
    over: Stretch | Ref


@dataclass(frozen=True)
class Touching(Clause):
    line: Ref
    origin: Ref


@dataclass(frozen=True)
class Lying(Clause):
    direction: Direction


Place = (
    OffsetFrom
    | Aligned
    | DistanceFrom
    | On
    | SquareOff
    | AtCoordinates
    | AtPoint
    | Ray
    | Midway
    | Along
    | MirrorOf
    | Touching
    | Lying
)


@dataclass(frozen=True)
class Side(Clause):
    """A choice by side; `inside` and `outside` take a ring, `nearest` and `farthest from` a point."""

    how: Literal["above", "below", "left of", "right of", "nearest", "farthest from", "inside", "outside"]
    of: Ref | Stretch


@dataclass(frozen=True)
class PathShape(Clause):
    """`a to b bowed out 3 mm to c`."""

    start: Ref
    legs: tuple[Leg, ...]


@dataclass(frozen=True)
class BoxShape(Clause):
    width: Expression
    height: Expression


@dataclass(frozen=True)
class RoundShape(Clause):
    """`40 mm across`; of a hole or a row the size of each hole."""

    across: Expression


@dataclass(frozen=True)
class OffsetShape(Clause):
    distance: Expression
    side: Literal["inside", "outside", "beside", "round"]
    way: Way


@dataclass(frozen=True)
class BandShape(Clause):
    distance: Expression
    side: Literal["inside", "outside"]
    way: Way


@dataclass(frozen=True)
class AlongShape(Clause):
    way: Way | Stretch


@dataclass(frozen=True)
class ThroughShape(Clause):
    """`level through P`, `plumb through P`: from edge to edge."""

    how: Literal["level", "plumb"]
    point: Ref


@dataclass(frozen=True)
class LinesShape(Clause):
    start: Ref
    end: Ref


Shape = PathShape | BoxShape | RoundShape | OffsetShape | BandShape | AlongShape | ThroughShape | LinesShape


@dataclass(frozen=True)
class Property(Clause):
    """`14 mm long`, `5 holes`, `10 mm apart`, `3 mm rounded`, `7 per inch`."""

    amount: Expression
    word: Literal["long", "wide", "high", "deep", "rounded", "apart", "holes", "stitches", "per inch", "iron"]


@dataclass(frozen=True)
class Short(Clause):
    amount: Expression
    at: Literal["start", "end"] | None


@dataclass(frozen=True)
class Every(Clause):
    amount: Expression


@dataclass(frozen=True)
class LikeLine(Clause):
    how: Literal["as many as", "same holes as", "start at"]
    line: Ref


@dataclass(frozen=True)
class HoleAt(Clause):
    points: tuple[Ref, ...]


@dataclass(frozen=True)
class Once(Clause):
    pass


@dataclass(frozen=True)
class EndDetail(Clause):
    how: Literal["end holes", "corner holes", "down to"]
    amount: Expression


@dataclass(frozen=True)
class Bent(Clause):
    angle: Expression
    round: Expression


@dataclass(frozen=True)
class Steps(Clause):
    amounts: tuple[Expression, ...]


@dataclass(frozen=True)
class Corners(Clause):
    how: Literal["mitred", "cut", "pleated", "flowing"]


@dataclass(frozen=True)
class BackStitch(Clause):
    """`2 back at end`: so many stitches are sewn a second time."""

    amount: Expression
    at: Literal["start", "end"] | None


@dataclass(frozen=True)
class PitchMeasured(Clause):
    """How a pitch is measured: along the line, or straight across from hole to hole."""

    how: Literal["across", "along"]


@dataclass(frozen=True)
class StitchMarks(Clause):
    """What an iron or an awl leaves: slanted slits so long, or round holes so large."""

    how: Literal["slanted", "round"]
    size: Expression | None


@dataclass(frozen=True)
class Wording(Clause):
    how: Literal["text", "roster"]
    text: str


AnyClause = (
    Place
    | Side
    | Shape
    | Property
    | Short
    | Every
    | LikeLine
    | HoleAt
    | Once
    | EndDetail
    | Bent
    | Steps
    | Corners
    | BackStitch
    | PitchMeasured
    | StitchMarks
    | Wording
)


# Statements


@dataclass(frozen=True)
class Statement(Node):
    note: str | None = field(kw_only=True, default=None)


@dataclass(frozen=True)
class Header(Statement):
    """`pattern "Title"` and its lines; `show` holds unit words."""

    title: str
    edition: str | None
    licence: str | None
    author: str | None
    notes: tuple[str, ...]
    show: tuple[str, ...]


@dataclass(frozen=True)
class Measure(Statement):
    name: Name
    values: tuple[Expression, ...]
    low: Expression | None
    high: Expression | None


@dataclass(frozen=True)
class Setting(Node):
    """`card_w = 70 mm` in a size; with `last` and `step` a series `80 cm to 110 cm by 5 cm`."""

    name: Name
    values: tuple[Expression, ...]
    last: Expression | None
    step: Expression | None


@dataclass(frozen=True)
class Size(Statement):
    """`as written` has no settings."""

    title: str
    settings: tuple[Setting, ...]


@dataclass(frozen=True)
class StockAmount(Node):
    """`1.8 mm thick`, `0.4 neutral`, `comes 600 mm by 400 mm`."""

    word: Literal["thick", "neutral", "comes"]
    amounts: tuple[Expression, ...]


@dataclass(frozen=True)
class Stock(Statement):
    name: Name
    material: str
    amounts: tuple[StockAmount, ...]


@dataclass(frozen=True)
class Thread(Statement):
    name: Name
    thick: Expression


@dataclass(frozen=True)
class Punch(Statement):
    """A punch of the shop by the name that stands on it, and how large its round holes are."""

    name: Name
    across: Expression


@dataclass(frozen=True)
class FittingAmount(Node):
    """`20 mm inside` a frame, `3 mm prong`, `2.5 mm bar`."""

    word: Literal["inside", "prong", "bar"]
    amount: Expression


@dataclass(frozen=True)
class FittingOn(Node):
    """`on strap`, or the slot of it that the prong comes through: `on strap.tongue`."""

    what: tuple[Ref, ...]


@dataclass(frozen=True)
class Hardware(Statement):
    name: Name
    need: Expression
    fittings: tuple[FittingAmount | FittingOn, ...] = ()


@dataclass(frozen=True)
class Published(Node):
    """What the item holds, by its name in the table of published sizes."""

    name: str


@dataclass(frozen=True)
class OwnSize(Node):
    """What the item holds, by its width, height and thickness."""

    width: Expression
    height: Expression
    thick: Expression | None


@dataclass(frozen=True)
class ContentAmount(Node):
    word: Literal["of them", "ease", "thick"]
    amount: Expression


@dataclass(frozen=True)
class ContentLying(Node):
    """Which way the longer side of a published size lies."""

    how: Literal["level", "plumb"]


@dataclass(frozen=True)
class ContentInside(Node):
    """`inside back.edge through front.mouth`."""

    lines: tuple[Ref, ...]
    through: Ref | None


ContentClause = ContentAmount | ContentLying | ContentInside


@dataclass(frozen=True)
class Content(Statement):
    name: Name
    size: Published | OwnSize
    clauses: tuple[ContentClause, ...]


@dataclass(frozen=True)
class Use(Statement):
    path: str
    as_name: Name | None


@dataclass(frozen=True)
class Cut(Clause):
    count: int
    pair: bool
    stock: Ref


@dataclass(frozen=True)
class MirroredOver(Clause):
    line: Stretch


@dataclass(frozen=True)
class Over(Clause):
    piece: Ref


@dataclass(frozen=True)
class Grain(Clause):
    """`of` is None for `any`."""

    how: Literal["along", "level", "plumb", "any"]
    of: Stretch | None


@dataclass(frozen=True)
class Like(Clause):
    piece: Ref
    arguments: tuple[Argument, ...]


@dataclass(frozen=True)
class WithoutItem(Node):
    """A name or the word `outline`; with `of_fillet` the `fillet heel` statement of that corner."""

    name: str
    of_fillet: bool


@dataclass(frozen=True)
class Without(Clause):
    items: tuple[WithoutItem, ...]


AboutClause = Cut | MirroredOver | Over | Grain | Like | Without


@dataclass(frozen=True)
class PointStatement(Statement):
    name: Name
    clauses: tuple[AnyClause, ...]


@dataclass(frozen=True)
class PointsStatement(Statement):
    name: Name
    clauses: tuple[AnyClause, ...]


@dataclass(frozen=True)
class Guide(Statement):
    name: Name
    clauses: tuple[AnyClause, ...]


FeatureKind = Literal[
    "slot",
    "hole",
    "row",
    "opening",
    "slit",
    "stitch",
    "crease",
    "fold",
    "turn",
    "skive",
    "glue",
    "notch",
    "mark",
    "label",
    "stamp",
]


@dataclass(frozen=True)
class Feature(Statement):
    kind: FeatureKind
    name: Name
    clauses: tuple[AnyClause, ...]


@dataclass(frozen=True)
class Outline(Statement):
    clauses: tuple[AnyClause, ...]


@dataclass(frozen=True)
class Run(Statement):
    name: Name
    way: Way


@dataclass(frozen=True)
class Find(Statement):
    name: Name
    low: Expression
    high: Expression


@dataclass(frozen=True)
class Equal(Node):
    left: Expression
    right: Expression


@dataclass(frozen=True)
class Relation(Node):
    """`A..B parallel C..D`, `square to`."""

    first: Stretch
    how: Literal["parallel", "square to"]
    second: Stretch


@dataclass(frozen=True)
class Straight(Node):
    """`A..B level`, `A..B plumb`."""

    line: Stretch
    how: Literal["level", "plumb"]


@dataclass(frozen=True)
class Touches(Node):
    line: Stretch
    curve: Ref


Fact = Equal | Relation | Straight | Touches


@dataclass(frozen=True)
class Hold(Statement):
    fact: Fact


@dataclass(frozen=True)
class Fillet(Statement):
    corners: tuple[Ref, ...]
    by: Expression


@dataclass(frozen=True)
class Clip(Statement):
    corners: tuple[Ref, ...]
    by: Expression
    after: Expression | None


@dataclass(frozen=True)
class Dim(Statement):
    line: Stretch
    how: Literal["level", "plumb"] | None


@dataclass(frozen=True)
class CutAway(Statement):
    side: Side
    naming: tuple[Name, ...]


@dataclass(frozen=True)
class Check(Statement):
    left: Expression
    operator: Literal[">=", "<=", ">", "<", "="]
    right: Expression
    within: Expression | None


@dataclass(frozen=True)
class Allow(Statement):
    """That a rule of the workshop need not hold, and why."""

    rule: Name
    reason: str


Part = (
    PointStatement
    | PointsStatement
    | Guide
    | Feature
    | Outline
    | Run
    | Measure
    | Find
    | Hold
    | Fillet
    | Clip
    | Dim
    | CutAway
    | Check
    | Allow
)


@dataclass(frozen=True)
class Piece(Statement):
    name: Name
    about: tuple[AboutClause, ...]
    parts: tuple[Part, ...]


@dataclass(frozen=True)
class Parameter(Node):
    name: Name
    default: Expression | None


@dataclass(frozen=True)
class Block(Statement):
    name: Name
    parameters: tuple[Parameter, ...]
    about: tuple[AboutClause, ...]
    parts: tuple[Part, ...]


@dataclass(frozen=True)
class Pass(Statement):
    """That a strap goes through slots, openings or slits."""

    strap: Ref
    through: tuple[Ref, ...]


@dataclass(frozen=True)
class Join(Statement):
    lines: tuple[Ref, ...]
    reversed: bool
    within: Expression | None


@dataclass(frozen=True)
class Fit(Statement):
    name: Name
    lines: tuple[Ref, ...]
    within: Expression | None


@dataclass(frozen=True)
class Step(Statement):
    text: str
    uses: tuple[Ref, ...]


Item = (
    Measure
    | Size
    | Stock
    | Thread
    | Punch
    | Hardware
    | Content
    | Use
    | Piece
    | Block
    | Join
    | Check
    | Allow
    | Pass
    | Fit
    | Step
)


@dataclass(frozen=True)
class Remark(Node):
    """`# …` up to the end of its line; `text` begins after the `#`."""

    text: str
    own_line: bool


@dataclass(frozen=True)
class Unread(Node):
    """A statement with a slip in it, already told. `kind` is its first word; what can be made out of its name
    is kept, so that nobody complains that the name is unknown. `piece` is the piece it stands in, if any.
    """

    kind: str
    name: str | None
    piece: str | None


@dataclass(frozen=True)
class File:
    """One pattern file. `remarks` are kept so that the formatter loses nothing.

    A statement with a slip stands in `unread` alone; of a piece or block with a slip in its head the rest
    stands in `items` too.
    """

    source: Source = field(compare=False, repr=False)
    header: Header | None
    items: tuple[Item, ...]
    remarks: tuple[Remark, ...] = field(compare=False)
    unread: tuple[Unread, ...] = field(compare=False, default=())
