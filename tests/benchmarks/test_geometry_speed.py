"""How long the heavier questions of geometry take on an outline of 500 legs. Run by name; no test waits for them."""

from __future__ import annotations

from math import cos, pi, sin

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from drafting.geometry.corners import round_corners
from drafting.geometry.intersect import self_intersections
from drafting.geometry.offset import offset_ring
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from tests.geometry.figures import polygon


@pytest.fixture(scope="module")
def scallops() -> Ring:
    """A ring of 250 rounded teeth: lines and arcs by turns."""
    count = 250
    places = []
    for index in range(count):
        reach, turn = (300.0 if index % 2 else 294.0), 2 * pi * index / count
        places.append((reach * cos(turn), reach * sin(turn)))
    return round_corners(polygon(*places), 1.5)


def test_self_intersections(benchmark: BenchmarkFixture, scallops: Ring) -> None:
    assert benchmark(self_intersections, scallops) == []


@pytest.mark.parametrize("distance", [-3.0, 3.0])
def test_offset(benchmark: BenchmarkFixture, scallops: Ring, distance: float) -> None:
    moved = benchmark(offset_ring, scallops, distance)
    assert (moved.area > scallops.area) == (distance > 0)


def test_many_places(benchmark: BenchmarkFixture, scallops: Ring) -> None:
    """A thousand places along the outline, as a stitch line asks for."""
    stops = [scallops.length * index / 1000 for index in range(1000)]
    assert len(benchmark(lambda: [scallops.point_at(s) for s in stops])) == 1000


def test_many_insides(benchmark: BenchmarkFixture, scallops: Ring) -> None:
    """Two hundred points, inside or not."""
    points = [Point(3.0 * index - 300, 40.0) for index in range(200)]
    assert sum(benchmark(lambda: [scallops.contains(point) for point in points])) > 150
