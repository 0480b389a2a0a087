"""Clauses that place: turned into facts, choices and a direction.

Takes the clauses of a point or a feature; gives a Placing. Each fact keeps the span of its clause, so that every
message about a loose or contradictory drawing can point at the words that say so.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from drafting.model.bind_expression import bind, bind_kind, compare_kinds
from drafting.model.expressions import AngleAt, Bound, Constant, Distance, Operation
from drafting.model.pattern import (
    BoundDirection,
    BoundStretch,
    BoundWay,
    Choice,
    Fact,
    LineRef,
    Placing,
    PointRef,
)
from drafting.model.references import Binding, expect_line, expect_point, expect_stretch, find
from drafting.model.scope import PieceText
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.quantities import ANGLE, LENGTH, NUMBER
from drafting.text.source import Span

ZERO = Constant(Fraction(0))
NOWHERE = Placing((), (), None)


def bind_placing(binding: Binding, clauses: Iterable[tree.AnyClause], piece: PieceText, name: str) -> Placing:
    """All placing clauses of one thing, in the order written. Other clauses are passed over."""
    facts: list[Fact] = []
    choices: list[Choice] = []
    direction: BoundDirection | None = None
    lying: tree.Lying | None = None
    for clause in clauses:
        match clause:
            case tree.Lying():
                if lying is not None:
                    binding.messages.add(
                        says.SAID_TWICE,
                        at=clause.span,
                        name=name,
                        what="how it lies",
                        first=lying.span.text,
                        second=clause.span.text,
                    )
                lying = clause
                direction = bind_direction(binding, clause.direction, piece, clause)
            case tree.Side():
                choice = bind_choice(binding, clause, piece)
                choices.extend([choice] if choice else [])
            case _ if isinstance(clause, tree.Place):
                facts.extend(bind_facts(binding, clause, piece))
    return Placing(tuple(facts), tuple(choices), direction)


def bind_direction(
    binding: Binding, direction: tree.Direction, piece: PieceText, clause: tree.Node | None = None
) -> BoundDirection | None:
    """A direction as said in a clause, which a message about a bare number quotes."""
    of = direction.of
    if isinstance(of, tree.Stretch) and direction.how in ("along", "square to"):
        stretch = expect_stretch(binding, of, piece, piece)
        return BoundDirection(direction.how, stretch, None, direction.span) if stretch else None
    if of is not None:
        angle = bind_kind(binding, of, piece, ANGLE, clause or direction)
        return BoundDirection("angle", None, angle, direction.span) if angle else None
    return BoundDirection(direction.how, None, None, direction.span)


def bind_choice(binding: Binding, clause: tree.Side, piece: PieceText, beside: bool = False) -> Choice | None:
    """A choice speaks of a point, of a line `A..B`, or of a ring; one of the two sides of a line (`beside`) may also
    be told by that line itself."""
    if isinstance(clause.of, tree.Stretch):
        stretch = expect_stretch(binding, clause.of, piece, piece)
        return Choice(clause.how, (stretch.start, stretch.end), clause.span) if stretch else None
    if clause.how in ("inside", "outside") or (beside and _is_line(binding, clause.of, piece)):
        line = expect_line(binding, clause.of, piece, piece)
        return Choice(clause.how, (line,), clause.span) if line else None
    point = expect_point(binding, clause.of, piece, piece)
    return Choice(clause.how, (point,), clause.span) if point else None


LINES_OF_THEIR_OWN = ("run", "guide", "crease", "outline", "stitch", "fold", "slit")


def _is_line(binding: Binding, ref: tree.Ref, piece: PieceText) -> bool:
    """Whether a name of this piece stands for a line, asked without a message."""
    symbol = binding.local(piece, ref.parts[0].rstrip("'"), ref.span)
    return len(ref.parts) == 1 and symbol is not None and symbol.kind in LINES_OF_THEIR_OWN


def bind_facts(binding: Binding, clause: tree.Place, piece: PieceText) -> list[Fact]:
    """The facts of one placing clause; a clause of two facts may give two, or one that counts twice."""
    bound = _facts_of(binding, clause, piece)
    return bound or []


def _length(binding: Binding, node: tree.Expression, piece: PieceText, clause: tree.Node) -> Bound | None:
    return bind_kind(binding, node, piece, LENGTH, clause)


def _facts_of(binding: Binding, clause: tree.Place, piece: PieceText) -> list[Fact] | None:
    span = clause.span
    match clause:
        case tree.OffsetFrom(distance=distance, direction=direction, origin=origin):
            amount = _length(binding, distance, piece, clause)
            point = expect_point(binding, origin, piece, piece)
            return _offset_fact(direction, point, amount, span) if point and amount else None
        case tree.Aligned(how=how, to=to):
            point = expect_point(binding, to, piece, piece)
            axis = "offset y" if how == "level" else "offset x"
            return [Fact(axis, (point, ZERO), 1, span)] if point else None
        case tree.DistanceFrom():
            return _distance_fact(binding, clause, piece)
        case tree.On():
            return _on_fact(binding, clause, piece)
        case tree.SquareOff(line=line, at=at):
            stretch = expect_stretch(binding, line, piece, piece)
            point = expect_point(binding, at, piece, piece)
            if stretch and point:
                return [Fact("square off", (stretch.start, stretch.end, point), 1, span)]
            return None
        case tree.AtCoordinates():
            return _coordinate_facts(binding, clause, piece)
        case tree.AtPoint(point=ref):
            point = expect_point(binding, ref, piece, piece)
            return [Fact("at", (point,), 2, span)] if point else None
        case tree.Ray(angle=angle, origin=origin):
            turned = bind_kind(binding, angle, piece, ANGLE, clause)
            point = expect_point(binding, origin, piece, piece)
            return [Fact("ray", (point, turned), 1, span, ANGLE)] if point and turned else None
        case tree.Midway(what=what):
            return _midway_fact(binding, what, piece, span)
        case tree.Along():
            return _along_fact(binding, clause, piece)
        case tree.MirrorOf():
            return _mirror_fact(binding, clause, piece)
        case tree.Touching(line=touched, origin=origin):
            curve = expect_line(binding, touched, piece, piece)
            point = expect_point(binding, origin, piece, piece)
            return [Fact("touching", (curve, point), 2, span)] if curve and point else None
        case tree.Lying():
            return None


def _offset_fact(direction: str, point: PointRef, amount: Bound, span: Span) -> list[Fact]:
    axis = "offset x" if direction in ("right of", "left of") else "offset y"
    signed = amount if direction in ("right of", "above") else Operation("-", ZERO, amount)
    return [Fact(axis, (point, signed), 1, span)]


def _distance_fact(binding: Binding, clause: tree.DistanceFrom, piece: PieceText) -> list[Fact] | None:
    amount = _length(binding, clause.distance, piece, clause)
    if isinstance(clause.of, tree.Stretch):
        stretch = expect_stretch(binding, clause.of, piece, piece)
        if stretch and amount:
            return [Fact("line distance", (stretch.start, stretch.end, amount), 1, clause.span)]
        return None
    point = expect_point(binding, clause.of, piece, piece)
    return [Fact("distance", (point, amount), 1, clause.span)] if point and amount else None


def _on_fact(binding: Binding, clause: tree.On, piece: PieceText) -> list[Fact] | None:
    if isinstance(clause.what, tree.Stretch):
        stretch = expect_stretch(binding, clause.what, piece, piece)
        kind = "on line" if clause.extended else "on stretch"
        return [Fact(kind, (stretch.start, stretch.end), 1, clause.span)] if stretch else None
    line = expect_line(binding, clause.what, piece, piece)
    return [Fact("on path", (line,), 1, clause.span)] if line else None


def _coordinate_facts(binding: Binding, clause: tree.AtCoordinates, piece: PieceText) -> list[Fact] | None:
    x = _length(binding, clause.x, piece, clause)
    y = _length(binding, clause.y, piece, clause)
    origin = expect_point(binding, clause.origin, piece, piece) if clause.origin else None
    if x is None or y is None or (clause.origin and origin is None):
        return None
    if origin is None:
        return [Fact("coordinate x", (x,), 1, clause.span), Fact("coordinate y", (y,), 1, clause.span)]
    return [Fact("offset x", (origin, x), 1, clause.span), Fact("offset y", (origin, y), 1, clause.span)]


def _midway_fact(
    binding: Binding, what: tree.Ref | tree.Stretch, piece: PieceText, span: Span
) -> list[Fact] | None:
    half = Constant(Fraction(1, 2))
    if isinstance(what, tree.Stretch):
        stretch = expect_stretch(binding, what, piece, piece)
        return [Fact("between", (stretch.start, stretch.end, half), 2, span)] if stretch else None
    line = expect_line(binding, what, piece, piece)
    if line is None:
        return None
    return [Fact("along way", (whole_line(line, span), half), 2, span)]


def whole_line(line: LineRef, span: Span) -> BoundWay:
    return BoundWay(line, None, None, (), None, span)


def _along_fact(binding: Binding, clause: tree.Along, piece: PieceText) -> list[Fact] | None:
    typed = bind(binding, clause.amount, piece)
    if typed is None:
        return None
    is_length = typed.kind == LENGTH
    if not is_length and typed.kind != NUMBER:
        binding.messages.add(
            says.WRONG_KIND,
            at=clause.amount.span,
            text=clause.amount.span.text,
            kind=typed.kind.name,
            wanted="a length or a part",
            example="1/3 along a..b",
        )
        return None
    if isinstance(clause.what, tree.Stretch):
        stretch = expect_stretch(binding, clause.what, piece, piece)
        if stretch is None:
            return None
        kind = "along" if is_length else "between"
        if not clause.extended:
            kind += " within"
        return [Fact(kind, (stretch.start, stretch.end, typed.bound), 2, clause.span)]
    way = bind_way(binding, clause.what, piece)
    kind = "length along way" if is_length else "along way"
    return [Fact(kind, (way, typed.bound), 2, clause.span)] if way else None


def _mirror_fact(binding: Binding, clause: tree.MirrorOf, piece: PieceText) -> list[Fact] | None:
    point = expect_point(binding, clause.of, piece, piece)
    if isinstance(clause.over, tree.Stretch):
        stretch = expect_stretch(binding, clause.over, piece, piece)
        if point and stretch:
            return [Fact("mirror", (point, stretch.start, stretch.end), 2, clause.span)]
        return None
    line = expect_line(binding, clause.over, piece, piece)
    return [Fact("mirror over line", (point, line), 2, clause.span)] if point and line else None


def bind_way(binding: Binding, way: tree.Way, piece: PieceText, length_only: bool = False) -> BoundWay | None:
    """A whole line, or a walk. A walk's ends may not be rounded corners without saying which of their points."""
    shared = None if length_only else piece
    if isinstance(way, tree.Ref):
        line = expect_line(binding, way, piece, shared)
        return whole_line(line, way.span) if line else None
    ring = _ring_of(binding, way, piece, shared)
    start = _walk_end(binding, way.start, piece, shared)
    end = _walk_end(binding, way.end, piece, shared)
    passed = [expect_point(binding, ref, piece, shared) for ref in way.round]
    if ring is None or start is None or end is None or any(point is None for point in passed):
        return None
    return BoundWay(None, ring, start, tuple(point for point in passed if point), end, way.span)


