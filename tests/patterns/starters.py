"""The starter patterns, by name."""

from __future__ import annotations

from pathlib import Path

from drafting.text.source import Source, read_source

PATTERNS = Path(__file__).parent.parent.parent / "patterns"
STARTERS = tuple(sorted(path.stem for path in PATTERNS.glob("*.draft")))
BLOCKS = tuple(sorted(path.stem for path in (PATTERNS / "blocks").glob("*.draft")))


def starter_path(name: str) -> Path:
    return PATTERNS / f"{name}.draft"


def starter_source(name: str) -> Source:
    return read_source(starter_path(name))


def block_source(name: str) -> Source:
    return read_source(PATTERNS / "blocks" / f"{name}.draft")
