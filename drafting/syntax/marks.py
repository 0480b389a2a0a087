"""Characters -> marks: words, amounts, quotes and signs, each with its place.

Takes a Source and gives its lines of marks and its remarks. A number and its unit are one mark, mixed fractions too.
Whether a word is a name or a word of the language is not decided here. What a keyboard or another program makes of a
plain sign (curly quotes, a long dash, `½`) is understood; where the text itself should be mended, a message says so.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from drafting.syntax import tree
from drafting.text.catalogue import syntax as says
from drafting.text.excerpt import TAB_STOP
from drafting.text.messages import Messages
from drafting.text.quantities import Quantity
from drafting.text.source import Source, Span

MarkKind = Literal["word", "number", "quote", "sign", "odd"]


@dataclass(frozen=True, slots=True)
class Mark:
    """One word, amount, quote or sign. `text` is what it means in plain signs; the places count characters."""

    kind: MarkKind
    text: str
    start: int
    end: int
    unit: str = ""
    number: Fraction = Fraction(0)

    @property
    def terminal_of_number(self) -> str:
        return {"": "NUMBER", "oz": "OUNCES"}.get(self.unit, "LENGTH")


@dataclass(frozen=True, slots=True)
class Line:
    """A line with something on it. `indent` is the column its first mark stands in, from 0."""

    indent: int
    marks: list[Mark]


@dataclass
class Marked:
    """A text as marks; `remarks` stand apart."""

    lines: list[Line] = field(default_factory=list)
    remarks: list[tree.Remark] = field(default_factory=list)


NUMBER = r"(?:[0-9]+[ \t\xa0]+[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?)"
FRACTION = r"[0-9]+/[0-9]+"
UNIT = r"(?:mm|cm|in|oz|deg)"
INCH_MARKS = '"”″'
OPEN_QUOTES = '"“”„‟'
PLAIN_SIGNS = {"−": "-", "’": "'", "‘": "'", "′": "'"}
"""Signs that phones and word processors set for a plain one, and that mean nothing else."""

JOINERS = "\u200c\u200d"
"""Some scripts need them inside a word."""


@lru_cache(maxsize=64)
def _mark_pattern(letters: str, inner: str) -> re.Pattern[str]:
    """What marks look like, given the letters beyond ASCII, and what else may stand inside a name."""
    letter, rest = f"A-Za-z{re.escape(letters)}", f"A-Za-z0-9_{re.escape(letters + inner)}"
    word_ends = f"(?![{rest}])"
    return re.compile(
        rf"""
        (?P<blank>[^\S\n]+|\ufeff)
      | (?P<line>\n)
      | (?P<remark>\#[^\n]*)
      | (?P<quote>"[^"\n]*"|[“”„‟][^“”„‟"\n]*[“”"])
      | (?P<number>
            (?P<inches>{NUMBER}|{FRACTION})[{INCH_MARKS}]
          | (?P<value>{NUMBER}|{FRACTION})[^\S\n]*(?P<unit>{UNIT}){word_ends}
          | (?P<plain>{NUMBER})
        )
      | (?P<word>[{letter}][{rest}]*['’‘′]?)
      | (?P<sign>\.\.|>=|<=|[():;,=<>+\-−*/.])
      | (?P<odd>.)
        """,
        re.VERBOSE,
    )


def mark_text(source: Source, messages: Messages) -> Marked:
    """Cut the whole text into marks; slips within a mark are told at once."""
    marked = Marked()
    pattern = _mark_pattern(*_characters(source.text))
    line: list[Mark] = []
    indent = 0
    line_start = 0
    for match in pattern.finditer(source.text):
        kind = match.lastgroup if match.lastgroup not in ("inches", "unit", "plain", "value") else "number"
        if kind == "blank":
            continue
        if kind == "line":
            if line:
                marked.lines.append(Line(indent, line))
            line, line_start = [], match.end()
            continue
        if kind == "remark":
            text = match.group()[1:].rstrip()
            span = source.span(match.start(), match.start() + 1 + len(text))
            marked.remarks.append(tree.Remark(span, text, not line))
            continue
        if not line:
            indent = _column(source.text, line_start, match.start())
        line.append(_mark(match, kind or "odd", source, messages))
    if line:
        marked.lines.append(Line(indent, line))
    return marked


def _characters(text: str) -> tuple[str, str]:
    """Of the characters beyond ASCII: the letters, and those that may stand inside a name only."""
    if text.isascii():
        return "", ""
    letters, inner = [], []
    for character in sorted(set(text)):
        if character.isascii():
            continue
        category = unicodedata.category(character)
        if category.startswith("L"):
            letters.append(character)
        elif category.startswith("M") or category == "Nd" or character in JOINERS:
            inner.append(character)
    return "".join(letters), "".join(inner)


def _column(text: str, start: int, end: int) -> int:
    """The column `end` stands in, where a tab runs on to the next stop."""
    column = 0
    for character in text[start:end]:
        if character == "\t":
            column += TAB_STOP - column % TAB_STOP
        elif character != "\ufeff":
            column += 1
    return column


def _mark(match: re.Match[str], kind: str, source: Source, messages: Messages) -> Mark:
    start, end = match.span()
    text = match.group()
    if kind == "word":
        return Mark("word", _plain_name(text), start, end)
    if kind == "number":
        return _number(match, source, messages)
    if kind == "quote":
        return Mark("quote", text[1:-1], start, end)
    if kind == "sign":
        return Mark("sign", PLAIN_SIGNS.get(text, text), start, end)
    return Mark("odd", text, start, end)


def _plain_name(text: str) -> str:
    if text.isascii():
        return text
    if text[-1] in PLAIN_SIGNS:
        text = text[:-1] + PLAIN_SIGNS[text[-1]]
    return unicodedata.normalize("NFC", text)


def _number(match: re.Match[str], source: Source, messages: Messages) -> Mark:
    """An amount. `5 1/4"` is read as inches and told."""
    start, end = match.span()
    inches, value, unit, plain = match.group("inches", "value", "unit", "plain")
    written = " ".join((inches or value or plain).split())
    if inches:
        unit = "in"
        messages.add(says.INCH_MARK, at=source.span(start, end), written=match.group(), meant=f"{written} in")
    number = number_of(written)
    if number is None:
        messages.add(says.DIVIDED_BY_NOTHING, at=source.span(start, end), written=written)
        number = Fraction(1)
    return Mark("number", f"{written} {unit}" if unit else written, start, end, unit or "", number)


def number_of(written: str) -> Fraction | None:
    """`5`, `3.85`, `5/8` and `5 1/4` as exact numbers; None where a fraction has nothing below its line."""
    try:
        return sum((Fraction(part) for part in written.split()), Fraction(0))
    except ZeroDivisionError:
        return None


def amount_of(mark: Mark, source: Source) -> tree.Amount:
    span = Span(source, mark.start, mark.end)
    return tree.Amount(span, Quantity.of(mark.number, mark.unit), mark.text)
