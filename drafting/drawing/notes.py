"""What is told on a leader: radii, clipped corners, and the sizes of slots, holes, rows and openings.

A Note has its words and all the places it may point to; equal notes are told once with their count: `4× R 6`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import cos, pi, sin

from drafting.drawing.amounts import Figures
from drafting.drawing.edge_words import beside_edge_words
from drafting.drawing.lettering import short_words
from drafting.drawing.marks import ORIGIN
from drafting.drawing.seams import Letters, all_letters, letter_words
from drafting.drawing.spans import SAME_PLACE, is_disc
from drafting.drawing.work_words import base_name, lines_words, punch_words, work_words
from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass
from drafting.solve.placed import PlacedCorner, PlacedFeature, PlacedPiece, PlacedStitches

LARGEST_RADIUS = 2000.0
"""Flatter bows than this are not told by their radius."""
MOST_BOWS = 4
"""A line of more bows is a smooth one, and is not told bow by bow."""
MOST_TARGETS = 48
LONG_WORDS = 22
"""In letters; shorter notes stay on one line."""
WELL_BROKEN = 0.75
"""What the longer of two lines may have of all letters."""
CIRCLE_STEPS = 16
SEAM_STEPS = 20
SMOOTH_TURN = 1e-4
"""Bows whose directions differ by less, in radians, go on without a corner."""


@dataclass(frozen=True)
class Target:
    """A place a leader may point to, and a direction it may come from."""

    tip: Point
    outward: Vector


@dataclass(frozen=True)
class Note:
    name: str
    text: str
    targets: tuple[Target, ...]

    @property
    def texts(self) -> tuple[tuple[str, ...], ...]:
        """The words on one line and, if they are long and break well, on two."""
        broken = broken_in_two(self.text) if len(self.text) > LONG_WORDS else None
        return ((self.text,), broken) if broken else ((self.text,),)


def broken_in_two(text: str) -> tuple[str, str] | None:
    """Two lines of words as long as each other: words break anywhere, figures before a bracket or after a comma.

    >>> broken_in_two("opening 52 × 84, R 5 [2.047 × 3.307, R 0.197]")
    ('opening 52 × 84, R 5', '[2.047 × 3.307, R 0.197]')
    """
    breaks = [place for place in range(1, len(text)) if text[place] == " "]
    has_figures = any(letter.isdigit() for letter in text)
    good = [one for one in breaks if not has_figures or text[one + 1] == "[" or text[one - 1] == ","]
    if not good:
        return None
    place = min(good, key=lambda place: (abs(place - len(text) / 2), place))
    lines = text[:place], text[place + 1 :]
    return lines if max(len(line) for line in lines) <= WELL_BROKEN * len(text) else None


def notes_of(piece: PlacedPiece, figures: Figures, scale: float, letters: Letters) -> list[Note]:
    """All notes of a piece: its outline first, then its features in the order they are written."""
    single = [*_outline_notes(piece, figures), *_feature_notes(piece, figures, letters)]
    return _told_once(single, scale)


def letters_of(piece: PlacedPiece, scale: float, letters: Letters) -> list[Note]:
    """Only the letters of its seams."""
    single = [
        Note(feature.name, words, tuple(_hole_targets(line)))
        for feature in piece.features
        for line in feature.stitches
        if (words := letter_words(letters.get(f"{piece.name}.{line.name}", ())))
    ]
    return _told_once(single, scale)


def _told_once(single: Iterable[Note], scale: float) -> list[Note]:
    notes = []
    for text, group in _grouped(single).items():
        count = len(group)
        targets = _spread([target for note in group for target in note.targets])
        words = counted(count, text)
        notes.append(Note(group[0].name, words, tuple(_scaled(target, scale) for target in targets)))
    return notes


def counted(count: int, text: str) -> str:
    """`4× R 6`; what has a count of its own stands in brackets: `2× (5× ⌀3, 11 apart)`."""
    if count == 1:
        return text
    return f"{count}× ({text})" if "× ⌀" in text else f"{count}× {text}"


def _grouped(notes: Iterable[Note]) -> dict[str, list[Note]]:
    grouped: dict[str, list[Note]] = {}
    for note in notes:
        grouped.setdefault(note.text, []).append(note)
    return grouped


def _spread(targets: list[Target]) -> list[Target]:
    """At most MOST_TARGETS of them, from all over."""
    step = -(-len(targets) // MOST_TARGETS)
    return targets[:: max(step, 1)]


def _scaled(target: Target, scale: float) -> Target:
    return Target(target.tip.scaled(scale, ORIGIN), target.outward)


def _outline_notes(piece: PlacedPiece, figures: Figures) -> Iterator[Note]:
    if is_disc(piece.outline):
        arc = piece.outline.legs[0]
        assert isinstance(arc, Arc)
        yield Note("outline", figures.phrase("⌀|{}", 2 * arc.radius), _circle_targets(arc.center, arc.radius))
        return
    for corner in piece.corners:
        yield from _corner_note(corner, figures)
    bows = list(_free_bows(piece))
    if len({round(bow.radius, 2) for bow in bows}) <= MOST_BOWS:
        yield from (Note("outline", figures.phrase("R |{}", bow.radius), _way_targets(bow)) for bow in bows)


def _corner_note(corner: PlacedCorner, figures: Figures) -> Iterator[Note]:
    if corner.run is None:
        return
    targets = tuple(target for leg in corner.run.legs for target in _way_targets(leg))
    if corner.kind == "fillet":
        yield Note(corner.name, figures.phrase("R |{}", corner.size), targets)
    elif corner.kind == "clip":
        sizes = sorted((corner.size, corner.second_size or corner.size))
        yield Note(corner.name, figures.phrase("clip |{} × {}", *sizes), targets)


def _free_bows(piece: PlacedPiece) -> Iterator[Arc]:
    """The bows of the outline that are not rounded corners, each circle once; smooth chains of bows are left out, for
    nobody draws them by compass."""
    rounded = [
        leg for corner in piece.corners if corner.run for leg in corner.run.legs if isinstance(leg, Arc)
    ]
    legs = [leg for leg in piece.outline.legs if not any(_is_same_arc(leg, arc) for arc in rounded)]
    told: list[Arc] = []
    for leg in legs:
        if isinstance(leg, Arc) and leg.radius <= LARGEST_RADIUS and not _is_smooth(leg, legs):
            if not any(_on_same_circle(leg, arc) for arc in told):
                told.append(leg)
    yield from told


def _is_smooth(arc: Arc, legs: Sequence[Leg]) -> bool:
    """True when a bow of another circle goes on from this one, or leads into it, without a corner."""
    return any(
        isinstance(other, Arc)
        and not _on_same_circle(arc, other)
        and (_goes_on(arc, other) or _goes_on(other, arc))
        for other in legs
    )


def _goes_on(first: Arc, second: Arc) -> bool:
    turn = first.direction_at(first.length).cross(second.direction_at(0.0))
    return first.end.distance_to(second.start) < SAME_PLACE and abs(turn) < SMOOTH_TURN


def _is_same_arc(leg: Leg, other: Arc) -> bool:
    """The same circle and overlapping middles, whichever way each is walked."""
    if not isinstance(leg, Arc) or not _on_same_circle(leg, other):
        return False
    return other.distance_to_point(leg.point_at(leg.length / 2)) < SAME_PLACE


def _on_same_circle(one: Arc, other: Arc) -> bool:
    return one.center.distance_to(other.center) < SAME_PLACE and abs(one.radius - other.radius) < SAME_PLACE


def _way_targets(leg: Leg) -> tuple[Target, ...]:
    """Places along a leg, seen from both sides."""
    targets = []
    for part in (0.5, 0.3, 0.7):
        side = leg.direction_at(leg.length * part).turned_left()
        tip = leg.point_at(leg.length * part)
        targets += [Target(tip, side), Target(tip, -side)]
    return tuple(targets)


def _circle_targets(center: Point, radius: float) -> tuple[Target, ...]:
    turns = (2 * pi * (step + 0.5) / CIRCLE_STEPS for step in range(CIRCLE_STEPS))
    directions = [Vector(cos(turn), sin(turn)) for turn in turns]
    return tuple(Target(center + direction * radius, direction) for direction in directions)


def _feature_notes(piece: PlacedPiece, figures: Figures, letters: Letters) -> Iterator[Note]:
    for feature in piece.features:
        yield from _seam_notes(piece, feature, letters)
        words = feature_words(feature, piece, figures)
        if words:
            yield Note(feature.name, words, tuple(_feature_targets(feature)))


def _seam_notes(piece: PlacedPiece, feature: PlacedFeature, letters: Letters) -> Iterator[Note]:
    """Name, count and letter of a stitch, of all its lines together; the notes of the sheet tell more."""
    if not feature.stitches:
        return
    met = [letters.get(f"{piece.name}.{line.name}", ()) for line in feature.stitches]
    words = [f"stitch {base_name(feature)}", lines_words(feature.stitches), letter_words(all_letters(met))]
    targets = tuple(target for line in feature.stitches for target in _hole_targets(line))
    yield Note(feature.name, ", ".join(word for word in words if word), targets)
    if len(met) > 1 and len({*met}) > 1:
        # Which line of a comb is which is told at its first: the others follow in their order.
        yield Note(feature.name, letter_words(met[0]), tuple(_hole_targets(feature.stitches[0])))


def _hole_targets(line: PlacedStitches) -> Iterator[Target]:
    """Places of holes all along a line, seen from both sides."""
    holes = line.layout.holes
    for hole in holes[:: max(1, len(holes) // SEAM_STEPS)]:
        side = hole.direction.unit().turned_left()
        yield Target(hole.point, side)
        yield Target(hole.point, -side)


def feature_words(feature: PlacedFeature, piece: PlacedPiece, figures: Figures) -> str:
    """What a feature measures, and the maker's note on it."""
    measured = work_words(feature, figures) or measured_words(feature, figures)
    measured = measured or beside_edge_words(feature, piece, figures)
    measured += punch_words(feature)
    note = short_words(feature.note or "")
    if not measured and note and feature.kind not in ("label", "stamp"):
        measured = feature.kind
    return f"{measured}, {note}" if measured and note else measured


