"""Sizes and sweeps of a pattern -> a row for each: measures, outer sizes, stitches, stock, and which rules hold.

Takes a Draft and the settings of each size; gives SizedRow, plain values that can be handed from one process to
another. What is wrong in a size stands in its row; the other sizes are worked out all the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import product

from drafting.craft.judging import judge
from drafting.craft.lists.order import Entry
from drafting.geometry.maths import plain_number
from drafting.model.expressions import Bound
from drafting.model.pattern import SizeRow
from drafting.model.sweeps import Sweep
from drafting.records import dataclass, field
from drafting.solve.draft import Draft
from drafting.text.messages import Message, Severity

Settings = Mapping[str, tuple[Bound, ...]]


@dataclass(frozen=True)
class Asked:
    """One size to be worked out: its title, what is swept in it and how that reads, and all its settings."""

    title: str | None
    swept: Mapping[str, str]
    settings: Settings = field(repr=False)

    @property
    def name(self) -> str:
        """`visitor, rim 7 mm`; nothing of a pattern that has no sizes."""
        words = [self.title] if self.title else []
        return ", ".join([*words, *(f"{name} {value}" for name, value in self.swept.items())])


@dataclass(frozen=True)
class Found:
    """Something that is said of a size: the code, how grave it is, and the sentence."""

    code: str
    severity: str
    says: str


@dataclass(frozen=True)
class SizedRow:
    """A size in numbers: lengths are mm, areas mm². What could not be worked out is not among them.

    `stitches` are by the first line of each seam, `stock` by name, both of one copy; `boxes` are the width and height
    of each piece as it is cut.
    """

    asked: Asked
    measures: Mapping[str, float] = field(default_factory=dict)
    boxes: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    stitches: Mapping[str, int] = field(default_factory=dict)
    stock: Mapping[str, float] = field(default_factory=dict)
    thread: float | None = None
    found: tuple[Found, ...] = ()
    is_judged: bool = True
    """Whether its seams were laid out and the rules of the workshop asked."""

    @property
    def is_sound(self) -> bool:
        return not any(one.severity == Severity.ERROR.value for one in self.found)


def asked_of(sizes: Sequence[SizeRow | None], sweeps: Sequence[Sweep], fixed: Settings) -> Iterator[Asked]:
    """Each size with each value of each sweep, the last sweep fastest; `fixed` holds in all."""
    for row in sizes:
        for values in product(*(range(len(sweep.values)) for sweep in sweeps)):
            swept = {sweep.name: sweep.shown[at] for sweep, at in zip(sweeps, values, strict=True)}
            moved = {sweep.name: (sweep.values[at],) for sweep, at in zip(sweeps, values, strict=True)}
            settings = {**(row.settings if row else {}), **fixed, **moved}
            yield Asked(row.title if row else None, swept, settings)


def sized_row(draft: Draft, asked: Asked) -> SizedRow:
    """One size with all its rules."""
    sized = draft.size(asked.title, asked.settings)
    if sized.placed is None:
        return SizedRow(asked, dict(sized.drawn.measures), found=told_of(sized.messages))
    placed, pattern = sized.placed, draft.pattern
    verdict = judge(pattern, [(asked.title, placed)])
    entry = Entry(placed, pattern)
    needs = entry.needs
    thread = [plain_number(amount) for thing, amount in needs.items() if thing.kind == "thread"]
    return SizedRow(
        asked,
        dict(placed.measures),
        {part.piece: (part.width, part.height) for part in entry.parts},
        {seam.lines[0]: seam.stitches for seam in entry.seams},
        {thing.name: plain_number(amount) for thing, amount in needs.items() if thing.kind == "stock"},
        sum(thread) if thread else None,
        (*told_of(sized.messages), *told_of(verdict.messages)),
    )


def told_of(messages: Iterable[Message]) -> tuple[Found, ...]:
    """What is wrong, and what is only worth a warning; notes are for the check of one pattern."""
    return tuple(
        Found(message.code, message.severity.value, message.says)
        for message in messages
        if message.severity is not Severity.NOTE
    )
