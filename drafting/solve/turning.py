"""Turned edges: the line a piece is cut along, outside its finished edge.

Takes a piece's bound turns and a Reader, and from the Trade how leather is turned; gives the CuttingLine: the outline,
moved out wherever the edge is turned. A piece without turns is cut along its outline.

A turn has a twin as any feature has. One that ends on the mirror line goes on into its twin: the two are one turn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise

from drafting.geometry.leg import Leg, line_if_any
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.pattern import LineRef, OffsetForm, Piece, ShapePart, StripWork, TurnWork
from drafting.records import dataclass, field, replace
from drafting.solve.amounts import mm, place
from drafting.solve.lines import Drawn, Unbuildable
from drafting.solve.outlines import distance_off, mirror_points
from drafting.solve.placed import PlacedFeature, PlacedTurn
from drafting.solve.reading import Reader
from drafting.solve.shapes import positive
from drafting.solve.trade import Asked, Trade, TurnedEdge, TurnWish
from drafting.solve.ways import build_way
from drafting.text.catalogue import shapes as says

CUTTING = "cutting line"
"""The name of the line to cut; no maker's name has a blank."""
SAMPLES = (0.02, 0.26, 0.5, 0.74, 0.98)
"""Where along a turned edge it is asked how thick the leather is."""
Mirror = tuple[Point, Point]


@dataclass(frozen=True)
class Stretch:
    """A part of a ring, from one place forward to another; all round when they are one place."""

    start: float
    end: float


@dataclass(frozen=True)
class Turned:
    """One turned edge: the finished edge, and the work along it."""

    part: ShapePart
    is_twin: bool
    stretch: Stretch
    edge: Path | Ring
    wish: TurnWish
    made: TurnedEdge


@dataclass(frozen=True)
class CuttingLine(Drawn):
    """The ring that is cut, and the edges that are turned."""

    turned: tuple[Turned, ...] = field(kw_only=True)


def cutting_ref(piece: Piece) -> LineRef:
    return LineRef(piece.name, CUTTING)


def piece_line(piece: str, what: str) -> LineRef:
    """The line that an amount of a whole piece is read off: `cut_width` off the line to cut."""
    return LineRef(piece, CUTTING if what.startswith("cut_") else "outline")


def leather_of(reader: Reader, piece: Piece) -> Ring:
    """The leather of a piece as it is cut."""
    ring = reader.line(cutting_ref(piece)).path
    if not isinstance(ring, Ring):
        raise AssertionError("a piece is cut along a ring")
    return ring


def has_turns(piece: Piece) -> bool:
    return any(isinstance(part.work, TurnWork) for part in piece.features)


def _turns(piece: Piece) -> Iterator[tuple[ShapePart, OffsetForm, TurnWork]]:
    for part in piece.features:
        if isinstance(part.work, TurnWork) and isinstance(part.form, OffsetForm):
            yield part, part.form, part.work


def _skives(piece: Piece) -> Iterator[tuple[LineRef, StripWork]]:
    for part in piece.features:
        if isinstance(part.work, StripWork) and part.work.down_to is not None:
            yield LineRef(piece.name, part.name), part.work


def cutting_needs(piece: Piece) -> object:
    """What the line to cut is made from; strips that are skived tell how thick the leather is that is turned."""
    turns = tuple((LineRef(piece.name, part.name), form.distance, work) for part, form, work in _turns(piece))
    skives = tuple(_skives(piece)) if turns else ()
    return (LineRef(piece.name, "outline"), piece.mirror or (), turns, skives)


def build_turned(reader: Reader, part: ShapePart) -> Drawn:
    """The finished edge that is turned, as it is drafted."""
    if not isinstance(part.form, OffsetForm):
        raise AssertionError("a turn is outside an edge")
    return build_way(reader, part.form.way)


def build_cutting(reader: Reader, trade: Trade, piece: Piece) -> CuttingLine:
    ring = reader.line(LineRef(piece.name, "outline")).path
    if not isinstance(ring, Ring):
        raise AssertionError("an outline is a ring")
    turned = [each for turn in _turns(piece) for each in _turned(reader, trade, piece, ring, *turn)]
    _refuse_overlaps(piece, ring, turned)
    return CuttingLine(_cut_along(piece, ring, turned), turned=tuple(turned))


