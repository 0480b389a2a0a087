"""Expressions with their names bound: what a measure, a fact or a check computes.

A bound expression speaks of values by key: a measure's name, a point's coordinate, a length of a run. It can be
evaluated exactly (Fractions in, Fractions out while no root or angle function is met), in floats, or in numpy arrays
for many sizes at once. Lengths are mm, angles degrees.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from math import isqrt
from typing import Any, Literal

from drafting.geometry import maths as math
from drafting.records import dataclass, field


@dataclass(frozen=True)
class Constant:
    value: Fraction


@dataclass(frozen=True)
class Value:
    """A number known by its key: a measure, a coordinate such as `front/heel.x`, or a computed length."""

    key: str


@dataclass(frozen=True)
class Operation:
    """`mend` says of a division what could be typed where its divisor comes to nothing."""

    operator: Literal["+", "-", "*", "/"]
    left: Bound
    right: Bound
    mend: str = field(default="", compare=False)


@dataclass(frozen=True)
class Applied:
    """A function of numbers: min max sqrt sin cos tan and the like. `mend` says of a root what could be typed where it
    is asked of less than nothing."""

    function: str
    arguments: tuple[Bound, ...]
    mend: str = field(default="", compare=False)


@dataclass(frozen=True)
class Distance:
    """Between two points, by their keys."""

    start: str
    end: str


@dataclass(frozen=True)
class AngleAt:
    """The angle at `vertex`, 0 to 180 degrees, between the directions to two points."""

    start: str
    vertex: str
    end: str


class DividesByNothing(ZeroDivisionError):
    """A division whose divisor comes to nothing, and what could be typed instead."""

    def __init__(self, mend: str) -> None:
        super().__init__("division by nothing")
        self.mend = mend


class RootOfLess(ValueError):
    """A root of less than nothing, and what could be typed instead."""

    def __init__(self, mend: str) -> None:
        super().__init__("root of less than nothing")
        self.mend = mend


Bound = Constant | Value | Operation | Applied | Distance | AngleAt


def _exact_root(value: Any) -> Any:
    """Of a Fraction that is a perfect square the exact root, else a float."""
    if isinstance(value, Fraction) and value >= 0:
        top, bottom = isqrt(value.numerator), isqrt(value.denominator)
        if top * top == value.numerator and bottom * bottom == value.denominator:
            return Fraction(top, bottom)
    return math.sqrt(value)


SCALAR_FUNCTIONS: dict[str, Callable[..., Any]] = {
    "min": math.least,
    "max": math.most,
    "sum": lambda *amounts: sum(amounts[1:], amounts[0]),
    "sqrt": _exact_root,
    "sin": lambda angle: math.sin(math.radians(angle)),
    "cos": lambda angle: math.cos(math.radians(angle)),
    "tan": lambda angle: math.tan(math.radians(angle)),
    "bend": lambda turn, round_, thick, neutral: math.radians(turn) * (round_ / 2 + neutral * thick),
    "loop": lambda wide, stack, thick: 2 * (wide + stack) + math.pi * thick,
}


def evaluate(expression: Bound, values: Mapping[str, Any]) -> Any:
    """The number that `expression` gives; `values` maps keys to numbers, and point keys to things with x and y.

    DividesByNothing, RootOfLess and KeyError pass to the caller.
    """
    match expression:
        case Constant(value):
            return value
        case Value(key):
            return values[key] if key in values else _coordinate(key, values)
        case Operation("/", left, right, mend):
            return _divided(evaluate(left, values), evaluate(right, values), mend)
        case Operation(operator, left, right):
            return _apply(operator, evaluate(left, values), evaluate(right, values))
        case Applied("sqrt", (argument,), mend):
            return _root(evaluate(argument, values), mend)
        case Applied(function, arguments):
            return SCALAR_FUNCTIONS[function](*(evaluate(argument, values) for argument in arguments))
        case Distance(start, end):
            a, b = values[start], values[end]
            return math.hypot(b.x - a.x, b.y - a.y)
        case AngleAt(start, vertex, end):
            a, v, b = values[start], values[vertex], values[end]
            ax, ay, bx, by = a.x - v.x, a.y - v.y, b.x - v.x, b.y - v.y
            return math.degrees(math.atan2(abs(ax * by - ay * bx), ax * bx + ay * by))


def _coordinate(key: str, values: Mapping[str, Any]) -> Any:
    """`back/heel.x`, read off the point."""
    base, _, axis = key.rpartition(".")
    if axis not in ("x", "y"):
        raise KeyError(key)
    return getattr(values[base], axis)


def _apply(operator: str, left: Any, right: Any) -> Any:
    if operator == "+":
        return left + right
    if operator == "-":
        return left - right
    return left * right


def _divided(left: Any, right: Any, mend: str) -> Any:
    try:
        return left / right
    except ZeroDivisionError:
        raise DividesByNothing(mend) from None


def _root(value: Any, mend: str) -> Any:
    try:
        return _exact_root(value)
    except ValueError:
        raise RootOfLess(mend) from None


def keys_of(expression: Bound) -> Iterator[str]:
    """Every key an expression reads, points among them, in the order written."""
    match expression:
        case Constant():
            return
        case Value(key):
            yield key
        case Operation(_, left, right):
            yield from keys_of(left)
            yield from keys_of(right)
        case Applied(_, arguments):
            for argument in arguments:
                yield from keys_of(argument)
        case Distance(start, end):
            yield from (start, end)
        case AngleAt(start, vertex, end):
            yield from (start, vertex, end)
