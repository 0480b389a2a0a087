"""Ways along a line: a whole line, or a walk on the outline or a ring from place to place.

Takes a bound way and a Reader; gives a Drawn. Between neighbours the way round is plain; elsewhere the walk passes the
named places in their order, and where no way or two ways do, it is a message.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.geometry.path import Path, Ring
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.pattern import BoundWay, PointRef
from drafting.records import dataclass
from drafting.solve.amounts import mm
from drafting.solve.lines import Drawn, OutlineLine, Unbuildable, Walked
from drafting.solve.reading import Reader
from drafting.text.catalogue import shapes as says


@dataclass(frozen=True)
class _Course:
    """A ring, and its named places by length along it."""

    ring: Ring
    places: tuple[tuple[str, float], ...]
    name: str


def build_way(reader: Reader, way: BoundWay) -> Drawn:
    if way.line is not None:
        return _with_one_edge(way, as_drawn(reader.line(way.line)), way.line.text)
    if way.ring is None or way.start is None or way.end is None:
        raise AssertionError("a walk has a ring and two ends")
    line = reader.line(way.ring)
    _with_one_edge(way, as_drawn(line), way.ring.text)
    if not isinstance(line.path, Ring):
        return _walk_open(reader, way, line.path)
    course = _course(line, line.path, way.ring.text)
    start, end = (
        _length_at(reader, way, course, line, way.start),
        _length_at(reader, way, course, line, way.end),
    )
    passed = [_length_at(reader, way, course, line, ref) for ref in way.round]
    forward = _choose_way(way, course, start, end, passed)
    if forward:
        return Drawn(course.ring.part(start, end), Walked(course.ring, start, end, True))
    return Drawn(course.ring.part(end, start).reversed(), Walked(course.ring, end, start, False))


def _with_one_edge(way: BoundWay, line: Drawn, name: str) -> Drawn:
    if line.inner is not None:
        raise Unbuildable(says.TWO_EDGES, way.span, way=name)
    return line


def as_drawn(line: Drawn | OutlineLine) -> Drawn:
    return line.drawn if isinstance(line, OutlineLine) else line


def _course(line: Drawn | OutlineLine, ring: Ring, name: str) -> _Course:
    if isinstance(line, OutlineLine):
        return _Course(ring, tuple((station.name, station.mid) for station in line.stations), name)
    places = [(corner, ring.locate(point)) for corner, point in line.corners.items()]
    return _Course(ring, tuple((corner, at) for corner, at in places if at is not None), name)


def _walk_open(reader: Reader, way: BoundWay, path: Path) -> Drawn:
    """Between two points of an open line there is one way only."""
    if way.start is None or way.end is None or way.ring is None:
        raise AssertionError("a walk has a line and two ends")
    lengths = []
    for ref in (way.start, way.end):
        point = reader.point(ref)
        at, nearest = path.nearest(point)
        if point.distance_to(nearest) > SAME_POINT:
            raise Unbuildable(
                says.NOT_ON_RING,
                way.span,
                point=ref.text,
                ring=f"`{way.ring.text}`",
                line=way.ring.text,
                distance=mm(point.distance_to(nearest)),
            )
        lengths.append(at)
    start, end = lengths
    if abs(start - end) < SAME_POINT:
        raise Unbuildable(says.POINT_LIKE, way.span, first=way.start.text, second=way.end.text)
    return Drawn(path.part(start, end) if start < end else path.part(end, start).reversed())


def _length_at(
    reader: Reader, way: BoundWay, course: _Course, line: Drawn | OutlineLine, ref: PointRef
) -> float:
    """Where along the ring a place is: a station by name, any other point by where it lies."""
    if isinstance(line, OutlineLine):
        station = line.station(_station_name(ref))
        if station:
            return station.at(_part_walked(ref))
    point = reader.point(ref)
    at = course.ring.locate(point)
    if at is None:
        _, nearest = course.ring.nearest(point)
        name = "the outline" if course.name == "outline" else f"`{course.name}`"
        raise Unbuildable(
            says.NOT_ON_RING,
            way.span,
            point=ref.text,
            ring=name,
            line=course.name,
            distance=mm(point.distance_to(nearest)),
        )
    return at


def _station_name(ref: PointRef) -> str:
    """The name that a corner has among the stations of its outline."""
    return str(ref.part) if ref.name == "outline" else ref.name + ("'" if ref.twin else "")


def _part_walked(ref: PointRef) -> str | None:
    """The part of a station that a name means: a twin is walked the other way, so it starts where its twin ends."""
    return {"start": "end", "end": "start"}.get(ref.part or "", ref.part) if ref.twin else ref.part


def _choose_way(way: BoundWay, course: _Course, start: float, end: float, passed: Sequence[float]) -> bool:
    """Whether the walk goes forward; exactly one direction must be meant."""
    if way.start is None or way.end is None:
        raise AssertionError("a walk has two ends")
    length = course.ring.length
    ahead = (end - start) % length
    if ahead < SAME_POINT or length - ahead < SAME_POINT:
        raise Unbuildable(says.POINT_LIKE, way.span, first=way.start.text, second=way.end.text)
    if passed:
        return _way_past(way, course, start, [(at - start) % length for at in passed], ahead)
    own = {_station_name(way.start), _station_name(way.end)}  # a rounding's own corner is no place between
    between = [(at - start) % length for name, at in course.places if name not in own]
    forward_clear = not any(SAME_POINT < at < ahead - SAME_POINT for at in between)
    backward_clear = not any(ahead + SAME_POINT < at < length - SAME_POINT for at in between)
    if forward_clear != backward_clear:
        return forward_clear
    raise _two_ways(way, course, start, ahead)


def _way_past(way: BoundWay, course: _Course, start_at: float, passed: Sequence[float], ahead: float) -> bool:
    length = course.ring.length
    goes_forward = all(at < ahead + SAME_POINT for at in passed) and list(passed) == sorted(passed)
    behind = [length - at for at in passed]
    goes_backward = all(at < length - ahead + SAME_POINT for at in behind) and behind == sorted(behind)
    if goes_forward == goes_backward or way.start is None or way.end is None:
        start, end = way.start, way.end
        raise Unbuildable(
            says.NOT_THAT_WAY,
            way.span,
            start=start.text if start else "",
            end=end.text if end else "",
            passed=", ".join(f"`{ref.text}`" for ref in way.round),
            ways=_ways_round(way, course, start_at, ahead),
            order=", ".join(f"`{name}`" for name, _ in course.places),
        )
    return goes_forward


def _two_ways(way: BoundWay, course: _Course, start: float, ahead: float) -> Unbuildable:
    first, last = (way.start.text, way.end.text) if way.start and way.end else ("", "")
    return Unbuildable(
        says.TWO_WAYS, way.span, start=first, end=last, ways=_ways_round(way, course, start, ahead)
    )


def _ways_round(way: BoundWay, course: _Course, start: float, ahead: float) -> str:
    """What can be said instead: one place to go round for each direction."""
    length = course.ring.length
    around: list[str] = []
    places = sorted(((at - start) % length, name) for name, at in course.places)
    forward = [name for at, name in places if SAME_POINT < at < ahead - SAME_POINT]
    backward = [name for at, name in places if ahead + SAME_POINT < at < length - SAME_POINT]
    first, last = (way.start.text, way.end.text) if way.start and way.end else ("", "")
    of = "" if course.name == "outline" else f" of {course.name}"
    for names in (forward, backward):
        if names:
            middle = next((name for name in names if "'" not in name and name not in (first, last)), names[0])
            around.append(f"`from {first} round {middle} to {last}{of}`")
    return " or ".join(around) or f"it with a point between, such as `from {first} round mid to {last}{of}`"
