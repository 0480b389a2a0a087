"""A fact seen from one of its points: where that point may lie when the others are known.

`locus_source` finds the ready-made closed form for an equation and a target point, wired to the slots it reads. A
source gives one locus, or several where the fact leaves a side open or the path has several legs.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import Any

from drafting.geometry.leg import Leg
from drafting.solve.closed_forms import LOCI
from drafting.solve.kinds import ON_PATH, TOUCHES
from drafting.solve.layout import Equation
from drafting.solve.meeting import Locus
from drafting.solve.on_paths import legs_of, locus_of_leg, tangent_through
from drafting.solve.roots import cosine, sine

Values = list[Any]
Pair = tuple[int, int]
ANGLES = ("angle", "ray")


@dataclass(frozen=True)
class LocusSource:
    """`loci` gives the alternatives about a local origin, each with the leg it must lie on, if any.

    `function` and `arguments` are set where there is exactly one alternative, of a ready-made form.
    """

    equation: Equation
    loci: Callable[[Values, float, float], list[tuple[Locus, Leg | None]]]
    function: Callable[..., Locus] | None = None
    arguments: Callable[[Values], Sequence[Any]] | None = None
    on_legs: bool = False
    """Whether it reads a path: then the number of alternatives is the path's."""


def locus_source(equation: Equation, target: Pair) -> LocusSource | None:
    """The source for a target point, or None when the equation is no circle or line in it."""
    if equation.form is ON_PATH:
        return _on_path(equation) if target not in equation.points[1:] else None
    if equation.form is TOUCHES:
        return _touches(equation, target)
    if target not in equation.points:
        return None
    index = equation.points.index(target)
    entry = LOCI.get((equation.form.name, equation.merge, index))
    if entry is None:
        return None
    function, is_sided = entry
    arguments = _arguments(equation, index)
    if is_sided:
        return LocusSource(equation, _both_sides(function, arguments))
    return LocusSource(equation, _one(function, arguments), function, arguments)


def _arguments(equation: Equation, target: int) -> Callable[[Values], Sequence[Any]]:
    slots: list[int] = []
    for index, pair in enumerate(equation.points):
        if index != target and int(equation.merge[index]) == index:
            slots += pair
    slots += equation.scalars
    if equation.form.name in ANGLES:
        return _with_angle(slots)
    return getter(slots)


def getter(slots: Sequence[int]) -> Callable[[Values], Sequence[Any]]:
    """The values of some slots, as a tuple also when they are one or none."""
    if len(slots) > 1:
        return itemgetter(*slots)
    if slots:
        only = slots[0]
        return lambda values: (values[only],)
    return lambda values: ()


def _with_angle(slots: Sequence[int]) -> Callable[[Values], Sequence[Any]]:
    points, angle = getter(slots[:-1]), slots[-1]
    return lambda values: (*points(values), cosine(values[angle]), sine(values[angle]))


def _one(
    function: Callable[..., Locus], arguments: Callable[[Values], Sequence[Any]]
) -> Callable[[Values, float, float], list[tuple[Locus, Leg | None]]]:
    return lambda values, x, y: [(function(x, y, *arguments(values)), None)]


def _both_sides(
    function: Callable[..., Locus], arguments: Callable[[Values], Sequence[Any]]
) -> Callable[[Values, float, float], list[tuple[Locus, Leg | None]]]:
    def loci(values: Values, x: float, y: float) -> list[tuple[Locus, Leg | None]]:
        return [(function(x, y, side, *arguments(values)), None) for side in (1.0, -1.0)]

    return loci


def _on_path(equation: Equation) -> LocusSource:
    path = equation.objects[0]

    def loci(values: Values, x: float, y: float) -> list[tuple[Locus, Leg | None]]:
        return [(locus_of_leg(leg, x, y), leg) for leg in legs_of(values[path])]

    return LocusSource(equation, loci, on_legs=True)


def _touches(equation: Equation, target: Pair) -> LocusSource | None:
    if target not in equation.points:
        return None
    other = equation.points[1 - equation.points.index(target)]
    path = equation.objects[0]

    def loci(values: Values, x: float, y: float) -> list[tuple[Locus, Leg | None]]:
        lines = tangent_through(values[path], values[other[0]], values[other[1]], x, y)
        return [(line, None) for line in lines]

    return LocusSource(equation, loci, on_legs=True)
