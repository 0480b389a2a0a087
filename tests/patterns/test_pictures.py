"""The pictures are those of the patterns as they stand, and small; README shows each of them."""

from __future__ import annotations

import re

from tests.patterns.make_pictures import LARGEST, PICTURES, digest, drawings, drawn_from
from tests.patterns.starters import BLOCKS, PATTERNS, STARTERS

README = (PATTERNS / "README.md").read_text(encoding="utf-8")


def test_each_picture_is_of_the_drawing_as_it_is_now() -> None:
    """If not: `python -m tests.patterns.make_pictures`."""
    stale = [path.name for path, svg, _ in drawings() if drawn_from(path.read_bytes()) != digest(svg)]
    assert stale == []


def test_the_pictures_are_png_and_small() -> None:
    sizes = {path.name: path.stat().st_size for path in PICTURES.iterdir()}
    names = [*STARTERS, "badge-holder-front", *(f"block-{name}" for name in BLOCKS)]
    assert sorted(sizes) == sorted(f"{name}.png" for name in names)
    assert all(path.read_bytes().startswith(b"\x89PNG\r\n\x1a\n") for path in PICTURES.iterdir())
    assert {name: size for name, size in sizes.items() if size > LARGEST} == {}


def test_readme_shows_each_starter_and_each_block_once() -> None:
    shown = re.findall(r"^!\[[^]]+\]\(pictures/([\w-]+)\.png\)$", README, re.MULTILINE)
    headings = re.findall(r"^## `([\w-]+)\.draft`", README, re.MULTILINE)
    assert sorted(headings) == sorted(STARTERS)
    assert sorted(shown) == sorted([*STARTERS, *(f"block-{name}" for name in BLOCKS)])
