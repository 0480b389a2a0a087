"""QR codes (ISO/IEC 18004) as black squares in a square of paper, with the white round them that a camera needs.

segno says which squares are black. Level M mends 15 % of a code; more where that costs no larger one.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import groupby
from typing import TYPE_CHECKING, Any

import numpy

from drafting.drawing.lines import LineKind
from drafting.drawing.marks import Group, Ticks
from drafting.drawing.roster.qr_masks import Squares, least_penalty
from drafting.geometry.point import Point
from drafting.records import dataclass

if TYPE_CHECKING:
    import segno

QUIET = 4
"""Squares left white on each side (ISO/IEC 18004)."""
LEAST_MODULE = 0.35
"""mm: squares smaller than this run together on home printers (common practice, no source)."""
LARGEST_MODULE = 1.0


@dataclass(frozen=True)
class Code:
    """The squares of a code from its top, row by row, True where black, and what it says."""

    text: str
    rows: tuple[tuple[bool, ...], ...]

    def module(self, side: float) -> float:
        """How large its squares are in a square of a side, in mm."""
        return min(side / (len(self.rows) + 2 * QUIET), LARGEST_MODULE)

    def group(self, middle: Point, side: float) -> Group:
        """Black squares beside each other are one broad line."""
        module = self.module(side)
        left = middle.x - len(self.rows) * module / 2
        top = middle.y + len(self.rows) * module / 2
        lines = []
        for number, row in enumerate(self.rows):
            up = top - (number + 0.5) * module
            at = 0
            for is_black, run in groupby(row):
                count = len(list(run))
                if is_black:
                    lines.append((Point(left + at * module, up), Point(left + (at + count) * module, up)))
                at += count
        return Group("qr", "qr", (Ticks(_kind(module), tuple(lines)),), title="QR code", note=self.text)


@lru_cache(maxsize=16)
def _kind(module: float) -> LineKind:
    return LineKind("qr", "QR code", "", module)


def code_of(text: str) -> Code | None:
    """None for a text that is longer than any code can hold."""
    from segno.encoder import DataOverflowError

    try:
        first = _masked(text, 0)
    except DataOverflowError:
        return None
    changes = _changes(first.version, first.error)
    return Code(text, tuple(map(tuple, least_penalty(_squares(first) ^ changes).tolist())))


def _masked(text: str, mask: int, **form: Any) -> segno.QRCode:
    """The code under one mask: where none is named segno tries each, square by square, which takes it long."""
    import segno

    encoding = None if text.isascii() else "utf-8"
    asked = {"error": "m", "encoding": encoding, "eci": encoding is not None, **form}
    return segno.make_qr(text, mask=mask, **asked)


def _squares(code: segno.QRCode) -> Squares:
    return numpy.array(code.matrix, dtype=bool)


@lru_cache(maxsize=64)
def _changes(version: int, error: str) -> Squares:
    """Which squares change from mask 0 to each mask: the same ones, whatever a code of this form says."""
    masks = [
        _squares(_masked("0", mask, version=version, error=error, boost_error=False)) for mask in range(8)
    ]
    return numpy.array([mask ^ masks[0] for mask in masks])
