"""What is done along a line or in a strip: folds, slits, turned edges, skiving and glue.

Takes the clauses of a feature that say more than where it lies; gives its Work. The line itself is bound with all
others, in bind_shape.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from drafting.model.bind_expression import bind_kind
from drafting.model.expressions import Bound
from drafting.model.pattern import FoldWork, SlitWork, StripWork, TurnWork, Work
from drafting.model.references import Binding
from drafting.model.scope import PieceText
from drafting.model.thickness import expect_thick, neutral_of, thickness_of
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.quantities import ANGLE, LENGTH

WORKED = ("fold", "slit", "turn", "skive", "glue")
"""Kinds of feature that have a Work."""
OneClause = TypeVar("OneClause", bound=tree.Clause)


def bind_work(
    binding: Binding,
    kind: str,
    name: str,
    statement: tree.Outline | tree.Guide | tree.Feature,
    piece: PieceText,
) -> Work | None:
    """The work of one feature; None for kinds that have none, and where a fault is told."""
    if not isinstance(statement, tree.Feature) or kind not in WORKED:
        return None
    make = {"fold": _fold, "slit": _slit, "turn": _turn, "skive": _skive, "glue": _glue}[kind]
    return make(binding, name, statement, piece)


def _fold(binding: Binding, name: str, statement: tree.Feature, piece: PieceText) -> FoldWork | None:
    bent = _only(binding, statement.clauses, tree.Bent, name, "how far it is bent")
    if bent is None:
        _say_lacks(binding, name, statement, "how far it is bent", "bent 180 deg round 3 mm")
        return None
    turn = bind_kind(binding, bent.angle, piece, ANGLE, bent)
    inside = bind_kind(binding, bent.round, piece, LENGTH, bent)
    if turn is None or inside is None:
        return None
    return FoldWork(turn, inside, thickness_of(binding, piece), neutral_of(binding, piece), bent.span)


def _slit(binding: Binding, name: str, statement: tree.Feature, piece: PieceText) -> SlitWork | None:
    details = {how: _detail(binding, how, name, statement, piece) for how in ("end holes", "corner holes")}
    rounded = next((each for each in statement.clauses if _is_rounded(each)), None)
    corners = details["corner holes"]
    if rounded is not None and corners is not None:
        said, holes = (_one_line(clause) for clause in (rounded, corners[0]))
        binding.messages.add(
            says.ROUNDED_AND_PUNCHED, at=corners[0].span, name=name, rounded=said, holes=holes
        )
        return None
    if any(detail is not None and detail[1] is None for detail in details.values()):
        return None
    ends = details["end holes"]
    return SlitWork(ends[1] if ends else None, corners[1] if corners else None, statement.span)


def _turn(binding: Binding, name: str, statement: tree.Feature, piece: PieceText) -> TurnWork | None:
    corners = _only(binding, statement.clauses, tree.Corners, name, "how its corners are made")
    for clause in statement.clauses:
        if isinstance(clause, tree.OffsetShape) and clause.side != "outside":
            wide, way = (" ".join(node.span.text.split()) for node in (clause.distance, clause.way))
            said = _one_line(clause)
            binding.messages.add(says.TURNED_INSIDE, at=clause.span, name=name, said=said, wide=wide, way=way)
            return None
    thick, neutral = thickness_of(binding, piece), neutral_of(binding, piece)
    if not expect_thick(binding, piece, name, statement.name.span) or thick is None or neutral is None:
        return None
    how = corners.how if corners and corners.how != "flowing" else None
    return TurnWork(how, thick, neutral, statement.span)


def _skive(binding: Binding, name: str, statement: tree.Feature, piece: PieceText) -> StripWork | None:
    detail = _detail(binding, "down to", name, statement, piece)
    if detail is None:
        _say_lacks(binding, name, statement, "how thin it is skived", "down to 0.6 mm")
        return None
    clause, down_to = detail
    return StripWork(down_to, thickness_of(binding, piece), clause.span) if down_to is not None else None


def _glue(binding: Binding, name: str, statement: tree.Feature, piece: PieceText) -> StripWork:
    return StripWork(None, None, statement.span)


def _is_rounded(clause: tree.AnyClause) -> bool:
    return isinstance(clause, tree.Property) and clause.word == "rounded"


def _detail(
    binding: Binding, how: str, name: str, statement: tree.Feature, piece: PieceText
) -> tuple[tree.EndDetail, Bound | None] | None:
    """`end holes`, `corner holes` or `down to` as it is said, and its amount if that is sound."""
    said = [
        clause for clause in statement.clauses if isinstance(clause, tree.EndDetail) and clause.how == how
    ]
    detail = _only(binding, said, tree.EndDetail, name, f"`{how}`")
    return (detail, bind_kind(binding, detail.amount, piece, LENGTH, detail)) if detail else None


def _say_lacks(binding: Binding, name: str, statement: tree.Feature, what: str, example: str) -> None:
    at = statement.name.span
    binding.messages.add(says.LACKS, at=at, kind=statement.kind, name=name, what=what, example=example)


def _only(
    binding: Binding, clauses: Sequence[tree.AnyClause], kind: type[OneClause], name: str, what: str
) -> OneClause | None:
    found = [clause for clause in clauses if isinstance(clause, kind)]
    if len(found) > 1:
        first, second = (_one_line(clause) for clause in found[:2])
        at = found[1].span
        binding.messages.add(says.SAID_TWICE, at=at, name=name, what=what, first=first, second=second)
    return found[0] if found else None


def _one_line(clause: tree.AnyClause) -> str:
    return " ".join(clause.span.text.split())
