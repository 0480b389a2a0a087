"""Characters -> marks: words, amounts, quotes and signs, each with its place.

Takes a Source and gives its lines of marks and its remarks. A number and its unit are one mark, mixed
fractions too. Whether a word is a name or a word of the language is not decided here. What a keyboard or
another program makes of a plain sign (curly quotes, a long dash, `½`) is understood; where the text itself
should be mended, a message says so.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from drafting.syntax import tree
from drafting.syntax.vocabulary import ODD_MENDS, SIGNS_ELSEWHERE
from drafting.text.catalogue import syntax as says
from drafting.text.excerpt import TAB_STOP
from drafting.text.messages import Messages
from drafting.text.quantities import Quantity
from drafting.text.source import Source, Span

MarkKind = Literal["word", "number", "quote", "sign", "odd"]

BLANK = r"[^\S\n]"
MOST_DIGITS = 60
"""Of one number: far more than any measure has, and few enough to reckon with exactly."""

DECIMAL = r"[0-9]+(?:\.[0-9]+)?"
FRACTION = r"[0-9]+/[0-9]+"
MIXED = rf"[0-9]+{BLANK}+{FRACTION}"
UNIT = r"(?:mm|cm|in|oz|deg)"
INCH_MARKS = '"”″'
LAST_QUOTE = '(?![^"“”\\n]*["“”])'
PLAIN_SIGNS = {"−": "-", "’": "'", "‘": "'", "′": "'"}
"""Signs that phones and word processors set for a plain one, and that mean nothing else."""
JOINERS = "\u200c\u200d"
"""Some scripts need them inside a word."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One word, amount, quote or sign. `text` is what it means in plain signs; the places count characters."""

    kind: MarkKind
    text: str
    start: int
    end: int
    unit: str = ""
    number: Fraction = Fraction(0)
    line: int = 0
    """Which of the lines it stands in, from 0."""

    @property
    def number_terminal(self) -> str:
        return {"": "NUMBER", "oz": "OUNCES"}.get(self.unit, "LENGTH")


@dataclass(frozen=True, slots=True)
class Line:
    """A line with something on it. `indent` is the column its first mark stands in, from 0."""

    indent: int
    marks: list[Mark]


@lru_cache(maxsize=64)
def _mark_pattern(letters: str, inner: str) -> re.Pattern[str]:
    """What marks look like, given the letters beyond ASCII, and what else may stand inside a name."""
    letter, rest = f"A-Za-z{re.escape(letters)}", f"A-Za-z0-9_{re.escape(letters + inner)}"
    with_unit = rf"{BLANK}*(?P<unit>{UNIT})(?![{rest}])"
    return re.compile(
        rf"""
        (?P<blank>{BLANK}+|\ufeff)
      | (?P<line>\n)
      | (?P<remark>\#[^\n]*)
      | (?P<slashes>//[^\n]*|/\*[^\n]*?\*/|/\*[^\n]*|(?<=\s)--\ [^\n]*)
      | (?P<quote>"[^"\n]*"|[“”„‟][^“”„‟"\n]*[“”"])
      | (?P<index>(?<=[{rest}'’‘′]\.)[0-9]+)
      | (?P<hyphened>[0-9]+-{FRACTION})(?:[{INCH_MARKS}]|{with_unit.replace("unit>", "hyphen_unit>")})
      | (?P<inches>{MIXED}|{FRACTION}|{DECIMAL})(?:[{INCH_MARKS}]|{BLANK}+[{INCH_MARKS}]{LAST_QUOTE})
      | (?P<degrees>{DECIMAL}){BLANK}*[°º]
      | (?P<value>{MIXED}|{FRACTION}|{DECIMAL}){with_unit}
      | (?P<plain>{MIXED}|{DECIMAL})
      | (?P<pointed>(?<![{rest}.'’‘′])\.[0-9]+)(?:{with_unit.replace("unit>", "pointed_unit>")})?
      | (?P<word>[{letter}][{rest}]*['’‘′]?)
      | (?P<sign>\.\.|>=|<=|[():;,=<>+\-−*/.])
      | (?P<unclosed>["“”„‟][^\n]*)
      | (?P<odd>[^\w\s"“”„‟():;,=<>+\-−*/.\#]+|.)
        """,
        re.VERBOSE,
    )


