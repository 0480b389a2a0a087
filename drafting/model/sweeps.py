"""A measure swept from the command line: `rim=7mm..14mm/0.5mm`, or from Python.

Takes the words behind the `=`; gives each value with how it reads, or None with the messages that say what is wrong.
"""

from __future__ import annotations

import re
from fractions import Fraction

from drafting.model.expressions import Constant
from drafting.model.pattern import MeasurePart
from drafting.model.references import Binding
from drafting.model.settings import bind_setting
from drafting.model.sizes import plain_amount, shown_in, uneven
from drafting.records import dataclass
from drafting.text.catalogue import files as says
from drafting.text.messages import Messages
from drafting.text.quantities import UNITS
from drafting.text.source import Source

SWEEPS = (
    re.compile(r"(?P<first>.+?)\.\.(?P<last>.+?[a-z])\s*/(?P<step>.+)"),
    re.compile(r"(?P<first>.+?)\.\.(?P<last>.+?)/(?P<step>.+)"),
)
"""The step begins at the first stroke behind a unit, for `2in..3 1/2in/1/8in` has strokes of its own."""
MOST_VALUES = 20_000


@dataclass(frozen=True)
class Sweep:
    """The values of a measure in their order, each with its words in the unit that was written."""

    name: str
    values: tuple[Constant, ...]
    shown: tuple[str, ...]


def is_sweep(text: str) -> bool:
    return ".." in text


def bind_sweep(binding: Binding, measure: MeasurePart, text: str) -> tuple[Sweep | None, Messages]:
    found = next((found for each in SWEEPS if (found := each.fullmatch(text.strip()))), None)
    if found is None:
        return None, _told(measure, text, "it lacks its end or its step", ("7 mm", "14 mm", "0.5 mm"))
    messages = Messages()
    amounts: list[Fraction | None] = []
    for part in ("first", "last", "step"):
        bounds, told = bind_setting(binding, measure, found[part].strip())
        messages.extend(told)
        amounts.append(plain_amount(bounds[0]) if bounds and len(bounds) == 1 else None)
    if messages.has_errors:
        return None, messages
    unit = _unit(found["step"])
    first, last, step = amounts
    if first is None or last is None or step is None:
        why = "its ends and its step must be plain amounts"
        return None, _told(measure, text, why, ("7 mm", "14 mm", "0.5 mm"))
    count = (last - first) / step if step else Fraction(-1)
    if not (0 <= count < MOST_VALUES and count.denominator == 1):
        why, example = uneven(first, last, step, unit, MOST_VALUES - 1)
        return None, _told(measure, text, why, example)
    values = [first + index * step for index in range(int(count) + 1)]
    shown = tuple(shown_in(value, unit) for value in values)
    return Sweep(measure.name, tuple(Constant(value) for value in values), shown), messages


def _told(measure: MeasurePart, text: str, why: str, example: tuple[str, str, str]) -> Messages:
    messages = Messages()
    source = Source(f"{measure.name} = ", text)
    first, last, step = (amount.replace(" ", "") for amount in example)
    words = f"{measure.name}={first}..{last}/{step}"
    messages.add(says.SWEEP, at=source.span(0, len(text)), text=text, why=why, example=words)
    return messages


def _unit(text: str) -> str:
    word = re.sub(r"[-+\d./\s]", "", text)
    return word if word in UNITS or word == "deg" else ""