# One turn


def _turned(
    reader: Reader, trade: Trade, piece: Piece, ring: Ring, part: ShapePart, form: OffsetForm, work: TurnWork
) -> Iterator[Turned]:
    edge = reader.line(LineRef(piece.name, part.name)).path
    mirror = mirror_points(reader, piece.mirror) if piece.mirror and not part.once else None
    width = positive(reader, form.distance, part.name, "The width", form.span)
    for is_twin, stretch in enumerate(_stretches(ring, edge, mirror, part, piece)):
        finished = _edge_along(ring, stretch)
        wish = TurnWish(
            stretch.start,
            stretch.end,
            width,
            _thickness(reader, piece, finished, reader.number(work.thick)),
            reader.number(work.neutral),
            work.corners,
        )
        made = trade.turn(ring, wish, Asked(part.name, piece.name, form.span))
        yield Turned(part, bool(is_twin), stretch, finished, wish, made)


def _stretches(
    ring: Ring, edge: Path | Ring, mirror: Mirror | None, part: ShapePart, piece: Piece
) -> list[Stretch]:
    """A turn and its twin; they are one where they meet on the mirror line, or are the same."""
    own = _stretch_of(ring, edge, part, piece)
    if mirror is None:
        return [own]
    twin = _stretch_of(ring, edge.mirrored(*mirror), part, piece)
    if _is_same(ring, own.start, twin.start) and _is_same(ring, own.end, twin.end):
        return [own]
    for first, second in ((own, twin), (twin, own)):
        meets = _is_same(ring, first.end, second.start)
        if meets and distance_off(ring.point_at(first.end), *mirror) < SAME_POINT:
            return [Stretch(first.start, second.end)]
    return [own, twin]


def _is_same(ring: Ring, one: float, other: float) -> bool:
    apart = abs(one - other) % ring.length
    return min(apart, ring.length - apart) < SAME_POINT


def _stretch_of(ring: Ring, edge: Path | Ring, part: ShapePart, piece: Piece) -> Stretch:
    """Where along the outline an edge is, walked as the outline is."""
    places = [ring.locate(edge.point_at(edge.length * share)) for share in (0.0, 0.25, 0.5, 0.75, 1.0)]
    if any(at is None for at in places):
        raise _off_edge(ring, edge, part, piece)
    if isinstance(edge, Ring):
        return Stretch(0.0, 0.0)
    start, _, middle, _, end = (at or 0.0 for at in places)
    ahead = (middle - start) % ring.length < (end - start) % ring.length
    return Stretch(start, end) if ahead else Stretch(end, start)


def _off_edge(ring: Ring, edge: Path | Ring, part: ShapePart, piece: Piece) -> Unbuildable:
    off = max(ring.distance_to_point(edge.point_at(edge.length * share)) for share in (0.0, 0.25, 0.5, 0.75))
    way = " ".join(part.form.way.span.text.split()) if isinstance(part.form, OffsetForm) else part.name
    return Unbuildable(says.NOT_ON_EDGE, part.form.span, way=way, piece=piece.name, distance=mm(off))


def _edge_along(ring: Ring, stretch: Stretch) -> Path | Ring:
    if _is_same(ring, stretch.start, stretch.end):
        return ring
    return ring.part(stretch.start, stretch.end)


def _thickness(reader: Reader, piece: Piece, edge: Path | Ring, thick: float) -> float:
    """How thick the leather is where it is turned: at its thickest, skived strips told."""
    strips = list(_skived(reader, piece))
    return max(
        min([thick, *(left for ring, left in strips if ring.contains(edge.point_at(edge.length * share)))])
        for share in SAMPLES
    )


def _skived(reader: Reader, piece: Piece) -> Iterator[tuple[Ring, float]]:
    """The strips of a piece that are skived, twins among them, and how thick they are left."""
    mirror = mirror_points(reader, piece.mirror) if piece.mirror else None
    for ref, work in _skives(piece):
        ring = reader.line(ref).path
        if isinstance(ring, Ring) and work.down_to is not None:
            left = reader.number(work.down_to)
            yield ring, left
            if mirror:
                yield ring.mirrored(*mirror), left


