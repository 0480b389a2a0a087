"""What a maker allows in so many words, and why.

`allow R07 "the notch is filled by the hem"` in a piece, or for the whole item. An allowance is never lost: what it
allows stays in the report with its reason, and one that allows nothing is reported too.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drafting.craft.faults import CraftFault
from drafting.craft.rules.rule import Breach, Rule, nearest_code
from drafting.records import dataclass
from drafting.text.catalogue import craft as says
from drafting.text.messages import did_you_mean


@dataclass(frozen=True)
class Allowance:
    """A rule's code, the maker's reason, and the piece it is said in; None for the whole item."""

    code: str
    reason: str
    piece: str | None = None

    def covers(self, rule: Rule, breach: Breach) -> bool:
        """Said in the piece that breaks the rule, or in one whose feature it is broken by: a strap and the slot
        `tag.eye` that it does not go through."""
        pieces = (breach.piece, *(name.partition(".")[0] for name in breach.features if "." in name))
        return self.code == rule.code and (self.piece is None or self.piece in pieces)


class UnknownRule(CraftFault):
    """An allowance for a rule that there is not."""

    entry = says.UNKNOWN_RULE

    def __init__(self, code: str, known: Sequence[str]) -> None:
        super().__init__(code=code, meant=did_you_mean(nearest_code(code, known), known))
        self.code = code


class NoReason(CraftFault):
    """An allowance without a reason."""

    entry = says.NO_REASON

    def __init__(self, code: str) -> None:
        super().__init__(code=code)
        self.code = code


def expect_allowable(allowance: Allowance, rules: Mapping[str, Rule]) -> None:
    if allowance.code not in rules:
        raise UnknownRule(allowance.code, sorted(rules))
    if not allowance.reason.strip():
        raise NoReason(allowance.code)
