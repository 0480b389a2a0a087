"""Guides and features: from a bound form, a middle and a direction to lines and arcs.

Takes a ShapePart and a Reader; gives a Drawn, or several for a list of lines. Sizes must be more than nothing, an
offset must not break up, an open line has no inside: each is a message.
"""

from __future__ import annotations

from drafting.geometry.corners import round_corners
from drafting.geometry.curves import box, circle, obround
from drafting.geometry.edge_strips import edge_strip
from drafting.geometry.faults import GeometryFault
from drafting.geometry.largest import largest_that_fits
from drafting.geometry.line import Line
from drafting.geometry.maths import radians
from drafting.geometry.offset import band, offset_along, offset_path, offset_ring, round_path
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT, SMOOTH
from drafting.geometry.trim import lines_across
from drafting.model.expressions import Bound
from drafting.model.pattern import (
    AlongForm,
    BandForm,
    BoundStretch,
    BoundWay,
    BoxForm,
    Choice,
    Form,
    LineRef,
    LinesForm,
    OffsetForm,
    PathForm,
    Piece,
    PointRef,
    RoundForm,
    RowForm,
    ShapePart,
    SlotForm,
    ThroughForm,
)
from drafting.records import dataclass, replace
from drafting.solve.amounts import mm, mm_at_most, place, plain
from drafting.solve.legs import Leg, build_leg
from drafting.solve.lines import Drawn, OutlineLine, RowLine, Swing, Unbuildable
from drafting.solve.outlines import distance_off, inside_is_left, mirror_points, rough_ring
from drafting.solve.reading import Reader
from drafting.solve.ways import build_way
from drafting.text.catalogue import shapes as says
from drafting.text.source import Span

ORIGIN = Point(0.0, 0.0)
AREAS = ("opening", "skive", "glue")
"""Kinds that are a piece of ground; a skived or glued one may also be a strip along an open line, by its width."""
ONE_EDGED = ("outline", "opening", "guide")
"""What is cut along its edge, or drafted against, has one edge only."""
MOST_HOLES = 10_000
"""More holes than any row on leather has; a slip of the keyboard must not make millions."""


@dataclass(frozen=True)
class Spot:
    """Where a placed form has its middle, and how it lies (degrees)."""

    center: Point
    direction: float


def build_shape(reader: Reader, part: ShapePart, piece: Piece, spot: Spot | None) -> Drawn:
    """The one line or ring of a part; `spot` is given for the forms that are placed."""
    drawn = _build_form(reader, part, part.form, piece, spot)
    if part.rounded is not None:
        drawn = rounded_line(reader, part, drawn)
    return _shortened(reader, part, drawn) if part.short else drawn


def positive(reader: Reader, bound: Bound, part_name: str, what: str, span: Span) -> float:
    amount = reader.number(bound)
    if amount <= SAME_POINT:
        raise Unbuildable(says.NOT_POSITIVE, span, what=what, name=part_name, amount=mm(amount))
    return amount


def _build_form(reader: Reader, part: ShapePart, form: Form, piece: Piece, spot: Spot | None) -> Drawn:
    center = spot.center if spot else ORIGIN
    angle = radians(spot.direction) if spot else 0.0
    match form:
        case PathForm():
            return _path(reader, part, form, piece)
        case BoxForm(width=width, height=height):
            wide = positive(reader, width, part.name, "The width", form.span)
            high = positive(reader, height, part.name, "The height", form.span)
            return _box(center, wide, high, angle)
        case RoundForm(across=across):
            return Drawn(
                circle(center, positive(reader, across, part.name, "The size across", form.span) / 2)
            )
        case SlotForm():
            return _slot(reader, part, form, center, angle)
        case OffsetForm():
            return _offset(reader, part, form)
        case BandForm():
            return _band(reader, part, form)
        case AlongForm(way=BoundStretch() as stretch):
            return _straight(reader, stretch.start, stretch.end, form.span)
        case AlongForm(way=BoundWay() as way):
            return build_way(reader, way)
        case ThroughForm():
            return _through(reader, form, piece)
    raise AssertionError(f"{part.kind} has no single line")


