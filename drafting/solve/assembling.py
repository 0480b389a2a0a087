"""Values of a solved plan -> Placed: every piece with its outline, corners, features and twins.

Takes the Lowered pattern and the values of one size. A feature off the mirror line gets its twin, one across it is
its own, and one that is neither is a fault; so is a feature off the leather.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from itertools import pairwise
from typing import Any, Literal

from drafting.geometry.extremes import extremes
from drafting.geometry.intersect import path_intersections
from drafting.geometry.line import Line
from drafting.geometry.maths import degrees, plain_number
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.reading import mirrored_reading
from drafting.geometry.tolerances import SAME_POINT
from drafting.geometry.walk import Walk
from drafting.model.pattern import (
    BandForm,
    BoxForm,
    LineRef,
    LinesForm,
    Pattern,
    Piece,
    PointRef,
    RoundForm,
    ShapePart,
    SlitWork,
    SlotForm,
    SpotForm,
    StripWork,
    TurnWork,
)
from drafting.records import dataclass, replace
from drafting.solve.amounts import mm, mm_at_least, place
from drafting.solve.lines import OutlineLine, RowLine, Station, Unbuildable
from drafting.solve.lowering import Lowered, spot_of
from drafting.solve.outlines import cut_side, distance_off, is_cut_off
from drafting.solve.placed import (
    CornerKind,
    Hole,
    Placed,
    PlacedCorner,
    PlacedDim,
    PlacedFeature,
    PlacedPiece,
    PlacedStitches,
    PlacedWork,
)
from drafting.solve.placing_item import place_item
from drafting.solve.placing_stitches import StitchPlacing
from drafting.solve.punching import Punches
from drafting.solve.reading import Reader, keys_in
from drafting.solve.remembering import Memory
from drafting.solve.shapes import Spot, positive
from drafting.solve.slitting import cuts_of, is_joined
from drafting.solve.turning import cutting_ref, has_turns, leather_of, turned_features
from drafting.solve.ways import as_drawn
from drafting.solve.working import placed_work
from drafting.text.catalogue import shapes as says
from drafting.text.messages import Messages

LETTERED = ("label", "stamp")
REMOVED = ("slot", "hole", "row", "opening", "slit")
STRIPS = ("skive", "glue", "crease")
"""Whose width a maker asks for; a band of another kind is told by its shape."""
Mirror = tuple[Point, Point]


def assemble(
    lowered: Lowered,
    values: Mapping[str, Any],
    size: str | None,
    stem: str,
    messages: Messages,
    memory: Memory,
) -> Placed:
    """All pieces that could be placed; of those that are missing the messages say why."""
    pattern = lowered.pattern
    reader = Reader(values)
    pieces: dict[str, PlacedPiece] = {}
    punches = Punches(pattern, reader, size)
    for piece in pattern.pieces.values():
        try:
            placed = memory.made(
                piece.name, values, messages, partial(_assemble_piece, lowered, piece, messages)
            )
        except KeyError:
            # A dimension, a grain or a mirror line of something that could not be worked out, which is told already.
            if not messages.has_errors:
                raise
            placed = None
        if placed is not None:
            pieces[piece.name] = punches.at_holes(placed, piece)
    item = place_item(pattern, reader, messages, punches.used)
    return Placed(
        pattern.title,
        pattern.edition,
        pattern.licence,
        pattern.author,
        pattern.notes,
        pattern.show,
        size,
        stem,
        measures_of(pattern, values),
        pieces,
        item=item,
    )


def measures_of(pattern: Pattern, values: Mapping[str, Any]) -> dict[str, float]:
    """Those that have a value, by key."""
    keys = [key for part in pattern.measures.values() for key in part.keys]
    return {key: plain_number(values[key]) for key in keys if key in values}


def bare_keys(piece: Piece) -> list[str]:
    """All that the line hangs on along which a piece is cut."""
    lines = [LineRef(piece.name, "outline").key, cutting_ref(piece).key]
    return [*lines, *(key for part in _wide_notches(piece) for key in keys_in(part))]


def _wide_notches(piece: Piece) -> list[ShapePart]:
    return [part for part in piece.features if part.kind == "notch" and part.wide is not None]


def cut_rings(lowered: Lowered, reader: Reader, messages: Messages) -> dict[str, Ring]:
    """The line that each piece is cut along, with its notches; of those that are missing the messages say why."""
    rings: dict[str, Ring] = {}
    for piece in lowered.pattern.pieces.values():
        outline = reader.values.get(LineRef(piece.name, "outline").key)
        if isinstance(outline, OutlineLine) and cutting_ref(piece).key in reader.values:
            try:
                rings[piece.name] = _cut_ring(lowered, reader, piece, outline)
            except Unbuildable as fault:
                messages.extend([fault.message])
    return rings


def _cut_ring(lowered: Lowered, reader: Reader, piece: Piece, outline: OutlineLine) -> Ring:
    mirror = _mirror(reader, piece)
    notches = [
        feature
        for part in _wide_notches(piece)
        for feature in _features(lowered, reader, part, piece, outline, mirror)
    ]
    return _cut_notches(leather_of(reader, piece), notches)[0]


def _assemble_piece(
    lowered: Lowered, piece: Piece, messages: Messages, values: Mapping[str, Any]
) -> PlacedPiece | None:
    reader = Reader(values)
    outline = reader.values.get(LineRef(piece.name, "outline").key)
    if not isinstance(outline, OutlineLine) or cutting_ref(piece).key not in reader.values:
        return None
    mirror = _mirror(reader, piece)
    features: list[PlacedFeature] = []
    for part in piece.features:
        try:
            features.extend(_features(lowered, reader, part, piece, outline, mirror))
        except KeyError:
            # What it is made from could not be worked out, and that is told already.
            if not messages.has_errors:
                raise
        except Unbuildable as fault:
            messages.extend([fault.message])
    stock = lowered.pattern.stocks.get(piece.stock) if piece.stock else None
    ring, plain = _cut_notches(outline.ring, features)
    turned = _cut_notches(leather_of(reader, piece), features)[0] if has_turns(piece) else None
    return PlacedPiece(
        piece.name,
        piece.note,
        piece.count,
        piece.pair,
        piece.stock,
        stock.note if stock else None,
        mirror,
        _grain(reader, piece),
        dict(_points(reader, piece)),
        ring,
        tuple(_corner(outline, station) for station in outline.stations),
        {
            run.name: reader.values[key].path
            for run in piece.runs
            for key in [LineRef(piece.name, run.name).key]
            if key in reader.values
        },
        {
            guide.name: reader.values[key].path
            for guide in piece.guides
            for key in [LineRef(piece.name, guide.name).key]
            if key in reader.values
        },
        tuple(plain),
        tuple(_dims(reader, piece)),
        turned,
    )


def _mirror(reader: Reader, piece: Piece) -> Mirror | None:
    if piece.mirror is None:
        return None
    return reader.point(piece.mirror.start), reader.point(piece.mirror.end)


def _grain(reader: Reader, piece: Piece) -> float | Literal["any"] | None:
    if piece.grain is None or piece.grain == "any":
        return piece.grain
    return degrees(reader.direction(piece.grain).angle) % 180.0


def _points(reader: Reader, piece: Piece) -> Iterator[tuple[str, Point]]:
    """All points by name: those drafted, those of lists, and the twins off the mirror line."""
    mirror = _mirror(reader, piece)
    refs = [part.ref for part in piece.points]
    refs += [
        PointRef(piece.name, part.name, False, str(index + 1))
        for part in piece.lists
        for index in range(len(part.steps))
    ]
    refs += [PointRef(piece.name, name) for cut in piece.cuts for name in cut.naming]
    for ref in refs:
        point = reader.values.get(ref.key)
        if isinstance(point, Point):
            yield ref.text, point
            if mirror and distance_off(point, *mirror) > SAME_POINT:
                yield ref.twinned().text, point.mirrored(*mirror)


def _corner(outline: OutlineLine, station: Station) -> PlacedCorner:
    kind: CornerKind = "fillet" if station.kind == "fillet" else "clip" if station.kind == "clip" else "sharp"
    run = outline.ring.part(station.start, station.end) if kind != "sharp" else None
    return PlacedCorner(station.name, station.point, kind, station.size, station.second_size, run)


def _dims(reader: Reader, piece: Piece) -> Iterator[PlacedDim]:
    for dim in piece.dims:
        start, end = reader.point(dim.line.start), reader.point(dim.line.end)
        yield PlacedDim(start, end, dim.how, dim.line.start.text, dim.line.end.text, dim.note)


# Features


@dataclass(frozen=True)
class _Made:
    """The geometry of one feature before its twin is asked for."""

    rings: tuple[Ring, ...]
    paths: tuple[Path, ...]
    holes: tuple[Hole, ...]
    spot: Spot | None
    sizes: Mapping[str, float]
    stitches: tuple[PlacedStitches, ...] = ()


def _features(
    lowered: Lowered,
    reader: Reader,
    part: ShapePart,
    piece: Piece,
    outline: OutlineLine,
    mirror: Mirror | None,
) -> Iterator[PlacedFeature]:
    if isinstance(part.work, TurnWork):
        yield from turned_features(reader, part, piece)
        return
    stitching = StitchPlacing(lowered.pattern, lowered.trade, reader, part, piece)
    made = _stitched(stitching) if part.stitch is not None else _make(reader, part, piece, outline)
    _expect_on_leather(reader, part, made, outline, piece)
    work = placed_work(reader, part, piece)
    yield _placed(part, made, part.name, work, is_twin=False)
    if mirror is None or part.once or is_joined(reader, part, piece):
        return
    twin = _mirrored(made, mirror)
    if any(line.is_pricked for line in made.stitches):
        twin = replace(twin, stitches=stitching.twins(made.stitches, mirror))
    if _is_same(made, twin, mirror):
        return
    if _crosses(made, mirror):
        raise Unbuildable(says.HALF_TWIN, part.span, name=part.name)
    twin = replace(twin, stitches=twin.stitches or stitching.twins(made.stitches, mirror))
    twin = replace(twin, holes=tuple(_other_holes(twin, made)))
    if part.kind in LETTERED and made.spot and twin.spot:
        along = degrees((mirror[1] - mirror[0]).angle)
        twin = replace(twin, spot=replace(twin.spot, direction=mirrored_reading(made.spot.direction, along)))
    yield _placed(part, twin, part.name + "'", work.mirrored(*mirror) if work else None, is_twin=True)


def _placed(part: ShapePart, made: _Made, name: str, work: PlacedWork | None, is_twin: bool) -> PlacedFeature:
    return PlacedFeature(
        name,
        part.kind,
        is_twin,
        part.kind in REMOVED,
        made.spot.center if made.spot else None,
        made.spot.direction if made.spot else None,
        made.rings,
        made.paths,
        made.holes,
        made.sizes,
        part.text if part.text is not None else (f"{{{part.roster}}}" if part.roster else None),
        part.note,
        work,
        made.stitches,
    )


def _stitched(stitching: StitchPlacing) -> _Made:
    """A stitch: its lines, but those that it is pricked through from, and the holes along them."""
    stitches = stitching.lines()
    lines = [one.layout.line for one in stitches if not one.is_pricked]
    return _Made(
        tuple(line for line in lines if isinstance(line, Ring)),
        tuple(line for line in lines if isinstance(line, Path)),
        (),
        spot_of(stitching.reader, stitching.part, stitching.piece),
        _sizes(stitching.reader, stitching.part),
        stitches,
    )


def _make(reader: Reader, part: ShapePart, piece: Piece, outline: OutlineLine) -> _Made:
    spot = spot_of(reader, part, piece)
    if isinstance(part.form, SpotForm):
        return _spot(reader, part, outline, spot)
    if isinstance(part.form, LinesForm):
        lines = [
            reader.values[LineRef(piece.name, part.name, False, index + 1).key]
            for index in range(len(part.form.starts))
        ]
        return _Made((), tuple(line.path for line in lines), (), spot, {})
    if isinstance(part.work, SlitWork):
        return _slit(reader, part, piece)
    line = reader.line_or_row(LineRef(piece.name, part.name))
    if isinstance(line, RowLine):
        sizes = {"holes": float(len(line.centers)), "apart": line.apart, "across": line.across}
        return _Made((), (), tuple(Hole(center, line.across) for center in line.centers), spot, sizes)
    if part.kind == "hole" and spot and isinstance(part.form, RoundForm):
        across = reader.number(part.form.across)
        return _Made((), (), (Hole(spot.center, across),), spot, {"across": across})
    edges = as_drawn(line).edges
    rings = tuple(edge for edge in edges if isinstance(edge, Ring))
    paths = tuple(edge for edge in edges if not isinstance(edge, Ring))
    return _Made(rings, paths, (), spot, _sizes(reader, part))


def _slit(reader: Reader, part: ShapePart, piece: Piece) -> _Made:
    slit = cuts_of(reader, part, piece)
    holes = tuple(Hole(hole.center, hole.across) for hole in slit.holes)
    return _Made((), slit.cuts, holes, None, {})


def _sizes(reader: Reader, part: ShapePart) -> dict[str, float]:
    sizes: dict[str, float] = {}
    match part.form:
        case SlotForm(long=long, wide=wide):
            sizes = {"long": reader.number(long), "wide": reader.number(wide)}
        case BoxForm(width=width, height=height):
            sizes = {"width": reader.number(width), "height": reader.number(height)}
        case RoundForm(across=across):
            sizes = {"across": reader.number(across)}
        case BandForm(distance=distance) if part.kind in STRIPS:
            sizes = {"wide": reader.number(distance)}
    if isinstance(part.work, StripWork) and part.wide is not None:
        sizes["wide"] = reader.number(part.wide)
    if part.rounded is not None:
        sizes["radius"] = reader.number(part.rounded)
    if part.high is not None:
        sizes["high"] = reader.number(part.high)
    return sizes


def _spot(reader: Reader, part: ShapePart, outline: OutlineLine, spot: Spot | None) -> _Made:
    """Marks, notches and lettering: a place, and for a notch the cut from the edge inward, which is its direction."""
    if spot is None:
        raise AssertionError("a spot has a place")
    sizes: dict[str, float] = {}
    if part.high is not None:
        sizes["high"] = positive(reader, part.high, part.name, "The height", part.span)
    if part.kind != "notch" or part.deep is None:
        return _Made((), (), (), spot, sizes)
    deep = positive(reader, part.deep, part.name, "The depth", part.span)
    wide = positive(reader, part.wide, part.name, "The width", part.span) if part.wide is not None else 0.0
    sizes["deep"] = deep
    if wide:
        sizes["wide"] = wide
    cut, inward = _notch(part, outline.ring, spot.center, deep, wide)
    return _Made((), (cut,), (), replace(spot, direction=degrees(inward.angle) % 360.0), sizes)


def _notch(part: ShapePart, ring: Ring, center: Point, deep: float, wide: float) -> tuple[Path, Vector]:
    """A cut straight in from the edge, and that way in; with a width a V whose point lies `deep` inside."""
    at = ring.locate(center)
    if at is None:
        _, nearest = ring.nearest(center)
        raise Unbuildable(
            says.NOTCH_OFF_EDGE, part.span, name=part.name, distance=mm(center.distance_to(nearest))
        )
    left = (ring.direction_at(at) + ring.direction_before(at)).turned_left().unit()
    inward = left if ring.is_anticlockwise else -left
    tip = center + inward * deep
    if not wide:
        return Path((Line(center, tip),)), inward
    return Path((Line(ring.point_at(at - wide / 2), tip), Line(tip, ring.point_at(at + wide / 2)))), inward


def _cut_notches(ring: Ring, features: list[PlacedFeature]) -> tuple[Ring, list[PlacedFeature]]:
    """The outline with its wide notches cut into it; they are then no lines of their own."""
    kept: list[PlacedFeature] = []
    for feature in features:
        if feature.kind == "notch" and "wide" in feature.sizes:
            ring = _cut_into(ring, feature.paths[0])
            feature = replace(feature, paths=())
        kept.append(feature)
    return ring, kept


def _cut_into(ring: Ring, notch: Path) -> Ring:
    """The ring with the short way between the ends of `notch` replaced by it."""
    start, end = ring.locate(notch.start), ring.locate(notch.end)
    if start is None or end is None:
        return ring
    if (end - start) % ring.length > ring.length / 2:
        return _cut_into(ring, notch.reversed())
    return Ring((*ring.part(end, start).legs, *notch.legs))


def _mirrored(made: _Made, mirror: Mirror) -> _Made:
    a, b = mirror
    spot = None
    if made.spot:
        along = degrees((b - a).angle)
        center = made.spot.center.mirrored(a, b)
        spot = Spot(center, (2 * along - made.spot.direction) % 360.0)
    return _Made(
        tuple(ring.mirrored(a, b).reversed() for ring in made.rings),
        tuple(path.mirrored(a, b) for path in made.paths),
        tuple(hole.mirrored(a, b) for hole in made.holes),
        spot,
        made.sizes,
    )


def _is_same(made: _Made, twin: _Made, mirror: Mirror) -> bool:
    """Whether a feature is its own twin: everything of it lies on itself when mirrored."""
    holes, twins = _hole_places(made), _hole_places(twin)
    same_holes = all(any(one.distance_to(other) < SAME_POINT for other in twins) for one in holes)
    lines = (*made.rings, *made.paths)
    same_lines = all(
        any(all(line.locate(point) is not None for point in _samples(other)) for line in lines)
        for other in (*twin.rings, *twin.paths)
    )
    is_spot = not (holes or made.rings or made.paths)
    same_spot = not is_spot or (
        made.spot is not None and distance_off(made.spot.center, *mirror) < SAME_POINT
    )
    return same_holes and same_lines and same_spot


def _hole_places(made: _Made) -> list[Point]:
    """Where it has holes; of stitches only those that are pricked, for the others their line tells."""
    pricked = [hole.point for one in made.stitches if one.is_pricked for hole in one.layout.holes]
    return [*(hole.center for hole in made.holes), *pricked]


def _other_holes(twin: _Made, made: _Made) -> Iterator[Hole]:
    """The holes of a twin without those on the mirror line, for two holes in one place are one."""
    for hole in twin.holes:
        if all(hole.center.distance_to(own.center) > SAME_POINT for own in made.holes):
            yield hole


def _samples(path: Walk) -> Iterator[Point]:
    """Places enough to tell one line from another: ends, middles and a third of each leg."""
    for leg in path.legs:
        yield from (leg.start, leg.point_at(leg.length / 3), leg.point_at(leg.length / 2), leg.end)


def _crosses(made: _Made, mirror: Mirror) -> bool:
    """Whether a feature has ground on both sides of the mirror line; a hole on the line is its own twin."""
    a, b = mirror
    along: Vector = (b - a).unit()
    offs = [
        along.cross(point - a)
        for path in (*made.rings, *made.paths)
        for leg in path.legs
        for point in extremes(leg, along.turned_left())
    ]
    offs += [
        along.cross(hole.center - a) + sign * hole.across / 2
        for hole in made.holes
        if distance_off(hole.center, a, b) > SAME_POINT
        for sign in (1, -1)
    ]
    return bool(offs) and min(offs) < -SAME_POINT and max(offs) > SAME_POINT


def _expect_on_leather(
    reader: Reader, part: ShapePart, made: _Made, outline: OutlineLine, piece: Piece
) -> None:
    """Nothing may be cut or marked off the piece."""
    leather = leather_of(reader, piece)
    off = _off_leather(part, made, leather)
    if off is None or (has_turns(piece) and _runs_off(part, made, leather)):
        return
    cut = next((cut for cut in piece.cuts if is_cut_off(reader, cut, piece, off)), None)
    if cut is not None:
        raise Unbuildable(
            says.LOST_GROUND,
            part.span,
            name=part.name,
            side=cut_side(cut),
            piece=piece.name,
            without=part.name,
        )
    distance, where = _farthest_off(made, leather, off)
    raise Unbuildable(
        says.AWAY_FROM_PIECE,
        part.span,
        name=part.name,
        piece=piece.name,
        distance=mm_at_least(distance),
        where=place(where),
    )


def _farthest_off(made: _Made, ring: Ring, off: Point) -> tuple[float, Point]:
    """How far a feature reaches off the piece, of all its corners and the middles of its legs, and where."""
    walks = (*made.rings, *made.paths)
    points = [
        off,
        *(
            point
            for walk in walks
            for leg in walk.legs
            for point in (leg.start, leg.point_at(leg.length / 2), leg.end)
        ),
    ]
    reaches = [(ring.distance_to_point(point), point) for point in points if not ring.contains(point)]
    for hole in made.holes:
        inwards = 1.0 if ring.contains(hole.center) else -1.0
        reaches.append((hole.across / 2 - inwards * ring.distance_to_point(hole.center), hole.center))
    return max(reaches, key=lambda one: (one[0], one[1].x, one[1].y), default=(0.0, off))


def _runs_off(part: ShapePart, made: _Made, leather: Ring) -> bool:
    """Whether a skived or glued strip along a turned edge is worked out over the line to cut: the knife runs off there,
    and at the corners of the turn no leather is left."""
    is_strip = isinstance(part.work, StripWork)
    return is_strip and any(
        leather.contains_strictly(point) for ring in made.rings for point in _samples(ring)
    )


def _off_leather(part: ShapePart, made: _Made, ring: Ring) -> Point | None:
    """A place of a feature that is not on the piece, if there is one."""
    for hole in made.holes:
        if not ring.contains(hole.center):
            return hole.center
        if ring.distance_to_point(hole.center) < hole.across / 2 - SAME_POINT:
            return ring.nearest(hole.center)[1]
    for path in (*made.rings, *made.paths):
        off = next((point for point in _between_crossings(path, ring) if not ring.contains(point)), None)
        if off is None and part.kind in REMOVED and isinstance(path, Ring):
            off = _crossing(path, ring)
        if off is not None:
            return off
    is_spot = isinstance(part.form, SpotForm) and made.spot is not None
    return made.spot.center if is_spot and made.spot and not ring.contains(made.spot.center) else None


def _between_crossings(path: Walk, ring: Ring) -> Iterator[Point]:
    """A place of each stretch of a path between two places where it meets the ring, so that none can hide outside."""
    met = [meeting[0] for meeting in path_intersections(path, ring)]
    lengths = sorted({0.0, path.length, *met, *path.starts})
    for start, end in pairwise(lengths):
        if end - start > SAME_POINT:
            yield path.point_at((start + end) / 2)


def _crossing(path: Ring, ring: Ring) -> Point | None:
    crossings = path_intersections(path, ring)
    return crossings[0][2] if crossings else None
