"""Rows of holes along a line: how many, how far apart, and how large.

Takes the clauses of a `row` that lies along a line; gives what they say of its holes. A number of holes stands evenly
from end to end, `apart` is exact, `every` takes the whole number of gaps that comes nearest.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.model.bind_expression import bind_kind
from drafting.model.expressions import Bound
from drafting.model.pattern import PointRef
from drafting.model.references import Binding, expect_point
from drafting.model.scope import PieceText
from drafting.records import dataclass
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.quantities import LENGTH, NUMBER, Kind
from drafting.text.source import Span


@dataclass(frozen=True)
class RowHoles:
    holes: Bound | None
    apart: Bound | None
    every: Bound | None
    across: Bound
    start: PointRef | None


def bind_row_along(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause], piece: PieceText, at: Span
) -> RowHoles | None:
    """What is said of the holes, or None where a fault is told."""
    told = len(binding.messages.found) + len(binding.quiet)
    holes = _amount(binding, clauses, "holes", NUMBER, piece, name)
    apart = _amount(binding, clauses, "apart", LENGTH, piece, name)
    every = _every(binding, clauses, piece, name)
    across = _across(binding, clauses, piece, name, at)
    start = _start(binding, clauses, piece, name)
    _expect_one_spacing(binding, clauses, name, at)
    if across is None or len(binding.messages.found) + len(binding.quiet) > told:
        return None
    return RowHoles(holes, apart, every, across, start)


def _expect_one_spacing(binding: Binding, clauses: Sequence[tree.AnyClause], name: str, at: Span) -> None:
    """`every` finds out how many holes there are, so nothing else says it."""
    counts = [
        clause
        for clause in clauses
        if isinstance(clause, tree.Property) and clause.word in ("holes", "apart")
    ]
    whole = [clause for clause in clauses if isinstance(clause, tree.Every)]
    if whole and counts:
        _say_twice(binding, name, "how its holes are spaced", whole[0], counts[0])
    elif not whole and not counts:
        what, example = "how its holes are spaced", "5 holes"
        binding.messages.add(says.LACKS, at=at, kind="row", name=name, what=what, example=example)


def _amount(
    binding: Binding, clauses: Sequence[tree.AnyClause], word: str, kind: Kind, piece: PieceText, name: str
) -> Bound | None:
    found = [clause for clause in clauses if isinstance(clause, tree.Property) and clause.word == word]
    if len(found) > 1:
        _say_twice(binding, name, f"`{word}`", found[0], found[1])
    return bind_kind(binding, found[0].amount, piece, kind, found[0]) if found else None


def _every(binding: Binding, clauses: Sequence[tree.AnyClause], piece: PieceText, name: str) -> Bound | None:
    found = [clause for clause in clauses if isinstance(clause, tree.Every)]
    if len(found) > 1:
        _say_twice(binding, name, "`every`", found[0], found[1])
    return bind_kind(binding, found[0].amount, piece, LENGTH, found[0]) if found else None


def _across(
    binding: Binding, clauses: Sequence[tree.AnyClause], piece: PieceText, name: str, at: Span
) -> Bound | None:
    found = [clause for clause in clauses if isinstance(clause, tree.RoundShape)]
    what = "how large its holes are"
    if len(found) > 1:
        _say_twice(binding, name, what, found[0], found[1])
    if not found:
        binding.messages.add(says.LACKS, at=at, kind="row", name=name, what=what, example="2.5 mm across")
        return None
    return bind_kind(binding, found[0].across, piece, LENGTH, found[0])


def _start(
    binding: Binding, clauses: Sequence[tree.AnyClause], piece: PieceText, name: str
) -> PointRef | None:
    said = [clause for clause in clauses if isinstance(clause, tree.LikeLine)]
    for clause in said:
        if clause.how != "start at":
            takes = "a line, `across`, and `holes`, `apart` or `every`"
            said_so = " ".join(clause.span.text.split())
            binding.messages.add(says.NOT_FOR_KIND, at=clause.span, kind="A row", clause=said_so, takes=takes)
            return None
    if len(said) > 1:
        _say_twice(binding, name, "where it starts", said[0], said[1])
    return expect_point(binding, said[0].line, piece, piece) if said else None


def _say_twice(binding: Binding, name: str, what: str, first: tree.Clause, second: tree.Clause) -> None:
    one, other = (" ".join(clause.span.text.split()) for clause in (first, second))
    binding.messages.add(says.SAID_TWICE, at=second.span, name=name, what=what, first=one, second=other)
