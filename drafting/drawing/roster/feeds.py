"""Which column feeds which stamp, and which a measure or the size.

A stamp with `roster "name"` takes the column `name` or, where there is none, one that is called like the stamp. What
the maker says by `columns` goes first: of a stamp by its name, with its piece or without, or by the column that its
pattern names.
"""

from __future__ import annotations

from collections.abc import Iterator
from shlex import quote

from drafting.drawing.roster.wishes import Wishes
from drafting.model.pattern import Pattern, ShapePart
from drafting.records import dataclass, field
from drafting.text.catalogue import roster as says
from drafting.text.messages import Messages, did_you_mean
from drafting.text.source import Span
from drafting.text.table import Table

SIZE = "size"


@dataclass(frozen=True)
class Stamp:
    """A stamp of the pattern with the column it is fed from, or with the words it always has."""

    piece: str
    name: str
    heading: str | None
    words: str | None
    at: Span = field(compare=False, repr=False)
    """Where the pattern says it."""

    @property
    def full_name(self) -> str:
        return f"{self.piece}.{self.name}"


@dataclass(frozen=True)
class Feeds:
    """`measures` has the heading that sets each measure, `size` the one that names the size."""

    stamps: tuple[Stamp, ...]
    measures: tuple[tuple[str, str], ...]
    size: str | None

    @property
    def used(self) -> frozenset[str]:
        """The headings that no line of a card need say: they set sizes."""
        return frozenset([*(heading for _, heading in self.measures), *([self.size] if self.size else [])])


def feeds_of(
    pattern: Pattern, table: Table, wishes: Wishes, messages: Messages, asked: Messages | None = None
) -> Feeds:
    """What `wishes` ask for that is not there is told in `asked`, where that is given, and not in `messages`."""
    return _Feeding(pattern, table, wishes, messages, messages if asked is None else asked).feeds()


class _Feeding:
    def __init__(
        self, pattern: Pattern, table: Table, wishes: Wishes, messages: Messages, asked: Messages
    ) -> None:
        self.pattern, self.table, self.wishes = pattern, table, wishes
        self.messages, self.asked = messages, asked
        self.stamps = [
            (name, part)
            for name, piece in pattern.pieces.items()
            for part in piece.features
            if is_stamp(part)
        ]

    def feeds(self) -> Feeds:
        known = self.known()
        for key in self.wishes.columns:
            if key not in known:
                near = did_you_mean(key, known)
                listed = ", ".join(known) or "neither stamps, nor measures, nor sizes"
                self.asked.add(says.NOTHING_TO_FEED, at=None, key=key, known=listed, near=near)
        return Feeds(tuple(self.fed()), tuple(self.measures()), self.size())

    def known(self) -> list[str]:
        """All that a column can feed."""
        names = [key for piece, part in self.stamps for key in keys_of(piece, part)]
        sizes = [SIZE] if self.pattern.sizes else []
        return list(dict.fromkeys([*names, *self.pattern.measures, *sizes]))

    def fed(self) -> Iterator[Stamp]:
        for piece, part in self.stamps:
            key = next((key for key in keys_of(piece, part) if key in self.wishes.columns), None)
            if key is not None:
                wanted = self.wishes.columns[key]
                yield Stamp(
                    piece, part.name, self.heading(wanted, key, f"`{piece}.{part.name}`"), None, part.span
                )
            elif part.roster is not None:
                yield Stamp(piece, part.name, self.own_heading(piece, part), None, part.span)
            else:
                yield Stamp(piece, part.name, None, part.text, part.span)

    def own_heading(self, piece: str, part: ShapePart) -> str | None:
        wanted = part.roster or ""
        found = self.table.heading(wanted) or self.table.heading(part.name)
        return found or self.heading(wanted, part.name, f"`{piece}.{part.name}`", self.messages)

    def measures(self) -> Iterator[tuple[str, str]]:
        taken = {key for piece, part in self.stamps for key in keys_of(piece, part)}
        for name, wanted in self.wishes.columns.items():
            if name in self.pattern.measures and name not in taken:
                heading = self.heading(wanted, name, f"The measure `{name}`")
                if heading is not None:
                    yield name, heading

    def size(self) -> str | None:
        """The column of sizes is called `size`, if there is one, unless that is a measure of the pattern."""
        if not self.pattern.sizes or SIZE in self.pattern.measures:
            return None
        if SIZE in self.wishes.columns:
            return self.heading(self.wishes.columns[SIZE], SIZE, "The size")
        return None if self.wishes.size is not None else self.table.heading(SIZE)

    def heading(self, wanted: str, key: str, what: str, messages: Messages | None = None) -> str | None:
        """The table's own spelling; what it has not is told in `messages`, else with what was asked for."""
        found = self.table.heading(wanted)
        if found is None:
            headings = self.table.headings
            (self.asked if messages is None else messages).add(
                says.NO_COLUMN,
                at=heading_line(self.table),
                what=what,
                column=wanted,
                headings=", ".join(headings),
                offer=typed(f"{key}={headings[0]}"),
                near=did_you_mean(wanted, headings),
            )
        return found


def typed(pair: str) -> str:
    """As a shell takes it for one word."""
    is_plain = all(letter.isalnum() or letter in "=._-" for letter in pair)
    return pair if is_plain else quote(pair)


def is_stamp(part: ShapePart) -> bool:
    return part.kind == "stamp"


def keys_of(piece: str, part: ShapePart) -> list[str]:
    """What a stamp may be called on the command line."""
    return [f"{piece}.{part.name}", part.name, *([part.roster] if part.roster else [])]


def heading_line(table: Table) -> Span:
    """Where the headings stand."""
    source = table.source
    text = source.text
    start = len(text) - len(text.lstrip("\n"))
    line = source.position(start)[0]
    return source.span(start, start + max(len(source.line_text(line)), 1))
