"""Lines from a point that just touch a path."""

from __future__ import annotations

import pytest

from drafting.geometry.curves import box, circle, obround
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tangents import touching_places
from tests.geometry.figures import near, polyline


@pytest.mark.parametrize(
    ("path", "point", "expected"),
    [
        (circle(Point(0, 0), 3), (5, 0), [(1.8, 2.4), (1.8, -2.4)]),
        (circle(Point(0, 0), 3), (1, 0), []),
        (circle(Point(0, 0), 3), (3, 0), []),
        (box(Point(0, 0), 10, 10), (20, 0), [(5, -5), (5, 5)]),
        (box(Point(0, 0), 10, 10), (20, 20), [(5, -5), (-5, 5)]),
        (box(Point(0, 0), 10, 10), (20, 5), [(5, -5)]),
        (polyline((0, 0), (10, 5), (20, 0)), (10, -20), []),
        (polyline((0, 0), (10, 5), (20, 0)), (40, 5), [(10, 5)]),
    ],
)
def test_touching_places(
    path: Path | Ring, point: tuple[float, float], expected: list[tuple[float, float]]
) -> None:
    """On arcs square to the radius, at corners that lie wholly on one side; none from inside or along an edge."""
    found = touching_places(path, Point(*point))
    assert len(found) == len(expected)
    assert all(near(place, Point(*wanted)) for place, wanted in zip(found, expected, strict=True))


def test_each_touching_line_is_tangent() -> None:
    ring = obround(Point(3, 1), 30, 10, 0.7)
    found = touching_places(ring, Point(60, -4))
    assert len(found) == 2
    for place in found:
        s = ring.locate(place)
        assert s is not None
        assert abs(ring.direction_at(s).cross((place - Point(60, -4)).unit())) < 1e-9
