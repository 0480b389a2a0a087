"""Random patterns: points at places that are known beforehand, and facts that pin each of them.

A Scene is a list of named places, each with the clauses that lead there from earlier ones. Lengths are written as
fractions of a unit, so that one scene can be written in mm, cm or inches and mean the same to the last digit.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from hypothesis import strategies as st

from drafting.text.quantities import UNITS

Write = Callable[[Fraction], str]
"""How a length in mm is written."""


def in_unit(unit: str, scale: Fraction = Fraction(1)) -> Write:
    """Lengths as fractions of a unit, `127/8 mm`; what is less than nothing is taken from nothing."""

    def write(length: Fraction) -> str:
        amount = abs(length) * scale / UNITS[unit]
        text = (
            f"{amount.numerator}/{amount.denominator} {unit}"
            if amount.denominator > 1
            else f"{amount.numerator} {unit}"
        )
        return text if length >= 0 else f"(0 - {text})"

    return write


@dataclass(frozen=True)
class Placed:
    """A point: where it lies, and its clauses once lengths can be written."""

    x: Fraction
    y: Fraction
    clauses: Callable[[Write], list[str]]


@dataclass(frozen=True)
class Scene:
    points: dict[str, Placed]

    def statements(self, write: Write) -> list[str]:
        return [f"  point {name}: {'; '.join(point.clauses(write))}" for name, point in self.points.items()]

    def text(self, write: Write | None = None) -> str:
        """In mm unless said otherwise."""
        return "piece back:\n" + "\n".join(self.statements(write or in_unit("mm"))) + "\n"


@st.composite
def scenes(draw: st.DrawFn, least: int = 2, most: int = 9) -> Scene:
    """Points on a grid of eighths of a mm, no two in one place; each is led to by clauses that leave no other."""
    places = draw(st.lists(st.tuples(GRID, GRID), min_size=least, max_size=most, unique=True))
    points: dict[str, Placed] = {}
    for index, (x, y) in enumerate(places):
        name = f"p{index}"
        points[name] = draw(_placed(points, Fraction(x, 8), Fraction(y, 8)))
    return Scene(points)


GRID = st.integers(-800, 800)


@st.composite
def _placed(draw: st.DrawFn, earlier: dict[str, Placed], x: Fraction, y: Fraction) -> Placed:
    if not earlier:
        return Placed(x, y, lambda write: [f"at ({write(x)}, {write(y)})"])
    ways = [_by_offsets, _at_from, _level_and_right, _level_and_distance]
    if len(earlier) > 1:
        ways += [_two_distances, _foot_on_line, _along]
    return draw(draw(st.sampled_from(ways))(earlier, x, y))


def _names(earlier: dict[str, Placed], count: int) -> st.SearchStrategy[list[str]]:
    return st.lists(st.sampled_from(sorted(earlier)), min_size=count, max_size=count, unique=True)


def _off(write: Write, amount: Fraction, more: str, less: str, name: str) -> str:
    return f"{write(abs(amount))} {more if amount >= 0 else less} {name}"


@st.composite
def _by_offsets(draw: st.DrawFn, earlier: dict[str, Placed], x: Fraction, y: Fraction) -> Placed:
    a, b = draw(st.sampled_from(sorted(earlier))), draw(st.sampled_from(sorted(earlier)))

    def clauses(write: Write) -> list[str]:
        return [
            _off(write, x - earlier[a].x, "right of", "left of", a),
            _off(write, y - earlier[b].y, "above", "below", b),
        ]

    return Placed(x, y, clauses)


@st.composite
def _at_from(draw: st.DrawFn, earlier: dict[str, Placed], x: Fraction, y: Fraction) -> Placed:
    a = draw(st.sampled_from(sorted(earlier)))
    return Placed(x, y, lambda write: [f"at ({write(x - earlier[a].x)}, {write(y - earlier[a].y)}) from {a}"])


@st.composite
def _level_and_right(draw: st.DrawFn, earlier: dict[str, Placed], x: Fraction, y: Fraction) -> Placed:
    a, b = draw(st.sampled_from(sorted(earlier))), draw(st.sampled_from(sorted(earlier)))
    y = earlier[a].y
    return Placed(
        x, y, lambda write: [f"level with {a}", _off(write, x - earlier[b].x, "right of", "left of", b)]
    )


@st.composite
def _level_and_distance(draw: st.DrawFn, earlier: dict[str, Placed], x: Fraction, y: Fraction) -> Placed:
    """On the level line through a point, so far from it, on a side."""
    a = draw(st.sampled_from(sorted(earlier)))
    away = abs(x - earlier[a].x) + 1
    side = draw(st.sampled_from([("right of", 1), ("left of", -1)]))
    x, y = earlier[a].x + side[1] * away, earlier[a].y
    return Placed(x, y, lambda write: [f"{write(away)} from {a}", f"level with {a}", f"{side[0]} {a}"])


@st.composite
def _two_distances(draw: st.DrawFn, earlier: dict[str, Placed], x: Fraction, y: Fraction) -> Placed:
    """Above or below two points that lie level, 3/5 and 4/5 of their distance from them: a right angle, and exact."""
    a, b = draw(_names(earlier, 2))
    gap = earlier[b].x - earlier[a].x
    if earlier[a].y != earlier[b].y or abs(gap) < 1:
        return draw(_by_offsets(earlier, x, y))
    word, sign = draw(st.sampled_from([("above", 1), ("below", -1)]))
    x, y = earlier[a].x + gap * Fraction(9, 25), earlier[a].y + sign * abs(gap) * Fraction(12, 25)
    near, far = abs(gap) * Fraction(3, 5), abs(gap) * Fraction(4, 5)
    return Placed(
        x, y, lambda write: [f"{write(near)} from {a}", f"{write(far)} from {b}", f"{word} {a}..{b}"]
    )


@st.composite
def _foot_on_line(draw: st.DrawFn, earlier: dict[str, Placed], x: Fraction, y: Fraction) -> Placed:
    """Where a square line from one point meets the endless line through two others."""
    a, b = draw(_names(earlier, 2))
    dx, dy = earlier[b].x - earlier[a].x, earlier[b].y - earlier[a].y
    if abs(dx) + abs(dy) < 1:
        return draw(_by_offsets(earlier, x, y))
    c = draw(st.sampled_from(sorted(earlier)))
    along = ((earlier[c].x - earlier[a].x) * dx + (earlier[c].y - earlier[a].y) * dy) / (dx * dx + dy * dy)
    x, y = earlier[a].x + along * dx, earlier[a].y + along * dy
    return Placed(x, y, lambda write: [f"on {a}..{b} extended", f"square off {a}..{b} at {c}"])


@st.composite
def _along(draw: st.DrawFn, earlier: dict[str, Placed], x: Fraction, y: Fraction) -> Placed:
    a, b = draw(_names(earlier, 2))
    share = draw(st.fractions(min_value=0, max_value=1, max_denominator=12))
    x = earlier[a].x + share * (earlier[b].x - earlier[a].x)
    y = earlier[a].y + share * (earlier[b].y - earlier[a].y)
    word = f"{share.numerator}/{share.denominator}" if share.denominator > 1 else str(share.numerator)
    return Placed(x, y, lambda write: [f"{word} along {a}..{b}"])


@dataclass(frozen=True)
class Side:
    """A side of a random outline: its corner, and how the leg to it is bowed."""

    x: float
    y: float
    bow: float
    """Height as a share of the chord, outward if positive."""


@st.composite
def outlines(draw: st.DrawFn, least: int = 3, most: int = 8) -> list[Side]:
    """Corners round a middle, none sharper than its bows allow: a star that cannot cross itself."""
    count = draw(st.integers(least, most))
    sides = []
    for index in range(count):
        angle = 2 * math.pi * index / count
        far = draw(st.integers(40, 60))
        bow = draw(st.sampled_from([0.0, 0.0, 0.03, -0.03, 0.08, 0.15]))
        sides.append(Side(round(far * math.cos(angle), 3), round(far * math.sin(angle), 3), bow))
    return sides
