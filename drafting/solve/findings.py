"""What the solver has to say, as data: tags, keys and amounts, without a word for the maker.

`tags` are those of the facts and choices that take part, in the order in which they were given to the System; `keys`
are points or numbers. Where something follows from an earlier finding, nothing is said of it.
"""

from __future__ import annotations

import math

from drafting.records import dataclass
from drafting.solve.system import Tag

Place = tuple[float, float]


@dataclass(frozen=True)
class Slides:
    """Free along one direction, a vector of length 1. `along` names the line it keeps to, when facts name one."""

    x: float
    y: float
    along: tuple[str, str] | None = None


def slides_along(x: float, y: float, along: tuple[str, str] | None = None) -> Slides:
    """Along a vector of any length, told to the right, or upward when it is plumb, and free of dust."""
    length = math.hypot(x, y)
    x, y = (0.0 if abs(part) < 1e-9 * length else part / length for part in (x, y))
    turned_round = x < 0 or (x == 0 and y < 0)
    return Slides(0.0 - x, 0.0 - y, along) if turned_round else Slides(x, y, along)


@dataclass(frozen=True)
class Turns:
    """Free to turn round a point."""

    about: str


@dataclass(frozen=True)
class Free:
    """Free in every direction."""


Motion = Slides | Turns | Free


@dataclass(frozen=True)
class Loose:
    """A point or number that its facts do not pin.

    `n_facts` counts the equations given for it (a point needs 2, a number 1), `tags` are their facts, `missing` how
    many facts its whole loose group lacks. `group` are all points and numbers that move with it; `as_body` tells
    that the group only moves as a whole, keeping its shape: it lacks a fixed base.
    """

    key: str
    tag: Tag
    n_facts: int
    tags: tuple[Tag, ...]
    motion: Motion | None
    missing: int
    group: tuple[str, ...]
    as_body: bool = False


@dataclass(frozen=True)
class Repeated:
    """A fact that says what others say already, and agrees with them."""

    tag: Tag
    tags: tuple[Tag, ...]
    point: str | None
    point_tags: tuple[Tag, ...]


@dataclass(frozen=True)
class Contradiction:
    """A fact that disagrees with others by `misfit` (mm, or degrees for an angle).

    `tags` is a smallest set, the culprit last: take any one away and the rest can hold. `wanted` is what the culprit
    asks for, `actual` what the others give. `point` has more facts than it needs; they are `point_tags`.
    """

    tag: Tag
    tags: tuple[Tag, ...]
    misfit: float
    wanted: float | None
    actual: float | None
    point: str | None
    point_tags: tuple[Tag, ...]


@dataclass(frozen=True)
class NoPlace:
    """Facts that leave no place: they miss each other by `gap` mm, where that could be told."""

    keys: tuple[str, ...]
    tags: tuple[Tag, ...]
    gap: float | None
    condition: Tag = None
    """The fact whose own condition (the half of a ray, between two points) no place met."""
    places: tuple[Place, ...] = ()
    """The places that were left before the condition."""
    missed: Tag = None
    """The fact that `gap` is measured by, where it is not a distance between places."""


@dataclass(frozen=True)
class SeveralPlaces:
    """Facts that leave several places, and no choice that picks one. `places` are those of the point `key`."""

    key: str
    keys: tuple[str, ...]
    tags: tuple[Tag, ...]
    places: tuple[Place, ...]
    choices: tuple[Tag, ...] = ()
    """Choices that were tried and left several."""
    solutions: tuple[tuple[tuple[str, Place | float], ...], ...] = ()
    """Each solution whole, where several points are solved together."""


@dataclass(frozen=True)
class SeveralValues:
    """A number to be found that has several solutions within its range."""

    key: str
    tags: tuple[Tag, ...]
    values: tuple[float, ...]


@dataclass(frozen=True)
class ChoiceRefuses:
    """A choice that none of the places meets."""

    choice: Tag
    key: str
    tags: tuple[Tag, ...]
    places: tuple[Place, ...]


@dataclass(frozen=True)
class NegativeLength:
    """A distance that came out below nought."""

    tag: Tag
    value: float


@dataclass(frozen=True)
class OutOfRange:
    """A number to be found whose range is empty, or that has its solution outside; `nearest` is the one there that is
    nearest to the range, if one was seen."""

    key: str
    tags: tuple[Tag, ...]
    low: float
    high: float
    nearest: float | None


@dataclass(frozen=True)
class Cycle:
    """Nodes computed from each other in a ring; each needs the next, and the last the first."""

    keys: tuple[str, ...]
    tags: tuple[Tag, ...]


@dataclass(frozen=True)
class NearTouch:
    """Two places so near each other that a small change of measure makes them one or none."""

    keys: tuple[str, ...]
    tags: tuple[Tag, ...]
    apart: float


@dataclass(frozen=True)
class NotProven:
    """Solved by search: that there is no other solution is not proven."""

    keys: tuple[str, ...]
    tags: tuple[Tag, ...]


@dataclass(frozen=True)
class Undecided:
    """Points that hang on each other in so many ways that they were not all followed; choices would thin them out."""

    keys: tuple[str, ...]
    tags: tuple[Tag, ...]
    n_ways: int


@dataclass(frozen=True)
class Degenerate:
    """Facts that say the same of a point, such as two lines that are one: it can still move as `motion` tells."""

    keys: tuple[str, ...]
    tags: tuple[Tag, ...]
    motion: Motion | None = None


Finding = (
    Loose
    | Repeated
    | Contradiction
    | NoPlace
    | SeveralPlaces
    | SeveralValues
    | ChoiceRefuses
    | NegativeLength
    | OutOfRange
    | Cycle
    | NearTouch
    | NotProven
    | Undecided
    | Degenerate
)
