"""What a file says against what was drafted."""

from __future__ import annotations

from drafting.records import dataclass

LACKING = "not there"
SAME_LENGTH = 0.01
"""A written file agrees with the solved pattern within this, in mm."""


@dataclass(frozen=True)
class Disagreement:
    """`where` is the piece and its part, `what` the measure; `drafted` and `written` are its two values."""

    where: str
    what: str
    drafted: str
    written: str

    def __str__(self) -> str:
        return f"{self.where}: {self.what} is {self.drafted} as drafted and {self.written} in the file"
