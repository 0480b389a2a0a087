"""What solving asks of the trade.

craft/ stands on solve/ and computes how leather folds and how a seam is pricked; a drawing needs such figures while it
is solved, since a strap is as long as its fold takes. So whoever drafts a pattern hands the trade down as one Trade.
Its methods raise Unbuildable with the trade's own words where a thing cannot be done, at the place they are given.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.text.source import Span


@dataclass(frozen=True)
class Asked:
    """What is asked for, by its maker's name, and where it is written: so a fault knows what to speak of."""

    name: str
    piece: str
    span: Span


class PunchedHole(Protocol):
    """A round hole."""

    @property
    def center(self) -> Point: ...

    @property
    def across(self) -> float: ...


class SlitCuts(Protocol):
    """A slit as it is cut: lines for the knife, holes, and the free ends that have no hole."""

    @property
    def cuts(self) -> tuple[Path, ...]: ...

    @property
    def holes(self) -> tuple[PunchedHole, ...]: ...

    @property
    def bare_ends(self) -> tuple[Point, ...]: ...


class Trade(Protocol):
    """The computations of craft/ that a drawing needs while it is solved. Lengths are mm, angles radians."""

    def fold_allowance(
        self, turn: float, inside: float, thickness: float, neutral: float, asked: Asked
    ) -> float:
        """The flat length that a fold round something `inside` thick takes up."""

    def slit(
        self, line: Path, end_holes: float, corner_holes: float, free: tuple[bool, bool], asked: Asked
    ) -> SlitCuts:
        """The cuts and holes of a slit along a line. Holes are given by their size across, 0 for none; `free` tells
        which of its two ends stop in the leather."""
