"""One person's engraving: every copy of each stamped piece with its words, at true size, or their boxes mirrored.

Words lie on the layer that machines engrave. Pieces lie beside each other, each with the line it is cut by on a layer
of its own, to lay the leather to; nothing else is on the sheet, for the machine follows all that it finds. A pair is
drawn once as it is and once turned over, its words to be read on both. Mirrored boxes are for a stamp that presses or
prints: its own letters run the wrong way.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import radians

from drafting.drawing.marks import ORIGIN, Drawing, Group, Stroke
from drafting.drawing.roster.feeds import Stamp
from drafting.drawing.roster.fitting import Room, laid, room_of
from drafting.drawing.roster.letters import LETTERS, inked
from drafting.drawing.roster.people import Inscription, Person, stamp_on
from drafting.drawing.roster.wishes import Wishes
from drafting.geometry.bounds import Bounds
from drafting.geometry.curves import box
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.reading import mirrored_reading
from drafting.records import dataclass, replace

GAP = 5.0
"""mm between pieces, and round them all."""
AXIS = (ORIGIN, Point(0.0, 1.0))
"""What a piece, and the box of a stamp, is turned over about."""


@dataclass(frozen=True)
class Lettered:
    """The words of one stamp as lines."""

    stamp: Stamp
    words: tuple[str, ...]
    ways: tuple[Path | Ring, ...]


@dataclass(frozen=True)
class Blank:
    """A piece or a box to be engraved: its edge and its words, where they lie on the sheet."""

    name: str
    edge: Ring
    lettered: tuple[Lettered, ...]


@dataclass(frozen=True)
class Bare:
    """What will be a Blank, where it was drafted: its edge, and where which words come to lie."""

    name: str
    edge: Ring
    rooms: tuple[tuple[Inscription, Room], ...]

    def lettered(self, move: Vector, wishes: Wishes) -> Blank:
        """Moved, and with its words on it."""
        words = (_lettered(each, room.moved(move), wishes) for each, room in self.rooms)
        return Blank(self.name, self.edge.moved(move), tuple(words))


def blanks_of(person: Person, wishes: Wishes) -> list[Blank]:
    """All that is engraved for one person, in a row from left to right."""
    found = _boxes(person, wishes) if wishes.is_mirrored else _pieces(person)
    blanks = []
    at = GAP
    for bare in found:
        bounds = bare.edge.bounds
        blanks.append(bare.lettered(Vector(at - bounds.min_x, GAP - bounds.min_y), wishes))
        at += bounds.width + GAP
    return blanks


def engraving(person: Person, wishes: Wishes, blanks: Sequence[Blank], record: str = "") -> Drawing:
    """The sheet of one person in layers, with what `blanks_of` gives; one without any words has no sheet. `record` says
    what it was made from."""
    bounds = Bounds.joining(blank.edge.bounds for blank in blanks)
    words = [way for blank in blanks for each in blank.lettered for way in each.ways]
    edges = [blank.edge for blank in blanks]
    layers = ((wishes.layers["engrave"], words), (wishes.layers["cut"], edges))
    groups = tuple(
        Group("layer", layer.name, tuple(Stroke(layer.kind, line) for line in lines), title=layer.operation)
        for layer, lines in layers
    )
    return Drawing(
        _title(person), _note(wishes), bounds.max_x + GAP, bounds.max_y + GAP, "layers", 1.0, groups, record
    )


def _title(person: Person) -> str:
    placed = person.placed
    size = f", size {placed.size}" if placed.size else ""
    return f"{placed.title or placed.stem}{size}: {person.title}"


def _note(wishes: Wishes) -> str:
    how = "Mirrored, for a stamp." if wishes.is_mirrored else "As it is read on the leather."
    return f"True size, lengths in mm. {how}"


def _pieces(person: Person) -> Iterator[Bare]:
    """Every copy of each piece that has words on it."""
    for name in dict.fromkeys(each.stamp.piece for each in person.inscriptions):
        piece = person.placed.pieces[name]
        inscriptions = [each for each in person.inscriptions if each.stamp.piece == name]
        rooms = tuple((each, room) for each in inscriptions for room in _rooms(person, each))
        yield from [Bare(name, piece.cutting, rooms)] * piece.count
        if piece.pair:
            over = tuple((each, _turned_over(room)) for each, room in rooms)
            yield from [Bare(name, piece.cutting.mirrored(*AXIS), over)] * piece.count


def _rooms(person: Person, inscription: Inscription) -> list[Room]:
    """Of the stamp, and of its twin where it has one."""
    piece, stamp = stamp_on(person.placed, inscription.stamp)
    twins = [feature for feature in piece.features if feature.is_twin and feature.name == f"{stamp.name}'"]
    return [room_of(feature) for feature in (stamp, *twins)]


def _turned_over(room: Room) -> Room:
    """On the piece's other hand words read the way that is nearer to how they did."""
    along = Vector.at_angle(radians(mirrored_reading(room.angle, 90.0)))
    return replace(room, center=room.center.mirrored(*AXIS), along=along)


def _boxes(person: Person, wishes: Wishes) -> Iterator[Bare]:
    """The box of each stamp alone, lying level."""
    for inscription in person.inscriptions:
        piece, stamp = stamp_on(person.placed, inscription.stamp)
        room = room_of(stamp)
        level = replace(room, center=ORIGIN, along=Vector(1.0, 0.0))
        if stamp.rings:
            edge = stamp.rings[0].moved(ORIGIN - room.center).turned(-radians(room.angle), ORIGIN)
        else:
            edge = _box_about(_lettered(inscription, level, wishes).ways, inscription.height)
        yield Bare(f"{piece.name} {stamp.name}", edge.mirrored(*AXIS), ((inscription, level),))


def _box_about(ways: tuple[Path | Ring, ...], height: float) -> Ring:
    """A box half a capital outside the words, for a stamp that has none."""
    bounds = Bounds.joining(way.bounds for way in ways).grown(height / 2)
    return box(bounds.center, bounds.width, bounds.height)


def _lettered(inscription: Inscription, room: Room, wishes: Wishes) -> Lettered:
    """The words in their room; a mirrored room has them the wrong way round."""
    ways = laid(room, inked(LETTERS[wishes.letters], inscription.words), inscription.height)
    if wishes.is_mirrored:
        ways = tuple(way.mirrored(room.center, room.center + Vector(0.0, 1.0)) for way in ways)
    return Lettered(inscription.stamp, inscription.words, ways)
