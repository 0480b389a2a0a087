"""Proving a print: every line of every piece on its sheet, both scales, and nothing beyond the paper.

Each sheet tells which piece it shows and how it was turned and moved; the lines of the solved pattern, moved so, must
be on the page. What a printer's correction enlarged is taken back first.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from typing import Any

import numpy as np

from drafting.drawing.lines import CUT
from drafting.drawing.prints import PrintSheet, Shown
from drafting.drawing.prints.papers import INCH, MARGIN, RULES, WORDS
from drafting.drawing.prints.rules import INCHES, MILLIMETRES
from drafting.drawing.work_view import LEAST_DOT
from drafting.geometry.bounds import Bounds
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.proof.copies import HAIR, Copies, Copy, Kind, Lines
from drafting.proof.disagreement import SAME_LENGTH, Disagreement
from drafting.proof.expected import (
    Box,
    Measures,
    StitchMark,
    lines_of_piece,
    marks_of_piece,
    stitches_of_piece,
)
from drafting.proof.lying import Lying, Place, box_of_two
from drafting.proof.read_pdf import ReadPage, read_pdf
from drafting.proof.svg import compare
from drafting.proof.times import check_times, window_of
from drafting.records import dataclass
from drafting.solve.placed import Placed, PlacedPiece

RASTER_LENGTH = 0.05
"""mm by which a scale measured in dots may differ."""

BEYOND = 1.0
"""mm past a scale that the page is rendered."""

CELL = 1.0
"""mm: how coarsely lines are looked up by their middles."""
NEAR_CELLS = sorted(((dx, dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1)), key=lambda cell: cell != (0, 0))
"""The cell itself first."""


def check_pdf(
    data: bytes,
    placed: Placed,
    sheets: Sequence[PrintSheet],
    correction: float = 1.0,
    times: Mapping[str, int] | None = None,
) -> list[Disagreement]:
    """What differs between the file and the solved pattern; empty when all is true.

    `times` is how often each piece must be there, where that is known.
    """
    try:
        pages = read_pdf(data)
    except ValueError as fault:
        return [Disagreement("the file", "its form", "a PDF", str(fault))]
    if len(pages) != len(sheets):
        return [Disagreement("the file", "the count of its sheets", str(len(sheets)), str(len(pages)))]
    return [
        *(check_times(placed, sheets, times) if times else ()),
        *_sheets(pages, placed, sheets, correction),
    ]


def _sheets(
    pages: Sequence[ReadPage], placed: Placed, sheets: Sequence[PrintSheet], correction: float
) -> Iterator[Disagreement]:
    drafted = {name: Drafted.of(piece) for name, piece in placed.pieces.items()}
    copies: Copies = {}
    for number, (page, sheet) in enumerate(zip(pages, sheets, strict=True), start=1):
        yield from PageProof(number, page, sheet, drafted, correction, copies).check()


@dataclass(frozen=True)
class Seam:
    """The holes of a stitch."""

    name: str
    marks: tuple[StitchMark, ...]

    @cached_property
    def ends(self) -> Any:
        """The two ends of each hole as an array; of a round one twice its middle."""
        ends = [mark.ends or (mark.center, mark.center) for mark in self.marks]
        return np.array([[(point.x, point.y) for point in two] for two in ends])

    @cached_property
    def sizes(self) -> Any:
        """How large each is drawn, no number where that is not said."""
        return np.array([max(mark.across, LEAST_DOT) if mark.across else np.nan for mark in self.marks])


@dataclass(frozen=True)
class Drafted:
    """What a piece must show, each line by its name."""

    lines: tuple[tuple[str, Path | Ring], ...]
    marks: tuple[Point, ...]
    seams: tuple[Seam, ...]

    @classmethod
    def of(cls, piece: PlacedPiece) -> Drafted:
        lines = tuple((name, way) for name, ways in lines_of_piece(piece) for way in ways)
        seams = tuple(Seam(name, tuple(marks)) for name, marks in stitches_of_piece(piece))
        return cls(lines, tuple(marks_of_piece(piece)), seams)


class PageProof:
    """One page against what it should show. `copies` are what was proved before; what this page proves is put among
    them."""

    def __init__(
        self,
        number: int,
        page: ReadPage,
        sheet: PrintSheet,
        drafted: Mapping[str, Drafted],
        correction: float,
        copies: Copies | None = None,
    ) -> None:
        self.name = f"sheet {number}"
        self.page, self.sheet, self.drafted, self.correction = page, sheet, drafted, correction
        self.copies = {} if copies is None else copies
        self.middle = (sheet.drawing.width / 2, sheet.drawing.height / 2)
        self.sides = self._uncorrected_places(page.curves.boxes.reshape(-1, 2, 2)).reshape(-1, 4)
        self.is_found = np.zeros(len(self.sides), dtype=bool)
        self.within = SAME_LENGTH

    @cached_property
    def boxes(self) -> list[Box]:
        """Around each line."""
        return [(left, low, right, high) for left, low, right, high in self.sides.tolist()]

    @cached_property
    def by_middle(self) -> dict[tuple[int, int], list[int]]:
        found: dict[tuple[int, int], list[int]] = defaultdict(list)
        middles = (self.sides[:, :2] + self.sides[:, 2:]) / 2
        for index, (column, row) in enumerate(np.rint(middles / CELL).astype(int).tolist()):
            found[column, row].append(index)
        return found

    def check(self) -> Iterator[Disagreement]:
        for shown in self.sheet.shown:
            if not self._is_copy(shown):
                yield from self._piece_by_itself(shown)
        yield from self._stray_cuts()
        yield from self.paper()

    def paper(self) -> Iterator[Disagreement]:
        """What holds for any sheet, whatever it shows: its size, nothing beyond it, and both scales."""
        yield from self._size()
        yield from self._beyond_paper()
        yield from self._scales()

    def _size(self) -> Iterator[Disagreement]:
        drawing = self.sheet.drawing
        for side, want, have in (
            ("width", drawing.width, self.page.width),
            ("height", drawing.height, self.page.height),
        ):
            if abs(want - have) > SAME_LENGTH:
                yield Disagreement(self.name, f"its {side}", f"{want:.3f} mm", f"{have:.3f} mm")

    def _is_copy(self, shown: Shown) -> bool:
        """Whether the page shows the piece, or the tile of it, as it was proved before; then its lines are claimed."""
        copy, lying = self.copies.get(_kind_of(shown)), Lying.of(shown)
        if copy is None:
            return False
        around = np.array(lying.box(Bounds(*copy.box)))
        alike = (np.abs(self.sides - around) <= SAME_LENGTH).all(axis=1) & ~self.is_found
        for first in np.flatnonzero(alike):
            here = copy.behind + first
            if here[-1] < len(self.sides) and not self.is_found[here].any():
                if self._laid_back(here, lying).are_like(copy.lines):
                    self.is_found[here] = True
                    return True
        return False

    def _laid_back(self, lines: Any, lying: Lying) -> Lines:
        """Some lines of the page as they are on their piece."""
        curves, factor = self.page.curves, self.correction
        return Lines(
            counts=curves.counts[lines],
            is_closed=curves.is_closed[lines],
            is_solid=self.page.is_solid[lines],
            widths=self.page.widths[lines] * factor,
            lengths=curves.lengths[lines] * factor,
            areas=curves.areas[lines] * factor**2,
            places=self._places_back(curves.of_lines(lines), lying),
            windows=self._places_back(self.page.windows[lines].reshape(-1, 2, 2), lying),
        )

    def _places_back(self, places: Any, lying: Lying) -> Any:
        return lying.places_back(self._uncorrected_places(places))

    def _piece_by_itself(self, shown: Shown) -> Iterator[Disagreement]:
        """A hair closer first, for its copies to be held against."""
        before = self.is_found.copy()
        self.within = SAME_LENGTH - HAIR
        is_close = not any(True for _ in self._piece(shown))
        self.within = SAME_LENGTH
        if is_close:
            self._keep(shown, np.flatnonzero(self.is_found & ~before))
        else:
            self.is_found = before
            yield from self._piece(shown)

    def _keep(self, shown: Shown, lines: Any) -> None:
        """What was proved, for other copies; a tile may show no line at all."""
        if len(lines):
            lying = Lying.of(shown)
            low, high = (lying.back(place) for place in self.sides[lines[0]].reshape(2, 2).tolist())
            behind, here = lines - lines[0], self._laid_back(lines, lying)
            self.copies[_kind_of(shown)] = Copy(box_of_two(low, high), behind, here)

    def _piece(self, shown: Shown) -> Iterator[Disagreement]:
        drafted, lying = self.drafted[shown.piece], Lying.of(shown)
        for name, way in drafted.lines:
            box = lying.box(way.bounds)
            if _shows(shown, box):
                yield from self._line(f"{shown.piece}.{name}", way, shown, lying, box)
        for x, y in (lying.place(point) for point in drafted.marks):
            if _shows(shown, (x, y, x, y)) and not self._is_crossed((x, y)):
                yield Disagreement(shown.piece, "a mark", f"at ({x:.3f}, {y:.3f})", "missing")
        for seam in drafted.seams:
            if not self._are_in_order(seam, shown, lying):
                yield from self._stitches(f"{shown.piece}.{seam.name}", shown, lying, seam.marks)

    def _is_crossed(self, place: Place) -> bool:
        """Both strokes of a cross have their middles there."""
        return all(self._claim(place) is not None for _ in range(2))

    def _stitches(
        self, where: str, shown: Shown, lying: Lying, marks: Sequence[StitchMark]
    ) -> Iterator[Disagreement]:
        """Every hole that the sheet shows, in its place, its slant and its size; one fault a seam at most."""
        for mark in marks:
            ends = [lying.place(end) for end in mark.ends or (mark.center, mark.center)]
            box = box_of_two(*ends)
            # What the edge of a tile cuts may be there or not.
            told = self._stitch_hole(mark, ends, box) if _may_show(shown, box) else None
            if told and _shows(shown, box):
                yield Disagreement(where, "a stitch hole", "as laid out", f"{told} on {self.name}")
                return

    def _are_in_order(self, seam: Seam, shown: Shown, lying: Lying) -> bool:
        """Whether all holes that the sheet shows are there as they should be, one after another; then they are
        claimed."""
        ends, sizes = lying.places(seam.ends), seam.sizes
        if shown.window is not None:
            window = shown.window
            seen = (ends.max(axis=1) >= (window.min_x, window.min_y)) & (
                ends.min(axis=1) <= (window.max_x, window.max_y)
            )
            ends, sizes = ends[seen.all(axis=1)], sizes[seen.all(axis=1)]
        if not len(ends):
            return True
        box = box_of_two(*ends[0].tolist())
        first = self._nearest(_middle(box), box)
        return first is not None and self._are_here(range(first, first + len(ends)), ends, sizes)

    def _are_here(self, here: range, ends: Any, sizes: Any) -> bool:
        """Whether some lines of the page are these holes, and no others have claimed them."""
        if here.stop > len(self.sides):
            return False
        found = self._uncorrected_places(self.page.curves.ends[here.start : here.stop])
        widths = self.page.widths[here.start : here.stop] * self.correction
        is_true = bool(
            np.all(np.abs(found - ends) <= self.within)
            and not np.any(np.abs(widths - sizes) > self.within)
            and not self.is_found[here.start : here.stop].any()
        )
        if is_true:
            self.is_found[here.start : here.stop] = True
        return is_true

    def _stitch_hole(self, mark: StitchMark, ends: Sequence[Place], box: Box) -> str | None:
        center = _middle(box)
        index = self._claim(center, box)
        if index is None:
            return f"missing at ({center[0]:.2f}, {center[1]:.2f})"
        if mark.ends and not _is_same_line(self._ends(index), ends, self.within):
            return f"slanted otherwise at ({center[0]:.2f}, {center[1]:.2f})"
        across = self.page.lines[index].width * self.correction
        if mark.across is not None and abs(across - max(mark.across, LEAST_DOT)) > self.within:
            return f"{across:.2f} mm across at ({center[0]:.2f}, {center[1]:.2f})"
        return None

    def _ends(self, index: int) -> list[Place]:
        return [self._uncorrected_place(place) for place in self.page.lines[index].ends]

    def _line(
        self, where: str, way: Path | Ring, shown: Shown, lying: Lying, box: Box
    ) -> Iterator[Disagreement]:
        index = self._claim(_middle(box), box)
        if index is None:
            yield Disagreement(where, "its line", f"on {self.name}", "missing")
            return
        measures = self._uncorrected(self.page.lines[index].measures)
        yield from compare(f"{where} on {self.name}", way, lying.measures_back(measures), self.within)
        seen = self.page.lines[index].window
        if not _same_window(
            shown.window, self._uncorrected_box(seen) if seen else None, measures.box, self.within
        ):
            yield Disagreement(where, "what its tile shows", str(shown.window), str(seen))

    def _claim(self, middle: Place, box: Box | None = None) -> int | None:
        """The nearest line, which then no other may claim."""
        index = self._nearest(middle, box)
        if index is not None:
            self.is_found[index] = True
        return index

    def _nearest(self, middle: Place, box: Box | None = None) -> int | None:
        """The line on the page with this middle, and this box where one is given, that no other line has claimed.
        Without a box it is one of a cross, so no dot of a stitch on the same place."""
        column, row = _cell(*middle)
        for dx, dy in NEAR_CELLS:
            for index in self.by_middle.get((column + dx, row + dy), ()):
                if self.is_found[index]:
                    continue
                measured = self.boxes[index]
                if _is_near(measured, box, self.within) if box else _is_across(measured, middle, self.within):
                    return index
        return None

    def _stray_cuts(self) -> Iterator[Disagreement]:
        """Cut lines that belong to no piece would be cut all the same."""
        is_cut = self.page.is_solid & (np.abs(self.page.widths - CUT.width) < SAME_LENGTH)
        seen = self.page.seen
        is_seen = (seen[:, :2] <= seen[:, 2:]).all(axis=1)
        for left, low, _, _ in self.sides[is_cut & is_seen & ~self.is_found].tolist():
            yield Disagreement(self.name, f"a cut line at ({left:.1f}, {low:.1f})", "not there", "there")

    def _beyond_paper(self) -> Iterator[Disagreement]:
        """Ink off the sheet is lost."""
        seen, size = self.page.seen, (self.page.width, self.page.height)
        far = (seen[:, :2] < 0) | (seen[:, 2:] > size)
        for left, low, right, high in (*seen[far.any(axis=1)].tolist(), *self.page.words):
            if min(left, low) < 0 or right > size[0] or high > size[1]:
                yield Disagreement(
                    self.name, "what lies on it", "within the paper", f"at ({left:.1f}, {low:.1f})"
                )

    # Scales

    def _scales(self) -> Iterator[Disagreement]:
        """Both rules, as lines and as dots of the rendered page."""
        for way, along in (("level", 0), ("plumb", 1)):
            count = self._rules(along)
            if count != 1:
                yield Disagreement(self.name, f"its {way} scale", "one of 4 in", f"{count}")
                continue
            start, (across, up) = self._beside_ticks(along)
            raster = self.page.lower_left(across + BEYOND, up + BEYOND)
            yield from self._in_dots(way, along, raster.dark_middles(start, (across, up)))

    def _rules(self, along: int) -> int:
        """How many lines are the rule of a scale."""
        sizes = self.page.curves.boxes[:, 2:] - self.page.curves.boxes[:, :2]
        long, thin = sizes[:, along], sizes[:, 1 - along]
        is_long = np.abs(long - INCHES * INCH / self.correction) < SAME_LENGTH
        return int(np.count_nonzero(is_long & (thin < SAME_LENGTH)))

    def _beside_ticks(self, along: int) -> tuple[tuple[float, float], tuple[float, float]]:
        """A line that crosses the ticks of the millimetres, 1 mm off the rule, from before 0 to past 100 mm."""
        strip = MARGIN + RULES, MARGIN + WORDS + RULES / 2 - 1.0
        if along:
            strip = MARGIN + RULES / 2 + 1.0, MARGIN + WORDS + RULES
        x, y = ((at - mid) / self.correction + mid for at, mid in zip(strip, self.middle, strict=True))
        before, after = -1.0, (MILLIMETRES + 1.0) / self.correction
        return ((x, y + before), (x, y + after)) if along else ((x + before, y), (x + after, y))

    def _in_dots(self, way: str, along: int, ticks: list[float]) -> Iterator[Disagreement]:
        want = MILLIMETRES / self.correction
        have = ticks[-1] - ticks[0] if ticks else 0.0
        if len(ticks) != int(MILLIMETRES) // 10 + 1 or abs(have - want) > RASTER_LENGTH:
            yield Disagreement(self.name, f"its {way} scale in dots", f"{want:.2f} mm", f"{have:.2f} mm")

    # A printer's correction

    def _uncorrected(self, measures: Measures) -> Measures:
        if self.correction == 1.0:
            return measures
        factor = self.correction
        area = None if measures.area is None else measures.area * factor**2
        places = self._uncorrected_places(measures.places)
        return Measures(measures.length * factor, area, self._uncorrected_box(measures.box), places)

    def _uncorrected_places(self, places: Any) -> Any:
        """The same for an array of places."""
        return places if self.correction == 1.0 else (places - self.middle) * self.correction + self.middle

    def _uncorrected_box(self, box: Box) -> Box:
        if self.correction == 1.0:
            return box
        low, high = self._uncorrected_place(box[:2]), self._uncorrected_place(box[2:])
        return (*low, *high)

    def _uncorrected_place(self, place: Place) -> Place:
        x, y = ((at - mid) * self.correction + mid for at, mid in zip(place, self.middle, strict=True))
        return x, y


def _kind_of(shown: Shown) -> Kind:
    return shown.piece, shown.quarters % 4, window_of(shown)


def _is_same_line(ends: Sequence[Place], others: Sequence[Place], within: float) -> bool:
    """Whether two straight lines have the same ends, whichever comes first."""
    return any(
        all(_is_near(one, other, within) for one, other in zip(ends, order, strict=True))
        for order in (others, others[::-1])
    )


def _may_show(shown: Shown, box: Box) -> bool:
    """Whether some of its ink may be seen, if not its line."""
    return shown.window is None or shown.window.grown(CELL).overlaps(Bounds(*box))


def _shows(shown: Shown, box: Box) -> bool:
    """Whether something with this box, on the sheet, is seen."""
    return shown.window is None or shown.window.overlaps(Bounds(*box))


def _same_window(wanted: Bounds | None, written: Box | None, line: Box, within: float) -> bool:
    """PDFium leaves out a window that hides nothing of a line."""
    if wanted is None:
        return written is None
    window = (wanted.min_x, wanted.min_y, wanted.max_x, wanted.max_y)
    if written is None:
        return all(edge <= side for edge, side in zip(window[:2], line[:2], strict=True)) and all(
            edge >= side for edge, side in zip(window[2:], line[2:], strict=True)
        )
    return _is_near(window, written, within)


def _is_across(measured: Box, middle: Place, within: float) -> bool:
    """Whether a line that is no dot has its middle there."""
    left, low, right, high = measured
    return max(right - left, high - low) > SAME_LENGTH and _is_near(_middle(measured), middle, within)


def _is_near(first: Sequence[float], second: Sequence[float], within: float) -> bool:
    """Asked so often that a plain loop is worth its lines."""
    for one, other in zip(first, second, strict=True):
        if abs(one - other) > within:
            return False
    return True


def _middle(box: Box) -> Place:
    return (box[0] + box[2]) / 2, (box[1] + box[3]) / 2


def _cell(x: float, y: float) -> tuple[int, int]:
    return round(x / CELL), round(y / CELL)
