"""The functions of `math` that geometry uses, for one number and for an amount that varies from size to size alike.

A number goes straight to `math`. A Varied cannot be made one number, says so, and is worked out on its arrays (see
`drafting.geometry.varied`, which is imported only where something varies).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import partial, reduce, wraps
from math import inf, nan, pi
from typing import Any, Generic, ParamSpec, TypeVar, overload

Given = ParamSpec("Given")
Found = TypeVar("Found")


class NotTogether(BaseException):
    """Something cannot be worked out for several sizes at once: each is to be worked out alone.

    Like Parted it is no fault of a pattern, so nothing that looks out for faults may catch it.
    """


class NotOneNumber(NotTogether):
    """A number was asked for where there is one for each size."""


class Parted(BaseException):
    """Not all sizes go the same way: `ones` is an array that is true for those that go one way together, and `ways`
    tells in numbers which way each goes."""

    def __init__(self, ones: Any, ways: Any = None) -> None:
        super().__init__(ones)
        self.ones = ones
        self.ways = ones if ways is None else ways


def _of_one(function: Callable[[float], Found]) -> Callable[[float], Found]:
    @wraps(function)
    def of(value: Any) -> Found:
        try:
            return function(value)
        except NotOneNumber:
            found: Found = value.applied(function.__name__)
            return found

    return of


def _of_two(function: Callable[[float, float], float]) -> Callable[[float, float], float]:
    @wraps(function)
    def of(one: float, other: float) -> float:
        try:
            return function(one, other)
        except NotOneNumber:
            return _applied_to_two(function.__name__, one, other)

    return of


def _applied_to_two(name: str, one: Any, other: Any) -> float:
    from drafting.geometry.varied import applied_to_two

    found: float = applied_to_two(name, one, other)
    return found


sqrt, sin, cos, tan = _of_one(math.sqrt), _of_one(math.sin), _of_one(math.cos), _of_one(math.tan)
asin, acos, atan = _of_one(math.asin), _of_one(math.acos), _of_one(math.atan)
degrees, radians = _of_one(math.degrees), _of_one(math.radians)
isnan, isfinite = _of_one(math.isnan), _of_one(math.isfinite)
hypot, atan2 = _of_two(math.hypot), _of_two(math.atan2)
copysign, fmod = _of_two(math.copysign), _of_two(math.fmod)
floor, ceil = math.floor, math.ceil
"""These ask the number itself."""


def dist(one: Sequence[float], other: Sequence[float]) -> float:
    """Between two places of two numbers each."""
    (ax, ay), (bx, by) = one, other
    return hypot(ax - bx, ay - by)


def least(*amounts: float) -> float:
    """The least of several amounts, in each size its own."""
    try:
        return min(amounts)
    except Parted:
        return reduce(partial(_applied_to_two, "minimum"), amounts)


def most(*amounts: float) -> float:
    """The largest of several amounts, in each size its own."""
    try:
        return max(amounts)
    except Parted:
        return reduce(partial(_applied_to_two, "maximum"), amounts)


def first_least(things: Sequence[Found], *keys: Callable[[Found], float]) -> Found:
    """The thing of the least amount, in each size its own: of those of equal amounts that of the least second one, and
    so on; the first of those that are alike. One at least is given."""
    columns = [[key(thing) for thing in things] for key in keys]
    if not any(varies(amount) for amounts in columns for amount in amounts):
        rows = list(zip(*columns, strict=True))
        return things[min(range(len(things)), key=rows.__getitem__)]
    from drafting.geometry.varied import of_the_least

    found: Found = of_the_least(things, columns)
    return found


# A number of any kind


def varies(value: Any) -> bool:
    """Whether there is one for each size."""
    return hasattr(value, "each")


def plain_number(value: Any) -> float:
    """A float of any number; what varies from size to size is left as it is."""
    try:
        return float(value)
    except NotOneNumber:
        varied: float = value
        return varied


def exact(value: Any) -> Fraction:
    """A number as a Fraction, so that nothing is lost where many are added; what varies is left as it is."""
    try:
        return Fraction(value)
    except TypeError:
        varied: Fraction = value
        return varied


def rounded(value: Any) -> object:
    """The nearest whole number, of every size; to be compared and looked up."""
    try:
        return round(float(value))
    except NotOneNumber:
        whole: object = value.rounded()
        return whole


def in_words(tell: Callable[Given, str]) -> Callable[Given, str]:
    """A function that tells of an amount, its first argument; of one that varies it leaves room for the words of each
    size."""

    @wraps(tell)
    def telling(*given: Given.args, **named: Given.kwargs) -> str:
        amount: Any
        amount, *rest = given
        if not varies(amount):
            return tell(*given, **named)
        words: str = amount.told(partial(_tell_first, tell, rest, named))
        return words

    return telling


def _tell_first(tell: Callable[..., str], rest: list[Any], named: dict[str, Any], amount: float) -> str:
    return tell(amount, *rest, **named)


# Where the sizes part ways


def each_way(function: Callable[Given, Found]) -> Callable[Given, Found]:
    """A function that only reads, and gives amounts, points and the like: where the sizes part ways within it, those of
    each way are worked out apart and put together again."""

    @wraps(function)
    def work(*given: Given.args, **named: Given.kwargs) -> Found:
        try:
            return function(*given, **named)
        except Parted as parted:
            from drafting.geometry.varied import both_ways

            found: Found = both_ways(parted, lambda: work(*given, **named))
            return found

    return work


class kept(Generic[Found]):
    """A property that is worked out when it is first asked for; for all sizes, whichever ask."""

    def __init__(self, function: Callable[[Any], Found]) -> None:
        self.function = function
        self.__doc__ = function.__doc__

    def __set_name__(self, owner: type, name: str) -> None:
        self.name = name

    @overload
    def __get__(self, instance: None, owner: type) -> kept[Found]: ...

    @overload
    def __get__(self, instance: object, owner: type) -> Found: ...

    def __get__(self, instance: object | None, owner: type) -> kept[Found] | Found:
        if instance is None:
            return self
        found: Found = _for_all[0](self.function, instance)
        instance.__dict__[self.name] = found
        return found


def _apply(function: Callable[[Any], Found], instance: Any) -> Found:
    return function(instance)


_for_all: list[Callable[..., Any]] = [_apply]
"""How a kept property is worked out; `drafting.geometry.varied` puts its own way here while sizes go apart."""

__all__ = [
    "NotOneNumber", "NotTogether", "Parted", "acos", "asin", "atan", "atan2", "ceil", "copysign", "cos", "degrees",
    "dist", "each_way", "exact", "first_least", "floor", "fmod", "hypot", "in_words", "inf", "isfinite", "isnan",
    "kept", "least", "most", "nan", "pi", "plain_number", "radians", "rounded", "sin", "sqrt", "tan", "varies",
]  # fmt: skip
