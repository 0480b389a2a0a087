"""The outline of a piece: legs, then the mirror, then cuts, then rounded corners.

Takes the bound outline and a Reader; gives an OutlineLine, the whole ring with its named stations. On a mirrored piece
one half is drafted and the other is its twin. Corners are rounded last, on the whole ring, so that a corner on the
mirror line is rounded once and the others alike on both sides.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.geometry.corners import ClipBy, RoundBy, shape_corners
from drafting.geometry.faults import CornersMeet, CutFallsApart, GeometryFault, NoCorner
from drafting.geometry.largest import largest_that_fits
from drafting.geometry.line import Line
from drafting.geometry.maths import atan2, degrees
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.geometry.trim import cut_ring
from drafting.model.pattern import BoundStretch, CornerPart, CutAwayPart, PathForm, Piece, PointRef
from drafting.records import dataclass, replace
from drafting.solve.amounts import mm, mm_at_most, place
from drafting.solve.legs import Leg, build_leg
from drafting.solve.lines import OutlineLine, Station, Swing, Unbuildable
from drafting.solve.reading import Reader, straight
from drafting.text.catalogue import shapes as says
from drafting.text.source import Span

STRAIGHT_ON_MIRROR = 30.0
"""Corners on the mirror line flatter than this (degrees off straight) are reported, as the language says."""


NOTHING_MUCH = 0.001
"""A rounded corner smaller than this (mm) is none that a maker would want."""


@dataclass(frozen=True)
class Rough:
    """A ring before its corners are rounded: its legs, and the name of the place where each begins, if it has one."""

    legs: tuple[Leg, ...]
    names: tuple[str | None, ...]
    swings: tuple[Swing, ...] = ()

    @property
    def ring(self) -> Ring:
        return Ring(self.legs)

    def index(self, name: str) -> int | None:
        return self.names.index(name) if name in self.names else None

    def point(self, name: str) -> Point | None:
        index = self.index(name)
        return None if index is None else self.legs[index].start


def twin_name(name: str) -> str:
    """`heel` to `heel'` and back; `view.top` to `view'.top`."""
    head, dot, part = name.partition(".")
    head = head[:-1] if head.endswith("'") else head + "'"
    return head + dot + part


def mirror_points(reader: Reader, mirror: BoundStretch) -> tuple[Point, Point]:
    straight(reader, mirror, "The mirror line")
    return reader.point(mirror.start), reader.point(mirror.end)


# From a path form to a ring


def rough_ring(reader: Reader, form: PathForm, piece: Piece) -> Rough:
    """The ring that a path of legs makes, before cuts and rounded corners."""
    mirror = mirror_points(reader, piece.mirror) if piece.mirror else None
    is_left = inside_is_left(reader, form, mirror)
    half = _walk(reader, form, is_left, closed=mirror is None)
    if mirror is None or piece.mirror is None:
        return _refuse_crossing(half, form.span, "The outline")
    _expect_on_mirror(reader, form, piece, piece.mirror, mirror)
    return _refuse_crossing(_with_twin(half, form, mirror), form.span, "The outline")


def inside_is_left(reader: Reader, form: PathForm, mirror: tuple[Point, Point] | None) -> bool | None:
    """On which side of the walk the inside lies, judged on the corners with bows ignored; None when they enclose
    nothing."""
    corners = [reader.point(form.start), *(reader.point(leg.to) for leg in form.legs)]
    if mirror:
        corners += [corner.mirrored(*mirror) for corner in reversed(corners)]
    area = sum(p.x * q.y - q.x * p.y for p, q in zip(corners, [*corners[1:], corners[0]], strict=True))
    size = max((p.distance_to(corners[0]) for p in corners), default=0.0)
    if abs(area) <= SAME_POINT * max(size, SAME_POINT):
        return None
    return area > 0


def _walk(reader: Reader, form: PathForm, is_left: bool | None, closed: bool) -> Rough:
    """The legs in order, each with the name of the place where it begins."""
    legs: list[Leg] = []
    names: list[str | None] = []
    swings: list[Swing] = []
    here, name = reader.point(form.start), form.start.text
    for leg in form.legs:
        run = build_leg(reader, leg, name, here, legs[-1] if legs else None, is_left)
        passed = {index: passed_name for passed_name, index in run.passed}
        names.append(name)
        names.extend(passed.get(index) for index in range(1, len(run.legs)))
        legs.extend(run.legs)
        swings.extend(run.swings)
        here, name = reader.point(leg.to), leg.to.text
    if closed and here.distance_to(legs[0].start) > SAME_POINT:
        legs.append(Line(here, legs[0].start))
        names.append(name)
    elif not closed:
        names.append(name)
    return Rough(tuple(legs), tuple(names), tuple(swings))


def _expect_on_mirror(
    reader: Reader, form: PathForm, piece: Piece, line: BoundStretch, mirror: tuple[Point, Point]
) -> None:
    """A mirrored piece's outline starts and ends on the mirror line."""
    last = form.legs[-1].to
    for ref, does, lead in ((form.start, "starts", f"{_mirror_end(line, last)} to"), (last, "ends", "")):
        off = distance_off(reader.point(ref), *mirror)
        if off > SAME_POINT:
            other = _mirror_end(line, form.start)
            mend = (
                f"Start it on the line: begin with `{lead}`."
                if does == "starts"
                else f"End it on the line: add `to {other}`."
            )
            raise Unbuildable(
                says.OFF_MIRROR,
                form.span,
                piece=piece.name,
                does=does,
                point=ref.text,
                distance=mm(off),
                line=f"{line.start.text}..{line.end.text}",
                mend=mend,
            )