@dataclass
class Marker:
    """Cuts one source into marks; slips within a mark are told at once."""

    source: Source
    messages: Messages
    lines: list[Line] = field(default_factory=list)
    remarks: list[tree.Remark] = field(default_factory=list)

    def mark(self) -> None:
        """Fill `lines` and `remarks` from the whole text."""
        text = self.source.text
        line: list[Mark] = []
        line_start = indent = 0
        for match in _mark_pattern(*_characters(text)).finditer(text):
            kind = _kind(match)
            if kind == "blank":
                continue
            if kind == "line":
                if line:
                    self.lines.append(Line(indent, line))
                line, line_start = [], match.end()
            elif kind == "remark":
                self._add_remark(match, not line)
            else:
                if not line:
                    indent = _column(text, line_start, match.start())
                line += self._marks(match, kind)
        if line:
            self.lines.append(Line(indent, line))

    def _add_remark(self, match: re.Match[str], own_line: bool) -> None:
        text = match.group()[1:].rstrip()
        span = self.source.span(match.start(), match.start() + 1 + len(text))
        self.remarks.append(tree.Remark(span, text, own_line))

    def _marks(self, match: re.Match[str], kind: str) -> list[Mark]:
        start, end = match.span()
        text = match.group()
        match kind:
            case "word":
                return [self._mark("word", _plain_name(text), start, end)]
            case "sign":
                return [self._mark("sign", PLAIN_SIGNS.get(text, text), start, end)]
            case "quote":
                return [self._mark("quote", text[1:-1], start, end)]
            case "unclosed":
                return [self._unclosed(text.rstrip(), start)]
            case "slashes":
                self.messages.add(says.SLASHES, at=self.source.span(start, start + 2), text=text[:2])
                return []
            case "odd":
                return self._odd(text, start)
            case _:
                return [self._number(match, kind)]

    def _mark(self, kind: MarkKind, text: str, start: int, end: int) -> Mark:
        return Mark(kind, text, start, end, line=len(self.lines))

    def _unclosed(self, text: str, start: int) -> Mark:
        """A quote up to the end of its line."""
        end = start + len(text)
        self.messages.add(says.UNCLOSED, at=self.source.span(start, end), text=_shortened(text))
        return self._mark("quote", text[1:].replace('"', ""), start, end)

    def _odd(self, text: str, start: int) -> list[Mark]:
        """Characters the language has no use for, each told; one that stands for a sign is read as that."""
        end = start + len(text)
        if text in SIGNS_ELSEWHERE:
            sign = SIGNS_ELSEWHERE[text]
            self.messages.add(
                says.ODD, at=self.source.span(start, end), what=f"`{text}`", mend=f"Write `{sign}`."
            )
            return [self._mark("sign", sign, start, end)]
        mend = ODD_MENDS.get(text[0], "Take it out.")
        what = f"`{text}`" if text.isprintable() and not text.isspace() else _named(text)
        self.messages.add(says.ODD, at=self.source.span(start, end), what=what, mend=mend)
        return [self._mark("odd", text, start, end)]

    def _number(self, match: re.Match[str], kind: str) -> Mark:
        """An amount; what is written another way than the language has it is told, and read as it is meant."""
        start, end = match.span()
        unit = match["unit"] or match["hyphen_unit"] or match["pointed_unit"] or ""
        written = " ".join(match[kind].split())
        if kind == "hyphened":
            written, unit = written.replace("-", " "), unit or "in"
        elif kind == "inches":
            unit = "in"
        elif kind == "degrees":
            unit = "deg"
        elif kind == "pointed":
            written = "0" + written
        digits = sum(map(str.isdigit, written))
        if digits > MOST_DIGITS:
            self.messages.add(
                says.TOO_MANY_DIGITS,
                at=self.source.span(start, end),
                count=digits,
                most=MOST_DIGITS,
            )
            written = "1"
        number = number_of(written)
        value = Fraction(1) if number is None else number
        mark = Mark("number", f"{written} {unit}".rstrip(), start, end, unit, value, len(self.lines))
        self._tell_number(mark, kind, number)
        return mark

    def _tell_number(self, mark: Mark, kind: str, number: Fraction | None) -> None:
        at = self.source.span(mark.start, mark.end)
        if number is None:
            self.messages.add(says.DIVIDED_BY_NOTHING, at=at, written=at.text)
        elif kind == "hyphened":
            whole = mark.text.split()[0]
            self.messages.add(says.HYPHENED, at=at, written=at.text, whole=whole, meant=mark.text)
        elif kind == "inches":
            self.messages.add(says.INCH_MARK, at=at, written=at.text, meant=mark.text)
        elif kind == "degrees":
            self.messages.add(says.DEGREE_SIGN, at=at, written=at.text, meant=mark.text)
        elif kind == "pointed":
            self.messages.add(says.LEADING_POINT, at=at, written=at.text, meant=mark.text)


def _kind(match: re.Match[str]) -> str:
    kind = match.lastgroup or "odd"
    if kind in ("unit", "hyphen_unit", "pointed_unit"):
        return {"unit": "value", "hyphen_unit": "hyphened", "pointed_unit": "pointed"}[kind]
    return kind


def _characters(text: str) -> tuple[str, str]:
    """Of the characters beyond ASCII: the letters, and those that may stand inside a name only."""
    if text.isascii():
        return "", ""
    beyond = [character for character in sorted(set(text)) if not character.isascii()]
    letters = [character for character in beyond if unicodedata.category(character).startswith("L")]
    inner = [
        character
        for character in beyond
        if unicodedata.category(character) in ("Mn", "Mc", "Nd") or character in JOINERS
    ]
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


def _plain_name(text: str) -> str:
    if text.isascii():
        return text
    if text[-1] in PLAIN_SIGNS:
        text = text[:-1] + PLAIN_SIGNS[text[-1]]
    return unicodedata.normalize("NFC", text)


def _named(text: str) -> str:
    """Of characters that cannot be seen, the first by its number."""
    return f"The invisible character U+{ord(text[0]):04X}"


def _shortened(text: str, longest: int = 30) -> str:
    return text if len(text) <= longest else text[: longest - 1].rstrip() + "…"


@lru_cache(maxsize=4096)
def number_of(written: str) -> Fraction | None:
    """`5`, `3.85`, `5/8` and `5 1/4` as exact numbers; None where a fraction has nothing below its line."""
    try:
        return sum((Fraction(part) for part in written.split()), Fraction(0))
    except ZeroDivisionError:
        return None


def amount_of(mark: Mark, source: Source) -> tree.Amount:
    span = Span(source, mark.start, mark.end)
    return tree.Amount(span, Quantity.of(mark.number, mark.unit), mark.text)
