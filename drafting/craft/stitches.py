"""Lay out the holes of a stitch line.

Takes a path or a ring and a Request: what was asked for, where a hole must stand, and whether a pitch is measured along
the line or straight across. Returns a Layout: every hole with its place and the direction of the line there, and for
each stretch between corners its count and its true pitch.

An open line of N stitches has N + 1 holes, a ring has N. Each stretch holds a whole number of pitches: evenly along the
line, or, `across`, in equal steps through the air as an iron takes them, of which the last ends on the end exactly.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from drafting.craft.counting import copied_counts, counts_by_pitch, expect_few_enough, share_out
from drafting.craft.faults import CountsDiffer, PitchTooLong, TooManyBackStitches
from drafting.craft.places import CORNER_TURN, Corners, Span, spans_of
from drafting.craft.spacing import (
    Apart,
    AsManyAs,
    Every,
    FrenchIron,
    PerInch,
    Spacing,
    Stitches,
    nominal_pitch,
)
from drafting.craft.stepping import WHOLE, even_step, places_of, steps_in
from drafting.craft.walking import walk_places
from drafting.geometry.maths import kept
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass, field, replace

Measured = Literal["along", "across"]
"""A pitch is measured along the line, or straight across from hole to hole."""


@dataclass(frozen=True)
class Request:
    """What a maker asks of a stitch line.

    `held` are points that must have a hole, `start` is the first hole of a ring. `back` tells how many stitches are
    sewn twice at the start and at the end. `short` is how much the line was already ended short at its start and end:
    it only serves to word a mend.
    """

    spacing: Spacing
    corners: Corners = "hole"
    measured: Measured = "along"
    held: tuple[Point, ...] = ()
    start: Point | None = None
    back: tuple[int, int] = (0, 0)
    least_turn: float = CORNER_TURN
    short: tuple[float, float] = (0.0, 0.0)


class StitchHole(NamedTuple):
    """A hole: where it is, how far along the line, which way the line leads on from it, and in which stretch.

    The direction at a corner is that of the leg ahead, at the end of an open line that of the last leg.
    """

    point: Point
    place: float
    direction: Vector
    stretch: int


@dataclass(frozen=True)
class Stretch:
    """A part of a line between two holes that had to be. `rest` is what an exact pitch leaves over at its end.

    `length` is measured along the line; `pitch` as the layout is measured, along or across.
    """

    start: float
    end: float
    stitches: int
    pitch: float
    nominal: float | None
    rest: float = 0.0

    @property
    def length(self) -> float:
        return self.end - self.start

    @property
    def off(self) -> float:
        """By what share the true pitch is off the one asked for, longer positive; 0 where none was."""
        return 0.0 if self.nominal is None else self.pitch / self.nominal - 1


@dataclass(frozen=True)
class Layout:
    """The holes of a stitch line, in the order it is walked."""

    line: Path | Ring
    holes: tuple[StitchHole, ...]
    stretches: tuple[Stretch, ...]
    request: Request = field(repr=False)

    @property
    def is_ring(self) -> bool:
        return isinstance(self.line, Ring)

    @property
    def stitches(self) -> int:
        return sum(stretch.stitches for stretch in self.stretches)

    @property
    def counts(self) -> tuple[int, ...]:
        """Stitches of each stretch."""
        return tuple(stretch.stitches for stretch in self.stretches)

    @property
    def lengths(self) -> tuple[float, ...]:
        """Length of each stretch along the line."""
        return tuple(stretch.length for stretch in self.stretches)

    @property
    def nominal(self) -> float | None:
        """The pitch that was asked for, if one was."""
        return nominal_pitch(self.request.spacing)

    @property
    def pitch(self) -> float:
        """The mean true pitch; `pitches` tells them apart. Of holes pricked through singly it is 0."""
        total = sum(one.pitch * one.stitches for one in self.stretches)
        return total / self.stitches if self.stitches else 0.0

    @property
    def pitches(self) -> tuple[float, ...]:
        """True pitch of each stretch."""
        return tuple(stretch.pitch for stretch in self.stretches)

    @property
    def remainder(self) -> float:
        """What an exact pitch left over at the end of the line, 0 for every other way of asking."""
        return self.stretches[-1].rest if self.stretches else 0.0

    @kept
    def gaps(self) -> tuple[float, ...]:
        """Straight distances from hole to hole, round to the first one on a ring."""
        points = [hole.point for hole in self.holes]
        following = [*points[1:], points[0]] if self.is_ring else points[1:]
        return tuple(a.distance_to(b) for a, b in zip(points, following, strict=False))

    @property
    def stitched_twice(self) -> tuple[int, ...]:
        """The holes that back-stitches pass again, by index; on a ring they go on past the start."""
        at_start, at_end = self.request.back
        last = len(self.holes) if self.is_ring else len(self.holes) - 1
        first = range(at_start + 1) if at_start else range(0)
        final = range(last - at_end, last + 1) if at_end else range(0)
        return tuple(sorted({index % len(self.holes) for index in (*first, *final)}))

    def mirrored(self, a: Point, b: Point) -> Layout:
        """The holes of its twin, in the same order: the first is the twin of the first."""
        along = (b - a).unit()
        same, other = along.x**2 - along.y**2, 2 * along.x * along.y

        def twin(hole: StitchHole) -> StitchHole:
            """Worked out in numbers, since a sail has ten thousand holes."""
            x, y, way = hole.point.x - a.x, hole.point.y - a.y, hole.direction
            point = Point(a.x + same * x + other * y, a.y + other * x - same * y)
            direction = Vector(same * way.x + other * way.y, other * way.x - same * way.y)
            return StitchHole(point, hole.place, direction, hole.stretch)

        holes = tuple(twin(hole) for hole in self.holes)
        return replace(self, line=self.line.mirrored(a, b), holes=holes)


def lay_out(line: Path | Ring, request: Request) -> Layout:
    """The holes of a stitch line, or a CraftFault that says why there are none."""
    spans = _spans(line, request)
    parts = [_part(line, span) for span in spans]
    stretches = tuple(_stretches(line, spans, parts, request))
    _expect_back_stitches(request.back, sum(stretch.stitches for stretch in stretches))
    expect_few_enough(sum(stretch.stitches for stretch in stretches))
    holes = tuple(_holes(line, stretches, parts, request.measured))
    return Layout(line, holes, stretches, request)


def _spans(line: Path | Ring, request: Request) -> tuple[Span, ...]:
    spans = spans_of(line, request.corners, request.least_turn, request.held, request.start)
    match request.spacing:
        case AsManyAs(counts, lengths) if len(spans) == 1 and len(counts) > 1 and lengths:
            return _divided(spans[0], counts, lengths)
    return spans


def _divided(span: Span, counts: Sequence[int], lengths: Sequence[float]) -> tuple[Span, ...]:
    """One stretch divided in the shares of another line's, so that hole meets hole."""
    if len(counts) != len(lengths):
        raise CountsDiffer(len(lengths), len(counts))
    total = sum(lengths)
    ends = [span.start + span.length * sum(lengths[:index]) / total for index in range(len(lengths))]
    return tuple(Span(a, b) for a, b in zip(ends, [*ends[1:], span.end], strict=True))