def _box(center: Point, width: float, height: float, angle: float) -> Drawn:
    ring = box(center, width, height, angle)
    corners = {}
    for name, x, y in (
        ("top_left", -1, 1),
        ("top_right", 1, 1),
        ("bottom_left", -1, -1),
        ("bottom_right", 1, -1),
    ):
        corners[name] = (center + Vector(x * width / 2, y * height / 2)).turned(angle, center)
    return Drawn(ring, None, corners)


def _slot(reader: Reader, part: ShapePart, form: SlotForm, center: Point, angle: float) -> Drawn:
    long = positive(reader, form.long, part.name, "The length", form.span)
    wide = positive(reader, form.wide, part.name, "The width", form.span)
    if long <= wide:
        raise Unbuildable(says.SLOT_TOO_WIDE, form.span, name=part.name, long=mm(long), wide=mm(wide))
    return Drawn(obround(center, long, wide, angle))


def _straight(reader: Reader, start: PointRef, end: PointRef, span: Span) -> Drawn:
    a, b = reader.point(start), reader.point(end)
    if a.distance_to(b) < SAME_POINT:
        raise Unbuildable(says.POINT_LIKE, span, first=start.text, second=end.text)
    return Drawn(Path((Line(a, b),)))


def build_lines(reader: Reader, part: ShapePart, form: LinesForm) -> list[Drawn]:
    lines = [
        _straight(reader, start, end, form.span) for start, end in zip(form.starts, form.ends, strict=True)
    ]
    return [_shortened(reader, part, line) if part.short else line for line in lines]


def build_row(reader: Reader, part: ShapePart, form: RowForm, spot: Spot) -> RowLine:
    """Round holes evenly along the direction, placed by the middle of the row."""
    count = whole_count(reader, form.holes, part.name, form.span)
    apart = (
        positive(reader, form.apart, part.name, "The distance between the holes", form.span)
        if count > 1
        else 0.0
    )
    across = positive(reader, form.across, part.name, "The size across", form.span)
    along = Vector.at_angle(radians(spot.direction))
    first = -(count - 1) / 2
    centers = tuple(spot.center + along * ((first + index) * apart) for index in range(count))
    return row_line(spot.center, centers, apart, across)


def row_line(center: Point, centers: tuple[Point, ...], apart: float, across: float) -> RowLine:
    return RowLine(center, centers, tuple(circle(hole, across / 2) for hole in centers), apart, across)


def whole_count(reader: Reader, bound: Bound, name: str, span: Span) -> int:
    """How many holes there are to be; a message where that is no whole number."""
    count = reader.number(bound)
    if not 1 <= count <= MOST_HOLES or count != int(count):
        raise Unbuildable(says.COUNT_NOT_WHOLE, span, name=name, count=plain(count))
    return int(count)


# Paths


def _path(reader: Reader, part: ShapePart, form: PathForm, piece: Piece) -> Drawn:
    """The path of an area closes; any other is open unless it comes back to where it began."""
    closes = reader.point(form.start).distance_to(reader.point(form.legs[-1].to)) < SAME_POINT
    if part.kind in AREAS and not (part.kind != "opening" and part.wide is not None):
        on_mirror = piece.mirror is not None and not part.once and _ends_on_mirror(reader, form, piece)
        rough = rough_ring(reader, form, piece if on_mirror else replace(piece, mirror=None))
        names = {name: leg.start for name, leg in zip(rough.names, rough.legs, strict=True) if name}
        return Drawn(rough.ring, None, names, rough.swings)
    legs: list[Leg] = []
    swings: list[Swing] = []
    here, name = reader.point(form.start), form.start.text
    is_left = inside_is_left(reader, form, None) if closes else None
    for leg in form.legs:
        run = build_leg(reader, leg, name, here, legs[-1] if legs else None, is_left)
        legs.extend(run.legs)
        swings.extend(run.swings)
        here, name = reader.point(leg.to), leg.to.text
    path = Ring(tuple(legs)) if closes and len(legs) > 1 else Path(tuple(legs))
    crossings = path.self_intersections()
    if crossings:
        raise Unbuildable(says.CROSSES_ITSELF, form.span, what=f"`{part.name}`", place=place(crossings[0]))
    return Drawn(path, None, {}, tuple(swings))


