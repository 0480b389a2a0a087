"""What is left of a pattern when some of it is faulty, so that one run tells every independent fault.

A piece with a fault inside is left out, and with it every piece and check that speaks of it: what they lack would only
be said again. A fault of the pattern's own measures leaves nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import TypeVar

from drafting.model.expressions import AngleAt, Applied, Bound, Constant, Distance, Operation, Value, keys_of
from drafting.model.pattern import (
    ContentPart,
    HardwarePart,
    LineRef,
    Measured,
    Pattern,
    PieceRef,
    PointRef,
    PunchPart,
    StockPart,
    ThreadPart,
)
from drafting.model.references import Binding
from drafting.model.scope import PieceText
from drafting.syntax import tree
from drafting.text.messages import Messages, Severity
from drafting.text.source import Span

Item = TypeVar("Item", StockPart, ThreadPart, PunchPart, HardwarePart, ContentPart)
BOUND = (Constant, Value, Operation, Applied, Distance, AngleAt)

APART = (
    "pattern",
    "size",
    "stock",
    "thread",
    "punch",
    "hardware",
    "content",
    "use",
    "join",
    "check",
    "fit",
    "step",
)
"""Statements outside the pieces from which no place and no length comes."""
WITH_AMOUNTS = (tree.Stock, tree.Thread, tree.Punch, tree.Hardware, tree.Content)
"""Statements outside the pieces of which an amount may be read."""


def sound_part(pattern: Pattern, binding: Binding, messages: Messages) -> Pattern:
    """The pattern without its faulty pieces and all that leans on them."""
    faulty = _faulty_pieces(pattern, binding, messages)
    if faulty is None:
        return _with_sound_measures(replace(pattern, pieces={}, checks=(), joins=(), fits=(), measured={}))
    while True:
        more = {
            name
            for name, piece in pattern.pieces.items()
            if name not in faulty and faulty & set(_pieces_in(piece, pattern))
        }
        if not more:
            break
        faulty |= more
    measured = {key: each for key, each in pattern.measured.items() if not faulty & _pieces_of(each)}
    return _with_sound_measures(
        replace(
            pattern,
            pieces={name: piece for name, piece in pattern.pieces.items() if name not in faulty},
            checks=tuple(check for check in pattern.checks if not faulty & set(_pieces_in(check, pattern))),
            fits=tuple(fit for fit in pattern.fits if not faulty & set(_pieces_in(fit, pattern))),
            joins=tuple(join for join in pattern.joins if not faulty & set(_pieces_in(join, pattern))),
            measured=measured,
        )
    )


def _with_sound_measures(pattern: Pattern) -> Pattern:
    """Without the measures, thicknesses and sizes that are made from what is not there."""
    while True:
        there = {key for part in pattern.measures.values() for key in part.keys}
        there |= {key for part in pattern.brought_measures.values() for key in part.keys}
        there |= {f"{name}.neutral" for name in pattern.stocks} | {key for key, _ in pattern.item_amounts}
        sound = replace(
            pattern,
            measures={key: part for key, part in pattern.measures.items() if _is_there(part, pattern, there)},
            stocks=_with_sound_amounts(pattern.stocks, pattern, there),
            threads=_with_sound_amounts(pattern.threads, pattern, there),
            punches=_with_sound_amounts(pattern.punches, pattern, there),
            hardware=_with_sound_amounts(pattern.hardware, pattern, there),
            contents=_with_sound_amounts(pattern.contents, pattern, there),
        )
        if len(sound.measures) == len(pattern.measures) and _n_amounts(sound) == _n_amounts(pattern):
            break
        pattern = sound
    measures = pattern.measures
    sizes = tuple(
        row
        for row in pattern.sizes
        if set(row.settings) <= set(measures)
        and all(_is_there(each, pattern, there) for each in row.settings.values())
    )
    return replace(pattern, sizes=sizes)


def _with_sound_amounts(parts: Mapping[str, Item], pattern: Pattern, there: set[str]) -> dict[str, Item]:
    """The parts less those of their amounts that are made from what is not there."""
    return {
        name: replace(
            part,
            amounts={word: bound for word, bound in part.amounts.items() if _is_there(bound, pattern, there)},
        )
        for name, part in parts.items()
    }


def _n_amounts(pattern: Pattern) -> int:
    return sum(1 for _ in pattern.item_amounts)


def _is_there(thing: object, pattern: Pattern, there: set[str]) -> bool:
    """Whether all that a thing reads is there: measures, stocks, numbers read off pieces, and their points."""
    return all(
        key in there or key in pattern.measured or key.split("/")[0] in pattern.pieces
        for key in _keys_in(thing)
    )


def _faulty_pieces(pattern: Pattern, binding: Binding, messages: Messages) -> set[str] | None:
    """The pieces that a fault lies in, or that lean on one, or None when one lies outside every piece."""
    faulty = set(_written(pattern)) - set(pattern.pieces) | binding.faulty_pieces
    places = [message.at for message in messages if message.severity is Severity.ERROR]
    for at in (*places, *binding.quiet):
        if at and _is_in_block(binding, at):
            faulty |= {name for name, text in binding.pieces.items() if _is_made_from(text, at)}
            continue
        owner = next((name for name, span in _written(pattern).items() if at and span.covers(at)), None)
        if owner is not None:
            faulty.add(owner)
        elif not (_is_apart(pattern, at) or _is_apart_in_used(binding, at)):
            return None
    while True:
        derived = {
            name
            for name, text in binding.pieces.items()
            if name not in faulty and _base(text.statement) in faulty
        }
        if not derived:
            return faulty
        faulty |= derived


def _is_in_block(binding: Binding, at: Span) -> bool:
    return binding.home(at).is_in_block(at)


def _is_made_from(text: PieceText, at: Span) -> bool:
    """Whether a piece is made from the block that a place lies in."""
    return any(layer.block.span.covers(at) for layer in text.layers)


def _is_apart(pattern: Pattern, at: Span | None) -> bool:
    """Whether a fault outside the pieces lies where no piece is made from it: in a size, a check, a stock of which
    nothing is read."""
    file = pattern.tree
    read = _items_read(pattern)
    items = [
        item.span
        for item in file.items
        if not isinstance(item, tree.Measure)
        and not (isinstance(item, WITH_AMOUNTS) and item.name.text in read)
    ]
    unread = [slip.span for slip in file.unread if slip.kind in APART]
    return at is not None and any(span.covers(at) for span in (*items, *unread))


def _is_apart_in_used(binding: Binding, at: Span | None) -> bool:
    """Whether a fault lies in another file, in what is not brought from there: a piece, a size, a check."""
    if at is None or binding.home(at) is binding.scope:
        return False
    items = binding.home(at).file.items
    return not any(item.span.covers(at) for item in items if isinstance(item, (tree.Measure, *WITH_AMOUNTS)))


def _items_read(pattern: Pattern) -> set[str]:
    """The stocks, hardware and the like of which an amount goes into something."""
    things = (pattern.measures.values(), pattern.item_parts, pattern.pieces.values(), pattern.checks)
    keys = (key for thing in things for each in thing for key in _keys_in(each))
    return {key.rpartition(".")[0] for key in keys if "/" not in key}


def _keys_in(thing: object) -> Iterator[str]:
    """Every key that the amounts of a bound thing read."""
    if isinstance(thing, BOUND):
        yield from keys_of(thing)
    elif isinstance(thing, tuple | Mapping):
        for item in thing.values() if isinstance(thing, Mapping) else thing:
            yield from _keys_in(item)
    elif is_dataclass(thing):
        for each in fields(thing):
            if each.name != "span":
                yield from _keys_in(getattr(thing, each.name))


def _written(pattern: Pattern) -> dict[str, Span]:
    return {item.name.text: item.span for item in pattern.tree.items if isinstance(item, tree.Piece)}


def _base(statement: tree.Piece | tree.Block) -> str | None:
    return next(
        (about.piece.text for about in statement.about if isinstance(about, tree.Like | tree.Over)), None
    )


def _pieces_of(reading: Measured) -> set[str]:
    return {ref.piece for ref in reading.of}


def _pieces_in(thing: object, pattern: Pattern) -> Iterator[str]:
    """Every piece that a bound thing speaks of, directly or by a number read off it."""
    if isinstance(thing, PointRef | LineRef | PieceRef):
        yield thing.piece
    elif isinstance(thing, BOUND):
        yield from _pieces_in_expression(thing, pattern)
    elif isinstance(thing, tuple):
        for item in thing:
            yield from _pieces_in(item, pattern)
    elif is_dataclass(thing):
        for each in fields(thing):
            if each.name != "span":
                yield from _pieces_in(getattr(thing, each.name), pattern)


def _pieces_in_expression(expression: Bound, pattern: Pattern) -> Iterator[str]:
    for key in keys_of(expression):
        reading = pattern.measured.get(key)
        if reading:
            yield from _pieces_of(reading)
        elif "/" in key:
            yield key.split("/")[0]
        elif key in pattern.measures:
            for bound in pattern.measures[key].values:
                yield from _pieces_in_expression(bound, pattern)
