"""A fact seen from one of its points: where that point may lie when the others are known.

`locus_source` finds the ready-made closed form for an equation and a target point, wired to the slots it reads. A
source gives one locus, or several where the fact leaves a side open or the path has several legs.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Sequence
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


class LocusSource(ABC):
    """`loci` gives the alternatives about a local origin, each with the leg it must lie on, if any."""

    __slots__ = ("equation",)
    on_legs = False
    """Whether it reads a path: then the number of alternatives is the path's."""

    def __init__(self, equation: Equation) -> None:
        self.equation = equation

    @abstractmethod
    def loci(self, values: Values, x: Any, y: Any) -> list[Alternative]:
        """Where the point may lie, at these values."""


Alternative = tuple[Locus, Leg | None]


class OneLocus(LocusSource):
    """A ready-made form with one alternative."""

    __slots__ = ("arguments", "function")

    def __init__(
        self, equation: Equation, function: Callable[..., Locus], arguments: Callable[[Values], Sequence[Any]]
    ) -> None:
        super().__init__(equation)
        self.function = function
        self.arguments = arguments

    def loci(self, values: Values, x: Any, y: Any) -> list[Alternative]:
        return [(self.function(x, y, *self.arguments(values)), None)]


class BothSides(OneLocus):
    """A ready-made form that leaves its side open."""

    __slots__ = ()

    def loci(self, values: Values, x: Any, y: Any) -> list[Alternative]:
        return [(self.function(x, y, side, *self.arguments(values)), None) for side in (1.0, -1.0)]


class OnPath(LocusSource):
    """Each leg of a path."""

    __slots__ = ()
    on_legs = True

    def loci(self, values: Values, x: Any, y: Any) -> list[Alternative]:
        path = values[self.equation.objects[0]]
        return [(locus_of_leg(leg, x, y), leg) for leg in legs_of(path)]


class LineTouching(LocusSource):
    """The lines through the other point that touch a path."""

    __slots__ = ("other",)
    on_legs = True

    def __init__(self, equation: Equation, other: Pair) -> None:
        super().__init__(equation)
        self.other = other

    def loci(self, values: Values, x: Any, y: Any) -> list[Alternative]:
        path = values[self.equation.objects[0]]
        lines = tangent_through(path, values[self.other[0]], values[self.other[1]], x, y)
        return [(line, None) for line in lines]


def locus_source(equation: Equation, target: Pair) -> LocusSource | None:
    """The source for a target point, or None when the equation is no circle or line in it."""
    form = equation.form
    if form is ON_PATH:
        return OnPath(equation) if target in equation.points else None
    if target not in equation.points:
        return None
    index = equation.points.index(target)
    if form is TOUCHES:
        return LineTouching(equation, equation.points[1 - index])
    entry = LOCI.get((form.name, equation.merge, index))
    if entry is None:
        return None
    function, is_sided = entry
    return (BothSides if is_sided else OneLocus)(equation, function, _arguments(equation, index))


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
