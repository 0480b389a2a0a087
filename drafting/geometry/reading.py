"""Which way words run after a mirror: they are moved with what is mirrored, and never mirrored themselves."""

from __future__ import annotations

from drafting.geometry.maths import cos, radians


def mirrored_reading(direction: float, axis: float) -> float:
    """Of the two ways along the mirrored line of words the one nearer to how they ran; all in degrees.

    >>> mirrored_reading(0.0, 90.0), mirrored_reading(60.0, 90.0), mirrored_reading(90.0, 90.0)
    (0.0, 120.0, 90.0)
    """
    mirrored = 2 * axis - direction
    is_nearer = cos(radians(mirrored - direction)) >= -1e-9
    return (mirrored if is_nearer else mirrored + 180.0) % 360.0
