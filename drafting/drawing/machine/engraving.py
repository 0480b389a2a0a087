"""Words as lines to engrave, in the room that lettering of a drawing would take."""

from __future__ import annotations

from dataclasses import replace
from math import radians

from drafting.drawing.arrows import cross
from drafting.drawing.board import Board
from drafting.drawing.label_words import inscription
from drafting.drawing.lines import MARK
from drafting.drawing.marks import ORIGIN, Lettering
from drafting.drawing.stroke_letters import stroke_text, stroke_width
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
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


def engraved_feature(feature: PlacedFeature) -> list[Path | Ring]:
    """The words of a label or stamp where the maker put them, or the cross of a mark."""
    if feature.kind == "mark":
        return list(engraved_cross(feature.center)) if feature.center else []
    words = inscription(Board(), feature, 1.0)
    return [line for lettering in words.letterings for line in engraved(lettering)] if words else []


def engraved_cross(center: Point) -> tuple[Path | Ring, ...]:
    return tuple(stroke.way for stroke in cross(MARK, center, Vector(1.0, 0.0), CROSS))


def turned_over(feature: PlacedFeature, a: Point, b: Point) -> PlacedFeature:
    """A label or stamp on a piece that is turned over about a plumb line: in its new place it still reads from left to
    right."""
    return replace(
        feature,
        center=feature.center.mirrored(a, b) if feature.center else None,
        direction=-feature.direction if feature.direction else feature.direction,
        rings=tuple(ring.mirrored(a, b) for ring in feature.rings),
    )
