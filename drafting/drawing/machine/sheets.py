"""Sheets for a machine: every piece of one stock as often as it is cut, side by side, each operation on its layer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from drafting.drawing.machine.engraving import TURNING
from drafting.drawing.machine.layers import LAYERS, Layer
from drafting.drawing.machine.work import Work, words_of, work_of
from drafting.drawing.marks import Drawing, Group, Stroke
from drafting.geometry.bounds import Bounds
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Vector
from drafting.records import dataclass
from drafting.solve.placed import Placed, PlacedPiece

MARGIN = 5.0
"""Left free round a sheet, and between pieces."""
WIDEST = 600.0
"""A row of pieces is no longer than this, unless one piece is."""
CUTTERS = ("laser", "blade")


@dataclass(frozen=True)
class Laid:
    """One copy of a piece: turned over about the plumb line through (0, 0) or not, then moved."""

    piece: str
    is_turned: bool
    move: Vector

    def line(self, way: Path | Ring) -> Path | Ring:
        """A line of the piece as it lies on the sheet."""
        return (way.mirrored(*TURNING) if self.is_turned else way).moved(self.move)


@dataclass(frozen=True)
class MachineSheet:
    """A drawing of layers, groups of kind `layer`, and what lies on it. `kerf` is what the cutter takes away."""

    stock: str | None
    drawing: Drawing
    layers: Mapping[str, Layer]
    laid: tuple[Laid, ...]
    kerf: float


@dataclass(frozen=True)
class Copy:
    """A piece to be laid, with its lines."""

    piece: str
    is_turned: bool
    work: tuple[Work, ...]

    @property
    def bounds(self) -> Bounds:
        return Bounds.joining(one.way.bounds for one in self.work)


def cut_sheets(
    placed: Placed,
    pieces: Sequence[str],
    layers: Mapping[str, Layer] = LAYERS,
    kerf: float = 0.0,
    words: tuple[str, ...] = ("stamp",),
) -> list[MachineSheet]:
    """A sheet for each stock that the named pieces are cut from, in the order in which they are named.

    Raises KerfFault where the cutter is too wide.
    """
    chosen = [placed.pieces[name] for name in pieces]
    stocks = dict.fromkeys(piece.stock for piece in chosen)
    return [
        machine_sheet(
            f"{placed.title or placed.stem}{f': {stock}' if stock else ''}",
            [copy for piece in chosen if piece.stock == stock for copy in copies_of(piece, kerf, words)],
            layers,
            kerf,
            stock,
        )
        for stock in stocks
    ]


def stocks_of(placed: Placed, pieces: Sequence[str]) -> list[tuple[str, str]]:
    """The stocks that the named pieces are cut from, each with all that is written of it."""
    known = {stock.name: stock for stock in placed.item.stocks}
    found: dict[str, list[str]] = {}
    for piece in (placed.pieces[name] for name in pieces):
        if piece.stock is not None:
            stock = known.get(piece.stock)
            words = found.setdefault(piece.stock, [stock.material, stock.note or ""] if stock else [])
            words.append(piece.stock_note or "")
    return [(name, " ".join(filter(None, words))) for name, words in found.items()]


def copies_of(piece: PlacedPiece, kerf: float, words: tuple[str, ...]) -> Iterator[Copy]:
    """As many as are cut, the second of each pair turned over; words read the right way on both."""
    plain = tuple(work_of(piece, kerf, (*words, "mark")))
    turned = tuple(_turned_over(piece, plain, words)) if piece.pair else ()
    for _ in range(piece.count):
        yield Copy(piece.name, False, plain)
        if piece.pair:
            yield Copy(piece.name, True, turned)


def _turned_over(piece: PlacedPiece, work: Iterable[Work], words: tuple[str, ...]) -> Iterator[Work]:
    lettered = {
        f"{piece.name}.{feature.name}": feature for feature in piece.features if feature.kind in words
    }
    for one in work:
        if one.operation != "engrave" or one.where not in lettered:
            yield Work(one.operation, one.where, one.way.mirrored(*TURNING))
    for where, feature in lettered.items():
        yield from (Work("engrave", where, way) for way in words_of(piece, feature, is_turned=True))


def machine_sheet(
    title: str, copies: Sequence[Copy], layers: Mapping[str, Layer], kerf: float, stock: str | None = None
) -> MachineSheet:
    """Copies in rows from the lower left, on a sheet just as large as they need."""
    laid, size = _in_rows(copies)
    groups = (_layer(layer, copies, laid) for layer in layers.values())
    kept = tuple(group for group in groups if group.marks)
    note = f"True size, lengths in mm. Kerf {kerf:g} mm." if kerf else "True size, lengths in mm, no kerf."
    drawing = Drawing(title, note, size.x, size.y, "layers", 1.0, kept)
    return MachineSheet(stock, drawing, layers, tuple(laid), kerf)


def _in_rows(copies: Sequence[Copy]) -> tuple[list[Laid], Vector]:
    """Where each copy goes, and how large the sheet is then; in whole millimetres beyond what lies on it."""
    boxes = [copy.bounds for copy in copies]
    widest = max(WIDEST, *(box.width for box in boxes))
    laid: list[Laid] = []
    x, y, high, across = MARGIN, MARGIN, 0.0, 0.0
    for copy, box in zip(copies, boxes, strict=True):
        if x > MARGIN and x + box.width > MARGIN + widest:
            x, y, high = MARGIN, y + high + MARGIN, 0.0
        laid.append(Laid(copy.piece, copy.is_turned, Vector(x - box.min_x, y - box.min_y)))
        x, high = x + box.width + MARGIN, max(high, box.height)
        across = max(across, x)
    return laid, Vector(_up(across), _up(y + high + MARGIN))


def _up(length: float) -> float:
    return float(-(-length // 1))


def _layer(layer: Layer, copies: Sequence[Copy], laid: Sequence[Laid]) -> Group:
    kind = layer.kind
    strokes = tuple(
        Stroke(kind, one.way.moved(place.move))
        for copy, place in zip(copies, laid, strict=True)
        for one in copy.work
        if one.operation == layer.operation
    )
    return Group("layer", layer.name, strokes, title=layer.operation)
