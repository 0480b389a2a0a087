"""Placed -> Item: a placed pattern as the workshop rules see it.

What goes through what is never guessed. A strap goes through a buckle because `hardware … on` says so, through a slot
because `pass … through` does, a content lies in
a window, a pocket or a seam because `content … inside` says so, an insert lies behind a window because its piece is
drafted `over` the other from a sheet that is no leather, and the end of a strap is turned back because a stitch line is
the `mirror of` another over its fold, or a buckle hangs in it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import cast

from drafting.craft.holding import Held
from drafting.craft.item import (
    Buckle,
    HoleRow,
    InsertBehind,
    Item,
    Notch,
    Opening,
    PlacedFold,
    PlacedPart,
    PlacedSlit,
    PlacedTurn,
    Pocket,
    Punch,
    PunchedHole,
    StitchLine,
    Stock,
    StrapThroughBuckle,
    StrapThroughSlot,
    StrapTurnBack,
    WindowHolds,
)
from drafting.craft.lists.sewing import seams_of, sources_of, through_lines
from drafting.craft.rules.shapes import lying_of
from drafting.craft.slits import RoundHole, Slit
from drafting.craft.stitches import Layout
from drafting.craft.turn_backs import base_name, hangs_on, is_right_over, is_strap, pieces_of, sewn_over
from drafting.geometry.bounds import Bounds
from drafting.geometry.maths import least, most, radians
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.pattern import Pattern
from drafting.model.pattern import Piece as BoundPiece
from drafting.solve import placed as solved
from drafting.solve.placed import Placed, PlacedContent, PlacedFeature, PlacedPiece

LEATHER = "leather"
NEAR_FOLD = 15.0
"""mm: a slot whose middle is this near to a fold is the one that the prong comes through."""


def item_of(placed: Placed, pattern: Pattern) -> Item:
    """All that the rules can know of one size."""
    return _Reading(placed, pattern).item()


class _Reading:
    def __init__(self, placed: Placed, pattern: Pattern) -> None:
        self.placed, self.pattern = placed, pattern
        self.stocks = {
            stock.name: Stock(stock.name, stock.material, stock.thick or 0.0, stock.note or "")
            for stock in placed.item.stocks
        }
        self.buckled = {name for hardware in placed.item.hardware for name in hardware.on}
        threads = [thread.thick for thread in placed.item.threads if thread.thick]
        self.thread = threads[0] if len(threads) == 1 else None
        self.sewn = through_lines(seams_of(placed, pattern))
        self.sources = sources_of(placed, pattern)

    def item(self) -> Item:
        placed = self.placed
        hardware = tuple(
            " ".join([one.name.replace("_", " "), one.note or ""]) for one in placed.item.hardware
        )
        return Item(
            placed.title,
            tuple(self.part(piece) for piece in placed.pieces.values()),
            placed.size,
            tuple(self.straps_in_buckles()),
            tuple(self.straps_in_slots()),
            tuple(self.windows()),
            tuple(self.inserts()),
            tuple(self.pockets()),
            tuple(back for piece in placed.pieces.values() for back in self.turn_backs(piece)),
            tuple(self.stocks.values()),
            hardware,
            (*placed.notes, *(step.text for step in placed.item.steps)),
            punches=tuple(Punch(one.name, one.across) for one in placed.item.punch_table),
        )

    # Pieces

    def part(self, piece: PlacedPiece) -> PlacedPart:
        features = piece.features
        return PlacedPart(
            piece.name,
            piece.outline,
            self.stocks.get(piece.stock or ""),
            radians(piece.grain) if isinstance(piece.grain, float | int) else piece.grain,
            tuple(hole for one in features if one.kind == "hole" for hole in self.holes(piece, one)),
            tuple(self.row(piece, one) for one in features if one.kind == "row"),
            tuple(opening for one in features for opening in _openings(one)),
            tuple(slit for one in features for slit in _slits(one)),
            tuple(line for one in features for line in self.stitches(piece, one)),
            tuple(fold for one in features for fold in _folds(one)),
            tuple(turn for one in features for turn in _turns(one)),
            tuple(notch for one in features for notch in _notches(one)),
            tuple(text for text in (piece.note, *_words(features)) if text),
            piece.points,
        )

    def holes(self, piece: PlacedPiece, feature: PlacedFeature) -> Iterator[PunchedHole]:
        """Of a row that the prong goes into, or a hole that hardware sits in, each hole bears a pull."""
        loaded = f"{piece.name}.{base_name(feature)}" in self.buckled or self.is_for_size(piece, feature)
        for hole in feature.holes:
            yield PunchedHole(feature.name, hole.center, hole.across, loaded)

    def row(self, piece: PlacedPiece, feature: PlacedFeature) -> HoleRow:
        holes = tuple(self.holes(piece, feature))
        for_size = self.is_for_size(piece, feature)
        nominal = _measured_to(piece, feature) if for_size else None
        return HoleRow(feature.name, holes, nominal, for_size)

    def is_for_size(self, piece: PlacedPiece, feature: PlacedFeature) -> bool:
        """A row of round holes in a strap that a buckle with a prong hangs in."""
        return feature.kind == "row" and any(
            hardware.prong is not None and piece.name in pieces_of(hardware)
            for hardware in self.placed.item.hardware
        )

    def stitches(self, piece: PlacedPiece, feature: PlacedFeature) -> Iterator[StitchLine]:
        for line in feature.stitches:
            layout = cast(Layout, line.layout)
            name = f"{piece.name}.{line.name}"
            sewn, source = self.sewn.get(name), self.sources.get(name)
            yield StitchLine(line.name, layout, self.thread, sewn, line.is_pricked, source)

    def thick(self, piece: PlacedPiece) -> float:
        stock = self.stocks.get(piece.stock or "")
        return stock.thick if stock else 0.0

    def bound(self, piece: PlacedPiece) -> BoundPiece:
        return self.pattern.pieces[piece.name]

    # What goes through what

    def straps_in_buckles(self) -> Iterator[StrapThroughBuckle]:
        for hardware in self.placed.item.hardware:
            if hardware.inside is None:
                continue
            buckle = Buckle(hardware.name, hardware.inside, hardware.prong)
            slots = {name.partition(".")[0]: name for name in hardware.on if "." in name}
            for name in pieces_of(hardware):
                if name not in self.placed.pieces:
                    continue
                piece = self.placed.pieces[name]
                if is_strap(piece):
                    folds = [one.paths[0].length for one in piece.features if self.is_turned_back(piece, one)]
                    slot = slots.get(name) or self.slot_at_fold(name)
                    wide = min([*folds, lying_of(piece.outline).wide])
                    yield StrapThroughBuckle(name, wide, buckle, slot)

    def straps_in_slots(self) -> Iterator[StrapThroughSlot]:
        for part in self.pattern.passes:
            strap = self.placed.pieces.get(part.strap.piece)
            if strap is None:
                continue
            for slot in part.through:
                wide = lying_of(strap.outline).wide
                yield StrapThroughSlot(strap.name, wide, self.thick(strap), f"{slot.piece}.{slot.text}")

    def slot_at_fold(self, name: str) -> str | None:
        """The slot over a fold of the strap, as `strap.eye`."""
        piece = self.placed.pieces[name]
        for back in self.turn_backs(piece):
            if back.slot:
                return f"{name}.{back.slot}"
        return None

    def windows(self) -> Iterator[WindowHolds]:
        for content in self.placed.item.contents:
            for name in content.inside:
                feature = self.feature(name)
                if feature is not None and feature.kind == "opening":
                    yield WindowHolds(name, _held(content))

    def inserts(self) -> Iterator[InsertBehind]:
        """Pieces of no leather, drafted over a piece with an opening that they lie behind."""
        for insert in self.placed.pieces.values():
            stock = self.stocks.get(insert.stock or "")
            if stock is None or stock.kind == LEATHER:
                continue
            for front in self.placed.pieces.values():
                if front is not insert and self.bound(front).sheet == self.bound(insert).sheet:
                    for feature in front.features:
                        if feature.kind == "opening" and _lies_behind(insert, feature):
                            yield InsertBehind(insert.name, f"{front.name}.{feature.name}")

    def pockets(self) -> Iterator[Pocket]:
        for content in self.placed.item.contents:
            mouth = self.mouth(content.through) if content.through else None
            seams = [name for name in content.inside if "." in name]
            rooms = [room for name in seams or content.inside for room in self.room(name)]
            between = Bounds.joining(rooms) if rooms else None
            if between is None and mouth is None:
                continue
            where = (
                content.inside[0].partition(".")[0]
                if content.inside
                else (content.through or "").split(".")[0]
            )
            held, wide = _turned_best(content, between, self.opens_level(seams))
            is_cut = all(name in self.placed.pieces for name in seams or content.inside)
            yield Pocket(where, held, wide, mouth, is_cut, content.through or "")

    def room(self, name: str) -> Iterator[Bounds]:
        """The box within a seam, both halves of a mirrored one, or within a piece; an opening is no pocket."""
        feature = self.feature(name)
        if feature is None:
            piece = self.placed.pieces.get(name)
            if piece:
                yield piece.outline.bounds
            return
        if feature.kind == "opening":
            return
        piece = self.placed.pieces[name.partition(".")[0]]
        for one in piece.features:
            if base_name(one) == base_name(feature):
                yield from (line.layout.line.bounds for line in one.stitches)
                yield from (way.bounds for way in (*one.rings, *one.paths) if not one.stitches)

    def opens_level(self, seams: Sequence[str]) -> bool:
        """Whether a pocket opens to the left or right: its seam ends running that way. Then what matters is how high it
        is within the seam, else how wide."""
        for name in seams:
            feature = self.feature(name)
            for line in feature.stitches if feature else ():
                way = line.layout.line
                if isinstance(way, Path):
                    piece = self.placed.pieces[name.partition(".")[0]]
                    at_start = not piece.mirror or _off_mirror(way.start, piece.mirror) > SAME_POINT
                    along = way.direction_at(0.0) if at_start else way.direction_before(way.length)
                    return abs(along.x) > abs(along.y)
        return False

    def mouth(self, name: str) -> float | None:
        """How long the opening is that a content goes in by: a slit from end to end, a slot or window along its longer
        side, a run along itself."""
        feature = self.feature(name)
        if feature is not None:
            if isinstance(feature.work, solved.PlacedSlit):
                return self.slit_length(name, feature)
            openings = list(_openings(feature))
            return openings[0].long if openings else None
        piece, _, run = name.partition(".")
        found = self.placed.pieces[piece].runs.get(run) if piece in self.placed.pieces else None
        return found.start.distance_to(found.end) if found else None

    def slit_length(self, name: str, feature: PlacedFeature) -> float:
        """End to end; one that goes on into its twin counts with it."""
        piece = self.placed.pieces[name.partition(".")[0]]
        wholes = [
            one.work.whole
            for one in piece.features
            if base_name(one) == base_name(feature) and isinstance(one.work, solved.PlacedSlit)
        ]
        ends = [end for whole in wholes for end in (whole.start, whole.end)]
        return most(*(a.distance_to(b) for a in ends for b in ends))

    def feature(self, name: str) -> PlacedFeature | None:
        piece, _, rest = name.partition(".")
        found = self.placed.pieces.get(piece)
        return next((one for one in found.features if one.name == rest), None) if found else None

    # Turn-backs

    def turn_backs(self, piece: PlacedPiece) -> Iterator[StrapTurnBack]:
        for fold in piece.features:
            if self.is_turned_back(piece, fold):
                yield _turn_back(piece, fold, sewn_over(self.bound(piece), fold))

    def is_turned_back(self, piece: PlacedPiece, fold: PlacedFeature) -> bool:
        """A fold right over that is sewn down, or that hardware hangs in."""
        return is_right_over(fold) and (
            hangs_on(self.placed, piece) or bool(sewn_over(self.bound(piece), fold))
        )


def _turn_back(piece: PlacedPiece, fold: PlacedFeature, sewn: set[str]) -> StrapTurnBack:
    line = fold.paths[0]
    along = (line.end - line.start).unit()

    def off(point: Point) -> float:
        return along.cross(point - line.start)

    ends = [off(leg.start) for leg in piece.outline.legs]
    side = 1.0 if most(*ends) < -least(*ends) else -1.0
    reach = most(*(side * end for end in ends))
    seams = []
    for feature in piece.features:
        for stitches in feature.stitches:
            offs = [side * off(hole.point) for hole in stitches.layout.holes]
            if base_name(feature) in sewn and least(*offs) >= 0:
                seams.append((stitches.name, most(*offs)))
    slots = [one for one in piece.features if one.kind == "slot" and one.center]
    near = min(slots, key=lambda one: abs(off(one.center or line.start)), default=None)
    if near is None or near.center is None or abs(off(near.center)) > NEAR_FOLD:
        return StrapTurnBack(piece.name, fold.name, reach, tuple(seams))
    on_fold = near.center - along.turned_left() * off(near.center)
    return StrapTurnBack(
        piece.name, fold.name, reach, tuple(seams), near.name, abs(off(near.center)), on_fold
    )


def _measured_to(piece: PlacedPiece, feature: PlacedFeature) -> Point | None:
    """The end of a dimension that the maker drew to the row: the place that the size is measured to."""
    centers = [hole.center for hole in feature.holes]
    if len(centers) < 2:
        return None
    apart = centers[0].distance_to(centers[1])
    middle = centers[len(centers) // 2]
    ends = [end for dim in piece.dims for end in (dim.start, dim.end)]
    near = min(ends, key=middle.distance_to, default=None)
    return near if near is not None and near.distance_to(middle) < apart else None


def _openings(feature: PlacedFeature) -> Iterator[Opening]:
    if feature.kind not in ("opening", "slot"):
        return
    for ring in feature.rings:
        lying = lying_of(ring)
        sizes = feature.sizes
        long, wide = sizes.get("long", lying.long), sizes.get("wide", lying.wide)
        yield Opening(feature.name, ring, "slot" if feature.kind == "slot" else "window", long, wide)


def _slits(feature: PlacedFeature) -> Iterator[PlacedSlit]:
    work = feature.work
    if isinstance(work, solved.PlacedSlit):
        holes = tuple(RoundHole(hole.center, hole.across) for hole in feature.holes)
        yield PlacedSlit(feature.name, Slit(work.whole, feature.paths, holes, work.bare_ends))


def _folds(feature: PlacedFeature) -> Iterator[PlacedFold]:
    work = feature.work
    if isinstance(work, solved.PlacedFold):
        for path in feature.paths:
            yield PlacedFold(feature.name, path, radians(work.turn), work.inside, work.thick)


def _turns(feature: PlacedFeature) -> Iterator[PlacedTurn]:
    work = feature.work
    if isinstance(work, solved.PlacedTurn):
        yield PlacedTurn(feature.name, work.width, work.thick)


def _notches(feature: PlacedFeature) -> Iterator[Notch]:
    if feature.kind == "notch" and feature.center is not None:
        yield Notch(feature.name, feature.center, feature.sizes.get("deep", 0.0))


def _words(features: Sequence[PlacedFeature]) -> Iterator[str | None]:
    for feature in features:
        yield from (feature.text, feature.note)


def _lies_behind(insert: PlacedPiece, window: PlacedFeature) -> bool:
    return any(insert.outline.contains(ring.bounds.center) for ring in window.rings)


def _held(content: PlacedContent) -> Held:
    wide, deep = content.width or content.long, content.height or content.wide
    return Held(content.name, wide, deep, content.stack or 0.0, content.ease or 0.0)


def _off_mirror(point: Point, mirror: tuple[Point, Point]) -> float:
    a, b = mirror
    return abs((b - a).unit().cross(point - a))


def _turned_best(content: PlacedContent, room: Bounds | None, opens_level: bool) -> tuple[Held, float | None]:
    """The content as it is said to lie, else the way round that it fits best, and the room it then has across."""
    thick, ease = content.stack or 0.0, content.ease or 0.0
    ways = [(content.width, content.height)] if content.width and content.height else []
    ways = ways or [(content.long, content.wide), (content.wide, content.long)]
    if room is None:
        return Held(content.name, *ways[0], thick, ease), None
    across = room.height if opens_level else room.width
    sides = [(high, wide) if opens_level else (wide, high) for wide, high in ways]
    wide, deep = min(sides)
    return Held(content.name, wide, deep, thick, ease), across
