"""Several values that together make several lines hold whole pitches.

Each value leads one stretch, the one of its own lines that it moves most. For every set of whole counts that those
stretches reach at the corners of the ranges, Newton's method finds the values, its slopes mended on the way (Broyden).
Where there are more stretches than values, the misses are then shared out by least squares.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import islice, product
from math import ceil, floor
from typing import Any

import numpy

from drafting.records import dataclass
from drafting.solve.fit_search import Held, offs_of, whole_counts

Vector = numpy.ndarray[Any, numpy.dtype[numpy.float64]]
JointStretches = Callable[[Sequence[float]], list[Held] | None]
"""For each fit its stretches, at one value for each; None where a line cannot be made."""

SLOPE_STEP = 1e-3
"""How far a value is moved to see how the stretches follow, as a part of its range."""
MOST_STEPS = 25
SETTLED = 1e-11
CLOSE = 1e-8
SHARED_OUT = 6
MOST_SETS = 2000
"""Sets of counts that are tried, those nearest to the values as written first."""


@dataclass(frozen=True)
class JointValue:
    """Values, and for each fit by how much the pitch of each of its stretches is off in mm."""

    vector: tuple[float, ...]
    offs: tuple[tuple[float, ...], ...]

    @property
    def worst(self) -> tuple[float, ...]:
        return tuple(max(abs(off) for off in each) for each in self.offs)


def joint_values(
    stretches: JointStretches, ranges: Sequence[tuple[float, float]], written: Sequence[float]
) -> list[JointValue]:
    """All values in their ranges at which the leading stretches hold whole pitches, each set once; and the ends of
    the ranges that come nearest to others."""
    search = _Search(stretches, ranges, numpy.array(written, dtype=float))
    found: list[JointValue] = []
    for vector in search.vectors():
        held = stretches(vector.tolist())
        if held is None or any(numpy.allclose(vector, one.vector, rtol=0, atol=1e-9) for one in found):
            continue
        found.append(
            JointValue(tuple(vector.tolist()), tuple(offs_of(one, whole_counts(one)) for one in held))
        )
    return found


class _Search:
    def __init__(
        self, stretches: JointStretches, ranges: Sequence[tuple[float, float]], written: Vector
    ) -> None:
        self.stretches = stretches
        self.low = numpy.array([low for low, _ in ranges])
        self.high = numpy.array([high for _, high in ranges])
        self.start = numpy.clip(written, self.low, self.high)

    def numbers(self, vector: Vector) -> Vector | None:
        """How many pitches every stretch of every fit holds."""
        held = self.stretches(vector.tolist())
        return None if held is None else numpy.array([number for each in held for number, _ in each])

    def vectors(self) -> Iterator[Vector]:
        here = self.numbers(self.start)
        slopes = self._slopes(here)
        if here is None or slopes is None:
            return
        leads = self._leads(slopes)
        if leads is None:
            return
        lead_slopes = slopes[leads]
        for counts in self._count_sets(here[leads], lead_slopes, leads):
            solved = self._solved(numpy.array(counts, dtype=float), here[leads], lead_slopes.copy(), leads)
            if solved is not None:
                yield self._shared_out(solved, slopes) if len(here) > len(leads) else solved

    def _slopes(self, here: Vector | None) -> Vector | None:
        """How each stretch follows each value, a row for a stretch."""
        columns: list[Vector] = []
        for index, size in enumerate(self.high - self.low):
            moved = self.start.copy()
            step = (
                SLOPE_STEP * size
                if moved[index] + SLOPE_STEP * size <= self.high[index]
                else -SLOPE_STEP * size
            )
            moved[index] += step
            there = self.numbers(moved)
            if here is None or there is None or there.shape != here.shape or not step:
                return None
            columns.append((there - here) / step)
        return numpy.array(columns).T

    def _leads(self, slopes: Vector) -> list[int] | None:
        """For each value the stretch of its fit that it moves most; None where they do not tell the values apart."""
        held = self.stretches(self.start.tolist()) or []
        leads: list[int] = []
        first = 0
        for index, each in enumerate(held):
            own = numpy.abs(slopes[first : first + len(each), index])
            leads.append(first + int(own.argmax()))
            first += len(each)
        return leads if abs(numpy.linalg.det(slopes[leads])) > SETTLED else None

    def _count_sets(self, here: Vector, slopes: Vector, leads: list[int]) -> list[tuple[int, ...]]:
        corners = [
            numbers[leads]
            for corner in product(*zip(self.low.tolist(), self.high.tolist(), strict=True))
            for numbers in [self.numbers(numpy.array(corner))]
            if numbers is not None and len(numbers) > max(leads)
        ]
        if not corners:
            return []
        low, high = numpy.min(corners, axis=0), numpy.max(corners, axis=0)
        spans = [range(max(1, floor(a)), ceil(b) + 1) for a, b in zip(low, high, strict=True)]
        inverse = numpy.linalg.inv(slopes)

        def distance(counts: tuple[int, ...]) -> float:
            return float(numpy.linalg.norm(inverse @ (numpy.array(counts) - here) / (self.high - self.low)))

        return list(islice(sorted(product(*spans), key=distance), MOST_SETS))

    def _solved(self, counts: Vector, here: Vector, slopes: Vector, leads: list[int]) -> Vector | None:
        """The values at which the leading stretches hold just so many pitches, or where they come to the end of a range
        on the way there."""
        vector, off = self.start, here - counts
        for _ in range(MOST_STEPS):
            if numpy.abs(off).max() <= SETTLED:
                break
            try:
                step = -numpy.linalg.solve(slopes, off)
            except numpy.linalg.LinAlgError:
                return None
            ahead = numpy.clip(vector + step, self.low, self.high)
            step = ahead - vector
            numbers = self.numbers(ahead)
            if numbers is None or len(numbers) <= max(leads):
                return None
            if not step.any():
                break
            before, off = off, numbers[leads] - counts
            slopes += numpy.outer(off - before - slopes @ step, step) / (step @ step)
            vector = ahead
        is_at_end = bool(((vector == self.low) | (vector == self.high)).any())
        return vector if is_at_end or numpy.abs(off).max() <= CLOSE else None

    def _shared_out(self, vector: Vector, slopes: Vector) -> Vector:
        """The same counts with the misses of all stretches shared out by their squares, if the worst gets less."""
        held = self.stretches(vector.tolist())
        if held is None:
            return vector
        counts = [count for each in held for count in whole_counts(each)]
        pitches = [pitch for each in held for _, pitch in each]
        scale = numpy.array(pitches) / numpy.array(counts)
        best, at = vector, vector
        for _ in range(SHARED_OUT):
            numbers = self.numbers(at)
            if numbers is None or len(numbers) != len(counts):
                break
            off = scale * (numbers - counts)
            at = numpy.clip(
                at - numpy.linalg.lstsq(slopes * scale[:, None], off, rcond=None)[0], self.low, self.high
            )
        first, last = self._worst(best, counts, scale), self._worst(at, counts, scale)
        return at if last < first else best

    def _worst(self, vector: Vector, counts: Sequence[int], scale: Vector) -> float:
        numbers = self.numbers(vector)
        if numbers is None or len(numbers) != len(counts):
            return float("inf")
        return float(numpy.abs(scale * (numbers - counts)).max())
