"""What is to be solved: measures, points, facts and choices, by key and without any pattern text.

A System is filled in any order: a fact may speak of a point that is declared after it. `drafting.solve.plan` makes
the plan of a finished System. Lengths are mm, angles degrees. `tag` is whatever the caller wants to find again in a
finding: a clause of a text, a name, a number.

>>> system = System()
>>> system.point("foot")
>>> system.fact("coordinate x", "foot", 0)
>>> system.fact("coordinate y", "foot", 0)
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from fractions import Fraction
from typing import Any

from drafting.model.expressions import Bound, Constant, Value
from drafting.records import dataclass, field
from drafting.solve.kinds import CHOICES, KINDS, Kind

Tag = Hashable
Number = float | Fraction
Operand = str | Bound | Number


@dataclass(frozen=True)
class Known:
    """A measure. Its number may be another one at each evaluation."""

    key: str
    nominal: Number


@dataclass(frozen=True)
class Unknown:
    """A number to be found between two others."""

    key: str
    low: Bound
    high: Bound
    tag: Tag


@dataclass(frozen=True)
class UnknownPoint:
    """A point whose two coordinates `key.x` and `key.y` the facts must give."""

    key: str
    tag: Tag


@dataclass(frozen=True)
class Formula:
    """A number computed from others."""

    key: str
    expression: Bound
    tag: Tag


@dataclass(frozen=True)
class Computed:
    """Anything computed from the values of other nodes by a function: a point, a path, a length."""

    key: str
    inputs: tuple[str, ...]
    function: Callable[..., Any]
    tag: Tag


Node = Known | Unknown | UnknownPoint | Formula | Computed


@dataclass(frozen=True)
class Fact:
    kind: Kind
    points: tuple[str, ...]
    scalars: tuple[Bound, ...]
    objects: tuple[str, ...]
    tag: Tag


@dataclass(frozen=True)
class Choice:
    """Picks one of several places of `point`. `operands` are points, or for `inside` and `outside` a ring."""

    kind: str
    point: str
    operands: tuple[str, ...]
    tag: Tag


@dataclass
class System:
    nodes: dict[str, Node] = field(default_factory=dict)
    facts: list[Fact] = field(default_factory=list)
    choices: list[Choice] = field(default_factory=list)

    def known(self, key: str, nominal: Number) -> None:
        self._add(Known(key, nominal))

    def unknown(self, key: str, low: Bound | Number, high: Bound | Number, tag: Tag = None) -> None:
        self._add(Unknown(key, _bound(low), _bound(high), tag))

    def point(self, key: str, tag: Tag = None) -> None:
        self._add(UnknownPoint(key, tag))

    def formula(self, key: str, expression: Bound | Number, tag: Tag = None) -> None:
        self._add(Formula(key, _bound(expression), tag))

    def computed(
        self, key: str, inputs: Sequence[str], function: Callable[..., Any], tag: Tag = None
    ) -> None:
        """A node that `function` gives from the values of `inputs`, in their order.

        Where it raises an exception the node has failed; what depends on it is absent without further words.
        """
        self._add(Computed(key, tuple(inputs), function, tag))

    def fact(self, kind: str, *operands: Operand, tag: Tag = None) -> None:
        """One fact (a few kinds are two); the kinds and their operands are in `drafting.solve.kinds`."""
        known_kind = KINDS[kind]
        if len(operands) != len(known_kind.roles):
            raise ValueError(f"{kind} takes {len(known_kind.roles)} operands, not {len(operands)}")
        roles = known_kind.roles
        points = tuple(_key(item) for role, item in zip(roles, operands, strict=True) if role == "P")
        scalars = tuple(_bound(item) for role, item in zip(roles, operands, strict=True) if role == "s")
        objects = tuple(_key(item) for role, item in zip(roles, operands, strict=True) if role == "o")
        self.facts.append(Fact(known_kind, points, scalars, objects, tag))

    def choice(self, kind: str, point: str, *operands: str, tag: Tag = None) -> None:
        if kind not in CHOICES:
            raise ValueError(f"no choice {kind}")
        self.choices.append(Choice(kind, point, operands, tag))

    def _add(self, node: Node) -> None:
        if node.key in self.nodes:
            raise ValueError(f"{node.key} is declared twice")
        self.nodes[node.key] = node


def _key(operand: Operand) -> str:
    if not isinstance(operand, str):
        raise TypeError(f"a key is wanted, not {operand!r}")
    return operand


def _bound(operand: Operand) -> Bound:
    if isinstance(operand, str):
        return Value(operand)
    if isinstance(operand, (int, float, Fraction)):
        return Constant(Fraction(operand))
    return operand
