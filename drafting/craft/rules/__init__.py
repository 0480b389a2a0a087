"""What a workshop would say of an item: an item as it stands -> findings, each with figure, limit, reason and source.

A rule backs its limit by where it comes from. What follows from the figures alone (a card that does not go in) is an
error; a range of the trade backs a warning or a note, never an error. `check_rules` judges one size, `check_sizes`
every size, and either holds the rules for edges cut by hand that are off by a tolerance, all to the worse side.
"""

from drafting.craft.rules.allowing import Allowance
from drafting.craft.rules.engine import Finding, RuleReport, check_rules, check_sizes
from drafting.craft.rules.rule import Rule, nearest_code
from drafting.craft.rules.table import RULES, rule_with_code

__all__ = [
    "RULES",
    "Allowance",
    "Finding",
    "Rule",
    "RuleReport",
    "check_rules",
    "check_sizes",
    "nearest_code",
    "rule_with_code",
]
