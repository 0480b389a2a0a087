"""Reading a PDF back with PDFium: the lines of each page in mm, what a window hides, and how large the page shows.

The file is taken as any viewer takes it; nothing of the writer is used. Curves are measured as the cubic curves they
are.
"""

from __future__ import annotations

import ctypes
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium

from drafting.proof.curves import Curves
from drafting.proof.expected import Box, Measures

MM = 25.4 / 72
"""mm in a point."""
RASTER_DPI = 150
SPECK = 1e-6
"""mm: a path that ends so near to where it began is closed without a step of its own."""

Place = tuple[float, float]


@dataclass(slots=True, eq=False)
class ReadLine:
    """One stroked or filled line, number `index` of the `curves` of its page; the parts of a path that was lifted off
    between are lines of their own."""

    curves: Curves
    index: int
    width: float
    is_dashed: bool
    is_filled: bool
    window: Box | None

    @property
    def measures(self) -> Measures:
        return self.curves.measures(self.index)

    @property
    def box(self) -> Box:
        return self.curves.box_list[self.index]

    @property
    def ends(self) -> Sequence[Place]:
        """Where it begins and where it ends."""
        (x, y), (to_x, to_y) = self.curves.ends[self.index].tolist()
        return (x, y), (to_x, to_y)


@dataclass(frozen=True)
class ReadPage:
    """The size of a page and its lines in mm, y up, and the boxes of all words, less what a window hides."""

    width: float
    height: float
    curves: Curves
    lines: tuple[ReadLine, ...]
    words: tuple[Box, ...]
    page: pypdfium2.PdfPage

    def lower_left(self, wide: float, high: float) -> Raster:
        """The page as dots, so many mm of it from its lower left corner."""
        return Raster.of(self.page, wide, high)


@dataclass(frozen=True)
class Raster:
    """A page in grey, and how many dots a mm has across and up; PDFium rounds a page up to whole dots."""

    inked: Any
    across: float
    up: float

    @classmethod
    def of(cls, page: pypdfium2.PdfPage, *reach: float) -> Raster:
        wide, high = page.get_size()
        scale = RASTER_DPI / 72
        beyond = [max(side - far / MM, 0.0) for side, far in zip((wide, high), reach, strict=True)]
        bitmap = page.render(scale=scale, grayscale=True, crop=(0, 0, *beyond))
        inked = 255 - np.frombuffer(bitmap.buffer, dtype=np.uint8).reshape(bitmap.height, bitmap.stride)
        across, up = (ceil(side * scale) / (side * MM) for side in (wide, high))
        return cls(inked, across, up)

    def dark_middles(self, start: Place, end: Place) -> list[float]:
        """Along a level or plumb line, how far from its start the middles of dark places are, in mm."""
        level = start[1] == end[1]
        per_mm = self.across if level else self.up
        length = abs(end[0] - start[0]) + abs(end[1] - start[1])
        count = int(length * per_mm)
        column, row = int(start[0] * self.across), len(self.inked) - 1 - int(start[1] * self.up)
        if level:
            shades = self.inked[row, column : column + count]
        else:
            shades = self.inked[row - count + 1 : row + 1, column][::-1]
        return [middle / per_mm for middle in _middles(shades.tolist())]


def _middles(shades: Sequence[int]) -> Iterator[float]:
    """The centroids of runs that are not white."""
    weight = moment = 0.0
    for index, shade in enumerate([*shades, 0]):
        if shade:
            weight, moment = weight + shade, moment + shade * (index + 0.5)
        elif weight:
            yield moment / weight
            weight = moment = 0.0


def read_pdf(data: bytes) -> list[ReadPage]:
    """Raises ValueError for what is no PDF."""
    try:
        document = pypdfium2.PdfDocument(data)
    except pypdfium2.PdfiumError as fault:
        raise ValueError(str(fault)) from fault
    return [_page(page) for page in document]


