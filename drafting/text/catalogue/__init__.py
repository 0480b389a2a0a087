"""Every message there is, a module for each room that finds faults.

Codes are unique over all of them; `ALL` is sorted by code.
"""

from __future__ import annotations

from types import ModuleType

from drafting.text.catalogue import craft, files, lays, model, prices, roster, shapes, solve, syntax
from drafting.text.messages import Entry


def entries_of(module: ModuleType) -> list[Entry]:
    return [value for value in vars(module).values() if isinstance(value, Entry)]


ALL: tuple[Entry, ...] = tuple(
    sorted(
        (
            entry
            for module in (syntax, model, solve, shapes, craft, files, prices, roster, lays)
            for entry in entries_of(module)
        ),
        key=lambda entry: entry.code,
    )
)
