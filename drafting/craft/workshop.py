"""The trade as solving asks for it: the computations of this room, told in a maker's names.

A CraftFault knows the figures and not the names; here it becomes an Unbuildable at the place it was asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from drafting.craft import bends
from drafting.craft.faults import CraftFault
from drafting.craft.slits import SlitRequest, cut_slit
from drafting.geometry.path import Path
from drafting.solve.lines import Unbuildable
from drafting.solve.trade import Asked, SlitCuts


@contextmanager
def told(asked: Asked) -> Iterator[None]:
    """Tell what cannot be done where it was asked for."""
    try:
        yield
    except CraftFault as fault:
        names = {"line": asked.name, "piece": asked.piece}
        raise Unbuildable(fault.entry, asked.span, **{**names, **fault.facts}) from fault


class Workshop:
    """A Trade."""

    def fold_allowance(
        self, turn: float, inside: float, thickness: float, neutral: float, asked: Asked
    ) -> float:
        with told(asked):
            return bends.fold_allowance(turn, inside, thickness, neutral)

    def slit(
        self, line: Path, end_holes: float, corner_holes: float, free: tuple[bool, bool], asked: Asked
    ) -> SlitCuts:
        with told(asked):
            return cut_slit(line, SlitRequest(end_holes, corner_holes, 0.0, *free))
