"""Legs of a path: from a bound leg and the points it joins to lines and arcs.

Takes a leg, where it begins and the leg before; gives lines and arcs. Nothing is guessed: a side that does not exist,
a bow higher than half a circle, a center not as far from both ends are each a message.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TypeVar

from drafting.geometry.arc import Arc
from drafting.geometry.curves import arc_about, arc_bowed, arc_through, arc_with_radius
from drafting.geometry.faults import GeometryFault
from drafting.geometry.line import Line
from drafting.geometry.maths import degrees
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.smooth import smooth_legs
from drafting.geometry.tangent_arc import arc_tangent
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.expressions import Bound
from drafting.model.pattern import BoundBow, BoundDirection, BoundLeg
from drafting.records import dataclass
from drafting.solve.amounts import mm, mm_at_least, mm_at_most, plain
from drafting.solve.lines import Swing, Unbuildable
from drafting.solve.reading import Reader
from drafting.text.catalogue import shapes as says

Leg = Line | Arc
Given = TypeVar("Given")
NOWHERE_NEAR = 1e-9


@dataclass(frozen=True)
class LegRun:
    """The lines and arcs of one leg, the named points it passes (with the index of the leg that begins there), and
    where a smooth leg swings both ways."""

    legs: tuple[Leg, ...]
    passed: tuple[tuple[str, int], ...] = ()
    swings: tuple[Swing, ...] = ()


def build_leg(
    reader: Reader,
    leg: BoundLeg,
    start_name: str,
    start: Point,
    before: Leg | None,
    inside_is_left: bool | None,
) -> LegRun:
    """One leg from `start`. `inside_is_left` tells on which side of the walk the inside of its ring lies, if any."""
    try:
        return _build_leg(reader, leg, start_name, start, before, inside_is_left)
    except GeometryFault as fault:
        raise Unbuildable(
            says.NO_ARC, leg.span, to=leg.to.text, why=str(fault), mend="Bow it more, or leave the bow out."
        ) from None


def _build_leg(
    reader: Reader,
    leg: BoundLeg,
    start_name: str,
    start: Point,
    before: Leg | None,
    inside_is_left: bool | None,
) -> LegRun:
    end = reader.point(leg.to)
    bow = leg.bow
    if start.distance_to(end) < SAME_POINT and bow.kind not in ("smooth", "following"):
        raise Unbuildable(says.POINT_LIKE, leg.span, first=start_name, second=leg.to.text)
    match bow.kind:
        case "straight":
            return LegRun((Line(start, end),))
        case "bowed" | "radius":
            return LegRun((_bowed(reader, leg, bow, start, end, inside_is_left),))
        case "through":
            return _through(reader, leg, bow, start, end)
        case "about":
            return LegRun((_about(reader, leg, bow, start, end),))
        case "tangent":
            return LegRun((_tangent(leg, start, before, end),))
        case "following":
            return LegRun(_following(reader, leg, bow, start_name, start, end))
        case "smooth":
            return _smooth(reader, leg, bow, start_name, start, end)
    raise AssertionError(f"no bow {bow.kind}")


def _bowed(
    reader: Reader, leg: BoundLeg, bow: BoundBow, start: Point, end: Point, inside_is_left: bool | None
) -> Leg:
    amount = reader.number(_amount_of(bow))
    chord = start.distance_to(end)
    if amount <= 0:
        raise Unbuildable(
            says.NOT_POSITIVE, leg.span, what="The bow of the leg", name=leg.to.text, amount=mm(amount)
        )
    to_left = _side(leg, bow, end - start, inside_is_left)
    if bow.kind == "bowed":
        if amount > chord / 2 + SAME_POINT:
            raise Unbuildable(
                says.BOW_TOO_HIGH,
                leg.span,
                to=leg.to.text,
                chord=mm(chord),
                amount=mm(amount),
                largest=mm_at_most(chord / 2),
            )
        return arc_bowed(start, end, min(amount, chord / 2), to_left)
    if amount < chord / 2 - SAME_POINT:
        raise Unbuildable(
            says.RADIUS_TOO_SMALL,
            leg.span,
            to=leg.to.text,
            chord=mm(chord),
            amount=mm(amount),
            least=mm_at_least(chord / 2),
        )
    return arc_with_radius(start, end, max(amount, chord / 2), to_left)


def _amount_of(bow: BoundBow) -> Bound:
    if bow.amount is None:
        raise AssertionError("the binder leaves no bow without its amount")
    return bow.amount


def _given(value: Given | None) -> Given:
    if value is None:
        raise AssertionError("the binder leaves no bow without its point or line")
    return value


def _side(leg: BoundLeg, bow: BoundBow, chord: Vector, inside_is_left: bool | None) -> bool:
    """Whether the bow goes to the left of the walk."""
    toward = bow.toward
    if toward in ("out", "in"):
        if inside_is_left is None:
            raise Unbuildable(
                says.NO_SUCH_SIDE,
                leg.span,
                what=f"leg to `{leg.to.text}`",
                lies="where nothing is inside or outside",
                toward=str(toward),
                sides="`bowed left`, `right`, `up` or `down`",
            )
        return (toward == "in") == inside_is_left
    left = chord.turned_left().unit()
    across = {"left": -left.x, "right": left.x, "up": left.y, "down": -left.y}[str(toward)]
    if abs(across) < NOWHERE_NEAR:
        lies, sides = (
            ("level", "`up` or `down`") if toward in ("left", "right") else ("plumb", "`left` or `right`")
        )
        raise Unbuildable(
            says.NO_SUCH_SIDE,
            leg.span,
            what=f"leg to `{leg.to.text}`",
            lies=lies,
            toward=str(toward),
            sides=sides,
        )
    return across > 0


def _through(reader: Reader, leg: BoundLeg, bow: BoundBow, start: Point, end: Point) -> LegRun:
    """An arc through a point, in two parts so that the point is a station of the path."""
    middle = reader.point(_given(bow.point))
    try:
        arc = arc_through(start, middle, end)
    except GeometryFault:
        raise Unbuildable(
            says.NO_ARC,
            leg.span,
            to=leg.to.text,
            why=f"it and `{_given(bow.point).text}` lie in one line",
            mend="Leave the bow out for a straight leg.",
        ) from None
    share = _turn_to(arc, middle)
    first = Arc(arc.center, arc.radius, arc.start_angle, share)
    second = Arc(arc.center, arc.radius, arc.start_angle + share, arc.sweep - share)
    return LegRun((first, second), ((_given(bow.point).text, 1),))


def _turn_to(arc: Arc, point: Point) -> float:
    """How far an arc has turned, with its sign, when it passes a point on it."""
    return arc.sweep * arc.nearest(point) / arc.length


def _about(reader: Reader, leg: BoundLeg, bow: BoundBow, start: Point, end: Point) -> Leg:
    center_ref = _given(bow.point)
    center = reader.point(center_ref)
    first, second = center.distance_to(start), center.distance_to(end)
    if abs(first - second) > SAME_POINT * max(1.0, first / 1000):
        raise Unbuildable(
            says.ABOUT_UNEVEN,
            leg.span,
            center=center_ref.text,
            first=mm(first),
            second=mm(second),
            to=leg.to.text,
        )
    try:
        return arc_about(center, start, end, bow.long)
    except GeometryFault:
        raise Unbuildable(
            says.NO_ARC,
            leg.span,
            to=leg.to.text,
            why="both ways round are half a circle",
            mend="Put a point on the arc between them: `through` it.",
        ) from None


def _tangent(leg: BoundLeg, start: Point, before: Leg | None, end: Point) -> Leg:
    if before is None:
        raise Unbuildable(says.FIRST_TANGENT, leg.span, to=leg.to.text)
    direction = before.direction_at(before.length)
    try:
        return arc_tangent(start, direction, end)
    except GeometryFault:
        raise Unbuildable(
            says.NO_ARC,
            leg.span,
            to=leg.to.text,
            why="the leg before comes from there",
            mend="Bow it otherwise.",
        ) from None


def _following(
    reader: Reader, leg: BoundLeg, bow: BoundBow, start_name: str, start: Point, end: Point
) -> tuple[Leg, ...]:
    """The part of a line between two points on it; of a ring the shorter way round."""
    ref = _given(bow.line)
    path = reader.line(ref).path
    from_length, to_length = path.locate(start), path.locate(end)
    for length, point, name in ((from_length, start, start_name), (to_length, end, leg.to.text)):
        if length is None:
            _, nearest = path.nearest(point)
            raise Unbuildable(
                says.NOT_ALONG, leg.span, point=name, distance=mm(point.distance_to(nearest)), line=ref.text
            )
    if from_length is None or to_length is None:
        raise AssertionError("both ends are on the line")
    if isinstance(path, Ring):
        return _round_ring(leg, path, from_length, to_length, ref.text)
    if abs(from_length - to_length) < SAME_POINT:
        raise Unbuildable(says.POINT_LIKE, leg.span, first=start_name, second=leg.to.text)
    if from_length < to_length:
        return path.part(from_length, to_length).legs
    return path.part(to_length, from_length).reversed().legs


def _round_ring(leg: BoundLeg, ring: Ring, start: float, end: float, line: str) -> tuple[Leg, ...]:
    forward = (end - start) % ring.length
    backward = ring.length - forward
    if abs(forward - backward) < SAME_POINT:
        raise Unbuildable(says.EITHER_WAY_ROUND, leg.span, line=line, to=leg.to.text)
    if forward < backward:
        return ring.part(start, end).legs
    return ring.part(end, start).reversed().legs


def _smooth(
    reader: Reader, leg: BoundLeg, bow: BoundBow, start_name: str, start: Point, end: Point
) -> LegRun:
    points = [start, *(reader.point(ref) for ref in bow.points), end]
    names = [start_name, *(ref.text for ref in bow.points), leg.to.text]
    for (first, one), (second, other) in pairwise(zip(points, names, strict=True)):
        if first.distance_to(second) < SAME_POINT:
            raise Unbuildable(says.POINT_LIKE, leg.span, first=one, second=other)
    leaving = _sense(reader, leg, bow.leaving, points[1] - points[0], "leaving")
    arriving = _sense(reader, leg, bow.arriving, points[-1] - points[-2], "arriving")
    try:
        smooth = smooth_legs(points, leaving, arriving)
    except GeometryFault as fault:
        raise Unbuildable(
            says.NO_ARC,
            leg.span,
            to=leg.to.text,
            why=str(fault),
            mend="Add a point it goes `through`, or move one.",
        ) from None
    return _smooth_run(smooth.legs, leg, names, points, smooth.swings)


def _smooth_run(
    legs: tuple[Leg, ...], leg: BoundLeg, names: list[str], points: list[Point], swings: tuple[int, ...]
) -> LegRun:
    """The legs with the index at which each through point is reached."""
    passed = [
        (ref.text, min(range(1, len(legs)), key=lambda index: legs[index].start.distance_to(point)))
        for ref, point in zip(leg.bow.points, points[1:-1], strict=True)
    ]
    return LegRun(legs, tuple(passed), tuple(Swing(leg.to.text, f"`{names[index]}`") for index in swings))


def _sense(
    reader: Reader, leg: BoundLeg, direction: BoundDirection | None, chord: Vector, how: str
) -> Vector | None:
    """A direction said for an end. `level`, `plumb` and the like have two senses: the one that goes with the chord."""
    if direction is None:
        return None
    along = reader.direction(direction)
    if direction.how == "angle":
        return along
    share = along.dot(chord.unit())
    if abs(share) < 1e-6:
        one, other = (f"{how} {plain(degrees(way.angle) % 360)} deg" for way in (along, -along))
        said = f"{how} {' '.join(direction.span.text.split())}"
        raise Unbuildable(
            says.DIRECTION_UNSURE, direction.span, to=leg.to.text, how=said, one=one, other=other
        )
    return along if share > 0 else -along