def _ends_on_mirror(reader: Reader, form: PathForm, piece: Piece) -> bool:
    if piece.mirror is None:
        return False
    mirror = mirror_points(reader, piece.mirror)
    ends = (reader.point(form.start), reader.point(form.legs[-1].to))
    return all(distance_off(end, *mirror) < SAME_POINT for end in ends)


# Offsets


def _offset(reader: Reader, part: ShapePart, form: OffsetForm) -> Drawn:
    distance = positive(reader, form.distance, part.name, "The offset", form.span)
    way = build_way(reader, form.way)
    try:
        if form.side == "beside":
            return _beside(reader, form, way, distance)
        if form.side == "round":
            return Drawn(_round(form, way, distance))
        return _in_or_out(form, way, distance)
    except GeometryFault as fault:
        raise _offset_breaks(reader, fault, form, distance) from None


def _offset_breaks(
    reader: Reader, fault: GeometryFault, form: OffsetForm | BandForm, distance: float
) -> Unbuildable:
    at = getattr(fault, "place", None)
    corner = _nearest_corner(reader, form.way, at) if at else None
    return breaks_up(fault, form.span, distance, form.side, form.way.span.text, corner)


def breaks_up(
    fault: GeometryFault, span: Span, distance: float, side: str, way: str, corner: str | None = None
) -> Unbuildable:
    at = getattr(fault, "place", None)
    largest = getattr(fault, "largest", None)
    return Unbuildable(
        says.OFFSET_BREAKS,
        span,
        distance=mm(distance),
        side=side,
        way=" ".join(way.split()),
        where=(f" near {place(at)}" if at else "") + (f", by its corner `{corner}`" if corner else ""),
        mend=f"The largest that fits is {mm_at_most(largest)}." if largest else "Take less, or another way.",
    )


def _nearest_corner(reader: Reader, way: BoundWay, at: Point) -> str | None:
    """Of the ring that a way goes along, the named corner nearest to a place; none where two are as near."""
    ref = way.ring or way.line
    line = reader.line(ref) if ref else None
    if isinstance(line, OutlineLine):
        corners = {station.name: station.point for station in line.stations}
    else:
        corners = dict(line.corners) if line else {}
    near = sorted((point.distance_to(at), name) for name, point in corners.items())
    if not near or (len(near) > 1 and near[1][0] - near[0][0] < SAME_POINT):
        return None
    return near[0][1]


def _in_or_out(form: OffsetForm, way: Drawn, distance: float) -> Drawn:
    if isinstance(way.path, Ring):
        signed = distance if form.side == "outside" else -distance
        return Drawn(offset_ring(way.path, signed))
    if way.walked is None:
        name = " ".join(form.way.span.text.split())
        raise Unbuildable(says.OPEN_HAS_NO_INSIDE, form.span, way=name, distance=mm(distance))
    walked = way.walked
    path = offset_along(walked.ring, walked.start, walked.end, distance, form.side == "inside")
    return Drawn(path if walked.forward else path.reversed())


def _round(form: OffsetForm, way: Drawn, distance: float) -> Ring:
    if isinstance(way.path, Ring):
        return offset_ring(way.path, distance)
    return round_path(way.path, distance)


def _beside(reader: Reader, form: OffsetForm, way: Drawn, distance: float) -> Drawn:
    """Both sides are made; the choice says which is meant."""
    name = " ".join(form.way.span.text.split())
    if isinstance(way.path, Ring):
        raise Unbuildable(says.RING_BESIDE, form.span, way=name, distance=mm(distance))
    if form.choice is None:
        raise AssertionError("the binder lets no beside pass without its side")
    choice = form.choice
    left = [side for side in (True, False) if _is_on_side(reader, form, choice, way.path, distance, side)]
    if len(left) != 1:
        raise Unbuildable(
            says.EITHER_SIDE,
            choice.span,
            choice=" ".join(choice.span.text.split()),
            which="both" if left else "neither of the",
            way=name,
            suggestion=_side_of(way.path, name),
        )
    return Drawn(offset_path(way.path, distance if left[0] else -distance))


