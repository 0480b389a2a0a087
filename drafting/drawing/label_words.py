"""The words of labels and stamps where the maker put them: never mirrored, in their box or at their height.

A box is filled with letters as high as the series allows; without a box the letters have the height that was asked
for. Where a line runs through, the words move a little, then shrink; the caller tells on a leader what fits nowhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees, radians

from drafting.drawing.board import Board
from drafting.drawing.lettering import HEIGHTS, LINE_PITCH, natural_width, plain_text, wrap
from drafting.drawing.marks import DESCENT, ORIGIN, Group, Lettering
from drafting.geometry.curves import box
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector
from drafting.solve.placed import PlacedFeature, PlacedPiece

PLAIN_HEIGHT = 3.5
"""Of words for which no height was asked."""
SHRINKING = (1.0, 0.8, 0.6)
SHIFTS = (0.0, 0.6, -0.6, 1.3, -1.3)
"""How far words without a box may move across themselves, in lettering heights."""


def inscription(board: Board, feature: PlacedFeature, scale: float) -> Group | None:
    """The words of a label or stamp, or nothing where none fit."""
    if not words_of(feature) or feature.center is None:
        return None
    blocks = _in_box(feature, scale) if feature.rings else _at_height(feature, scale)
    for words in blocks:
        if all(board.is_free_for(line, 0.2) for line in words):
            return Group("inscription", feature.name, tuple(words), title=f"{feature.kind} {feature.name}")
    return None


def words_of(feature: PlacedFeature) -> str:
    return plain_text(feature.text or "") if feature.kind in ("label", "stamp") else ""


def boxes_of_words(piece: PlacedPiece, scale: float) -> list[Ring]:
    """Where words will stand, for lines that stop for them; where two overlap only the first."""
    boxes: list[Ring] = []
    for feature in piece.features:
        if words_of(feature) and feature.center is not None:
            rings = [ring.scaled(scale, ORIGIN) for ring in feature.rings] or [_room_for(feature, scale)]
            boxes += [ring for ring in rings if not any(ring.bounds.overlaps(one.bounds) for one in boxes)]
    return boxes


def _room_for(feature: PlacedFeature, scale: float) -> Ring:
    """The box about words that have none."""
    assert feature.center is not None
    height = asked_height(feature) * scale
    width = natural_width(words_of(feature), height) + height
    return box(feature.center.scaled(scale, ORIGIN), width, 1.9 * height, radians(feature.direction or 0.0))


def asked_height(feature: PlacedFeature) -> float:
    """Of capitals in true size: as the maker says it."""
    return feature.sizes.get("high", PLAIN_HEIGHT)


def _at_height(feature: PlacedFeature, scale: float) -> Iterator[list[Lettering]]:
    """One line of words about the center, moved a little, then smaller."""
    assert feature.center is not None
    along = Vector.at_angle(radians(feature.direction or 0.0))
    center = feature.center.scaled(scale, ORIGIN)
    for shrink in SHRINKING:
        height = asked_height(feature) * scale * shrink
        for shift in SHIFTS:
            at = center + along.turned_left() * (height * (shift - 0.5))
            yield [Lettering(words_of(feature), at, height, "middle", degrees(along.angle), "label")]


def _in_box(feature: PlacedFeature, scale: float) -> Iterator[list[Lettering]]:
    """Words in the box, the largest that fit first, in the middle and then moved up and down."""
    assert feature.center is not None
    along = Vector.at_angle(radians(feature.direction or 0.0))
    wide, high = box_sizes(feature.rings[0], along, scale)
    for height in reversed(HEIGHTS):
        lines = wrap(words_of(feature), height, wide - 1.0)
        block = height * (1 + (len(lines) - 1) * LINE_PITCH)
        spare = high - block - height * DESCENT - 0.8
        if spare >= 0 and all(natural_width(line, height) <= wide - 1.0 for line in lines):
            yield from _blocks(lines, feature.center.scaled(scale, ORIGIN), along, height, spare)


def box_sizes(ring: Ring, along: Vector, scale: float) -> tuple[float, float]:
    """What the box measures along the words and across them."""
    moves = [leg.start - ring.start for leg in ring.legs]
    wide = [move.dot(along) for move in moves]
    high = [move.dot(along.turned_left()) for move in moves]
    return (max(wide) - min(wide)) * scale, (max(high) - min(high)) * scale


def _blocks(
    lines: list[str], center: Point, along: Vector, height: float, spare: float
) -> Iterator[list[Lettering]]:
    """Lines of words about a center, then moved up and down as far as the box allows."""
    up, angle = along.turned_left(), degrees(along.angle)
    rise = ((len(lines) - 1) * LINE_PITCH - 1) * height / 2 + height * DESCENT / 4
    for shift in (0.0, 0.25, -0.25, 0.48, -0.48):
        top = center + up * (rise + shift * spare)
        yield [
            Lettering(line, top + up * (-LINE_PITCH * height * index), height, "middle", angle, "label")
            for index, line in enumerate(lines)
        ]
