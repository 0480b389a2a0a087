"""An order and what it is to be cut from, made ready to be laid: kinds, sheets, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil

from drafting.lay.judging import judge_hide, judge_room
from drafting.lay.kinds import Freedom, Kind, kinds_of
from drafting.lay.sheets import Sheet, hide, panel, roll
from drafting.model.pattern import Pattern
from drafting.records import dataclass, field, replace
from drafting.solve.placed import Placed
from drafting.text.messages import Messages
from drafting.text.source import Span

MOST_PANELS = 1000
LEAST_YIELD = 1 / 3
"""A roll is searched on so much length that parts in their boxes would fill so much of it."""


PanelSize = tuple[float, float, int | None]
"""Wide, high, and how many there are; None for as many as are needed."""


@dataclass(frozen=True)
class Wish:
    """What is asked of a lay: panels or a roll so wide, in mm; else there are hides."""

    panels: tuple[PanelSize, ...]
    roll: float | None
    gap: float
    margin: float
    stocks: tuple[str, ...] | None
    freedom: Freedom
    firm: tuple[str, ...]
    poor: tuple[str, ...]
    freedoms: Mapping[str, Freedom | None] = field(default_factory=dict)
    """Of single pieces; None of one that may lie as it likes."""


@dataclass(frozen=True)
class Ordered:
    kinds: tuple[Kind, ...]
    sheets: tuple[Sheet, ...]
    messages: Messages = field(default_factory=Messages)


def order_sheets(
    batch: Sequence[tuple[Placed, Pattern, int]], hides: Sequence[tuple[Placed, Pattern]], wish: Wish
) -> Ordered:
    """Everything that a search needs. Raises ValueError for an order without parts, or without a sheet."""
    kinds: list[Kind] = []
    places: dict[str, Span] = {}
    for placed, pattern, copies in _merged(batch):
        for name, piece in placed.pieces.items():
            only = _only(placed, name)
            found = kinds_of(
                only, copies, stocks=wish.stocks, freedom=wish.freedom, freedoms=wish.freedoms,
                firm=wish.firm, poor=wish.poor,
            )  # fmt: skip
            kinds += found
            places |= {kind.name: pattern.pieces[piece.name].span for kind in found}
    if not kinds or any(kind.demand < 1 for kind in kinds):
        raise ValueError("an order has at least one part")
    sheets, messages = _sheets(kinds, hides, wish)
    if not messages.has_errors:
        messages.extend(judge_room(kinds, sheets, wish.gap, places))
    return Ordered(tuple(kinds), tuple(sheets), messages)


def _merged(batch: Sequence[tuple[Placed, Pattern, int]]) -> list[tuple[Placed, Pattern, int]]:
    """The same item ordered twice is one order."""
    found: list[tuple[Placed, Pattern, int]] = []
    for placed, pattern, copies in batch:
        same = next((n for n, (other, _, _) in enumerate(found) if other == placed), None)
        if same is None:
            found.append((placed, pattern, copies))
        else:
            found[same] = (placed, pattern, copies + found[same][2])
    return found


def _only(placed: Placed, name: str) -> Placed:
    return replace(placed, pieces={name: placed.pieces[name]})


def _sheets(
    kinds: Sequence[Kind], hides: Sequence[tuple[Placed, Pattern]], wish: Wish
) -> tuple[list[Sheet], Messages]:
    messages = Messages()
    if wish.panels:
        return _panels(kinds, wish.panels, wish.margin), messages
    if wish.roll is not None:
        return [roll(wish.roll, _enough(kinds, wish), wish.margin)], messages
    if not hides:
        raise ValueError("a lay needs a panel, a roll or a hide")
    sheets: list[Sheet] = []
    for placed, pattern in hides:
        for name, piece in placed.pieces.items():
            sheets.append(hide(piece, wish.margin))
            messages.extend(judge_hide(pattern.pieces[name], piece, sheets[-1], kinds))
    return sheets, messages


def _panels(kinds: Sequence[Kind], sizes: Sequence[PanelSize], margin: float) -> list[Sheet]:
    """As many as there are, or as could ever be needed, in the order they are named in."""
    needed = min(sum(kind.demand for kind in kinds), MOST_PANELS)
    sides = [(wide, high) for wide, high, count in sizes for _ in range(min(count or needed, needed))]
    return [panel(wide, high, margin, f"panel {n + 1}") for n, (wide, high) in enumerate(sides)]


def _enough(kinds: Sequence[Kind], wish: Wish) -> float:
    """So long that every part is sure to find room on the roll."""
    width = max((wish.roll or 0.0) - 2 * wish.margin, 1.0)
    sides = [
        (long + wish.gap, wide + wish.gap, kind.demand) for kind in kinds for long, wide in [kind.extent]
    ]
    boxes = sum(long * wide * demand for long, wide, demand in sides)
    longest = max((long**2 + wide**2) ** 0.5 for long, wide, _ in sides)
    return float(ceil(boxes / width / LEAST_YIELD + 2 * longest + 2 * wish.margin))
