"""Sizes: each row of a pattern's size table as formulas that stand in for the measures' own.

Takes the `size` statements; a series such as `80 cm to 110 cm by 5 cm` becomes a row for each step, with `{waist}` in
the title replaced by its value in the unit it was written in.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from drafting.model.bind_expression import bind_kind
from drafting.model.expressions import Bound, Constant
from drafting.model.pattern import MeasurePart, SizeRow
from drafting.model.references import Binding
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.messages import did_you_mean
from drafting.text.quantities import UNITS

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
            return
        steps = _steps(binding, setting, measure)
        if steps is None:
            return
        if setting.step is not None:
            series[name] = steps
        else:
            fixed[name] = tuple(step.bound for step in steps)
            shown[name] = ", ".join(step.shown for step in steps)
    if not _fits_title(binding, item, {*fixed, *series}):
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
    if any(bound is None for bound in bounds):
        return None
    if setting.last is None or setting.step is None:
        return [
            Step(bound, value.span.text)
            for bound, value in zip(bounds, setting.values, strict=True)
            if bound is not None
        ]
    last = bind_kind(binding, setting.last, None, measure.kind, setting)
    step = bind_kind(binding, setting.step, None, measure.kind, setting)
    if last is None or step is None:
        return None
    return _series(binding, setting, bounds[0], last, step)


def _series(
    binding: Binding, setting: tree.Setting, first: Bound | None, last: Bound, step: Bound
) -> list[Step] | None:
    """The values of a series; its ends and step must be plain amounts and come out even."""
    if not (isinstance(first, Constant) and isinstance(last, Constant) and isinstance(step, Constant)):
        binding.messages.add(says.SIZE_SERIES, at=setting.span, text=setting.span.text)
        return None
    reach = last.value - first.value
    count = reach / step.value if step.value else Fraction(-1)
    if count < 0 or count.denominator != 1 or count > MOST_STEPS:
        binding.messages.add(says.SIZE_SERIES, at=setting.span, text=setting.span.text)
        return None
    unit = _unit_of(setting.values[0])
    values = [first.value + index * step.value for index in range(int(count) + 1)]
    return [Step(Constant(value), _shown(value, unit)) for value in values]


def _unit_of(node: tree.Expression) -> str:
    words = node.span.text.split()
    tail = re.sub(r"[\d./\s]", "", words[-1]) if words else ""
    return tail if tail in UNITS or tail == "deg" else ""


def _shown(value: Fraction, unit: str) -> str:
    """A value in the unit it was written in, as short as it goes without loss to 0.001."""
    amount = value / UNITS.get(unit, Fraction(1))
    number = f"{float(amount):.3f}".rstrip("0").rstrip(".")
    return f"{number} {unit}".strip()
