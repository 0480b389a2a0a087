"""Expressions with their names bound: what a measure, a fact or a check computes.

A bound expression speaks of values by key: a measure's name, a point's coordinate, a length of a run. It can be
evaluated exactly (Fractions in, Fractions out while no root or angle function is met), in floats, or in numpy arrays
for many sizes at once. Lengths are mm, angles degrees.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal


@dataclass(frozen=True)
class Constant:
    value: Fraction


@dataclass(frozen=True)
class Value:
    """A number known by its key: a measure, a coordinate such as `front/heel.x`, or a computed length."""

    key: str


@dataclass(frozen=True)
class Operation:
    operator: Literal["+", "-", "*", "/"]
    left: Bound
    right: Bound


@dataclass(frozen=True)
class Applied:
    """A function of numbers: min max sqrt sin cos tan and the like."""

    function: str
    arguments: tuple[Bound, ...]


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


Bound = Constant | Value | Operation | Applied | Distance | AngleAt


def _exact_root(value: Any) -> Any:
    """Of a Fraction that is a perfect square the exact root, else a float."""
    if isinstance(value, Fraction) and value >= 0:
        top, bottom = math.isqrt(value.numerator), math.isqrt(value.denominator)
        if top * top == value.numerator and bottom * bottom == value.denominator:
            return Fraction(top, bottom)
    return math.sqrt(value)


SCALAR_FUNCTIONS: dict[str, Callable[..., Any]] = {
    "min": min,
    "max": max,
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

    ZeroDivisionError, ValueError (root of a negative number) and KeyError pass to the caller.
    """
    match expression:
        case Constant(value):
            return value
        case Value(key):
            return values[key] if key in values else _coordinate(key, values)
        case Operation(operator, left, right):
            return _apply(operator, evaluate(left, values), evaluate(right, values))
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
    if operator == "*":
        return left * right
    return left / right


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