def _mirror_end(line: BoundStretch, other: PointRef) -> str:
    """The end of the mirror line that is not already taken."""
    return line.end.text if other == line.start else line.start.text


def distance_off(point: Point, a: Point, b: Point) -> float:
    along = b - a
    return abs(along.cross(point - a)) / along.length


def _with_twin(half: Rough, form: PathForm, mirror: tuple[Point, Point]) -> Rough:
    """The half and its twin, walked on from the half's end back to its start."""
    twin_legs = tuple(leg.mirrored(*mirror).reversed() for leg in reversed(half.legs))
    inner = [None if name is None else twin_name(name) for name in half.names[1:-1]]
    names = (*half.names[:-1], half.names[-1], *reversed(inner))
    return Rough(half.legs + twin_legs, names, half.swings)


def _refuse_crossing(rough: Rough, span: Span, what: str) -> Rough:
    crossings = rough.ring.self_intersections()
    if crossings:
        raise Unbuildable(says.CROSSES_ITSELF, span, what=what, place=place(crossings[0]))
    return rough


def rough_of_ring(ring: Ring, names: dict[str, Point]) -> Rough:
    """A ready ring with names put to its corners."""
    found: list[str | None] = []
    for leg in ring.legs:
        found.append(
            next((name for name, point in names.items() if point.distance_to(leg.start) < SAME_POINT), None)
        )
    return Rough(ring.legs, tuple(found))


# Cuts


def cut_rough(reader: Reader, rough: Rough, cut: CutAwayPart, piece: Piece) -> Rough:
    """Take away what lies on one side of a line, on a mirrored piece on both halves alike."""
    point, direction, keep_left = _cut_line(reader, cut)
    side = cut_side(cut)
    mirror = mirror_points(reader, piece.mirror) if piece.mirror else None
    weight = _drafted_side(rough, mirror)
    rough, made = _cut_once(rough, point, direction, keep_left, cut, piece, side)
    corners = list(made)
    if mirror:
        twin_point = point.mirrored(*mirror)
        twin_way = (point + direction).mirrored(*mirror) - twin_point
        if (
            abs(twin_way.cross(direction)) > SAME_POINT
            or abs(direction.cross(twin_point - point)) > SAME_POINT
        ):
            rough, more = _cut_once(rough, twin_point, twin_way, not keep_left, cut, piece, side)
            corners.extend(more)
    if abs(weight) < SAME_POINT:
        mirror = None
    return _name_new_corners(rough, corners, cut, mirror, weight, side)


def cut_side(cut: CutAwayPart) -> str:
    """What is cut away, in the words written: `above lip`."""
    return " ".join(cut.span.text.split()[2:]).split(" naming")[0]


