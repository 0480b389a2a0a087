"""Where the font is whose letters go into files: Arimo, from its package."""

from __future__ import annotations

from functools import cache
from importlib.util import find_spec
from pathlib import Path


@cache
def font_files() -> list[str]:
    """The regular Arimo font, or nothing where its package is missing: then the machine's own fonts serve."""
    package = find_spec("fontpkg_arimo")
    if package is None or package.origin is None:
        return []
    return [str(path) for path in sorted((Path(package.origin).parent / "files").glob("Arimo[[]wght[]].ttf"))]
