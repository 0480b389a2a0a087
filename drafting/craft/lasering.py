"""What must not be cut by a laser, by what is written of a stock.

A stock's name and note tell what it is, or nothing tells it; then only the caution can be given that is printed with
every file for a laser.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from drafting.records import dataclass


@dataclass(frozen=True)
class Unfit:
    """A stock that a laser must not cut: the word that tells it, what it is, and why."""

    stock: str
    word: str
    what: str
    why: str


class UnfitForLaser(ValueError):
    """A laser was to cut what it must not."""

    def __init__(self, unfit: Unfit) -> None:
        super().__init__(f"{unfit.stock} is {unfit.what}: {unfit.why}")
        self.unfit = unfit


@dataclass(frozen=True)
class _Substance:
    what: str
    why: str
    words: re.Pattern[str]


FREE_OF = r"(?<!\bno )(?<!\bnot )(?<!\bnon-)(?<!\bnever )(?<!\bwithout )(?<!\bfree of )(?<!\binstead of )"
"""Before a word it says that the stock is something else."""
FREE = r"(?![\w.-]*[ -]free\b)"
"""After it, the same."""


def _words(*stems: str) -> re.Pattern[str]:
    return re.compile(rf"{FREE_OF}\b(?:{'|'.join(stems)}){FREE}[\w-]*", re.IGNORECASE)


SUBSTANCES = (
    _Substance(
        "PVC",
        "heated it gives off hydrogen chloride, which is poisonous and corrodes the machine",
        _words(r"PVC\b", r"vinyls?\b(?! (?:acetate|alcohol))", r"poly ?vinyl.?chloride"),
    ),
    _Substance(
        "chrome-tanned leather",
        "strong heat may turn chromium III in it into chromium VI, which is harmful to breathe",
        _words(r"chrome\b", r"chromium\b", r"chrome.?tan", r"wet.?blue"),
    ),
)
"""Reasons as in the cautions H01 and H02, with their sources there."""


def unfit_for_laser(stocks: Iterable[tuple[str, str]]) -> list[Unfit]:
    """Of stocks, each with its name and all that is written of it, those that a laser must not cut."""
    return [unfit for name, text in stocks for unfit in _unfit(name, text)]


def _unfit(name: str, text: str) -> Iterator[Unfit]:
    for substance in SUBSTANCES:
        found = substance.words.search(f"{name.replace('_', ' ')} {text}")
        if found:
            yield Unfit(name, found[0], substance.what, substance.why)
