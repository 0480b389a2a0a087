"""Close in on the solutions of a torn block: where its closing equation crosses nought, or touches it.

Between two places tried a branch may cross once, which its change of sign shows; dip below and come back, which its
lowest places show; or fold over into another branch, where both must be followed to the very end.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy

from drafting.records import dataclass
from drafting.solve.coupled.tearing import Walk
from drafting.solve.coupled.tracing import Ask, Branch, Search, Trace, Tracer, sampled
from drafting.solve.steps import Unsolved
from drafting.solve.verify import is_kept, misfit

MOST_CHANGES = 12
"""Changes of sign on one branch that a pattern's facts can give."""

CLOSE = 1e-3
"""Of the amounts at both ends of a step: a guess that is off by less is left to Newton's method."""

NEARLY_NOUGHT = 1e-9
AT_NOUGHT = 1e-12
"""Of the largest amount on a branch: rounding, so that the place is a solution whatever its sign."""


@dataclass(frozen=True)
class Root:
    """A solution: the values of the block's unknowns. Newton's method is to bring the last digits; `exact` closes in on
    the crossing itself where that method fails."""

    numbers: tuple[float, ...]
    exact: Callable[[], tuple[float, ...]] | None = None


def all_roots(tracer: Tracer) -> tuple[list[Root], float]:
    """Every solution that the walks meet, and the smallest amount by which the closing equation was missed."""
    return tracer.answered(search_roots(tracer))


def search_roots(tracer: Tracer) -> Search[tuple[list[Root], float]]:
    roots: list[Root] = []
    nearest = math.inf
    for walk in tracer.walks:
        traces = yield from sampled(tracer, walk)
        for branch in traces:
            if _holds_always(tracer, walk, branch, traces[branch]):
                continue
            trace = yield from _with_ends(walk, branch, traces)
            roots += yield from _roots_on_branch(tracer, walk, branch, trace)
            if not roots and tracer.tells_misses:
                nearest = min(nearest, (yield from _least_miss(tracer, walk, branch, trace)))
    return roots, nearest


def _least_miss(tracer: Tracer, walk: Walk, branch: Branch, trace: Trace) -> Search[float]:
    """The smallest misfit of the closing fact on a branch, in mm."""
    offs = numpy.where(numpy.isnan(trace[1]), math.inf, abs(trace[1]))
    index = int(numpy.argmin(offs))
    if offs[index] == math.inf:
        return math.inf
    yield from _low_roots(walk, branch, *_about(trace, index, walk.is_closed), float(trace[1][index]))
    closing = tracer.layout.equations[tracer.torn.closing]
    return abs(misfit(closing, tracer.values))


