"""How many stitches a stretch holds.

In come the lengths of the stretches and what the maker asked; out comes a whole number for each. A real pitch more
than a twentieth off the one asked for is refused, with the two nearest mends: so many stitches, or so much shorter.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from heapq import heapify, heapreplace
from math import ceil, floor

from drafting.craft.faults import (
    CountsDiffer,
    CraftFault,
    PitchTooLong,
    TooFewStitches,
    TooManyHoles,
    number_word,
    percent,
    stitches_text,
    which_stretch,
)
from drafting.craft.stepping import WHOLE
from drafting.solve.amounts import mm, plain
from drafting.text.catalogue import craft as says

LARGEST_PART_OFF = 1 / 20
"""How far a real pitch may be off the one asked for (the language's own rule)."""

ANY_PITCH_HOLDS = ceil((1 - LARGEST_PART_OFF) / (2 * LARGEST_PART_OFF))
"""From so many stitches on, any pitch comes out within that share: what one count misses the next one holds."""

MOST_HOLES = 1_000_000
"""A line with more holes is a slip of the pen, not a seam."""

FINEST_MEND = 0.01
"""Pitches offered as a mend are written to this many mm, if such a one does."""


class PitchOff(CraftFault):
    """A single stretch on which a whole number of pitches comes out more than a twentieth off.

    `count` stitches would have `true_pitch`; `shorten` is how much less line holds `whole` true pitches.
    """

    entry = says.PITCH_OFF

    def __init__(self, length: float, pitch: float, count: int, ends: tuple[float, float]) -> None:
        self.length, self.pitch, self.count = length, pitch, count
        self.true_pitch = length / count
        self.off = self.true_pitch / pitch - 1
        self.whole = floor(length / pitch + WHOLE)
        self.shorten = length - self.whole * pitch
        super().__init__(
            **_figures(length, pitch, count),
            count=str(count),
            true_whole=true_pitches(self.whole),
            short=_shorter(self.shorten, ends),
        )


class PitchOffInStretch(CraftFault):
    """One of several stretches, or a whole ring, on which whole pitches come out more than a twentieth off."""

    entry = says.PITCH_OFF_IN_STRETCH

    def __init__(self, lengths: Sequence[float], index: int, pitch: float, count: int) -> None:
        self.length, self.pitch, self.count, self.stretch = lengths[index], pitch, count, index
        self.true_pitch = self.length / count
        self.off = self.true_pitch / pitch - 1
        self.fitting = nearest_fitting_pitch(lengths, pitch)
        super().__init__(
            **_figures(self.length, pitch, count),
            stretch=which_stretch(index, len(lengths)),
            mend=self._mend(lengths),
        )

    def _mend(self, lengths: Sequence[float]) -> str:
        if self.fitting is not None:
            return f"Write `every {mm(self.fitting)}`, which every stretch holds."
        total = sum(max(1, nearest_whole(length / self.pitch)) for length in lengths)
        return f"Write `{total} stitches` to take the stretches as they come."


def _figures(length: float, pitch: float, count: int) -> dict[str, str]:
    return {
        "length": mm(length),
        "pitch": mm(pitch),
        "pitches": plain(length / pitch, 1),
        "stitches": stitches_text(count),
        "true_pitch": mm(length / count),
        "off": percent(length / count / pitch - 1),
    }


def _shorter(shorten: float, ends: tuple[float, float]) -> str:
    """How short the line should end, on top of how short it already ends."""
    at_start, at_end = ends
    if at_start == at_end > 0:
        return f"`{mm(at_start + shorten / 2)} short`"
    return f"`{mm(at_end + shorten)} short at end`"


def true_pitches(number: int) -> str:
    """`two true pitches`."""
    return f"{number_word(number)} true {'pitch' if number == 1 else 'pitches'}"


def nearest_whole(number: float) -> int:
    """The nearest whole number; exactly between two it is the larger, whatever rounding did to the last digit."""
    return floor(number + 0.5 + WHOLE)


def counts_by_pitch(
    pitches: Sequence[float], lengths: Sequence[float], pitch: float, ends: tuple[float, float], is_open: bool
) -> list[int]:
    """The nearest whole number of pitches for each stretch.

    `pitches` is how many pitches each holds, by whichever measure is asked for; a message tells the length so measured.
    """
    expect_few_enough(sum(pitches))
    held = [number * pitch for number in pitches]
    counts = [nearest_whole(number) for number in pitches]
    for index, (number, count) in enumerate(zip(pitches, counts, strict=True)):
        if count < 1 or number < 1 - LARGEST_PART_OFF:
            raise PitchTooLong(pitch, lengths[index], index, len(lengths))
        if abs(number / count - 1) > LARGEST_PART_OFF + WHOLE:
            if is_open and len(lengths) == 1:
                raise PitchOff(held[0], pitch, count, ends)
            raise PitchOffInStretch(held, index, pitch, count)
    return counts


def expect_few_enough(holes: float) -> None:
    if holes > MOST_HOLES:
        raise TooManyHoles(round(holes), MOST_HOLES)


def share_out(count: int, lengths: Sequence[float]) -> list[int]:
    """A number of stitches over several stretches, so that their pitches come as near to each other as they can.

    Each gets one; every further stitch goes where its stretch is longest for the stitches it has (the method of
    highest averages, with the divisors of Sainte-Laguë, which favors neither long nor short stretches).
    """
    if count < len(lengths):
        raise TooFewStitches(count, len(lengths))
    expect_few_enough(count)
    total = sum(lengths)
    counts = [max(1, floor(count * length / total) - len(lengths)) for length in lengths]
    queue = [
        (-length / (given + 0.5), index)
        for index, (length, given) in enumerate(zip(lengths, counts, strict=True))
    ]
    heapify(queue)
    for _ in range(count - sum(counts)):
        index = queue[0][1]
        counts[index] += 1
        heapreplace(queue, (-lengths[index] / (counts[index] + 0.5), index))
    return counts


def copied_counts(counts: Sequence[int], stretches: int) -> list[int]:
    if len(counts) != stretches:
        raise CountsDiffer(stretches, len(counts))
    if min(counts) < 1:
        raise TooFewStitches(sum(counts), stretches)
    expect_few_enough(sum(counts))
    return list(counts)


def nearest_fitting_pitch(lengths: Sequence[float], pitch: float) -> float | None:
    """The pitch nearest to one asked for of which every stretch holds a whole number, or None within half and
    double.
    """
    good = [(pitch / 2, pitch * 2)]
    for length in lengths:
        good = list(_common(good, list(_fitting(length, pitch / 2, pitch * 2))))
    nearest = [min(max(pitch, low), high) for low, high in good]
    best = min(nearest, key=lambda one: (abs(one - pitch), one), default=None)
    return None if best is None else _written(best, good)


def _fitting(length: float, least: float, most: float) -> Iterator[tuple[float, float]]:
    """The spans of pitches of which a stretch holds a whole number, smallest first and none overlapping."""
    yield from _clipped(0.0, length / ANY_PITCH_HOLDS / (1 - LARGEST_PART_OFF), least, most)
    for count in range(ANY_PITCH_HOLDS - 1, 0, -1):
        low, high = length / count / (1 + LARGEST_PART_OFF), length / count / (1 - LARGEST_PART_OFF)
        yield from _clipped(low, high, least, most)


def _clipped(low: float, high: float, least: float, most: float) -> Iterator[tuple[float, float]]:
    if low <= most and high >= least:
        yield max(low, least), min(high, most)


def _common(
    first: Sequence[tuple[float, float]], second: Sequence[tuple[float, float]]
) -> Iterator[tuple[float, float]]:
    """What two lists of spans have in common."""
    for low, high in first:
        for other_low, other_high in second:
            if max(low, other_low) <= min(high, other_high):
                yield max(low, other_low), min(high, other_high)


def _written(pitch: float, good: Sequence[tuple[float, float]]) -> float:
    """A pitch as it is offered: rounded, where the rounded one is as good."""
    for rounded in (
        round(pitch, 1),
        *(round((round(pitch / FINEST_MEND) + step) * FINEST_MEND, 2) for step in (0, 1, -1)),
    ):
        if any(low <= rounded <= high for low, high in good):
            return rounded
    return pitch
