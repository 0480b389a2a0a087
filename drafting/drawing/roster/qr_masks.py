"""Which of its eight masks makes a QR code that cameras read best (ISO/IEC 18004, 7.8.3), for all of them at once.

Codes lie over each other in an array of masks, rows and columns, True where black. Each is counted as it is printed,
with its format and the white round it.
"""

from __future__ import annotations

import numpy
from numpy.typing import NDArray

Squares = NDArray[numpy.bool_]
Counts = NDArray[numpy.int64]

CORNER = (True, False, True, True, True, False, True)
"""Black and white of a line through the middle of a corner mark."""
WHITE = 4
"""Squares of white before or after it, with which it is taken for one."""


def least_penalty(masked: Squares) -> Squares:
    """The code with the fewest penalty points, the first of those that have as few."""
    best: Squares = masked[int(numpy.argmin(penalties(masked)))]
    return best


def penalties(masked: Squares) -> Counts:
    """The points of each code: runs and corner marks in rows and in columns, blocks, and how black it is."""
    upright = masked.swapaxes(1, 2)
    lines = sum(count(way) for count in (_runs, _corners) for way in (masked, upright))
    return lines + 3 * _blocks(masked) + 10 * _unbalance(masked)


def _runs(masked: Squares) -> Counts:
    """Three points for five squares of one colour in a row, and one for each more."""
    same = masked[:, :, 1:] == masked[:, :, :-1]
    five = same[:, :, :-3] & same[:, :, 1:-2] & same[:, :, 2:-1] & same[:, :, 3:]
    begun = five.copy()
    begun[:, :, 1:] &= ~five[:, :, :-1]
    return _count(five) + 2 * _count(begun)


def _corners(masked: Squares) -> Counts:
    """Forty points for what looks like a corner mark with white before or after it."""
    wide = numpy.pad(masked, ((0, 0), (0, 0), (WHITE, WHITE)))
    size = masked.shape[2] - len(CORNER) + 1
    parts = [wide[:, :, at : at + size] for at in range(2 * WHITE + len(CORNER))]
    squares = parts[WHITE:-WHITE]
    marks = numpy.all([square == black for square, black in zip(squares, CORNER, strict=True)], axis=0)
    has_black = [numpy.any(side, axis=0) for side in (parts[:WHITE], parts[-WHITE:])]
    return 40 * _count(marks & ~(has_black[0] & has_black[1]))


def _blocks(masked: Squares) -> Counts:
    """Two by two squares of one colour, also where they overlap."""
    first = masked[:, :-1, :-1]
    others = (masked[:, 1:, :-1], masked[:, :-1, 1:], masked[:, 1:, 1:])
    return _count(numpy.all([other == first for other in others], axis=0))


def _unbalance(masked: Squares) -> Counts:
    """How many whole steps of 5 % the part of black is from half."""
    whole = masked.shape[1] * masked.shape[2]
    steps: Counts = numpy.abs(2 * _count(masked) - whole) * 10 // whole
    return steps


def _count(marked: Squares) -> Counts:
    counts: Counts = numpy.count_nonzero(marked, axis=(1, 2))
    return counts
