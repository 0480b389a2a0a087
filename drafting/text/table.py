"""A table of people as text: rows and cells of a CSV file, each with its place in it.

Takes the bytes of a file and gives a Table and what is wrong with it. The form is that of RFC 4180: a cell in quotes
may hold separators, line ends and quotes written twice. A file that begins with a byte-order mark says its own
encoding; any other is UTF-8 unless an encoding is named. Nothing is guessed in silence: where two
separators would do, or the bytes are no text in that encoding, a message says so.
"""

from __future__ import annotations

import codecs
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from unicodedata import normalize

from drafting.records import dataclass, field, replace
from drafting.text.catalogue import roster as says
from drafting.text.messages import Messages, did_you_mean
from drafting.text.source import Source, Span, UnreadableSource

SEPARATORS = {",": "comma", ";": "semicolon", "\t": "tab"}
MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
"""Byte-order marks of the Unicode Standard, chapter 23; that of UTF-32 begins like that of UTF-16."""
SPREADSHEETS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
"""How the files of spreadsheets begin: packed ones of today, and the compound files of older programs."""
LIKELY_ENCODINGS = ("cp1252", "cp1250", "cp1251")
"""What spreadsheets of western and central Europe and of Cyrillic scripts save as, where it is not UTF-8."""
KNOWN_ENCODINGS = (
    *(
        "utf-8",
        "utf-16",
        "cp1250",
        "cp1251",
        "cp1252",
        "cp1253",
        "cp1254",
        "cp1255",
        "cp1256",
        "cp1257",
        "latin-1",
    ),
    *("iso8859-2", "iso8859-15", "mac-roman", "koi8-r", "shift_jis", "euc-jp", "gb18030", "big5", "euc-kr"),
)


@dataclass(frozen=True)
class Cell:
    """What stands in one cell, without quotes and without blanks around it; `at` is where."""

    text: str
    at: Span


@dataclass(frozen=True)
class Row:
    """The cells of one row under the headings, by heading; `line` counts from 1, as an editor does."""

    cells: Mapping[str, Cell]
    at: Span

    @property
    def line(self) -> int:
        return self.at.line

    @property
    def is_empty(self) -> bool:
        return not any(cell.text for cell in self.cells.values())

    @cached_property
    def texts(self) -> tuple[str, ...]:
        return tuple(cell.text for cell in self.cells.values())


@dataclass(frozen=True)
class Table:
    """The rows of a file, and the headings that stand above them as they are written."""

    source: Source
    headings: tuple[str, ...]
    rows: tuple[Row, ...] = field(repr=False)
    separator: str = ","
    encoding: str | None = None
    """The one that was named; None where the file itself told."""

    def heading(self, wanted: str) -> str | None:
        """The heading that is called so, capitals and blanks around it aside."""
        return self._by_key.get(key_of(wanted))

    @cached_property
    def _by_key(self) -> Mapping[str, str]:
        return {key_of(heading): heading for heading in self.headings}


def key_of(heading: str) -> str:
    """What makes two headings the same."""
    return " ".join(normalize("NFC", heading).split()).casefold()


def read_table(
    path: str | Path, encoding: str | None = None, separator: str | None = None
) -> tuple[Table | None, Messages]:
    """The table in a file, less the rows that are not of its form, and every fault of that form; UnreadableSource tells
    a file that cannot be opened."""
    try:
        data = Path(path).read_bytes()
    except FileNotFoundError:
        raise UnreadableSource(str(path), "there is no such file") from None
    except IsADirectoryError:
        raise UnreadableSource(str(path), "it is a folder, not a table") from None
    except OSError as error:
        raise UnreadableSource(str(path), error.strerror or "it cannot be opened") from None
    return table_of(data, str(path), encoding, separator)


def table_of(
    data: bytes, name: str, encoding: str | None = None, separator: str | None = None
) -> tuple[Table | None, Messages]:
    """The same from the bytes of a file that is called `name`; None where it cannot be told what its columns are."""
    messages = Messages()
    text = _decoded(data, name, encoding, messages)
    if text is None:
        return None, messages
    source = Source(name, text.replace("\r\n", "\n").replace("\r", "\n"))
    chosen = separator or _separator_of(source, messages)
    table = _Reading(source, chosen, messages).table() if chosen else None
    return (replace(table, encoding=encoding) if table else None), messages


# Encodings


def _decoded(data: bytes, name: str, encoding: str | None, messages: Messages) -> str | None:
    if data.startswith(SPREADSHEETS):
        messages.add(says.NO_TEXT, at=None, file=name)
        return None
    mark, own = next(((mark, own) for mark, own in MARKS if data.startswith(mark)), (b"", None))
    chosen = own or encoding or "utf-8"
    if not is_text_encoding(chosen):
        near = did_you_mean(chosen, KNOWN_ENCODINGS)
        messages.add(says.UNKNOWN_ENCODING, at=None, said=f"--encoding {chosen}", near=near)
        return None
    try:
        text = data[len(mark) :].decode(chosen)
    except UnicodeError as fault:
        _say_not_text(data, name, chosen, getattr(fault, "start", 0) + len(mark), messages)
        return None
    if "\0" in text:
        _say_not_text(data, name, chosen, data.find(b"\0"), messages)
        return None
    return text


def is_text_encoding(name: str) -> bool:
    """Whether Python knows an encoding of text by this name."""
    try:
        return bool(codecs.lookup(name)._is_text_encoding)
    except (LookupError, ValueError):
        return False