def _side_of(path: Path, name: str) -> str:
    """A choice that tells the two sides of a line apart."""
    normal = path.direction_at(path.length / 2).turned_left()
    word = "above" if abs(normal.y) > abs(normal.x) else "right of"
    return f"{word} {name}"


def _is_on_side(
    reader: Reader, form: OffsetForm, choice: Choice, path: Path, distance: float, is_left: bool
) -> bool:
    """Whether a choice holds for the line on one side, judged where the middle of the way comes to lie."""
    middle = path.midpoint
    normal = path.direction_at(path.length / 2).turned_left() * distance
    here, there = (middle + normal, middle - normal) if is_left else (middle - normal, middle + normal)
    first = choice.operands[0]
    if choice.kind in ("inside", "outside") and isinstance(first, LineRef):
        ring = reader.line(first).path
        if not isinstance(ring, Ring):
            raise Unbuildable(says.OPEN_HAS_NO_INSIDE, choice.span, way=first.text, distance=mm(distance))
        return ring.contains(here) == (choice.kind == "inside")
    if len(choice.operands) == 2:
        return _is_beside_stretch(reader, choice, here)
    mark = _mark(reader, form, choice, middle)
    if choice.kind in ("nearest", "farthest from"):
        nearer = there.distance_to(mark) - here.distance_to(mark)
        return nearer > SAME_POINT if choice.kind == "nearest" else nearer < -SAME_POINT
    off = here - mark
    return {"above": off.y, "below": -off.y, "right of": off.x, "left of": -off.x}[choice.kind] > SAME_POINT


def _mark(reader: Reader, form: OffsetForm, choice: Choice, middle: Point) -> Point:
    """What a choice compares with: a point, the middle of the way itself, or the nearest place of another line."""
    operand = choice.operands[0]
    if isinstance(operand, PointRef):
        return reader.point(operand)
    if operand == form.way.line:
        return middle
    _, nearest = reader.line(operand).path.nearest(middle)
    return nearest


def _is_beside_stretch(reader: Reader, choice: Choice, place: Point) -> bool:
    """Above a line is above the place of the line straight below, and so on."""
    start, end = (reader.point(operand) for operand in choice.operands if isinstance(operand, PointRef))
    along = end - start
    if choice.kind in ("above", "below"):
        if abs(along.x) < SAME_POINT:
            return False
        off = place.y - (start.y + along.y * (place.x - start.x) / along.x)
        return off > SAME_POINT if choice.kind == "above" else off < -SAME_POINT
    if abs(along.y) < SAME_POINT:
        return False
    off = place.x - (start.x + along.x * (place.y - start.y) / along.y)
    return off > SAME_POINT if choice.kind == "right of" else off < -SAME_POINT


def _band(reader: Reader, part: ShapePart, form: BandForm) -> Drawn:
    distance = positive(reader, form.distance, part.name, "The width of the band", form.span)
    way = build_way(reader, form.way)
    if way.walked is None:
        name = " ".join(form.way.span.text.split())
        if isinstance(way.path, Ring):
            return _band_all_round(reader, part, form, way.path, distance)
        raise Unbuildable(says.OPEN_HAS_NO_INSIDE, form.span, way=name, distance=mm(distance))
    walked = way.walked
    try:
        make = edge_strip if part.kind in ("skive", "glue") else band
        strip = make(walked.ring, walked.start, walked.end, distance, form.side == "inside")
    except GeometryFault as fault:
        raise _offset_breaks(reader, fault, form, distance) from None
    corners = {
        "near_start": strip.near_start,
        "near_end": strip.near_end,
        "far_start": strip.far_start,
        "far_end": strip.far_end,
    }
    if not walked.forward:
        swap = {
            "near_start": "near_end",
            "near_end": "near_start",
            "far_start": "far_end",
            "far_end": "far_start",
        }
        corners = {swap[name]: point for name, point in corners.items()}
    return Drawn(strip.ring, None, corners)


