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
        return Varied(_array(other) - self.each)

    def __mul__(self, other: Any) -> Varied:
        try:
            return Varied(self.each * (other.each if type(other) is Varied else float(other)))
        except TypeError:
            return NotImplemented  # a vector multiplies itself

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Varied:
        divisor = _array(other)
        _expect_none(divisor == 0.0, ZeroDivisionError("float division by zero"))
        return Varied(self.each / divisor)

    def __rtruediv__(self, other: Any) -> Varied:
        _expect_none(self.each == 0.0, ZeroDivisionError("float division by zero"))
        return Varied(_array(other) / self.each)

    def __mod__(self, other: Any) -> Varied:
        return Varied(numpy.mod(self.each, _array(other)))

    def __rmod__(self, other: Any) -> Varied:
        return Varied(numpy.mod(_array(other), self.each))

    def __floordiv__(self, other: Any) -> float:
        return _the_one(numpy.floor_divide(self.each, _array(other)))

    def __rfloordiv__(self, other: Any) -> float:
        return _the_one(numpy.floor_divide(_array(other), self.each))

    def __pow__(self, power: Any) -> Varied:
        return Varied(self.each ** _array(power))

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


def _array(value: Any) -> Any:
    return value.each if type(value) is Varied else float(value)


def nearest_distances(points: Sequence[Any], others: Sequence[Any]) -> list[Varied]:
    """For each point, things with x and y, how far the nearest of the others is."""
    n_sizes = max(numpy.size(_array(number)) for point in (*points, *others) for number in (point.x, point.y))
    xs, ys = (numpy.empty((len(others), n_sizes)) for _ in "xy")
    for row, other in enumerate(others):
        xs[row], ys[row] = _array(other.x), _array(other.y)
    return [
        Varied(numpy.sqrt(((xs - _array(point.x)) ** 2 + (ys - _array(point.y)) ** 2).min(axis=0)))
        for point in points
    ]


def applied_to_two(name: str, one: Any, other: Any) -> Any:
    return Varied(_ON_ARRAYS[name](_array(one), _array(other)))


_ON_ARRAYS: dict[str, Callable[..., Array]] = {
    "sin": numpy.sin,
    "cos": numpy.cos,
    "tan": numpy.tan,
    "asin": numpy.arcsin,
    "acos": numpy.arccos,
    "atan": numpy.arctan,
    "degrees": numpy.degrees,
    "radians": numpy.radians,
    "hypot": numpy.hypot,
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
    n_said = those.tobytes().count(1)
    if 0 < n_said < those.size:
        raise Parted(said)
    return n_said > 0


def _expect_none(said: Any, fault: Exception) -> None:
    if agreed(said) if isinstance(said, numpy.ndarray) else said:
        raise fault


def _the_one(each: Array) -> float:
    """The number that all have, or Parted."""
    first = asked(each)[0]
    agreed(each == first)
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
    with _asking(ones):
        first = work()
    with _asking(others):
        second = work()
    return _put_together(first, second, ones)


@contextmanager
def _asking(only: Array | None) -> Iterator[None]:
    before, how = _only[0], maths._for_all[0]
    _only[0], maths._for_all[0] = only, _kept_of_all
    try:
        yield
    finally:
        _only[0], maths._for_all[0] = before, how


def _kept_of_all(function: Callable[[Any], Any], instance: Any) -> Any:
    with _asking(None):
        return function(instance)


def _put_together(first: Any, second: Any, ones: Array) -> Any:
    """One thing of two of one shape: numbers by size, everything else by its parts."""
    if first is second:
        return first
    if _is_number(first) and _is_number(second) and not type(first) is type(second) is int:
        is_same = not isinstance(first, Varied) and not isinstance(second, Varied) and first == second
        return first if is_same else Varied(numpy.where(ones, _array(first), _array(second)))
    if _shape(first) != _shape(second):
        raise Parted(ones)
    pairs = zip(_parts(first), _parts(second), strict=True)
    return _rebuilt(first, [_put_together(one, other, ones) for one, other in pairs])


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


def number_of(value: Any, size: int) -> Any:
    """The number of one size."""
    return float(value.each[size]) if type(value) is Varied else value


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
