"""A sheet as data: strokes, solids and lettering in named groups.

A Drawing knows its lines by their kind and its words by their height, and nothing of any file format. Lengths are mm on
the paper, x to the right and y up from the lower left corner of the sheet; angles of lettering are degrees.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import cos, pi, radians, sin

from drafting.drawing.dashes import fitted_dashes
from drafting.drawing.lettering import has_descender, natural_width
from drafting.drawing.lines import LineKind
from drafting.geometry.bounds import Bounds
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass, field, replace

DESCENT = 0.32
"""How far letters such as g, and brackets, reach below the line they stand on, in lettering heights."""
ORIGIN = Point(0.0, 0.0)
QUARTER_TURN = pi / 2
HEAD_UP = 1.0
"""Degrees past plumb up to which words still read from the right."""
RISE = 1.08
"""How far the tallest letters reach above it; capitals reach 1."""


@dataclass(frozen=True)
class Stroke:
    """A line of one kind. `is_filled` strokes are not hollow: arrowheads and dots."""

    kind: LineKind
    way: Path | Ring
    is_filled: bool = False

    @property
    def half_width(self) -> float:
        """How far its ink reaches beside the way; what is filled has no stroke round it."""
        return 0.0 if self.is_filled else self.kind.width / 2

    @property
    def dashes(self) -> tuple[tuple[float, ...], float]:
        """Dash, gap, dash, gap ... in mm, none for a continuous line; and how far into them it starts."""
        return fitted_dashes(self.kind.dashes, self.way)

    def moved(self, move: Vector) -> Stroke:
        return replace(self, way=self.way.moved(move))

    def quarter_turned(self) -> Stroke:
        return replace(self, way=self.way.turned(QUARTER_TURN, ORIGIN))


@dataclass(frozen=True)
class Dots:
    """Round holes of one size, filled: many of them are one mark, as a seam may have thousands."""

    kind: LineKind
    points: tuple[Point, ...]
    across: float

    @property
    def half_width(self) -> float:
        return self.across / 2

    @property
    def segments(self) -> Iterator[Segment]:
        """Each as a straight piece next to nothing long, for those who ask what it touches."""
        yield from ((point.x - NEXT_TO_NOTHING, point.y, point.x, point.y) for point in self.points)

    @property
    def bounds(self) -> Bounds:
        return Bounds.around(self.points).grown(self.half_width)

    def moved(self, move: Vector) -> Dots:
        return replace(self, points=tuple(point + move for point in self.points))

    def quarter_turned(self) -> Dots:
        return replace(self, points=tuple(point.turned(QUARTER_TURN, ORIGIN) for point in self.points))


@dataclass(frozen=True)
class Ticks:
    """Short straight lines of one kind: slanted stitch marks, hatching."""

    kind: LineKind
    lines: tuple[tuple[Point, Point], ...]

    @property
    def half_width(self) -> float:
        return self.kind.width / 2

    @property
    def segments(self) -> Iterator[Segment]:
        yield from ((start.x, start.y, end.x, end.y) for start, end in self.lines)

    @property
    def bounds(self) -> Bounds:
        return Bounds.around(point for line in self.lines for point in line).grown(self.half_width)

    def moved(self, move: Vector) -> Ticks:
        x, y = move.x, move.y
        lines = ((Point(a.x + x, a.y + y), Point(b.x + x, b.y + y)) for a, b in self.lines)
        return replace(self, lines=tuple(lines))

    def quarter_turned(self) -> Ticks:
        turned = (tuple(point.turned(QUARTER_TURN, ORIGIN) for point in line) for line in self.lines)
        return replace(self, lines=tuple((start, end) for start, end in turned))


Segment = tuple[float, float, float, float]
"""A straight piece, from x and y to x and y."""
NEXT_TO_NOTHING = 0.001


@dataclass(frozen=True)
class Lettering:
    """Words on one line. `height` is the height of a capital; `at` is on the line the letters stand on, at the
    `anchor` of the words. `use` says what the words are: caption, dimension, field ..."""

    text: str
    at: Point
    height: float
    anchor: str = "middle"
    angle: float = 0.0
    use: str = "note"

    @property
    def width(self) -> float:
        return natural_width(self.text, self.height)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """The box around the ink, anticlockwise from the start of the words below."""
        width = self.width
        left = {"start": 0.0, "middle": -width / 2, "end": -width}[self.anchor]
        low = -DESCENT * self.height if has_descender(self.text) else -0.02 * self.height
        high = RISE * self.height
        if self.angle == 0:
            x, y = self.at.x + left, self.at.y
            low_y, high_y, end = y + low, y + high, x + width
            return (Point(x, low_y), Point(end, low_y), Point(end, high_y), Point(x, high_y))
        along = Vector(cos(radians(self.angle)), sin(radians(self.angle)))
        up = along.turned_left()
        first, last = self.at + along * left, self.at + along * (left + width)
        return (first + up * low, last + up * low, last + up * high, first + up * high)

    @property
    def bounds(self) -> Bounds:
        return Bounds.around(self.corners)

    def moved(self, move: Vector) -> Lettering:
        return replace(self, at=self.at + move)

    def quarter_turned(self) -> Lettering:
        """Turned about (0, 0), anticlockwise; words that would then stand on their head are set the other way round."""
        turned = replace(self, at=self.at.turned(QUARTER_TURN, ORIGIN), angle=self.angle + 90.0)
        return turned if turned.angle <= 90.0 + HEAD_UP else turned.set_the_other_way()

    def set_the_other_way(self) -> Lettering:
        """In the same room, read from the other side."""
        up = Vector(-sin(radians(self.angle)), cos(radians(self.angle)))
        anchor = {"start": "end", "end": "start"}.get(self.anchor, self.anchor)
        return replace(self, at=self.at + up * self.height, angle=self.angle - 180.0, anchor=anchor)


@dataclass(frozen=True)
class Group:
    """Marks that belong together. `name` is unique among its neighbours and made of the maker's own names; `kind`
    says what the group is (piece, outline, feature, dimension ...), `title` and `note` describe it to a reader.
    Where there is a `window`, only what lies in it is seen."""

    kind: str
    name: str
    marks: tuple[Stroke | Dots | Ticks | Lettering | Group, ...] = ()
    title: str | None = None
    note: str | None = None
    window: Bounds | None = None

    def moved(self, move: Vector) -> Group:
        window = self.window.moved(move) if self.window else None
        return replace(self, marks=tuple(mark.moved(move) for mark in self.marks), window=window)

    def quarter_turned(self) -> Group:
        """The whole group turned about (0, 0), anticlockwise."""
        window = self.window.quarter_turned() if self.window else None
        return replace(self, marks=tuple(mark.quarter_turned() for mark in self.marks), window=window)

    def walk(self) -> Iterator[Group]:
        """This group and every group in it, outermost first."""
        yield self
        for mark in self.marks:
            if isinstance(mark, Group):
                yield from mark.walk()

    @property
    def strokes(self) -> Iterator[Stroke]:
        for group in self.walk():
            yield from (mark for mark in group.marks if isinstance(mark, Stroke))

    @property
    def flecks(self) -> Iterator[Dots | Ticks]:
        """What is drawn of many small parts."""
        for group in self.walk():
            yield from (mark for mark in group.marks if isinstance(mark, Dots | Ticks))

    @property
    def letterings(self) -> Iterator[Lettering]:
        for group in self.walk():
            yield from (mark for mark in group.marks if isinstance(mark, Lettering))

    @property
    def bounds(self) -> Bounds | None:
        """The box around all that is drawn, or nothing for an empty group."""
        boxes = [stroke.way.bounds.grown(stroke.half_width) for stroke in self.strokes]
        boxes += [lettering.bounds for lettering in self.letterings if lettering.text]
        boxes += [flecks.bounds for flecks in self.flecks]
        return Bounds.joining(boxes) if boxes else None


def kinds_in(groups: Iterable[Group]) -> tuple[LineKind, ...]:
    """The kinds of line that are drawn, each once."""
    held = list(groups)
    kinds = [stroke.kind for group in held for stroke in group.strokes]
    return tuple(dict.fromkeys([*kinds, *(flecks.kind for group in held for flecks in group.flecks)]))


Mark = Stroke | Dots | Ticks | Lettering | Group


@dataclass(frozen=True)
class Drawing:
    """One sheet. `scale` is drawn size over true size, 1 for a piece sheet; `sheet` names the paper."""

    title: str
    note: str
    width: float
    height: float
    sheet: str
    scale: float
    groups: tuple[Group, ...] = field(default=())
    record: str = ""
    """The line that tells what it was made from."""

    @property
    def strokes(self) -> Iterator[Stroke]:
        for group in self.groups:
            yield from group.strokes

    @property
    def flecks(self) -> Iterator[Dots | Ticks]:
        for group in self.groups:
            yield from group.flecks

    @property
    def letterings(self) -> Iterator[Lettering]:
        for group in self.groups:
            yield from group.letterings

    def find(self, kind: str, name: str | None = None) -> list[Group]:
        """All groups of a kind, or of a kind and a name."""
        walked = (inner for group in self.groups for inner in group.walk())
        return [group for group in walked if group.kind == kind and name in (None, group.name)]
