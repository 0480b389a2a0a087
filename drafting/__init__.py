"""Awlwright: patterns for leather goods, written as text and drafted true to size.

    import drafting
    badge = drafting.load("badge-holder.draft").place(rim="10 mm")
    badge.pieces["front"].outline.area

The names below come from `drafting.face`, and are loaded when first asked for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from drafting.version import VERSION as __version__

if TYPE_CHECKING:
    from drafting.face import (
        Faults,
        LaidOut,
        Listed,
        Measured,
        Pattern,
        PlacedPattern,
        Sizes,
        UnknownName,
        lay_order,
        list_order,
        load,
        read,
        read_lay,
        read_prices,
        rules,
    )

__all__ = [
    "Faults",
    "LaidOut",
    "Listed",
    "Measured",
    "Pattern",
    "PlacedPattern",
    "Sizes",
    "UnknownName",
    "__version__",
    "lay_order",
    "list_order",
    "load",
    "read",
    "read_lay",
    "read_prices",
    "rules",
]


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module 'drafting' has no attribute {name!r}")
    from drafting import face

    return getattr(face, name)
