"""The ready-made forms are what sympy derives, and are right for numbers of both signs."""

from __future__ import annotations

import cmath
import math
import random
from pathlib import Path

import pytest

from drafting.solve import closed_forms
from drafting.solve.closed_forms import LOCI, VALUES
from drafting.solve.derive import closed_forms as derived_text
from drafting.solve.fact_kinds import FORMULAS

LOCUS_NAMES = sorted(LOCI)


def test_the_forms_in_use_are_freshly_derived() -> None:
    """A change of a formula without `python -m drafting.solve.derive` would go unseen otherwise."""
    assert Path(closed_forms.__file__).read_text(encoding="utf-8") == derived_text()


def numbers(name: str, dice: random.Random) -> tuple[list[tuple[float, float]], list[float]]:
    formula = FORMULAS[name]
    points = [(dice.uniform(-90, 90), dice.uniform(-90, 90)) for _ in formula.points]
    if formula.is_angle:
        angle = dice.uniform(-180, 180)
        return points, [math.cos(math.radians(angle)), math.sin(math.radians(angle))]
    return points, [dice.uniform(-9, 9) for _ in formula.scalars]


def value(name: str, points: list[tuple[float, float]], scalars: list[float], side: float) -> float:
    formula = FORMULAS[name]
    sides = [side] if formula.has_side else []
    return float(VALUES[name][0](*sides, *(part for point in points for part in point), *scalars))


def scale(name: str, points: list[tuple[float, float]], scalars: list[float]) -> float:
    """What an equation of this form amounts to in general, to compare rounding with."""
    return max(abs(part) for point in points for part in point) ** 4 + 1


@pytest.mark.parametrize(("name", "merge", "target"), LOCUS_NAMES)
def test_a_locus_is_zero_just_where_its_equation_is(name: str, merge: str, target: int) -> None:
    """Taken at any place, a locus says what the equation says, but for a factor that is the same everywhere."""
    dice = random.Random(f"{name} {merge} {target}")
    function, is_sided = LOCI[name, merge, target]
    for _ in range(20):
        points, scalars = numbers(name, dice)
        points = [points[int(twin)] for twin in merge]
        others = [points[i] for i in sorted(set(map(int, merge))) if i != target]
        origin = (dice.uniform(-50, 50), dice.uniform(-50, 50))
        factors = []
        for _ in range(3):
            x, y = dice.uniform(-90, 90), dice.uniform(-90, 90)
            here = [(x, y) if int(twin) == target else points[i] for i, twin in enumerate(merge)]
            if is_sided and not FORMULAS[name].has_side:
                at = math.prod(_at(function, origin, side, others, scalars, x, y) for side in (1.0, -1.0))
            else:
                sides = [1.0] if is_sided else []
                at = _at(function, origin, *sides, others, scalars, x, y)
            factors.append((value(name, here, scalars, 1.0), at))
        (one, one_locus), *rest = factors
        for other, other_locus in rest:
            if not math.isnan(one_locus):
                left, right = one * other_locus, other * one_locus
                assert left == pytest.approx(right, rel=1e-7, abs=1e-6 * max(1, abs(one * other)))


def _at(function, origin, *arguments) -> float:  # type: ignore[no-untyped-def]
    *sides, others, scalars, x, y = arguments
    k, a, b, c = function(*origin, *sides, *(part for point in others for part in point), *scalars)
    x, y = x - origin[0], y - origin[1]
    return k * (x * x + y * y) + a * x + b * y + c


@pytest.mark.parametrize("name", sorted(VALUES))
def test_slopes_are_what_a_small_step_shows(name: str) -> None:
    dice = random.Random(name)
    formula = FORMULAS[name]
    for side in (1.0, -1.0):
        points, scalars = numbers(name, dice)
        arguments = [*(part for point in points for part in point), *scalars]
        sides = [side] if formula.has_side else []
        slopes = VALUES[name][1](*sides, *arguments)
        assert len(slopes) == len(arguments)
        for index, slope in enumerate(slopes):
            low, high = list(arguments), list(arguments)
            low[index] -= 1e-4
            high[index] += 1e-4
            step = VALUES[name][0](*sides, *high) - VALUES[name][0](*sides, *low)
            assert slope == pytest.approx(step / 2e-4, rel=1e-5, abs=1e-5)


def test_a_chord_never_divides_by_a_difference_of_coordinates() -> None:
    """A level line, a plumb line and one between cross a circle of radius 5 about (1, 2) alike."""
    circle = (1.0, -2.0, -4.0, 1 + 4 - 25.0)
    for degrees in (0, 30, 90, 135, 180, 270):
        normal = cmath.rect(1, math.radians(degrees))
        line = (normal.real, normal.imag, -(normal.real * 1 + normal.imag * 2) - 3)
        x, y, way_x, way_y, half_squared, radius_squared = closed_forms.chord(*circle, *line)
        assert half_squared == pytest.approx(16)
        assert radius_squared == pytest.approx(25)
        for sign in (4, -4):
            px, py = x + sign * way_x, y + sign * way_y
            assert math.hypot(px - 1, py - 2) == pytest.approx(5)
            assert line[0] * px + line[1] * py + line[2] == pytest.approx(0, abs=1e-9)
