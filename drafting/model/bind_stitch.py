"""Stitch lines: how their stitches are asked for, and where they take their holes from.

Takes the clauses of a `stitch`. A line is laid out by one spacing, or takes its holes from another line: folded over
(`mirror of`), or pricked through (`same holes as`); then it says nothing more of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal, TypeVar

from drafting.model.bind_expression import bind_kind
from drafting.model.expressions import Bound
from drafting.model.pattern import (
    BoundMarks,
    FitPart,
    HeldHole,
    HolesForm,
    JoinedLine,
    JoinPart,
    MeasurePart,
    MirrorForm,
    Spacing,
    SpacingWord,
    StitchesRef,
    StitchPart,
)
from drafting.model.references import (
    Binding,
    expect_line,
    expect_point,
    expect_stitches,
    expect_stretch,
    say_unknown_name,
)
from drafting.model.scope import PieceText
from drafting.records import dataclass
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.quantities import LENGTH, NUMBER
from drafting.text.source import Span

SPACING_WORDS: dict[str, SpacingWord] = {
    "apart": "apart",
    "stitches": "stitches",
    "per inch": "per inch",
    "iron": "iron",
}
OWN = (
    tree.MirrorOf,
    tree.Every,
    tree.LikeLine,
    tree.HoleAt,
    tree.Corners,
    tree.BackStitch,
    tree.PitchMeasured,
    tree.StitchMarks,
)
"""Clauses that say something of stitches, and nothing of where the line runs but `mirror of` and `same holes as`."""
OneClause = TypeVar("OneClause", bound=tree.Clause)


@dataclass(frozen=True)
class Stitched:
    """What a `stitch` says of its holes; `form` is given where its line is another's."""

    part: StitchPart
    form: MirrorForm | HolesForm | None


def is_unfit(clause: tree.AnyClause, kind: str) -> bool:
    """Whether `corners` speaks of another kind of work: they are `flowing` in a stitch line and nowhere else."""
    return isinstance(clause, tree.Corners) and (clause.how == "flowing") != (kind == "stitch")


def takes_holes(clause: tree.AnyClause) -> bool:
    """Whether a clause says that the holes are another line's."""
    pricked = isinstance(clause, tree.LikeLine) and clause.how == "same holes as"
    return pricked or isinstance(clause, tree.MirrorOf)


def line_clauses(clauses: Sequence[tree.AnyClause]) -> tuple[tree.AnyClause, ...]:
    """The clauses that say where the line runs, and where it lies."""
    return tuple(clause for clause in clauses if not isinstance(clause, OWN))


def bind_stitch(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause], piece: PieceText, at: Span
) -> Stitched | None:
    """The stitches of one line, or None where a fault is told."""
    source = _source(binding, name, clauses)
    if source is not None:
        return _taken(binding, name, clauses, source, piece)
    part = _laid_out(binding, name, clauses, piece, at)
    return Stitched(part, None) if part else None


# Holes taken from another line


def _source(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause]
) -> tree.MirrorOf | tree.LikeLine | None:
    sources = [clause for clause in clauses if takes_holes(clause)]
    _refuse_second(binding, sources, name, "where its holes come from")
    first = sources[0] if sources else None
    return first if isinstance(first, tree.MirrorOf | tree.LikeLine) else None


def _taken(
    binding: Binding,
    name: str,
    clauses: Sequence[tree.AnyClause],
    source: tree.MirrorOf | tree.LikeLine,
    piece: PieceText,
) -> Stitched | None:
    for clause in clauses:
        if clause is not source and not isinstance(clause, tree.Once | tree.StitchMarks):
            said, whence = _one_line(clause), _one_line(source)
            binding.messages.add(says.HOLES_TAKEN, at=clause.span, name=name, clause=said, source=whence)
    form = _form(binding, source, piece)
    marks, is_sound = _marks(binding, name, clauses, piece)
    if form is None or not is_sound:
        return None
    part = StitchPart(None, (), None, False, False, (), marks, source.span)
    return Stitched(part, form)


def _form(
    binding: Binding, source: tree.MirrorOf | tree.LikeLine, piece: PieceText
) -> MirrorForm | HolesForm | None:
    if isinstance(source, tree.LikeLine):
        line = expect_stitches(binding, source.line, piece, piece)
        return HolesForm(line, source.span) if line else None
    line = expect_stitches(binding, source.of, piece, piece)
    over: object
    if isinstance(source.over, tree.Stretch):
        over = expect_stretch(binding, source.over, piece, piece)
    else:
        over = expect_line(binding, source.over, piece, piece)
    return MirrorForm(line, over, source.span) if line and over else None


