"""Pattern -> Plan -> Placed, and every message on the way.

A Draft keeps the plan of a pattern and evaluates it for each size; it is made again only when a size sets a measure
whose formula speaks of something placed. Messages of several sizes are told once, with the sizes they hold in.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import suppress
from fractions import Fraction
from typing import Any

from drafting.geometry.maths import exact, hypot, kept, most, varies
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.model.evaluate_measures import Formula, check_ranges, formulas, how_else, pure_values, why_not
from drafting.model.expressions import Bound, Constant, Value, keys_of
from drafting.model.pattern import CheckPart, FitPart, Pattern, SizeRow
from drafting.records import dataclass, field, replace
from drafting.solve.amounts import mm_at_least, mm_at_most, plain, shown
from drafting.solve.assembling import assemble, bare_keys, cut_rings, measures_of
from drafting.solve.far_side import tell_far_side
from drafting.solve.fit_search import Held
from drafting.solve.fitting import USUAL_WITHIN, Fitted, HeldAt, Wanted, fit_measures
from drafting.solve.joining import place_joins
from drafting.solve.lines import AnyLine, Drawn, OutlineLine
from drafting.solve.lowering import Lowered, lower
from drafting.solve.outlines import flat_mirror_corners, mirror_points
from drafting.solve.placed import Placed
from drafting.solve.plan import Plan, PlanPart, Solution, make_plan
from drafting.solve.reading import Reader
from drafting.solve.remembering import Memory
from drafting.solve.reporting import report, report_failures
from drafting.solve.stitching import held_key, stitches_of
from drafting.solve.trade import Trade
from drafting.text.catalogue import model as model_says
from drafting.text.catalogue import shapes as says
from drafting.text.messages import Message, Messages
from drafting.text.quantities import LENGTH

SAME_AMOUNT = 1e-9
STILL = 1e-8
NUDGE = 1e-3


@dataclass(frozen=True)
class Planned:
    lowered: Lowered
    plan: Plan
    memory: Memory = field(default_factory=Memory)

    @kept
    def bare(self) -> Plan:
        """What the lines that pieces are cut along hang on, and checks of measures and points."""
        pattern, layout = self.lowered.pattern, self.plan.layout
        keys = [key for piece in pattern.pieces.values() for key in bare_keys(piece)]
        checked = (key for check in checks_of(pattern) for key in _read_by(check))
        return self.plan.only([*keys, *(key for key in checked if key in layout.points)])


@dataclass(frozen=True)
class Sized:
    """One size, worked out: its values, and what could be placed."""

    planned: Planned
    solution: Solution
    placed: Placed | None
    """All pieces, or None where one could not be placed."""
    drawn: Placed
    """The pieces that could be placed, for a draft."""
    messages: Messages
    known: Mapping[str, Any]
    fits: tuple[Fitted, ...] = ()

    def influence(self, key: str) -> dict[str, tuple[float, float]]:
        """How far a point moves, in mm right and up, for each mm (or degree) more of a measure.

        Of a point that facts place it comes from the plan; of one read off a line it is measured by a small change
        each way (NUDGE), good to about 1e-6. Measures that do not move it are left out.
        """
        at = {known: float(value) for known, value in self.known.items()}
        plan = self.planned.plan
        if key in self.planned.lowered.holders:
            moves = plan.influence(key, at)
            found = {known: move for known, move in moves.items() if isinstance(move, tuple)}
        else:
            found = {known: _nudged(plan, key, at, known) for known in at}
        return {known: move for known, move in found.items() if hypot(*move) > STILL}


def _nudged(plan: Plan, key: str, at: Mapping[str, float], known: str) -> tuple[float, float]:
    """The central difference of a computed point over one measure; nothing where it then has no place."""
    more, less = (plan.evaluate({**at, known: at[known] + step}).values.get(key) for step in (NUDGE, -NUDGE))
    if not (isinstance(more, Point) and isinstance(less, Point)):
        return 0.0, 0.0
    return (more.x - less.x) / (2 * NUDGE), (more.y - less.y) / (2 * NUDGE)


@dataclass(frozen=True)
class Bare:
    """One size without its seams and features: its measures, and the line that each piece is cut along. What is told
    are ranges, and checks of measures and points."""

    measures: Mapping[str, float]
    rings: Mapping[str, Ring]
    messages: Messages


@dataclass
class Draft:
    """A pattern ready to be placed in any size."""

    pattern: Pattern
    stem: str
    trade: Trade
    plans: dict[object, Planned] = field(default_factory=dict)
    fits: dict[object, tuple[tuple[Fitted, ...], Messages]] = field(default_factory=dict)
    """By the settings of a size."""
    fitted_parts: dict[int, PlanPart] = field(default_factory=dict)
    """What the lines of the fits hang on, by the plan it is of."""

    def size(
        self, title: str | None, settings: Mapping[str, tuple[Bound, ...]], also: tuple[Bound, ...] = ()
    ) -> Sized:
        """Work out one size. `settings` are the formulas that stand in for the measures' own, `also` expressions
        that will be read off."""
        messages = Messages()
        settings, fits = self._fitted(settings, messages)
        known_formulas = formulas(self.pattern, settings)
        known = pure_values(known_formulas, messages)
        planned = self._plan(known, known_formulas, also)
        solution = _solved(planned.lowered, planned.plan, known, messages)
        drawn = assemble(planned.lowered, solution.values, title, self.stem, messages, planned.memory)
        reader = Reader(solution.values)
        joins = place_joins(self.pattern, self.trade, reader, messages, planned.memory)
        is_whole = len(drawn.pieces) == len(self.pattern.pieces)
        placed = replace(drawn, joins=joins) if is_whole else None
        check_ranges(self.pattern, solution.values, messages)
        self._shape_warnings(reader, placed, messages)
        self._checks(reader, messages, checks_of(self.pattern))
        return Sized(planned, solution, placed, drawn, messages, known, fits)

    def bare(self, settings: Mapping[str, tuple[Bound, ...]]) -> Bare | None:
        """One size, but no more of it than the lines its pieces are cut along; None where one of them or a point has no
        place, which `size` tells of."""
        messages = Messages()
        settings, _ = self._fitted(settings, messages)
        known_formulas = formulas(self.pattern, settings)
        known = pure_values(known_formulas, messages)
        planned = self._plan(known, known_formulas, ())
        reader = Reader(_solved(planned.lowered, planned.bare, known, messages).values)
        rings = cut_rings(planned.lowered, reader, messages)
        if messages.has_errors:
            return None
        check_ranges(self.pattern, reader.values, messages)
        checks = [
            check for check in checks_of(self.pattern) if all(key in reader.values for key in _read_by(check))
        ]
        self._checks(reader, messages, checks)
        return Bare(measures_of(self.pattern, reader.values), rings, messages)

    def _fitted(
        self, settings: Mapping[str, tuple[Bound, ...]], messages: Messages
    ) -> tuple[Mapping[str, tuple[Bound, ...]], tuple[Fitted, ...]]:
        """The settings with the fitted measures in them, worked out once for each set of settings."""
        if not self.pattern.fits:
            return settings, ()
        key = frozenset(settings.items())
        if key in self.fits:
            fits, told = self.fits[key]
        else:
            told = Messages()
            fits = tuple(fit_measures(self._wanted(settings), self._held_at(settings), told))
            if not any(
                varies(bound.value)
                for bounds in settings.values()
                for bound in bounds
                if isinstance(bound, Constant)
            ):
                self.fits[key] = fits, told
        messages.extend(told)
        return {**settings, **{fit.wanted.name: _constant(fit.value) for fit in fits}}, fits

    def _wanted(self, settings: Mapping[str, tuple[Bound, ...]]) -> list[Wanted]:
        """Every fit of this size, but those whose measure or range has no value, or whose range ends before it begins:
        that is told elsewhere."""
        known_formulas = formulas(self.pattern, settings)
        known = pure_values(known_formulas, Messages())
        keys = [bound for fit in self.pattern.fits for bound in _bounds_of(self.pattern, fit)]
        if all(key in known for bound in keys for key in keys_of(bound)):
            reader = Reader(known)
        else:
            reader = Reader(self._plan(known, known_formulas, ()).plan.evaluate(known).values)
        wanted: list[Wanted] = []
        for fit in self.pattern.fits:
            with suppress(KeyError, ZeroDivisionError, ValueError):
                written, low, high, within = (reader.number(bound) for bound in _bounds_of(self.pattern, fit))
                refs = (ref for line in fit.lines for ref in stitches_of(self.pattern, line.line))
                lines = tuple(held_key(ref) for ref in refs)
                if low <= high:
                    wanted.append(Wanted(fit, written, low, high, lines, within))
        return wanted

    def _held_at(self, settings: Mapping[str, tuple[Bound, ...]]) -> HeldAt:
        """How many pitches the fitted lines hold, at any values of the fitted measures."""
        refs = (line.line for fit in self.pattern.fits for line in fit.lines)
        keys = dict.fromkeys(held_key(ref) for line in refs for ref in stitches_of(self.pattern, line))

        def held_at(values: Mapping[str, float]) -> Mapping[str, Held]:
            moved = {**settings, **{name: _constant(value) for name, value in values.items()}}
            known_formulas = formulas(self.pattern, moved)
            known = pure_values(known_formulas, Messages())
            plan = self._plan(known, known_formulas, ()).plan
            if id(plan) not in self.fitted_parts:
                self.fitted_parts[id(plan)] = plan.part_for(keys)
            return self.fitted_parts[id(plan)].values(known)

        return held_at

    def planned(
        self, settings: Mapping[str, tuple[Bound, ...]]
    ) -> tuple[Planned, frozenset[str], Mapping[str, Formula]]:
        """The plan for a set of settings, the measures it is given, and all formulas."""
        known_formulas = formulas(self.pattern, settings)
        known = pure_values(known_formulas, Messages())
        return self._plan(known, known_formulas, ()), frozenset(known), known_formulas

    def _plan(
        self, known: Mapping[str, Any], known_formulas: Mapping[str, Formula], also: tuple[Bound, ...]
    ) -> Planned:
        """The plan for this set of known measures; the numbers of the first size asked for are its nominal ones."""
        rest = tuple((key, formula.bound) for key, formula in known_formulas.items() if key not in known)
        signature = (frozenset(known), rest, also)
        if signature not in self.plans:
            lowered = lower(self.pattern, known, known_formulas, self.trade, also)
            self.plans[signature] = Planned(lowered, make_plan(lowered.system))
        return self.plans[signature]

    def _shape_warnings(self, reader: Reader, placed: Placed | None, messages: Messages) -> None:
        """What is reported of shapes that could be made."""
        for piece in self.pattern.pieces.values():
            for part in (*([piece.outline] if piece.outline else []), *piece.guides, *piece.features):
                line: AnyLine | None = reader.values.get(f"{piece.name}/{part.name}:line")
                for swing in line.swings if isinstance(line, Drawn | OutlineLine) else ():
                    messages.add(says.SWINGS, at=part.span, to=swing.to, place=swing.after)
            outline = reader.values.get(f"{piece.name}/outline:line")
            if isinstance(outline, OutlineLine) and piece.mirror:
                for station, angle in flat_mirror_corners(outline, mirror_points(reader, piece.mirror)):
                    messages.add(
                        says.NEARLY_STRAIGHT,
                        at=piece.outline.span if piece.outline else piece.span,
                        piece=piece.name,
                        angle=f"{plain(angle, 1)} deg",
                        point=station.name,
                    )
                tell_far_side(reader, piece, placed.pieces.get(piece.name) if placed else None, messages)

    def _checks(self, reader: Reader, messages: Messages, checks: Iterable[CheckPart]) -> None:
        for check in checks:
            text = " ".join(check.span.text.split('"')[0].split()[1:])
            try:
                left, right = reader.number(check.left), reader.number(check.right)
                within = reader.number(check.within) if check.within is not None else 0.0
            except (ZeroDivisionError, ValueError) as fault:
                messages.add(
                    model_says.NOT_COMPUTED,
                    at=check.span,
                    name=text,
                    why=why_not(fault),
                    mend=how_else(fault),
                )
                continue
            except KeyError:
                # What it compares could not be worked out, and that is told already.
                if messages.has_errors:
                    continue
                raise
            if not holds(check, left, right, within):
                messages.add(
                    model_says.CHECK_FAILS,
                    at=check.span,
                    text=text,
                    left=shown(left, check.kind),
                    right=shown(right, check.kind),
                    note=f" (“{check.note}”)" if check.note else "",
                    otherwise=_as_it_is(check, text, left, right),
                )

    def all_sizes(self) -> list[SizeRow | None]:
        """The sizes that are made: those written, or the measures as they stand."""
        return list(self.pattern.sizes) or [None]


def _constant(value: float) -> tuple[Bound, ...]:
    return (Constant(exact(value)),)


def _bounds_of(pattern: Pattern, fit: FitPart) -> tuple[Bound, Bound, Bound, Bound]:
    """The value of a fitted measure, the ends of its range, and how much a pitch may be off."""
    measure = pattern.measures[fit.measure]
    if measure.low is None or measure.high is None:
        raise AssertionError("the binder lets no measure without a range be fitted")
    within = Constant(Fraction(USUAL_WITHIN)) if fit.within is None else fit.within
    return Value(fit.measure), measure.low, measure.high, within


def _solved(lowered: Lowered, plan: Plan, known: Mapping[str, Any], messages: Messages) -> Solution:
    """The numbers of one size, with all that is to be told of it."""
    solution = plan.evaluate(known)
    report(lowered, solution.findings, solution.values, messages)
    report_failures(lowered, solution.failures, solution.values, messages)
    _presume_all_told(lowered, solution, messages)
    return solution


def checks_of(pattern: Pattern) -> list[CheckPart]:
    of_pieces = (check for piece in pattern.pieces.values() for check in piece.checks)
    return [*pattern.checks, *of_pieces]


def _read_by(check: CheckPart) -> list[str]:
    """The keys of all that a check compares."""
    sides = (check.left, check.right, *([] if check.within is None else [check.within]))
    return [key for side in sides for key in keys_of(side)]


def _presume_all_told(lowered: Lowered, solution: Solution, messages: Messages) -> None:
    """A point without a place and without a message would be a drawing made from a guess: our own fault."""
    lost = [key for key in lowered.holders if key not in solution.values]
    if lost and not messages.has_errors:
        raise AssertionError(f"no place and no word for {', '.join(lost)}")


def _as_it_is(check: CheckPart, text: str, left: float, right: float) -> str:
    """The check that would hold, to be typed; of lengths only, for an area has no unit of its own in the language."""
    head, found, _ = text.partition(f" {check.operator} ")
    if not found or check.kind is not LENGTH:
        return "the check"
    if check.operator == "=":
        return f"write `check {text.partition(' within ')[0]} within {mm_at_least(abs(left - right))}`"
    if check.operator in (">=", ">"):
        return f"write `check {head} >= {mm_at_most(left)}`"
    return f"write `check {head} <= {mm_at_least(left)}`"


def holds(check: CheckPart, left: float, right: float, within: float) -> bool:
    """Whether two sides compare as asked; `within` loosens an equality, rounding of the last digit none."""
    slack = within + SAME_AMOUNT * most(1.0, abs(left), abs(right))
    if check.operator == "=":
        return abs(left - right) <= slack
    if check.operator in (">=", "<="):
        return left >= right - slack if check.operator == ">=" else left <= right + slack
    return left > right if check.operator == ">" else left < right


def merge_sizes(by_size: Iterable[tuple[str | None, Messages]]) -> Messages:
    """Each message once: one that holds in some sizes only begins with their names, and where its amounts differ
    from size to size it says whose they are."""
    runs = [(title, list(messages)) for title, messages in by_size]
    titles = [title for title, _ in runs]
    first: dict[tuple[object, ...], Message] = {}
    sizes: dict[tuple[object, ...], list[str]] = {}
    differ: set[tuple[object, ...]] = set()
    for title, messages in runs:
        for message in messages:
            key = (message.code, message.at, tuple(related.at for related in message.related))
            if first.setdefault(key, message).says != message.says:
                differ.add(key)
            if title is not None and title not in sizes.setdefault(key, []):
                sizes[key].append(title)
    merged = Messages()
    for place_key, message in first.items():
        held = sizes.get(place_key, [])
        partly = len(titles) > 1 and len(held) < len(titles)
        whose = f" The amounts are those of `{held[0]}`." if place_key in differ and held else ""
        merged.extend([replace(message, says=message.says + whose, sizes=tuple(held) if partly else ())])
    return merged
