"""How a maker asks for stitches: by a pitch, by a number on an iron, or by a count.

Each way of asking is a type of its own, so that stitches to the international inch and the number of a French iron
can never be taken for each other: `7` is 3.6286 mm in the one and 3.8671 mm in the other.

A French iron is numbered by its teeth in a Paris inch (common practice, no source). The Paris inch, *pouce*, is 12
lignes, and the metre is 443.296 lignes (law of 19 frimaire VIII, from memory; 27.07 mm looked up in unit tables). An
inch is 25.4 mm exactly (NBS Circular 572, addendum of 22 January 1960).
"""

from __future__ import annotations

from fractions import Fraction

from drafting.craft.faults import IRON, PER_INCH, PITCH, NoPitch
from drafting.records import dataclass
from drafting.text.quantities import MM_PER_INCH

MM_PER_LIGNE = Fraction(1000 * 1000, 443296)
MM_PER_PARIS_INCH = 12 * MM_PER_LIGNE


@dataclass(frozen=True)
class Every:
    """The nearest whole number of pitches; the real pitch may be a little off the one asked for."""

    pitch: float


@dataclass(frozen=True)
class Apart:
    """Exactly this pitch from the start; what is left over stays over."""

    pitch: float


@dataclass(frozen=True)
class PerInch:
    """So many stitches to the international inch, as `Every`."""

    number: float


@dataclass(frozen=True)
class FrenchIron:
    """The pitch of an iron with this number, so many teeth to the Paris inch, as `Every`."""

    number: float


@dataclass(frozen=True)
class Stitches:
    """A number of stitches over the whole line; each stretch gets its share, at least one."""

    count: int


@dataclass(frozen=True)
class AsManyAs:
    """The counts of another line, stretch by stretch.

    `lengths` are those of the other line's stretches: a line without a corner of its own is divided in the same shares,
    so that hole meets hole.
    """

    counts: tuple[int, ...]
    lengths: tuple[float, ...] = ()


Spacing = Every | Apart | PerInch | FrenchIron | Stitches | AsManyAs


def pitch_per_inch(number: float) -> float:
    """The pitch of so many stitches to the international inch."""
    return float(MM_PER_INCH) / number


def pitch_of_iron(number: float) -> float:
    """The pitch of an iron numbered in French inches."""
    return float(MM_PER_PARIS_INCH) / number


def nominal_pitch(spacing: Spacing) -> float | None:
    """The pitch that was asked for, or None when stitches were counted."""
    match spacing:
        case Every(pitch) | Apart(pitch):
            return expect_pitch(pitch, PITCH)
        case PerInch(number):
            return pitch_per_inch(expect_pitch(number, PER_INCH))
        case FrenchIron(number):
            return pitch_of_iron(expect_pitch(number, IRON))
        case Stitches() | AsManyAs():
            return None


def expect_pitch(number: float, of: str) -> float:
    if not number > 0:
        raise NoPitch(number, of)
    return number
