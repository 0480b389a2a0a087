"""Reading a PDF back with PDFium: the lines of each page in mm, what a window hides, and how large the page shows.

The file is taken as any viewer takes it; nothing of the writer is used. Curves are measured as the cubic curves they
are.
"""

from __future__ import annotations

import ctypes
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil, hypot, sqrt

import pypdfium2
import pypdfium2.raw as pdfium

from drafting.proof.expected import Box, Measures

MM = 25.4 / 72
"""mm in a point."""
RASTER_DPI = 150
NEARER = (322 + 13 * sqrt(70)) / 1800, sqrt(5 - 2 * sqrt(10 / 7)) / 6
FARTHER = (322 - 13 * sqrt(70)) / 1800, sqrt(5 + 2 * sqrt(10 / 7)) / 6
GAUSS = (
    (0.5, 64 / 225),
    *((0.5 + sign * off, weight) for weight, off in (NEARER, FARTHER) for sign in (1, -1)),
)
"""The five places and weights of Gauss and Legendre from 0 to 1."""

Place = tuple[float, float]
Curve = tuple[Place, ...]
"""Two places for a straight step, four for a cubic curve."""


@dataclass(eq=False)
class ReadLine:
    """One stroked or filled line; the parts of a path that was lifted off between are lines of their own."""

    curves: Sequence[Curve]
    is_closed: bool
    width: float
    is_dashed: bool
    is_filled: bool
    window: Box | None

    @cached_property
    def measures(self) -> Measures:
        return measure_curves(self.curves, self.is_closed)

    @cached_property
    def box(self) -> Box:
        return box_around(self.curves)


@dataclass(frozen=True)
class ReadPage:
    """The size of a page and its lines in mm, y up, and the boxes of all words, less what a window hides."""

    width: float
    height: float
    lines: tuple[ReadLine, ...]
    words: tuple[Box, ...]
    page: pypdfium2.PdfPage

    def lower_left(self, reach: float) -> Raster:
        """The page as dots, as far as `reach` mm from its lower left corner."""
        return Raster.of(self.page, reach)


@dataclass(frozen=True)
class Raster:
    """A page in grey, and how many dots a mm has across and up; PDFium rounds a page up to whole dots."""

    pixels: memoryview
    stride: int
    across: float
    up: float
    height: int

    @classmethod
    def of(cls, page: pypdfium2.PdfPage, reach: float) -> Raster:
        wide, high = page.get_size()
        scale = RASTER_DPI / 72
        beyond = [max(side - reach / MM, 0.0) for side in (wide, high)]
        bitmap = page.render(scale=scale, grayscale=True, crop=(0, 0, *beyond))
        pixels = memoryview(bytes(bitmap.buffer))
        across, up = (ceil(side * scale) / (side * MM) for side in (wide, high))
        return cls(pixels, bitmap.stride, across, up, bitmap.height)

    def dark_middles(self, start: Place, end: Place) -> list[float]:
        """Along a level or plumb line, how far from its start the middles of dark places are, in mm."""
        level = start[1] == end[1]
        per_mm = self.across if level else self.up
        length = abs(end[0] - start[0]) + abs(end[1] - start[1])
        shades = [self._shade(start, step, level) for step in range(int(length * per_mm))]
        return [middle / per_mm for middle in _middles(shades)]

    def _shade(self, start: Place, step: int, level: bool) -> int:
        column = int(start[0] * self.across) + (step if level else 0)
        row = self.height - 1 - int(start[1] * self.up) - (0 if level else step)
        return 255 - self.pixels[row * self.stride + column]


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
    objects = list(page.get_objects())
    paths = [found for found in objects if found.type == pdfium.FPDF_PAGEOBJ_PATH]
    lines = [line for found in paths for line in _lines(found)]
    words = [
        seen_in(_bounds(found), _window(found.raw))
        for found in objects
        if found.type == pdfium.FPDF_PAGEOBJ_TEXT
    ]
    return ReadPage(wide * MM, high * MM, tuple(lines), tuple(words), page)


def _bounds(found: pypdfium2.PdfObject) -> Box:
    left, low, right, high = (float(side) * MM for side in found.get_bounds())
    return (left, low, right, high)


def seen_in(box: Box, window: Box | None) -> Box:
    """What a window leaves of a box."""
    if window is None:
        return box
    left, low = max(box[0], window[0]), max(box[1], window[1])
    return (left, low, min(box[2], window[2]), min(box[3], window[3]))


def _lines(found: pypdfium2.PdfObject) -> Iterator[ReadLine]:
    handle = found.raw
    width = ctypes.c_float()
    pdfium.FPDFPageObj_GetStrokeWidth(handle, width)
    fill, stroke = ctypes.c_int(), ctypes.c_int()
    pdfium.FPDFPath_GetDrawMode(handle, fill, stroke)
    is_dashed, window = pdfium.FPDFPageObj_GetDashCount(handle) > 0, _window(handle)
    for curves, is_closed in _curves(handle, found.get_matrix().get()):
        if curves:
            is_filled = bool(fill.value) and not stroke.value
            yield ReadLine(curves, is_closed, float(width.value) * MM, is_dashed, is_filled, window)


