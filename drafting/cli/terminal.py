"""What is on the other side of an output: its width, and whether it shows colors.

Colors only on a terminal that has not asked for none (NO_COLOR set to anything, or TERM=dumb). What goes
into a pipe or a file is never broken into lines, so that it can be searched.
"""

from __future__ import annotations

import os
import shutil
import sys
from io import TextIOWrapper
from typing import TextIO

from drafting.text.excerpt import Page, Role

RESET = "\x1b[0m"
COLORS: dict[Role, str] = {
    "place": "\x1b[1m",
    "error": "\x1b[1;31m",
    "warning": "\x1b[1;33m",
    "note": "\x1b[1;36m",
    "caret": "\x1b[31m",
    "mend": "\x1b[32m",
}


def page_of(stream: TextIO) -> Page:
    width = shutil.get_terminal_size().columns if stream.isatty() else None
    return Page(width, paint_in_color) if wants_color(stream) else Page(width)


def wants_color(stream: TextIO) -> bool:
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def paint_in_color(role: Role, text: str) -> str:
    return f"{COLORS[role]}{text}{RESET}"


def accept_any_character() -> None:
    """Names come in any script; where an output cannot show a character it shows its number."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
