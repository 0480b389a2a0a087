"""Messages as a maker reads them: a line of the pattern, carets under the place, what is so, and the mend.

Takes finished messages and gives text. Columns are counted as a terminal shows them: a tab runs on to the
next stop, a wide character takes two columns and a combining mark none, so that carets stand under what they
mean in any script. A line longer than the terminal is cut around the place.

    tag.draft:12:9  error S01
      |   point brow: 40 mm above heel
      |         ^^^^
      `brow` has one fact and needs two: it can still slide left and right
      mend: add one more fact, such as `level with tip`
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable
from functools import cache
from typing import Literal

from drafting.records import dataclass
from drafting.text.messages import Message, Severity
from drafting.text.source import Span

TAB_STOP = 4
EXCERPT_COLUMNS = 100
"""How wide an excerpt may be where no terminal says its width."""
SIZES_NAMED = 3
"""So many sizes are named in front of a message; the rest are counted."""

Role = Literal["place", "error", "warning", "note", "caret", "mend"]
Paint = Callable[[Role, str], str]
SEVERITY_ROLES: dict[Severity, Role] = {
    Severity.ERROR: "error",
    Severity.WARNING: "warning",
    Severity.NOTE: "note",
}


@dataclass(frozen=True)
class Page:
    """What messages are written on: its `width` in columns (None: no line is broken) and its colors."""

    width: int | None = None
    paint: Paint = lambda role, text: text

    @property
    def excerpt_width(self) -> int:
        return EXCERPT_COLUMNS if self.width is None else self.width


PLAIN = Page()


def render_messages(messages: Iterable[Message], page: Page = PLAIN) -> str:
    """Every message with its excerpt, and a closing line that counts them; nothing for none."""
    listed = list(messages)
    if not listed:
        return ""
    blocks = [render_message(message, page) for message in listed]
    return "\n".join([*blocks, count_line(listed) + "\n"])


def render_message(message: Message, page: Page = PLAIN) -> str:
    """One message, ending in a line end."""
    severity = SEVERITY_ROLES[message.severity]
    place = "" if message.at is None else page.paint("place", place_of(message.at)) + "  "
    lines = [f"{place}{page.paint(severity, f'{severity} {message.code}')}"]
    if message.at is not None:
        lines += excerpt_lines(message.at, page)
    lines += wrapped(sizes_prefix(message.sizes) + message.says, page)
    if message.mend:
        lines += wrapped(message.mend, page, lead="mend: ", role="mend")
    for related in message.related:
        lines.append(f"  {page.paint('place', place_of(related.at))}  {printable(related.says)}")
        lines += ["  " + line for line in excerpt_lines(related.at, page, indent=2)]
    return "\n".join(lines) + "\n"


def place_of(span: Span) -> str:
    """`tag.draft:12:9`, as editors and terminals know to jump to."""
    return f"{printable(span.source.name)}:{span.line}:{span.column}"


def sizes_prefix(sizes: tuple[str, ...]) -> str:
    """`crew card, visitor: `, or nothing for a message that holds in all sizes."""
    if not sizes:
        return ""
    named = ", ".join(sizes[:SIZES_NAMED])
    more = len(sizes) - SIZES_NAMED
    return f"{named} and {more} more: " if more > 0 else f"{named}: "


def count_line(messages: Iterable[Message]) -> str:
    """`2 faults, 1 warning`: what a check amounts to."""
    severities = [message.severity for message in messages]
    words = {Severity.ERROR: "fault", Severity.WARNING: "warning", Severity.NOTE: "note"}
    counts = {word: severities.count(severity) for severity, word in words.items()}
    return ", ".join(f"{count} {word}{'s' * (count != 1)}" for word, count in counts.items() if count)


def excerpt_lines(span: Span, page: Page = PLAIN, indent: int = 0) -> list[str]:
    """The line that `span` begins on, and carets under its part of the span."""
    text = span.source.line_text(span.line)
    start = span.column - 1
    ends_here = span.end_line == span.line
    end = span.end_column - 1 if ends_here else len(text.rstrip())
    before, marked = shown(text[:start]), shown(text[start:end], column_after(text[:start]))
    caret_start = display_width(before)
    caret_end = caret_start + max(1, display_width(marked))
    line, carets = clipped(shown(text), caret_start, caret_end, page.excerpt_width - indent - len("  | "))
    beyond = "" if ends_here else f" to line {span.end_line}"
    return [f"  | {line}".rstrip(), f"  | {page.paint('caret', carets)}{beyond}"]


def clipped(line: str, start: int, end: int, width: int) -> tuple[str, str]:
    """A shown line and carets from column `start` up to `end`, cut to `width` columns around the carets."""
    width = max(width, 8)
    if display_width(line) <= width:
        return line, " " * start + "^" * (end - start)
    first = max(0, min(start - width // 3, display_width(line) - width + 1))
    window, first = columns_from(line, first)
    lead = "…" if first else ""
    body = fitting(window, width - len(lead))
    carets_start = start - first + len(lead)
    carets_end = min(end - first + len(lead), display_width(lead + body))
    return lead + body, " " * carets_start + "^" * max(1, carets_end - carets_start)


def columns_from(line: str, column: int) -> tuple[str, int]:
    """The end of `line` from the first whole character at or after `column`, and where that begins."""
    if line.isascii():
        return line[column:], min(column, len(line))
    at = 0
    for index, character in enumerate(line):
        if at >= column and character_width(character):
            return line[index:], at
        at += character_width(character)
    return "", at


def fitting(line: str, width: int) -> str:
    """`line` if it fits in `width` columns, else its beginning and a mark that it goes on."""
    if display_width(line) <= width:
        return line
    kept, at = [], 0
    for character in line:
        at += character_width(character)
        if at > width - 1:
            break
        kept.append(character)
    return "".join(kept) + "…"


def wrapped(text: str, page: Page, lead: str = "", role: Role | None = None) -> list[str]:
    """`text` in lines two columns in; what follows `lead` hangs under its own start."""
    room = None if page.width is None else max(page.width - 2 - len(lead), 20)
    lines: list[str] = []
    for paragraph in text.splitlines() or [""]:
        lines += wrapped_words(printable(paragraph), room)
    opening = lead if role is None else page.paint(role, lead)
    return [f"  {opening if index == 0 else ' ' * len(lead)}{line}" for index, line in enumerate(lines)]


def wrapped_words(text: str, room: int | None) -> list[str]:
    """Whole words on lines of `room` columns; a word wider than that has a line of its own."""
    if room is None or display_width(text) <= room:
        return [text]
    lines = [""]
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}" if lines[-1] else word
        if lines[-1] and display_width(longer) > room:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def shown(text: str, column: int = 0) -> str:
    """`text` as a screen shows it from `column` on: tabs as blanks, controls as one visible mark."""
    first, *others = text.split("\t")
    line = printable(first)
    column += display_width(line)
    for part in others:
        blanks, seen = TAB_STOP - column % TAB_STOP, printable(part)
        line += " " * blanks + seen
        column += blanks + display_width(seen)
    return line


def column_after(text: str) -> int:
    return display_width(shown(text))


def printable(text: str) -> str:
    """`text` with every control character replaced, so that no pattern file can steer the terminal."""
    if text.isprintable():
        return text
    return "".join("\N{REPLACEMENT CHARACTER}" if is_control(character) else character for character in text)


def is_control(character: str) -> bool:
    """Also the marks that turn the writing direction round, and halves of characters with no encoding."""
    return unicodedata.category(character) in ("Cc", "Cs") or character in BIDI_CONTROLS


BIDI_CONTROLS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


@cache
def character_width(character: str) -> int:
    """Columns that one character takes (Unicode Standard Annex 11: wide and fullwidth take two)."""
    if unicodedata.category(character) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in ("W", "F") else 1


def display_width(text: str) -> int:
    return len(text) if text.isascii() else sum(map(character_width, text))
