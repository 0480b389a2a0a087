"""Rules -> nodes: names, ways and amounts.

Takes the place of a finished rule and its children, and gives the node. The method that builds a rule carries its
name.
"""

from __future__ import annotations

from drafting.records import dataclass, field
from drafting.syntax import tree
from drafting.syntax.marks import Mark, amount_of
from drafting.text.catalogue import syntax as says
from drafting.text.messages import Messages
from drafting.text.source import Source, Span

DEEPEST = 100
"""How many sums may stand inside one another; what reads them calls itself for each."""


@dataclass
class AmountBuilder:
    """Builds what stands inside clauses. `depths` says of an amount how many others it holds inside one another."""

    source: Source
    messages: Messages
    depths: dict[int, int] = field(default_factory=dict)
    _told_too_deep: int = -1
    """Where the last amount begins that was told to hold too many."""

    def name(self, span: Span, name: Mark) -> tree.Name:
        return tree.Name(span, name.text)

    def ref(self, span: Span, *parts: Mark | str) -> tree.Ref:
        return tree.Ref(span, tuple(part if isinstance(part, str) else part.text for part in parts))

    def refs(self, span: Span, *refs: tree.Ref) -> tuple[tree.Ref, ...]:
        return refs

    def stretch(self, span: Span, start: tree.Ref, end: tree.Ref) -> tree.Stretch:
        return tree.Stretch(span, start, end)

    def walk(
        self,
        span: Span,
        start: tree.Ref,
        round: tuple[tree.Ref, ...] | None,
        end: tree.Ref,
        of: tree.Ref | None,
    ) -> tree.Walk:
        return tree.Walk(span, start, round or (), end, of)

    def amounts(self, span: Span, *amounts: tree.Expression) -> tuple[tree.Expression, ...]:
        return amounts

    def amount(self, span: Span, mark: Mark) -> tree.Amount:
        return amount_of(mark, self.source)

    def ounces(self, span: Span, mark: Mark) -> tree.Amount:
        return amount_of(mark, self.source)

    def plus(self, span: Span, left: tree.Expression, right: tree.Expression) -> tree.Expression:
        return self._deeper(tree.Binary(span, "+", left, right), left, right)

    def minus(self, span: Span, left: tree.Expression, right: tree.Expression) -> tree.Expression:
        return self._deeper(tree.Binary(span, "-", left, right), left, right)

    def times(self, span: Span, left: tree.Expression, right: tree.Expression) -> tree.Expression:
        return self._deeper(tree.Binary(span, "*", left, right), left, right)

    def over_amount(self, span: Span, left: tree.Expression, right: tree.Expression) -> tree.Expression:
        return self._deeper(tree.Binary(span, "/", left, right), left, right)

    def negative(self, span: Span, of: tree.Expression) -> tree.Expression:
        return self._deeper(tree.Negative(span, of), of)

    def angle(self, span: Span, start: tree.Ref, vertex: tree.Ref, end: tree.Ref) -> tree.AngleOf:
        return tree.AngleOf(span, start, vertex, end)

    def call(self, span: Span, function: Mark, *arguments: tree.Argument) -> tree.Expression:
        name = tree.Name(Span(self.source, function.start, function.end), function.text)
        values = [argument.value for argument in arguments]
        return self._deeper(tree.Call(span, name, arguments), *values)

    def named_argument(self, span: Span, name: Mark, value: tree.Expression) -> tree.Argument:
        return tree.Argument(span, name.text, value)

    def plain_argument(self, span: Span, value: tree.Expression) -> tree.Argument:
        return tree.Argument(span, None, value)

    def _deeper(self, node: tree.Expression, *inside: tree.Expression) -> tree.Expression:
        """`node`, unless it holds more inside one another than can be read; then the message and its first
        part.
        """
        depth = 1 + max((self.depths.get(id(part), 0) for part in inside), default=0)
        if depth > DEEPEST:
            if node.span.start != self._told_too_deep:
                self._told_too_deep = node.span.start
                self.messages.add(says.TOO_DEEP, at=node.span)
            return inside[0]
        self.depths[id(node)] = depth
        return node

    # Ways in besides a file

    def expression(self, span: Span, expression: tree.Expression) -> tree.Expression:
        return expression

    def setting_value(self, span: Span, amounts: tuple[tree.Expression, ...]) -> tuple[tree.Expression, ...]:
        return amounts