def _cut_line(reader: Reader, cut: CutAwayPart) -> tuple[Point, Vector, bool]:
    """The line, and whether its left side stays. `above` takes away what is above."""
    if isinstance(cut.of, PointRef):
        level = cut.side in ("above", "below")
        direction = Vector(1.0, 0.0) if level else Vector(0.0, 1.0)
        return reader.point(cut.of), direction, cut.side in ("below", "right of")
    start, direction = reader.point(cut.of.start), straight(reader, cut.of, "The line").unit()
    left = direction.turned_left()
    across = {"above": left.y, "below": -left.y, "left of": left.x, "right of": -left.x}[cut.side]
    # The left of a plumb line walked upward lies at smaller x.
    taken_left = across > 0 if cut.side in ("above", "below") else across < 0
    if abs(across) < 1e-9:
        lies, sides = (
            ("level", "`above` or `below`")
            if cut.side in ("left of", "right of")
            else ("plumb", "`left of` or `right of`")
        )
        what = f"line `{' '.join(cut.of.span.text.split())}`"
        raise Unbuildable(says.NO_SUCH_SIDE, cut.span, what=what, lies=lies, toward=cut.side, sides=sides)
    return start, direction, not taken_left


def is_cut_off(reader: Reader, cut: CutAwayPart, piece: Piece, place_off: Point) -> bool:
    """Whether a place lies on the side that a cut takes away, on a mirrored piece on either half."""
    point, direction, keep_left = _cut_line(reader, cut)
    places = [place_off]
    if piece.mirror:
        places.append(place_off.mirrored(*mirror_points(reader, piece.mirror)))
    return any((direction.cross(off - point) > 0) != keep_left for off in places)


def _cut_once(
    rough: Rough, point: Point, direction: Vector, keep_left: bool, cut: CutAwayPart, piece: Piece, side: str
) -> tuple[Rough, tuple[Point, ...]]:
    try:
        result = cut_ring(rough.ring, point, direction, keep_left)
    except CutFallsApart as fault:
        parts = " and ".join(place(at) for at in fault.places)
        raise Unbuildable(says.CUT_FALLS_APART, cut.span, side=side, piece=piece.name, places=parts) from None
    except GeometryFault:
        raise Unbuildable(says.CUT_MISSES, cut.span, side=side, piece=piece.name) from None
    named = {name: leg.start for name, leg in zip(rough.names, rough.legs, strict=True) if name}
    return replace(rough_of_ring(result.ring, named), swings=rough.swings), tuple(result.new_corners)


def _name_new_corners(
    rough: Rough,
    corners: Sequence[Point],
    cut: CutAwayPart,
    mirror: tuple[Point, Point] | None,
    weight: float,
    side: str,
) -> Rough:
    """Each new corner of the drafted half takes a name, in the order of the outline; its twin takes the
    twin's. A corner
    that was there already keeps its own."""
    in_order = [
        leg.start
        for name, leg in zip(rough.names, rough.legs, strict=True)
        if name is None and any(leg.start.distance_to(corner) < SAME_POINT for corner in corners)
    ]
    drafted = in_order if mirror is None else _drafted_half(in_order, mirror, weight)
    if len(drafted) != len(cut.naming):
        names = [*cut.naming, *(f"corner_{index}" for index in range(1, len(drafted) + 1))]
        example = ", ".join(names[: len(drafted)])
        made = f"{len(drafted)} new corner{'s' * (len(drafted) != 1)}"
        given = f"{len(cut.naming)} {'is' if len(cut.naming) == 1 else 'are'}"
        if mirror:
            made += " on the drafted half"
        raise Unbuildable(says.CUT_NAMES, cut.span, side=side, made=made, given=given, example=example)
    named = {name: leg.start for name, leg in zip(rough.names, rough.legs, strict=True) if name}
    for name, corner in zip(cut.naming, drafted, strict=True):
        named[name] = corner
        if mirror and distance_off(corner, *mirror) > SAME_POINT:
            named[twin_name(name)] = corner.mirrored(*mirror)
    return replace(rough_of_ring(rough.ring, named), swings=rough.swings)


def _drafted_side(rough: Rough, mirror: tuple[Point, Point] | None) -> float:
    """On which side of the mirror line a piece is drafted, by its sign: told by the names that are no twins. Nought
    where both halves have names of their own, as those of a box."""
    if mirror is None:
        return 0.0
    a, b = mirror
    along = (b - a).unit()
    return sum(
        along.cross(leg.start - a)
        for name, leg in zip(rough.names, rough.legs, strict=True)
        if name and "'" not in name
    )


