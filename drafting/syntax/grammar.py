"""The grammar folder, wherever the package stands.

Takes the name of a file of the folder `grammar` and gives its text: from inside the installed package, or, in
a source tree, from beside it.
"""

from __future__ import annotations

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path


def grammar_folder() -> Traversable:
    """The folder with pattern.lark in it."""
    packaged = files("drafting").joinpath("grammar")
    if packaged.joinpath("pattern.lark").is_file():
        return packaged
    return Path(__file__).resolve().parents[2] / "grammar"


def grammar_text(name: str) -> str:
    """The text of one file of the folder, such as `pattern.lark`."""
    return grammar_folder().joinpath(name).read_text(encoding="utf-8")
