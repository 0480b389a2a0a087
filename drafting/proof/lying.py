"""How a piece lies on a sheet, in plain numbers: quarter turns about (0, 0), then a move.

A batch has hundreds of copies of one piece. What is read of each is laid back onto the piece as it was drafted, so that
the drafted lines need not be moved for every copy.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from drafting.drawing.prints import Shown
from drafting.geometry.bounds import Bounds
from drafting.geometry.point import Point
from drafting.proof.expected import Box, Measures
from drafting.records import dataclass

Place = tuple[float, float]
TURNS = ((1, 0), (0, 1), (-1, 0), (0, -1))
"""Cosine and sine of each quarter."""


@dataclass(frozen=True)
class Lying:
    cosine: int
    sine: int
    across: float
    up: float

    @classmethod
    def of(cls, shown: Shown) -> Lying:
        return cls(*TURNS[shown.quarters % 4], shown.move.x, shown.move.y)

    def place(self, point: Point) -> Place:
        """Where a point of the piece lies on the sheet."""
        x, y = point.x, point.y
        return self.cosine * x - self.sine * y + self.across, self.sine * x + self.cosine * y + self.up

    def places(self, points: Any) -> Any:
        """The same for an array of places."""
        turned = np.array([(self.cosine, self.sine), (-self.sine, self.cosine)], dtype=float)
        return points @ turned + np.array((self.across, self.up))

    def box(self, bounds: Bounds) -> Box:
        """The box on the sheet of something on the piece."""
        corners = Point(bounds.min_x, bounds.min_y), Point(bounds.max_x, bounds.max_y)
        return box_of_two(*(self.place(corner) for corner in corners))

    def back(self, place: Place) -> Place:
        """The place of the piece that lies at a place of the sheet."""
        x, y = place[0] - self.across, place[1] - self.up
        return self.cosine * x + self.sine * y, self.cosine * y - self.sine * x

    def places_back(self, places: Any) -> Any:
        """The same for an array of places."""
        turned = np.array([(self.cosine, -self.sine), (self.sine, self.cosine)], dtype=float)
        return (places - (self.across, self.up)) @ turned

    def measures_back(self, read: Measures) -> Measures:
        """What was read on the sheet as it is on the piece."""
        box = box_of_two(self.back(read.box[:2]), self.back(read.box[2:]))
        return Measures(read.length, read.area, box, self.places_back(read.places))


def box_of_two(first: Place, second: Place) -> Box:
    """The box between two opposite corners."""
    (ax, ay), (bx, by) = first, second
    return (min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))
