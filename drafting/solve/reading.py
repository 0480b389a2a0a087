"""What a shape is built from: the values it needs, and a reader that looks them up by reference.

`needs` finds every point, line and number that a bound form mentions; a Reader gives them while a plan is evaluated.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from drafting.geometry.maths import cos, plain_number, radians, sin
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.expressions import (
    AngleAt,
    Applied,
    Bound,
    Constant,
    Distance,
    Operation,
    Value,
    evaluate,
    keys_of,
)
from drafting.model.pattern import BoundDirection, BoundStretch, LineRef, PointRef, StitchesRef
from drafting.records import dataclass, fields, is_dataclass
from drafting.solve.lines import AnyLine, Drawn, OutlineLine, Unbuildable
from drafting.solve.trade import StitchLayout
from drafting.text.catalogue import shapes as says

BOUND = (Constant, Value, Operation, Applied, Distance, AngleAt)


def references_in(thing: object) -> Iterator[PointRef | LineRef | StitchesRef | Bound]:
    """Every reference and number in a bound form, in the order of its fields."""
    if isinstance(thing, (PointRef, LineRef, StitchesRef, *BOUND)):
        yield thing
    elif isinstance(thing, tuple):
        for item in thing:
            yield from references_in(item)
    elif is_dataclass(thing):
        for each in fields(thing):
            if each.name != "span":
                yield from references_in(getattr(thing, each.name))


def keys_in(thing: object) -> list[str]:
    """The solver's keys for all that a form mentions, each once."""
    keys: dict[str, None] = {}
    for reference in references_in(thing):
        if isinstance(reference, PointRef | LineRef | StitchesRef):
            keys[reference.key] = None
        else:
            keys.update(dict.fromkeys(keys_of(reference)))
    return list(keys)


@dataclass(frozen=True)
class Reader:
    """Values by key, read as the points, lines and numbers that a form speaks of."""

    values: Mapping[str, Any]

    def point(self, ref: PointRef) -> Point:
        value: Point = self.values[ref.key]
        return value

    def line(self, ref: LineRef) -> Drawn | OutlineLine:
        value: Drawn | OutlineLine = self.values[ref.key]
        return value

    def line_or_row(self, ref: LineRef) -> AnyLine:
        """A line, or the row of holes that stands by that name."""
        value: AnyLine = self.values[ref.key]
        return value

    def stitches(self, ref: StitchesRef) -> StitchLayout:
        value: StitchLayout = self.values[ref.key]
        return value

    def number(self, bound: Bound) -> float:
        return plain_number(evaluate(bound, self.values))

    def direction(self, direction: BoundDirection) -> Vector:
        """A unit vector; `level` points right, `plumb` up, `square to A..B` to the left of it."""
        if direction.how == "level":
            return Vector(1.0, 0.0)
        if direction.how == "plumb":
            return Vector(0.0, 1.0)
        if direction.stretch is not None:
            along = straight(self, direction.stretch, "The line").unit()
            return along if direction.how == "along" else along.turned_left()
        if direction.angle is None:
            raise AssertionError("a direction is level, plumb, along, square or an angle")
        angle = radians(self.number(direction.angle))
        return Vector(cos(angle), sin(angle))


def straight(reader: Reader, stretch: BoundStretch, what: str) -> Vector:
    """From the start of a stretch to its end; `what` names it where it has no length."""
    way = reader.point(stretch.end) - reader.point(stretch.start)
    if way.length < SAME_POINT:
        raise Unbuildable(says.NO_WIDTH, stretch.span, what=what, line=" ".join(stretch.span.text.split()))
    return way
