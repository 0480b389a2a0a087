"""Where there is leather, asked of many places at once and of one at a time."""

from __future__ import annotations

import numpy as np
import pytest

from drafting.drawing.leather import Leather
from drafting.geometry.curves import box, circle
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.records import replace
from drafting.solve.placed import PlacedFeature, PlacedPiece
from tests.drawing.samples import SAMPLES, piece


def window(outline: Ring) -> PlacedFeature:
    """A feature that is cut out, with another outline."""
    pieces = [piece for make in SAMPLES.values() for piece in make().pieces.values()]
    removed = [one for piece in pieces for one in piece.features if one.is_removed and one.rings]
    return replace(removed[0], rings=(outline,))


def panel() -> PlacedPiece:
    """A panel with a round hole, and round corners so wide that their chords lie far off them."""
    outline = box(Point(0, 0), 90_000, 60_000, rounded=20_000)
    return replace(piece("panel", outline), features=(window(circle(Point(0, 0), 12_000)),))


@pytest.mark.parametrize("off", [-1.0, -1e-3, -3e-6, 3e-6, 1e-3, 1.0])
@pytest.mark.parametrize("turn", np.linspace(0.05, 1.5, 7).tolist())
def test_near_a_bow_each_place_is_judged_by_the_bow_itself(off: float, turn: float) -> None:
    leather = Leather(panel(), 1.0)
    beside_hole = (12_000 + off) * np.array([np.cos(turn), np.sin(turn)])
    at_corner = np.array([25_000, 10_000]) + (20_000 + off) * np.array([np.cos(turn), np.sin(turn)])
    assert leather.is_under(np.array([beside_hole, at_corner])).tolist() == [off > 0, off < 0]


@pytest.mark.parametrize("name", SAMPLES)
def test_many_at_once_are_judged_as_one_at_a_time(name: str) -> None:
    for drawn in SAMPLES[name]().pieces.values():
        leather, around = Leather(drawn, 0.7), drawn.outline.bounds.grown(3.0)
        xs, ys = np.linspace(around.min_x, around.max_x, 23), np.linspace(around.min_y, around.max_y, 23)
        places = 0.7 * np.array([(x, y) for x in xs for y in ys])
        assert leather.is_under(places).tolist() == [leather.is_at(Point(x, y)) for x, y in places.tolist()]


def test_there_is_leather_on_the_edge_of_a_piece_and_none_on_the_edge_of_a_hole() -> None:
    leather = Leather(panel(), 1.0)
    assert leather.is_under(np.array([(45_000.0, 0.0), (12_000.0, 0.0)])).tolist() == [True, False]