def _ring_of(binding: Binding, way: tree.Walk, piece: PieceText, shared: PieceText | None) -> LineRef | None:
    """The ring a walk goes on: as said, or the outline of the piece whose points it names."""
    if way.of is not None:
        return expect_line(binding, way.of, piece, shared)
    owner = piece
    if len(way.start.parts) > 1 and not binding.local(piece, way.start.parts[0].rstrip("'"), way.span):
        owner = binding.piece_named(way.start.parts[0], way.span) or piece
    if owner.outline is None:
        binding.quiet.append(way.span)
        return None
    return LineRef(owner.name, "outline")


def _walk_end(binding: Binding, ref: tree.Ref, piece: PieceText, shared: PieceText | None) -> PointRef | None:
    found = find(binding, ref, piece, "point")
    if found is None:
        return None
    rounding = found.piece.rounding(found.symbol.name)
    if rounding and not found.rest:
        done, word = ("rounded", "rounding") if isinstance(rounding, tree.Fillet) else ("clipped", "clip")
        binding.messages.add(says.ROUNDED_END, at=ref.span, name=ref.text, done=done, rounding=word)
        return None
    return expect_point(binding, ref, piece, shared)


# Facts that stand by themselves


def bind_hold(binding: Binding, hold: tree.Hold, piece: PieceText) -> Fact | None:
    fact = hold.fact
    match fact:
        case tree.Equal(left=left, right=right):
            sides = compare_kinds(binding, fact, left, right, piece)
            return replace(_equal_fact(*sides[:2], fact.span), amount=sides[2]) if sides else None
        case tree.Relation(first=first, how=how, second=second):
            one = expect_stretch(binding, first, piece, piece)
            other = expect_stretch(binding, second, piece, piece)
            kind = "parallel" if how == "parallel" else "square"
            if one and other:
                return Fact(kind, (one.start, one.end, other.start, other.end), 1, fact.span)
            return None
        case tree.Straight(line=line, how=how):
            stretch = expect_stretch(binding, line, piece, piece)
            axis = "offset y" if how == "level" else "offset x"
            return Fact(axis, (stretch.end, stretch.start, ZERO), 1, fact.span) if stretch else None
        case tree.Touches(line=line, curve=curve):
            stretch = expect_stretch(binding, line, piece, piece)
            ring = expect_line(binding, curve, piece, piece)
            if stretch and ring:
                return Fact("touches", (stretch.start, stretch.end, ring), 1, fact.span)
            return None


