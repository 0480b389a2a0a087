"""Corners: two sides of a triangle and the angle between them give the third side, by the law of cosines (Euclid,
Elements II.12-13). With the third side as one more distance, points that hang on each other follow one by one.

What is found so is exact where all branches are there and well apart; elsewhere the block is torn as any other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from itertools import combinations
from typing import Any

from drafting.records import dataclass
from drafting.solve.coupled.sequence import Order, Sequencer
from drafting.solve.coupled.tearing import MOST_BRANCHES
from drafting.solve.coupled.tracing import all_ends
from drafting.solve.kinds import ANGLE, DISTANCE, SQUARE
from drafting.solve.layout import Equation, Layout, added_equation
from drafting.solve.roots import cosine, root

Values = list[Any]
Pair = tuple[int, int]
Side = frozenset[Pair]
APART = 1e-4
"""How far two solutions must lie apart, relative to their largest number, for neither to be a touch."""


@dataclass(frozen=True)
class Corner:
    """Slots: of the third side between two `ends`, of the two others, and of the angle between them (None where it is
    square)."""

    ends: tuple[Pair, Pair]
    third: int
    sides: tuple[int, int]
    angle: int | None = None

    def close(self, values: Values) -> None:
        one, other = (values[side] for side in self.sides)
        between = 0.0 if self.angle is None else 2 * one * other * cosine(values[self.angle])
        values[self.third] = root(one * one + other * other - between)


@dataclass(frozen=True)
class Triangles:
    """The corners, each before those that stand on its third side, and the steps of the block that follow."""

    corners: tuple[Corner, ...]
    order: Order

    def all_places(self, values: Values, unknowns: tuple[int, ...]) -> list[tuple[float, ...]]:
        """The numbers of every solution; none where a branch is missing or two of them nearly touch."""
        for corner in self.corners:
            corner.close(values)
        found = list(all_ends(self.order.steps, values, unknowns))
        if len(found) < self.order.n_branches or not _are_apart(found):
            return []
        return found


def _are_apart(found: Sequence[tuple[float, ...]]) -> bool:
    size = max((abs(number) for numbers in found for number in numbers), default=0.0)
    return all(
        max(abs(a - b) for a, b in zip(one, other, strict=True)) > APART * size
        for one, other in combinations(found, 2)
    )


def find_triangles(layout: Layout, equations: Sequence[int], unknowns: Sequence[int]) -> Triangles | None:
    """A way through a block without computed nodes by the third sides of its corners, or None.

    The layout gets a slot for each third side, so this belongs to planning.
    """
    inner = set(unknowns)
    waiting = [e for e in equations if _is_corner(layout.equations[e], inner)]
    if not waiting:
        return None
    corners = _closed_corners(layout, waiting, _sides(layout, equations, inner))
    with _third_sides_asked(layout, corners):
        order = Sequencer(layout, equations, unknowns, ()).sequence(())
    if order.unreached or order.left_over or order.n_branches > MOST_BRANCHES:
        return None
    return Triangles(tuple(corners.values()), order)


def _closed_corners(layout: Layout, waiting: list[int], sides: dict[Side, int]) -> dict[int, Corner]:
    """The corners of which two sides are known, by their equations; a third side may be a side of the next corner."""
    corners: dict[int, Corner] = {}
    before = -1
    while before < len(corners):
        before = len(corners)
        for e in waiting:
            if e not in corners:
                _close(layout, e, sides, corners)
    return corners


@contextmanager
def _third_sides_asked(layout: Layout, corners: Mapping[int, Corner]) -> Iterator[None]:
    """For as long as steps are sought, the distance of its third side stands in place of the angle of each corner."""
    angles = {e: layout.equations[e] for e in corners}
    for e, corner in corners.items():
        layout.equations[e] = added_equation(DISTANCE, angles[e].fact, corner.ends, (corner.third,))
    try:
        yield
    finally:
        for e, angle in angles.items():
            layout.equations[e] = angle


def _sides(layout: Layout, equations: Sequence[int], inner: set[int]) -> dict[Side, int]:
    """Of each side whose length is known the slot of that length."""
    return {
        frozenset(equation.points): equation.scalars[0]
        for equation in (layout.equations[e] for e in equations)
        if equation.form is DISTANCE and inner.isdisjoint(equation.scalars)
    }


def _close(layout: Layout, e: int, sides: dict[Side, int], corners: dict[int, Corner]) -> None:
    first, vertex, last = _points_of(layout.equations[e])
    one, other = sides.get(frozenset((first, vertex))), sides.get(frozenset((vertex, last)))
    third_side = frozenset((first, last))
    if one is not None and other is not None and third_side not in sides:
        sides[third_side] = layout.new_slot(f"~side {len(layout.names)}")
        corners[e] = Corner((first, last), sides[third_side], (one, other), *layout.equations[e].scalars)


def _is_corner(equation: Equation, inner: set[int]) -> bool:
    """Whether it tells the angle between two sides that meet in a point."""
    if equation.form is ANGLE:
        return inner.isdisjoint(equation.scalars)
    one, other = set(equation.points[:2]), set(equation.points[2:])
    return equation.form is SQUARE and len(one & other) == 1 and len(one | other) == 3


def _points_of(corner: Equation) -> tuple[Pair, Pair, Pair]:
    """The ends and, between them, the vertex."""
    if corner.form is ANGLE:
        first, vertex, last = corner.points
        return first, vertex, last
    one, other = set(corner.points[:2]), set(corner.points[2:])
    [first], [vertex], [last] = one - other, one & other, other - one
    return first, vertex, last
