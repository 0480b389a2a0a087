"""Words as runs of letters, each run in a font that has them, ready for a PDF.

Arimo comes first, then the packaged fonts of further scripts, then what the machine has in its usual folders: only for
letters that no packaged font has may two machines give different bytes. Of a font that ReportLab cannot carry (outlines
of PostScript, as many of China, Japan and Korea have) the letters are drawn as shapes.

HarfBuzz joins and stacks letters where their script needs it; python-bidi tells which way they run, after Unicode's
UAX 9.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator, Sequence
from functools import cache, lru_cache
from importlib.machinery import ModuleSpec
from importlib.util import find_spec
from itertools import groupby
from pathlib import Path
from typing import Any
from unicodedata import bidirectional, category, name

from bidi import algorithm
from bidi.mirror import MIRRORED
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import ShapedStr, TTFError, TTFont, shapeStr

from drafting.drawing.lettering import has_known_width
from drafting.records import dataclass

ALIKE = {"⌀": "Ø"}
"""Signs that Arimo lacks, and what looks the same in it."""
FONT = "Arimo"
FOLDERS = {
    "darwin": ("/System/Library/Fonts", "/Library/Fonts", "~/Library/Fonts"),
    "win32": ("%WINDIR%/Fonts", "%LOCALAPPDATA%/Microsoft/Windows/Fonts"),
}
OTHER_FOLDERS = ("/usr/share/fonts", "/usr/local/share/fonts", "~/.local/share/fonts", "~/.fonts")
FANCY = ("bold", "italic", "oblique", "light", "thin", "black", "medium", "condensed", "mono", "serif")
"""A name with none of these is asked first."""
RIGHT_TO_LEFT = ("R", "AL")


class MissingLetters(ValueError):
    """Letters that no font has, neither of the packages nor of the machine."""

    def __init__(self, letters: Iterable[str]) -> None:
        self.letters = tuple(dict.fromkeys(letters))
        super().__init__(f"no font has {self.told}")

    @property
    def told(self) -> str:
        """`あ` (HIRAGANA LETTER A) …; the first few of them."""
        first = [f"`{letter}` ({name(letter, 'without a name')})" for letter in self.letters[:3]]
        return ", ".join(first) + (f" and {len(self.letters) - 3} more" if len(self.letters) > 3 else "")


Step = tuple[str, tuple[float, ...]]
"""What a pen does, `move`, `line`, `curve` or `close`, and the places it goes by: x, y, x, y …"""


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
    return tuple(run for part, is_backward in _visual_parts(text) for run in _runs(part, is_backward))


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


# Which way letters run


def _visual_parts(text: str) -> Iterator[tuple[str, bool]]:
    """Parts that run one way, from left to right on the line, each in the order it is read."""
    storage = algorithm.get_empty_storage()
    storage["base_level"] = algorithm.get_base_level(text)
    storage["base_dir"] = "LR"[storage["base_level"]]
    algorithm.get_embedding_levels(text, storage)
    algorithm.explicit_embed_and_overrides(storage)
    for resolve in (
        algorithm.resolve_weak_types,
        algorithm.resolve_neutral_types,
        algorithm.resolve_implicit_levels,
        algorithm.reorder_resolved_levels,
    ):
        resolve(storage, False)
    for level, letters in groupby(storage["chars"], key=lambda one: one["level"]):
        part = [one["ch"] for one in letters]
        yield "".join(part[::-1] if level % 2 else part), bool(level % 2)


def _runs(part: str, is_backward: bool) -> Iterator[Run]:
    by_font = [(font, "".join(letter for _, letter in same)) for font, same in groupby(_fonts(part), _first)]
    for font, letters in reversed(by_font) if is_backward else by_font:
        yield _run(font, letters, is_backward)


def _first(pair: tuple[str, str]) -> str:
    return pair[0]


def _fonts(part: str) -> Iterator[tuple[str, str]]:
    """The font of each letter; marks, blanks and signs stay in the font before them if that has them."""
    missing: list[str] = []
    here = FONT
    for letter in part:
        stays = category(letter)[0] in "MZPNC" and ord(letter) in letters_of(here)
        font = here if stays else font_with(letter)
        if font is None and category(letter) not in ("Cf", "Cc"):
            missing.append(letter)
        here = font or here
        yield here, letter
    if missing:
        raise MissingLetters(missing)


def _run(font: str, letters: str, is_backward: bool) -> Run:
    """Shaped; signs that run backward without a letter that says so are turned by hand."""
    if not is_carried(font):
        return _drawn_run(font, letters, is_backward)
    if is_backward and not any(bidirectional(letter) in RIGHT_TO_LEFT for letter in letters):
        letters = "".join(MIRRORED.get(letter, letter) for letter in reversed(letters))
    shaped = shapeStr(letters, font, 1000.0)
    if not isinstance(shaped, ShapedStr):
        return Run(font, shaped, pdfmetrics.stringWidth(shaped, font, 1.0))
    return Run(font, shaped, sum(one.x_advance for one in shaped.__shapeData__) / 1000)


def _drawn_run(font: str, letters: str, is_backward: bool) -> Run:
    """The same letters as shapes."""
    import uharfbuzz

    shaper, units = uharfbuzz.Font(face_of(font)), face_of(font).upem
    buffer = uharfbuzz.Buffer()
    buffer.add_str(letters)
    buffer.guess_segment_properties()
    buffer.direction = "rtl" if is_backward else "ltr"
    uharfbuzz.shape(shaper, buffer)
    steps: list[Step] = []
    left = 0
    for glyph, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        pen = _Pen(left + place.x_offset, place.y_offset, units, steps)
        shaper.draw_glyph_with_pen(glyph.codepoint, pen)
        left += place.x_advance
    return Run(font, letters, left / units, tuple(steps))


@dataclass(frozen=True)
class _Pen:
    """Takes down what is drawn of a letter, from its place on the line on; named as HarfBuzz calls it."""

    left: float
    up: float
    units: float
    steps: list[Step]

    def moveTo(self, place: tuple[float, float]) -> None:
        self._step("move", place)

    def lineTo(self, place: tuple[float, float]) -> None:
        self._step("line", place)

    def curveTo(self, *places: tuple[float, float]) -> None:
        self._step("curve", *places)

    def qCurveTo(self, handle: tuple[float, float], place: tuple[float, float]) -> None:
        """A curve of the second degree has its two handles on the way to its one."""
        last = self.steps[-1][1]
        start = last[-2] * self.units - self.left, last[-1] * self.units - self.up
        first, second = (
            tuple(end + 2 / 3 * (at - end) for end, at in zip(point, handle, strict=True))
            for point in (start, place)
        )
        self._step("curve", first, second, place)

    def closePath(self) -> None:
        self.steps.append(("close", ()))

    def endPath(self) -> None:
        self.closePath()

    def _step(self, kind: str, *places: tuple[float, ...]) -> None:
        flat = [
            part for x, y in places for part in ((x + self.left) / self.units, (y + self.up) / self.units)
        ]
        self.steps.append((kind, tuple(flat)))


# Fonts


@dataclass(frozen=True)
class FontFile:
    path: Path

    @property
    def name(self) -> str:
        return self.path.stem.partition("[")[0]


def font_with(letter: str) -> str | None:
    """The first font that has a letter."""
    for font in packaged_fonts():
        if ord(letter) in letters_of(font):
            return font
    return next((font for font in machine_fonts() if ord(letter) in letters_of(font)), None)


@cache
def packaged_fonts() -> tuple[str, ...]:
    """In the order in which they are asked for a letter."""
    packages = (
        find_spec("fontpkg_arimo"),
        find_spec("fontpkg_noto_sans_arabic"),
        find_spec("fontpkg_noto_sans_devanagari"),
        find_spec("fontpkg_noto_sans_thai"),
    )
    return tuple(font for package in packages for font in _known(_package_files(package)))


@cache
def machine_fonts() -> tuple[str, ...]:
    """All that is in the usual folders, plain ones first; looked through only when a letter is wanting."""
    kinds = ("*.ttf", "*.ttc", "*.otf", "*.otc")
    paths = [path for folder in font_folders() for kind in kinds for path in folder.rglob(kind)]
    return tuple(_known(sorted(paths, key=lambda path: (_is_fancy(path), path.name))))


def font_folders() -> list[Path]:
    named = FOLDERS.get(sys.platform, OTHER_FOLDERS)
    folders = [Path(os.path.expandvars(folder)).expanduser() for folder in named]
    return [folder for folder in folders if folder.is_dir()]


def _is_fancy(path: Path) -> bool:
    return any(word in path.stem.lower() for word in FANCY)


def _package_files(package: ModuleSpec | None) -> list[Path]:
    if package is None or package.origin is None:
        return []
    files = (Path(package.origin).parent / "files").glob("*.ttf")
    return sorted(path for path in files if "Italic" not in path.name)


_FILES: dict[str, FontFile] = {}


def _known(paths: Sequence[Path]) -> Iterator[str]:
    """The names that fonts have here."""
    for path in paths:
        font = FontFile(path)
        if _FILES.setdefault(font.name, font) == font:
            yield font.name


@cache
def letters_of(font: str) -> frozenset[int]:
    """The code points a font has; of a file that is no font, none."""
    import uharfbuzz

    try:
        return frozenset(face_of(font).unicodes)
    except (OSError, ValueError, uharfbuzz.HarfBuzzError):
        return frozenset()


@cache
def face_of(font: str) -> Any:
    """The font as HarfBuzz has it."""
    import uharfbuzz

    packaged_fonts()
    return uharfbuzz.Face(uharfbuzz.Blob.from_file_path(str(_FILES[font].path)))


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
    packaged_fonts()
    if font not in _FILES:
        raise FileNotFoundError("the package fontpkg-arimo is missing, whose letters a PDF carries")
    pdfmetrics.registerFont(TTFont(font, str(_FILES[font].path)))
