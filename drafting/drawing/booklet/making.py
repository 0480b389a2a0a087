"""Placed pattern -> Booklet: which sections there are, and what stands in each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.craft.lists.order import Entry, Order
from drafting.drawing.amounts import Figures
from drafting.drawing.assembly import DRAFT_WORDS
from drafting.drawing.booklet.contents import Booklet, Part, Section, Step, Words
from drafting.drawing.booklet.pictures import all_pieces, pieces_of_step
from drafting.drawing.booklet.sewing import sewing_parts
from drafting.drawing.caution_words import caution_texts
from drafting.drawing.dressing import amount_words, direction_words
from drafting.drawing.item_words import content_words, sentence
from drafting.drawing.lists.order_tables import order_tables
from drafting.drawing.lists.table import Table
from drafting.model.pattern import CheckPart, MeasurePart, Pattern
from drafting.records import dataclass, replace
from drafting.solve.amounts import shown
from drafting.solve.placed import Placed, PlacedPiece
from drafting.text.quantities import LENGTH

PICTURE_PART = 0.5
"""How much of a page's room the picture of all pieces may take at most, in its height."""
STEP_PART = 0.26
"""The same for the picture of a step."""


@dataclass(frozen=True)
class BookletFacts:
    """What a booklet says beside the pattern: which text it was made from, what was allowed, the room of a page."""

    fingerprint: str
    allowed: tuple[str, ...]
    wide: float
    high: float
    draft: bool = False


def make_booklet(placed: Placed, pattern: Pattern, facts: BookletFacts) -> Booklet:
    """The sections that have something in them."""
    entry = Entry(placed, pattern)
    figures = Figures.shown_by(placed.show)
    sections = (
        Section("The pieces", tuple(_pieces(placed, facts))),
        Section("Measures", tuple(_measures(pattern, placed, figures))),
        Section("What to cut", tuple(_cutting(placed, figures))),
        Section("What to have at hand", tuple(_needs(entry, figures))),
        Section("The work, step by step", tuple(_steps(placed, facts))),
        Section("Sewing", tuple(sewing_parts(placed, entry, figures))),
        Section("Checked", tuple(_checks(pattern, facts))),
        Section("With care", (Words(caution_texts(placed), is_list=True),)),
        Section("This pattern", tuple(_colophon(placed, facts))),
    )
    return Booklet(
        placed.title or placed.stem,
        tuple(_facts(placed, facts)),
        ", ".join([placed.title or placed.stem, *_facts(placed, facts)]),
        tuple(section for section in sections if any(map(_says_something, section.parts))),
    )


def _says_something(part: Part) -> bool:
    return (
        bool(part.lines) if isinstance(part, Words) else bool(part.rows) if isinstance(part, Table) else True
    )


def _facts(placed: Placed, facts: BookletFacts) -> Iterator[str]:
    if facts.draft:
        yield DRAFT_WORDS
    if placed.size:
        yield f"size {placed.size}"
    if placed.edition:
        yield f"edition {placed.edition}"
    yield f"text {facts.fingerprint}"


def _pieces(placed: Placed, facts: BookletFacts) -> Iterator[Part]:
    picture = all_pieces(placed, facts.wide, facts.high * PICTURE_PART)
    if picture:
        yield picture
    if placed.notes:
        yield Words(placed.notes)


# Numbers


def _measures(pattern: Pattern, placed: Placed, figures: Figures) -> Iterator[Part]:
    rows = [row for part in pattern.measures.values() for row in _measure(part, placed, figures)]
    yield Table.of("", "measure | >amount | what it is", rows).filled
    others = [row.title for row in pattern.sizes if row.title != placed.size]
    if others:
        yield Words((f"This is the booklet of size {placed.size}. There are also {', '.join(others)}.",))


def _measure(part: MeasurePart, placed: Placed, figures: Figures) -> Iterator[tuple[str, str, str]]:
    for number, key in enumerate(part.keys, start=1):
        if key in placed.measures:
            name = part.name if len(part.keys) == 1 else f"{part.name}.{number}"
            value = placed.measures[key]
            amount = figures.told("{}", value) if part.kind == LENGTH else shown(value, part.kind)
            yield name, amount, (part.note or "") if number == 1 else ""


def _cutting(placed: Placed, figures: Figures) -> Iterator[Part]:
    rows = [_cut(piece, figures) for piece in placed.pieces.values()]
    yield Table.of("", "piece | from | >cut | >size | grain | note", rows).filled
    if any(piece.pair for piece in placed.pieces.values()):
        yield Words(("Of a pair cut one with the pattern turned over.",))


def _cut(piece: PlacedPiece, figures: Figures) -> tuple[str, ...]:
    box = piece.cutting.bounds
    grain = piece.grain
    lies = direction_words(grain) if isinstance(grain, float | int) else "any way" if grain == "any" else ""
    size = figures.told("{} × {}", box.width, box.height)
    return piece.name, piece.stock or "", amount_words(piece), size, lies, piece.note or ""


def _needs(entry: Entry, figures: Figures) -> Iterator[Part]:
    """Stock, straps, hardware, thread and glue; the parts and seams have sections of their own."""
    tables = order_tables(Order((entry,)))
    own = 1 + bool(entry.seams)
    yield from (replace(table, remarks=()) for table in tables[own:])
    contents = tuple(content_words(one, figures) for one in entry.placed.item.contents)
    if contents:
        yield Words(tuple(f"It holds {words}." for words in contents))


# The work


def _steps(placed: Placed, facts: BookletFacts) -> Iterator[Part]:
    for number, step in enumerate(placed.item.steps, start=1):
        used = {name.partition(".")[0].rstrip("'") for name in step.uses}
        picture = pieces_of_step(placed, facts.wide, facts.high * STEP_PART, used)
        yield Step(number, sentence(step.text), ", ".join(_spoken(step.uses)), step.note, picture)


def _spoken(names: Sequence[str]) -> Iterator[str]:
    yield from (name.replace("_", " ") for name in names)


def _checks(pattern: Pattern, facts: BookletFacts) -> Iterator[Part]:
    """What the pattern asks of itself, and what of the workshop's rules it need not keep."""
    if facts.draft:
        yield Words(("This is a draft: it was not checked, and may lack pieces.",))
        return
    checks = tuple(_check(check) for check in pattern.checks)
    if checks:
        yield Words(("The pattern asks this of itself, and it holds:",))
        yield Words(checks, is_list=True)
    if facts.allowed:
        yield Words(("The rules of the workshop hold but for what the maker allows:",))
        yield Words(facts.allowed, is_list=True)
    else:
        yield Words(("The rules of the workshop hold.",))


def _check(check: CheckPart) -> str:
    text = " ".join(check.span.text.split()).removeprefix("check ")
    return f"{text} ({check.note})" if check.note and f'"{check.note}"' not in text else text


def _colophon(placed: Placed, facts: BookletFacts) -> Iterator[Part]:
    yield Words(
        (
            f"Author: {placed.author}." if placed.author else "The pattern names no author.",
            f"Licence: {placed.licence}."
            if placed.licence
            else "The pattern states no licence: ask before you pass it on.",
            f"Edition {placed.edition}." if placed.edition else "The pattern states no edition.",
            f"Made from the text {facts.fingerprint} of {placed.stem}.draft: the same letters stand on its sheets.",
        )
    )