def _drafted_half(corners: list[Point], mirror: tuple[Point, Point], weight: float) -> list[Point]:
    """The corners on the drafted side of the mirror line, and those on it."""
    a, b = mirror
    along = b - a
    return [
        corner
        for corner in corners
        if along.cross(corner - a) * weight > 0 or distance_off(corner, a, b) < SAME_POINT
    ]


# Rounded corners and stations


def round_and_station(
    reader: Reader, rough: Rough, corners: Sequence[CornerPart], piece: Piece
) -> OutlineLine:
    """Carry out every fillet and clip at once, then say where along the ring each named place is."""
    parts: dict[int, CornerPart] = {}
    shapes: dict[int, RoundBy | ClipBy] = {}
    faults: list[Unbuildable] = []
    for part in corners:
        try:
            for name, is_twin in _corner_names(rough, part, piece):
                index = rough.names.index(name)
                parts[index] = part
                shapes[index] = _corner_shape(reader, part, is_twin)
        except Unbuildable as fault:
            faults.append(fault)
    if faults:
        faults[0].others = tuple(fault.message for fault in faults[1:])
        raise faults[0]
    try:
        ring, new_legs = shape_corners(rough.ring, shapes)
    except GeometryFault as fault:
        raise _does_not_fit(fault, reader, rough, parts, shapes) from None
    return _stationed(reader, rough, ring, new_legs, parts)


def _corner_names(rough: Rough, part: CornerPart, piece: Piece) -> list[tuple[str, bool]]:
    """The corner a fillet or clip speaks of, and its twin if it has one."""
    name = part.corner.part if part.corner.name == "outline" and part.corner.part else part.corner.name
    if name not in rough.names and piece.cuts:
        cut = piece.cuts[-1]
        raise Unbuildable(
            says.LOST_GROUND,
            part.span,
            name=name,
            side=cut_side(cut),
            piece=piece.name,
            without=f"fillet {name}",
        )
    if name not in rough.names:
        raise AssertionError(f"the binder lets nothing be {_done(part)} but corners of the outline")
    twin = twin_name(name)
    return [(name, False), (twin, True)] if piece.mirror and twin in rough.names else [(name, False)]


def _done(part: CornerPart) -> str:
    return "rounded" if part.kind == "fillet" else "clipped"


def _corner_sizes(reader: Reader, part: CornerPart) -> tuple[float, float]:
    by = reader.number(part.by)
    return by, reader.number(part.after) if part.after is not None else by


def _corner_shape(reader: Reader, part: CornerPart, is_twin: bool) -> RoundBy | ClipBy:
    """A twin's legs come in the other order, so its clip takes its two lengths the other way round. A box has no
    written order: its clips go so far along its width and so far along its height."""
    by, second = _corner_sizes(reader, part)
    if by <= 0 or second <= 0:
        what = f"The {part.kind}"
        raise Unbuildable(
            says.NOT_POSITIVE, part.span, what=what, name=part.corner.text, amount=mm(min(by, second))
        )
    if part.kind == "fillet":
        return RoundBy(by)
    height_first = part.corner.name == "outline" and part.corner.part in ("top_right", "bottom_left")
    return ClipBy(second, by) if is_twin or height_first else ClipBy(by, second)


