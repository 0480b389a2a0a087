"""Sheets of a print: parcels laid on paper, with rules and what the sheet says of itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import ceil

from drafting.drawing.assembly import DRAFT_WORDS
from drafting.drawing.lettering import clip, natural_width, wrap
from drafting.drawing.marks import Drawing, Group, Lettering
from drafting.drawing.prints.map import map_parcel
from drafting.drawing.prints.papers import MARGIN, Paper, TooManyTiles
from drafting.drawing.prints.parcels import Parcel, Shown, card, fits, parcels_of
from drafting.drawing.prints.rules import rules
from drafting.geometry.point import Point
from drafting.records import dataclass, replace
from drafting.solve.placed import Placed, PlacedPiece

GAP = 4.0
"""Between pieces, and half of it to the edge of the room."""

GRAIN = 100
"""Parts of a millimetre that packing reckons in; it takes whole numbers."""


@dataclass(frozen=True)
class PrintFacts:
    """What each sheet says of the pattern: `fingerprint` tells texts apart, `correction` is a printer's own scale, and
    a `draft` was not checked."""

    fingerprint: str
    correction: float = 1.0
    draft: bool = False


@dataclass(frozen=True)
class PrintSheet:
    """One sheet of paper, and what of which piece lies on it."""

    drawing: Drawing
    shown: tuple[Shown, ...]


@dataclass(frozen=True)
class Lot:
    """A parcel with its place on a sheet."""

    parcel: Parcel
    sheet: int
    left: float
    bottom: float


def times_needed(placed: Placed, pieces: Sequence[str], copies: int) -> dict[str, int]:
    """How often each piece is cut for so many items: both halves of a pair count."""
    found = {name: placed.pieces[name] for name in pieces}
    return {name: copies * piece.count * (2 if piece.pair else 1) for name, piece in found.items()}


def print_sheets(
    placed: Placed,
    paper: Paper,
    pieces: Sequence[str],
    facts: PrintFacts,
    times: Mapping[str, int] | None = None,
) -> list[PrintSheet]:
    """The named pieces at true size on as few sheets as packing finds, each once or as many `times` as is said.

    Raises TooManyTiles for a piece that is too large for the paper.
    """
    parcels = {name: parcels_of(placed.pieces[name], paper) for name in pieces}
    tiled = [placed.pieces[name] for name, parts in parcels.items() if len(parts) > 1]
    copies = {name: (times or {}).get(name, 1) for name in pieces}
    every = [part for name, parts in parcels.items() for part in parts * copies[name]]
    maps = [_map_on(piece, parcels[piece.name], paper, copies[piece.name]) for piece in tiled]
    lots = pack([*every, card(), *maps], paper)
    if tiled:
        known = _sheets_of(lots)
        lots = _with_maps(
            lots, [map_parcel(one, parcels[one.name], known, copies[one.name]) for one in tiled]
        )
    count = max(lot.sheet for lot in lots) + 1
    by_sheet: list[list[Lot]] = [[] for _ in range(count)]
    for lot in lots:
        by_sheet[lot.sheet].append(lot)
    return [_sheet(placed, paper, facts, here, number, count) for number, here in enumerate(by_sheet)]


def _map_on(piece: PlacedPiece, parts: Sequence[Parcel], paper: Paper, copies: int) -> Parcel:
    """The map before the sheets are known; it must go on a sheet as well."""
    parcel = map_parcel(piece, parts, {}, copies)
    if not fits(parcel.bounds, paper.room):
        raise TooManyTiles(piece.name, len(parts), paper.name, piece.cutting.bounds)
    return parcel


def _sheets_of(lots: Sequence[Lot]) -> dict[tuple[str, str], list[int]]:
    """The sheets that each tile lies on."""
    found: dict[tuple[str, str], list[int]] = {}
    for lot in lots:
        found.setdefault((lot.parcel.piece or "", lot.parcel.tile), []).append(lot.sheet)
    return found


def _with_maps(lots: Sequence[Lot], numbered: Sequence[Parcel]) -> list[Lot]:
    """The same lots with the maps that know on which sheet each tile lies."""
    known = {parcel.group.name: parcel for parcel in numbered}

    def drawn(lot: Lot) -> Lot:
        if lot.parcel.group.kind != "map":
            return lot
        parcel = known[lot.parcel.group.name]
        return replace(lot, parcel=parcel.turned if lot.parcel.quarters else parcel)

    return [drawn(lot) for lot in lots]


def pack(parcels: Sequence[Parcel], paper: Paper) -> list[Lot]:
    """Parcels on sheets, largest first, each on the first sheet with room for it, turned by a quarter where that
    helps."""
    from rectpack import MaxRectsBssf

    room = paper.room
    wide, high = _grains(room.width), _grains(room.height)
    sheets: list[MaxRectsBssf] = []
    lots = []
    begin: dict[
        tuple[int, int], int
    ] = {}  # A sheet without room for a parcel has none for the next one like it.
    for parcel in sorted(parcels, key=lambda one: -one.bounds.width * one.bounds.height):
        need = (
            min(_grains(parcel.bounds.width), max(wide, high)),
            min(_grains(parcel.bounds.height), max(wide, high)),
        )
        for number in range(begin.get(need, 0), len(sheets) + 1):
            if number == len(sheets):
                sheets.append(MaxRectsBssf(wide, high, rot=True))
            place = sheets[number].add_rect(*need)
            if place is not None:
                break
        else:
            raise AssertionError("a parcel is never larger than the room of a sheet")
        begin[need] = number
        laid = parcel if place.width == need[0] else parcel.turned
        lots.append(Lot(laid, number, room.min_x + place.x / GRAIN, room.min_y + place.y / GRAIN))
    return sorted(lots, key=lambda lot: (lot.sheet, -lot.bottom, lot.left))


def _grains(length: float) -> int:
    """A length with the gap beside it, rounded up."""
    return ceil((length + GAP) * GRAIN - 1e-6)


def _sheet(
    placed: Placed, paper: Paper, facts: PrintFacts, lots: Sequence[Lot], index: int, count: int
) -> PrintSheet:
    laid = [lot.parcel.laid(lot.left, lot.bottom) for lot in lots]
    groups = (*(group for group, _ in laid), rules(), _words(placed, paper, facts, index, count))
    title = f"{placed.title}: sheet {index + 1} of {count}"
    note = f"True size on {paper.name}. Lengths in mm."
    drawing = Drawing(title, note, paper.width, paper.height, paper.name, 1.0, groups)
    return PrintSheet(drawing, tuple(shown for _, shown in laid if shown))


def _words(placed: Placed, paper: Paper, facts: PrintFacts, index: int, count: int) -> Group:
    """Which pattern, which edition of it, which sheet; and how to print."""
    parts = [DRAFT_WORDS] if facts.draft else []
    parts.append(placed.title or placed.stem)
    parts += [f"size {placed.size}"] if placed.size else []
    parts += [f"edition {placed.edition}"] if placed.edition else []
    parts.append(f"text {facts.fingerprint}")
    advice = "Print at 100 %, not fitted to the page. Hold a rule to both scales before you cut."
    if facts.correction != 1.0:
        advice += f" Drawn for a printer that prints 100 mm as {100 * facts.correction:.4g} mm."
    return sheet_words(", ".join(parts), f"sheet {index + 1} of {count}", advice, paper)


def sheet_words(what: str, number: str, advice: str, paper: Paper) -> Group:
    """At the foot of a sheet: what is on it, which sheet it is, and what to do with it."""
    room = paper.width - 2 * MARGIN - natural_width(number, 2.5) - 4.0
    title = clip(wrap(what, 2.5, room), 2.5, room, 1)[0]
    words = (
        Lettering(title, Point(MARGIN, MARGIN + 5.0), 2.5, "start", use="caption"),
        Lettering(number, Point(paper.width - MARGIN, MARGIN + 5.0), 2.5, "end", use="caption"),
        *_advice(advice, paper.width - 2 * MARGIN),
    )
    return Group("sheet-words", "sheet-words", words)


def _advice(text: str, width: float) -> Iterator[Lettering]:
    for line, text_line in enumerate(clip(wrap(text, 1.8, width), 1.8, width, 2)):
        yield Lettering(text_line, Point(MARGIN, MARGIN + 1.2 - line * 2.6), 1.8, "start", use="note")
