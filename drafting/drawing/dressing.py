"""A piece with all its words: view, dimensions, notes, signs, placed on one board so that nothing overlaps.

The order decides who gives way: the lines of the piece never move, then come labels as they lie, dimension lines, notes
on leaders, the grain, and last the name on the template.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import pi

from drafting.drawing.amounts import Figures, trimmed
from drafting.drawing.board import Board
from drafting.drawing.label_words import inscription, words_of
from drafting.drawing.lanes import place_spans_on
from drafting.drawing.leader_choices import Axis
from drafting.drawing.leaders import place_notes_on
from drafting.drawing.lettering import plain_text, short_words
from drafting.drawing.marks import ORIGIN, Group
from drafting.drawing.notes import Note, Target, letters_of, notes_of
from drafting.drawing.places import fewest, place_spans
from drafting.drawing.seams import Letters
from drafting.drawing.signs import grain_sign, name_sign
from drafting.drawing.spans import Span, asked_spans, merged, overall_spans
from drafting.drawing.view import piece_view
from drafting.geometry.bounds import Bounds
from drafting.geometry.line import Line
from drafting.geometry.point import Vector
from drafting.records import dataclass, replace
from drafting.solve.placed import PlacedFeature, PlacedPiece

NUMBER_HEIGHT = 2.5
"""Of the numbers that stand for notes without a place."""
SMALL_PIECE = 70.0
"""Pieces smaller than this, in mm, are dimensioned in 2.5 mm figures, the others in 3.5 mm."""


@dataclass(frozen=True)
class Dressed:
    """A drawn piece, the box around all of it, where the middle of the piece itself is, and what could not be
    told on it."""

    group: Group
    bounds: Bounds
    middle: float
    remarks: tuple[str, ...]


def dress_fully(piece: PlacedPiece, figures: Figures, letters: Letters) -> Dressed:
    """True size, with everything that is measured."""
    height = lettering_height(piece)
    dressing = _Dressing(piece, 1.0, height, with_guides=True)
    untold = dressing.inscribe()
    places = place_spans(piece, figures, 1.0)
    drawn = fewest(places)
    spans = [*asked_spans(piece, figures, 1.0), *overall_spans(piece, figures, 1.0), *drawn]
    dressing.measure(merged(spans))
    dressing.tell_and_point([*notes_of(piece, figures, 1.0, letters), *untold])
    dressing.take(lambda board: name_sign(board, piece, template_lines(piece, height), 1.0))
    if len(places) > len(drawn):
        dressing.remarks.append(
            f"{len(places) - len(drawn)} more places of features and corners: take them off this true-size sheet."
        )
    return dressing.result


def dress_plainly(piece: PlacedPiece, figures: Figures, scale: float, letters: Letters) -> Dressed:
    """For the overview: overall sizes, labels, grain and the letters of seams."""
    dressing = _Dressing(piece, scale, 2.5, with_guides=False)
    dressing.inscribe()
    dressing.measure(overall_spans(piece, figures, scale))
    if not overall_spans(piece, figures, scale):
        dressing.tell(notes_of(piece, figures, scale, letters)[:1])
    dressing.point_grain()
    dressing.tell(letters_of(piece, scale, letters))
    return dressing.result


def lettering_height(piece: PlacedPiece) -> float:
    box = piece.outline.bounds
    return 2.5 if max(box.width, box.height) < SMALL_PIECE else 3.5


class _Dressing:
    """The work on one piece: what is placed so far, and the board that keeps it apart."""

    def __init__(self, piece: PlacedPiece, scale: float, height: float, with_guides: bool) -> None:
        self.piece, self.scale, self.height = piece, scale, height
        self.view = piece_view(piece, scale, with_guides)
        self.board = Board()
        self.board.add(self.view)
        self.added: list[Group] = []
        self.remarks: list[str] = []

    def inscribe(self) -> list[Note]:
        """Words of labels and stamps; gives back notes for those that fit nowhere in their boxes."""
        untold = []
        for feature in self.piece.features:
            words = inscription(self.board, feature, self.scale)
            if words is not None:
                self.add(words)
            elif words_of(feature):
                untold.append(_note_for(feature, self.scale))
        return untold

    def tell_and_point(self, notes: list[Note]) -> None:
        """Notes, which are tied to a place, before the grain arrow, which is not; after it where they left no room."""
        bare, drawn, said = self.board.copy(), len(self.added), len(self.remarks)
        self.tell(notes)
        if not self._has_room_for_grain(self.board) and self._has_room_for_grain(bare):
            self.board = bare
            del self.added[drawn:], self.remarks[said:]
            self.point_grain()
            self.tell(notes)
        else:
            self.point_grain()

    def point_grain(self) -> None:
        """The grain arrow; in words where no place is left for it."""
        sign = grain_sign(self.board, self.piece, self.scale)
        if sign is not None:
            self.add(sign)
        elif isinstance(self.piece.grain, int | float):
            self.remarks.append(f"The grain lies {direction_words(self.piece.grain)}.")

    def _has_room_for_grain(self, board: Board) -> bool:
        return grain_sign(board, self.piece, self.scale) is not None

    def measure(self, spans: list[Span]) -> None:
        reach = self._solid_bounds()
        lines = [leg for stroke in self.view.strokes for leg in stroke.way.legs if isinstance(leg, Line)]
        groups, refused = place_spans_on(self.board, spans, lines, reach, self.height)
        self.added += groups
        self.remarks += [f"{span.name}: {span.text}" for span in refused]

    def tell(self, notes: list[Note]) -> None:
        """Notes on leaders; where no place is left for one, its number stands there and its words below."""
        bare, drawn = self.board.copy(), len(self.added)
        told = self._place(notes)
        if not self._place(_numbers(told), NUMBER_HEIGHT):
            self._remark(told)
            return
        # Numbers need little room: where they came too late, they come before the notes that were in their way.
        self.board = bare
        del self.added[drawn:]
        lost = self._place(_numbers(told), NUMBER_HEIGHT, may_tangle=True)
        late = self._place([note for note in notes if note not in told])
        lost += self._place(_numbers(late, len(told)), NUMBER_HEIGHT, may_tangle=True)
        self._remark([*told, *late], lost)

    def _remark(self, notes: list[Note], lost: Sequence[Note] = ()) -> None:
        """The words of numbered notes; those of `lost` have no number on the drawing."""
        for note, number in zip(notes, _numbers(notes), strict=True):
            there = "" if number in lost else f"{number.text.capitalize()}, "
            self.remarks.append(f"{there}{note.name}: {note.text}")

    def _place(self, notes: list[Note], height: float | None = None, may_tangle: bool = False) -> list[Note]:
        """Draws notes on leaders; gives back those for which no place was left."""
        outline = self.piece.outline.scaled(self.scale, ORIGIN)
        groups, refused = place_notes_on(
            self.board, notes, outline, self._axis(), height or self.height, may_tangle
        )
        self.added += groups
        return refused

    def _axis(self) -> Axis | None:
        if self.piece.mirror is None:
            return None
        first, second = (point.scaled(self.scale, ORIGIN) for point in self.piece.mirror)
        return first, (second - first).unit()

    def take(self, make: Callable[[Board], Group | None]) -> None:
        """Adds a sign if a place was found for it."""
        group = make(self.board)
        if group is not None:
            self.add(group)

    def add(self, group: Group) -> None:
        self.board.add(group)
        self.added.append(group)

    def _solid_bounds(self) -> Bounds:
        """The box around the piece and its features, which dimension lines stay clear of."""
        boxes = [
            stroke.way.bounds
            for mark in self.view.marks
            if isinstance(mark, Group) and mark.kind in ("outline", "feature", "mark")
            for stroke in mark.strokes
        ]
        return Bounds.joining(boxes)

    @property
    def result(self) -> Dressed:
        group = Group("sheet-piece", self.piece.name, (self.view, *self.added))
        bounds = group.bounds
        assert bounds is not None
        return Dressed(group, bounds, self._solid_bounds().center.x, tuple(self.remarks))


def _numbers(notes: Sequence[Note], before: int = 0) -> list[Note]:
    """Short words for each, that its own stand elsewhere; `before` are numbered already."""
    return [replace(note, text=f"note {number}") for number, note in enumerate(notes, start=before + 1)]


def _note_for(feature: PlacedFeature, scale: float) -> Note:
    """Words of a label told on a leader that comes from any side of its box."""
    targets = []
    for ring in feature.rings:
        for leg in ring.legs:
            side = leg.direction_at(leg.length / 2).turned_left()
            tip = leg.point_at(leg.length / 2).scaled(scale, ORIGIN)
            targets += [Target(tip, side), Target(tip, Vector(-side.x, -side.y))]
    if feature.center is not None and not targets:
        center = feature.center.scaled(scale, ORIGIN)
        targets = [Target(center, Vector.at_angle(turn * pi / 6)) for turn in range(12)]
    return Note(feature.name, short_words(feature.text or ""), tuple(targets))


def direction_words(angle: float) -> str:
    """`level`, `plumb`, or `at 30 deg`."""
    if abs(angle % 180) < 1e-6:
        return "level"
    return "plumb" if abs(angle % 180 - 90) < 1e-6 else f"at {trimmed(angle % 180, 2)} deg"


def cut_words(piece: PlacedPiece) -> str:
    """`cut 2` or `cut 1 pair`."""
    return f"cut {amount_words(piece)}"


def amount_words(piece: PlacedPiece) -> str:
    return f"{piece.count}{' pair' if piece.pair else ''}"


def template_lines(piece: PlacedPiece, height: float) -> list[tuple[str, float]]:
    """The words on the template: its name, and beneath what to cut from what. What is cut no times is a sheet of the
    stock itself."""
    if piece.count == 0:
        return [(plain_text(piece.name), height), (piece.stock or "", 2.5)]
    source = f" from {piece.stock}" if piece.stock else ""
    return [(plain_text(piece.name), height), (f"{cut_words(piece)}{source}", 2.5)]
