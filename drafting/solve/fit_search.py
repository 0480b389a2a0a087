"""Search a range for every value at which stretches hold whole pitches.

Takes a function from the value to the stretches: how many pitches each holds, and how long a pitch is to be. With so
many stitches as come nearest, each stretch's pitch is off by some amount; a value is found where the worst of them is
least, nearer than at its neighbours. One stretch is then exact, and of several the misses are shared out.

Between two samples the number of pitches held is taken for straight once its middle says so (STRAIGHT). Then the worst
miss can turn only at places that are known; every least one among them is closed in on with the function itself.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from itertools import combinations, pairwise
from math import floor

from drafting.records import dataclass, field

Held = tuple[tuple[float, float], ...]
"""Of each stretch how many pitches it holds, and the pitch asked for in mm."""
Stretches = Callable[[float], Held | None]
"""The stretches at a value; None where the line cannot be made."""

FIRST_SAMPLES = 16
DEEPEST = 10
"""How often a span between two samples is halved where it bends."""
STRAIGHT = 2e-3
"""A span is straight when its middle is off by less than so many pitches."""
SETTLED = 1e-11
"""How far a search goes on, as a part of the range."""
AT_END = 1e-9
"""Of a span: an end from which the miss rises at once is the least, without a search."""
MOST_STEPS = 100
GOLDEN = (5**0.5 - 1) / 2


@dataclass(frozen=True)
class FitValue:
    """A value, and by how much the pitch of each stretch is then off the one asked for, in mm, longer positive."""

    value: float
    offs: tuple[float, ...]

    @property
    def worst(self) -> float:
        return max(abs(off) for off in self.offs)


class Idle(Exception):
    """The value does not change the stretches."""


def fit_values(stretches: Stretches, low: float, high: float) -> list[FitValue]:
    """Every value in the range that is better than those next to it, in rising order."""
    search = _Search(stretches, low, high)
    found: list[FitValue] = []
    spans = list(search.spans())
    if spans and all(_is_still(search, span) for span in spans):
        raise Idle()
    for span in spans:
        for value in search.least(span):
            if not found or value.value - found[-1].value > SETTLED * max(high - low, 1.0):
                found.append(value)
    return found


def _is_still(search: _Search, span: Sequence[float]) -> bool:
    first = search.look(span[0])
    return all(search.look(at) == first for at in span)


def whole_counts(held: Held) -> tuple[int, ...]:
    """Of each stretch the number of stitches whose pitch is least off, at least one."""
    return tuple(_whole_count(number) for number, _ in held)


def _whole_count(number: float) -> int:
    fewer = max(1, floor(number))
    return fewer if number / fewer - 1 <= 1 - number / (fewer + 1) else fewer + 1


def offs_of(held: Held, counts: Sequence[int]) -> tuple[float, ...]:
    """By how much each pitch is off with so many stitches."""
    return tuple(pitch * (number / count - 1) for (number, pitch), count in zip(held, counts, strict=True))


@dataclass
class _Search:
    stretches: Stretches
    low: float
    high: float
    known: dict[float, Held | None] = field(default_factory=dict)

    def look(self, value: float) -> Held | None:
        if value not in self.known:
            self.known[value] = self.stretches(value)
        return self.known[value]

    def held(self, value: float) -> Held:
        held = self.look(value)
        if held is None:
            raise AssertionError("a span holds no value at which the line cannot be made")
        return held

    # Samples

    def spans(self) -> Iterator[list[float]]:
        """The parts of the range in which the line can be made with the same number of stretches, as samples."""
        step = (self.high - self.low) / FIRST_SAMPLES
        samples = [*(self.low + step * count for count in range(FIRST_SAMPLES)), self.high]
        waiting = [(a, b, 0) for a, b in pairwise(samples)]
        while waiting:
            a, b, depth = waiting.pop()
            if not self._is_straight(a, (a + b) / 2, b) and depth < DEEPEST:
                waiting += [(a, (a + b) / 2, depth + 1), ((a + b) / 2, b, depth + 1)]
        span: list[float] = []
        for value in sorted(self.known):
            held = self.look(value)
            if span and (held is None or len(held) != len(self.held(span[-1]))):
                yield span
                span = []
            if held is not None:
                span.append(value)
        if span:
            yield span

    def _is_straight(self, a: float, middle: float, b: float) -> bool:
        before, here, after = self.look(a), self.look(middle), self.look(b)
        if before is None or here is None or after is None:
            return before is here is after
        if not len(before) == len(here) == len(after):
            return False
        threes = zip(before, here, after, strict=True)
        return all(abs(mid[0] - (one[0] + two[0]) / 2) < STRAIGHT for one, mid, two in threes)

    # Least misses

    def least(self, span: Sequence[float]) -> Iterator[FitValue]:
        """The least misses of one span, each closed in on."""
        traces = _distinct([self.held(value) for value in span])
        grid = sorted(
            {*span, *(kink for cell in pairwise(range(len(span))) for kink in _kinks(span, traces, cell))}
        )
        misses = [_worst_at(value, span, traces) for value in grid]
        for index in _dips(misses):
            yield self._closed_in_from(grid, index)

    def _closed_in_from(self, grid: Sequence[float], index: int) -> FitValue:
        """Closed in on round a place of the grid, farther along where the miss turns out to fall on."""
        counts = whole_counts(self.held(grid[index]))
        low, high = max(index - 1, 0), min(index + 1, len(grid) - 1)
        for _ in range(MOST_STEPS):
            found = self._closed_in(grid[low], grid[high], counts)
            falls_on = (
                (found.value <= grid[low] and low > 0),
                (found.value >= grid[high] and high < len(grid) - 1),
            )
            if not any(falls_on):
                break
            low, high = low - falls_on[0], high + falls_on[1]
        return found

    def _closed_in(self, a: float, c: float, counts: Sequence[int]) -> FitValue:
        for _ in range(MOST_STEPS):
            one, other = self._offs(a, counts), self._offs(c, counts)
            crossing = self._crossing(a, c, counts, _largest(one), _largest(other))
            if crossing is None:
                break
            offs = self._offs(crossing, counts)
            leader = _largest(offs)
            if abs(offs[leader]) > min(abs(one[_largest(one)]), abs(other[_largest(other)])):
                break
            if abs(offs[leader]) <= max(abs(offs[_largest(one)]), abs(offs[_largest(other)])):
                return FitValue(crossing, offs)
            if _is_worse(other[leader], offs[leader]):
                c = crossing
            elif _is_worse(one[leader], offs[leader]):
                a = crossing
            else:
                break
        value = self._golden(a, c, counts)
        return FitValue(value, self._offs(value, counts))

    def _offs(self, value: float, counts: Sequence[int]) -> tuple[float, ...]:
        return offs_of(self.held(value), counts)

    def _crossing(self, a: float, c: float, counts: Sequence[int], falling: int, rising: int) -> float | None:
        """Where the stretch that is worst at the one end is off by as much as the one that is worst at the other."""
        sign_a = 1.0 if self._offs(a, counts)[falling] > 0 else -1.0
        sign_c = 1.0 if self._offs(c, counts)[rising] > 0 else -1.0

        def ahead(value: float) -> float:
            offs = self._offs(value, counts)
            return sign_a * offs[falling] - sign_c * offs[rising]

        if not ahead(a) > 0 > ahead(c):
            return None
        return root_between(ahead, a, c, SETTLED * (self.high - self.low))

    def _golden(self, a: float, c: float, counts: Sequence[int]) -> float:
        """The least miss of a span by golden section; an end of it where it falls or rises all along."""

        def worst(value: float) -> float:
            return max(abs(off) for off in self._offs(value, counts))

        for end, inward in ((a, c), (c, a)):
            if worst(end) <= worst(end + AT_END * (inward - end)):
                return end
        left, right = c - GOLDEN * (c - a), a + GOLDEN * (c - a)
        for _ in range(MOST_STEPS):
            if c - a <= SETTLED * (self.high - self.low):
                break
            if worst(left) <= worst(right):
                c, right, left = right, left, right - GOLDEN * (right - a)
            else:
                a, left, right = left, right, left + GOLDEN * (c - left)
        return min((a, c, (a + c) / 2), key=worst)


Stretch = tuple[float, float]
"""How many pitches it holds, and the pitch."""
Trace = tuple[Stretch, ...]
"""One stretch at every sample of a span."""
Ends = Sequence[tuple[Stretch, Stretch]]
"""The stretches at both ends of a cell."""


def _distinct(samples: Sequence[Held]) -> list[Trace]:
    """The stretches that differ: the legs of a mirrored piece come in pairs."""
    return list(dict.fromkeys(zip(*samples, strict=True)))


def _kinks(span: Sequence[float], traces: Sequence[Trace], cell: tuple[int, int]) -> Iterator[float]:
    """Where the worst miss may turn between two samples, taken for straight between them: where a stretch is exact,
    where its count changes, and where two stretches are off by as much."""
    a, b = cell
    ends = [(trace[a], trace[b]) for trace in traces]
    shares = [0.0, 1.0]
    for (number, _), (other, _) in ends:
        low, high = sorted((number, other))
        for whole in range(max(1, floor(low)), floor(high) + 2):
            for at in (float(whole), 2 * whole * (whole + 1) / (2 * whole + 1)):
                if low < at < high:
                    shares.append((at - number) / (other - number))
    shares.sort()
    for before, after in pairwise(shares):
        yield span[a] + (span[b] - span[a]) * before
        for share in _evens(ends, before, after):
            yield span[a] + (span[b] - span[a]) * share


def _evens(ends: Ends, before: float, after: float) -> Iterator[float]:
    """Where two stretches are off by as much, between two shares of a cell at which all counts are the same."""
    middle = _between(ends, (before + after) / 2)
    counts = whole_counts(middle)
    first, last = ([abs(off) for off in offs_of(_between(ends, share), counts)] for share in (before, after))
    for one, other in combinations(range(len(ends)), 2):
        lead, trail = first[one] - first[other], last[one] - last[other]
        if lead * trail < 0:
            yield before + (after - before) * lead / (lead - trail)


def _between(ends: Ends, share: float) -> Held:
    return tuple(
        (one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share) for one, other in ends
    )


def _worst_at(value: float, span: Sequence[float], traces: Sequence[Trace]) -> float:
    """The worst miss by what the samples say."""
    right = min(max(bisect_right(span, value), 1), len(span) - 1)
    left = right - 1
    share = (value - span[left]) / (span[right] - span[left])
    held = _between([(trace[left], trace[right]) for trace in traces], share)
    return max(abs(off) for off in offs_of(held, whole_counts(held)))


def _is_worse(off: float, than: float) -> bool:
    return off * than > 0 and abs(off) > abs(than)


def _dips(worst: Sequence[float]) -> Iterator[int]:
    """The places that are lower than their neighbours; of several alike the first."""
    last = len(worst) - 1
    for index, here in enumerate(worst):
        before = worst[index - 1] if index else float("inf")
        after = worst[index + 1] if index < last else float("inf")
        if here < before and here <= after:
            yield index


def _largest(offs: Sequence[float]) -> int:
    return max(range(len(offs)), key=lambda index: abs(offs[index]))


def root_between(function: Callable[[float], float], a: float, c: float, near: float) -> float:
    """Where a function that is positive at `a` and negative at `c` crosses nought, by the Illinois method."""
    at_a, at_c = function(a), function(c)
    side = 0
    value = a
    for _ in range(MOST_STEPS):
        before, value = value, (a * at_c - c * at_a) / (at_c - at_a)
        here = function(value)
        if here == 0.0 or abs(value - before) <= near:
            break
        if here > 0:
            a, at_a = value, here
            at_c = at_c / 2 if side == 1 else at_c
            side = 1
        else:
            c, at_c = value, here
            at_a = at_a / 2 if side == -1 else at_a
            side = -1
    return value
