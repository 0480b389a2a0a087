"""How wide words are and how they break: lettering in millimetres.

Heights are those of ISO 3098 and mean the height of a capital, never the size of the font. Widths come from a table of
the Arimo typeface, whose letters are as wide as those of the sans-serif faces found on nearly every machine; a letter
that Arimo lacks counts as wide as it can be, so that words in any script keep their room.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from unicodedata import category, east_asian_width, normalize

from drafting.drawing.lettering_widths import CAPITAL, EM, WIDTHS

HEIGHTS: tuple[float, ...] = (1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0)
"""The series of ISO 3098-0 that is used here, in mm."""
LINE_PITCH = 1.6
"""From one line to the next, in lettering heights (ISO 3098-0 type B allows 1.9, 1.5 and 1.3)."""
LONGEST_WORDS = 30.0
"""Of a note on a dimension or leader, in lettering heights: about forty letters."""
FAMILIES = ("Arimo", "Liberation Sans", "Arial", "Helvetica", "sans-serif")

_DESCENDERS = frozenset("gjpqyQJ,;()[]{}|@$_/\\çşţµ€§")
_UNITS = {letter: units for units, letters in WIDTHS.items() for letter in letters}
_UNITS["⌀"] = _UNITS["Ø"]


def font_size(height: float) -> float:
    """The size of the font, in mm, at which its capitals are `height` mm high."""
    return height * EM / CAPITAL


@lru_cache(maxsize=4096)
def natural_width(text: str, height: float) -> float:
    """How much room a line of words takes, in mm."""
    return sum(_units(letter) for letter in text) / CAPITAL * height


def _units(letter: str) -> int:
    known = _UNITS.get(letter)
    if known is not None:
        return known
    if category(letter) in ("Mn", "Me", "Cf"):
        return 0
    return EM if east_asian_width(letter) in ("W", "F") else EM * 4 // 5


@lru_cache(maxsize=4096)
def has_descender(text: str) -> bool:
    """True when something reaches below the line the letters stand on; beyond Latin we expect it to."""
    return any(letter in _DESCENDERS or (ord(letter) > 0x24F and letter not in "⌀−–…×") for letter in text)


@lru_cache(maxsize=4096)
def plain_text(text: str) -> str:
    """The text as it can stand on one line: line ends and other controls become blanks."""
    letters = (" " if category(letter) in ("Cc", "Zl", "Zp") else letter for letter in normalize("NFC", text))
    shown = (letter for letter in letters if category(letter) not in ("Cs", "Cn"))
    return " ".join("".join(shown).split())


Width = Callable[[str, float], float]
"""How much room a line of words takes in mm, by its letters' height."""


def wrap(text: str, height: float, width: float, width_of: Width = natural_width) -> list[str]:
    """The text in lines of at most `width` mm; a word that is wider breaks where the room ends."""
    lines: list[str] = []
    line = ""
    for word in (
        part for whole in plain_text(text).split(" ") for part in _broken(whole, height, width, width_of)
    ):
        longer = f"{line} {word}" if line else word
        if line and width_of(longer, height) > width:
            lines.append(line)
            line = word
        else:
            line = longer
    return [*lines, line] if line else lines


def _broken(word: str, height: float, width: float, width_of: Width) -> list[str]:
    """A word in parts that each fit, at least one letter a part."""
    if width_of(word, height) <= width:
        return [word]
    parts: list[str] = []
    part = ""
    for letter in word:
        if part and width_of(part + letter, height) > width:
            parts.append(part)
            part = ""
        part += letter
    return [*parts, part]


def clip(lines: list[str], height: float, width: float, most: int) -> list[str]:
    """At most so many lines; an ellipsis ends the last one where more was left."""
    if len(lines) <= most:
        return lines
    last = lines[most - 1]
    while last and natural_width(f"{last}…", height) > width:
        last = last[:-1]
    return [*lines[: most - 1], f"{last.rstrip()}…"]


def short_words(text: str) -> str:
    """A note of the maker as it can stand on a leader; the whole of it is in the description of the group."""
    lines = clip(wrap(text, 1.0, LONGEST_WORDS), 1.0, LONGEST_WORDS, 1)
    return lines[0] if lines else ""


def heights_from(height: float, least: float = HEIGHTS[0]) -> list[float]:
    """The heights of the series from `height` down to `least`, largest first."""
    return [step for step in reversed(HEIGHTS) if least <= step <= height]


def has_fixed_width(text: str) -> bool:
    """True when every letter is as wide in any typeface that is likely to stand in for Arimo."""
    return bool(text) and all(
        has_known_width(letter) or east_asian_width(letter) in ("W", "F") for letter in text
    )


def has_known_width(letter: str) -> bool:
    """True for a letter of the table."""
    return letter in _UNITS