# Holes laid out


def _laid_out(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause], piece: PieceText, at: Span
) -> StitchPart | None:
    faults = len(binding.messages.found) + len(binding.quiet)
    spacing = _spacing(binding, name, clauses, piece, at)
    held = tuple(_held(binding, clauses, piece))
    start = _start(binding, name, clauses, piece)
    corners = _only(binding, clauses, tree.Corners, name, "what happens at its corners")
    measured = _only(binding, clauses, tree.PitchMeasured, name, "how its pitch is measured")
    back = _back(binding, name, clauses, piece)
    marks, _ = _marks(binding, name, clauses, piece)
    if spacing is None or len(binding.messages.found) + len(binding.quiet) > faults:
        return None
    across = measured is not None and measured.how == "across"
    back_span = next((clause.span for clause in clauses if isinstance(clause, tree.BackStitch)), at)
    return StitchPart(spacing, held, start, corners is not None, across, back, marks, back_span)


def _spacing(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause], piece: PieceText, at: Span
) -> Spacing | None:
    found = [clause for clause in clauses if _is_spacing(clause)]
    _refuse_second(binding, found, name, "how its stitches are spaced")
    if not found:
        what, example = "how its stitches are spaced", "every 3.85 mm"
        binding.messages.add(says.LACKS, at=at, kind="stitch", name=name, what=what, example=example)
        return None
    match found[0]:
        case tree.Every(amount=amount) as clause:
            length = bind_kind(binding, amount, piece, LENGTH, clause)
            return Spacing("every", length, None, clause.span) if length is not None else None
        case tree.Property(amount=amount, word=word) as clause:
            kind = LENGTH if word == "apart" else NUMBER
            bound = bind_kind(binding, amount, piece, kind, clause)
            how = SPACING_WORDS[word]
            return Spacing(how, bound, None, clause.span) if bound is not None else None
        case tree.LikeLine(line=line) as clause:
            other = expect_stitches(binding, line, piece)
            return Spacing("as many as", None, StitchesRef(other), clause.span) if other else None
    return None


def _is_spacing(clause: tree.AnyClause) -> bool:
    if isinstance(clause, tree.LikeLine):
        return clause.how == "as many as"
    if isinstance(clause, tree.Property):
        return clause.word in SPACING_WORDS
    return isinstance(clause, tree.Every)


def _held(binding: Binding, clauses: Sequence[tree.AnyClause], piece: PieceText) -> Iterator[HeldHole]:
    for clause in clauses:
        for ref in clause.points if isinstance(clause, tree.HoleAt) else ():
            point = expect_point(binding, ref, piece, piece)
            if point:
                yield HeldHole(point, ref.span)


def _start(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause], piece: PieceText
) -> HeldHole | None:
    found = [clause for clause in clauses if isinstance(clause, tree.LikeLine) and clause.how == "start at"]
    _refuse_second(binding, found, name, "where it starts")
    point = expect_point(binding, found[0].line, piece, piece) if found else None
    return HeldHole(point, found[0].span) if point else None


def _back(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause], piece: PieceText
) -> tuple[tuple[Literal["start", "end"], Bound], ...]:
    """How many stitches are sewn twice; without `at` as many at both ends."""
    found: list[tuple[Literal["start", "end"], Bound]] = []
    said: dict[str, tree.BackStitch] = {}
    for clause in (clause for clause in clauses if isinstance(clause, tree.BackStitch)):
        ends: tuple[Literal["start", "end"], ...] = (clause.at,) if clause.at else ("start", "end")
        earlier = next((said[end] for end in ends if end in said), None)
        if earlier:
            _refuse_second(binding, [earlier, clause], name, "how many stitches go back")
        said.update(dict.fromkeys(ends, clause))
        amount = bind_kind(binding, clause.amount, piece, NUMBER, clause)
        if amount is not None:
            found.extend((end, amount) for end in ends)
    return tuple(found)


