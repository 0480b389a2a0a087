"""Values of one size -> PlacedItem: stock, thread, punches, hardware, contents and steps with their numbers.

A thing without a size, and half a buckle, are told here: an amount is only known once the size is.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from drafting.model.evaluate_measures import shown
from drafting.model.expressions import Value
from drafting.model.pattern import ContentPart, HardwarePart, ItemPart, LineRef, Pattern, PieceRef, PunchPart
from drafting.records import dataclass
from drafting.solve.placed import (
    PlacedContent,
    PlacedHardware,
    PlacedItem,
    PlacedPunch,
    PlacedStep,
    PlacedStock,
    PlacedThread,
)
from drafting.solve.reading import Reader
from drafting.text.catalogue import model as says
from drafting.text.messages import Messages
from drafting.text.quantities import LENGTH, NUMBER

COUNTS = ("need", "count")
MAY_BE_NOTHING = ("ease", "neutral")
SAME_COUNT = 1e-9


def place_item(
    pattern: Pattern, reader: Reader, messages: Messages, used_punches: Collection[str]
) -> PlacedItem:
    """What the item needs beside its pieces: of a shop's punches those that are used, and the whole table."""
    punch_table = tuple(_punches(pattern, reader, messages, used_punches))
    return PlacedItem(
        tuple(
            PlacedStock(part.name, part.material, _Amounts(part, reader, messages).of("thick"), part.note)
            for part in pattern.stocks.values()
            if "." not in part.name or any(piece.stock == part.name for piece in pattern.pieces.values())
        ),
        tuple(
            PlacedThread(part.name, _Amounts(part, reader, messages).of("thick"), part.note)
            for part in pattern.threads.values()
        ),
        tuple(punch for punch in punch_table if punch.name in used_punches),
        tuple(_hardware(part, _Amounts(part, reader, messages)) for part in pattern.hardware.values()),
        tuple(_contents(pattern, reader, messages)),
        tuple(PlacedStep(step.text, step.uses, step.note) for step in pattern.steps),
        punch_table,
    )


@dataclass(frozen=True)
class _Amounts:
    """The amounts of one thing, each judged as it is read."""

    part: ItemPart
    reader: Reader
    messages: Messages

    def of(self, word: str) -> float | None:
        """The amount of that word; None where it is not said, could not be worked out or is none that a thing has."""
        if word not in self.part.amounts:
            return None
        name = f"{self.part.name}.{word}"
        try:
            value = self.reader.number(Value(name))
        except KeyError:
            # It could not be worked out, and that is told already.
            if not self.messages.has_errors:
                raise
            return None
        if word in COUNTS:
            self._expect_whole(name, value)
        elif value <= 0 and not (word in MAY_BE_NOTHING and value == 0):
            self.messages.add(
                says.NOT_MORE_THAN_NOTHING, at=self.part.span, name=name, value=shown(value, LENGTH)
            )
            return None
        return value

    def count(self, word: str) -> int:
        value = self.of(word)
        return round(value) if value is not None else 1

    def _expect_whole(self, name: str, value: float) -> None:
        if value < 1 - SAME_COUNT or abs(value - round(value)) > SAME_COUNT:
            self.messages.add(says.NOT_WHOLE, at=self.part.span, name=name, value=shown(value, NUMBER))


def _punches(
    pattern: Pattern, reader: Reader, messages: Messages, used: Collection[str]
) -> Iterator[PlacedPunch]:
    """A punch without a size is told at the holes that it is used for; here only where there are none."""
    for part in pattern.item_parts:
        if not isinstance(part, PunchPart) or "across" not in part.amounts:
            continue
        if part.name in used:
            yield PlacedPunch(part.name, reader.number(part.amounts["across"]), part.note)
        elif part.name in pattern.punches or f"{part.name}.across" in reader.values:
            across = _Amounts(part, reader, messages).of("across")
            if across is not None:
                yield PlacedPunch(part.name, across, part.note)


def _hardware(part: HardwarePart, amounts: _Amounts) -> PlacedHardware:
    return PlacedHardware(
        part.name,
        amounts.count("need"),
        amounts.of("inside"),
        amounts.of("prong"),
        amounts.of("bar"),
        tuple(_name(ref) for ref in part.on),
        part.note,
    )


def _contents(pattern: Pattern, reader: Reader, messages: Messages) -> Iterator[PlacedContent]:
    """The contents whose two sides are known; of another the fault is told."""
    for part in pattern.contents.values():
        amounts = _Amounts(part, reader, messages)
        content = _content(part, amounts)
        if content is not None:
            yield content


def _content(part: ContentPart, amounts: _Amounts) -> PlacedContent | None:
    long, wide = amounts.of("long"), amounts.of("wide")
    rest = (
        amounts.of("width"),
        amounts.of("height"),
        amounts.of("thick"),
        amounts.of("stack"),
        amounts.count("count"),
        amounts.of("ease"),
    )
    if long is None or wide is None:
        return None
    return PlacedContent(
        part.name,
        part.published,
        long,
        wide,
        *rest,
        tuple(_name(ref) for ref in part.inside),
        _name(part.through) if part.through else None,
        part.note,
    )


def _name(ref: PieceRef | LineRef) -> str:
    """As it is told: `strap`, or `strap.eye`."""
    return ref.piece if isinstance(ref, PieceRef) else f"{ref.piece}.{ref.text}"
