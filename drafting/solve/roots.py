"""Square roots and angle functions for floats and arrays alike, exact where a draft expects it.

The cosine of 90 deg is nought here, not 6e-17: `at 90 deg from P` must be exactly plumb.
"""

from __future__ import annotations

import math
from typing import Any

from drafting.geometry.maths import NotOneNumber


def root(value: Any) -> Any:
    """The square root; of a negative number not a number."""
    if isinstance(value, float):
        return math.sqrt(value) if value >= 0.0 else math.nan
    if isinstance(value, int):
        return root(float(value))
    return value**0.5


_EXACT_SINES = {0.0: 0.0, 30.0: 0.5, 90.0: 1.0, 150.0: 0.5, 180.0: 0.0, 210.0: -0.5, 270.0: -1.0, 330.0: -0.5}


def sine(degrees: Any) -> Any:
    if hasattr(degrees, "shape"):
        return _sine_of_array(degrees)
    try:
        turn = math.fmod(degrees, 360.0)
    except NotOneNumber:
        return degrees.by(_sine_of_array)
    if turn < 0.0:
        turn += 360.0
    exact = _EXACT_SINES.get(turn)
    return math.sin(math.radians(turn)) if exact is None else exact


def cosine(degrees: Any) -> Any:
    return sine(degrees + 90.0)


def _sine_of_array(degrees: Any) -> Any:
    import numpy

    turn = numpy.mod(degrees, 360.0)
    found = numpy.sin(numpy.radians(turn))
    for angle, exact in _EXACT_SINES.items():
        found = numpy.where(turn == angle, exact, found)
    return found
