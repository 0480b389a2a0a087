"""Reading a PDF back with PDFium: the lines of each page in mm, what a window hides, and how large the page shows.

The file is taken as any viewer takes it; nothing of the writer is used. Curves are measured as the cubic curves they
are.
"""

from __future__ import annotations

import ctypes
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import chain, repeat
from math import ceil
from typing import Any, NamedTuple

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


class Look(NamedTuple):
    """How wide a path is drawn, whether in dashes, whether it is filled alone, and what it is seen through."""

    width: float
    is_dashed: bool
    is_filled: bool
    window: Box | None


@dataclass(frozen=True)
class ReadPage:
    """The size of a page and its lines in mm, y up, and the boxes of all words, less what a window hides. Line n of the
    `curves` is drawn with the look of path `owners[n]`."""

    width: float
    height: float
    curves: Curves
    looks: tuple[Look, ...]
    owners: Any
    words: tuple[Box, ...]
    page: pypdfium2.PdfPage

    @cached_property
    def lines(self) -> tuple[ReadLine, ...]:
        owners = self.owners.tolist()
        return tuple(ReadLine(self.curves, index, *self.looks[owner]) for index, owner in enumerate(owners))

    @cached_property
    def widths(self) -> Any:
        """How wide each line is drawn."""
        return self._of_each([look.width for look in self.looks], float)

    @cached_property
    def is_solid(self) -> Any:
        """Whether each line is drawn along its course without gaps, neither in dashes nor filled alone."""
        return self._of_each([not (look.is_dashed or look.is_filled) for look in self.looks], bool)

    @cached_property
    def windows(self) -> Any:
        """What each line is seen through; no numbers where nothing hides a part of it."""
        return self._of_each([look.window or [np.nan] * 4 for look in self.looks], float).reshape(-1, 4)

    @cached_property
    def seen(self) -> Any:
        """What its window leaves of the box around each line; the lower sides beyond the upper ones where that is
        nothing."""
        boxes, windows = self.curves.boxes, self.windows
        low, high = np.fmax(boxes[:, :2], windows[:, :2]), np.fmin(boxes[:, 2:], windows[:, 2:])
        return np.concatenate([low, high], axis=1)

    def _of_each(self, looks: Sequence[object], kind: type) -> Any:
        return np.array(looks, dtype=kind)[self.owners]

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
    paths = by_kind[pdfium.FPDF_PAGEOBJ_PATH]
    curves, owners = _lines(paths)
    looks = tuple(_look(handle) for handle in paths)
    return ReadPage(wide * MM, high * MM, curves, looks, owners, tuple(words), page)


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


def _lines(handles: Sequence[Any]) -> tuple[Curves, Any]:
    """All parts of the paths of a page as lines, and which path each is a part of."""
    if not handles:
        none = np.zeros(0, dtype=int)
        return Curves(np.zeros((0, 4, 2)), none, none, none.astype(bool)), none
    counts = [pdfium.FPDFPath_CountSegments(handle) for handle in handles]
    segments = _segments(handles, counts)
    kinds, places = _steps(segments)
    matrices = np.array([_matrix(handle) for handle in handles]).reshape(-1, 6)
    a, b, c, d, e, f = np.repeat(matrices, counts, axis=0).T * MM
    x, y = places.T
    places = np.stack([a * x + c * y + e, b * x + d * y + f], axis=1)
    begins = np.flatnonzero(kinds == pdfium.FPDF_SEGMENT_MOVETO)
    owners = np.repeat(np.arange(len(handles)), counts)[begins]
    curves, kept = _curves(kinds, places, begins, _closes(segments, begins))
    return curves, owners[kept]


def _look(handle: Any) -> Look:
    width, fill, stroke = ctypes.c_float(), ctypes.c_int(), ctypes.c_int()
    pdfium.FPDFPageObj_GetStrokeWidth(handle, width)
    pdfium.FPDFPath_GetDrawMode(handle, fill, stroke)
    is_dashed = pdfium.FPDFPageObj_GetDashCount(handle) > 0
    return Look(width.value * MM, is_dashed, bool(fill.value) and not stroke.value, _window(handle))


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


def _segments(handles: Sequence[Any], counts: Sequence[int]) -> list[int]:
    """All steps of some paths."""
    addresses = map(repeat, map(_address, handles), counts)
    return list(map(SEGMENT, chain.from_iterable(addresses), chain.from_iterable(map(range, counts))))


def _steps(segments: Sequence[int]) -> tuple[Any, Any]:
    """The kind of each step, and where it leads in the path's own places."""
    places = np.zeros((len(segments), 2), dtype=np.float32)
    across = range(places.ctypes.data, places.ctypes.data + places.nbytes, places.itemsize * 2)
    for segment, here in zip(segments, across, strict=True):
        POINT(segment, here, here + places.itemsize)
    return np.fromiter(map(KIND, segments), dtype=int, count=len(segments)), places.astype(float)


def _closes(segments: Sequence[int], begins: Any) -> Any:
    """Whether each part of a path goes back to where it began: its last step tells."""
    lasts = (np.append(begins[1:], len(segments)) - 1).tolist()
    return np.fromiter((CLOSE(segments[last]) for last in lasts), dtype=bool, count=len(lasts))


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
    parts = parts[order]
    starts = np.flatnonzero(np.diff(parts, prepend=-1))
    kept = parts[starts]
    is_bent = (order >= len(straight)) & (order < len(straight) + len(bent))
    return Curves(found[order], np.flatnonzero(is_bent), starts, is_closed[kept]), kept


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
