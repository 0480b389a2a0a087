"""Templates: a piece to be cut from card or acrylic, laid on leather and traced round many times.

Its outline and openings are cut; a pin hole goes through wherever a point is marked on the leather: where a stitch line
starts and ends, where a slit ends, in the middle of a hole, at a mark. Slots to run an awl along follow the lines that
are named. A hole to hang it by lies clear of everything, and what it is stands engraved on it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from drafting.drawing.board import Board
from drafting.drawing.dressing import cut_words
from drafting.drawing.label_words import words_of
from drafting.drawing.leather import Leather
from drafting.drawing.lettering import plain_text
from drafting.drawing.lines import CUT
from drafting.drawing.machine.engraving import TURNING, engraved, is_for_roster, words_on
from drafting.drawing.machine.layers import LAYERS, Layer
from drafting.drawing.machine.sheets import Copy, MachineSheet, machine_sheet
from drafting.drawing.machine.slots import slots_along
from drafting.drawing.machine.work import Work, each_once, with_kerf
from drafting.drawing.marks import ORIGIN, QUARTER_TURN, Group, Lettering, Stroke
from drafting.drawing.signs import name_block, places_for
from drafting.geometry.bounds import Bounds
from drafting.geometry.curves import circle
from drafting.geometry.nearness import distinct_points
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.records import dataclass, field, replace
from drafting.solve.placed import Placed, PlacedFeature, PlacedPiece, PlacedSlit

PIN = 1.0
"""How wide a pin hole and an awl slot are, in mm: a scratch awl goes through, and not much more."""
WALL = 0.8
"""The least that is left between two openings of a template, and between an opening and its edge."""
HANGING = (6.0, 5.0, 4.0, 3.0)
"""How wide the hole to hang it by may be; the widest that has room is taken."""
CLEAR = 3.0
"""How far it keeps from everything else."""
GRID = 30
FREE = 1.2
"""What words keep free round them."""
HEIGHTS = ((5.0, 2.5), (3.5, 2.5), (3.5, 1.8), (2.5, 1.8), (1.8, 1.8))
"""Of the name, and of what stands below it."""
Way = Path | Ring


@dataclass(frozen=True)
class Wanted:
    """How templates are made. `slots` names features along which an awl is to run, as `front.seam` or `seam`;
    `mirrored` asks for a second template, turned over, of a piece that is cut in pairs."""

    pin: float = PIN
    slots: tuple[str, ...] = ()
    mirrored: bool = False
    kerf: float = 0.0
    layers: Mapping[str, Layer] = field(default_factory=lambda: LAYERS)


@dataclass(frozen=True)
class Pin:
    """A point to be marked through; `where` names the feature that asks for it."""

    where: str
    point: Point


@dataclass(frozen=True)
class Template:
    """One template. `left_out` are the points at an edge or an opening, where no pin hole holds: they are marked from
    there. `lacking` tells what else found no room."""

    piece: str
    is_turned: bool
    sheet: MachineSheet
    left_out: tuple[Pin, ...]
    lacking: tuple[str, ...]


def templates_of(placed: Placed, pieces: Sequence[str], wanted: Wanted) -> list[Template]:
    """A template for each piece, two where a mirrored one is asked for. Raises KerfFault for too wide a cutter."""
    found = []
    for piece in (placed.pieces[name] for name in pieces):
        found.append(_Maker(placed, piece, wanted, is_turned=False).template())
        if piece.pair and wanted.mirrored:
            found.append(_Maker(placed, piece, wanted, is_turned=True).template())
    return found


def pins_of(piece: PlacedPiece) -> list[Pin]:
    """Every point that is marked through, once."""
    pins = [Pin(f"{piece.name}.{one.name}", point) for one in piece.features for point in points_of(one)]
    by_place = {pin.point: pin for pin in reversed(pins)}
    return [by_place[point] for point in distinct_points(pin.point for pin in pins)]


def points_of(feature: PlacedFeature) -> Iterator[Point]:
    for line in feature.stitches:
        holes = [hole.point for hole in line.layout.holes]
        yield from holes[:1] if line.layout.is_ring else (holes[:1] + holes[-1:])
    if isinstance(feature.work, PlacedSlit):
        yield from (feature.work.whole.start, feature.work.whole.end)
    yield from (hole.center for hole in feature.holes)
    if feature.kind == "mark" and feature.center is not None:
        yield feature.center


class _Maker:
    """Makes one template in the places of the piece; at the end it is turned over if it has to be."""

    def __init__(self, placed: Placed, piece: PlacedPiece, wanted: Wanted, is_turned: bool) -> None:
        self.placed, self.piece, self.wanted, self.is_turned = placed, piece, wanted, is_turned
        removed = [feature for feature in piece.features if feature.is_removed]
        self.openings = [ring for feature in removed for ring in feature.rings]
        self.lacking: list[str] = []

    def template(self) -> Template:
        pins = pins_of(self.piece)
        held = [pin for pin in pins if self._holds(pin.point)]
        slots = self._slots([pin.point for pin in held])
        work = [*self._lines(), *(Work("punch", pin.where, self._hole(pin.point)) for pin in held)]
        work += [Work("inner cut", where, slot) for where, slot in slots]
        hanging = self._hanging([one.way for one in work])
        if hanging is None:
            self.lacking.append("a hole to hang it by")
        else:
            work.append(Work("punch", f"{self.piece.name} hanging hole", hanging))
        work += self._words([one.way for one in work])
        seen = tuple(with_kerf((self._seen(one) for one in work), self.wanted.kerf))
        copy = Copy(self.piece.name, self.is_turned, seen)
        title = f"{self.placed.title or self.placed.stem}: template of {self.piece.name}"
        sheet = machine_sheet(title, [copy], self.wanted.layers, self.wanted.kerf, self.piece.stock)
        left_out = tuple(pin for pin in pins if pin not in held)
        return Template(self.piece.name, self.is_turned, sheet, left_out, tuple(self.lacking))

    def _seen(self, work: Work) -> Work:
        turns = self.is_turned and work.operation != "engrave"
        return replace(work, way=work.way.mirrored(*TURNING)) if turns else work

    def _lines(self) -> Iterator[Work]:
        """Outline, openings, and notches as cuts into the edge, none of them twice."""
        work = [Work("cut", f"{self.piece.name}.outline", self.piece.cutting)]
        for feature in self.piece.features:
            where = f"{self.piece.name}.{feature.name}"
            if feature.is_removed:
                work += [Work("inner cut", where, ring) for ring in feature.rings]
            elif feature.kind == "notch":
                work += [Work("slit", where, path) for path in feature.paths]
        return each_once(work, self.wanted.kerf)

    # Pins

    def _hole(self, point: Point) -> Ring:
        return circle(point, self.wanted.pin / 2)

    def _holds(self, point: Point) -> bool:
        """Whether a pin hole here has a wall round it: on the template, off its edge and its openings."""
        off = self.wanted.pin / 2 + WALL
        if not self.piece.cutting.contains(point) or any(ring.contains(point) for ring in self.openings):
            return False
        return all(ring.distance_to_point(point) >= off for ring in (self.piece.cutting, *self.openings))

    # Slots

    def _slots(self, pins: Sequence[Point]) -> list[tuple[str, Ring]]:
        """Slots along the named lines, each clear of the edge, of openings, of pins and of the slots before it."""
        kept: list[tuple[str, Ring]] = []
        edges: list[Way] = [self.piece.cutting, *self.openings]
        for feature in self.piece.features:
            if not is_named(self.piece, feature, self.wanted.slots):
                continue
            rings = [ring for way in ways_of(feature) for ring in slots_along(way, self.wanted.pin)]
            clear = [
                ring for ring in rings if self._is_clear(ring, [*edges, *(slot for _, slot in kept)], pins)
            ]
            if len(clear) < len(rings) or not rings:
                self.lacking.append(f"the whole of the awl slot along `{feature.name}`")
            kept += [(f"{self.piece.name}.{feature.name}", ring) for ring in clear]
        return kept

    def _is_clear(self, slot: Ring, ways: Sequence[Way], pins: Sequence[Point]) -> bool:
        inside = self.piece.cutting.contains(slot.start)
        walls = all(slot.distance_to(way) >= WALL for way in ways)
        off = self.wanted.pin / 2 + WALL
        return inside and walls and all(slot.distance_to_point(pin) >= off for pin in pins)

    # The hole to hang it by

    def _hanging(self, ways: Sequence[Way]) -> Ring | None:
        """The widest that keeps clear, near the middle of the upper end; of what lies long, near its left end."""
        box = self.piece.cutting.bounds
        middle = self.piece.cutting.centroid
        lies_long = box.width > 2 * box.height
        places = [
            Point(box.min_x + box.width * column / GRID, box.min_y + box.height * row / GRID)
            for column in range(1, GRID)
            for row in range(1, GRID)
        ]

        def far(place: Point) -> tuple[float, float]:
            down, aside = (box.max_y - place.y, place.x - middle.x)
            if lies_long:
                down, aside = (place.x - box.min_x, place.y - middle.y)
            return round(down + abs(aside) / 2, 6), place.x

        places.sort(key=far)
        for across in HANGING:
            for place in places:
                if all(way.distance_to_point(place) >= across / 2 + CLEAR for way in ways) and self._is_on(
                    place
                ):
                    return circle(place, across / 2)
        return None

    def _is_on(self, place: Point) -> bool:
        return self.piece.cutting.contains(place) and not any(ring.contains(place) for ring in self.openings)

    # Words

    def _words(self, ways: Iterable[Way]) -> Iterator[Work]:
        """The labels where the maker put them, then what the template is, wherever it has room."""
        board, beside = Board(), list(ways)
        board.add(Group("lines", "lines", tuple(Stroke(CUT, way) for way in beside)))
        for feature in self.piece.features:
            if feature.kind == "label" and words_of(feature) and not is_for_roster(feature):
                label = self._on_template(words_on(feature, beside))
                board.add(Group("label", "label", tuple(Stroke(CUT, way) for way in label)))
                if not label:
                    self.lacking.append(f"the words of `{feature.name}`")
                seen = words_on(feature, beside, self.is_turned) if label else []
                yield from (Work("engrave", f"{self.piece.name}.{feature.name}", way) for way in seen)
        block = self._sign(board)
        if block is None:
            self.lacking.append("its name")
        for lettering in block or ():
            yield from (Work("engrave", f"{self.piece.name} name", way) for way in engraved(lettering))

    def _on_template(self, words: list[Way]) -> list[Way]:
        """Nothing where the words would stand in an opening."""
        is_off = words and any(ring.contains(words[0].start) for ring in self.openings)
        return [] if is_off else words

    def _sign(self, board: Board) -> list[Lettering] | None:
        """All that is to be said in as large letters as there is room for, level or plumb, then only the name."""
        leather = Leather(self.piece, 1.0)
        places = leather.places()
        for lines in self._told():
            for name_high, high in HEIGHTS:
                sized = [(line, high if number else name_high) for number, line in enumerate(lines)]
                for is_plumb in (False, True):
                    box = Bounds.joining(one.bounds for one in _block(sized, ORIGIN, is_plumb)).grown(FREE)
                    place = self._room_for(box, board, leather, places)
                    if place is not None:
                        if self.placed.edition and lines == [plain_text(self.piece.name)]:
                            self.lacking.append("the edition")
                        seen = place.mirrored(*TURNING) if self.is_turned else place
                        return _block(sized, seen, is_plumb)
        return None

    def _room_for(self, box: Bounds, board: Board, leather: Leather, places: Sequence[Point]) -> Point | None:
        """The first place where a box about it lies on the template and nothing lies in it."""
        whole = self.piece.cutting.bounds
        if box.width > whole.width or box.height > whole.height:
            return None
        first, second = Point(box.min_x, box.min_y), Point(box.max_x, box.min_y)
        third, fourth = Point(box.max_x, box.max_y), Point(box.min_x, box.max_y)
        for place in places_for([(first, second, third, fourth)], places, leather):
            move = place - ORIGIN
            if board.is_clear((first + move, second + move, third + move, fourth + move)):
                return place
        return None

    def _told(self) -> Iterator[list[str]]:
        placed, piece = self.placed, self.piece
        edition = f", edition {placed.edition}" if placed.edition else ""
        title = f"{plain_text(placed.title or placed.stem)}{edition}"
        size = f", size {plain_text(placed.size)}" if placed.size else ""
        source = f" from {plain_text(piece.stock)}" if piece.stock else ""
        name, cut = plain_text(piece.name), f"{cut_words(piece)}{source}{size}"
        yield [name, title, cut, self._side()]
        yield [f"{name}, {title}", f"{cut}; {self._side()}"]
        yield [f"{name}, {title}, {cut}; {self._side()}"]
        yield [name, title]
        yield [f"{name}{edition}"]
        yield [name]

    def _side(self) -> str:
        if not self.piece.pair:
            return "grain side up"
        if self.is_turned:
            return "the other of the pair, grain side up"
        if self.wanted.mirrored:
            return "one of the pair, grain side up"
        return "grain side up; turn over for the other of the pair"


def _block(lines: list[tuple[str, float]], center: Point, is_plumb: bool) -> list[Lettering]:
    """Lines of words stacked about a center, read from the right where they are plumb."""
    if not is_plumb:
        return name_block(lines, center)
    level = name_block(lines, center.turned(-QUARTER_TURN, ORIGIN))
    return [lettering.quarter_turned() for lettering in level]


# Slots


def is_named(piece: PlacedPiece, feature: PlacedFeature, names: Sequence[str]) -> bool:
    """By its own name or with its piece's; a twin by the name it has it from, too."""
    plain = feature.name.rstrip("'") if feature.is_twin else feature.name
    return any(name in (one, f"{piece.name}.{one}") for name in names for one in (feature.name, plain))


def ways_of(feature: PlacedFeature) -> list[Way]:
    """The lines of a feature that an awl can run along."""
    if feature.stitches:
        return [line.layout.line for line in feature.stitches]
    return [] if feature.is_removed and feature.rings else [*feature.rings, *feature.paths]


def engraved_words(placed: Placed, piece: PlacedPiece) -> Iterator[str]:
    """All that may be engraved on the template of a piece."""
    yield from (
        piece.name,
        placed.title or placed.stem,
        placed.edition or "",
        placed.size or "",
        piece.stock or "",
    )
    yield from (feature.text or "" for feature in piece.features if feature.kind == "label")
