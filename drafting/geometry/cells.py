"""Things kept by where they are, in square cells, so that those near a place are found without looking at all."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor
from typing import Generic, TypeVar

from drafting.geometry.maths import NotOneNumber
from drafting.geometry.point import Point

Thing = TypeVar("Thing")
Cell = tuple[int, int]


class Cells(Generic[Thing]):
    """Cells of a width. A place that varies from size to size has no cell: it is near every place."""

    def __init__(self, width: float) -> None:
        self.width = width
        self._anywhere: list[Thing] = []
        self._by_cell: dict[Cell, list[Thing]] = {}
        self._all: list[Thing] = []

    def put(self, point: Point, thing: Thing) -> None:
        cell = self._cell_if_any(point)
        self._all.append(thing)
        if cell is None:
            self._anywhere.append(thing)
        else:
            self._by_cell.setdefault(cell, []).append(thing)

    def near(self, point: Point) -> Iterator[Thing]:
        """All within the width of a place, and others."""
        cell = self._cell_if_any(point)
        if cell is None:
            yield from self._all
            return
        column, row = cell
        for across in (-1, 0, 1):
            for up in (-1, 0, 1):
                yield from self._by_cell.get((column + across, row + up), ())
        yield from self._anywhere

    def at(self, column: int, row: int) -> list[Thing]:
        """Those of one cell."""
        return self._by_cell.get((column, row), [])

    def cell_of(self, point: Point) -> Cell:
        return floor(float(point.x) / self.width), floor(float(point.y) / self.width)

    def _cell_if_any(self, point: Point) -> Cell | None:
        try:
            return self.cell_of(point)
        except NotOneNumber:
            return None
