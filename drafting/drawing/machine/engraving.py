"""Words as lines to engrave, in the room that lettering of a drawing would take."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import radians

from drafting.drawing.arrows import cross
from drafting.drawing.board import Board
from drafting.drawing.label_words import inscription
from drafting.drawing.lines import CUT, MARK
from drafting.drawing.marks import ORIGIN, Group, Lettering, Stroke
from drafting.drawing.stroke_letters import stroke_text, stroke_width
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.reading import mirrored_reading
from drafting.solve.placed import PlacedFeature

CROSS = 2.0
"""How far the arms of an engraved cross reach, in mm."""


def engraved(words: Lettering) -> list[Path | Ring]:
    """The strokes of words, as high as asked and no wider than the words would be printed."""
    natural = stroke_width(words.text, words.height)
    if natural == 0.0:
        return []
    height = words.height * min(1.0, words.width / natural)
    shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[words.anchor] * natural * height / words.height
    move = Vector(words.at.x, words.at.y)
    return [
        line.moved(Vector(-shift, 0.0)).turned(radians(words.angle), ORIGIN).moved(move)
        for line in stroke_text(words.text, height)
    ]


def engraved_feature(feature: PlacedFeature, beside: Sequence[Path | Ring] = ()) -> list[Path | Ring]:
    """The words of a label or stamp where the maker put them, or the cross of a mark.

    Words move a little, or are smaller, where a line `beside` them would run through; nothing is engraved where that
    does not help.
    """
    if feature.kind == "mark":
        return list(engraved_cross(feature.center)) if feature.center else []
    if is_for_roster(feature):
        return []
    board = Board()
    board.add(Group("lines", "lines", tuple(Stroke(CUT, way) for way in beside)))
    words = inscription(board, feature, 1.0)
    return [line for lettering in words.letterings for line in engraved(lettering)] if words else []


def is_for_roster(feature: PlacedFeature) -> bool:
    """Whether its words are a column of a table, one value to each item: `{name}` is engraved on none of them."""
    text = feature.text or ""
    return text.startswith("{") and text.endswith("}")


def engraved_cross(center: Point) -> tuple[Path | Ring, ...]:
    return tuple(stroke.way for stroke in cross(MARK, center, Vector(1.0, 0.0), CROSS))


TURNING = Point(0.0, 0.0), Point(0.0, 1.0)
"""The plumb line about which a piece of a pair is turned over."""


def words_on(
    feature: PlacedFeature, beside: Sequence[Path | Ring], is_turned: bool = False
) -> list[Path | Ring]:
    """The same for a piece that is turned over or not: words always read from left to right."""
    if not is_turned:
        return engraved_feature(feature, beside)
    return engraved_feature(turned_over(feature), [way.mirrored(*TURNING) for way in beside])


def turned_over(feature: PlacedFeature) -> PlacedFeature:
    """A label or stamp in its place on the piece turned over."""
    return replace(
        feature,
        center=feature.center.mirrored(*TURNING) if feature.center else None,
        direction=None if feature.direction is None else mirrored_reading(feature.direction, 90.0),
        rings=tuple(ring.mirrored(*TURNING) for ring in feature.rings),
    )
