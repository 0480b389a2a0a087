"""Small systems for the tests: a sheet of points that can be solved and asked."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

from drafting.geometry.point import Point
from drafting.model.expressions import Bound, Constant, Distance, Operation, Value
from drafting.solve.findings import Finding
from drafting.solve.plan import Solution, make_plan
from drafting.solve.system import System


class Sheet(System):
    """A System with the words a test uses most. A fact is tagged with its own text unless a tag is given."""

    def fact(self, kind: str, *operands: Any, tag: Any = None) -> None:
        super().fact(kind, *operands, tag=tag or " ".join([kind, *map(_shown, operands)]))

    def choice(self, kind: str, point: str, *operands: str, tag: Any = None) -> None:
        super().choice(kind, point, *operands, tag=tag or " ".join([point, kind, *operands]))

    def at(self, key: str, x: float | Bound, y: float | Bound) -> None:
        self.point(key)
        self.fact("coordinate x", key, x)
        self.fact("coordinate y", key, y)

    def points_at(self, **places: tuple[float, float]) -> None:
        for key, (x, y) in places.items():
            self.at(key, x, y)

    def solved(self, **measures: float) -> Solution:
        return make_plan(self).evaluate(measures)

    def place(self, key: str, **measures: float) -> Point:
        """Where a point is; nothing may be found wrong."""
        solution = self.solved(**measures)
        assert solution.findings == ()
        place = solution.values[key]
        assert isinstance(place, Point)
        return place

    def found(self, **measures: float) -> tuple[Finding, ...]:
        return self.solved(**measures).findings


def only(findings: tuple[Finding, ...], kind: type) -> Any:
    """The one finding there is, which must be of a kind."""
    assert [type(finding) for finding in findings] == [kind], findings
    return findings[0]


def close(place: Point, x: float, y: float, within: float = 1e-9) -> bool:
    return math.hypot(place.x - x, place.y - y) <= within


def number(value: float) -> Constant:
    return Constant(Fraction(value))


def plus(left: Bound, right: Bound) -> Operation:
    return Operation("+", left, right)


def times(left: Bound, right: Bound) -> Operation:
    return Operation("*", left, right)


def measure(key: str) -> Value:
    return Value(key)


def stretch(start: str, end: str) -> Distance:
    return Distance(start, end)


def _shown(operand: Any) -> str:
    return operand if isinstance(operand, str) else str(operand)


def based() -> Sheet:
    """A sheet with `foot` at the origin and `heel` 60 mm right of it."""
    sheet = Sheet()
    sheet.points_at(foot=(0, 0), heel=(60, 0))
    return sheet
