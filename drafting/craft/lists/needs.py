"""What one item takes, as amounts that add up exactly.

Takes the parts and seams of a placed pattern; gives Needs: a number for each Thing, in mm² of leather and glue, mm of
thread, pieces of hardware. Numbers are fractions, so that twelve copies take twelve times as much to the last digit.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Literal

from drafting.craft.lists.parts import Part
from drafting.craft.lists.sewing import Sewn
from drafting.geometry.maths import exact
from drafting.records import dataclass
from drafting.solve.placed import PlacedHardware, PlacedItem

ThingKind = Literal["stock", "thread", "hardware", "glue"]


@dataclass(frozen=True)
class Thing:
    """What is bought. Two patterns mean one thing where all that they say of it is the same.

    `material` is the kind of a stock; `sizes` are lengths in mm by their words: `thick`, `inside`, `prong`, `bar`.
    """

    kind: ThingKind
    name: str
    material: str | None = None
    sizes: tuple[tuple[str, float], ...] = ()
    note: str | None = None


Needs = Mapping[Thing, Fraction]


def added(needs: Iterable[Needs]) -> dict[Thing, Fraction]:
    """All of them together, in the order they are first named."""
    total: dict[Thing, Fraction] = {}
    for each in needs:
        for thing, amount in each.items():
            total[thing] = total.get(thing, Fraction(0)) + amount
    return total


def times(needs: Needs, copies: int) -> dict[Thing, Fraction]:
    return {thing: amount * copies for thing, amount in needs.items()}


def needs_of(item: PlacedItem, parts: Iterable[Part], seams: Iterable[Sewn]) -> dict[Thing, Fraction]:
    """What one item takes. A stock or thread that nothing is made from is not among it."""
    parts = tuple(parts)
    return added(
        [
            dict([each])
            for each in (*_leather(item, parts), *_bought(item), *_sewn(item, seams), *_glue(parts))
        ]
    )


def stock_things(item: PlacedItem) -> dict[str | None, Thing]:
    """The stocks by name; None stands for pieces of which nobody says what they are cut from."""
    said: dict[str | None, Thing] = {
        stock.name: Thing("stock", stock.name, stock.material, _sizes(thick=stock.thick), stock.note)
        for stock in item.stocks
    }
    return {None: Thing("stock", ""), **said}


def _leather(item: PlacedItem, parts: Iterable[Part]) -> Iterator[tuple[Thing, Fraction]]:
    things = stock_things(item)
    for part in parts:
        yield things[part.stock], exact(part.area) * part.in_copy


def _bought(item: PlacedItem) -> Iterator[tuple[Thing, Fraction]]:
    for one in item.hardware:
        yield _hardware(one), Fraction(one.need)


def _hardware(one: PlacedHardware) -> Thing:
    sizes = _sizes(inside=one.inside, prong=one.prong, bar=one.bar)
    return Thing("hardware", one.name, None, sizes, one.note)


def _sewn(item: PlacedItem, seams: Iterable[Sewn]) -> Iterator[tuple[Thing, Fraction]]:
    """Which of several threads a seam is sewn with nobody says, so they stand together."""
    thing = Thing("thread", " or ".join(thread.name for thread in item.threads))
    if len(item.threads) == 1:
        (only,) = item.threads
        thing = Thing("thread", only.name, None, _sizes(thick=only.thick), only.note)
    for seam in seams:
        yield thing, exact(seam.thread.length) * seam.times


def _glue(parts: Iterable[Part]) -> Iterator[tuple[Thing, Fraction]]:
    for part in parts:
        if part.glue:
            yield Thing("glue", "glue"), exact(part.glue) * part.in_copy


def _sizes(**sizes: float | None) -> tuple[tuple[str, float], ...]:
    return tuple((word, size) for word, size in sizes.items() if size is not None)
