"""What tests of files share."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from drafting.drawing import font_outlines, fonts
from drafting.output import letters
from tests.output.tiny_font import make_font

Fonts = Callable[..., None]


@pytest.fixture
def machine_has(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Fonts]:
    """Say which letters the fonts of this machine have: `machine_has("革", postscript=True)`."""
    caches = (
        fonts.machine_fonts,
        letters.runs_of,
        fonts.letters_of,
        fonts.face_of,
        letters.is_carried,
        font_outlines.outlines_of_word,
    )
    folder = tmp_path / "fonts"
    folder.mkdir()
    monkeypatch.setattr(fonts, "font_folders", lambda: [folder])
    monkeypatch.setattr(fonts, "_FILES", {})
    fonts.packaged_fonts.cache_clear()

    def has(text: str, *, postscript: bool = False) -> None:
        kind = "Shapes" if postscript else "Carried"
        make_font(folder / f"{kind}{len(list(folder.iterdir()))}.otf", text, postscript=postscript)
        forget()

    def forget() -> None:
        for cache in caches:
            cache.cache_clear()

    forget()
    yield has
    monkeypatch.undo()
    forget()
    fonts.packaged_fonts.cache_clear()