def _does_not_fit(
    fault: GeometryFault,
    reader: Reader,
    rough: Rough,
    parts: dict[int, CornerPart],
    shapes: dict[int, RoundBy | ClipBy],
) -> Unbuildable:
    """The message for a corner without room: which, how large it is, and what would fit."""
    if isinstance(fault, CornersMeet):
        index = fault.second
    else:
        at = getattr(fault, "place", None)
        index = min(parts, key=lambda i: rough.legs[i].start.distance_to(at)) if at else next(iter(parts))
    part = parts[index]
    name = part.corner.part if part.corner.name == "outline" and part.corner.part else part.corner.name
    if isinstance(fault, NoCorner):
        return Unbuildable(says.NO_CORNER, part.span, corner=name, done=_done(part), kind=part.kind)
    by, second = _corner_sizes(reader, part)
    largest = largest_that_fits(
        lambda share: _fits(rough, parts, shapes, part, share), 1.0, SAME_POINT / max(by, second)
    )
    if largest is not None and min(by, second) * largest > NOTHING_MUCH:
        sizes = [mm_at_most(size * largest) for size in ((by, second) if part.after is not None else (by,))]
        asked = [mm(size) for size in ((by, second) if part.after is not None else (by,))]
        return Unbuildable(
            says.FILLET_TOO_LARGE,
            part.span,
            done=part.kind,
            by=" and ".join(asked),
            corner=name,
            mend=f"The largest that fits is {' and '.join(sizes)}.",
        )
    if not isinstance(fault, CornersMeet):
        mend = "No size fits there: take it out."
        return Unbuildable(
            says.FILLET_TOO_LARGE, part.span, done=part.kind, by=mm(by), corner=name, mend=mend
        )
    first = parts[fault.first]
    return Unbuildable(
        says.FILLETS_MEET,
        part.span,
        first=first.corner.part or first.corner.name,
        second=name,
        needs=mm(fault.needs),
        has=mm(fault.has),
    )


def _fits(
    rough: Rough,
    parts: dict[int, CornerPart],
    shapes: dict[int, RoundBy | ClipBy],
    asked: CornerPart,
    share: float,
) -> bool:
    """Whether all corners fit when those that one statement speaks of have only a share of their size."""
    tried = {
        index: _scaled(shape, share) if parts[index].by is asked.by else shape
        for index, shape in shapes.items()
    }
    try:
        shape_corners(rough.ring, tried)
    except GeometryFault:
        return False
    return True


def _scaled(shape: RoundBy | ClipBy, share: float) -> RoundBy | ClipBy:
    if isinstance(shape, RoundBy):
        return RoundBy(shape.radius * share)
    return ClipBy(shape.first * share, shape.second * share)


def _stationed(
    reader: Reader, rough: Rough, ring: Ring, new_legs: dict[int, Leg], parts: dict[int, CornerPart]
) -> OutlineLine:
    starts = {id(leg): start for leg, start in zip(ring.legs, ring.starts, strict=False)}
    stations: list[Station] = []
    sharp = {name: leg.start for name, leg in zip(rough.names, rough.legs, strict=True) if name}
    for index, name in enumerate(rough.names):
        if name is None:
            continue
        if index in new_legs:
            leg, part = new_legs[index], parts[index]
            start = starts[id(leg)]
            sizes = _corner_sizes(reader, part)
            stations.append(
                Station(
                    name, sharp[name], start, start + leg.length / 2, start + leg.length, part.kind, *sizes
                )
            )
            continue
        at = ring.locate(sharp[name])
        if at is not None:
            stations.append(Station(name, sharp[name], at, at, at))
    return OutlineLine(ring, tuple(sorted(stations, key=lambda station: station.start)), sharp, rough.swings)


# What is reported, not refused


def flat_mirror_corners(line: OutlineLine, mirror: tuple[Point, Point]) -> list[tuple[Station, float]]:
    """Corners on the mirror line that are nearly, but not quite, straight, with their angle off straight in degrees."""
    found = []
    for station in line.stations:
        if station.kind != "sharp" or distance_off(station.point, *mirror) > SAME_POINT:
            continue
        before = line.ring.part(station.mid - min(1e-3, line.ring.length / 10), station.mid)
        arriving = before.direction_at(before.length)
        leaving = line.ring.direction_at(station.mid)
        off = degrees(abs(_turn(arriving, leaving)))
        if 0.01 < off < STRAIGHT_ON_MIRROR:
            found.append((station, off))
    return found


def _turn(arriving: Vector, leaving: Vector) -> float:
    return atan2(arriving.cross(leaving), arriving.dot(leaving))


def is_own_mirror(ring: Ring, a: Point, b: Point) -> bool:
    """Whether a ring is the same on both sides of a line: every corner and middle of a leg has its twin on it."""
    samples = [leg.point_at(leg.length * share) for leg in ring.legs for share in (0.0, 0.37, 0.5)]
    return all(ring.locate(point.mirrored(a, b)) is not None for point in samples)
