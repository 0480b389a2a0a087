"""Words as runs of letters, each run in a font that has them, ready for a PDF.

Arimo comes first, then the packaged fonts of further scripts, then what the machine has in its usual folders: only for
letters that no packaged font has may two machines give different bytes. Of a font that ReportLab cannot carry (outlines
of PostScript, as many of China, Japan and Korea have) the letters are drawn as shapes.

HarfBuzz joins and stacks letters where their script needs it; python-bidi tells which way they run, after Unicode's
UAX 9.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache, lru_cache
from unicodedata import bidirectional

from bidi.mirror import MIRRORED
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import ShapedStr, TTFError, TTFont, shapeStr

from drafting.drawing.fonts import FONT, MissingLetters, Step, by_font, drawn, file_of, visual_parts
from drafting.drawing.lettering import has_known_width
from drafting.records import dataclass

ALIKE = {"⌀": "Ø"}
"""Signs that Arimo lacks, and what looks the same in it."""
RIGHT_TO_LEFT = ("R", "AL")


@dataclass(frozen=True)
class Run:
    """Letters of one font as they follow each other on the line. `width` is in sizes of the font.

    Where the font cannot be carried, `shapes` are the steps of the letters' outlines, in sizes of the font.
    """

    font: str
    text: str
    width: float
    shapes: tuple[Step, ...] = ()


@lru_cache(maxsize=4096)
def runs_of(text: str) -> tuple[Run, ...]:
    """The words from left to right. Raises MissingLetters."""
    for missing, alike in ALIKE.items():
        text = text.replace(missing, alike)
    if all(map(is_plain, text)):
        register(FONT)
        return (Run(FONT, text, pdfmetrics.stringWidth(text, FONT, 1.0)),)
    return tuple(run for part, is_backward in visual_parts(text) for run in _runs(part, is_backward))


def width_of(text: str) -> float:
    """How wide the words are, in sizes of the font."""
    return sum(run.width for run in runs_of(text))


def is_plain(letter: str) -> bool:
    """A letter of Arimo that stands by itself and runs to the right."""
    return has_known_width(letter) and bidirectional(letter) not in RIGHT_TO_LEFT


def expect_letters(texts: Iterable[str]) -> None:
    """Raises MissingLetters for all that is missing, at once."""
    missing: list[str] = []
    for text in texts:
        try:
            runs_of(text)
        except MissingLetters as fault:
            missing += fault.letters
    if missing:
        raise MissingLetters(missing)


def letters_lacking(text: str) -> tuple[str, ...]:
    """The letters that no font has, each once."""
    try:
        runs_of(text)
    except MissingLetters as fault:
        return fault.letters
    return ()


def _runs(part: str, is_backward: bool) -> Iterator[Run]:
    for font, letters in by_font(part, is_backward):
        yield _run(font, letters, is_backward)


def _run(font: str, letters: str, is_backward: bool) -> Run:
    """Shaped; signs that run backward without a letter that says so are turned by hand."""
    if not is_carried(font):
        return Run(font, letters, *drawn(font, letters, is_backward))
    if is_backward and not any(bidirectional(letter) in RIGHT_TO_LEFT for letter in letters):
        letters = "".join(MIRRORED.get(letter, letter) for letter in reversed(letters))
    shaped = shapeStr(letters, font, 1000.0)
    if not isinstance(shaped, ShapedStr):
        return Run(font, shaped, pdfmetrics.stringWidth(shaped, font, 1.0))
    return Run(font, shaped, sum(one.x_advance for one in shaped.__shapeData__) / 1000)


@cache
def is_carried(font: str) -> bool:
    """Whether ReportLab can put the font itself into a PDF."""
    try:
        register(font)
    except TTFError:
        return False
    return True


@cache
def register(font: str) -> None:
    """Make a font known to ReportLab. Raises TTFError for one that it cannot carry."""
    try:
        file = file_of(font)
    except KeyError:
        raise FileNotFoundError("the package fontpkg-arimo is missing, whose letters a PDF carries") from None
    pdfmetrics.registerFont(TTFont(font, str(file)))
