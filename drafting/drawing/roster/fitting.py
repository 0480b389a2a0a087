"""Words fitted to the box of a stamp, or set at its height, as lines on the piece.

The middle of the capitals lies in the middle of the box, and all ink stays MARGIN of the box's height off its edges, so
that a line of names looks alike whether or not a letter reaches below the line. Words are never mirrored, on a twin
neither; there they read the way that is nearer to the original's.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import degrees, radians

from drafting.drawing.label_words import asked_height, box_sizes
from drafting.drawing.roster.letters import Inked
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass, replace
from drafting.solve.placed import PlacedFeature, PlacedPiece

MARGIN = 0.1
"""Of the height of a box, left free at each of its edges (common practice, no source)."""


@dataclass(frozen=True)
class Room:
    """Where the words of a stamp come to lie: about `center`, along a direction, in a box `wide` by `high` or, where
    that is None, at the `height` that is asked for."""

    center: Point
    along: Vector
    wide: float | None
    high: float | None
    height: float | None

    @property
    def angle(self) -> float:
        """In degrees."""
        return degrees(self.along.angle)

    def moved(self, move: Vector) -> Room:
        return replace(self, center=self.center + move)


def room_of(stamp: PlacedFeature) -> Room:
    assert stamp.center is not None
    along = Vector.at_angle(radians(stamp.direction or 0.0))
    if not stamp.rings:
        return Room(stamp.center, along, None, None, asked_height(stamp))
    wide, high = box_sizes(stamp.rings[0], along, 1.0)
    margin = MARGIN * high
    return Room(stamp.center, along, max(wide - 2 * margin, 0.0), max(high - 2 * margin, 0.0), None)


def fitted_height(room: Room, words: Inked) -> float:
    """How high capitals are in mm where all ink just finds room."""
    if room.height is not None:
        return room.height
    assert room.wide is not None and room.high is not None
    left, low, right, high = words.box
    wide, tall = max(right - left, 1e-9), 2 * max(high, -low, 0.5)
    return min(room.wide / wide, room.high / tall)


def laid(room: Room, words: Inked, height: float) -> tuple[Path | Ring, ...]:
    """The lines on the piece, in mm."""
    across, up = room.along * height, room.along.turned_left() * height
    x0, y0 = room.center.x, room.center.y
    placed = (
        [Point(x0 + x * across.x + y * up.x, y0 + x * across.y + y * up.y) for x, y in line]
        for line in words.lines
    )
    return tuple(way for line in placed if (way := _way(line)))


def _way(places: Sequence[Point]) -> Path | Ring | None:
    """Straight steps through places, of which neighbours that are one count once; a lone dot is no line."""
    kept = list(places[:1])
    for place in places[1:]:
        if place.distance_to(kept[-1]) > SAME_POINT:
            kept.append(place)
    if len(kept) < 2:
        return None
    is_closed = len(kept) > 3 and kept[0].distance_to(kept[-1]) <= SAME_POINT
    legs = [Line(start, end) for start, end in pairwise([*kept[:-1], kept[0]] if is_closed else kept)]
    return Ring(legs) if is_closed else Path(legs)


def is_on(piece: PlacedPiece, ways: Sequence[Path | Ring]) -> bool:
    """Whether all places of some lines lie on the leather of a piece."""
    return all(piece.cutting.contains(place) for way in ways for place in (way.start, *way.corners, way.end))
