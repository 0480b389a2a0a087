"""Compare the stitch lines of a seam.

Takes two or more lines with their names and says whether they can be sewn together: stitch for stitch, stretch by
stretch, first to first or, `reversed`, first to last. Stitches are compared, not holes, so a ring may meet a strip. The
lines' lengths may differ by 2 % in each stretch, or by a length the maker gives.

The report is the same whichever line is named first: each pair stands in the order of its names, and its stretches
in that of the first. A seam that cannot match carries the faults that say which line
to change and by how much: of two counts the one is copied whose pitch suits the other line better, measured against
what each asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

from drafting.craft.faults import CraftFault, ordinal, stitches_text, stretches_text
from drafting.craft.stitches import Layout
from drafting.records import dataclass
from drafting.solve.amounts import mm
from drafting.text.catalogue import craft as says

LARGEST_PART_APART = 0.02
"""How far the pitches of two stitch lines of one seam may differ (the language's own rule)."""

SAME_LENGTH = 1e-6
"""Rounding may not break a seam whose lengths differ by just what is allowed."""


@dataclass(frozen=True)
class Side:
    """One stitch line of a seam, by its maker's name."""

    name: str
    counts: tuple[int, ...]
    lengths: tuple[float, ...]
    nominal: float | None = None
    is_ring: bool = False

    @classmethod
    def of(cls, name: str, layout: Layout) -> Side:
        return cls(name, layout.counts, layout.lengths, layout.nominal, layout.is_ring)

    @property
    def stitches(self) -> int:
        return sum(self.counts)

    @property
    def length(self) -> float:
        return sum(self.lengths)

    @property
    def pitch(self) -> float:
        return self.length / self.stitches

    def backward(self) -> Side:
        return Side(self.name, self.counts[::-1], self.lengths[::-1], self.nominal, self.is_ring)

    def turned(self, by: int) -> Side:
        """A ring whose first stretch is another one."""
        counts, lengths = self.counts[by:] + self.counts[:by], self.lengths[by:] + self.lengths[:by]
        return Side(self.name, counts, lengths, self.nominal, self.is_ring)


@dataclass(frozen=True)
class StretchPair:
    """One stretch of a seam on both its lines."""

    index: int
    counts: tuple[int, int]
    lengths: tuple[float, float]

    @property
    def difference(self) -> float:
        """By how much the first is longer."""
        return self.lengths[0] - self.lengths[1]

    @property
    def pitches(self) -> tuple[float, float]:
        return self.lengths[0] / self.counts[0], self.lengths[1] / self.counts[1]

    @property
    def part_apart(self) -> float:
        """By what share of the greater the pitches differ."""
        greater, smaller = sorted(self.pitches, reverse=True)
        return (greater - smaller) / greater


@dataclass(frozen=True)
class Pairing:
    """Two lines of a seam, stretch by stretch; no rows when they fall into different numbers of stretches.

    A `second` that runs the other way stands here turned round.
    """

    first: Side
    second: Side
    rows: tuple[StretchPair, ...]
    faults: tuple[CraftFault, ...]

    @property
    def difference(self) -> float:
        """By how much the first line is longer, all in all."""
        return self.first.length - self.second.length


@dataclass(frozen=True)
class JoinReport:
    """Every pair of lines of a seam, and all that is wrong with them."""

    pairings: tuple[Pairing, ...]

    @property
    def faults(self) -> tuple[CraftFault, ...]:
        return tuple(fault for pairing in self.pairings for fault in pairing.faults)

    @property
    def is_sound(self) -> bool:
        return not self.faults


class StretchesDiffer(CraftFault):
    """Two lines that fall into different numbers of stretches."""

    entry = says.JOIN_STRETCHES

    def __init__(self, first: Side, second: Side) -> None:
        super().__init__(
            first=first.name,
            second=second.name,
            first_stretches=stretches_text(len(first.counts)),
            second_stretches=str(len(second.counts)),
        )
        self.first, self.second = first, second


class StitchesDiffer(CraftFault):
    """Two lines with different counts. `changed` is the line to change, to `pitch` with the other's count."""

    entry = says.JOIN_COUNTS

    def __init__(self, changed: Side, kept: Side, stretch: int | None, hint: str) -> None:
        index = stretch or 0
        self.pitch = changed.lengths[index] / kept.counts[index]
        super().__init__(
            changed=changed.name,
            kept=kept.name,
            changed_stitches=stitches_text(changed.counts[index]),
            kept_stitches=str(kept.counts[index]),
            stretch=in_stretch(stretch),
            pitch=mm(self.pitch),
            hint=hint,
        )
        self.changed, self.kept, self.stretch = changed, kept, stretch


class LengthsDiffer(CraftFault):
    """Two lines as long in stitches and not in mm. `changed` is to grow by `by`, or to shrink when negative."""

    entry = says.JOIN_LENGTHS

    def __init__(self, changed: Side, other: Side, stretch: int | None, allowed: float) -> None:
        index = stretch or 0
        self.by = other.lengths[index] - changed.lengths[index]
        longer, shorter = (changed, other) if self.by < 0 else (other, changed)
        super().__init__(
            longer=longer.name,
            shorter=shorter.name,
            longer_length=mm(longer.lengths[index]),
            shorter_length=mm(shorter.lengths[index]),
            stretch=in_stretch(stretch),
            difference=mm(abs(self.by)),
            allowed=mm(allowed),
            change="Lengthen" if self.by > 0 else "Shorten",
            changed=changed.name,
            alternative=f", or say `within {mm(abs(self.by))}` if it may be eased in",
        )
        self.changed, self.other, self.stretch, self.allowed = changed, other, stretch, allowed


def in_stretch(index: int | None) -> str:
    return "" if index is None else f" in the {ordinal(index)} stretch"


def compare(sides: Sequence[Side], reversed: bool = False, within: float | None = None) -> JoinReport:
    """Each line of a seam against each other one; with `reversed` the first in `sides` runs against all others."""
    pairs = combinations(range(len(sides)), 2)
    return JoinReport(tuple(_pair(sides[a], sides[b], reversed and a == 0, within) for a, b in pairs))


def _pair(a: Side, b: Side, reversed: bool, within: float | None) -> Pairing:
    first, second = _in_order(a, b)
    second = second.backward() if reversed else second
    if len(first.counts) != len(second.counts):
        return Pairing(first, second, (), (StretchesDiffer(first, second),))
    rows = tuple(_rows(first, second))
    return Pairing(first, second, rows, tuple(_faults(first, second, rows, within)))


def _rows(first: Side, second: Side) -> Iterator[StretchPair]:
    for index, counts in enumerate(zip(first.counts, second.counts, strict=True)):
        yield StretchPair(index, counts, (first.lengths[index], second.lengths[index]))


def _in_order(first: Side, second: Side) -> tuple[Side, Side]:
    """Two lines in an order that does not depend on which was named first."""
    return (first, second) if first.name <= second.name else (second, first)


def _faults(
    first: Side, second: Side, rows: Sequence[StretchPair], within: float | None
) -> Iterator[CraftFault]:
    differing = [row for row in rows if row.counts[0] != row.counts[1]]
    hint = _other_way(first, second, within) if differing else ""
    for row in rows:
        stretch = row.index if len(rows) > 1 else None
        if row in differing:
            yield StitchesDiffer(*_to_change(first, second, row), stretch, hint)
        elif not _is_even(row, within):
            yield LengthsDiffer(*_to_change(first, second, row), stretch, _allowed(row, within))


def _is_even(row: StretchPair, within: float | None) -> bool:
    return abs(row.difference) <= _allowed(row, within) + SAME_LENGTH


def _allowed(row: StretchPair, within: float | None) -> float:
    return max(row.lengths) * LARGEST_PART_APART if within is None else within


def _to_change(first: Side, second: Side, row: StretchPair) -> tuple[Side, Side]:
    """The line to change and the one to keep: that is changed which comes to lie nearer to what it asked for."""

    def cost(changed: Side, kept: Side) -> tuple[float, float, str]:
        index = row.index
        nominal = changed.nominal or changed.lengths[index] / changed.counts[index]
        off = abs(changed.lengths[index] / kept.counts[index] / nominal - 1)
        return (round(off, 9), -round(changed.lengths[index], 6), changed.name)

    return (first, second) if cost(first, second) < cost(second, first) else (second, first)


def _other_way(first: Side, second: Side, within: float | None) -> str:
    """Another way to lay the two lines on each other that would match, as the end of a mend."""
    ways: list[tuple[str, Callable[[Side], Side]]] = [(" Or say `reversed`.", Side.backward)]
    if first.is_ring and second.is_ring:
        ways += [(_start_hint(by), _turner(by, False)) for by in range(1, len(second.counts))]
        ways += [
            (_start_hint(by) + " Say `reversed` too.", _turner(by, True))
            for by in range(1, len(second.counts))
        ]
    for hint, way in ways:
        turned = way(second)
        if _matches(first, turned, within):
            return hint
    return ""


def _start_hint(by: int) -> str:
    return f" Or start one of the rings at its {ordinal(by)} corner past the present start."


def _turner(by: int, backward: bool) -> Callable[[Side], Side]:
    return lambda side: (side.backward() if backward else side).turned(by)


def _matches(first: Side, second: Side, within: float | None) -> bool:
    pairs = zip(first.lengths, second.lengths, strict=True)
    return first.counts == second.counts and all(
        abs(a - b) <= (max(a, b) * LARGEST_PART_APART if within is None else within) + SAME_LENGTH
        for a, b in pairs
    )
