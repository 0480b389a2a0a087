"""The files that come with the tool: its grammar and its patterns.

In an installed package they lie inside it; in the project's own folder they lie beside it.
"""

from __future__ import annotations

from pathlib import Path


def packaged_folder(name: str) -> Path:
    """The folder `grammar` or `patterns` that came with this tool."""
    package = Path(__file__).parent.parent
    inside = package / name
    return inside if inside.is_dir() else package.parent / name