def _part(line: Path | Ring, span: Span) -> Path:
    """The stretch as a path of its own; a span of a ring that comes round to its start is the whole ring."""
    if isinstance(line, Ring):
        return line.part(span.start, span.end)
    return line.part(span.start, span.end)


def _stretches(
    line: Path | Ring, spans: Sequence[Span], parts: Sequence[Path], request: Request
) -> Iterator[Stretch]:
    match request.spacing:
        case Apart(pitch):
            nominal_pitch(request.spacing)
            for index, (span, part) in enumerate(zip(spans, parts, strict=True)):
                is_end = isinstance(line, Path) and index == len(spans) - 1
                yield _exact(span, part, pitch, request.measured, is_end, (index, len(spans)))
        case Every() | PerInch() | FrenchIron() | Stitches() | AsManyAs():
            counts = _counts(line, spans, parts, request)
            nominal = nominal_pitch(request.spacing)
            for span, part, count in zip(spans, parts, counts, strict=True):
                pitch = even_step(part, count) if request.measured == "across" else span.length / count
                yield Stretch(span.start, span.end, count, pitch, nominal)


def _counts(line: Path | Ring, spans: Sequence[Span], parts: Sequence[Path], request: Request) -> list[int]:
    lengths = [span.length for span in spans]
    match request.spacing:
        case Stitches(count):
            return share_out(count, lengths)
        case AsManyAs(counts):
            return copied_counts(counts, len(spans))
    pitch = nominal_pitch(request.spacing) or 0.0
    expect_few_enough(sum(lengths) / pitch)
    pitches = [_pitches_in(part, pitch, request.measured) for part in parts]
    return counts_by_pitch(pitches, lengths, pitch, request.short, isinstance(line, Path))


def pitches_held(line: Path | Ring, request: Request) -> tuple[tuple[float, float], ...]:
    """Of each stretch how many pitches it holds, not rounded, and the pitch that is asked for."""
    pitch = nominal_pitch(request.spacing)
    if pitch is None:
        raise AssertionError("only what is asked for by a pitch holds a number of them")
    parts = [_part(line, span) for span in _spans(line, request)]
    expect_few_enough(sum(part.length for part in parts) / pitch)
    return tuple((_pitches_in(part, pitch, request.measured), pitch) for part in parts)


def _pitches_in(part: Path, pitch: float, measured: Measured) -> float:
    return steps_in(part, pitch) if measured == "across" else part.length / pitch


