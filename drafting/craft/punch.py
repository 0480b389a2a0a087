"""Punches: round holes by their size, or by a shop's own table of numbers.

A hole is given in mm. Numbers differ between makers (No. 5 is sold as 5/32 and as 3/16 inch; common practice, no
source), so there is no built-in table: a number means what the shop's own table, by name, says it means.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from drafting.craft.faults import CraftFault, expect_positive
from drafting.solve.amounts import mm
from drafting.text.catalogue import craft as says
from drafting.text.messages import did_you_mean


class UnknownPunch(CraftFault):
    """A number that the named table does not have."""

    entry = says.UNKNOWN_PUNCH

    def __init__(self, table: PunchTable, name: str) -> None:
        offers = ", ".join(f"`{number}` ({mm(across)})" for number, across in table.ordered)
        near = did_you_mean(name, table.sizes)
        super().__init__(table=table.name, name=name, offers=offers or "none", near=near)
        self.table, self.name = table, name


@dataclass(frozen=True)
class PunchTable:
    """A shop's punches: the sizes across by the numbers or names that stand on them."""

    name: str
    sizes: Mapping[str, float]

    def __post_init__(self) -> None:
        for across in self.sizes.values():
            expect_positive(punch=across)

    @property
    def ordered(self) -> list[tuple[str, float]]:
        """From the smallest on."""
        return sorted(self.sizes.items(), key=lambda item: (item[1], item[0]))

    def across(self, number: str) -> float:
        """The size of the punch with this number."""
        if number not in self.sizes:
            raise UnknownPunch(self, number)
        return self.sizes[number]

    def nearest(self, across: float) -> tuple[str, float]:
        """The punch nearest to a size, and how much larger it is (negative when smaller)."""
        if not self.sizes:
            raise UnknownPunch(self, mm(across))
        number, size = min(self.ordered, key=lambda item: (abs(item[1] - across), item[1], item[0]))
        return number, size - across
