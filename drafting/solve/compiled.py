"""Bound expressions as Python functions, one for each shape.

`2*rim + play` and `3*lap + depth` are one shape: the same function with other arguments. So a pattern of thousands of
formulas compiles only a few. Arguments may be floats or numpy arrays.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any, Literal

from drafting.geometry import maths as math
from drafting.model.expressions import (
    AngleAt,
    Applied,
    Bound,
    Constant,
    Distance,
    Operation,
    Value,
)
from drafting.solve.roots import cosine, root, sine

Want = Fraction | tuple[Literal["value", "point"], str]
"""An argument: a constant, the number under a key, or the two coordinates of a point."""


def compile_bound(expression: Bound) -> tuple[Callable[..., Any], list[Want]]:
    """The function of an expression's shape, and what it wants as arguments, in order."""
    wants: list[Want] = []
    text = _text(expression, wants, _Counter())
    count = sum(2 if isinstance(want, tuple) and want[0] == "point" else 1 for want in wants)
    names = ", ".join(f"a{number}" for number in range(count))
    shape = f"lambda {names}: {text}"
    if shape not in _SHAPES:
        _SHAPES[shape] = eval(compile(shape, "<formula>", "eval"), dict(_FUNCTIONS))
    return _SHAPES[shape], wants


_SHAPES: dict[str, Callable[..., Any]] = {}


class _Counter:
    def __init__(self) -> None:
        self.next = 0

    def name(self) -> str:
        self.next += 1
        return f"a{self.next - 1}"


def _text(expression: Bound, wants: list[Want], names: _Counter) -> str:
    match expression:
        case Constant(value):
            wants.append(value)
            return names.name()
        case Value(key):
            wants.append(("value", key))
            return names.name()
        case Operation(operator, left, right):
            return f"({_text(left, wants, names)} {operator} {_text(right, wants, names)})"
        case Applied(function, arguments):
            inner = ", ".join(_text(argument, wants, names) for argument in arguments)
            return f"f_{function}({inner})"
        case Distance(start, end):
            return f"f_distance({_points(wants, names, start, end)})"
        case AngleAt(start, vertex, end):
            return f"f_angle({_points(wants, names, start, vertex, end)})"


def _points(wants: list[Want], names: _Counter, *keys: str) -> str:
    shown = []
    for key in keys:
        wants.append(("point", key))
        shown += [names.name(), names.name()]
    return ", ".join(shown)


def _is_array(*amounts: Any) -> bool:
    return any(hasattr(amount, "shape") for amount in amounts)


def _by_numpy(name: str) -> Callable[..., Any]:
    import numpy

    function: Callable[..., Any] = getattr(numpy, name)
    return function


def _least(*amounts: Any) -> Any:
    if not _is_array(*amounts):
        return min(amounts)
    found = amounts[0]
    for amount in amounts[1:]:
        found = _by_numpy("minimum")(found, amount)
    return found


def _most(*amounts: Any) -> Any:
    if not _is_array(*amounts):
        return max(amounts)
    found = amounts[0]
    for amount in amounts[1:]:
        found = _by_numpy("maximum")(found, amount)
    return found


def _sine(angle: Any) -> Any:
    return _by_numpy("sin")(angle * math.pi / 180) if _is_array(angle) else sine(angle)


def _cosine(angle: Any) -> Any:
    return _by_numpy("cos")(angle * math.pi / 180) if _is_array(angle) else cosine(angle)


def _tangent(angle: Any) -> Any:
    return _by_numpy("tan")(angle * math.pi / 180) if _is_array(angle) else math.tan(math.radians(angle))


def _distance(ax: Any, ay: Any, bx: Any, by: Any) -> Any:
    if _is_array(ax, ay, bx, by):
        return _by_numpy("hypot")(bx - ax, by - ay)
    return math.hypot(bx - ax, by - ay)


def _angle(ax: Any, ay: Any, vx: Any, vy: Any, bx: Any, by: Any) -> Any:
    px, py, qx, qy = ax - vx, ay - vy, bx - vx, by - vy
    turn, along = abs(px * qy - py * qx), px * qx + py * qy
    if _is_array(turn, along):
        return _by_numpy("arctan2")(turn, along) * 180 / math.pi
    return math.degrees(math.atan2(turn, along))


_FUNCTIONS: dict[str, Callable[..., Any]] = {
    "f_min": _least,
    "f_max": _most,
    "f_sum": lambda *amounts: sum(amounts[1:], amounts[0]),
    "f_sqrt": root,
    "f_sin": _sine,
    "f_cos": _cosine,
    "f_tan": _tangent,
    "f_bend": lambda turn, round_, thick, neutral: turn * math.pi / 180 * (round_ / 2 + neutral * thick),
    "f_loop": lambda wide, stack, thick: 2 * (wide + stack) + math.pi * thick,
    "f_distance": _distance,
    "f_angle": _angle,
}