def _holds_always(tracer: Tracer, walk: Walk, branch: Branch, trace: Trace) -> bool:
    """Whether the closing equation holds all along a branch: it says nothing new there, and there are places without
    end. A branch of that kind does not matter if the choices turn it down; else it is a fault.

    It shows as rounding that changes its sign again and again; then a few places are looked at closely.
    """
    parameters, offs = trace
    if numpy.count_nonzero(offs[:-1] * offs[1:] <= 0.0) <= MOST_CHANGES:
        return False
    there = parameters[~numpy.isnan(offs)].tolist()
    closing = tracer.layout.equations[tracer.torn.closing]
    is_wanted = False
    for parameter in there[:: max(1, len(there) // 9)]:
        tracer.off(walk, branch, parameter)
        if not is_kept(closing, tracer.values):
            return False
        is_wanted = is_wanted or all(one.test is None or one.test(tracer.values) for one in tracer.filters)
    if is_wanted:
        raise Unsolved(same=True)
    return True


def _with_ends(walk: Walk, branch: Branch, traces: dict[Branch, Trace]) -> Search[Trace]:
    """A trace with the places added where the branch begins and ends, for there it may still cross nought."""
    parameters, offs = traces[branch]
    is_there = ~numpy.isnan(offs)
    for index in reversed(numpy.flatnonzero(is_there[:-1] != is_there[1:]).tolist()):
        inside, outside = (index, index + 1) if is_there[index] else (index + 1, index)
        if not _safely_one_sided(branch, traces, inside, 2 * inside - outside):
            ends = float(traces[branch][0][inside]), float(traces[branch][0][outside])
            parameter = yield from _end_of_branch(walk, branch, *ends)
            off, _ = yield Ask(walk, branch, parameter)
            parameters = numpy.insert(parameters, index + 1, parameter)
            offs = numpy.insert(offs, index + 1, off)
    return parameters, offs


def _safely_one_sided(branch: Branch, traces: dict[Branch, Trace], inside: int, further: int) -> bool:
    """Whether a branch keeps its sign up to its end, where it folds over into its twin.

    The mean of the twins runs on smoothly to the fold, and each lies within half their distance of it.
    """
    offs = traces[branch][1]
    if not 0 <= further < len(offs) or offs[further] != offs[further]:
        return False
    for position, index in enumerate(branch):
        twin = traces.get((*branch[:position], index ^ 1, *branch[position + 1 :]))
        if twin is None or twin[1][inside] != twin[1][inside] or twin[1][further] != twin[1][further]:
            continue
        mean = (offs[inside] + twin[1][inside]) / 2
        mean_further = (offs[further] + twin[1][further]) / 2
        fold = 2 * mean - mean_further
        spread = abs(offs[inside] - twin[1][inside])
        if mean * fold > 0 and min(abs(mean), abs(fold)) > 0.75 * spread and mean * offs[inside] > 0:
            return True
    return False


def _end_of_branch(walk: Walk, branch: Branch, inside: float, outside: float) -> Search[float]:
    """The last place on a branch, by halving."""
    for _ in range(40):
        middle = (inside + outside) / 2
        off, _ = yield Ask(walk, branch, middle)
        if off == off:
            inside = middle
        else:
            outside = middle
    return inside


def _roots_on_branch(tracer: Tracer, walk: Walk, branch: Branch, trace: Trace) -> Search[list[Root]]:
    parameters, offs = trace
    roots: list[Root] = []
    for index in numpy.flatnonzero(offs[:-1] * offs[1:] < 0.0).tolist():
        roots.append((yield from _crossed(tracer, walk, branch, trace, index)))
    amounts = numpy.concatenate(([math.inf], numpy.where(numpy.isnan(offs), math.inf, abs(offs)), [math.inf]))
    here = amounts[1:-1]
    nought = AT_NOUGHT * float(numpy.max(here, where=here < math.inf, initial=0.0))
    for index in numpy.flatnonzero(
        (here <= amounts[:-2]) & (here <= amounts[2:]) & (here < math.inf)
    ).tolist():
        if here[index] <= nought:
            roots.append((yield from _root_at(walk, branch, float(parameters[index]))))
        elif _is_low(offs.tolist(), index, walk.is_closed):
            about = _about(trace, index, walk.is_closed)
            roots += yield from _low_roots(walk, branch, *about, float(offs[index]))
    return roots


def _crossed(tracer: Tracer, walk: Walk, branch: Branch, trace: Trace, index: int) -> Search[Root]:
    """The solution between two places of a trace: nearly, by a curve through four places, when that comes close
    enough."""
    parameters, offs = (column[max(index - 1, 0) : index + 3].tolist() for column in trace)
    at = min(index, 1)
    ends = parameters[at], offs[at], parameters[at + 1], offs[at + 1]

    def exactly() -> Search[Root]:
        return (yield from _root_at(walk, branch, (yield from _crossing(walk, branch, *ends))))

    guess = _inverse_curve(parameters, offs)
    if guess is not None and parameters[at] <= guess <= parameters[at + 1]:
        off, numbers = yield Ask(walk, branch, guess)
        if abs(off) <= CLOSE * (abs(ends[1]) + abs(ends[3])):
            return Root(numbers, lambda: tracer.answered(exactly()).numbers)
    return (yield from exactly())


def _inverse_curve(parameters: list[float], offs: list[float]) -> float | None:
    """The parameter at which a curve through some places, with the amount as its abscissa, comes to nought."""
    if len(set(offs)) < len(offs) or any(off != off for off in offs):
        return None
    found = 0.0
    for i, parameter in enumerate(parameters):
        share = parameter
        for j, off in enumerate(offs):
            if i != j:
                share *= off / (off - offs[i])
        found += share
    return found


def _about(trace: Trace, index: int, is_closed: bool) -> tuple[float, float, float]:
    """A place of a trace with the places before and after it."""
    parameters = trace[0]
    last = len(parameters) - 1
    before, at, after = (float(parameters[i]) for i in (max(index - 1, 0), index, min(index + 1, last)))
    if is_closed and index in (0, last):
        step = float(parameters[1] - parameters[0])
        return at - step, at, at + step
    return before, at, after


def _is_low(offs: list[float], index: int, is_closed: bool) -> bool:
    """Whether a place of least amount may touch nought or dip below it between the places tried."""
    here = abs(offs[index])
    last = len(offs) - 1
    if is_closed and index == last:
        return False
    before = offs[index - 1] if index > 0 else (offs[last - 1] if is_closed else math.nan)
    after = offs[index + 1] if index < last else math.nan
    if before * offs[index] < 0 or after * offs[index] < 0:
        return False
    if before != before and after != after:
        return True
    if before != before or after != after:
        beside = after if before != before else before
        return here < 0.1 * abs(abs(beside) - here) + NEARLY_NOUGHT
    if here > abs(before) or here > abs(after):
        return False
    bend = abs(before) + abs(after) - 2 * here
    slope = (abs(after) - abs(before)) / 2
    dip = here - (slope * slope / (2 * bend) if bend > 0 else 0.0)
    return dip < 0.25 * bend


def _low_roots(
    walk: Walk, branch: Branch, low: float, middle: float, high: float, off: float
) -> Search[list[Root]]:
    """Where the closing equation comes near nought without crossing: two solutions, one that touches, or none."""
    sign = 1.0 if off > 0 else -1.0
    best, best_off = middle, abs(off)
    for _ in range(80):
        if high - low < 1e-13 * (1 + abs(best)):
            break
        for parameter in ((low + best) / 2, (best + high) / 2):
            trial, _ = yield Ask(walk, branch, parameter)
            if trial != trial:
                if parameter < best:
                    low = parameter
                else:
                    high = parameter
                continue
            if trial * sign < 0:
                return (yield from _two_crossings(walk, branch, low, parameter, high, trial))
            if trial * sign < best_off:
                low, high = (low, best) if parameter < best else (best, high)
                best, best_off = parameter, trial * sign
                break
            if parameter < best:
                low = parameter
            else:
                high = parameter
    return [(yield from _root_at(walk, branch, best))] if best_off <= abs(off) else []


def _two_crossings(
    walk: Walk, branch: Branch, low: float, middle: float, high: float, off: float
) -> Search[list[Root]]:
    roots = []
    for end in (low, high):
        end_off, _ = yield Ask(walk, branch, end)
        if end_off * off < 0:
            parameter = yield from _crossing(walk, branch, end, end_off, middle, off)
            roots.append((yield from _root_at(walk, branch, parameter)))
    return roots


def _root_at(walk: Walk, branch: Branch, parameter: float) -> Search[Root]:
    _, numbers = yield Ask(walk, branch, parameter)
    return Root(numbers)


def _crossing(walk: Walk, branch: Branch, a: float, off_a: float, b: float, off_b: float) -> Search[float]:
    """Where the sign changes, by the Illinois rule: a chord that is bent until both ends move."""
    for _ in range(100):
        c = b - off_b * (b - a) / (off_b - off_a)
        if not min(a, b) < c < max(a, b):
            c = (a + b) / 2
        off, _ = yield Ask(walk, branch, c)
        if off == 0.0 or off != off:
            return c
        if off * off_b < 0:
            a, off_a = b, off_b
        else:
            off_a /= 2
        if abs(c - b) <= 1e-12 * (1 + abs(c)):
            return c
        b, off_b = c, off
    return b
