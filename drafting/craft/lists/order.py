"""A batch of items -> all that it takes and costs.

Takes patterns placed in a size, with how many copies of each; gives an Order. A `fraction` is the part of a hide that
becomes parts, its yield: net areas are divided by it (10 at 70 % are 10 ÷ 0.7, never 10 and 30 % more). Upholsterers
reckon 50 to 70 % of a whole hide, small goods better (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from drafting.craft.lists.needs import Needs, Thing, added, needs_of, stock_things, times
from drafting.craft.lists.parts import Part, parts_of
from drafting.craft.lists.sewing import NEEDLE_TAIL, Sewn, seams_of
from drafting.geometry.maths import kept
from drafting.model.pattern import ItemPart, Pattern
from drafting.records import dataclass, field
from drafting.solve.placed import Placed
from drafting.text.catalogue import craft as says
from drafting.text.messages import Messages, did_you_mean
from drafting.text.money import Money, total_of
from drafting.text.prices import Price, PriceList

SOLD_BY = {"stock": "area", "glue": "area", "thread": "length", "hardware": "count"}
BY_WORDS = {"area": ("area", "m2"), "length": ("length", "100 m"), "count": ("the piece", "piece")}
Straps = dict[tuple[Thing, float], tuple[int, float]]
SAME_WIDTH = 2
"""Decimals of a mm to which straps are of one width."""


@dataclass(frozen=True)
class Entry:
    """So many copies of one pattern in one size."""

    placed: Placed
    pattern: Pattern = field(repr=False)
    copies: int = 1
    tail: float = NEEDLE_TAIL

    @kept
    def parts(self) -> tuple[Part, ...]:
        return parts_of(self.placed, frozenset(each.strap.piece for each in self.pattern.passes))

    @kept
    def seams(self) -> tuple[Sewn, ...]:
        return seams_of(self.placed, self.pattern, self.tail)

    @kept
    def needs(self) -> Needs:
        """Of one copy."""
        return needs_of(self.placed.item, self.parts, self.seams)

    @property
    def n_pieces(self) -> int:
        """All pieces of one copy."""
        return sum(part.in_copy for part in self.parts)

    def stock_of(self, part: Part) -> Thing:
        return stock_things(self.placed.item)[part.stock]


@dataclass(frozen=True)
class Cost:
    """What a thing costs: `amount` of it is bought, at its price; None where no price is known."""

    thing: Thing
    amount: Fraction
    cost: Money | None


@dataclass(frozen=True)
class Order:
    """Several entries, cut and bought for together."""

    entries: tuple[Entry, ...]
    prices: PriceList | None = None
    fraction: Fraction = Fraction(1)

    @kept
    def needs(self) -> Needs:
        """Of all copies, net."""
        return added(times(entry.needs, entry.copies) for entry in self.entries)

    def needed(self, kind: str) -> Iterator[tuple[Thing, Fraction]]:
        yield from ((thing, amount) for thing, amount in self.needs.items() if thing.kind == kind)

    def to_buy(self, thing: Thing, net: Fraction) -> Fraction:
        """Leather is divided by the yield; of anything else it takes what it takes."""
        return net / self.fraction if thing.kind == "stock" else net

    @kept
    def straps(self) -> Straps:
        """By stock and width: how many straps, and how long all of them are together."""
        found: Straps = {}
        for entry in self.entries:
            for part in entry.parts:
                if part.strap:
                    key = entry.stock_of(part), round(part.strap[1], SAME_WIDTH)
                    count, long = found.get(key, (0, 0.0))
                    more = part.in_copy * entry.copies
                    found[key] = count + more, long + more * part.strap[0]
        return found

    @kept
    def weights(self) -> Mapping[Thing, Fraction]:
        """Grams of all finished parts by stock, where the price list says what the stock weighs."""
        found: dict[Thing, Fraction] = {}
        for entry in self.entries:
            for part in entry.parts:
                thing = entry.stock_of(part)
                price = self._price(thing, entry)
                if price is not None and price.weight is not None:
                    grams = Fraction(part.left) * part.in_copy * entry.copies * price.weight
                    found[thing] = found.get(thing, Fraction(0)) + grams
        return found

    def costs_of(self, entry: Entry, copies: int = 1) -> tuple[Cost, ...]:
        """What so many copies of one entry cost, thing by thing."""
        return tuple(self._cost(thing, amount, entry, copies) for thing, amount in entry.needs.items())

    @kept
    def costs(self) -> tuple[Cost, ...]:
        """Of all copies, thing by thing."""
        return tuple(self._merged(list(costs)) for costs in self._costs_by_thing().values())

    def _costs_by_thing(self) -> Mapping[Thing, Sequence[Cost]]:
        found: dict[Thing, list[Cost]] = {}
        for entry in self.entries:
            for cost in self.costs_of(entry, entry.copies):
                found.setdefault(cost.thing, []).append(cost)
        return found

    def _merged(self, costs: Sequence[Cost]) -> Cost:
        sums = [cost.cost for cost in costs]
        known = [each for each in sums if each is not None]
        total = total_of(known) if len(known) == len(sums) else None
        return Cost(costs[0].thing, sum((cost.amount for cost in costs), Fraction(0)), total)

    def total(self, costs: Sequence[Cost]) -> Money | None:
        """What is known of them together, as it is shown: a column of cents adds up to its foot."""
        shown = [cost.cost.rounded for cost in costs if cost.cost is not None]
        return total_of(shown) if shown else None

    def messages(self) -> Messages:
        """What was reckoned without a thickness, and what has no price."""
        messages = Messages()
        for entry in self.entries:
            for name in dict.fromkeys(name for seam in entry.seams for name in seam.unknown):
                seams = ", ".join(f"`{seam.lines[0]}`" for seam in entry.seams if name in seam.unknown)
                stock = entry.pattern.stocks.get(name)
                if stock is not None:
                    messages.add(says.SEAM_OF_UNKNOWN, at=stock.span, stock=name, seams=seams)
            for thing in self.unpriced:
                if self.prices is not None and thing in entry.needs:
                    self._tell_price(thing, entry, self.prices, messages)
        return messages

    def _tell_price(self, thing: Thing, entry: Entry, prices: PriceList, messages: Messages) -> None:
        price = self._price(thing, entry)
        if price is not None and price.amount is not None:
            needed, example = BY_WORDS[SOLD_BY[thing.kind]]
            priced, _ = BY_WORDS[price.dimension]
            messages.add(
                says.SOLD_OTHERWISE,
                at=price.span,
                name=price.name,
                priced=priced,
                kind=thing.kind,
                needed=needed,
                said=prices.unit_of(example),
            )
            return
        per = BY_WORDS[SOLD_BY[thing.kind]][1]
        heading, meant = thing.name or thing.kind, did_you_mean(thing.name, prices.prices)
        pattern = entry.pattern
        parts: dict[str, ItemPart] = {**pattern.stocks, **pattern.threads, **pattern.hardware}
        part = parts.get(thing.name)
        at = part.span if part else None
        row = prices.row_of(heading, "1.20", per)
        messages.add(says.NO_PRICE, at=at, kind=thing.kind, name=heading, row=row, meant=meant)

    @kept
    def unpriced(self) -> tuple[Thing, ...]:
        """What has no price that can be reckoned with, where prices are asked for; glue may go without."""
        if self.prices is None:
            return ()
        return tuple(cost.thing for cost in self.costs if cost.cost is None and cost.thing.kind != "glue")

    def _cost(self, thing: Thing, amount: Fraction, entry: Entry, copies: int) -> Cost:
        bought = self.to_buy(thing, amount * copies)
        price = self._price(thing, entry)
        if (
            self.prices is None
            or price is None
            or price.amount is None
            or price.dimension != SOLD_BY[thing.kind]
        ):
            return Cost(thing, bought, None)
        return Cost(thing, bought, Money(bought * price.amount, self.prices.currency))

    def _price(self, thing: Thing, entry: Entry) -> Price | None:
        return self.prices.of(thing.name, entry.placed.stem) if self.prices else None
