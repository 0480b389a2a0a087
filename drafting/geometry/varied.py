"""A number that varies from size to size, so that one run through any code works out many sizes.

Amounts are added, multiplied and so on as arrays. A question with one answer for all sizes is answered; where the sizes
part ways the run is given up with Parted, which says who would go which way, and is made again for each of them. Where
only the rounding of the last digits tells them apart all go with most.

A function marked `each_way` parts for itself: it is run once for each way while only those sizes are asked, and what
comes of it is put together again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import fields, is_dataclass
from typing import Any

import numpy

from drafting.geometry import maths
from drafting.geometry.maths import NotOneNumber, NotTogether, Parted

Array = numpy.ndarray[Any, Any]
ROUNDING = 1e-10
"""Numbers that differ by less than this part of them, or of 1, are told apart by rounding only."""

_only: list[Array | None] = [None]
"""The sizes that are asked, or None for all of them."""


class Varied:
    """`each` holds the number of each size."""

    __slots__ = ("each",)

    def __init__(self, each: Array) -> None:
        self.each = each

    def __repr__(self) -> str:
        return f"Varied({self.each[0]:.6g} .. {self.each[-1]:.6g})"

    # Amounts

    def __add__(self, other: Any) -> Varied:
        return Varied(self.each + (other.each if type(other) is Varied else float(other)))

    __radd__ = __add__

    def __sub__(self, other: Any) -> Varied:
        return Varied(self.each - (other.each if type(other) is Varied else float(other)))

    def __rsub__(self, other: Any) -> Varied:
        return Varied(number_or_array(other) - self.each)

    def __mul__(self, other: Any) -> Varied:
        try:
            return Varied(self.each * (other.each if type(other) is Varied else float(other)))
        except TypeError:
            return NotImplemented  # a vector multiplies itself

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Varied:
        divisor = number_or_array(other)
        _expect_none(divisor == 0.0, ZeroDivisionError("float division by zero"))
        return Varied(self.each / divisor)

    def __rtruediv__(self, other: Any) -> Varied:
        _expect_none(self.each == 0.0, ZeroDivisionError("float division by zero"))
        return Varied(number_or_array(other) / self.each)

    def __mod__(self, other: Any) -> Varied:
        return Varied(numpy.mod(self.each, number_or_array(other)))

    def __rmod__(self, other: Any) -> Varied:
        return Varied(numpy.mod(number_or_array(other), self.each))

    def __floordiv__(self, other: Any) -> float:
        return _the_one(numpy.floor_divide(self.each, number_or_array(other)))

    def __rfloordiv__(self, other: Any) -> float:
        return _the_one(numpy.floor_divide(number_or_array(other), self.each))

    def __pow__(self, power: Any) -> Varied:
        return Varied(self.each ** number_or_array(power))

    def __neg__(self) -> Varied:
        return Varied(-self.each)

    def __pos__(self) -> Varied:
        return self

    def __abs__(self) -> Varied:
        return Varied(numpy.abs(self.each))

    def by(self, function: Callable[[Array], Array]) -> Varied:
        """A function of arrays."""
        return Varied(function(self.each))

    def applied(self, name: str) -> Any:
        """A function of `math`, by its name."""
        if name in ("isnan", "isfinite"):
            return agreed(getattr(numpy, name)(self.each))
        if name == "sqrt":
            _expect_none(self.each < -ROUNDING, ValueError("math domain error"))
            return Varied(numpy.sqrt(numpy.maximum(self.each, 0.0)))
        if name in ("asin", "acos"):
            _expect_none(numpy.abs(self.each) > 1.0, ValueError("math domain error"))
        return Varied(_ON_ARRAYS[name](self.each))

    def rounded(self) -> bytes:
        """The nearest whole numbers, to be compared and looked up."""
        return (numpy.round(self.each) + 0.0).tobytes()

    def told(self, tell: Callable[[float], str]) -> str:
        """Room for the words of each size."""
        _words.append((self.each, tell))
        return f"{_OPENS}{len(_words) - 1}{_CLOSES}"

    # Questions

    def __lt__(self, other: Any) -> bool:
        return self._compared(numpy.less, other)

    def __le__(self, other: Any) -> bool:
        return self._compared(numpy.less_equal, other)

    def __gt__(self, other: Any) -> bool:
        return self._compared(numpy.greater, other)

    def __ge__(self, other: Any) -> bool:
        return self._compared(numpy.greater_equal, other)

    def __eq__(self, other: object) -> bool:
        if isinstance(other, Varied | int | float):
            return self._compared(numpy.equal, other)
        return NotImplemented

    def __hash__(self) -> int:
        """All alike: what may be equal in some sizes must be compared."""
        return 0

    def __bool__(self) -> bool:
        return agreed(self.each != 0.0)

    def _compared(self, how: Callable[..., Array], other: Any) -> bool:
        right = other.each if type(other) is Varied else float(other)
        said = how(self.each, right)
        try:
            return agreed(said)
        except Parted:
            ones, others = asked(self.each), asked(numpy.broadcast_to(right, said.shape))
            if not numpy.all(numpy.abs(ones - others) <= ROUNDING * numpy.maximum(1.0, numpy.abs(ones))):
                raise
            return 2 * int(numpy.count_nonzero(asked(said))) >= ones.size

    # Whole numbers

    def __int__(self) -> int:
        return int(_the_one(numpy.trunc(self.each)))

    def __trunc__(self) -> int:
        return int(self)

    def __floor__(self) -> int:
        return int(_the_one(numpy.floor(self.each)))

    def __ceil__(self) -> int:
        return int(_the_one(numpy.ceil(self.each)))

    def __round__(self, digits: int | None = None) -> Any:
        if digits is None:
            return int(_the_one(numpy.round(self.each)))
        return Varied(numpy.round(self.each, digits))

    def __float__(self) -> float:
        raise NotOneNumber

    def __index__(self) -> int:
        raise NotOneNumber

    def __format__(self, how: str) -> str:
        raise NotTogether(f"{self!r} in words")


def number_or_array(value: Any) -> Any:
    """What arrays reckon with."""
    return value.each if type(value) is Varied else float(value)


def nearest_distances(points: Sequence[Any], others: Sequence[Any]) -> list[Varied]:
    """For each point, things with x and y, how far the nearest of the others is.

    Only those are measured that may be the nearest, by the boxes of where each comes to lie in all sizes.
    """
    xs, ys = stacked([other.x for other in others]), stacked([other.y for other in others])
    columns, rows = (xs.min(axis=1), xs.max(axis=1)), (ys.min(axis=1), ys.max(axis=1))

    def distance(x: Any, y: Any) -> Varied:
        (near_across, far_across), (near_up, far_up) = _ways(columns, x), _ways(rows, y)
        may_be = near_across**2 + near_up**2 <= (far_across**2 + far_up**2).min()
        return Varied(numpy.sqrt(((xs[may_be] - x) ** 2 + (ys[may_be] - y) ** 2).min(axis=0)))

    return [distance(number_or_array(point.x), number_or_array(point.y)) for point in points]


def _ways(ranges: tuple[Array, Array], amounts: Any) -> tuple[Array, Array]:
    """The least and the largest way that amounts may be from those of each range, whichever size it is."""
    (low, high), least, most = ranges, numpy.min(amounts), numpy.max(amounts)
    return numpy.maximum(numpy.maximum(low - most, least - high), 0.0), numpy.maximum(
        high - least, most - low
    )


def applied_to_two(name: str, one: Any, other: Any) -> Any:
    return Varied(_ON_ARRAYS[name](number_or_array(one), number_or_array(other)))


_ON_ARRAYS: dict[str, Callable[..., Array]] = {
    "sin": numpy.sin,
    "cos": numpy.cos,
    "tan": numpy.tan,
    "asin": numpy.arcsin,
    "acos": numpy.arccos,
    "atan": numpy.arctan,
    "degrees": numpy.degrees,
    "radians": numpy.radians,
    "hypot": lambda across, up: numpy.sqrt(across * across + up * up),  # a third of the time of numpy's own
    "atan2": numpy.arctan2,
    "copysign": numpy.copysign,
    "fmod": numpy.fmod,
    "minimum": numpy.minimum,
    "maximum": numpy.maximum,
}

# One answer for all who are asked


def asked(each: Array) -> Array:
    """Those of the sizes that are asked."""
    only = _only[0]
    found: Array = each if only is None else each[only]
    return found


def is_asked(size: int) -> bool:
    only = _only[0]
    return only is None or bool(only[size])


def agreed(said: Array) -> bool:
    """The answer that all give, or Parted."""
    only = _only[0]
    those = said if only is None else said[only]
    n_said = int(numpy.count_nonzero(those))
    if 0 < n_said < those.size:
        raise Parted(said)
    return n_said > 0


def _expect_none(said: Any, fault: Exception) -> None:
    if agreed(said) if isinstance(said, numpy.ndarray) else said:
        raise fault


def _the_one(each: Array) -> float:
    """The number that all have, or Parted."""
    first = asked(each)[0]
    try:
        agreed(each == first)
    except Parted as parted:
        raise Parted(parted.ones, each) from None
    return float(first)


# Both ways


def both_ways(parted: Parted, work: Callable[[], Any]) -> Any:
    """What comes of some work for the sizes of each way, put together. Raises Parted where it is not of one shape, or
    where those asked all go one way and only others part."""
    only = _only[0]
    ones = parted.ones if only is None else parted.ones & only
    others = ~parted.ones if only is None else ~parted.ones & only
    if not (ones.any() and others.any()):
        raise parted
    with asking(ones):
        first = work()
    with asking(others):
        second = work()
    return _put_together((first, second), numpy.where(ones, 0, 1))


@contextmanager
def asking(only: Array | None) -> Iterator[None]:
    """Around what is asked of some sizes only, or of all."""
    before, how = _only[0], maths._for_all[0]
    _only[0], maths._for_all[0] = only, _kept_of_all
    try:
        yield
    finally:
        _only[0], maths._for_all[0] = before, how


def _kept_of_all(function: Callable[[Any], Any], instance: Any) -> Any:
    with asking(None):
        return function(instance)


def _put_together(things: Sequence[Any], which: Array) -> Any:
    """One thing of several of one shape, by the index of that of each size: numbers by size, all else by its parts."""
    first = things[0]
    if all(thing is first for thing in things):
        return first
    if all(map(_is_number, things)) and not all(type(thing) is int for thing in things):
        return _chosen(things, which)
    alike = [at for at, thing in enumerate(things) if _shape(thing) == _shape(first)]
    if len(alike) < len(things):
        raise Parted(numpy.isin(which, alike))
    columns = zip(*map(_parts, things), strict=True)
    return _rebuilt(first, [_put_together(column, which) for column in columns])


def _chosen(numbers: Sequence[Any], which: Array) -> Any:
    first = numbers[0]
    if all(type(number) is not Varied and number == first for number in numbers):
        return first
    each = numpy.empty(which.shape)
    for at, number in enumerate(numbers):
        numpy.copyto(each, number_or_array(number), where=which == at)
    return Varied(each)


def of_the_least(things: Sequence[Any], columns: Sequence[Sequence[Any]]) -> Any:
    """See `maths.first_least`; `columns` are the first amounts of all things, then the second ones. Where only rounding
    tells a thing from that which is the least in most sizes, it is that one. Raises Parted where things that are
    the least are not of one shape."""
    stacks = [stacked(amounts) for amounts in columns]
    which = _which_is_least(stacks)
    of_most = numpy.bincount(asked(which)).argmax()
    least = stacks[0].min(axis=0)
    above = stacks[0][of_most] - least
    is_rounding = (above > 0.0) & (above <= ROUNDING * numpy.maximum(1.0, numpy.abs(least)))
    which = numpy.where(is_rounding, of_most, which)
    some = numpy.unique(asked(which))
    if len(some) == 1:
        return things[some[0]]
    return _put_together([things[at] for at in some.tolist()], numpy.searchsorted(some, which))


def _which_is_least(stacks: Sequence[Array]) -> Array:
    """By size, which row has the least amount; of equal ones that of the least amount in the next stack."""
    left = numpy.ones((1, 1), dtype=bool)
    for amounts in stacks:
        those = numpy.where(left, amounts, numpy.inf)
        left = those == those.min(axis=0)
    found: Array = left.argmax(axis=0)
    return found


def stacked(numbers: Sequence[Any]) -> Array:
    """Numbers of each size, one below the other; a single column where none varies."""
    n_sizes = max((numpy.size(number_or_array(number)) for number in numbers), default=1)
    rows = numpy.empty((len(numbers), n_sizes))
    for row, number in zip(rows, numbers, strict=True):
        row[:] = number_or_array(number)
    return rows


def n_sizes_of(thing: Any) -> int:
    """Of how many sizes a number, a path and the like is; 0 where it is the same in all."""
    if type(thing) is Varied:
        return len(thing.each)
    return next(filter(None, map(n_sizes_of, _parts(thing))), 0)


def of_size(thing: Any, size: int) -> Any:
    """A number, a point, a path and the like, as it is in one size."""
    if type(thing) is Varied:
        return float(thing.each[size])
    return _rebuilt(thing, [of_size(part, size) for part in _parts(thing)])


def gathered(things: Sequence[Any]) -> Any:
    """One thing of one for each size, all of one shape. Raises Parted where some are of another."""
    first = things[0]
    if all(type(thing) is float for thing in things):
        return first if all(thing == first for thing in things) else Varied(numpy.array(things))
    alike = numpy.array([_shape(thing) == _shape(first) for thing in things])
    if not alike.all():
        raise Parted(alike)
    columns = zip(*[_parts(thing) for thing in things], strict=True)
    return _rebuilt(first, [gathered(column) for column in columns])


def _is_number(thing: Any) -> bool:
    return type(thing) in (Varied, float, int)


def _shape(thing: Any) -> tuple[object, ...]:
    """What two things of one shape have alike, whatever their numbers."""
    if isinstance(thing, Mapping):
        return type(thing), *thing
    if isinstance(thing, tuple | list):
        return type(thing), len(thing)
    if _is_made_of_fields(thing) or type(thing) in (Varied, float):
        return (type(thing),)
    return type(thing), thing


def _parts(thing: Any) -> list[Any]:
    if isinstance(thing, Mapping):
        return list(thing.values())
    if isinstance(thing, tuple | list):
        return list(thing)
    return [getattr(thing, each.name) for each in fields(thing)] if _is_made_of_fields(thing) else []


def _rebuilt(thing: Any, parts: list[Any]) -> Any:
    """The same thing of other parts."""
    if isinstance(thing, Mapping):
        return dict(zip(thing, parts, strict=True))
    if isinstance(thing, tuple | list):
        return type(thing)(*parts) if hasattr(thing, "_fields") else type(thing)(parts)
    return type(thing)(*parts) if _is_made_of_fields(thing) else thing


def _is_made_of_fields(thing: Any) -> bool:
    return is_dataclass(thing) and not isinstance(thing, type)


# Words

_words: list[tuple[Array, Callable[[float], str]]] = []
"""What room is left for: the amounts, and how one of them is told."""
_OPENS, _CLOSES = "\ue0f0", "\ue0f1"


def column_of(value: Any, n_sizes: int) -> list[Any]:
    """The number of each size."""
    column: list[Any] = value.each.tolist() if type(value) is Varied else [value] * n_sizes
    return column


def words_of(text: str, size: int) -> str:
    """A text with the words of one size in all the room that was left for them."""
    if _OPENS not in text:
        return text
    parts = text.split(_OPENS)
    told = parts[0]
    for part in parts[1:]:
        index, _, rest = part.partition(_CLOSES)
        each, tell = _words[int(index)]
        told += tell(float(each[size])) + rest
    return told


@contextmanager
def many_sizes() -> Iterator[None]:
    """Around a run whose amounts vary, and whatever is told of it."""
    with numpy.errstate(all="ignore"):
        try:
            yield
        finally:
            _words.clear()