def _curves(handle: object, matrix: Sequence[float]) -> Iterator[tuple[list[Curve], bool]]:
    """The parts of a path, and whether each is closed."""
    curves: list[Curve] = []
    here, first, waiting, is_closed = (0.0, 0.0), (0.0, 0.0), [], False
    for segment, kind, place in _segments(handle, matrix):
        if kind == pdfium.FPDF_SEGMENT_MOVETO:
            yield curves, is_closed
            curves, is_closed = [], False
            first = place
        elif kind == pdfium.FPDF_SEGMENT_LINETO:
            curves.append((here, place))
        else:
            waiting.append(place)
            if len(waiting) < 3:
                continue
            curves.append((here, *waiting))
            waiting = []
        here = place
        if pdfium.FPDFPathSegment_GetClose(segment):
            is_closed = True
            if hypot(here[0] - first[0], here[1] - first[1]) > 1e-6:
                curves.append((here, first))
    yield curves, is_closed


def _segments(handle: object, matrix: Sequence[float]) -> Iterator[tuple[object, int, Place]]:
    """Each step of a path, its kind and where it leads; a batch has a hundred thousand of them."""
    a, b, c, d, e, f = (MM * part for part in matrix)
    x, y = ctypes.c_float(), ctypes.c_float()
    to_x, to_y = ctypes.byref(x), ctypes.byref(y)
    for number in range(pdfium.FPDFPath_CountSegments(handle)):
        segment = pdfium.FPDFPath_GetPathSegment(handle, number)
        pdfium.FPDFPathSegment_GetPoint(segment, to_x, to_y)
        across, up = x.value, y.value
        place = a * across + c * up + e, b * across + d * up + f
        yield segment, pdfium.FPDFPathSegment_GetType(segment), place


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


# Measuring


def measure_curves(curves: Sequence[Curve], is_closed: bool) -> Measures:
    """Length, area, box and places of a path; the area of an open one is none."""
    length = sum(_length(curve) for curve in curves)
    area = abs(sum(_area(curve) for curve in curves)) if is_closed else None
    places = tuple(place for curve in curves for place in (curve[0], _at(curve, 0.5)))
    return Measures(length, area, box_around(curves), places)


def box_around(curves: Sequence[Curve]) -> Box:
    """The box around curves of which each begins where the one before ends."""
    places = [curves[0][0]]
    for curve in curves:
        places.append(curve[-1])
        if len(curve) == 4:
            places += _bulges(curve)
    xs, ys = zip(*places, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def _at(curve: Curve, t: float) -> Place:
    u = 1 - t
    if len(curve) == 2:
        (ax, ay), (bx, by) = curve
        return u * ax + t * bx, u * ay + t * by
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = curve
    first, second, third, fourth = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
    x = first * ax + second * bx + third * cx + fourth * dx
    y = first * ay + second * by + third * cy + fourth * dy
    return x, y


def _length(curve: Curve) -> float:
    """Of a cubic by Gauss and Legendre at five places, which for our short arcs is good to the last digits."""
    if len(curve) == 2:
        return hypot(curve[1][0] - curve[0][0], curve[1][1] - curve[0][1])
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = curve
    px, py, qx, qy, rx, ry = bx - ax, by - ay, cx - bx, cy - by, dx - cx, dy - cy
    total = 0.0
    for t, weight in GAUSS:
        u = 1 - t
        first, second, third = u * u, 2 * u * t, t * t
        total += weight * hypot(first * px + second * qx + third * rx, first * py + second * qy + third * ry)
    return 3 * total


def _area(curve: Curve) -> float:
    """Half of the integral of x dy - y dx, exact."""
    if len(curve) == 2:
        return (curve[0][0] * curve[1][1] - curve[1][0] * curve[0][1]) / 2
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = curve
    twice = 6 * (ax * by - bx * ay) + 3 * (ax * cy - cx * ay) + (ax * dy - dx * ay)
    twice += 3 * (bx * cy - cx * by) + 3 * (bx * dy - dx * by) + 6 * (cx * dy - dx * cy)
    return twice / 20


def _bulges(curve: Curve) -> Iterator[Place]:
    """Where a cubic reaches farther than its ends do."""
    for axis in (0, 1):
        first, out, back, last = (place[axis] for place in curve)
        low, high = (first, last) if first < last else (last, first)
        if not (low <= out <= high and low <= back <= high):
            yield from (_at(curve, t) for t in _turns((first, out, back, last)))


def _turns(values: Sequence[float]) -> Iterator[float]:
    """Where a cubic stops growing: the roots of its slope between 0 and 1."""
    p0, p1, p2, p3 = values
    a, b, c = p3 - 3 * p2 + 3 * p1 - p0, 2 * (p2 - 2 * p1 + p0), p1 - p0
    if abs(a) < 1e-12:
        roots = [-c / b] if abs(b) > 1e-12 else []
    else:
        under = b * b - 4 * a * c
        roots = [(-b + sign * sqrt(under)) / (2 * a) for sign in (1, -1)] if under >= 0 else []
    yield from (t for t in roots if 0 < t < 1)
