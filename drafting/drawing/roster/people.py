"""People of a roster: what each row of the table asks of the pattern, fitted, with every fault at its line.

A row is placed in its own size; rows of one size share it. Nothing is drawn here: letters are fitted, and drawn for one
person at a time when they are written.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from drafting.drawing.amounts import Figures
from drafting.drawing.record import Record
from drafting.drawing.roster.cards import Card, CardMaker, Lacking
from drafting.drawing.roster.feeds import SIZE, Feeds, Stamp, feeds_of, typed
from drafting.drawing.roster.fitting import fitted_height, is_on, laid, room_of
from drafting.drawing.roster.letters import LETTERS, inked, lines_of_words, say_lacking, shortened
from drafting.drawing.roster.wishes import Wishes
from drafting.model.pattern import Pattern
from drafting.records import dataclass, replace
from drafting.solve.placed import Placed, PlacedFeature, PlacedPiece
from drafting.text.catalogue import roster as says
from drafting.text.catalogue.model import UNKNOWN_NAME
from drafting.text.messages import Messages, Severity, did_you_mean
from drafting.text.source import Span
from drafting.text.table import Row, Table, key_of

Place = Callable[[str | None, Mapping[str, str]], tuple[Placed | None, Messages]]
"""The pattern in a size, with measures set; or what keeps it from being placed."""
Told = Callable[[str], None]
"""Told whom the work has come to."""
AN_AMOUNT = "Write an amount with its unit, such as `12 mm`."
"""A table is no place to add the measures that a name might have meant."""


@dataclass(frozen=True)
class Inscription:
    """The words of one stamp, in lines, and how high their capitals are in mm."""

    stamp: Stamp
    words: tuple[str, ...]
    height: float


@dataclass(frozen=True)
class Person:
    """One row that is made; `number` counts from 1, `title` is what the row is called in lists and file names."""

    number: int
    row: Row
    title: str
    placed: Placed
    inscriptions: tuple[Inscription, ...]
    card: Card | None


@dataclass(frozen=True)
class Roster:
    """Everybody, and what was asked."""

    people: tuple[Person, ...]
    wishes: Wishes
    made_from: Record | None = None
    """The pattern, the table and the wishes, for the files that are made of it."""

    def record(self, what: str, number: int | None = None) -> str:
        """The line for a file: of `what` kind, and of one person where their `number` is given."""
        made_from = self.made_from
        if made_from is None:
            return ""
        return replace(made_from, what=what, asked={**made_from.asked, "number": number}).line

    @property
    def has_engravings(self) -> bool:
        return any(person.inscriptions for person in self.people)

    @property
    def has_cards(self) -> bool:
        return any(person.card for person in self.people)


def roster_of(
    pattern: Pattern,
    place: Place,
    table: Table,
    wishes: Wishes,
    lacking: Lacking,
    told: Told = lambda who: None,
) -> tuple[Roster | None, Messages]:
    """The roster, and all that is wrong with it; None where there are faults."""
    messages = Messages()
    feeds = feeds_of(pattern, table, wishes, messages)
    if messages.has_errors:
        return None, messages
    making = _Making(
        pattern,
        place,
        table,
        wishes,
        feeds,
        CardMaker(table, wishes, feeds.used, lacking, messages),
        messages,
    )
    people = tuple(making.people(told))
    if messages.has_errors:
        return None, messages
    return Roster(tuple(_even(people)) if wishes.is_even else people, wishes), messages


class _Making:
    def __init__(
        self,
        pattern: Pattern,
        place: Place,
        table: Table,
        wishes: Wishes,
        feeds: Feeds,
        cards: CardMaker,
        messages: Messages,
    ) -> None:
        self.pattern, self.table, self.wishes = pattern, table, wishes
        self.feeds, self.messages = feeds, messages
        self.letters = LETTERS[wishes.letters]
        self.figures = Figures(("mm",), with_units=True)
        self.sizes = {key_of(row.title): row.title for row in pattern.sizes}
        self.place_anew = place
        self.placed: dict[tuple[str | None, tuple[str, ...]], tuple[Placed | None, Messages]] = {}
        self.cards = cards
        self.said_of_words: set[tuple[int, str]] = set()
        self.seen: dict[tuple[str, ...], int] = {}

    def people(self, told: Told) -> Iterator[Person]:
        number = 0
        for row in self.rows():
            placed = self.place(row)
            if placed is None:
                continue
            if not self.is_something_made(placed):
                return
            number += 1
            title = self.title(row)
            told(title)
            inscriptions = tuple(self.inscriptions(row, placed))
            yield Person(number, row, title, placed, inscriptions, self.cards.card(row, placed))

    def rows(self) -> Iterator[Row]:
        """Those that say something."""
        for row in self.table.rows:
            if row.is_empty:
                self.messages.add(says.ROW_EMPTY, at=row.at, line=row.line)
                continue
            first = self.seen.setdefault(row.texts, row.line)
            if first != row.line:
                self.messages.add(says.ROW_TWICE, at=row.at, line=row.line, first=first)
            yield row

    def title(self, row: Row) -> str:
        """What stands under `name`, else in the first cell that holds something."""
        heading = self.table.heading("name")
        named = row.cells[heading].text if heading else ""
        return " ".join((named or next(filter(None, row.texts))).split())

    def is_something_made(self, placed: Placed) -> bool:
        self.cards.choose(placed)
        if self.messages.has_errors or self.feeds.stamps or self.cards.content:
            return True
        self.messages.add(says.NOTHING_TO_MAKE, at=None)
        return False

    # Sizes

    def place(self, row: Row) -> Placed | None:
        """The pattern as this row has it; None where it cannot be."""
        is_said = [
            self.is_said(row, heading, f"the measure `{name}`") for name, heading in self.feeds.measures
        ]
        size = self.size(row)
        if (size is None and self.sizes) or not all(is_said):
            return None
        values = tuple(row.cells[heading].text for _, heading in self.feeds.measures)
        key = (size, values)
        if key not in self.placed:
            names = (name for name, _ in self.feeds.measures)
            self.placed[key] = self.place_anew(size, dict(zip(names, values, strict=True)))
        placed, found = self.placed[key]
        for message in found:
            if placed is None and message.severity is Severity.ERROR:
                at = row.cells[self.feeds.measures[0][1]].at if self.feeds.measures else row.at
                mend = AN_AMOUNT if message.code == UNKNOWN_NAME.code else message.mend
                facts = {"line": row.line, "fault": message.says, "mend": mend}
                self.messages.say(says.SIZE_FAULT, at, facts)
        return placed

    def size(self, row: Row) -> str | None:
        """The size of a row by its title, capitals and blanks aside."""
        if self.feeds.size is None:
            return self.wishes.size or next(iter(self.sizes.values()), None)
        known = list(self.sizes.values())
        if not self.is_said(row, self.feeds.size, "the size", known[0]):
            return None
        cell = row.cells[self.feeds.size]
        found = self.sizes.get(key_of(cell.text))
        if found is None:
            listed = ", ".join(f"`{title}`" for title in known)
            near = did_you_mean(cell.text, known)
            other = f" Or leave this column aside: say one for everybody, such as `--size {typed(known[0])}`."
            is_asked = SIZE in self.wishes.columns
            facts = {"line": row.line, "size": cell.text, "known": listed, "near": near}
            facts["other"] = "" if is_asked else other
            self.messages.say(says.UNKNOWN_SIZE, cell.at, facts)
        return found

    def is_said(self, row: Row, heading: str, what: str, known: str = "12 mm") -> bool:
        """Whether there is anything in a cell that everybody needs."""
        cell = row.cells[heading]
        if not cell.text:
            facts = {"line": row.line, "column": heading, "what": what, "known": known}
            self.messages.say(says.NOT_SAID, cell.at, facts)
        return bool(cell.text)

    # Stamps

    def inscriptions(self, row: Row, placed: Placed) -> Iterator[Inscription]:
        for stamp in self.feeds.stamps:
            if stamp.heading is not None:
                yield from self.inscribed(row, placed, stamp, self.messages)
            elif not self.wishes.is_mirrored:
                yield from self.always_inscribed(row, placed, stamp)

    def always_inscribed(self, row: Row, placed: Placed, stamp: Stamp) -> Iterator[Inscription]:
        """Words that everybody has: what is wrong with them is said once a size."""
        key = (id(placed), stamp.full_name)
        messages = Messages() if key in self.said_of_words else self.messages
        self.said_of_words.add(key)
        yield from self.inscribed(row, placed, stamp, messages)

    def inscribed(self, row: Row, placed: Placed, stamp: Stamp, messages: Messages) -> Iterator[Inscription]:
        """Nothing where there are no words, or where they cannot be made."""
        text = stamp.words if stamp.heading is None else row.cells[stamp.heading].text
        words = tuple(lines_of_words(text or ""))
        at = stamp.at if stamp.heading is None else row.cells[stamp.heading].at
        facts = {"line": row.line, "text": shortened(words), "what": f"`{stamp.full_name}`"}
        if not words:
            messages.say(says.CELL_EMPTY, row.at, {**facts, "column": stamp.heading})
            return
        missing = dict.fromkeys(letter for line in words for letter in self.letters.lacking(line))
        if missing:
            say_lacking(missing, self.letters.name, at, facts, messages)
            return
        height = self.height(placed, stamp, words, at, facts, messages)
        if height is not None:
            yield Inscription(stamp, words, height)

    def height(
        self,
        placed: Placed,
        stamp: Stamp,
        words: tuple[str, ...],
        at: Span,
        facts: Mapping[str, object],
        messages: Messages,
    ) -> float | None:
        """How high the capitals come out; None where they are too low, or run off the leather."""
        piece, feature = stamp_on(placed, stamp)
        room, ink = room_of(feature), inked(self.letters, words)
        height = fitted_height(room, ink)
        figures = {"height": self.figures.length(height), "least": self.figures.length(self.wishes.least)}
        if height < self.wishes.least:
            other = ", write it in two lines of its cell, or allow lower ones with `--least`"
            messages.say(says.TOO_LONG, at, {**facts, **figures, "other": other})
            return None
        if room.height is not None and not is_on(piece, laid(room, ink, height)):
            where = {"piece": piece.name, "stamp": stamp.name}
            messages.say(says.OFF_THE_LEATHER, at, {**facts, **figures, **where})
            return None
        return height


def stamp_on(placed: Placed, stamp: Stamp) -> tuple[PlacedPiece, PlacedFeature]:
    piece = placed.pieces[stamp.piece]
    return piece, next(feature for feature in piece.features if feature.name == stamp.name)


def _even(people: Sequence[Person]) -> Iterator[Person]:
    """Each stamp with the height that the longest words on it need, and each card with that of the fullest."""
    heights: dict[str, float] = {}
    for person in people:
        for each in person.inscriptions:
            name = each.stamp.full_name
            heights[name] = min(each.height, heights.get(name, each.height))
    lowest = min((person.card.height for person in people if person.card), default=0.0)
    for person in people:
        inscriptions = tuple(
            replace(each, height=heights[each.stamp.full_name]) for each in person.inscriptions
        )
        card = person.card.with_height(lowest) if person.card else None
        yield replace(person, inscriptions=inscriptions, card=card)
