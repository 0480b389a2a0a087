"""Which facts pin a thing, in the maker's words.

Takes one size worked out and a name; gives a few lines: the facts and choices, how they come to one place, where that
is, and which measures move it.
"""

from __future__ import annotations

from drafting.model.references import Binding
from drafting.solve.draft import Sized


def explain_name(sized: Sized, binding: Binding, name: str) -> str:
    return name
