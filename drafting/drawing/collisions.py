"""What overlaps on a finished sheet: words on words, and words on lines.

Takes any Drawing and tells every fault, whoever placed the marks. A drafter lets lines cross, never words.
"""

from __future__ import annotations

from collections.abc import Iterable

from drafting.drawing.marks import Drawing, Lettering, Segment
from drafting.drawing.obstacles import Box, box_meets_segment, boxes_touch, segments_of
from drafting.geometry.bounds import Bounds
from drafting.records import dataclass


@dataclass(frozen=True)
class Collision:
    """Words, and what they lie on: other words, a line of some kind, or the edge of the sheet."""

    text: str
    on: str


def collisions(drawing: Drawing) -> list[Collision]:
    """Every overlap on the sheet, in the order of the drawing."""
    words = [lettering for lettering in drawing.letterings if lettering.text]
    found = [*_words_on_words(words), *_words_off_sheet(drawing, words)]
    places = [(lettering, lettering.bounds, lettering.corners) for lettering in words]
    for stroke in drawing.strokes:
        found += _words_on_line(places, stroke.kind.name, segments_of(stroke.way), stroke.half_width)
    for flecks in drawing.flecks:
        found += _words_on_line(places, flecks.kind.name, flecks.segments, flecks.half_width)
    return found


def _words_on_words(words: list[Lettering]) -> list[Collision]:
    boxes = [lettering.corners for lettering in words]
    bounds = [lettering.bounds for lettering in words]
    order = sorted(range(len(words)), key=lambda index: bounds[index].min_x)
    found = []
    for place, one in enumerate(order):
        for other in order[place + 1 :]:
            if bounds[other].min_x > bounds[one].max_x:
                break
            if bounds[one].overlaps(bounds[other]) and boxes_touch(boxes[one], boxes[other]):
                found.append(Collision(words[one].text, words[other].text))
    return found


def _words_off_sheet(drawing: Drawing, words: list[Lettering]) -> list[Collision]:
    sheet = Bounds(0.0, 0.0, drawing.width, drawing.height)
    return [
        Collision(lettering.text, "the edge of the sheet")
        for lettering in words
        if not all(sheet.contains(corner) for corner in lettering.corners)
    ]


def _words_on_line(
    places: list[tuple[Lettering, Bounds, Box]], name: str, segments: Iterable[Segment], half: float
) -> list[Collision]:
    """The words that a line of straight pieces touches."""
    pieces = list(segments)
    reach = _bounds_of(pieces).grown(half)
    return [
        Collision(lettering.text, name)
        for lettering, bounds, box in places
        if bounds.overlaps(reach) and any(box_meets_segment(box, segment, half) for segment in pieces)
    ]


def _bounds_of(segments: list[Segment]) -> Bounds:
    xs = [x for segment in segments for x in segment[::2]]
    ys = [y for segment in segments for y in segment[1::2]]
    return Bounds(min(xs), min(ys), max(xs), max(ys))
