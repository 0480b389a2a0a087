"""What is laid on sheets: a piece with its words, one tile of a large piece, the card, the sheet map."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from itertools import pairwise

from drafting.drawing.arrows import cross, straight
from drafting.drawing.board import Board
from drafting.drawing.dressing import direction_words, lettering_height, template_lines
from drafting.drawing.label_words import inscription
from drafting.drawing.lettering import LINE_PITCH, clip, natural_width, wrap
from drafting.drawing.lines import MARKING, TABLE
from drafting.drawing.marks import ORIGIN, QUARTER_TURN, Group, Lettering, Stroke
from drafting.drawing.prints.papers import Paper, TooManyTiles
from drafting.drawing.prints.tiling import Tile, Tiling, least_count, tile
from drafting.drawing.prints.windows import boxed
from drafting.drawing.signs import grain_sign, name_block, name_sign
from drafting.drawing.title_block import rectangle
from drafting.drawing.view import piece_view
from drafting.geometry.bounds import Bounds
from drafting.geometry.curves import box
from drafting.geometry.path import Ring
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass, replace
from drafting.solve.placed import PlacedPiece

CARD_WIDE, CARD_HIGH, CARD_CORNER = 85.60, 53.98, 3.18
"""ISO/IEC 7810 ID-1."""

HEAD = 11.0
"""The strip above a tile that says which it is, and what is cut from it."""

MOST_TILES = 300
"""Of one piece: through more of them nobody finds the way."""

EDGE = 1.0
"""What a tile shows beyond the piece, so that its outermost line is whole."""

CROSS = 3.0
LEAST_CAPTION = 45.0
LEAST_HEAD = 42.0
"""So much room has the head of a tile, however slim the tile is."""


@dataclass(frozen=True)
class Shown:
    """Which piece a sheet shows, how it came there (quarter turns about (0, 0), then a move), and how much of it."""

    piece: str
    quarters: int
    move: Vector
    window: Bounds | None


@dataclass(frozen=True)
class Parcel:
    """A group with the box it needs. `piece` is what it shows, all of it or what is in the `window` of one tile."""

    group: Group
    bounds: Bounds
    piece: str | None = None
    tile: str = ""
    window: Bounds | None = None
    quarters: int = 0
    """How often its group is turned already."""

    @cached_property
    def turned(self) -> Parcel:
        """By a quarter."""
        window = self.window.quarter_turned() if self.window else None
        bounds = self.bounds.quarter_turned()
        return replace(
            self, group=self.group.quarter_turned(), bounds=bounds, window=window, quarters=self.quarters + 1
        )

    def laid(self, left: float, bottom: float) -> tuple[Group, Shown | None]:
        """The group with the lower left corner of its box at a place, and what it then shows."""
        move = Vector(left - self.bounds.min_x, bottom - self.bounds.min_y)
        window = self.window.moved(move) if self.window else None
        shown = Shown(self.piece, self.quarters, move, window) if self.piece is not None else None
        return self.group.moved(move), shown


def parcels_of(piece: PlacedPiece, paper: Paper) -> list[Parcel]:
    """The piece as one parcel where a sheet has room for it, else its tiles. Raises TooManyTiles."""
    expect_few_tiles(piece.name, piece.cutting.bounds, piece.cutting.area, paper)
    group, caption = printed(piece)
    whole, room = _with_caption(group, caption), paper.room
    if fits(bounds_of(whole), room):
        return [Parcel(whole, bounds_of(whole), piece.name)]
    bounds = bounds_of(group)
    upright = _tiling(piece.cutting, bounds, room)
    lying = _tiling(piece.cutting.turned(QUARTER_TURN, ORIGIN), bounds.quarter_turned(), room)
    fewest = min(len(upright.tiles), len(lying.tiles))
    if fewest > MOST_TILES:
        raise TooManyTiles(piece.name, fewest, paper.name, piece.cutting.bounds)
    if len(lying.tiles) < len(upright.tiles):
        return [replace(parcel, quarters=1) for parcel in _tile_parcels(piece, group.quarter_turned(), lying)]
    return list(_tile_parcels(piece, group, upright))


def expect_few_tiles(name: str, bounds: Bounds, area: float, paper: Paper) -> None:
    """Raises TooManyTiles for a piece that is far too large, before any of its tiles is looked at."""
    room = paper.room
    boxes = (bounds.grown(EDGE), bounds.quarter_turned().grown(EDGE))
    least = min(least_count(box, area, room.width, room.height - HEAD) for box in boxes)
    if least > MOST_TILES:
        raise TooManyTiles(name, least, paper.name, bounds)


def can_carry(paper: Paper, bounds: Bounds) -> bool:
    """Whether so few tiles of a paper cover a whole box that one finds the way through."""
    try:
        expect_few_tiles("", bounds, bounds.width * bounds.height, paper)
    except TooManyTiles:
        return False
    return True


def fits(bounds: Bounds, room: Bounds) -> bool:
    """Whether a box goes into another, as it lies or a quarter turned."""
    wide, high = bounds.width, bounds.height
    return (wide <= room.width and high <= room.height) or (high <= room.width and wide <= room.height)


def _with_caption(group: Group, caption: Group | None) -> Group:
    return replace(group, marks=(*group.marks, caption)) if caption else group


def bounds_of(group: Group) -> Bounds:
    """The box around what is never empty."""
    bounds = group.bounds
    assert bounds is not None
    return bounds


def printed(piece: PlacedPiece) -> tuple[Group, Group | None]:
    """A piece at true size with its labels, grain and name, no dimensions: what is drawn is what is cut.

    Where its name has no room on it, that is the second, to stand beneath; the heads of tiles say the same.
    """
    view = piece_view(piece, 1.0, with_guides=False)
    board = Board()
    board.add(view)
    groups = [view]
    for words in (inscription(board, feature, 1.0) for feature in piece.features):
        groups += _added(board, words)
    groups += _added(board, grain_sign(board, piece, 1.0))
    lines = _facts(piece)
    on_it = _added(board, name_sign(board, piece, lines, 1.0))
    caption = None if on_it else _beneath(piece, lines, Bounds.joining(_boxes(groups)))
    return Group("cell", piece.name, (*groups, *on_it)), caption


def _added(board: Board, group: Group | None) -> list[Group]:
    if group is None:
        return []
    board.add(group)
    return [group]


def _boxes(groups: list[Group]) -> Iterator[Bounds]:
    for group in groups:
        if group.bounds:
            yield group.bounds


def _facts(piece: PlacedPiece) -> list[tuple[str, float]]:
    """Name, what to cut from what, and which face is seen."""
    name, cut = template_lines(piece, lettering_height(piece))
    parts = clip(wrap("; ".join(face_words(piece)), 1.8, LEAST_CAPTION), 1.8, LEAST_CAPTION, 4)
    return [name, cut, *((part, 1.8) for part in parts)]


def face_words(piece: PlacedPiece) -> list[str]:
    """Which face is seen, how the grain lies, and where it is folded."""
    words = ["grain side up"]
    if piece.pair:
        words.append("turn over for the second of the pair")
    if isinstance(piece.grain, int | float):
        words.append(f"grain {direction_words(piece.grain)}")
    elif piece.grain == "any":
        words.append("grain any way")
    folds = [feature.name for feature in piece.features if feature.kind == "fold"]
    return [*words, f"fold at {', '.join(folds)}"] if folds else words


def _beneath(piece: PlacedPiece, lines: list[tuple[str, float]], bounds: Bounds) -> Group:
    """The same under a piece that has no room for it."""
    room = max(bounds.width, LEAST_CAPTION)
    shown = [
        (part, height) for line, height in lines for part in clip(wrap(line, height, room), height, room, 3)
    ]
    whole = sum(height * LINE_PITCH for _, height in shown)
    center = Point(bounds.center.x, bounds.min_y - 3.0 - whole / 2)
    return Group("caption", piece.name, tuple(name_block(shown, center)))


# Tiles


def _tiling(outline: Ring, bounds: Bounds, room: Bounds) -> Tiling:
    return tile(outline, bounds.grown(EDGE), room.width, room.height - HEAD)


def _tile_parcels(piece: PlacedPiece, group: Group, tiling: Tiling) -> Iterator[Parcel]:
    drawn = Group("tiled", piece.name, (group, *_seams(tiling)))
    held = boxed(drawn)
    assert held is not None
    for part in tiling.tiles:
        window = part.window
        shown = replace(held.group_within(drawn, window) or drawn, window=window)
        head = _head(piece, part, tiling, window)
        whole = Group(
            "tile", part.name, (shown, head, _frame(window)), title=f"{piece.name}, tile {part.name}"
        )
        right = max(window.max_x, window.min_x + LEAST_HEAD)
        bounds = Bounds(window.min_x, window.min_y, right, window.max_y + HEAD)
        yield Parcel(whole, bounds, piece.name, part.name, window)


def _frame(window: Bounds) -> Group:
    frame = Stroke(MARKING, rectangle(window.min_x, window.min_y, window.max_x, window.max_y))
    return Group("tile-frame", "tile-frame", (frame,))


def _head(piece: PlacedPiece, part: Tile, tiling: Tiling, window: Bounds) -> Group:
    """Which tile it is and which ones lie beside it."""
    names = {(other.column, other.row): other.name for other in tiling.tiles}
    sides = (("left", -1, 0), ("right", 1, 0), ("above", 0, -1), ("below", 0, 1))
    beside = [
        f"{side} {names[place]}"
        for side, across, down in sides
        for place in [(part.column + across, part.row + down)]
        if place in names
    ]
    words = f"{piece.name} {part.name}" + (f" ({', '.join(beside)})" if beside else "")
    room = max(window.width, LEAST_HEAD) - 1.0
    height = next((size for size in (2.5, 1.8) if natural_width(words, size) <= room), 1.8)
    left, top = window.min_x + 0.5, window.max_y
    facts = "; ".join([template_lines(piece, 2.5)[1][0], *face_words(piece)])
    marks = (
        *_lines(words, Point(left, top + 7.4), height, room, 1),
        *_lines(facts, Point(left, top + 4.3), 1.8, room, 2),
    )
    return Group("tile-head", part.name, marks)


def _lines(words: str, at: Point, height: float, room: float, most: int) -> Iterator[Lettering]:
    for number, line in enumerate(clip(wrap(words, height, room), height, room, most)):
        yield Lettering(line, at + Vector(0.0, -2.8 * number), height, "start", use="caption")


def _seams(tiling: Tiling) -> Iterator[Group]:
    """The lines on which tiles meet, and crosses on them that both neighbours show."""
    box_around = tiling.bounds
    places_up = _places_on(box_around.min_y, box_around.max_y, tiling.seams_up)
    places_across = _places_on(box_around.min_x, box_around.max_x, tiling.seams_across)
    for x in tiling.seams_across:
        yield _seam(Point(x, box_around.min_y), Point(x, box_around.max_y), [Point(x, y) for y in places_up])
    for y in tiling.seams_up:
        line = Point(box_around.min_x, y), Point(box_around.max_x, y)
        yield _seam(*line, [Point(x, y) for x in places_across])


def _seam(start: Point, end: Point, places: list[Point]) -> Group:
    crosses = [stroke for place in places for stroke in cross(TABLE, place, Vector(1.0, 0.0), CROSS)]
    return Group("seam", "seam", (straight(MARKING, start, end), *crosses))


def _places_on(low: float, high: float, seams: tuple[float, ...]) -> list[float]:
    """Where other seams cross, and two places between each two of them."""
    ends = [low, *sorted(seams), high]
    between = [a + (b - a) * part for a, b in pairwise(ends) for part in (0.25, 0.75)]
    return sorted([*seams, *between])


# The card


def card() -> Parcel:
    """The outline of a bank card, to lay a real one on."""
    ring = box(Point(CARD_WIDE / 2, CARD_HIGH / 2), CARD_WIDE, CARD_HIGH, 0.0, CARD_CORNER)
    lines = [
        ("Lay a bank card here:", 2.5),
        ("it must cover the line all round", 2.5),
        ("ISO/IEC 7810 ID-1", 1.8),
    ]
    words = name_block(lines, Point(CARD_WIDE / 2, CARD_HIGH / 2))
    group = Group("card", "card", (Stroke(TABLE, ring), *words), title="85.60 by 53.98 mm, ISO/IEC 7810 ID-1")
    return Parcel(group, ring.bounds.grown(1.0))