def _marks(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause], piece: PieceText
) -> tuple[BoundMarks | None, bool]:
    """The marks asked for, and whether nothing was wrong with them."""
    clause = _only(binding, clauses, tree.StitchMarks, name, "what marks it leaves")
    if clause is None:
        return None, True
    size = bind_kind(binding, clause.size, piece, LENGTH, clause) if clause.size is not None else None
    return BoundMarks(clause.how, size, clause.span), clause.size is None or size is not None


def _only(
    binding: Binding, clauses: Sequence[tree.AnyClause], kind: type[OneClause], name: str, what: str
) -> OneClause | None:
    found = [clause for clause in clauses if isinstance(clause, kind)]
    _refuse_second(binding, found, name, what)
    return found[0] if found else None


def _refuse_second(binding: Binding, found: Sequence[tree.AnyClause], name: str, what: str) -> None:
    if len(found) > 1:
        first, second = (_one_line(clause) for clause in found[:2])
        at = found[1].span
        binding.messages.add(says.SAID_TWICE, at=at, name=name, what=what, first=first, second=second)


def _one_line(clause: tree.AnyClause) -> str:
    return " ".join(clause.span.text.split())


# Seams


def bind_joins(binding: Binding, items: Sequence[tree.Item]) -> Iterator[JoinPart]:
    for item in items:
        join = _bind_join(binding, item) if isinstance(item, tree.Join) else None
        if join:
            yield join


def _bind_join(binding: Binding, item: tree.Join) -> JoinPart | None:
    lines = [(expect_stitches(binding, ref, None), ref) for ref in item.lines]
    within = bind_kind(binding, item.within, None, LENGTH, item) if item.within is not None else None
    joined = tuple(JoinedLine(line, ref.span) for line, ref in lines if line)
    if len(joined) < len(lines) or (item.within is not None and within is None):
        return None
    for index, one in enumerate(joined):
        if any(one.line == other.line for other in joined[:index]):
            binding.messages.add(says.JOINED_TWICE, at=one.span, line=one.text)
            return None
    return JoinPart(joined, item.reversed, within, item.span, item.note)


# Fits


def bind_fits(
    binding: Binding, items: Sequence[tree.Item], measures: Mapping[str, MeasurePart]
) -> Iterator[FitPart]:
    seen: set[str] = set()
    for item in items:
        if isinstance(item, tree.Fit):
            measure = _fitted_measure(binding, item.name, measures, seen)
            lines = tuple(line for ref in item.lines for line in [_fitted_line(binding, ref)] if line)
            within = bind_kind(binding, item.within, None, LENGTH, item) if item.within is not None else None
            is_sound = len(lines) == len(item.lines) and (item.within is None or within is not None)
            if measure and is_sound:
                yield FitPart(measure.name, lines, within, item.span, item.note)


def _fitted_measure(
    binding: Binding, name: tree.Name, measures: Mapping[str, MeasurePart], seen: set[str]
) -> MeasurePart | None:
    """A measure of the pattern with a range, which nothing else fits."""
    symbol = binding.scope.names.get(name.text)
    measure = measures.get(name.text)
    if symbol is None or (symbol.kind != "measure" and not symbol.is_unread):
        say_unknown_name(binding, name.span, name.text, None, "measure")
        return None
    if measure is None:
        return None
    if measure.low is None or len(measure.values) > 1 or measure.kind != LENGTH:
        binding.messages.add(says.NO_RANGE, at=name.span, name=name.text)
        return None
    if name.text in seen:
        binding.messages.add(says.FITTED_TWICE, at=name.span, name=name.text)
        return None
    seen.add(name.text)
    return measure


def _fitted_line(binding: Binding, ref: tree.Ref) -> JoinedLine | None:
    """A stitch line that asks for a pitch; one that counts its stitches holds whole ones at any length."""
    line = expect_stitches(binding, ref, None)
    if line is None:
        return None
    statement = binding.pieces[line.piece].table[line.name].statement
    clauses = statement.clauses if isinstance(statement, tree.Feature) else ()
    if not any(_asks_pitch(clause) for clause in clauses):
        binding.messages.add(says.NO_PITCH_TO_FIT, at=ref.span, line=ref.text)
        return None
    return JoinedLine(line, ref.span)


def _asks_pitch(clause: tree.AnyClause) -> bool:
    if isinstance(clause, tree.Property):
        return clause.word in ("apart", "per inch", "iron")
    return isinstance(clause, tree.Every)
