"""Which font has a letter, which way words run, and what letters look like once their script has joined them.

Arimo comes first, then the packaged fonts of further scripts, then what the machine has in its usual folders: only for
letters that no packaged font has may two machines give different lines. HarfBuzz joins and stacks letters where their
script needs it; python-bidi tells which way they run, after Unicode's UAX 9.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator, Sequence
from functools import cache, lru_cache
from importlib.machinery import ModuleSpec
from importlib.util import find_spec
from itertools import groupby
from operator import itemgetter
from pathlib import Path
from typing import Any
from unicodedata import category, name

from drafting.drawing.brackets import resolve_brackets
from drafting.records import dataclass

FONT = "Arimo"
FOLDERS = {
    "darwin": ("/System/Library/Fonts", "/Library/Fonts", "~/Library/Fonts"),
    "win32": ("%WINDIR%/Fonts", "%LOCALAPPDATA%/Microsoft/Windows/Fonts"),
}
EAST_ASIAN = ("CJK ", "HIRAGANA ", "KATAKANA ", "HANGUL ", "BOPOMOFO ", "IDEOGRAPHIC ")
"""How Unicode's names of such letters begin."""
EAST_ASIAN_PACKAGE = "noto-cjk-sans-jp-regular"
"""Large, and wanted by few: it is asked for letters where it is installed."""
OTHER_FOLDERS = ("/usr/share/fonts", "/usr/local/share/fonts", "~/.local/share/fonts", "~/.fonts")
FANCY = ("bold", "italic", "oblique", "light", "thin", "black", "medium", "condensed", "mono", "serif")
"""A name with none of these is asked first."""


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


def way_to(letters: Iterable[str]) -> str:
    """How letters that no font has come to be there, as part of a mend."""
    if any(name(letter, "").startswith(EAST_ASIAN) for letter in letters):
        return f"install the letters of China, Japan and Korea with `pip install {EAST_ASIAN_PACKAGE}`"
    return f"put a font that has these (a `.ttf` file) where this machine keeps its fonts, such as `{_own_folder()}`"


Step = tuple[str, tuple[float, ...]]
"""What a pen does, `move`, `line`, `curve` or `close`, and the places it goes by: x, y, x, y …"""


# Which way letters run


JOINERS = "\u200c\u200d"
"""What forbids letters to join or has them join; the rules leave it out, here it goes with the letter before."""


def visual_parts(text: str) -> Iterator[tuple[str, bool]]:
    """Parts that run one way, from left to right on the line, each in the order it is read."""
    from bidi import algorithm

    storage = algorithm.get_empty_storage()
    storage["base_level"] = algorithm.get_base_level(text)
    storage["base_dir"] = "LR"[storage["base_level"]]
    algorithm.get_embedding_levels(text, storage)
    for one in storage["chars"]:
        one["type"] = "NSM" if one["ch"] in JOINERS else one["type"]
    algorithm.explicit_embed_and_overrides(storage)
    algorithm.resolve_weak_types(storage, False)
    resolve_brackets(storage)
    for resolve in (
        algorithm.resolve_neutral_types,
        algorithm.resolve_implicit_levels,
        algorithm.reorder_resolved_levels,
    ):
        resolve(storage, False)
    for level, letters in groupby(storage["chars"], key=lambda one: one["level"]):
        part = [one["ch"] for one in letters]
        yield "".join(part[::-1] if level % 2 else part), bool(level % 2)


def fonts_of(part: str) -> Iterator[tuple[str, str]]:
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


def by_font(part: str, is_backward: bool) -> list[tuple[str, str]]:
    """Letters that run one way as they are set from left to right: the name of each font, and what is set in it in the
    order it is read. Raises MissingLetters."""
    parts = [
        (font, "".join(letter for _, letter in same)) for font, same in groupby(fonts_of(part), itemgetter(0))
    ]
    return parts[::-1] if is_backward else parts


@lru_cache(maxsize=4096)
def set_width(text: str) -> float:
    """How wide a line of words comes out in sizes of the font, each letter in the font it has, joined as its script
    joins it. Raises MissingLetters."""
    return sum(
        drawn(font, letters, is_backward)[0]
        for part, is_backward in visual_parts(text)
        for font, letters in by_font(part, is_backward)
    )


# Letters as their script has them


def drawn(font: str, letters: str, is_backward: bool) -> tuple[float, tuple[Step, ...]]:
    """How wide letters of one font are together, and the steps of their outlines, in sizes of the font; `letters` in
    the order they are read, the steps from left to right."""
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
    return left / units, tuple(steps)


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
        find_spec("noto_cjk_sans_jp_regular"),
    )
    return tuple(font for package in packages for font in _known(_package_files(package)))


@cache
def machine_fonts() -> tuple[str, ...]:
    """All that is in the usual folders, plain ones first; looked through only when a letter is wanting."""
    kinds = ("*.ttf", "*.ttc", "*.otf", "*.otc")
    paths = [path for folder in font_folders() for kind in kinds for path in folder.rglob(kind)]
    return tuple(_known(sorted(paths, key=lambda path: (_is_fancy(path), path.name))))


def _own_folder() -> str:
    """Where somebody puts a font for themselves alone."""
    return next(folder for folder in _named_folders() if folder[0] in "~%" and "WINDIR" not in folder)


def _named_folders() -> tuple[str, ...]:
    return FOLDERS.get(sys.platform, OTHER_FOLDERS)


def font_folders() -> list[Path]:
    folders = [Path(os.path.expandvars(folder)).expanduser() for folder in _named_folders()]
    return [folder for folder in folders if folder.is_dir()]


def _is_fancy(path: Path) -> bool:
    return any(word in path.stem.lower() for word in FANCY)


def _package_files(package: ModuleSpec | None) -> list[Path]:
    if package is None or package.origin is None:
        return []
    folder = Path(package.origin).parent
    files = (*folder.glob("files/*.ttf"), *folder.glob("*.otf"))
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


def file_of(font: str) -> Path:
    """Where a font is. KeyError for one that is not there."""
    packaged_fonts()
    return _FILES[font].path
