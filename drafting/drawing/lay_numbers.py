"""Numbers on the reduced drawing of a sheet of stock: one for each part, the number of its kind.

It stands where the part is roomiest. Of the kinds that are too small for it the most frequent goes without, and the
notes say so; the others have theirs beside them on a leader.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from math import ceil, hypot, tau

import shapely
from shapely import LineString, Polygon, STRtree

from drafting.drawing.arrows import DOT_RADIUS, dot, straight
from drafting.drawing.lettering import natural_width
from drafting.drawing.lines import CUT, LEADER
from drafting.drawing.marks import Group, Lettering, Mark, Stroke
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector
from drafting.lay.flatten import COARSE, line_close, polygon_close
from drafting.lay.lays import LaidSheet, Lay, Spot, room_in

HEIGHTS = (3.5, 2.5, 1.8)
"""In mm on paper."""
CLEAR = 0.1
"""What stays free between a number on a part and the line round it, in mm on paper."""
BESIDE, BESIDE_CLEAR = HEIGHTS[1], 0.6
CROSSED = 3.0
"""A leader that crosses a line less may be so many mm longer."""
FIRST_OFF, STEP_OFF, MOST_OFF = 3.0, 1.5, 150.0
"""mm on paper from a part to its number on a leader."""
WAYS = 24


class Numbers:
    """The numbers of the parts on one sheet at a scale."""

    def __init__(self, lay: Lay, laid: LaidSheet, scale: float) -> None:
        self.lay, self.laid, self.scale = lay, laid, scale
        counts = Counter(spot.kind for spot in laid.spots)
        self.rooms = {kind: room_in(lay.kinds[kind].close) for kind in counts}
        self.heights = {kind: self.height_on(kind) for kind in counts}
        small = [kind for kind in counts if not self.heights[kind]]
        self.without = max(small, key=lambda kind: (counts[kind], kind), default=None)
        """The kind whose parts have no number."""

    def height_on(self, kind: int) -> float:
        """How high the number of a kind may be on its parts; 0 where none has room."""
        _, _, radius = self.rooms[kind]
        for height in HEIGHTS:
            half_diagonal = hypot(height, natural_width(str(kind + 1), height)) / 2
            if half_diagonal + CUT.width / 2 + CLEAR <= radius * self.scale:
                return height
        return 0.0

    def place(self, spot: Spot) -> Point:
        """The roomiest place on a part, on the paper."""
        x, y, _ = self.rooms[spot.kind]
        place = Point(x, y).turned(spot.turn * tau / 360, Point(0.0, 0.0)) + Vector(spot.x, spot.y)
        return Point(place.x * self.scale, place.y * self.scale)

    def on_part(self, spot: Spot) -> Iterator[Lettering]:
        """The number on a part that has room for it."""
        if height := self.heights[spot.kind]:
            yield _number(spot.kind, self.place(spot), height)

    def on_leaders(self, strokes: Sequence[Stroke]) -> Iterator[Group]:
        """The numbers beside parts that have no room for them; they stay off the lines of the stock."""
        beside = Beside(self.lay, self.laid, self.scale, strokes)
        for number, spot in enumerate(self.laid.spots, start=1):
            if not self.heights[spot.kind] and spot.kind != self.without:
                marks = beside.marks(spot.kind, self.place(spot))
                yield Group("note", f"number of part {number}", marks)


class Beside:
    """Finds places for numbers on bare leather or beside the stock."""

    def __init__(self, lay: Lay, laid: LaidSheet, scale: float, strokes: Sequence[Stroke]) -> None:
        parts = [lay.polygon(spot) for spot in laid.spots]
        sheet = laid.sheet
        scaled = [_scaled(shape, scale) for shape in (*parts, *sheet.defects, *sheet.poor)]
        self.taken = STRtree([*scaled, *(_line(stroke) for stroke in strokes)])
        self.numbers: list[Polygon] = []
        self.leaders: list[LineString] = []

    def marks(self, kind: int, place: Point) -> tuple[Mark, ...]:
        """The number at the best place that is free, with its leader."""
        _, box, leader = self.best(place, natural_width(str(kind + 1), BESIDE))
        self.numbers.append(box)
        self.leaders.append(leader)
        middle = Point(box.centroid.x, box.centroid.y)
        start = Point(*leader.coords[0])
        return _number(kind, middle, BESIDE), straight(LEADER, start, place), dot(place)

    def best(self, place: Point, wide: float) -> tuple[float, Polygon, LineString]:
        """Near, and with a leader across few lines; however crowded, the farthest place is taken rather than none."""
        found: list[tuple[float, Polygon, LineString]] = []
        for off, box in _places(place, wide):
            if found and found[0][0] <= off:
                break
            leader = shapely.shortest_line(box, shapely.Point(place.x, place.y))
            if self.is_free(box, leader):
                crossed = len(self.taken.query(leader, predicate="crosses"))
                found = [min([*found, (off + CROSSED * crossed, box, leader)], key=lambda one: one[0])]
        return found[0] if found else (off, box, leader)

    def is_free(self, box: Polygon, leader: LineString) -> bool:
        """Off all lines and numbers; the leader, too, off other numbers and off where other leaders end."""
        if len(self.taken.query(box, predicate="intersects")):
            return False
        ends = [shapely.Point(other.coords[-1]) for other in self.leaders]
        return (
            not any(box.intersects(other) for other in self.leaders)
            and not any(other.intersects(box) or other.intersects(leader) for other in self.numbers)
            and not any(leader.distance(end) < 2 * DOT_RADIUS for end in ends)
        )


def _places(place: Point, wide: float) -> Iterator[tuple[float, Polygon]]:
    """Boxes round a place, the nearest first, and how far off they are."""
    across, up = wide / 2 + BESIDE_CLEAR, BESIDE / 2 + BESIDE_CLEAR
    for ring in range(ceil((MOST_OFF - FIRST_OFF) / STEP_OFF)):
        off = FIRST_OFF + ring * STEP_OFF
        for way in range(WAYS):
            middle = place + Vector(off, 0.0).turned(way * tau / WAYS)
            yield off, shapely.box(middle.x - across, middle.y - up, middle.x + across, middle.y + up)


def _number(kind: int, middle: Point, height: float) -> Lettering:
    return Lettering(str(kind + 1), middle + Vector(0.0, -height / 2), height, "middle", use="label")


def _scaled(shape: Polygon, scale: float) -> Polygon:
    return shapely.transform(shape, lambda corners: corners * scale)


def _line(stroke: Stroke) -> LineString:
    if isinstance(stroke.way, Ring):
        return polygon_close(stroke.way, COARSE).exterior
    return LineString(line_close(stroke.way, COARSE))
