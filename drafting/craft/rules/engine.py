"""Judge an item by all rules, in one size or in every one.

Takes an item, the tolerance its edges are cut to and the maker's allowances; returns a RuleReport: the findings, those
that are allowed with the reason for it, and allowances that allow nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drafting.craft.faults import CraftFault
from drafting.craft.item import Item
from drafting.craft.rules.allowing import Allowance, expect_allowable
from drafting.craft.rules.rule import ROUNDING, Bench, Breach, Rule
from drafting.craft.rules.table import BY_CODE, RULES
from drafting.records import dataclass, replace
from drafting.solve.amounts import mm, mm_at_least
from drafting.text.catalogue import craft as says
from drafting.text.messages import Severity


class NoTolerance(CraftFault):
    """A tolerance below nothing."""

    entry = says.TOLERANCE_RANGE

    def __init__(self, tolerance: float) -> None:
        super().__init__(tolerance=mm(tolerance))
        self.tolerance = tolerance


@dataclass(frozen=True)
class Finding:
    """A rule that does not hold somewhere. `sizes` names the sizes it does not hold in, if the item has several."""

    rule: Rule
    breach: Breach
    allowed: Allowance | None = None
    sizes: tuple[str, ...] = ()

    @property
    def code(self) -> str:
        return self.rule.code

    @property
    def severity(self) -> Severity:
        return self.rule.severity

    @property
    def facts(self) -> dict[str, str]:
        """All that fills the catalogue's line; `lacking` is what the figure is short of its limit, or beyond it."""
        lacking = mm_at_least(self.breach.figure.beyond)
        return {"lacking": lacking, **self.breach.facts, "why": self.rule.reason}

    @property
    def says(self) -> str:
        return self.rule.entry.says.format(**self.facts)

    @property
    def mend(self) -> str:
        return self.rule.entry.mend.format(**self.facts)

    @property
    def same_place(self) -> tuple[str, str, tuple[str, ...]]:
        """What makes findings of two sizes one: the rule, the piece and the features."""
        return self.code, self.breach.piece, self.breach.features


@dataclass(frozen=True)
class RuleReport:
    """`findings` are to be mended, `allowed` were allowed and stay visible, `unused` allowances allowed nothing."""

    findings: tuple[Finding, ...]
    allowed: tuple[Finding, ...]
    unused: tuple[Allowance, ...]

    @property
    def has_errors(self) -> bool:
        return any(finding.severity is Severity.ERROR for finding in self.findings)


def check_rules(item: Item, tolerance: float = 0.0, allowances: Sequence[Allowance] = ()) -> RuleReport:
    """All findings of one size, in the order of the rules."""
    return _report(_judged(item, tolerance, allowances), allowances)


def check_sizes(
    items: Mapping[str, Item], tolerance: float = 0.0, allowances: Sequence[Allowance] = ()
) -> RuleReport:
    """All findings of every size; one place is told once, by its worst figures.

    A mend that is good for the worst of several sizes, or of several holes of a row, is good for all of them.
    """
    merged: dict[tuple[str, str, tuple[str, ...]], Finding] = {}
    for size, item in items.items():
        for finding in _judged(item, tolerance, allowances):
            earlier = merged.get(finding.same_place, finding)
            sizes = earlier.sizes if size in earlier.sizes else (*earlier.sizes, size)
            worse = (
                finding if finding.breach.figure.beyond > earlier.breach.figure.beyond + ROUNDING else earlier
            )
            merged[finding.same_place] = replace(worse, sizes=sizes)
    return _report(sorted(merged.values(), key=lambda finding: finding.code), allowances)


def _judged(item: Item, tolerance: float, allowances: Sequence[Allowance]) -> list[Finding]:
    if not tolerance >= 0:
        raise NoTolerance(tolerance)
    for allowance in allowances:
        expect_allowable(allowance, BY_CODE)
    bench = Bench(item, tolerance)
    return [
        Finding(rule, breach, next((one for one in allowances if one.covers(rule, breach)), None))
        for rule in RULES
        for breach in rule.judge(bench)
    ]


def _report(findings: Sequence[Finding], allowances: Sequence[Allowance]) -> RuleReport:
    used = {finding.allowed for finding in findings}
    return RuleReport(
        tuple(finding for finding in findings if finding.allowed is None),
        tuple(finding for finding in findings if finding.allowed is not None),
        tuple(allowance for allowance in allowances if allowance not in used),
    )