def _band_all_round(reader: Reader, part: ShapePart, form: BandForm, ring: Ring, distance: float) -> Drawn:
    """What lies between a ring and its offset; only a feature may have two edges."""
    if part.kind in ONE_EDGED:
        name = " ".join(form.way.span.text.split())
        what = f"an {part.kind}" if part.kind[0] in "aeiou" else f"a {part.kind}"
        facts = {"way": name, "distance": mm(distance), "side": form.side, "what": what}
        raise Unbuildable(says.RING_BAND, form.span, **facts)
    try:
        other = offset_ring(ring, distance if form.side == "outside" else -distance)
    except GeometryFault as fault:
        raise _offset_breaks(reader, fault, form, distance) from None
    return Drawn(other, inner=ring) if form.side == "outside" else Drawn(ring, inner=other)


def _through(reader: Reader, form: ThroughForm, piece: Piece) -> Drawn:
    """The level or plumb line through a point, from edge to edge."""
    ring = reader.line(LineRef(piece.name, "outline")).path
    point = reader.point(form.point)
    direction = Vector(1.0, 0.0) if form.how == "level" else Vector(0.0, 1.0)
    if not isinstance(ring, Ring):
        raise AssertionError("an outline is a ring")
    for path in lines_across(ring, point, direction):
        if path.locate(point) is not None:
            return Drawn(path)
    raise Unbuildable(says.NOT_INSIDE, form.span, point=form.point.text, how=form.how)


# Finishing


def rounded_line(reader: Reader, part: ShapePart, drawn: Drawn) -> Drawn:
    """All corners of a ring, or of a slit, rounded alike."""
    if part.rounded is None:
        return drawn
    radius = positive(reader, part.rounded, part.name, "The rounding", part.span)
    path = drawn.path
    if not isinstance(path, Ring) and part.kind != "slit":
        raise Unbuildable(says.OPEN_NOT_ROUNDED, part.span, name=part.name, by=mm(radius))
    if all(abs(turn) <= SMOOTH for turn in path.turns):
        raise Unbuildable(says.NO_CORNERS, part.span, name=part.name, by=mm(radius))
    try:
        inner = round_corners(drawn.inner, radius) if drawn.inner else None
        return replace(drawn, path=_with_corners(path, radius), inner=inner)
    except GeometryFault:
        largest = largest_that_fits(lambda smaller: _can_round(drawn, smaller), radius, SAME_POINT)
    most = f"The largest that fits is {mm_at_most(largest)}." if largest else "Take it out."
    raise Unbuildable(says.ROUNDED_TOO_MUCH, part.span, name=part.name, by=mm(radius), mend=most)


def _with_corners(line: Path | Ring, radius: float) -> Path | Ring:
    if isinstance(line, Ring):
        return round_corners(line, radius)
    return round_corners(line, radius)


def _can_round(drawn: Drawn, radius: float) -> bool:
    try:
        for edge in drawn.edges:
            _with_corners(edge, radius)
    except GeometryFault:
        return False
    return True


def _shortened(reader: Reader, part: ShapePart, drawn: Drawn) -> Drawn:
    if isinstance(drawn.path, Ring):
        raise Unbuildable(says.RING_SHORT, part.span, name=part.name)
    cut = {end: reader.number(amount) for end, amount in part.short}
    start, end = cut.get("start", 0.0), cut.get("end", 0.0)
    length = drawn.path.length
    if start + end >= length - SAME_POINT:
        raise Unbuildable(says.TOO_SHORT, part.span, name=part.name, length=mm(length), short=mm(start + end))
    walked = None
    if drawn.walked:
        walked = replace(
            drawn.walked,
            start=drawn.walked.start + (start if drawn.walked.forward else end),
            end=drawn.walked.end - (end if drawn.walked.forward else start),
        )
    return replace(drawn, path=drawn.path.part(start, length - end), walked=walked)
