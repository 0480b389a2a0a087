"""Signs on the piece itself: the grain arrow and the name of the template, wherever there is free leather."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees, radians

from drafting.drawing.arrows import arrowhead, straight
from drafting.drawing.board import Board
from drafting.drawing.lettering import LINE_PITCH
from drafting.drawing.lines import GRAIN
from drafting.drawing.marks import DESCENT, ORIGIN, Group, Lettering
from drafting.geometry.point import Point, Vector
from drafting.solve.placed import PlacedPiece

GRAIN_LENGTHS = (60.0, 40.0, 25.0, 15.0)
GRAIN_HEIGHT = 2.5
GRID = 15
"""So many places across and up are tried for what may stand anywhere on the leather."""


def _degrees(along: Vector) -> float:
    return degrees(along.angle)


def grain_sign(board: Board, piece: PlacedPiece, scale: float) -> Group | None:
    """A double arrow along the grain with its word, on the first free place from the middle out."""
    if not isinstance(piece.grain, int | float):
        return None
    along = _readable(Vector.at_angle(radians(piece.grain)))
    leather = Leather(piece, scale)
    places = list(leather.places())
    for length in GRAIN_LENGTHS:
        for center in places:
            sign = _grain_at(center, along, length)
            if _lies_free(board, sign, leather):
                return sign
    return None


def _readable(along: Vector) -> Vector:
    backward = along.x < -1e-9 or (abs(along.x) <= 1e-9 and along.y < 0)
    return -along if backward else along


def _grain_at(center: Point, along: Vector, length: float) -> Group:
    first, last = center + along * (-length / 2), center + along * (length / 2)
    words = Lettering(
        "grain", center + along.turned_left() * 1.8, GRAIN_HEIGHT, "middle", _degrees(along), "grain"
    )
    strokes = (straight(GRAIN, first, last), arrowhead(first, -along, 3.5), arrowhead(last, along, 3.5))
    return Group("grain", "grain", (*strokes, words), title="direction of the grain")


def _lies_free(board: Board, sign: Group, leather: Leather) -> bool:
    """True when the sign lies on the leather and neither words nor lines touch it."""
    words = next(sign.letterings)
    line = next(sign.strokes).way
    side = (line.end - line.start).unit().turned_left()
    box = (line.start + side * -1.5, line.end + side * -1.5, line.end + side * 1.5, line.start + side * 1.5)
    on_leather = all(leather.is_at(point) for point in (*box, *words.corners))
    return on_leather and board.is_free_for(words, 1.0) and board.is_clear(box)


class Leather:
    """Where there is leather: inside the outline and not in what is taken out."""

    def __init__(self, piece: PlacedPiece, scale: float) -> None:
        self.outline = piece.outline.scaled(scale, ORIGIN)
        removed = [feature for feature in piece.features if feature.is_removed]
        self.gaps = [ring.scaled(scale, ORIGIN) for feature in removed for ring in feature.rings]

    def is_at(self, point: Point) -> bool:
        return self.outline.contains(point) and not any(gap.contains(point) for gap in self.gaps)

    def places(self) -> Iterator[Point]:
        """Places in a grid, from the middle out."""
        box = self.outline.bounds
        steps = [(column, row) for column in range(1, GRID) for row in range(1, GRID)]
        middle = GRID / 2
        for column, row in sorted(steps, key=lambda step: abs(step[0] - middle) + abs(step[1] - middle)):
            point = Point(box.min_x + box.width * column / GRID, box.min_y + box.height * row / GRID)
            if self.is_at(point):
                yield point


def name_sign(board: Board, piece: PlacedPiece, lines: list[tuple[str, float]], scale: float) -> Group | None:
    """The name of the piece and what to cut, on the template itself if there is room."""
    leather = Leather(piece, scale)
    for center in leather.places():
        words = name_block(lines, center)
        corners = [corner for line in words for corner in line.corners]
        free = all(board.is_free_for(line, 1.2) for line in words)
        if free and all(leather.is_at(corner) for corner in corners):
            return Group("name", "name", tuple(words), title=f"name of {piece.name}")
    return None


def name_block(lines: list[tuple[str, float]], center: Point) -> list[Lettering]:
    """Lines of words with their heights, stacked about a center."""
    whole = sum(height * LINE_PITCH for _, height in lines)
    y = center.y + whole / 2
    words = []
    for text, height in lines:
        y -= height * LINE_PITCH
        words.append(Lettering(text, Point(center.x, y + height * DESCENT), height, "middle", 0.0, "caption"))
    return words
