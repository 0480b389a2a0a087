"""What the workshop rules find in a pattern, as messages at the statements they speak of.

Takes the placed sizes of a bound pattern and how far off its edges are cut, in mm; returns messages. NoTolerance tells
a tolerance that is none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from drafting.craft.reading_placed import item_of
from drafting.craft.rules import Finding, check_sizes
from drafting.model.pattern import Pattern
from drafting.solve.placed import Placed
from drafting.text.messages import Message, Related
from drafting.text.source import Span


def judge(sizes: Mapping[str, Placed], bound: Pattern, tolerance: float = 0.0) -> Iterator[Message]:
    """All findings of all sizes; one that does not hold in some sizes only begins with their names."""
    items = {size: item_of(placed, bound) for size, placed in sizes.items()}
    for finding in check_sizes(items, tolerance).findings:
        yield _message(finding, bound, len(sizes))


def _message(finding: Finding, bound: Pattern, n_sizes: int) -> Message:
    at, *others = _spans(finding, bound) or [None]
    related = tuple(Related(span, "takes part") for span in others if span is not None and span != at)
    sizes = finding.sizes if len(finding.sizes) < n_sizes else ()
    return Message(finding.rule.entry, at, finding.says, finding.mend, related, sizes)


def _spans(finding: Finding, bound: Pattern) -> list[Span | None]:
    """The names of the features in their statements; the piece's own where none is told, or what a pocket holds."""
    piece = bound.pieces.get(finding.breach.piece)
    if piece is None:
        return []
    parts = [piece.shape(name.removesuffix("'").partition(".")[0]) for name in finding.breach.features]
    return [part.name_span for part in parts if part] or [piece.span]
