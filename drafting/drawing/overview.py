"""The overview: all pieces of a pattern side by side on one sheet, each with its name and what to cut.

1:1 on A4 or A3 if either holds them, else in the first reduction of ISO 5455 that fits one: an overview is to be looked
over, and each piece has a sheet of its own in true size.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.drawing.amounts import Figures
from drafting.drawing.assembly import Base, assemble, make_base
from drafting.drawing.caution_words import caution_remarks
from drafting.drawing.dressing import Dressed, cut_words, direction_words, dress_plainly
from drafting.drawing.facts import footer_facts, overview_facts, stock_words
from drafting.drawing.item_words import item_remarks
from drafting.drawing.lettering import LINE_PITCH, clip, plain_text, wrap
from drafting.drawing.lines import CUT
from drafting.drawing.marks import Drawing, Group, Lettering, kinds_in
from drafting.drawing.scales import reductions
from drafting.drawing.seams import Letters, join_remarks, seam_letters
from drafting.drawing.sheets import HANDY_SHEETS, SHEETS, Sheet, own_sheet
from drafting.drawing.signs import name_block
from drafting.geometry.bounds import Bounds
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass
from drafting.solve.placed import Placed, PlacedPiece

CELL_GAP = 14.0
ROW_GAP = 12.0
HIGHER = 5.0
"""By how much the cells that stand above each other may reach higher at each trial."""
LEAST_CAPTION = 45.0
NAME_HEIGHT = 3.5
MOST_REDUCED = 1000


@dataclass(frozen=True)
class Cell:
    """A piece with its caption beneath, and the box around both."""

    group: Group
    bounds: Bounds


@dataclass(frozen=True)
class Column:
    """Cells above each other, the first on top."""

    cells: tuple[Cell, ...]

    @property
    def width(self) -> float:
        return max(cell.bounds.width for cell in self.cells)

    @property
    def height(self) -> float:
        return sum(cell.bounds.height for cell in self.cells) + ROW_GAP * (len(self.cells) - 1)


@dataclass(frozen=True)
class Row:
    columns: tuple[Column, ...]

    @property
    def width(self) -> float:
        return sum(column.width for column in self.columns) + CELL_GAP * (len(self.columns) - 1)

    @property
    def height(self) -> float:
        return max(column.height for column in self.columns)


def overview(placed: Placed, *, draft: bool = False, remarks: Sequence[str] = ()) -> Drawing:
    """All pieces on one sheet.

    `draft` says on it that the pattern was not checked; `remarks` stand among its notes.
    """
    figures = Figures.shown_by(placed.show)
    letters = seam_letters(placed)
    item = (*join_remarks(placed, figures), *item_remarks(placed.item, figures))
    told = (*item, *remarks, *caution_remarks(placed))
    for reduction in reductions():
        scale = 1 / reduction
        if reduction < MOST_REDUCED and not _could_fit(placed, scale):
            continue
        cells = [make_cell(piece, figures, scale, letters) for piece in placed.pieces.values()]
        base = make_base(
            footer_facts(placed, figures, kinds_in(cell.group for cell in cells) or (CUT,), told),
            draft,
        )
        for sheet in HANDY_SHEETS:
            rows = arranged(cells, base.room_in(sheet))
            if rows is not None:
                return _drawn(placed, figures, sheet, base, rows, scale)
        if reduction >= MOST_REDUCED:
            return _drawn_on_own_sheet(placed, figures, base, cells, scale)
    raise AssertionError("reductions never end")


def _could_fit(placed: Placed, scale: float) -> bool:
    """False where a piece alone is larger than the largest handy sheet: then there is no use in drawing it."""
    frame = HANDY_SHEETS[-1].frame
    boxes = [piece.outline.bounds for piece in placed.pieces.values()]
    return all(box.width * scale <= frame.width and box.height * scale <= frame.height for box in boxes)


def make_cell(piece: PlacedPiece, figures: Figures, scale: float, letters: Letters) -> Cell:
    dressed = dress_plainly(piece, figures, scale, letters)
    group = Group("cell", piece.name, (dressed.group, caption(piece, dressed)))
    bounds = group.bounds
    assert bounds is not None
    return Cell(group, bounds)


def caption(piece: PlacedPiece, dressed: Dressed) -> Group:
    """Name, count and stock, under the piece."""
    room = max(dressed.bounds.width, LEAST_CAPTION)
    lines = [(line, NAME_HEIGHT) for line in clip(wrap(piece.name, NAME_HEIGHT, room), NAME_HEIGHT, room, 3)]
    second = ", ".join(
        words for words in (cut_words(piece), stock_words(piece), _grain_words(piece, dressed)) if words
    )
    lines += [(line, 2.5) for line in clip(wrap(second, 2.5, room), 2.5, room, 3)]
    whole = sum(height * LINE_PITCH for _, height in lines)
    center = Point(dressed.middle, dressed.bounds.min_y - 3.0 - whole / 2)
    return Group("caption", piece.name, tuple(name_block(lines, center)), title=plain_text(piece.note or ""))


def _grain_words(piece: PlacedPiece, dressed: Dressed) -> str:
    """What no arrow tells: that the grain is free, or where it lies on a piece too small for one."""
    if isinstance(piece.grain, str):
        return f"grain {piece.grain}"
    has_arrow = any(group.kind == "grain" for group in dressed.group.walk())
    return "" if piece.grain is None or has_arrow else f"grain {direction_words(piece.grain)}"


def arranged(cells: list[Cell], room: Bounds) -> list[Row] | None:
    """Cells side by side, or as few of them above each other as fit into the room; nothing where none do."""
    rows = fill_rows(cells, room.width)
    stack = max((row.height for row in rows), default=0.0)
    while not fits(rows, room):
        if stack > room.height:
            return None
        rows = fill_rows(cells, room.width, stack)
        stack += HIGHER
    return rows


def fill_rows(cells: list[Cell], width: float, stack: float = 0.0) -> list[Row]:
    """Cells in their order, in rows no wider than `width` unless a single one is; those that come after each other
    stand above each other where they reach no higher than `stack`."""
    rows: list[list[Column]] = []
    for column in _columns(cells, stack):
        if rows and Row((*rows[-1], column)).width <= width:
            rows[-1].append(column)
        else:
            rows.append([column])
    return [Row(tuple(row)) for row in rows]


def _columns(cells: list[Cell], stack: float) -> list[Column]:
    columns: list[Column] = []
    for cell in cells:
        higher = Column((*columns[-1].cells, cell)) if columns else None
        if higher and higher.height <= stack:
            columns[-1] = higher
        else:
            columns.append(Column((cell,)))
    return columns


def fits(rows: list[Row], room: Bounds) -> bool:
    return height_of(rows) <= room.height and all(row.width <= room.width for row in rows)


def height_of(rows: list[Row]) -> float:
    return sum(row.height for row in rows) + ROW_GAP * max(len(rows) - 1, 0)


def _drawn(
    placed: Placed, figures: Figures, sheet: Sheet, base: Base, rows: list[Row], scale: float
) -> Drawing:
    views = place_rows(rows, base.room_in(sheet)) or [_nothing(base.room_in(sheet))]
    facts = overview_facts(placed, figures, sheet.name, scale)
    note = f"All pieces at {facts.scale}, {sheet.name}. Lengths in mm, y downward, one user unit is 1 mm."
    return assemble(sheet, base, facts, views, note, scale)


def _drawn_on_own_sheet(
    placed: Placed, figures: Figures, base: Base, cells: list[Cell], scale: float
) -> Drawing:
    """For what no reduction brings onto A3: very many pieces, or miles of strap."""
    widest = max(max(cell.bounds.width for cell in cells), SHEETS[-1].frame.width)
    rows = fill_rows(cells, widest)
    sheet = own_sheet(*base.size_for(widest, height_of(rows)))
    return _drawn(placed, figures, sheet, base, rows, scale)


def place_rows(rows: list[Row], room: Bounds) -> list[Group]:
    """Rows spread over the room from the top, each in the middle of the width."""
    spare = room.height - height_of(rows)
    y = room.max_y - spare / 2
    groups: list[Group] = []
    for row in rows:
        groups += _placed_row(row, room.center.x - row.width / 2, y - row.height)
        y -= row.height + ROW_GAP
    return groups


def _placed_row(row: Row, left: float, bottom: float) -> list[Group]:
    groups: list[Group] = []
    for column in row.columns:
        groups += _placed_column(column, left + column.width / 2, bottom + column.height)
        left += column.width + CELL_GAP
    return groups


def _placed_column(column: Column, middle: float, top: float) -> list[Group]:
    """Moved by whole millimetres, so that the file keeps the round numbers of the pattern."""
    groups = []
    for cell in column.cells:
        top -= cell.bounds.height
        move = Vector(
            round(middle - cell.bounds.width / 2 - cell.bounds.min_x), round(top - cell.bounds.min_y)
        )
        groups.append(cell.group.moved(move))
        top -= ROW_GAP
    return groups


def _nothing(room: Bounds) -> Group:
    words = Lettering("This pattern has no pieces yet.", room.center, NAME_HEIGHT, "middle", use="note")
    return Group("empty", "empty", (words,))
