"""What a pattern text uses of the language, and all that there is to use.

Both are taken from the classes of the tree, so a new form of the language is asked for as soon as it has a class: each
class, each word of each `Literal`, each optional part there and not there, each kind of node where several may stand,
and each form that a kind of feature takes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from drafting.model.bind_expression import FUNCTIONS, OTHER_FUNCTIONS, PROPERTY_KINDS
from drafting.model.bind_shape import RULES
from drafting.model.references import LINE_PARTS, RING_PARTS
from drafting.model.scope import BAND_CORNERS, BOX_CORNERS
from drafting.syntax import tree

NOT_WRITTEN = {tree.Node, tree.Clause, tree.Statement, tree.Unread}
"""Classes that stand for no words of their own."""
IMPOSSIBLE = {
    "PointsStatement.clauses one",
    "Leg.bows several",
    "Fillet.corners none",
    "Clip.corners none",
    "Join.lines one",
    "OffsetShape.way Walk of other",
}
"""What the classes could hold and no right text ever gives."""
UNITS = ("mm", "cm", "in", "oz", "deg")
SPELLINGS = {"a fraction": r"\d+/\d+", "a whole and a fraction": r"\d+ \d+/\d+", "a decimal": r"\d+\.\d+"}
POINT_PARTS = (*LINE_PARTS, *RING_PARTS, *BOX_CORNERS, *BAND_CORNERS)
STOCK_PARTS = ("thick", "neutral")


def node_classes() -> list[type[tree.Node]]:
    """Every class of the tree that words stand for."""
    classes = [value for value in vars(tree).values() if isinstance(value, type) and is_dataclass(value)]
    return [kind for kind in classes if issubclass(kind, tree.Node) and kind not in NOT_WRITTEN]


def all_uses() -> set[str]:
    """The whole list to be used."""
    uses = {use for kind in node_classes() for use in _uses_of_class(kind)}
    uses |= {f"{kind} as {form.__name__}" for kind, rule in RULES.items() for form in rule.forms}
    uses |= {f"{kind} with {word}" for kind, rule in RULES.items() for word in rule.words}
    uses |= {f"the function {name}" for name in (*FUNCTIONS, *OTHER_FUNCTIONS)}
    uses |= {f"the property .{name}" for name in (*PROPERTY_KINDS, *STOCK_PARTS)}
    uses |= {f"the point .{name}" for name in POINT_PARTS}
    uses |= {f"an amount in {unit}" for unit in UNITS} | {f"an amount as {name}" for name in SPELLINGS}
    uses |= {
        "a note",
        "a twin",
        "one of a list",
        "braces in a size",
        "a remark of its own",
        "a remark behind",
    }
    return uses - IMPOSSIBLE


def _uses_of_class(kind: type[tree.Node]) -> Iterator[str]:
    name = kind.__name__
    yield name
    hints = get_type_hints(kind, vars(tree))
    for field in fields(kind):
        if field.name not in ("span", "note"):
            yield from (f"{name}.{field.name} {use}" for use in _uses_of_type(hints[field.name]))


def _uses_of_type(hint: Any) -> Iterator[str]:
    origin, arguments = get_origin(hint), get_args(hint)
    if origin is Literal:
        yield from arguments
    elif hint is bool:
        yield from ("yes", "no")
    elif origin is tuple and arguments[0] is not str:
        yield from ("one", "several")
    elif origin in (Union, UnionType):
        yield from _uses_of_union(arguments)


def _uses_of_union(arguments: tuple[Any, ...]) -> Iterator[str]:
    """Which node stands there, or whether one does; amounts are told apart by their own classes."""
    if NoneType in arguments:
        yield "left out"
    some = [argument for argument in arguments if argument is not NoneType]
    literals = [argument for argument in some if get_origin(argument) is Literal]
    if literals:
        yield from (word for literal in literals for word in get_args(literal))
    elif set(get_args(tree.Expression)) <= set(some) or len(some) == 1:
        yield "said"
    else:
        yield from (argument.__name__ for argument in some if isinstance(argument, type))


# What one file uses


def uses_of(file: tree.File) -> set[str]:
    """All that a parsed text uses, in the words of `all_uses`."""
    uses: set[str] = set()
    for node in nodes_of(file):
        uses |= set(_uses_of_node(node))
        uses |= set(_uses_of_text(node))
    uses |= {"a remark of its own" if remark.own_line else "a remark behind" for remark in file.remarks}
    return uses


def nodes_of(value: object) -> Iterator[tree.Node]:
    """A node and all below it."""
    if isinstance(value, tuple):
        for entry in value:
            yield from nodes_of(entry)
    elif isinstance(value, tree.Node | tree.File):
        if isinstance(value, tree.Node):
            yield value
        for field in fields(value):
            if field.name not in ("span", "source", "unread"):
                yield from nodes_of(getattr(value, field.name))


def _uses_of_node(node: tree.Node) -> Iterator[str]:
    name = type(node).__name__
    yield name
    hints = get_type_hints(type(node), vars(tree))
    for field in fields(node):
        if field.name not in ("span", "note"):
            use = _use_of_value(hints[field.name], getattr(node, field.name))
            if use:
                yield f"{name}.{field.name} {use}"


def _use_of_value(hint: Any, value: object) -> str | None:
    possible = set(_uses_of_type(hint))
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return {0: None, 1: "one"}.get(len(value), "several")
    if value is None:
        return "left out"
    if isinstance(value, str) and value in possible:
        return value
    return type(value).__name__ if type(value).__name__ in possible else "said"


def _uses_of_text(node: tree.Node) -> Iterator[str]:
    """What shows only in the words: kinds of features, functions, properties, units, twins."""
    if getattr(node, "note", None):
        yield "a note"
    match node:
        case tree.Feature(kind=kind, clauses=clauses):
            yield from _uses_of_clauses(kind, clauses)
        case tree.Guide(clauses=clauses):
            yield from _uses_of_clauses("guide", clauses)
        case tree.Outline(clauses=clauses):
            yield from _uses_of_clauses("outline", clauses)
        case tree.Call(function=function):
            yield f"the function {function.text}"
        case tree.Ref(parts=parts):
            yield from _uses_of_ref(parts)
        case tree.Amount(written=written):
            yield from _uses_of_amount(written)
        case tree.Size(title=title) if "{" in title:
            yield "braces in a size"


def _uses_of_clauses(kind: str, clauses: tuple[tree.AnyClause, ...]) -> Iterator[str]:
    for clause in clauses:
        yield f"{kind} as {type(clause).__name__}"
        if isinstance(clause, tree.Property):
            yield f"{kind} with {clause.word}"
        elif isinstance(clause, tree.EndDetail):
            yield f"{kind} with {clause.how}"


def _uses_of_ref(parts: tuple[str, ...]) -> Iterator[str]:
    if any(part.endswith("'") for part in parts):
        yield "a twin"
    if any(part.isdigit() for part in parts):
        yield "one of a list"
    if len(parts) > 1:
        yield from (f"the point .{parts[-1]}", f"the property .{parts[-1]}")


def _uses_of_amount(written: str) -> Iterator[str]:
    number, _, unit = written.rpartition(" ")
    if unit in UNITS:
        yield f"an amount in {unit}"
    for name, spelling in SPELLINGS.items():
        if re.fullmatch(spelling, number if unit in UNITS else written):
            yield f"an amount as {name}"
