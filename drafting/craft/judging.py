"""The workshop's verdict on a pattern, as messages at the statements that it speaks of.

Takes the pattern in every size that could be placed, and how far off hand-cut edges may be; gives a message for each
rule that does not hold, a note for each that the maker allows, and a warning for an allowance that allows nothing. A
twin, or a piece that copies a statement, is not told of again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from drafting.craft.faults import CraftFault
from drafting.craft.item import Item
from drafting.craft.reading_placed import item_of
from drafting.craft.rules.allowing import Allowance, expect_allowable
from drafting.craft.rules.engine import Finding, check_sizes
from drafting.craft.rules.table import BY_CODE
from drafting.model.pattern import AllowPart, Pattern
from drafting.records import dataclass
from drafting.solve.placed import Placed
from drafting.text.catalogue import craft as says
from drafting.text.messages import Message, Messages, Related
from drafting.text.source import Span


@dataclass(frozen=True)
class Verdict:
    """All that is to be told, and in so many words what was allowed, for the sheets."""

    messages: Messages
    allowed: tuple[str, ...]


def judge(pattern: Pattern, sizes: Sequence[tuple[str | None, Placed]], tolerance: float = 0.0) -> Verdict:
    """Judge a pattern in some of its sizes, each by its title. Raises NoTolerance for one below nothing."""
    items = {title or "": item_of(placed, pattern) for title, placed in sizes}
    return _Judge(pattern, items, tolerance).verdict()


class _Judge:
    def __init__(self, pattern: Pattern, items: Mapping[str, Item], tolerance: float) -> None:
        self.pattern, self.items, self.tolerance = pattern, items, tolerance
        self.messages = Messages()
        self.told: set[tuple[str, tuple[Span, ...]]] = set()

    def verdict(self) -> Verdict:
        parts = [part for part in self.pattern.allowances if self._may_be(part)]
        allowances = {_allowance(part): part for part in parts}
        report = check_sizes(self.items, self.tolerance, list(allowances))
        for finding in report.findings:
            self._tell(finding)
        allowed = [
            self._tell_allowed(finding, allowances[finding.allowed])
            for finding in report.allowed
            if finding.allowed
        ]
        for allowance in report.unused:
            self.messages.add(says.ALLOWS_NOTHING, at=allowances[allowance].span, code=allowance.code)
        return Verdict(self.messages, tuple(dict.fromkeys(allowed)))

    def _may_be(self, part: AllowPart) -> bool:
        try:
            expect_allowable(_allowance(part), BY_CODE)
        except CraftFault as fault:
            self.messages.say(fault.entry, part.span, fault.facts)
            return False
        return True

    def _tell(self, finding: Finding) -> None:
        spans = tuple(self._spans(finding))
        if self._is_new(finding, spans):
            held = [part.span for part in self.pattern.contents.values()]
            related = tuple(
                Related(span, "which should go in" if span in held else "and this") for span in spans[1:]
            )
            self.messages.extend(
                [
                    Message(
                        finding.rule.entry,
                        spans[0],
                        finding.says,
                        finding.mend,
                        related,
                        self._sizes(finding),
                    )
                ]
            )

    def _tell_allowed(self, finding: Finding, part: AllowPart) -> str:
        if self._is_new(finding, tuple(self._spans(finding))):
            facts = {"code": finding.code, "says": finding.says, "reason": part.reason}
            related = tuple(Related(span, "here") for span in self._spans(finding))
            self.messages.say(says.ALLOWED, part.span, facts, related, self._sizes(finding))
        return f"{finding.code} is allowed: {finding.says} The maker's reason: {part.reason}"

    def _is_new(self, finding: Finding, spans: tuple[Span, ...]) -> bool:
        key = (finding.code, spans)
        is_new = key not in self.told
        self.told.add(key)
        return is_new

    def _sizes(self, finding: Finding) -> tuple[str, ...]:
        return finding.sizes if len(finding.sizes) < len(self.items) else ()

    def _spans(self, finding: Finding) -> Iterator[Span]:
        """Where the features are written that a finding speaks of, else its piece."""
        piece = finding.breach.piece
        spans = [span for name in finding.breach.features if (span := self._span(piece, name))]
        held = self.pattern.contents
        contents = [held[name].span for name in finding.breach.features if name in held]
        if not spans:
            bound = self.pattern.pieces.get(piece)
            spans = [bound.span if bound else self.pattern.tree.source.span(0, 0)]
        yield from dict.fromkeys([*spans, *contents])

    def _span(self, piece: str, feature: str) -> Span | None:
        """Of a feature of the piece, of one of another piece, `back.eye`, or of hardware."""
        head, _, rest = feature.partition(".")
        if head in self.pattern.hardware:
            return self.pattern.hardware[head].span
        owner, name = (head, rest.partition(".")[0]) if head in self.pattern.pieces else (piece, head)
        bound = self.pattern.pieces.get(owner)
        part = bound.shape(name.rstrip("'")) if bound else None
        return part.name_span if part else None


def _allowance(part: AllowPart) -> Allowance:
    return Allowance(part.code, part.reason, part.piece)
