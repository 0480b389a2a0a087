"""Points and vectors are two types: a place and a move."""

from __future__ import annotations

from math import pi

import pytest

from drafting.geometry.faults import ZeroLength
from drafting.geometry.point import Point, Vector
from tests.geometry.figures import near


def test_places_and_moves_add_up() -> None:
    """Point and Vector combine only where that has a meaning."""
    assert Point(5, 7) - Point(2, 3) == Vector(3, 4)
    assert Point(2, 3) + Vector(3, 4) == Point(5, 7)
    assert Point(5, 7) - Vector(3, 4) == Point(2, 3)
    assert 2 * Vector(3, 4) - Vector(1, 1) == Vector(5, 7)
    assert -Vector(3, 4) / 2 == Vector(-1.5, -2)
    with pytest.raises(TypeError):
        Point(1, 1) + Point(2, 2)  # type: ignore[operator]
    with pytest.raises(TypeError):
        Vector(1, 1) + Point(2, 2)  # type: ignore[operator]


def test_a_vector_knows_its_length_and_directions() -> None:
    """Left is anticlockwise, with x to the right and y up."""
    assert Vector(3, 4).length == 5
    assert Vector(3, 4).unit() == Vector(0.6, 0.8)
    assert Vector(1, 0).turned_left() == Vector(0, 1)
    assert Vector(1, 0).cross(Vector(0, 1)) == 1
    assert Vector(1, 0).angle_to(Vector(0, -2)) == pytest.approx(-pi / 2)
    assert Vector.at_angle(pi / 6).y == pytest.approx(0.5)


def test_no_direction_comes_of_no_length() -> None:
    """A direction, or a mirror line, between one point and itself is a fault."""
    with pytest.raises(ZeroLength):
        Vector(0, 0).unit()
    with pytest.raises(ZeroLength):
        Point(1, 2).mirrored(Point(3, 3), Point(3, 3))


@pytest.mark.parametrize(
    ("a", "b", "expected"),
    [
        ((0, 0), (0, 9), (-3, 2)),
        ((0, 0), (9, 0), (3, -2)),
        ((0, 0), (5, 5), (2, 3)),
        ((10, 0), (10, -4), (17, 2)),
    ],
)
def test_a_mirror_line_goes_through_two_points(
    a: tuple[float, float], b: tuple[float, float], expected: tuple[float, float]
) -> None:
    """(3, 2) in several mirrors; the order of the two points makes no difference."""
    for first, second in ((a, b), (b, a)):
        assert near(Point(3, 2).mirrored(Point(*first), Point(*second)), Point(*expected))


def test_points_turn_and_grow_about_a_place() -> None:
    """A quarter turn anticlockwise, and twice the size."""
    assert near(Point(3, 1).turned(pi / 2, Point(1, 1)), Point(1, 3))
    assert Point(3, 1).scaled(2, Point(1, 1)) == Point(5, 1)
    assert Point(0, 0).midway(Point(4, 2)) == Point(2, 1)