# All turns of a piece


def _refuse_overlaps(piece: Piece, ring: Ring, turned: Sequence[Turned]) -> None:
    for one, other in combinations(turned, 2):
        where = _shared(ring, one.stretch, other.stretch)
        if where is not None:
            first, second = (each.part.name + "'" * each.is_twin for each in (one, other))
            raise Unbuildable(
                says.TURNED_TWICE,
                other.part.name_span,
                first=first,
                second=second,
                piece=piece.name,
                where=place(ring.point_at(where)),
            )


def _shared(ring: Ring, one: Stretch, other: Stretch) -> float | None:
    """A place that two stretches share, but for their ends."""
    for first, second in ((one, other), (other, one)):
        inside = (second.start - first.start) % ring.length
        extent = (first.end - first.start) % ring.length or ring.length
        if SAME_POINT < inside < extent - SAME_POINT or _is_same(ring, first.start, second.start):
            return second.start
    return None


def _cut_along(piece: Piece, ring: Ring, turned: Sequence[Turned]) -> Ring:
    """The outline with each turned edge replaced by its cutting line."""
    if not turned:
        return ring
    walked = ring if ring.is_anticlockwise else ring.reversed()
    cuts = sorted(
        ((_walked(ring, each.stretch), each.made.cut) for each in turned), key=lambda cut: cut[0].start
    )
    if len(cuts) == 1 and _is_same(ring, cuts[0][0].start, cuts[0][0].end):
        whole = Ring(cuts[0][1].legs)
    else:
        whole = Ring(tuple(_legs(walked, cuts)))
    crossings = whole.self_intersections()
    if crossings:
        where = place(crossings[0])
        raise Unbuildable(says.TURNS_MEET, turned[-1].part.name_span, piece=piece.name, where=where)
    return whole if ring.is_anticlockwise else whole.reversed()


def _walked(ring: Ring, stretch: Stretch) -> Stretch:
    """The same stretch on the ring walked anticlockwise."""
    if ring.is_anticlockwise:
        return stretch
    return Stretch((ring.length - stretch.end) % ring.length, (ring.length - stretch.start) % ring.length)


def _legs(ring: Ring, cuts: Sequence[tuple[Stretch, Path]]) -> Iterator[Leg]:
    """Cutting line, edge that is not turned, next cutting line, and so on round."""
    for (stretch, cut), (after, _) in pairwise([*cuts, cuts[0]]):
        yield from line_if_any(ring.point_at(stretch.start), cut.start, SAME_POINT)
        yield from cut.legs
        yield from line_if_any(cut.end, ring.point_at(stretch.end), SAME_POINT)
        if not _is_same(ring, stretch.end, after.start):
            yield from ring.part(stretch.end, after.start).legs


# Placed


def turned_features(reader: Reader, part: ShapePart, piece: Piece) -> Iterator[PlacedFeature]:
    """The finished edge of a turn with its work, and the cuts into its corners."""
    line = reader.line(cutting_ref(piece))
    for turned in line.turned if isinstance(line, CuttingLine) else ():
        if turned.part.name == part.name:
            edge = _placed(turned)
            yield edge
            if turned.made.snips:
                name = f"{edge.name} snip"
                yield replace(
                    edge,
                    name=name,
                    kind="snip",
                    is_removed=True,
                    rings=(),
                    paths=turned.made.snips,
                    work=None,
                )


def _placed(turned: Turned) -> PlacedFeature:
    wish, edge = turned.wish, turned.edge
    return PlacedFeature(
        turned.part.name + "'" * turned.is_twin,
        "turn",
        turned.is_twin,
        False,
        None,
        None,
        (edge,) if isinstance(edge, Ring) else (),
        (edge,) if isinstance(edge, Path) else (),
        (),
        {},
        None,
        turned.part.note,
        PlacedTurn(wish.width, turned.made.shown, wish.thickness, wish.corners, turned.made.cut),
    )
