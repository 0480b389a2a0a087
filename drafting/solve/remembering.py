"""What was made for the size before, taken again where all that it was made from is the same.

In a sweep most pieces often stay as they are. What is made tells by its reads what it hangs on: each key it asked for
with the value it got. Nothing is taken again that was told of in a message.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, TypeVar

from drafting.geometry.point import Point
from drafting.records import dataclass, field
from drafting.text.messages import Messages

Made = TypeVar("Made")


def is_same_value(one: object, other: object) -> bool:
    """Whether nothing made from one could differ from what is made from the other; so -0.0 is not 0.0."""
    if one is other:
        return True
    if type(one) is float and type(other) is float:
        return one == other and (one != 0.0 or str(one) == str(other))
    if type(one) is Point and type(other) is Point:
        return is_same_value(one.x, other.x) and is_same_value(one.y, other.y)
    return False


def are_same(ones: Sequence[object], others: Sequence[object]) -> bool:
    return all(map(is_same_value, ones, others))


class Reads(Mapping[str, Any]):
    """Values that keep in mind which of them were asked for, those that are not there among them."""

    def __init__(self, values: Mapping[str, Any]) -> None:
        self.values_by_key = values
        self.asked: dict[str, None] = {}

    def __getitem__(self, key: str) -> Any:
        self.asked[key] = None
        return self.values_by_key[key]

    def __contains__(self, key: object) -> bool:
        self.asked[str(key)] = None
        return key in self.values_by_key

    def __iter__(self) -> Iterator[str]:
        self.asked.update(dict.fromkeys(self.values_by_key))
        return iter(self.values_by_key)

    def __len__(self) -> int:
        return len(self.values_by_key)


@dataclass(frozen=True)
class _Kept:
    keys: tuple[str, ...]
    values: tuple[Any, ...]
    made: Any


@dataclass
class Memory:
    """By what it is of, the last that was made, for one plan."""

    kept: dict[object, _Kept] = field(default_factory=dict)

    def made(
        self,
        of: object,
        values: Mapping[str, Any],
        messages: Messages,
        make: Callable[[Mapping[str, Any]], Made],
    ) -> Made:
        """What `make` makes of the values, or made of the same ones. After an error all is made afresh, for then what
        lacks is not told again."""
        if messages.has_errors:
            return make(values)
        kept = self.kept.get(of)
        if kept is not None and are_same([values.get(key) for key in kept.keys], kept.values):
            known: Made = kept.made
            return known
        reads, told = Reads(values), list(messages)
        made = make(reads)
        if list(messages) == told:
            keys = tuple(reads.asked)
            self.kept[of] = _Kept(keys, tuple(values.get(key) for key in keys), made)
        return made
