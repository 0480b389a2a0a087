"""Measures that speak of nothing placed, worked out exactly for one size.

Takes a Pattern and the formulas a size sets in place of the measures' own; gives numbers by key, Fractions as long as
no root or angle function is met, and the stocks' thickness beside them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from fractions import Fraction
from typing import Any

from drafting.geometry.maths import in_words
from drafting.model.expressions import (
    AngleAt,
    Applied,
    Bound,
    Constant,
    Distance,
    DividesByNothing,
    Operation,
    RootOfLess,
    Value,
    evaluate,
)
from drafting.model.pattern import MeasurePart, Pattern
from drafting.records import dataclass
from drafting.text.catalogue import model as says
from drafting.text.messages import Messages
from drafting.text.quantities import ANGLE, LENGTH, Kind

LARGEST_MEASURE = 10**24
"""A square of a thousand kilometers in mm², and room beyond it."""
STOCK_NEUTRAL = Fraction(1, 2)
"""Where leather neither stretches nor shortens in a bend, as a part of its thickness, unless the stock says so.
Common practice, no source."""


@dataclass(frozen=True)
class Formula:
    bound: Bound
    part: MeasurePart | None


def formulas(pattern: Pattern, settings: Mapping[str, tuple[Bound, ...]]) -> dict[str, Formula]:
    """The formula of every pattern measure and stock amount by key, with the settings in place of the measures' own."""
    found: dict[str, Formula] = {}
    for part in (*pattern.measures.values(), *pattern.brought_measures.values()):
        is_own = part.key in pattern.measures
        values = settings.get(part.name, part.values) if is_own else part.values
        for key, bound in zip(part.keys, values, strict=True):
            found[key] = Formula(bound, part)
    for name in pattern.stocks:
        found[f"{name}.neutral"] = Formula(Constant(STOCK_NEUTRAL), None)
    for key, bound in pattern.item_amounts:
        found[key] = Formula(bound, None)
    return found


def is_pure(bound: Bound, known: Mapping[str, Formula], trail: tuple[str, ...] = ()) -> bool:
    """Whether a formula reads only measures and stocks, down to the last one."""
    match bound:
        case Constant():
            return True
        case Value(key):
            return key in known and key not in trail and is_pure(known[key].bound, known, (*trail, key))
        case Operation(_, left, right):
            return is_pure(left, known, trail) and is_pure(right, known, trail)
        case Applied(_, arguments):
            return all(is_pure(argument, known, trail) for argument in arguments)
        case Distance() | AngleAt():
            return False


class _Working(dict[str, Any]):
    """Numbers by key, worked out when first asked for."""

    def __init__(self, known: Mapping[str, Formula]) -> None:
        super().__init__()
        self.known = known

    def __contains__(self, key: object) -> bool:
        return key in self.known

    def __missing__(self, key: str) -> Any:
        value = evaluate(self.known[key].bound, self)
        self[key] = value
        return value


def pure_values(known: Mapping[str, Formula], messages: Messages) -> dict[str, Any]:
    """The numbers of all pure formulas, but those that do not exist: a root of less than nothing, a part of nothing.

    What is left out is asked for again among the things that are placed, where it is told once and whatever is made
    from it stays quiet. An amount beyond all measure is told here.
    """
    pure = {key: formula for key, formula in known.items() if is_pure(formula.bound, known)}
    working = _Working(pure)
    values: dict[str, Any] = {}
    for key, formula in pure.items():
        with suppress(ZeroDivisionError, ValueError):
            values[key] = working[key]
            if abs(working[key]) > LARGEST_MEASURE:
                at = formula.part.span if formula.part else None
                why = "it grows beyond all measure"
                messages.add(says.NOT_COMPUTED, at=at, name=key, why=why, mend="Change")
                values[key] = working[key] = Fraction(1)
    return values


def why_not(fault: Exception) -> str:
    """Why an amount does not exist."""
    if isinstance(fault, ZeroDivisionError):
        return "it divides by nothing"
    return "it asks for the root of less than nothing"


def how_else(fault: Exception) -> str:
    """What could be typed so that it does."""
    return (fault.mend if isinstance(fault, DividesByNothing | RootOfLess) else "") or "Change"


def check_ranges(pattern: Pattern, values: Mapping[str, Any], messages: Messages) -> None:
    """`between` says where a measure may lie, in every size; `values` are those of all that could be worked out."""
    of_pieces = (part for piece in pattern.pieces.values() for part in piece.measures)
    for part in (*pattern.measures.values(), *pattern.brought_measures.values(), *of_pieces):
        for key, low, high in _ranges(part, values, messages):
            value = values[key]
            if low > high:
                messages.add(
                    says.RANGE_UPSIDE_DOWN,
                    at=part.span,
                    name=part.name,
                    low=shown(low, part.kind),
                    high=shown(high, part.kind),
                )
            elif not low - 1e-9 <= value <= high + 1e-9:
                messages.add(
                    says.MEASURE_RANGE,
                    at=part.span,
                    name=part.name,
                    value=shown(value, part.kind),
                    low=shown(low, part.kind),
                    high=shown(high, part.kind),
                    note=f" ({part.note})" if part.note else "",
                    mend=_back_in_range(part, value, low, high),
                )


def _back_in_range(part: MeasurePart, value: Any, low: Any, high: Any) -> str:
    """The nearest value that would do, and a range that the value would lie in."""
    nearest = f"{shown(low, part.kind)} or more" if value < low else f"{shown(high, part.kind)} or less"
    from_, to = shown(min(low, value), part.kind), shown(max(high, value), part.kind)
    return f"Let it come to {nearest}, or write `between {from_} and {to}`."


def _ranges(
    part: MeasurePart, values: Mapping[str, Any], messages: Messages
) -> Iterator[tuple[str, Any, Any]]:
    if part.low is None or part.high is None:
        return
    for key in part.keys:
        if key in values:
            try:
                yield key, evaluate(part.low, values), evaluate(part.high, values)
            except KeyError:
                continue
            except (ZeroDivisionError, ValueError) as fault:
                messages.add(
                    says.NOT_COMPUTED,
                    at=part.span,
                    name=f"{part.name} between",
                    why=why_not(fault),
                    mend=how_else(fault),
                )


@in_words
def shown(value: Any, kind: Kind) -> str:
    number = f"{float(value):.3f}".rstrip("0").rstrip(".")
    unit = {LENGTH: " mm", ANGLE: " deg"}.get(kind, "")
    return number + unit
