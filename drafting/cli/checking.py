"""What comes before any file is written: the pattern is checked, told of, and placed in the sizes asked for.

A pattern with faults is not placed, unless a draft is asked for: then all of it that can be placed is, and what is
missing is told.
"""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Sequence
from typing import TYPE_CHECKING

from drafting.cli.exits import FAULTS, FINE
from drafting.cli.reading import place_named
from drafting.cli.terminal import page_of
from drafting.records import dataclass
from drafting.text.excerpt import render_messages
from drafting.text.messages import Messages

if TYPE_CHECKING:
    from drafting.face import Pattern, PlacedPattern


@dataclass(frozen=True)
class Checked:
    """The sizes asked for; none when faults keep them from being drawn."""

    placed: tuple[PlacedPattern, ...]
    has_faults: bool

    @property
    def exit_code(self) -> int:
        return FAULTS if self.has_faults else FINE


def add_draft(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--draft",
        action="store_true",
        help="whatever is wrong, write what can be placed; every sheet says that it is a draft",
    )


def place_checked(pattern: Pattern, given: Namespace, sizes: Sequence[str | None]) -> Checked:
    """`given` has `settings` and `draft`. What is wrong is told on the error output."""
    has_faults = not given.settings and tell(pattern.check())
    if has_faults and not given.draft:
        return Checked((), has_faults)
    placed = tuple(place_named(pattern, size, given.settings, given.draft) for size in sizes)
    if given.settings:
        has_faults = any([tell(messages) for one in placed for messages in said_of(one)])
        if has_faults and not given.draft:
            return Checked((), has_faults)
    tell_missing(pattern, placed)
    return Checked(placed, has_faults)


def said_of(placed: PlacedPattern) -> list[Messages]:
    """The workshop judges whole items; a draft may lack what it would look at."""
    return [placed.messages] if placed.is_draft else [placed.messages, placed.verdict.messages]


def tell(messages: Messages) -> bool:
    """Show what was found; whether there are errors in it."""
    print(render_messages(messages, page_of(sys.stderr)), end="", file=sys.stderr)
    return messages.has_errors


def tell_missing(pattern: Pattern, placed: Sequence[PlacedPattern]) -> None:
    for one in placed:
        missing = [name for name in pattern.pieces if name not in one.pieces]
        if missing:
            where = f" in size `{one.size}`" if one.size else ""
            names = ", ".join(f"`{name}`" for name in missing)
            print(f"left out of the draft{where}, for it cannot be placed: {names}", file=sys.stderr)