def _page(page: pypdfium2.PdfPage) -> ReadPage:
    wide, high = page.get_size()
    handles = [
        pdfium.FPDFPage_GetObject(page, number) for number in range(pdfium.FPDFPage_CountObjects(page))
    ]
    kinds = [pdfium.FPDFPageObj_GetType(handle) for handle in handles]
    by_kind: dict[int, list[Any]] = defaultdict(list)
    for handle, kind in zip(handles, kinds, strict=True):
        by_kind[kind].append(handle)
    words = [seen_in(_bounds(handle), _window(handle)) for handle in by_kind[pdfium.FPDF_PAGEOBJ_TEXT]]
    curves, lines = _lines(by_kind[pdfium.FPDF_PAGEOBJ_PATH])
    return ReadPage(wide * MM, high * MM, curves, tuple(lines), tuple(words), page)


def _bounds(handle: Any) -> Box:
    sides = [ctypes.c_float() for _ in range(4)]
    pdfium.FPDFPageObj_GetBounds(handle, *sides)
    left, low, right, high = (side.value * MM for side in sides)
    return (left, low, right, high)


def seen_in(box: Box, window: Box | None) -> Box:
    """What a window leaves of a box."""
    if window is None:
        return box
    left, low = max(box[0], window[0]), max(box[1], window[1])
    return (left, low, min(box[2], window[2]), min(box[3], window[3]))


def _lines(handles: Sequence[Any]) -> tuple[Curves, list[ReadLine]]:
    """All paths of a page, and each part of them as a line."""
    if not handles:
        return Curves(np.zeros((0, 4, 2)), np.zeros(0, dtype=int), np.zeros(0, dtype=bool)), []
    counts = [pdfium.FPDFPath_CountSegments(handle) for handle in handles]
    kinds, places = _steps(handles, counts)
    matrices = np.array([_matrix(handle) for handle in handles]).reshape(-1, 6)
    a, b, c, d, e, f = np.repeat(matrices, counts, axis=0).T * MM
    x, y = places.T
    places = np.stack([a * x + c * y + e, b * x + d * y + f], axis=1)
    begins = np.flatnonzero(kinds == pdfium.FPDF_SEGMENT_MOVETO)
    owners = np.repeat(np.arange(len(handles)), counts)[begins]
    firsts = np.cumsum([0, *counts])[:-1]
    is_closed = _closes(handles, owners, np.append(begins[1:], len(kinds)) - 1 - firsts[owners])
    curves, kept = _curves(kinds, places, begins, is_closed)
    looks = [_look(handle) for handle in handles]
    return curves, [
        ReadLine(curves, index, *looks[owner]) for index, owner in enumerate(owners[kept].tolist())
    ]


def _look(handle: Any) -> tuple[float, bool, bool, Box | None]:
    """How wide a path is drawn, whether in dashes, whether it is filled alone, and what it is seen through."""
    width, fill, stroke = ctypes.c_float(), ctypes.c_int(), ctypes.c_int()
    pdfium.FPDFPageObj_GetStrokeWidth(handle, width)
    pdfium.FPDFPath_GetDrawMode(handle, fill, stroke)
    is_dashed = pdfium.FPDFPageObj_GetDashCount(handle) > 0
    return width.value * MM, is_dashed, bool(fill.value) and not stroke.value, _window(handle)


def _matrix(handle: Any) -> list[float]:
    found = pdfium.FS_MATRIX()
    pdfium.FPDFPageObj_GetMatrix(handle, found)
    return [found.a, found.b, found.c, found.d, found.e, found.f]


def _bare(function: Any, result: Any, *given: Any) -> Any:
    """The same function of PDFium for plain addresses: a batch asks it a hundred thousand times."""
    found = type(function)(ctypes.cast(function, ctypes.c_void_p).value)
    found.restype, found.argtypes = result, given
    return found