def measured_words(feature: PlacedFeature, figures: Figures) -> str:
    sizes = feature.sizes
    if feature.kind == "hole" and "across" in sizes:
        return figures.phrase("⌀|{}", sizes["across"])
    if feature.kind == "row" and "across" in sizes:
        count = len(feature.holes)
        if count > 1 and "apart" in sizes:
            return f"{count}× {figures.phrase('⌀|{}, {}| apart', sizes['across'], sizes['apart'])}"
        return figures.phrase("⌀|{}", sizes["across"])
    if feature.kind == "slot" and "long" in sizes and "wide" in sizes:
        return figures.phrase("slot |{} × {}", sizes["long"], sizes["wide"])
    if feature.kind == "opening":
        return _opening_words(feature, figures)
    if feature.kind == "notch" and "deep" in sizes:
        return _notch_words(sizes, figures)
    return ""


def _notch_words(sizes: Mapping[str, float], figures: Figures) -> str:
    if "wide" in sizes:
        return figures.phrase("notch |{} × {}| deep", sizes["wide"], sizes["deep"])
    return figures.phrase("notch |{}| deep", sizes["deep"])


def _opening_words(feature: PlacedFeature, figures: Figures) -> str:
    sizes = feature.sizes
    if "across" in sizes:
        return figures.phrase("opening ⌀|{}", sizes["across"])
    if "width" not in sizes or "height" not in sizes:
        return _free_opening_words(feature, figures)
    radius = sizes.get("radius", 0.0)
    if radius > 0:
        return figures.phrase("opening |{} × {}, R {}", sizes["width"], sizes["height"], radius)
    return figures.phrase("opening |{} × {}", sizes["width"], sizes["height"])


def _free_opening_words(feature: PlacedFeature, figures: Figures) -> str:
    """For an opening along a path: how wide and high it is over all."""
    if not feature.rings:
        return ""
    box = feature.rings[0].bounds
    return figures.phrase("opening |{} × {}| over all", box.width, box.height)


def _feature_targets(feature: PlacedFeature) -> Iterator[Target]:
    for hole in feature.holes[:: max(1, len(feature.holes) // 6)]:
        yield from _circle_targets(hole.center, hole.across / 2)
    for ring in feature.rings:
        yield from _ring_targets(ring)
    for path in feature.paths:
        yield from _line_targets(path)
    if not (feature.holes or feature.rings or feature.paths) and feature.center is not None:
        yield from _circle_targets(feature.center, 0.0)


def _ring_targets(ring: Ring) -> Iterator[Target]:
    """Places round a closed line, each seen from outside."""
    for place in range(CIRCLE_STEPS):
        s = ring.length * (place + 0.5) / CIRCLE_STEPS
        yield Target(ring.point_at(s), -ring.inward_at(s))


def _line_targets(path: Path) -> Iterator[Target]:
    legs = sorted(path.legs, key=lambda leg: -leg.length)[:6]
    for leg in legs:
        yield from _way_targets(leg)
