"""Fit measures so that stitch lines hold whole pitches, in one size.

Takes what the lines hold at any values of the measures, the values as written and their ranges; gives for each fit the
value nearest to the one written. Measures that do not bear on each other's lines are fitted one after the other, each
over its whole range (fit_search). Those that do are fitted together, by Newton's method from every set of whole counts
that the corners of their ranges allow; so every solution is found where the lines grow or shrink all along a range.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import accumulate, pairwise

from drafting.model.pattern import FitPart
from drafting.records import dataclass
from drafting.solve.amounts import mm, mm_at_least
from drafting.solve.fit_search import FitValue, Held, Idle, fit_values
from drafting.solve.graphs import strong_parts
from drafting.text.catalogue import solve as says
from drafting.text.messages import Messages

USUAL_WITHIN = 0.05
"""By how many mm a pitch may be off where nothing is said (the project's own choice)."""
ROUNDING = 1e-7
SHOWN = 5e-4

HeldAt = Callable[[Mapping[str, float]], Mapping[str, Held]]
"""What each line holds by its key, at values of the fitted measures; a line that cannot be made is left out."""


@dataclass(frozen=True)
class Wanted:
    """One fit of one size: the measure's value as written and its range, the keys of its lines, and how much a pitch
    may be off."""

    part: FitPart
    written: float
    low: float
    high: float
    keys: tuple[str, ...]
    within: float

    @property
    def name(self) -> str:
        return self.part.measure

    @property
    def lines(self) -> str:
        return ", ".join(f"`{line.text}`" for line in self.part.lines)


@dataclass(frozen=True)
class Fitted:
    """What came of a fit: the value taken, all that would do, and by how much each stretch's pitch is off in mm, line
    by line in the order of the fit."""

    wanted: Wanted
    value: float
    solutions: tuple[float, ...]
    offs: tuple[tuple[float, ...], ...]

    @property
    def worst(self) -> float:
        return max(abs(off) for line in self.offs for off in line)


def fit_measures(wanted: Sequence[Wanted], held_at: HeldAt, messages: Messages) -> list[Fitted]:
    """Every fit that has a solution; the others are told, and their measures stay as written."""
    values = {fit.name: fit.written for fit in wanted}
    found: list[Fitted] = []
    for part in strong_parts(_influences(wanted, held_at)):
        fits = [wanted[index] for index in part]
        if len(fits) == 1:
            fitted = _fit_one(fits[0], values, held_at, messages)
            found += [fitted] if fitted else []
        else:
            found += _fit_together(fits, values, held_at, messages)
        values.update({fitted.wanted.name: fitted.value for fitted in found})
    return found


def _influences(wanted: Sequence[Wanted], held_at: HeldAt) -> list[list[int]]:
    """For each fit the fits whose measures bear on its lines, by what the ends of their ranges do to them."""
    written = {fit.name: fit.written for fit in wanted}
    here = held_at(written)
    edges: list[list[int]] = [[] for _ in wanted]
    for other, moved in enumerate(wanted):
        ends = [held_at({**written, moved.name: end}) for end in (moved.low, moved.high)]
        for index, fit in enumerate(wanted):
            if any(there.get(key) != here.get(key) for there in ends for key in fit.keys):
                edges[index].append(other)
    return edges


def _fit_one(fit: Wanted, values: Mapping[str, float], held_at: HeldAt, messages: Messages) -> Fitted | None:
    def stretches(value: float) -> Held | None:
        return _together(held_at({**values, fit.name: value}), fit.keys)

    try:
        found = fit_values(stretches, fit.low, fit.high)
    except Idle:
        messages.add(says.IDLE_FIT, at=fit.part.span, name=fit.name, lines=fit.lines)
        return None
    good = [value for value in found if value.worst <= fit.within + ROUNDING]
    if not good:
        if found:
            _say_nearest_miss(fit, min(found, key=lambda value: value.worst), held_at, values, messages)
        return None
    best = min(good, key=lambda value: (abs(value.value - fit.written), value.value))
    counts = _stretch_counts(held_at({**values, fit.name: best.value}), fit.keys)
    return _told(fit, best.value, [value.value for value in good], _parted(best.offs, counts), messages)


def _together(held: Mapping[str, Held], keys: Sequence[str]) -> Held | None:
    if any(key not in held for key in keys):
        return None
    return tuple(stretch for key in keys for stretch in held[key])


def _stretch_counts(held: Mapping[str, Held], keys: Sequence[str]) -> list[int]:
    return [len(held[key]) for key in keys]


def _parted(offs: Sequence[float], counts: Sequence[int]) -> tuple[tuple[float, ...], ...]:
    """The misses, line by line."""
    ends = [0, *accumulate(counts)]
    return tuple(tuple(offs[start:end]) for start, end in pairwise(ends))


def _fit_together(
    fits: Sequence[Wanted], values: Mapping[str, float], held_at: HeldAt, messages: Messages
) -> list[Fitted]:
    def stretches(vector: Sequence[float]) -> list[Held] | None:
        held = held_at({**values, **{fit.name: value for fit, value in zip(fits, vector, strict=True)}})
        each = [_together(held, fit.keys) for fit in fits]
        return None if any(one is None for one in each) else [one for one in each if one is not None]

    from drafting.solve.fit_joint import joint_values  # With numpy, which a check without such fits spares.

    ranges = [(fit.low, fit.high) for fit in fits]
    written = [fit.written for fit in fits]
    found = joint_values(stretches, ranges, written)
    within = [fit.within + ROUNDING for fit in fits]
    good = [one for one in found if all(a <= b for a, b in zip(one.worst, within, strict=True))]
    if not good:
        for index, fit in enumerate(fits if found else ()):
            best = min(found, key=lambda one: max(a / b for a, b in zip(one.worst, within, strict=True)))
            if best.worst[index] > within[index]:
                miss = FitValue(best.vector[index], best.offs[index])
                _say_nearest_miss(fit, miss, held_at, values, messages)
        return []
    best = min(good, key=lambda one: (_distance(one.vector, written, ranges), one.vector))
    told: list[Fitted] = []
    for index, fit in enumerate(fits):
        held = held_at({**values, **{each.name: at for each, at in zip(fits, best.vector, strict=True)}})
        offs = _parted(best.offs[index], _stretch_counts(held, fit.keys))
        told.append(_told(fit, best.vector[index], [one.vector[index] for one in good], offs, messages))
    return told


def _distance(
    vector: Sequence[float], written: Sequence[float], ranges: Sequence[tuple[float, float]]
) -> float:
    """How far values lie from those written, each by its own range."""
    return sum(
        ((value - at) / (high - low or 1.0)) ** 2
        for value, at, (low, high) in zip(vector, written, ranges, strict=True)
    )


# Messages


def _told(
    fit: Wanted,
    value: float,
    solutions: Sequence[float],
    offs: tuple[tuple[float, ...], ...],
    messages: Messages,
) -> Fitted:
    fitted = Fitted(fit, value, tuple(solutions), offs)
    if abs(value - fit.written) > SHOWN:
        verb = "holds" if len(fit.part.lines) == 1 else "hold"
        off = f", off by {mm(fitted.worst)} at most" if fitted.worst > SHOWN else ""
        messages.add(
            says.FITTED,
            at=fit.part.span,
            name=fit.name,
            value=mm(value),
            written=mm(fit.written),
            lines=f"{fit.lines} {verb} whole pitches",
            off=off,
            others=_others(fitted),
        )
    return fitted


def _others(fitted: Fitted) -> str:
    others = [mm(value) for value in sorted(set(fitted.solutions)) if value != fitted.value]
    if not others:
        return "No other value of its range does."
    name = fitted.wanted.name
    return f"To have another value write it as the measure: `{name} = {others[0]}`" + (
        f", or {', '.join(others[1:])}." if others[1:] else "."
    )


def _say_nearest_miss(
    fit: Wanted, miss: FitValue, held_at: HeldAt, values: Mapping[str, float], messages: Messages
) -> None:
    counts = _stretch_counts(held_at({**values, fit.name: miss.value}), fit.keys)
    worst = [max(abs(off) for off in line) for line in _parted(miss.offs, counts)]
    line = fit.part.lines[min(worst.index(max(worst)), len(fit.part.lines) - 1)]
    messages.add(
        says.NO_FIT,
        at=fit.part.span,
        name=fit.name,
        low=mm(fit.low),
        high=mm(fit.high),
        lines=fit.lines,
        value=mm(miss.value),
        line=f"`{line.text}`",
        off=mm_at_least(miss.worst),
    )
