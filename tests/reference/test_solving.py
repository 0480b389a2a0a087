"""Constraint problems with answers from outside, solved by the solver from their facts.

Each check names its source. "Derived" means that the answer follows from the formula named and was found a second
time by another road.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
import sympy

from drafting.geometry.point import Point
from drafting.model.expressions import Operation
from drafting.solve.findings import Contradiction, Loose, NearTouch, Repeated, SeveralPlaces
from tests.solve.sheets import Sheet, based, close, measure, number, only, plus

EXACT = 1e-6
"""mm, as the reference values ask."""


def minus(left: object, right: object) -> Operation:
    return Operation("-", left, right)  # type: ignore[arg-type]


def on_two_circles(a: tuple[float, float, float], b: tuple[float, float, float]) -> Sheet:
    sheet = Sheet()
    sheet.points_at(a=a[:2], b=b[:2])
    sheet.point("p")
    sheet.fact("distance", "p", "a", a[2])
    sheet.fact("distance", "p", "b", b[2])
    return sheet


# Circles and lines


@pytest.mark.parametrize(
    ("a", "b", "x", "y"), [((0, 0, 5), (6, 0, 5), 3, 4), ((0, 0, 13), (21, 0, 20), 5, 12)]
)
def test_two_circles(a, b, x, y) -> None:  # type: ignore[no-untyped-def]
    """Pythagorean triangles 3-4-5, 5-12-13 and 12-16-20. Derived."""
    finding = only(on_two_circles(a, b).found(), SeveralPlaces)
    assert sorted(finding.places) == [pytest.approx((x, -y)), pytest.approx((x, y))]
    for kind, height in (("above", y), ("below", -y)):
        sheet = on_two_circles(a, b)
        sheet.choice(kind, "p", "a")
        assert close(sheet.place("p"), x, height, within=1e-12)


def test_two_circles_that_touch() -> None:
    """(-3, 2) and (5, 8) are 10 apart, so circles of 5 touch at (1, 5). Derived."""
    solution = on_two_circles((-3, 2, 5), (5, 8, 5)).solved()
    only(solution.findings, NearTouch)
    assert close(solution.values["p"], 1, 5, within=EXACT)


@pytest.mark.parametrize(("across", "place"), [(15, [(5.0, 0.0), (-1.4, 4.8)]), (25, [(3.0, 4.0)])])
def test_a_circle_and_a_line(across: float, place: list[tuple[float, float]]) -> None:
    """x² + y² = 25 and 3 x + 4 y = 15, or 25, where it touches. Derived."""
    sheet = Sheet()
    sheet.points_at(hub=(0, 0), a=(across / 3, 0), b=(across / 3 - 4, 3))
    sheet.point("p")
    sheet.fact("distance", "p", "hub", 5)
    sheet.fact("on line", "p", "a", "b")
    solution = sheet.solved()
    if len(place) == 1:
        only(solution.findings, NearTouch)
        assert close(solution.values["p"], *place[0], within=EXACT)
        return
    finding = only(solution.findings, SeveralPlaces)
    for expected in place:
        assert any(math.dist(expected, found) < 1e-9 for found in finding.places)
    chord = math.dist(*finding.places)
    assert chord == pytest.approx(8)
    sheet.choice("above", "p", "hub")
    assert close(sheet.place("p"), -1.4, 4.8)


def tangent_of_two(r1: float, r2: float, apart: float) -> Sheet:
    """A line that touches both circles: square to both radii where it does."""
    sheet = Sheet()
    sheet.points_at(hub=(0, 0), post=(apart, 0))
    for key in ("s", "t"):
        sheet.point(key)
    sheet.fact("distance", "s", "hub", r1)
    sheet.fact("distance", "t", "post", r2)
    sheet.fact("square", "s", "t", "s", "hub")
    sheet.fact("square", "s", "t", "t", "post")
    return sheet


@pytest.mark.parametrize(
    ("radii", "apart", "touches", "length", "n_lines"),
    [
        ((5, 2), 5, ((3, 4), (6.2, 1.6)), 4, 2),
        ((7, 2), 13, ((35 / 13, 84 / 13), (179 / 13, 24 / 13)), 12, 4),
    ],
)
def test_a_line_that_touches_two_circles(radii, apart, touches, length, n_lines) -> None:  # type: ignore[no-untyped-def]
    """Circles that overlap have two common tangents, circles apart four. Derived: the outer one is
    √(c² - (r1 - r2)²) long."""
    sheet = tangent_of_two(*radii, apart)
    finding = only(sheet.found(), SeveralPlaces)
    assert len(finding.solutions) == n_lines
    for key in ("s", "t"):
        sheet.choice("above", key, "hub")
    values = sheet.solved().values
    assert close(values["s"], *touches[0], within=1e-9)
    assert close(values["t"], *touches[1], within=1e-9)
    assert values["s"].distance_to(values["t"]) == pytest.approx(length, abs=1e-9)


def test_tangents_from_a_point() -> None:
    """From 25 off the middle of a circle of 7 the tangent is 24 long, touching at (1.96, ±6.72). Derived."""
    from drafting.geometry.curves import circle

    sheet = Sheet()
    sheet.points_at(hub=(0, 0), toe=(25, 0))
    sheet.computed("ring", ["hub"], lambda hub: circle(hub, 7))
    sheet.point("p")
    sheet.fact("touching", "p", "ring", "toe")
    finding = only(sheet.found(), SeveralPlaces)
    assert sorted(finding.places) == [pytest.approx((1.96, -6.72)), pytest.approx((1.96, 6.72))]
    assert math.dist(finding.places[0], (25, 0)) == pytest.approx(24)


# Circles that touch circles


def touching_circles(
    circles: list[tuple[float, float, float]], inside: tuple[bool, ...], low: float, high: float
) -> Sheet:
    """A circle of unknown middle and radius that touches three others, from outside or holding them inside."""
    sheet = Sheet()
    sheet.point("hub")
    sheet.unknown("r", low, high)
    for index, ((x, y, radius), holds) in enumerate(zip(circles, inside, strict=True)):
        sheet.at(f"c{index}", x, y)
        apart = minus(measure("r"), number(radius)) if holds else plus(measure("r"), number(radius))
        sheet.fact("distance", "hub", f"c{index}", apart)
    return sheet


def test_the_circle_within_three_and_the_one_round_them() -> None:
    """Circles 1, 2, 3 about the corners of a 3-4-5 triangle: 6/23 at (21/23, 20/23) and 6 at (3, 4). Derived; outer
    radius OEIS A290931, first row 6 3 2 1."""
    circles = [(0.0, 0.0, 1.0), (3.0, 0.0, 2.0), (0.0, 4.0, 3.0)]
    values = touching_circles(circles, (False,) * 3, 0, 20).solved().values
    assert values["r"] == pytest.approx(6 / 23, abs=1e-9)
    assert close(values["hub"], 21 / 23, 20 / 23, within=1e-9)
    values = touching_circles(circles, (True,) * 3, 3, 20).solved().values
    assert values["r"] == pytest.approx(6, abs=1e-9)
    assert close(values["hub"], 3, 4, within=1e-9)


def test_a_circle_touched_by_three_circles_from_outside() -> None:
    """Circles of 3, 4, 8 about (5, 0), (0, 6), (-8, -6) all touch the circle of 2 about the origin. Derived."""
    circles = [(5.0, 0.0, 3.0), (0.0, 6.0, 4.0), (-8.0, -6.0, 8.0)]
    values = touching_circles(circles, (False,) * 3, 0, 40).solved().values
    assert values["r"] == pytest.approx(2, abs=1e-9)
    assert close(values["hub"], 0, 0, within=1e-9)


@pytest.mark.parametrize(
    ("curvatures", "range_of_r", "fourth"),
    [
        ((-1, 2, 2), (0.2, 0.4), 3),
        ((-6, 11, 14), (1 / 16, 1 / 14.5), 15),
        ((-6, 11, 14), (1 / 24, 1 / 22), 23),
        ((1, 1, 4), (0.05, 0.2), 12),
    ],
)
def test_four_circles_that_touch_each_other(curvatures, range_of_r, fourth) -> None:  # type: ignore[no-untyped-def]
    """Curvatures of four circles that touch: 2 Σk² = (Σk)² (Descartes). OEIS A274550, rows 12,4,1,1 and 15,3,2,2; the
    others derived. A negative curvature is a circle that holds the others."""
    scale = 100.0
    radii = [scale / k for k in curvatures]
    first, second, third = radii
    sheet = Sheet()
    sheet.at("a", 0, 0)
    sheet.at("b", abs(first + second), 0)
    sheet.point("c")
    sheet.fact("distance", "c", "a", abs(first + third))
    sheet.fact("distance", "c", "b", abs(second + third))
    if len({*curvatures}) == 3:
        sheet.choice("above", "c", "a")
    elif curvatures[0] > 0:
        sheet.choice("above", "c", "a")
    sheet.point("d")
    low, high = (scale * bound for bound in range_of_r)
    sheet.unknown("r", low, high)
    for key, radius in zip("abc", radii, strict=True):
        reach = plus(measure("r"), number(radius)) if radius > 0 else minus(number(-radius), measure("r"))
        sheet.fact("distance", "d", key, reach)
    if curvatures == (-1, 2, 2):
        sheet.choice("above", "d", "a")
    solution = sheet.solved()
    assert solution.values["r"] == pytest.approx(scale / fourth, rel=1e-9)
    k = [*curvatures, scale / solution.values["r"]]
    assert 2 * sum(one * one for one in k) == pytest.approx(sum(k) ** 2)


# Polygons and triangles


def left_of_a_line_toward(degrees: float) -> str:
    """On which side of the sheet the left hand of a walker lies."""
    if abs(degrees % 180 - 90) < 1:
        return "left of" if degrees < 180 else "right of"
    return "above" if math.cos(math.radians(degrees)) > 0 else "below"


@pytest.mark.parametrize(
    ("n", "area", "outer", "inner"),
    [
        (5, 1.720477, 0.850651, 0.688191),
        (6, 2.598076, 1.0, 0.866025),
        (8, 4.828427, 1.306563, 1.207107),
    ],
)
def test_a_regular_polygon_from_equal_sides_and_equal_angles(
    n: int, area: float, outer: float, inner: float
) -> None:
    """Side 1. Machinery's Handbook, 31st edition, p. 82 (4 decimals); more digits derived.

    The angle itself is not told: it is the one for which the last side comes back to the first corner.
    """
    side = 10.0
    sheet = Sheet()
    keys = [f"p{index}" for index in range(n)]
    sheet.at(keys[0], 0, 0)
    sheet.at(keys[1], side, 0)
    straight = 180 - 360 / n
    sheet.unknown("turn", straight - 4, straight + 4)
    for index, (before, corner, key) in enumerate(zip(keys, keys[1:], keys[2:], strict=False)):
        sheet.point(key)
        sheet.fact("distance", key, corner, side)
        sheet.fact("angle", before, corner, key, measure("turn"))
        sheet.choice(left_of_a_line_toward(360 / n * index), key, before, corner)
    sheet.fact("distance", keys[-1], keys[0], side)
    sheet.point("hub")
    sheet.fact("equal lengths", "hub", keys[0], "hub", keys[1])
    sheet.fact("equal lengths", "hub", keys[1], "hub", keys[2])
    solution = sheet.solved()
    assert solution.findings == ()
    values = solution.values
    assert values["turn"] == pytest.approx(straight, abs=1e-9)
    corners = [values[key] for key in keys]
    twice = sum(p.x * q.y - p.y * q.x for p, q in zip(corners, [*corners[1:], corners[0]], strict=True))
    assert twice / 2 / side**2 == pytest.approx(area, abs=1e-6)
    assert values["hub"].distance_to(corners[2]) / side == pytest.approx(outer, abs=1e-6)
    assert values["hub"].y / side == pytest.approx(inner, abs=1e-6)


def test_the_13_14_15_triangle() -> None:
    """Area 84, incircle 4, circumcircle 8.125, apex (5, 12) on the base of 14. Derived (Heron)."""
    sheet = Sheet()
    sheet.points_at(a=(0, 0), b=(14, 0))
    sheet.point("apex")
    sheet.fact("distance", "apex", "a", 13)
    sheet.fact("distance", "apex", "b", 15)
    sheet.choice("above", "apex", "a")
    sheet.point("round")
    sheet.fact("equal lengths", "round", "a", "round", "b")
    sheet.fact("equal lengths", "round", "b", "round", "apex")
    sheet.point("within")
    sheet.unknown("r", 0, 10)
    for one, other in (("a", "b"), ("b", "apex"), ("apex", "a")):
        sheet.fact("line distance", "within", one, other, measure("r"))
    sheet.choice("above", "within", "a", "b")
    sheet.choice("below", "within", "a", "apex")
    sheet.choice("below", "within", "apex", "b")
    solution = sheet.solved()
    assert solution.findings == ()
    values = solution.values
    assert close(values["apex"], 5, 12, within=1e-12)
    assert values["apex"].y * 14 / 2 == pytest.approx(84)
    assert values["round"].distance_to(Point(0, 0)) == pytest.approx(8.125, abs=1e-9)
    assert values["r"] == pytest.approx(4, abs=1e-9)
    mirrored = Sheet()
    mirrored.points_at(a=(0, 0), b=(14, 0))
    mirrored.point("apex")
    mirrored.fact("distance", "apex", "a", 13)
    mirrored.fact("distance", "apex", "b", 15)
    mirrored.choice("below", "apex", "a")
    assert close(mirrored.place("apex"), 5, -12, within=1e-12)


# Counting facts


def quadrilateral(*diagonals: float) -> Sheet:
    """Four points on a base; the base takes three freedoms of the whole, the sides are lengths."""
    sheet = based()
    for key in ("c", "d"):
        sheet.point(key)
    sheet.fact("distance", "c", "heel", 40)
    sheet.fact("distance", "d", "c", 50)
    sheet.fact("distance", "d", "foot", 45)
    for ends, length in zip((("c", "foot"), ("d", "heel")), diagonals, strict=False):
        sheet.fact("distance", *ends, length)
    sheet.choice("above", "c", "heel")
    sheet.choice("above", "d", "foot", "c")
    return sheet


def test_a_plane_frame_of_n_points_needs_2n_minus_3_lengths() -> None:
    """Triangle 3 hold; quadrilateral 4 leave one freedom, 5 hold, 6 are one too many. Laman 1970 (Geiringer 1927),
    J. Engineering Math. 4, 331-340."""
    triangle = based()
    triangle.point("c")
    triangle.fact("distance", "c", "foot", 40)
    triangle.fact("distance", "c", "heel", 50)
    triangle.choice("above", "c", "foot")
    assert triangle.found() == ()
    loose = quadrilateral().found()
    assert all(isinstance(finding, Loose) and finding.missing == 1 for finding in loose)
    assert quadrilateral(65).found() == ()
    values = quadrilateral(65).solved().values
    other = values["d"].distance_to(Point(60, 0))
    assert only(quadrilateral(65, other).found(), Repeated).tag.startswith("distance d heel")
    finding = only(quadrilateral(65, other + 1).found(), Contradiction)
    assert finding.misfit == pytest.approx(1)
    lengths = [tag for tag in finding.tags if tag.startswith("distance")]
    assert len(lengths) == 5, "with the base these are the six lengths of four points"


# Ladders


def test_crossed_ladders() -> None:
    """Ladders of 70 and 119 that cross 30 above the street: it is 56 wide, they lean at 42 and 105. Project Euler 309,
    the statement."""
    sheet = Sheet()
    sheet.at("left", 0, 0)
    for key in ("right", "low", "high", "cross"):
        sheet.point(key)
    sheet.fact("offset y", "right", "left", 0)
    sheet.fact("offset x", "low", "left", 0)
    sheet.fact("distance", "low", "right", 70)
    sheet.fact("offset x", "high", "right", 0)
    sheet.fact("distance", "high", "left", 119)
    sheet.fact("on stretch", "cross", "left", "high")
    sheet.fact("on stretch", "cross", "low", "right")
    sheet.fact("offset y", "cross", "left", 30)
    sheet.choice("right of", "right", "left")
    sheet.choice("above", "low", "left")
    sheet.choice("above", "high", "left")
    solution = sheet.solved()
    assert solution.findings == ()
    values = solution.values
    assert close(values["right"], 56, 0, within=EXACT)
    assert close(values["low"], 0, 42, within=EXACT)
    assert close(values["high"], 56, 105, within=EXACT)


# Another road to the same numbers


def test_a_surd_from_sympy() -> None:
    """A point 7 from (0, 0) and 5 from the line from (0, 0) to (2, 1), as exact roots by sympy 1.14."""
    x, y = sympy.symbols("x y", real=True)
    exact = sympy.solve([x**2 + y**2 - 49, (2 * y - x) ** 2 - 125], [x, y])
    places = sorted((float(a), float(b)) for a, b in exact)
    sheet = Sheet()
    sheet.points_at(a=(0, 0), b=(2, 1))
    sheet.point("p")
    sheet.fact("distance", "p", "a", 7)
    sheet.fact("line distance", "p", "a", "b", Fraction(5))
    finding = only(sheet.found(), SeveralPlaces)
    assert sorted(finding.places) == [pytest.approx(place, abs=1e-9) for place in places]
