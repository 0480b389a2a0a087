"""Frozen classes that cost next to nothing to make.

`dataclass` here means what `dataclasses.dataclass` means, and is read as that by the type checker. The standard one
writes and compiles six methods for each class while its module is imported; of the hundreds of classes of a
pattern most are never made in one run of `awlwright check`, and compiling their methods took a third of it. Here a
method is compiled when it is first called.

Slots, an order and fields that are no fields (`InitVar`) are left to the standard library.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator
from dataclasses import MISSING, Field, FrozenInstanceError, asdict, field, fields, is_dataclass, replace
from reprlib import recursive_repr
from typing import TYPE_CHECKING, Any, final

__all__ = ["asdict", "dataclass", "field", "fields", "is_dataclass", "replace"]

if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(of: type | None = None, /, *, frozen: bool = False, eq: bool = True, repr: bool = True):
        """Make a class of annotated fields: `@dataclass` or `@dataclass(frozen=True)`."""
        made = lambda cls: _with_methods(cls, frozen, eq, repr)  # noqa: E731
        return made if of is None else made(of)


def _with_methods(cls: type, is_frozen: bool, has_eq: bool, has_repr: bool) -> type:
    own = cls.__dict__
    has_own_hash = own.get("__hash__") is not None
    asked = [("__init__", _init), *[("__repr__", _repr)] * has_repr, *[("__eq__", _eq)] * has_eq]
    for name, compiled in asked:
        if name not in own:
            _add_late(cls, name, compiled)
    if has_eq and not has_own_hash:
        cls.__hash__ = None  # type: ignore[assignment]
        if is_frozen:
            _add_late(cls, "__hash__", _hash)
    if is_frozen:
        cls.__setattr__, cls.__delattr__ = _refuse_to_set, _refuse_to_delete  # type: ignore[method-assign,assignment]
    for name in LISTED:
        setattr(cls, name, _Listed(cls, name))
    return cls


LISTED = ("__dataclass_fields__", "__match_args__")


@final
class _Listed:
    """What the standard library lists of a class, its fields, those of its bases among them: when first asked for."""

    def __init__(self, of: type, name: str) -> None:
        self.of, self.name = of, name

    def __get__(self, instance: object, owner: type) -> Any:
        cls = self.of
        for name in LISTED:
            delattr(cls, name)
        said = cls.__doc__
        cls.__doc__ = said or cls.__name__  # Else the standard library would write one, slowly.
        dataclasses.dataclass(init=False, repr=False, eq=False)(cls)
        cls.__doc__ = said
        return getattr(owner, self.name)


def _add_late(cls: type, name: str, compiled: Callable[[type], Any]) -> None:
    """Compile the method at its first call, and put it in the place of what is put there now."""

    def first_call(self: Any, *given: Any, **named: Any) -> Any:
        method = compiled(cls)
        method.__qualname__ = first_call.__qualname__
        setattr(cls, name, method)
        return method(self, *given, **named)

    first_call.__name__, first_call.__qualname__ = name, f"{cls.__qualname__}.{name}"
    setattr(cls, name, first_call)


def _init(cls: type) -> Any:
    of_cls = fields(cls)
    taken = [one for one in of_cls if one.init]
    named = [one for one in taken if one.kw_only]
    heads = [_parameter(one) for one in taken if not one.kw_only]
    heads += ["*", *map(_parameter, named)] if named else []
    line = "_set(self, {!r}, {})" if cls.__dict__.get("__setattr__") is _refuse_to_set else "self.{} = {}"
    body = [line.format(one.name, value) for one in of_cls if (value := _value(one))]
    after = ["self.__post_init__()"] if hasattr(cls, "__post_init__") else []
    known = {"_set": object.__setattr__, "_MADE": _MADE, **dict(_defaults(of_cls))}
    return _compiled("__init__", heads, [*body, *after] or ["pass"], known)


_MADE = object()
"""Stands for a value that its field's `default_factory` makes."""


def _parameter(of: Field[Any]) -> str:
    if of.default is not MISSING:
        return f"{of.name}=_default_{of.name}"
    return of.name if of.default_factory is MISSING else f"{of.name}=_MADE"


def _value(of: Field[Any]) -> str:
    """What `__init__` sets; nothing where neither it nor the field has a value."""
    if of.default_factory is not MISSING:
        made = f"_default_{of.name}()"
        return f"{made} if {of.name} is _MADE else {of.name}" if of.init else made
    return of.name if of.init else ""


def _defaults(of_cls: tuple[Field[Any], ...]) -> Iterator[tuple[str, Any]]:
    for one in of_cls:
        if one.default is not MISSING:
            yield f"_default_{one.name}", one.default
        elif one.default_factory is not MISSING:
            yield f"_default_{one.name}", one.default_factory


def _repr(cls: type) -> Any:
    shown = ", ".join(f"{one.name}={{self.{one.name}!r}}" for one in fields(cls) if one.repr)
    return recursive_repr()(
        _compiled("__repr__", [], [f'return f"{{type(self).__qualname__}}({shown})"'], {})
    )


def _eq(cls: type) -> Any:
    mine, theirs = _compared(cls, "self"), _compared(cls, "other")
    lines = [f"return {mine} == {theirs} if other.__class__ is self.__class__ else NotImplemented"]
    return _compiled("__eq__", ["other"], lines, {})


def _hash(cls: type) -> Any:
    return _compiled("__hash__", [], [f"return hash({_compared(cls, 'self')})"], {})


def _compared(cls: type, who: str) -> str:
    return "(" + "".join(f"{who}.{one.name}, " for one in fields(cls) if one.compare) + ")"


def _compiled(name: str, parameters: list[str], body: list[str], known: dict[str, Any]) -> Any:
    lines = "".join(f"\n    {line}" for line in body)
    exec(f"def {name}({', '.join(['self', *parameters])}):{lines}", known)
    return known[name]


def _refuse_to_set(self: object, name: str, value: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_to_delete(self: object, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")
