"""What the tests of this room share: a pattern text, placed, and the amounts it comes to."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from drafting import face
from drafting.geometry.point import Point
from drafting.text.source import Source

EXACT = 1e-9
SQUARE = """
  point foot: at (0, 0)
  point heel: level with foot; 40 mm right of foot
  point brow: plumb with heel; 60 mm above heel
  point tip: plumb with foot; level with brow
"""
"""Corners of a card 40 mm wide and 60 mm high, to be used inside a piece."""
CARD = f"""piece back:{SQUARE}  outline: foot to heel to brow to tip
"""
HALF = """piece back: mirrored over foot..tip
  point foot: at (0, 0)
  point heel: level with foot; 20 mm right of foot
  point brow: plumb with heel; 60 mm above heel
  point tip: plumb with foot; level with brow
  outline: foot to heel to brow to tip
"""
"""The same card, drafted as its right half."""


def drafted(text: str, size: str | None = None, **settings: face.Setting) -> face.PlacedPattern:
    """A pattern text placed; faults fail the test with their words."""
    return face.read(Source("test.draft", text)).place(size, **settings)


def check(
    text: str, expected: Mapping[str, float], size: str | None = None, **settings: face.Setting
) -> None:
    """The expressions, measured on the placed text, come to what is expected (mm, mm², degrees)."""
    placed = drafted(text, size, **settings)
    found = {asked: placed.measure(asked).value for asked in expected}
    assert found == {asked: pytest.approx(value, rel=EXACT, abs=EXACT) for asked, value in expected.items()}


def codes(text: str) -> list[str]:
    """The codes of all that is said of a text."""
    return [message.code for message in face.read(Source("test.draft", text)).check()]


def near(point: Point, x: float, y: float) -> bool:
    return point.distance_to(Point(x, y)) < EXACT
