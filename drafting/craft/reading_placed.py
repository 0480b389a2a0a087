"""A placed pattern as the workshop rules see it.

Takes a Placed and, for which piece lies on whose sheet, the bound pattern; returns an Item. Nothing is guessed that
the text does not tell: a strap goes through the buckle whose `on` names it, an insert is a sheet drafted over the
piece whose window it covers.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import pi, radians
from typing import Literal

from drafting.craft.holding import Held
from drafting.craft.item import (
    Buckle,
    HoleRow,
    InsertBehind,
    Item,
    Notch,
    Opening,
    OtherLine,
    PlacedFold,
    PlacedPart,
    PlacedSlit,
    PlacedTurn,
    PunchedHole,
    StitchLine,
    Stock,
    StrapThroughBuckle,
    StrapTurnBack,
    WindowHolds,
)
from drafting.craft.rules.shapes import leaves_at, lying_of
from drafting.craft.slits import Slit
from drafting.craft.stitches import Layout
from drafting.geometry.path import Ring
from drafting.model.pattern import Pattern
from drafting.solve import placed as solved
from drafting.solve.placed import Placed, PlacedFeature, PlacedHardware, PlacedPiece

OPENINGS: dict[str, Literal["window", "slot"]] = {"opening": "window", "slot": "slot"}
LINES = ("crease", "mark", "label", "stamp", "glue", "skive")
LEAST_TURN_BACK = 0.75 * pi
"""A fold of less does not lay the end of a strap back upon it (this room's own figure)."""


def item_of(placed: Placed, bound: Pattern) -> Item:
    """The item in the size that is placed."""
    stocks = {
        one.name: Stock(one.name, one.material, one.thick or 0.0, one.note or "")
        for one in placed.item.stocks
    }
    sewn = _sewn_thicknesses(placed, stocks)
    parts = tuple(_part(piece, placed, stocks, sewn) for piece in placed.pieces.values())
    return Item(
        placed.title,
        parts,
        placed.size,
        straps_in_buckles=tuple(_straps_in_buckles(placed)),
        windows=tuple(_windows(placed)),
        inserts=tuple(_inserts(parts, bound)),
        turn_backs=tuple(_turn_backs(parts, placed)),
        stocks=tuple(stocks.values()),
        hardware=tuple(f"{one.name.replace('_', ' ')} {one.note or ''}" for one in placed.item.hardware),
        words=(*placed.notes, *(step.text for step in placed.item.steps)),
    )


def _sewn_thicknesses(placed: Placed, stocks: Mapping[str, Stock]) -> dict[str, float]:
    """How thick all layers are together at each joined stitch line, where every stock says how thick it is."""
    found: dict[str, float] = {}
    for join in placed.joins:
        pieces = [placed.pieces.get(line.partition(".")[0]) for line in join.lines]
        known = [stocks.get(piece.stock or "") for piece in pieces if piece]
        thick = [stock.thick for stock in known if stock]
        if len(thick) == len(join.lines) and all(thick):
            found.update(dict.fromkeys(join.lines, sum(thick)))
    return found


def _part(
    piece: PlacedPiece, placed: Placed, stocks: Mapping[str, Stock], sewn: Mapping[str, float]
) -> PlacedPart:
    features = piece.features
    return PlacedPart(
        piece.name,
        piece.outline,
        stocks.get(piece.stock or ""),
        radians(piece.grain) if isinstance(piece.grain, float) else piece.grain,
        holes=tuple(hole for one in features if one.kind == "hole" for hole in _holes(one)),
        rows=tuple(_row(one, piece, placed) for one in features if one.kind == "row"),
        openings=tuple(opening for one in features for opening in _openings(one)),
        slits=tuple(PlacedSlit(one.name, _slit(one)) for one in features if _is_slit(one)),
        stitches=tuple(
            line for one in features for line in _stitches(one, piece, _only_thread(placed), sewn)
        ),
        folds=tuple(fold for one in features for fold in _folds(one)),
        turns=tuple(turn for one in features for turn in _turns(one)),
        notches=tuple(notch for one in features for notch in _notches(one)),
        others=tuple(
            OtherLine(one.name, one.kind, (*one.rings, *one.paths)) for one in features if one.kind in LINES
        ),
        words=tuple(word for one in features for word in (one.note, one.text) if word),
    )


def _holes(feature: PlacedFeature) -> Iterator[PunchedHole]:
    yield from (PunchedHole(feature.name, hole.center, hole.across) for hole in feature.holes)


def _row(feature: PlacedFeature, piece: PlacedPiece, placed: Placed) -> HoleRow:
    """A row lengthwise on a strap whose buckle has a prong is what the prong goes into."""
    holes = tuple(_holes(feature))
    straps = {one.partition(".")[0] for buckle in placed.item.hardware if buckle.prong for one in buckle.on}
    for_size = piece.name in straps and len(holes) > 2 and _is_lengthwise(holes, piece)
    return HoleRow(feature.name, holes, for_size=for_size)


def _is_lengthwise(holes: tuple[PunchedHole, ...], piece: PlacedPiece) -> bool:
    along = (holes[-1].center - holes[0].center).unit()
    return abs(along.dot(lying_of(piece.outline).direction)) > 0.9


def _openings(feature: PlacedFeature) -> Iterator[Opening]:
    if feature.kind in OPENINGS and feature.is_removed:
        for ring in feature.rings:
            lying = lying_of(ring)
            yield Opening(feature.name, ring, OPENINGS[feature.kind], lying.long, lying.wide)


def _is_slit(feature: PlacedFeature) -> bool:
    return isinstance(feature.work, solved.PlacedSlit)


def _slit(feature: PlacedFeature) -> Slit:
    work = feature.work
    if not isinstance(work, solved.PlacedSlit):
        raise AssertionError("a slit has its line")
    return Slit(work.whole, feature.paths, (), work.bare_ends)


def _only_thread(placed: Placed) -> float | None:
    """How thick the thread is, where the item is sewn with one."""
    return placed.item.threads[0].thick if len(placed.item.threads) == 1 else None


def _stitches(
    feature: PlacedFeature, piece: PlacedPiece, thread: float | None, sewn: Mapping[str, float]
) -> Iterator[StitchLine]:
    for line in feature.stitches:
        if isinstance(line.layout, Layout):
            thick = sewn.get(f"{piece.name}.{line.name}")
            yield StitchLine(line.name, line.layout, thread, thick, line.is_pricked)


def _folds(feature: PlacedFeature) -> Iterator[PlacedFold]:
    work = feature.work
    if isinstance(work, solved.PlacedFold):
        for path in feature.paths:
            yield PlacedFold(feature.name, path, radians(work.turn), work.inside, work.thick)


def _turns(feature: PlacedFeature) -> Iterator[PlacedTurn]:
    if isinstance(feature.work, solved.PlacedTurn):
        yield PlacedTurn(feature.name, feature.work.width, feature.work.thick)


def _notches(feature: PlacedFeature) -> Iterator[Notch]:
    if feature.kind == "notch" and feature.center:
        yield Notch(feature.name, feature.center, feature.sizes.get("deep", 0.0))


def _straps_in_buckles(placed: Placed) -> Iterator[StrapThroughBuckle]:
    for hardware in placed.item.hardware:
        if hardware.inside is None:
            continue
        buckle = Buckle(hardware.name, hardware.inside, hardware.prong)
        for strap, slot in _straps_of(hardware).items():
            piece = placed.pieces.get(strap)
            if piece:
                yield StrapThroughBuckle(strap, lying_of(piece.outline).wide, buckle, slot)


def _straps_of(hardware: PlacedHardware) -> dict[str, str | None]:
    """The pieces it goes on, each with the slot that its prong comes through, where one is named."""
    found: dict[str, str | None] = {}
    for name in hardware.on:
        strap, _, slot = name.partition(".")
        found[strap] = name if slot else found.get(strap)
    return found


def _windows(placed: Placed) -> Iterator[WindowHolds]:
    """A content that lies behind the window it is said to lie inside, the window being cut out of leather."""
    for content in placed.item.contents:
        held = Held(content.name, content.wide, content.long, content.stack or 0.0, content.ease or 0.0)
        for name in content.inside:
            strap, _, opening = name.partition(".")
            piece = placed.pieces.get(strap)
            if piece and any(one.name == opening and one.kind == "opening" for one in piece.features):
                yield WindowHolds(name, held)


def _inserts(parts: tuple[PlacedPart, ...], bound: Pattern) -> Iterator[InsertBehind]:
    """Sheets that are drafted over a piece of another stock and lie behind the middle of its window."""
    for insert in parts:
        piece = bound.pieces.get(insert.name)
        if piece is None or insert.stock is None or insert.stock.kind != "sheet":
            continue
        for part in parts:
            if part.name == piece.sheet and part.stock != insert.stock:
                for window in part.openings:
                    if window.kind == "window" and _lies_behind(insert.outline, window.ring):
                        yield InsertBehind(insert.name, f"{part.name}.{window.name}")


def _lies_behind(insert: Ring, window: Ring) -> bool:
    return insert.contains(window.bounds.center) or leaves_at(window, insert) is None


def _turn_backs(parts: tuple[PlacedPart, ...], placed: Placed) -> Iterator[StrapTurnBack]:
    straps = {name: slot for one in placed.item.hardware for name, slot in _straps_of(one).items()}
    for part in parts:
        if part.name in straps:
            for fold in part.folds:
                if abs(fold.turn) >= LEAST_TURN_BACK:
                    yield _turn_back(part, fold, (straps[part.name] or "").partition(".")[2] or None)


def _turn_back(part: PlacedPart, fold: PlacedFold, slot: str | None) -> StrapTurnBack:
    """The shorter end of the strap is the one that is folded back."""
    middle, along = fold.line.midpoint, lying_of(part.outline).direction
    offs = [(leg.start - middle).dot(along) for leg in part.outline.legs]
    back = along if abs(max(offs)) < abs(min(offs)) else -along
    seams = []
    for line in part.stitches:
        reaches = [(hole.point - middle).dot(back) for hole in line.layout.holes]
        if reaches and min(reaches) > 0:
            seams.append((line.name, max(reaches)))
    reach = max(abs(off) for off in offs if off * along.dot(back) > 0)
    opening = next((one for one in part.openings if one.name == slot), None)
    off = abs((opening.ring.bounds.center - middle).dot(along)) if opening else 0.0
    return StrapTurnBack(part.name, fold.name, reach, tuple(seams), slot if opening else None, off)