def point_of_key(key: str) -> PointRef:
    """The reference that has `key`."""
    piece, _, text = key.partition("/")
    head, _, part = text.partition(".")
    return PointRef(piece, head.rstrip("'"), head.endswith("'"), part or None)


def _equal_fact(left: Bound, right: Bound, span: Span) -> Fact:
    """The plainest fact that an equality amounts to."""
    match left, right:
        case Distance(a, b), Distance(c, d):
            return Fact("equal lengths", tuple(point_of_key(key) for key in (a, b, c, d)), 1, span)
        case (Distance(a, b), amount) | (amount, Distance(a, b)):
            return Fact("distance", (point_of_key(a), point_of_key(b), amount), 1, span)
        case (AngleAt(a, v, b), amount) | (amount, AngleAt(a, v, b)):
            return Fact("angle", (point_of_key(a), point_of_key(v), point_of_key(b), amount), 1, span)
    return Fact("equation", (left, right), 1, span)


def bind_side(binding: Binding, side: tree.Side, piece: PieceText) -> PointRef | BoundStretch | None:
    """What a cut runs along: the level or plumb line through a point, or a line through two."""
    if isinstance(side.of, tree.Stretch):
        return expect_stretch(binding, side.of, piece, piece)
    return expect_point(binding, side.of, piece, piece)
