"""What a file was made from: its pattern and text, the size and measures, and how it was asked for.

Every file carries it as one line, so that it is known again as a file of this tool, can later be held against its
pattern, and told when that has changed.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from drafting.records import asdict, dataclass, field

MARK = "Awlwright made this from "
"""Stands before the line in every format."""


@dataclass(frozen=True)
class Record:
    """`what` is the kind of file: print, drawing, booklet, cut …; `asked` are the words it was asked for with.

    `measures` were set from outside: text in the language, or a number.
    """

    what: str
    pattern: str
    text: str
    version: str
    size: str | None = None
    measures: Mapping[str, str | float] = field(default_factory=dict)
    draft: bool = False
    asked: Mapping[str, Any] = field(default_factory=dict)

    @property
    def line(self) -> str:
        """In letters that every format has, and without two hyphens, which end a comment."""
        text = json.dumps(asdict(self), separators=(",", ":"), sort_keys=True)
        return MARK + text.replace("--", "\\u002d\\u002d").replace("<", "\\u003c").replace(">", "\\u003e")


def record_of(line: str) -> Record | None:
    """The record of a line that begins with the mark; None where it is none."""
    if not line.startswith(MARK):
        return None
    try:
        return record_from(json.loads(line.removeprefix(MARK)))
    except ValueError:
        return None


def record_from(found: Any) -> Record | None:
    """The record that was taken apart into names and values; None where it is none."""
    try:
        return Record(**found) if _is_whole(found) else None
    except TypeError:
        return None


def _is_whole(found: Any) -> bool:
    kinds = {"what": str, "pattern": str, "text": str, "version": str, "measures": dict, "asked": dict}
    return isinstance(found, dict) and all(isinstance(found.get(key), kind) for key, kind in kinds.items())
