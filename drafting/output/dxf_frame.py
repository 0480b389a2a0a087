"""All of a DXF but its lines: header, tables and blocks, written by ezdxf once for all sheets with the same layers.

A frame is a text with three holes: how large the sheet is, its lines, and the first handle that is still free. Nothing
in it depends on the time: dates and identifiers are fixed.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache
from io import StringIO
from typing import TYPE_CHECKING, Literal

from drafting.drawing.machine import Layer
from drafting.records import dataclass

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document

Release = Literal["R2010", "R12"]
RELEASES: tuple[Release, ...] = ("R2010", "R12")
MILLIMETRES = 4
"""The code of $INSUNITS (DXF Reference, HEADER); without it a reader may take inches or metres.
Release 12 has no such word and does not get one: the comment at its head says the unit."""
METRIC = 1
WIDTH, HEIGHT = 1048576.5, 2097152.5
"""mm: what stands where the size of the sheet will. Nothing else in a frame is near them."""
ENTITIES = "  0\nSECTION\n  2\nENTITIES\n"


@dataclass(frozen=True)
class Frame:
    """`head` ends where the lines of the sheet begin, `tail` begins after them. `owner` is the handle of the space
    they lie in, and `first` the first handle that nothing of the frame has."""

    head: str
    tail: str
    owner: str
    first: int
    encoding: str

    def filled(self, lines: str, count: int, width: float, height: float) -> bytes:
        """The whole file, with `count` handles taken by its lines."""
        head = self.head.replace(_seed(self.first), _seed(self.first + count))
        around = (part.replace(f"\n{WIDTH}\n", f"\n{width}\n") for part in (head, self.tail))
        before, after = (part.replace(f"\n{HEIGHT}\n", f"\n{height}\n") for part in around)
        # The encoder that spells letters an old code page lacks as `\U+0421` comes with ezdxf.
        return (before + lines + after).encode(self.encoding, errors="dxfreplace")


@lru_cache(maxsize=64)
def frame_of(layers: tuple[Layer, ...], release: Release) -> Frame:
    """The frame with some layers, in their order."""
    document, owner = _document(layers, release)
    held = StringIO()
    with _fixed_dates():
        document.write(held)
    head, mark, tail = held.getvalue().partition(ENTITIES)
    return Frame(head + mark, tail, owner, int(document.header["$HANDSEED"], 16), document.output_encoding)


def _document(layers: tuple[Layer, ...], release: Release) -> tuple[Document, str]:
    """With its layers and nothing on them, and the handle of the space for lines."""
    import ezdxf

    # It warns of what release 12 lacks, which is known here.
    logging.getLogger("ezdxf").setLevel(logging.ERROR)
    with _fixed_dates():
        document = ezdxf.new(release)
    document.header["$INSUNITS"], document.header["$MEASUREMENT"] = MILLIMETRES, METRIC
    document.header["$EXTMIN"], document.header["$EXTMAX"] = (0, 0, 0), (WIDTH, HEIGHT, 0)
    space = document.modelspace()
    space.reset_extents((0, 0, 0), (WIDTH, HEIGHT, 0))
    for layer in layers:
        _add_layer(document, layer, release)
    # Left to itself it lists them in the order of a set, which is another one in every run.
    for kind in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(kind)
    return document, space.layout_key


def _seed(handle: int) -> str:
    return f"\n$HANDSEED\n  5\n{handle:X}\n"


@contextmanager
def _fixed_dates() -> Iterator[None]:
    """ezdxf puts the time and new identifiers into a file unless it is told not to."""
    import ezdxf

    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before


def _add_layer(document: Document, layer: Layer, release: Release) -> None:
    red, green, blue = (int(layer.color[at : at + 2], 16) for at in (1, 3, 5))
    color = (red, green, blue)
    added = document.layers.add(layer.name, color=nearest_index(color))
    if release != "R12":
        added.rgb = color
        added.description = layer.means


@lru_cache(maxsize=256)
def nearest_index(color: tuple[int, int, int]) -> int:
    """The colour of DXF's own table, 1 to 255, that looks most like a colour of red, green and blue; black is 7, which
    a screen shows as black or white, whichever is seen."""
    from ezdxf.colors import aci2rgb

    if max(color) == 0:
        return 7

    def off(index: int) -> float:
        return sum((a - b) ** 2 for a, b in zip(aci2rgb(index), color, strict=True))

    return min(range(1, 256), key=off)