SEGMENT = _bare(pdfium.FPDFPath_GetPathSegment, ctypes.c_void_p, ctypes.c_void_p, ctypes.c_int)
POINT = _bare(
    pdfium.FPDFPathSegment_GetPoint, ctypes.c_int, ctypes.c_void_p, ctypes.c_void_p, ctypes.c_void_p
)
KIND = _bare(pdfium.FPDFPathSegment_GetType, ctypes.c_int, ctypes.c_void_p)
CLOSE = _bare(pdfium.FPDFPathSegment_GetClose, ctypes.c_int, ctypes.c_void_p)


def _steps(handles: Sequence[Any], counts: Sequence[int]) -> tuple[Any, Any]:
    """The kind of each step of some paths, and where it leads in the path's own places."""
    places = np.zeros((sum(counts), 2), dtype=np.float32)
    kinds, here = [], places.ctypes.data
    for handle, count in zip(handles, counts, strict=True):
        path = _address(handle)
        for number in range(count):
            segment = SEGMENT(path, number)
            POINT(segment, here, here + 4)
            kinds.append(KIND(segment))
            here += 8
    return np.array(kinds, dtype=int), places.astype(float)


def _closes(handles: Sequence[Any], owners: Any, lasts: Any) -> Any:
    """Whether each part of a path goes back to where it began: its last step tells."""
    addresses = [_address(handle) for handle in handles]
    told = (
        CLOSE(SEGMENT(addresses[owner], last))
        for owner, last in zip(owners.tolist(), lasts.tolist(), strict=True)
    )
    return np.fromiter(told, dtype=bool, count=len(owners))


def _address(handle: Any) -> int | None:
    return ctypes.cast(handle, ctypes.c_void_p).value


def _curves(kinds: Any, places: Any, begins: Any, is_closed: Any) -> tuple[Curves, Any]:
    """Each step as a curve, and the numbers of the parts that have some: a bare place has none."""
    straight = np.flatnonzero(kinds == pdfium.FPDF_SEGMENT_LINETO)
    bent = np.flatnonzero(kinds == pdfium.FPDF_SEGMENT_BEZIERTO)[::3]
    ends = np.append(begins[1:], len(kinds)) - 1
    gaps = places[begins] - places[ends]
    back = np.flatnonzero(is_closed & (np.hypot(gaps[:, 0], gaps[:, 1]) > SPECK))
    found = np.concatenate([
        _thirds(places[straight - 1], places[straight]),
        np.stack([places[bent + step] for step in (-1, 0, 1, 2)], axis=1),
        _thirds(places[ends[back]], places[begins[back]]),
    ])  # fmt: skip
    # A closing step comes after the last one of its part and before the next part begins.
    order = np.argsort(np.concatenate([straight, bent, ends[back] + 0.5]), kind="stable")
    parts = np.concatenate([np.searchsorted(begins, at, "right") - 1 for at in (straight, bent, ends[back])])
    kept, starts = np.unique(parts[order], return_index=True)
    return Curves(found[order], starts, is_closed[kept]), kept


def _thirds(starts: Any, ends: Any) -> Any:
    """Straight curves, with their handles at their thirds."""
    return np.stack([starts, starts + (ends - starts) / 3, starts + (ends - starts) * 2 / 3, ends], axis=1)


def _place(segment: object) -> Place:
    x, y = ctypes.c_float(), ctypes.c_float()
    pdfium.FPDFPathSegment_GetPoint(segment, x, y)
    return x.value * MM, y.value * MM


def _window(handle: object) -> Box | None:
    """The box that hides the rest; our windows are upright."""
    clip = pdfium.FPDFPageObj_GetClipPath(handle)
    if not clip or pdfium.FPDFClipPath_CountPaths(clip) < 1:
        return None
    places = [
        _place(pdfium.FPDFClipPath_GetPathSegment(clip, path, number))
        for path in range(pdfium.FPDFClipPath_CountPaths(clip))
        for number in range(pdfium.FPDFClipPath_CountPathSegments(clip, path))
    ]
    xs, ys = [x for x, _ in places], [y for _, y in places]
    return (min(xs), min(ys), max(xs), max(ys))
