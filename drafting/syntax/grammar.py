"""The grammar folder, wherever the package stands.

Takes the name of a file of the folder `grammar` and gives its text: from inside the installed package, or, in
a source tree, from beside it.
"""

from __future__ import annotations

from pathlib import Path

PACKAGED = Path(__file__).resolve().parents[1] / "grammar"


def grammar_text(name: str) -> str:
    """The text of one file of the folder, such as `pattern.lark`."""
    packaged = PACKAGED / name
    return (packaged if packaged.is_file() else source_folder() / name).read_text(encoding="utf-8")


def source_folder() -> Path:
    """The folder in a source tree."""
    return Path(__file__).resolve().parents[2] / "grammar"
