"""Statements -> their parts: a head, and the clauses behind it that may each have a line of their own.

Takes a statement of the tree and gives a Written. Which parts share a line is decided in `tidy`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from drafting.records import dataclass
from drafting.syntax import tree, write

HEADING = re.compile(r"^[ \t]*(edition|licence|author|note|show)\b", re.MULTILINE)


@dataclass(frozen=True)
class Chunk:
    """A part of a statement that may stand on a line of its own. A leg goes on with the clause before it."""

    text: str
    start: int
    note: str | None = None
    is_leg: bool = False


@dataclass(frozen=True)
class Written:
    """A statement in parts, with the place it stood at: characters, and lines from 1."""

    head: str
    start: int
    end: int
    line: int
    end_line: int
    note: str | None = None
    chunks: tuple[Chunk, ...] = ()
    has_note_last: bool = False
    """The note stands behind all chunks, never behind the head."""
    is_block: bool = False
    """Every chunk has a line of its own, even where one line would do."""


def written_header(header: tree.Header) -> Written:
    lines: list[tuple[str, str]] = []
    if header.edition is not None:
        lines.append(("edition", write.quoted(header.edition)))
    if header.licence is not None:
        lines.append(("licence", write.quoted(header.licence)))
    if header.author is not None:
        lines.append(("author", write.quoted(header.author)))
    lines += [("note", write.quoted(note)) for note in header.notes]
    if header.show:
        lines.append(("show", " and ".join(header.show)))
    places = {word: list(starts) for word, starts in _heading_starts(header).items()}
    chunks = [
        Chunk(f"{word} {text}", places[word].pop(0) if places.get(word) else header.span.start)
        for word, text in lines
    ]
    return _written(f"pattern {write.quoted(header.title)}", header, header.note, chunks, is_block=True)


def _heading_starts(header: tree.Header) -> dict[str, list[int]]:
    """Where each line below `pattern` begins; the tree keeps only what it says."""
    starts: dict[str, list[int]] = {}
    for match in HEADING.finditer(header.span.source.text, header.span.start, header.span.end):
        starts.setdefault(match[1], []).append(match.start(1))
    return starts


def written_head(item: tree.Piece | tree.Block) -> Written:
    """The first line of a piece or block, and what is said about the whole of it."""
    first_part = item.parts[0].span.start if item.parts else item.span.end
    ends = [node.span for node in (item.name, *_parameters(item), *item.about)]
    own = [span for span in ends if span.start <= first_part]
    last = max(own, key=lambda span: span.end)
    head, is_block = f"piece {item.name.text}:", any(about.note is not None for about in item.about)
    if isinstance(item, tree.Block):
        parameters = ", ".join(write.parameter(each) for each in item.parameters)
        head, is_block = f"block {item.name.text}({parameters})", True
    elif not item.about:
        head = head.rstrip(":")
    chunks = tuple(Chunk(write.about(about), about.span.start, about.note) for about in item.about)
    return Written(
        head, item.span.start, last.end, item.span.line, last.end_line, item.note, chunks, is_block=is_block
    )


def _parameters(item: tree.Piece | tree.Block) -> tuple[tree.Parameter, ...]:
    return item.parameters if isinstance(item, tree.Block) else ()


def written_statement(node: tree.Item | tree.Part) -> Written:
    """Any statement but a header, a piece or a block."""
    match node:
        case tree.Outline(clauses=clauses):
            return _written("outline:", node, node.note, _clauses(clauses))
        case tree.PointStatement(name=name, clauses=clauses):
            return _written(f"point {name.text}:", node, node.note, _clauses(clauses))
        case tree.PointsStatement(name=name, clauses=clauses):
            return _written(f"points {name.text}:", node, node.note, _clauses(clauses))
        case tree.Guide(name=name, clauses=clauses):
            return _written(f"guide {name.text}:", node, node.note, _clauses(clauses))
        case tree.Feature(kind=kind, name=name, clauses=clauses):
            return _written(f"{kind} {name.text}:", node, node.note, _clauses(clauses))
        case tree.Size(title=title, settings=settings):
            chunks = [Chunk(write.setting(each), each.span.start) for each in settings]
            chunks = chunks or [Chunk("as written", node.span.start)]
            return _written(f"size {write.quoted(title)}:", node, node.note, chunks, has_note_last=True)
        case tree.Stock(name=name, material=material, amounts=amounts):
            chunks = [Chunk(write.stock_amount(each), each.span.start) for each in amounts]
            chunks.insert(0, Chunk(material, node.name.span.end))
            return _written(f"stock {name.text}:", node, node.note, chunks, has_note_last=True)
        case tree.Hardware(name=name, need=need, fittings=fittings):
            chunks = [Chunk(write.fitting(each), each.span.start) for each in fittings]
            chunks.insert(0, Chunk(f"need {write.expression(need)}", need.span.start))
            return _written(f"hardware {name.text}:", node, node.note, chunks, has_note_last=True)
        case tree.Content(name=name, size=size, clauses=said):
            chunks = [Chunk(write.content_clause(each), each.span.start) for each in said]
            chunks.insert(0, Chunk(write.content_size(size), size.span.start))
            return _written(f"content {name.text}:", node, node.note, chunks, has_note_last=True)
        case _:
            return _written(_sentence(node), node, node.note)


def _written(
    head: str,
    node: tree.Statement,
    note: str | None,
    chunks: Iterable[Chunk] = (),
    *,
    has_note_last: bool = False,
    is_block: bool = False,
) -> Written:
    span, parts = node.span, tuple(chunks)
    is_block = is_block or any(chunk.note is not None for chunk in parts)
    return Written(head, span.start, span.end, span.line, span.end_line, note, parts, has_note_last, is_block)


def _clauses(clauses: Sequence[tree.AnyClause]) -> Iterator[Chunk]:
    """Clauses, a path leg by leg; the note of a path stands behind its last leg."""
    for clause in clauses:
        if not isinstance(clause, tree.PathShape) or len(clause.legs) < 2:
            yield Chunk(write.clause(clause), clause.span.start, clause.note)
            continue
        first, *others = clause.legs
        yield Chunk(f"{clause.start.text} {write.leg(first)}", clause.span.start)
        for leg in others:
            note = clause.note if leg is others[-1] else None
            yield Chunk(write.leg(leg), leg.span.start, note, is_leg=True)


def _sentence(node: tree.Item | tree.Part) -> str:
    """A statement that has no clauses."""
    match node:
        case tree.Measure(name=name, values=values, low=low, high=high):
            text = f"measure {name.text} = {write.expressions(values)}"
            return text if low is None or high is None else f"{text} {_between(low, high)}"
        case tree.Thread(name=name, thick=thick):
            return f"thread {name.text}: {write.expression(thick)} thick"
        case tree.Punch(name=name, across=across):
            return f"punch {name.text}: {write.expression(across)} across"
        case tree.Use(path=path, as_name=as_name):
            return f"use {write.quoted(path)}" + (f" as {as_name.text}" if as_name else "")
        case tree.Run(name=name, way=way):
            return f"run {name.text}: {write.place(way)}"
        case tree.Find(name=name, low=low, high=high):
            return f"find {name.text} {_between(low, high)}"
        case tree.Hold(fact=fact):
            return f"hold {write.fact(fact)}"
        case tree.Fillet(corners=corners, by=by):
            return f"fillet {write.refs(corners)} by {write.expression(by)}"
        case tree.Clip(corners=corners, by=by, after=after):
            second = f" and {write.expression(after)}" if after else ""
            return f"clip {write.refs(corners)} by {write.expression(by)}{second}"
        case tree.Dim(line=line, how=how):
            return f"dim {write.stretch(line)}" + (f" {how}" if how else "")
        case tree.CutAway(side=side, naming=naming):
            names = f" naming {write.names(naming)}" if naming else ""
            return f"cut away {write.clause(side)}{names}"
        case tree.Check(left=left, operator=operator, right=right, within=within):
            return f"check {write.expression(left)} {operator} {write.expression(right)}{_within(within)}"
        case tree.Allow(rule=rule, reason=reason):
            return f"allow {rule.text} {write.quoted(reason)}"
        case tree.Pass(strap=strap, through=through):
            return f"pass {strap.text} through {write.refs(through)}"
        case tree.Join(lines=lines, reversed=is_reversed, within=within):
            joined = " with ".join(line.text for line in lines)
            return f"join {joined}{' reversed' if is_reversed else ''}{_within(within)}"
        case tree.Fit(name=name, lines=lines, within=within):
            return f"fit {name.text} so {write.refs(lines)} stitch whole{_within(within)}"
        case tree.Step(text=text, uses=uses):
            return f"step {write.quoted(text)}" + (f"  uses {write.refs(uses)}" if uses else "")
        case _:
            raise TypeError(f"no statement: {node!r}")


def _between(low: tree.Expression, high: tree.Expression) -> str:
    return f"between {write.expression(low)} and {write.expression(high)}"


def _within(amount: tree.Expression | None) -> str:
    return f" within {write.expression(amount)}" if amount else ""