def _exact(
    span: Span, part: Path, pitch: float, measured: Measured, is_end: bool, which: tuple[int, int]
) -> Stretch:
    """A stretch at an exact pitch. The rest makes a last, short stitch, but at the end of an open line."""
    expect_few_enough(span.length / pitch)
    held = _pitches_in(part, pitch, measured)
    if held < 1 - WHOLE:
        raise PitchTooLong(pitch, span.length, *which)
    whole = int(held + WHOLE)
    rest = (held - whole) * pitch
    rest = rest if rest > SAME_POINT else 0.0
    return Stretch(span.start, span.end, whole + (1 if rest and not is_end else 0), pitch, pitch, rest)


def _holes(
    line: Path | Ring, stretches: Sequence[Stretch], parts: Sequence[Path], measured: Measured
) -> Iterator[StitchHole]:
    """The holes of each stretch but its last, which is the first of the next; at the end of an open line that too."""
    for index, (stretch, part) in enumerate(zip(stretches, parts, strict=True)):
        for point, place, direction in walk_places(part, _places(stretch, part, measured)):
            yield StitchHole(point, _held(line, stretch.start + place), direction, index)
    last = stretches[-1]
    if isinstance(line, Path) and not last.rest:
        yield StitchHole(line.end, line.length, line.direction_before(line.length), len(stretches) - 1)


def _held(line: Path | Ring, place: float) -> float:
    """A place of the line; past the end of a ring it counts from its start again."""
    if place < line.length:
        return place
    return line.within(place) if isinstance(line, Ring) else line.length


def _places(stretch: Stretch, part: Path, measured: Measured) -> list[float]:
    """Where the holes stand, from the start of the stretch, the one at its end left out unless a rest follows it."""
    full = stretch.stitches if stretch.nominal is None or not stretch.rest else None
    if full is None:
        count = int(_pitches_in(part, stretch.pitch, measured) + WHOLE) + 1
    else:
        count = full
    if measured == "across":
        return places_of(part, stretch.pitch, count - 1)
    apart = stretch.pitch if stretch.rest else part.length / stretch.stitches
    return [number * apart for number in range(count)]


def _expect_back_stitches(back: tuple[int, int], stitches: int) -> None:
    for number in back:
        if number > stitches:
            raise TooManyBackStitches(number, stitches)


def pricked_through(layout: Layout, outline: Ring) -> tuple[StitchHole, ...]:
    """The holes of a line that fall on another piece of the same sheet: `same holes as`."""
    bounds = outline.bounds.grown(SAME_POINT)
    return tuple(
        hole for hole in layout.holes if bounds.may_contain(hole.point) and outline.contains(hole.point)
    )


def pricked_layout(layout: Layout, outline: Ring) -> Layout | None:
    """A line as it is pricked through to another piece, or None where no hole of it falls there.

    Stitches are kept where both their holes fall on the piece; of a ring that is not all there an open line is left.
    """
    kept = pricked_through(layout, outline)
    if not kept or len(kept) == len(layout.holes):
        return layout if kept else None
    places = {hole.place for hole in kept}
    is_there = [hole.place in places for hole in layout.holes]
    line, holes = layout.line, list(layout.holes)
    if isinstance(line, Ring):
        first = next(index for index, there in enumerate(is_there) if there and not is_there[index - 1])
        line, holes = _opened(line, [*holes[first:], *holes[:first]])
        is_there = [*is_there[first:], *is_there[:first]]
    stretches = tuple(_pricked_stretches(layout, holes, is_there))
    left = tuple(hole for hole, there in zip(holes, is_there, strict=True) if there)
    return replace(layout, line=line, holes=left, stretches=stretches)


def _opened(ring: Ring, holes: Sequence[StitchHole]) -> tuple[Path, list[StitchHole]]:
    """A ring cut open at the first of its holes."""
    start = holes[0].place
    along = [hole._replace(place=(hole.place - start) % ring.length) for hole in holes]
    return ring.part(start, start), along


def _pricked_stretches(
    layout: Layout, holes: Sequence[StitchHole], is_there: Sequence[bool]
) -> Iterator[Stretch]:
    """One for each row of neighbouring holes that are there, within a stretch of the line."""
    row: list[StitchHole] = []
    for hole, there in zip(holes, is_there, strict=True):
        if there:
            row.append(hole)
        if row and not (there and hole.stretch == row[0].stretch):
            yield from _pricked_row(layout, row)
            row = [hole] if there else []
    yield from _pricked_row(layout, row)


def _pricked_row(layout: Layout, row: Sequence[StitchHole]) -> Iterator[Stretch]:
    if len(row) > 1:
        whole = layout.stretches[row[0].stretch]
        yield replace(whole, start=row[0].place, end=row[-1].place, stitches=len(row) - 1, rest=0.0)
