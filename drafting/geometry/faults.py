"""What cannot be drawn, with the facts a message needs.

Every fault of this room is a GeometryFault. The caller knows the maker's names for the places and lengths in
it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drafting.geometry.point import Point


class GeometryFault(Exception):
    """Something asked of lines and arcs that has no answer."""


class ZeroLength(GeometryFault):
    """A leg, or a direction, between two points that are one."""

    def __init__(self, place: Point) -> None:
        super().__init__(f"nothing leads from ({place.x:.6g}, {place.y:.6g}) to itself")
        self.place = place


class NotJoined(GeometryFault):
    """Two legs of a path do not meet. `index` is that of the later leg."""

    def __init__(self, index: int, end: Point, start: Point) -> None:
        super().__init__(f"leg {index} starts {end.distance_to(start):.6g} mm from the end of the leg before")
        self.index, self.end, self.start = index, end, start


class OffTheLine(GeometryFault):
    """A length along a leg or path that lies before its start or past its end."""

    def __init__(self, asked: float, length: float) -> None:
        super().__init__(f"{asked:.6g} mm is not on a line of {length:.6g} mm")
        self.asked, self.length = asked, length


class NotPositive(GeometryFault):
    """A size that must be more than nothing. `what` is the word for it."""

    def __init__(self, what: str, asked: float) -> None:
        super().__init__(f"{what} is {asked:.6g}, and must be more than 0")
        self.what, self.asked = what, asked


class TooFlat(GeometryFault):
    """An arc so flat that its circle is too large to be held; `radius` is that of the circle."""

    def __init__(self, radius: float) -> None:
        super().__init__(f"the arc would need a radius of {radius:.3g} mm: make it straight or bow it more")
        self.radius = radius


class BowTooHigh(GeometryFault):
    """An arc of more than half a circle where at most half a circle is meant."""

    def __init__(self, height: float, largest: float) -> None:
        super().__init__(f"a bow of {height:.6g} mm is more than half a circle; {largest:.6g} mm is the most")
        self.height, self.largest = height, largest


class RadiusTooSmall(GeometryFault):
    """A radius that cannot reach from the one end to the other."""

    def __init__(self, radius: float, smallest: float) -> None:
        super().__init__(f"a radius of {radius:.6g} mm does not reach; {smallest:.6g} mm is the least")
        self.radius, self.smallest = radius, smallest


class NotOneCircle(GeometryFault):
    """Two ends that are not equally far from the center they should share."""

    def __init__(self, from_start: float, from_end: float) -> None:
        super().__init__(f"the center is {from_start:.6g} mm from the start, {from_end:.6g} mm from the end")
        self.from_start, self.from_end = from_start, from_end


class InLine(GeometryFault):
    """Three points in one line, where a circle should go through them."""

    def __init__(self, points: tuple[Point, Point, Point]) -> None:
        super().__init__("three points in a line have no circle through them")
        self.points = points


class TwoWaysRound(GeometryFault):
    """Start and end lie opposite each other, so that neither way round the center is the short one."""

    def __init__(self, center: Point) -> None:
        super().__init__("start and end lie opposite each other on the circle: both ways round are as long")
        self.center = center


class TurnsBack(GeometryFault):
    """A tangent arc whose end lies straight behind its start."""

    def __init__(self, start: Point, end: Point) -> None:
        super().__init__("the end lies straight behind the start: no arc leaves one way and arrives there")
        self.start, self.end = start, end


class NeedsDirection(GeometryFault):
    """A smooth leg with no through point and no direction said at either end."""

    def __init__(self) -> None:
        super().__init__("a smooth leg needs a point to pass through, or a direction at one of its ends")


class NoCorner(GeometryFault):
    """A corner to be rounded or clipped where the way goes on smoothly."""

    def __init__(self, place: Point) -> None:
        super().__init__("there is no corner here: the way goes on smoothly")
        self.place = place


class DoesNotFit(GeometryFault):
    """A rounded or clipped corner that its legs have no room for.

    `largest` is the largest size that fits, or None when no size does.
    """

    def __init__(self, place: Point, asked: float, largest: float | None) -> None:
        most = "nothing fits" if largest is None else f"{largest:.6g} mm is the most"
        super().__init__(f"{asked:.6g} mm does not fit at this corner; {most}")
        self.place, self.asked, self.largest = place, asked, largest


class CornersMeet(GeometryFault):
    """Two rounded corners that need more of the leg between them than there is.

    `leg_index` is that leg, `first` and `second` the corners at its ends by index, `needs` what they take
    together, `has` its length. `largest` is the largest size of the second corner that leaves the first as
    it is.
    """

    def __init__(
        self, leg_index: int, first: int, second: int, needs: float, has: float, largest: float | None
    ) -> None:
        super().__init__(f"two corners take {needs:.6g} mm of a leg of {has:.6g} mm")
        self.leg_index, self.first, self.second = leg_index, first, second
        self.needs, self.has, self.largest = needs, has, largest


class OffsetBreaksUp(GeometryFault):
    """An offset that falls apart, or of which nothing is left.

    `place` is where it breaks first, `largest` the largest distance that holds together, `vanishes` tells an
    offset that shrinks away from one that falls apart.
    """

    def __init__(self, place: Point, asked: float, largest: float, vanishes: bool) -> None:
        how = "vanishes" if vanishes else "falls apart"
        super().__init__(f"an offset of {asked:.6g} mm {how}; {largest:.6g} mm is the most")
        self.place, self.asked, self.largest, self.vanishes = place, asked, largest, vanishes


class CutMisses(GeometryFault):
    """A cutting line that does not cross the ring, or leaves nothing of it."""

    def __init__(self, place: Point) -> None:
        super().__init__("the line does not cut this ring in two")
        self.place = place


class CutFallsApart(GeometryFault):
    """A cut that leaves more than one ring on the side that is kept. `places` are points of each."""

    def __init__(self, places: tuple[Point, ...]) -> None:
        super().__init__(f"the cut leaves {len(places)} separate parts")
        self.places = places
