"""Signs on the piece itself: the grain arrow and the name of the template, wherever there is free leather."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees, radians

import numpy as np

from drafting.drawing.arrows import arrowhead, straight
from drafting.drawing.board import Board
from drafting.drawing.leather import Leather
from drafting.drawing.lettering import LINE_PITCH
from drafting.drawing.lines import GRAIN
from drafting.drawing.marks import DESCENT, ORIGIN, Group, Lettering
from drafting.drawing.obstacles import Box
from drafting.geometry.point import Point, Vector
from drafting.solve.placed import PlacedPiece

GRAIN_LENGTHS = (60.0, 40.0, 25.0, 15.0)
GRAIN_HEIGHT = 2.5


def _degrees(along: Vector) -> float:
    return degrees(along.angle)


def grain_sign(board: Board, piece: PlacedPiece, scale: float) -> Group | None:
    """A double arrow along the grain with its word, on the first free place from the middle out."""
    if not isinstance(piece.grain, int | float):
        return None
    along = _readable(Vector.at_angle(radians(piece.grain)))
    leather = Leather(piece, scale)
    places = leather.places()
    for length in GRAIN_LENGTHS:
        for center in places_for(_boxes(_grain_at(ORIGIN, along, length)), places, leather):
            sign = _grain_at(center, along, length)
            if _lies_free(board, sign):
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


def _boxes(sign: Group) -> tuple[Box, Box]:
    """What of it must lie on leather: the strip about its line, and its word."""
    words, line = next(sign.letterings), next(sign.strokes).way
    side = (line.end - line.start).unit().turned_left()
    strip = (line.start + side * -1.5, line.end + side * -1.5, line.end + side * 1.5, line.start + side * 1.5)
    return strip, words.corners


def _lies_free(board: Board, sign: Group) -> bool:
    """True when neither words nor lines touch the sign."""
    return board.is_free_for(next(sign.letterings), 1.0) and board.is_clear(_boxes(sign)[0])


def places_for(boxes: Sequence[Box], places: Sequence[Point], leather: Leather) -> list[Point]:
    """Those of some places at which all corners of boxes drawn about (0, 0) would lie on leather."""
    corners = np.array([(corner.x, corner.y) for box in boxes for corner in box])
    centers = np.array([(place.x, place.y) for place in places]).reshape(-1, 1, 2)
    is_there = leather.is_under((centers + corners).reshape(-1, 2)).reshape(len(places), len(corners))
    return [place for place, is_whole in zip(places, is_there.all(axis=1).tolist(), strict=True) if is_whole]


def name_sign(board: Board, piece: PlacedPiece, lines: list[tuple[str, float]], scale: float) -> Group | None:
    """The name of the piece and what to cut, on the template itself if there is room."""
    leather = Leather(piece, scale)
    boxes = [line.corners for line in name_block(lines, ORIGIN)]
    for center in places_for(boxes, leather.places(), leather):
        words = name_block(lines, center)
        if all(board.is_free_for(line, 1.2) for line in words):
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
