"""Sizes: each row of a pattern's size table as formulas that stand in for the measures' own.

Takes the `size` statements; a series such as `80 cm to 110 cm by 5 cm` becomes a row for each step, with `{waist}` in
the title replaced by its value in the unit it was written in.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction

from drafting.model.bind_expression import bind_kind
from drafting.model.expressions import Bound, Constant, evaluate, keys_of
from drafting.model.pattern import MeasurePart, SizeRow
from drafting.model.references import Binding
from drafting.records import dataclass
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.messages import did_you_mean
from drafting.text.quantities import UNITS
from drafting.text.source import Span

MOST_STEPS = 1000


@dataclass(frozen=True)
class Step:
    """One value of a series: the bound amount and how it reads in a title."""

    bound: Bound
    shown: str


def bind_sizes(binding: Binding, measures: Mapping[str, MeasurePart]) -> tuple[SizeRow, ...]:
    """All rows in the order written; two rows of one title are a fault."""
    rows: list[SizeRow] = []
    titles: set[str] = set()
    for item in binding.scope.file.items:
        if not isinstance(item, tree.Size):
            continue
        for row in _rows_of(binding, item, measures):
            if row.title in titles:
                is_series = any(setting.step is not None for setting in item.settings)
                name = next((setting.name.text for setting in item.settings if setting.step is not None), "")
                hint = f', or put the value into it: `"{{{name}}}"`' if is_series else ""
                binding.messages.add(says.SIZE_TWICE, at=item.span, title=row.title, hint=hint)
                break
            titles.add(row.title)
            rows.append(row)
    return tuple(rows)


def _rows_of(binding: Binding, item: tree.Size, measures: Mapping[str, MeasurePart]) -> Iterator[SizeRow]:
    fixed: dict[str, tuple[Bound, ...]] = {}
    shown: dict[str, str] = {}
    series: dict[str, list[Step]] = {}
    is_faulty = False
    for setting in item.settings:
        name = setting.name.text
        measure = measures.get(name)
        if measure is None:
            if name not in binding.scope.names or binding.scope.names[name].kind != "measure":
                binding.messages.add(
                    says.SIZE_UNKNOWN,
                    at=setting.name.span,
                    name=name,
                    title=item.title,
                    near=did_you_mean(name, measures),
                )
            is_faulty = True
            continue
        steps = _steps(binding, setting, measure)
        if steps is None:
            is_faulty = True
        elif setting.step is not None:
            series[name] = steps
        else:
            fixed[name] = tuple(step.bound for step in steps)
            shown[name] = ", ".join(step.shown for step in steps)
    if is_faulty or not _fits_title(binding, item, {*fixed, *series}):
        return
    for combination in _combinations(series):
        settings = {**fixed, **{name: (step.bound,) for name, step in combination.items()}}
        words = {**shown, **{name: step.shown for name, step in combination.items()}}
        title = re.sub(r"\{(.*?)\}", lambda match: words[match[1].strip()], item.title)  # noqa: B023
        yield SizeRow(title, settings, item.span)


def _combinations(series: Mapping[str, list[Step]]) -> Iterator[dict[str, Step]]:
    """Every pairing of the steps of all series, the first series slowest."""
    rows: list[dict[str, Step]] = [{}]
    for name, steps in series.items():
        rows = [{**row, name: step} for row in rows for step in steps]
    yield from rows


def _fits_title(binding: Binding, item: tree.Size, names: set[str]) -> bool:
    for match in re.finditer(r"\{(.*?)\}", item.title):
        name = match[1].strip()
        if name not in names:
            offers = ", ".join(f"`{{{known}}}`" for known in sorted(names)) or "nothing"
            binding.messages.add(says.SIZE_BRACES, at=item.span, title=item.title, name=name, offers=offers)
            return False
    return True


def _steps(binding: Binding, setting: tree.Setting, measure: MeasurePart) -> list[Step] | None:
    bounds = [bind_kind(binding, value, None, measure.kind, setting) for value in setting.values]
    if setting.last is None or setting.step is None:
        if not has_list_length(binding, setting.span, measure, len(bounds)):
            return None
        if any(bound is None for bound in bounds):
            return None
        return [
            Step(bound, value.span.text)
            for bound, value in zip(bounds, setting.values, strict=True)
            if bound is not None
        ]
    last = bind_kind(binding, setting.last, None, measure.kind, setting)
    step = bind_kind(binding, setting.step, None, measure.kind, setting)
    first = bounds[0]
    if first is None or last is None or step is None:
        return None
    if not has_list_length(binding, setting.span, measure, 1):
        return None
    return _series(binding, setting, first, last, step)


def has_list_length(binding: Binding, at: Span, measure: MeasurePart, given: int) -> bool:
    """Whether as many amounts are given as the measure holds; a message if not."""
    expected = len(measure.values)
    if given != expected:
        amounts = f"{expected} amounts" if expected != 1 else "one amount"
        binding.messages.add(says.LIST_LENGTH, at=at, name=measure.name, expected=amounts, given=given)
    return given == expected


def _series(
    binding: Binding, setting: tree.Setting, first: Bound, last: Bound, step: Bound
) -> list[Step] | None:
    """The values of a series; its ends and step must be plain amounts and come out even."""
    ends = [plain_amount(bound) for bound in (first, last, step)]
    start, end, by = ends
    unit = unit_of(setting.values[0])
    if start is None or end is None or by is None:
        why, example = "its ends and its step must be plain amounts", "80 cm to 110 cm by 5 cm"
    else:
        count = (end - start) / by if by else Fraction(-1)
        if 0 <= count <= MOST_STEPS and count.denominator == 1:
            values = [start + index * by for index in range(int(count) + 1)]
            return [Step(Constant(value), shown_in(value, unit)) for value in values]
        why, (first_shown, last_shown, step_shown) = uneven(start, end, by, unit)
        example = f"{first_shown} to {last_shown} by {step_shown}"
    text = " ".join(setting.span.text.split())
    binding.messages.add(says.SIZE_SERIES, at=setting.span, text=text, why=why, example=example)
    return None


def plain_amount(bound: Bound) -> Fraction | None:
    """The value of an expression that reads nothing and comes out exact."""
    if any(True for _ in keys_of(bound)):
        return None
    try:
        value = evaluate(bound, {})
    except (ZeroDivisionError, ValueError):
        return None
    return value if isinstance(value, Fraction) else None


def uneven(
    start: Fraction, end: Fraction, by: Fraction, unit: str, most: int = MOST_STEPS
) -> tuple[str, tuple[str, str, str]]:
    """Why a series does not come out, and the ends and the step of the nearest that does."""
    first, last, step = (shown_in(value, unit) for value in (start, end, by))
    if by == 0:
        whole = end - start or UNITS.get(unit, Fraction(1))
        return f"a step of {step} leads nowhere", (first, last, shown_in(whole, unit))
    count = (end - start) / by
    if count < 0:
        return f"steps of {step} never lead from {first} to {last}", (last, first, step)
    if count > most:
        example = (first, shown_in(start + 10 * by, unit), step)
        return f"it has {int(count)} steps, more than {most}", example
    reached = shown_in(start + int(count) * by, unit)
    return f"by steps of {step} it comes to {reached}, not to {last}", (first, reached, step)


def unit_of(node: tree.Expression) -> str:
    words = node.span.text.split()
    tail = re.sub(r"[-+\d./\s]", "", words[-1]) if words else ""
    return tail if tail in UNITS or tail == "deg" else ""


def shown_in(value: Fraction, unit: str) -> str:
    """A value in the unit it was written in, as short as it goes without loss to 0.001."""
    amount = value / UNITS.get(unit, Fraction(1))
    number = f"{float(amount):.3f}".rstrip("0").rstrip(".")
    return f"{number} {unit}".strip()
