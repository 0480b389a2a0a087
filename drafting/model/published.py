"""Published sizes of what leather is made to hold, as binding asks for them.

The table itself is the trade's and stands in a room above; whoever loads a pattern hands it down.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol


class PublishedSize(Protocol):
    """A card, a paper, a booklet, a note: its longer and its shorter side in mm, and its thickness where one is
    published."""

    @property
    def long(self) -> float: ...

    @property
    def wide(self) -> float: ...

    @property
    def thick(self) -> float | None: ...


PublishedSizes = Mapping[str, PublishedSize]
