"""A measure set from outside the pattern text: its words bound to amounts of the measure's kind."""

from __future__ import annotations

from drafting.model.bind_expression import bind_kind
from drafting.model.expressions import Bound
from drafting.model.pattern import MeasurePart
from drafting.model.references import Binding
from drafting.model.sizes import has_list_length
from drafting.syntax.parse import parse_setting_value
from drafting.text.messages import Messages
from drafting.text.source import Source


def bind_setting(
    binding: Binding, measure: MeasurePart, text: str
) -> tuple[tuple[Bound, ...] | None, Messages]:
    """The amounts that `NAME=text` gives a measure, or None with the messages that say what is wrong."""
    source = Source(f"{measure.name} = ", text)
    nodes, messages = parse_setting_value(source)
    if nodes is None:
        return None, messages
    kept, binding.messages = binding.messages, messages
    bounds = [bind_kind(binding, node, None, measure.kind, node) for node in nodes]
    has_list_length(binding, source.span(0, len(text)), measure, len(bounds))
    binding.messages = kept
    if messages.has_errors:
        return None, messages
    return tuple(bound for bound in bounds if bound is not None), messages