def _say_not_text(data: bytes, name: str, encoding: str, place: int, messages: Messages) -> None:
    line = data[:place].count(b"\n") + 1
    mend = "Save it as UTF-8 text, or name its encoding, such as `--encoding cp1252`."
    if b"\0" in data[:200]:
        mend = "Save it as UTF-8 text; if it is a table saved as Unicode text, say `--encoding utf-16`."
    elif encoding == "utf-8" and (likely := list(_likely(data, place))):
        readings = ", or ".join(f"`--encoding {other}` if it reads `{reading}`" for other, reading in likely)
        mend = f"Save it as UTF-8 text, or say {readings}."
    messages.add(says.NOT_THIS_ENCODING, at=None, file=name, encoding=encoding, line=line, mend=mend)


def _likely(data: bytes, place: int) -> Iterator[tuple[str, str]]:
    """Other encodings, and how the word about the first odd byte would read in each."""
    start = max(re.search(rb"[^\s,;\"]*$", data[:place]).start(), place - 20)  # type: ignore[union-attr]
    word = re.match(rb"[^\s,;\"]{1,40}", data[start:])
    readings: set[str] = set()
    for other in LIKELY_ENCODINGS:
        try:
            reading = word[0].decode(other) if word else ""
        except UnicodeError:
            continue
        if reading.isprintable() and any(letter.isalpha() for letter in reading) and reading not in readings:
            readings.add(reading)
            yield other, reading


# Separators


def _separator_of(source: Source, messages: Messages) -> str | None:
    """The separator that gives every row as many cells as the heading; none where that leaves a choice."""
    counts = {
        mark: [len(row) for row in _cells_of(source.text, mark) if len(row) > 1 or row[0][0]]
        for mark in SEPARATORS
    }
    dividing = [mark for mark, found in counts.items() if found and found[0] > 1]
    if len(dividing) < 2:
        return dividing[0] if dividing else ","
    even = [mark for mark in dividing if len(set(counts[mark])) == 1]
    if len(even) == 1:
        return even[0]
    found = " and ".join(SEPARATORS[mark] for mark in dividing)
    first = source.span(0, max(len(source.line_text(1)), 1))
    messages.add(says.WHICH_SEPARATOR, at=first, found=found, first=SEPARATORS[dividing[0]])
    return None


# Cells

Piece = tuple[str, int, int]
"""The text of a cell, and where it starts and ends in the file."""


def _cells_of(text: str, separator: str) -> Iterator[list[Piece]]:
    """The cells of every row; blank lines are rows too. A quote that is never closed runs to the end."""
    mark = re.escape(separator)
    cell = re.compile(rf'[ ]*"((?:[^"]|"")*)("?)([^{mark}\n]*)|([^{mark}\n]*)')
    row: list[Piece] = []
    at = 0
    while at < len(text) or row:
        found = cell.match(text, at)
        assert found is not None  # the second way matches nothing, too
        row.append((_text_of(found), found.start(), found.end()))
        at = found.end()
        if text[at : at + 1] == separator:
            at += 1
            continue
        at += 1
        yield row
        row = []


def _text_of(found: re.Match[str]) -> str:
    if found[4] is not None:
        return found[4].strip()
    return (found[1].replace('""', '"') + found[3]).strip()


class _Reading:
    """Makes the table of a source, and says which rows are not of its form."""

    def __init__(self, source: Source, separator: str, messages: Messages) -> None:
        self.source, self.separator, self.messages = source, separator, messages

    def table(self) -> Table | None:
        rows = list(_cells_of(self.source.text, self.separator))
        while rows and not any(text for text, _, _ in rows[0]):
            rows.pop(0)
        if not rows:
            self.messages.add(says.NO_HEADINGS, at=None, file=self.source.name)
            return None
        headings = [text for text, _, _ in rows[0]]
        self._expect_different(rows[0])
        has_columns = not self.messages.has_errors
        whole = rows[1:-1] if self._has_open_quote(rows) else rows[1:]
        found = tuple(row for cells in whole if (row := self._row(headings, cells)))
        if not found and not self.messages.has_errors:
            self.messages.add(says.NO_ROWS, at=self._span(rows[0]), file=self.source.name)
        is_table = has_columns and found
        return Table(self.source, tuple(filter(None, headings)), found, self.separator) if is_table else None

    def _row(self, headings: Sequence[str], cells: list[Piece]) -> Row | None:
        """None for a blank line, and for a row that has not as many cells as there are headings."""
        at = self._span(cells)
        if len(cells) == 1 and not cells[0][0] and (len(headings) > 1 or not at.text):
            return None
        if len(cells) != len(headings):
            few = {"cells": _cells(len(cells)), "headings": len(headings), "mark": SEPARATORS[self.separator]}
            self.messages.say(says.UNEVEN_ROW, at, {"line": at.line, **few})
            return None
        named = zip(headings, cells, strict=True)
        span = self.source.span
        return Row({name: Cell(text, span(start, end)) for name, (text, start, end) in named if name}, at)

    def _span(self, cells: list[Piece]) -> Span:
        return self.source.span(cells[0][1], cells[-1][2])

    def _expect_different(self, heading: list[Piece]) -> None:
        counts = Counter(key_of(text) for text, _, _ in heading if text)
        for text, start, end in heading:
            if counts[key_of(text)] > 1:
                at = self.source.span(start, end)
                self.messages.add(says.HEADING_TWICE, at=at, heading=text, times=counts.pop(key_of(text)))

    def _has_open_quote(self, rows: list[list[Piece]]) -> bool:
        """Of a quote that is never closed only the last cell can have been the victim."""
        _, start, end = rows[-1][-1]
        written = self.source.text[start:end].strip()
        if not written.startswith('"') or written.count('"') % 2 == 0:
            return False
        line = self.source.position(start)[0]
        self.messages.add(says.OPEN_QUOTE, at=self.source.span(start, start + 1), line=line)
        return True


def _cells(count: int) -> str:
    return f"{count} cell{'s' * (count != 1)}"
