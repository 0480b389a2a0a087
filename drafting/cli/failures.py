"""From what went wrong to the words for it and an exit code.

Knows each kind of failure that a command may end in. What is none of them is a fault of the tool, told in
a line that can be reported: what failed, where in the package, in which version.
"""

from __future__ import annotations

import platform
import sys
import traceback
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, TypeGuard

from drafting.cli.exits import BROKEN, FAULTS, WRONG_USE
from drafting.cli.terminal import page_of
from drafting.cli.words import WrongUse, WrongWords
from drafting.records import replace
from drafting.text.catalogue.files import BROKEN_TOOL, UNKNOWN_NAME, UNREADABLE_FILE, UNWRITABLE_FILE
from drafting.text.excerpt import Page, place_of, render_message, render_messages
from drafting.text.messages import Message, did_you_mean
from drafting.text.source import Source, Span, UnreadableSource
from drafting.version import VERSION

if TYPE_CHECKING:
    from drafting.face import Faults, UnknownName


STANDARD_OUTPUT = "standard output"
"""Whatever else is written has a name."""


class UntrueFile(Exception):
    """A written file does not measure as drafted; `message` says where."""

    def __init__(self, message: Message) -> None:
        super().__init__(message.says)
        self.message = message


def report_failure(failure: Exception) -> int:
    """Say on the error output what went wrong, and give the exit code for it."""
    page = page_of(sys.stderr)
    if isinstance(failure, WrongWords):
        for message in failure.messages:
            print("awlwright: " + without_place(message, page), end="", file=sys.stderr)
        return WRONG_USE
    if is_faults(failure):
        print(render_messages(failure.messages, page), end="", file=sys.stderr)
        return FAULTS
    message, code = message_of(failure)
    print("awlwright: " + render_message(message, page), end="", file=sys.stderr)
    return code


def without_place(message: Message, page: Page) -> str:
    """Words of the command line stand in no file: their excerpt says enough. A row of a table does."""
    if message.at is not None and Path(message.at.source.name).is_file():
        return render_message(message, page)
    if message.at is not None and message.at.source.name.endswith(" = "):
        message = behind_option(message, message.at)
    place = "" if message.at is None else page.paint("place", place_of(message.at)) + "  "
    return render_message(message, page).removeprefix(place)


def behind_option(message: Message, at: Span) -> Message:
    """A fault in the value of a measure, shown as the value was typed."""
    lead = f"--with {at.source.name.removesuffix(' = ')}="
    source = Source("--with", lead + at.source.text)
    return replace(message, at=source.span(at.start + len(lead), at.end + len(lead)))


def is_faults(failure: Exception) -> TypeGuard[Faults]:
    """Asked without importing the face: where it is not imported, no pattern was loaded."""
    face = sys.modules.get("drafting.face")
    return face is not None and isinstance(failure, face.Faults)


def is_unknown_name(failure: Exception) -> TypeGuard[UnknownName]:
    face = sys.modules.get("drafting.face")
    return face is not None and isinstance(failure, face.UnknownName)


def message_of(failure: Exception) -> tuple[Message, int]:
    if is_unknown_name(failure):
        return unknown_name(failure.kind, failure.name, failure.known).message, WRONG_USE
    match failure:
        case WrongUse(message=message):
            return message, WRONG_USE
        case UnreadableSource(path=path, reason=reason):
            return WrongUse(UNREADABLE_FILE, file=path, reason=reason).message, WRONG_USE
        case UntrueFile(message=message):
            return message, BROKEN
        case OSError(filename=str() as path, strerror=str() as reason):
            return WrongUse(UNWRITABLE_FILE, file=path, reason=reason.lower()).message, WRONG_USE
        case OSError(filename=None, strerror=str() as reason):
            return WrongUse(UNWRITABLE_FILE, file=STANDARD_OUTPUT, reason=reason.lower()).message, WRONG_USE
        case _:
            return WrongUse(BROKEN_TOOL, failure=failure_line(failure)).message, BROKEN


def unknown_name(kind: str, name: str, known: Iterable[str], meant: str | None = None) -> WrongUse:
    """`meant` is the name as it may have been meant, where that is more than the nearest in letters."""
    known = tuple(known)
    listed = f"Known are {', '.join(known)}" if known else "There are none"
    return WrongUse(
        UNKNOWN_NAME, kind=kind, name=name, known=listed, meant=did_you_mean(meant or name, known)
    )


def failure_line(failure: Exception) -> str:
    """`ZeroDivisionError: … in drafting/solve/plan.py, line 120 (awlwright 0.1.0, Python 3.11.7)`."""
    package = Path(__file__).parent.parent
    frames = traceback.extract_tb(failure.__traceback__)
    ours = [frame for frame in frames if package in Path(frame.filename).parents]
    place = ""
    if ours:
        path = Path(ours[-1].filename).relative_to(package.parent).as_posix()
        place = f" in {path}, line {ours[-1].lineno}"
    what = "".join(traceback.format_exception_only(failure)).strip().splitlines()[-1]
    return f"{what}{place} (awlwright {VERSION}, Python {platform.python_version()})"
