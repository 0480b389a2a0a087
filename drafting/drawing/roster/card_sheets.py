"""Cards on sheets of paper, edge to edge, with cut marks outside them and rules to hold a real rule against.

Cards of one size share sheets and every cut runs right through, so a guillotine makes them in few strokes. They stand
in the order of the table, row by row from the top left.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.drawing.arrows import straight
from drafting.drawing.lines import TABLE
from drafting.drawing.marks import Drawing, Group, Stroke
from drafting.drawing.prints.papers import Paper
from drafting.drawing.prints.rules import rules
from drafting.drawing.prints.sheets import sheet_words
from drafting.drawing.roster.cards import Card, CardForm
from drafting.drawing.roster.people import Person, Roster
from drafting.geometry.bounds import Bounds
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass

OFF, LONG = 1.0, 4.0
"""A cut mark begins so far outside the cards, in mm, and is so long."""


class NoRoom(ValueError):
    """A card that is larger than the paper has room for."""


@dataclass(frozen=True)
class Laid:
    """The card of a person on a sheet: its box, and the quarter turns it took."""

    person: Person
    card: Card
    box: Bounds
    is_turned: bool

    def group(self) -> Group:
        group = self.card.group(f"{self.person.number} {self.person.title}")
        if self.is_turned:
            group = group.quarter_turned().moved(Vector(self.card.form.height, 0.0))
        return group.moved(Vector(self.box.min_x, self.box.min_y))


@dataclass(frozen=True)
class CardSheet:
    drawing: Drawing
    laid: tuple[Laid, ...]


@dataclass(frozen=True)
class Grid:
    """How cards of one form lie on a paper."""

    columns: int
    rows: int
    width: float
    height: float
    is_turned: bool
    left: float
    top: float

    @property
    def count(self) -> int:
        return self.columns * self.rows

    def box(self, index: int) -> Bounds:
        row, column = divmod(index, self.columns)
        left, high = self.left + column * self.width, self.top - row * self.height
        return Bounds(left, high - self.height, left + self.width, high)


def grid_of(form: CardForm, paper: Paper) -> Grid:
    """The grid that holds the more cards, upright where both hold as many; NoRoom where none holds one."""
    room = paper.room.grown(-(OFF + LONG))
    grids = [
        _grid(wide, high, room, is_turned)
        for wide, high, is_turned in ((form.width, form.height, False), (form.height, form.width, True))
    ]
    best = max(grids, key=lambda grid: grid.count)
    if best.count == 0:
        raise NoRoom(
            f"it is larger than the room of {room.width:.4g} mm by {room.height:.4g} mm on {paper.name}"
        )
    return best


def _grid(wide: float, high: float, room: Bounds, is_turned: bool) -> Grid:
    columns, rows = int((room.width + 1e-6) // wide), int((room.height + 1e-6) // high)
    return Grid(columns, rows, wide, high, is_turned, room.min_x, room.max_y)


def card_sheets(roster: Roster) -> list[CardSheet]:
    """Every card, those of one size together. NoRoom tells a card that is too large."""
    people: dict[CardForm, list[tuple[Person, Card]]] = {}
    for person in roster.people:
        if person.card:
            people.setdefault(person.card.form, []).append((person, person.card))
    lots = [lot for form, cards in people.items() for lot in _lots(cards, grid_of(form, roster.wishes.paper))]
    record = roster.record("cards")
    return [
        _sheet(grid, lot, roster.wishes.paper, f"sheet {number} of {len(lots)}", record)
        for number, (grid, lot) in enumerate(lots, start=1)
    ]


def _lots(cards: Sequence[tuple[Person, Card]], grid: Grid) -> Iterator[tuple[Grid, tuple[Laid, ...]]]:
    for start in range(0, len(cards), grid.count):
        part = cards[start : start + grid.count]
        yield (
            grid,
            tuple(
                Laid(person, card, grid.box(index), grid.is_turned)
                for index, (person, card) in enumerate(part)
            ),
        )


def _sheet(grid: Grid, laid: tuple[Laid, ...], paper: Paper, number: str, record: str) -> CardSheet:
    first = laid[0].person.placed
    size = f"{laid[0].card.form.width:.4g} mm by {laid[0].card.form.height:.4g} mm"
    title = f"{first.title or first.stem}: cards {size}"
    marks = Group("cut-marks", "cut-marks", tuple(_cut_marks(grid, len(laid))), title="cut marks")
    groups = (*(one.group() for one in laid), marks, rules(), sheet_words(title, number, ADVICE, paper))
    note = f"True size on {paper.name}."
    return CardSheet(Drawing(title, note, paper.width, paper.height, paper.name, 1.0, groups, record), laid)


ADVICE = "Print at 100 %, not fitted to the page. Hold a rule to both scales, then cut from mark to mark."


def _cut_marks(grid: Grid, count: int) -> Iterator[Stroke]:
    """At both ends of every cut through the cards that are there."""
    columns, rows = min(grid.columns, count), -(-count // grid.columns)
    right, low = grid.left + columns * grid.width, grid.top - rows * grid.height
    for column in range(columns + 1):
        x = grid.left + column * grid.width
        yield straight(TABLE, Point(x, grid.top + OFF), Point(x, grid.top + OFF + LONG))
        yield straight(TABLE, Point(x, low - OFF), Point(x, low - OFF - LONG))
    for row in range(rows + 1):
        y = grid.top - row * grid.height
        yield straight(TABLE, Point(grid.left - OFF, y), Point(grid.left - OFF - LONG, y))
        yield straight(TABLE, Point(right + OFF, y), Point(right + OFF + LONG, y))
