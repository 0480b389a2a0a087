"""How close is the same, by name and in one place. Lengths are mm, angles radians."""

from __future__ import annotations

from math import pi

SAME_POINT = 1e-6
"""Two points nearer than this are one; legs that meet within it are joined."""

SAME_DIRECTION = 1e-9
"""Two directions that differ by less are one: the turn at a tangent corner, a parallel pair of lines."""

STRAIGHT = 1e-9
"""An arc that stands off its chord by no more than this is made a line."""

LARGEST_RADIUS = 1e9
"""Beyond this a double can no longer hold a point of the circle within SAME_POINT of where it belongs."""

SMOOTH = 1e-6
"""Legs that turn less than this where they meet make no corner: there is nothing to round."""

ON_OFFSET = 1e-8
"""How much nearer than its distance a place of an offset may come to the way it is offset from."""

LARGEST_FIT = 1e-4
"""How closely the largest distance that fits is found before it is told to the maker."""

MITRE_LIMIT = 4.0
"""A corner runs on to a point at most so many distances away and is rounded beyond: a needle-thin corner is
weak and hard to cut. At 4 all corners of 29 deg and more are pointed.
"""

FULL_TURN = 2 * pi
