"""Proving an SVG: every line of every piece in it, against the solved pattern.

Lengths and boxes may differ by SAME_LENGTH, areas by that much all along the line. Places are compared from the lower
left of each piece's outline, for a sheet may put a piece anywhere. On a reduced sheet the scale that is printed in its
title block counts: what a maker will read is what must be true.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import hypot, pi

from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.proof.disagreement import SAME_LENGTH, Disagreement
from drafting.proof.expected import (
    Box,
    Measures,
    StitchMark,
    area_of,
    box_of,
    lines_of_piece,
    marks_of_piece,
    stitches_of_piece,
)
from drafting.proof.nearness import circle_of, farthest_off, farthest_off_circle
from drafting.proof.read_svg import ReadGroup, ReadSvg, read_svg
from drafting.solve.placed import Placed, PlacedPiece

MOST_PLACES = 1000
"""So many places of a line are laid on the drafted one, evenly picked where it has more."""


def check_svg(svg: str, placed: Placed, piece: str | None = None) -> list[Disagreement]:
    """What differs in the file of one piece, or in the overview when no piece is named; empty when all is true."""
    try:
        read = read_svg(svg)
    except ValueError as fault:
        return [Disagreement("the file", "its form", "an SVG in mm", str(fault))]
    wanted = placed.pieces if piece is None else {piece: placed.pieces[piece]}
    return [*_sheet(read, piece), *stray_cuts(read, ("outline", "feature")), *_pieces(read, wanted)]


def _sheet(read: ReadSvg, piece: str | None) -> Iterator[Disagreement]:
    yield from faults_in_size(read)
    if read.scale is not None and piece is not None and read.scale != 1:
        yield Disagreement("the sheet", "its scale", "1:1", f"1:{1 / read.scale:g}")


def faults_in_size(read: ReadSvg) -> Iterator[Disagreement]:
    """Of a sheet that says itself how far it is reduced."""
    if not read.is_true_size:
        yield Disagreement("the sheet", "its size", f"{read.size} mm", f"{read.view_box} units")
    if read.scale is None:
        yield Disagreement("the sheet", "its scale", "printed", "missing")


def stray_cuts(read: ReadSvg, kinds: tuple[str, ...]) -> Iterator[Disagreement]:
    """Cut lines that belong to no group of these kinds."""
    for group in read.root.walk():
        if "cut" in group.classes and group.kind not in kinds:
            yield Disagreement("the sheet", f"a cut line in `{group.title}`", "not there", "there")


def _pieces(read: ReadSvg, wanted: Mapping[str, PlacedPiece]) -> Iterator[Disagreement]:
    found = [group for group in read.root.walk() if group.kind == "piece"]
    names = [group.title for group in found]
    if names != list(wanted):
        yield Disagreement("the sheet", "its pieces", ", ".join(wanted), ", ".join(names))
        return
    for group, piece in zip(found, wanted.values(), strict=True):
        yield from _piece(group, piece, read.scale or 1.0)


def _piece(group: ReadGroup, piece: PlacedPiece, scale: float) -> Iterator[Disagreement]:
    written = [(part, part.lines) for part in group.groups if part.kind in ("outline", "feature")]
    drafted = list(lines_of_piece(piece))
    if [len(lines) for _, lines in written] != [len(lines) for _, lines in drafted]:
        counts = (str([len(lines) for _, lines in side]) for side in (drafted, written))
        yield Disagreement(piece.name, "the count of its lines", *counts)
        return
    yield from _cuts(group, piece)
    yield from _marks(group, piece, scale, written[0][1][0].box)
    yield from _stitches(group, piece, scale, written[0][1][0].box)
    origin_written = written[0][1][0].box
    for (name, wanted), (_, lines) in zip(drafted, written, strict=True):
        for number, (want, line) in enumerate(zip(wanted, lines, strict=True), start=1):
            where = f"{piece.name}.{name}" + (f" line {number}" if len(wanted) > 1 else "")
            yield from compare(where, want, in_place(line, origin_written, box_of(piece.cutting), scale))


def _cuts(group: ReadGroup, piece: PlacedPiece) -> Iterator[Disagreement]:
    """The outline and all that is taken out are cut lines."""
    cut = ["outline", *(f"{feature.kind} {feature.name}" for feature in piece.features if feature.is_removed)]
    for part in group.groups:
        name = "outline" if part.kind == "outline" else part.title
        if name in cut and set(part.classes) != {"cut"}:
            yield Disagreement(f"{piece.name}.{name}", "its line", "cut", ", ".join(part.classes))


def _marks(group: ReadGroup, piece: PlacedPiece, scale: float, origin: Box) -> Iterator[Disagreement]:
    """Crosses stand where their marks are, however large they are drawn."""
    base = piece.cutting.bounds
    written = [middle_of([line.box for line in part.lines]) for part in group.groups if part.kind == "mark"]
    drafted = marks_of_piece(piece)
    if len(written) != len(drafted):
        yield Disagreement(piece.name, "the count of its marks", str(len(drafted)), str(len(written)))
        return
    for point, (x, y) in zip(drafted, written, strict=True):
        off = hypot(
            (x - origin[0]) / scale - (point.x - base.min_x), (y - origin[1]) / scale - (point.y - base.min_y)
        )
        if off > SAME_LENGTH:
            yield Disagreement(
                piece.name, "a mark", f"at ({point.x:.3f}, {point.y:.3f})", f"{off:.4f} mm off"
            )


def _stitches(group: ReadGroup, piece: PlacedPiece, scale: float, origin: Box) -> Iterator[Disagreement]:
    """Every stitch hole stands where it was laid out, and slants as it should; one fault a seam at most."""
    drafted = stitches_of_piece(piece)
    written = [part.pricks for part in group.groups if part.kind == "stitches"]
    if [len(marks) for _, marks in drafted] != [len(marks) for marks in written]:
        counts = (str([len(marks) for marks in side]) for side in (dict(drafted).values(), written))
        yield Disagreement(piece.name, "the count of its stitch holes", *counts)
        return
    base = piece.cutting.bounds

    def place(at: tuple[float, float]) -> Point:
        return Point((at[0] - origin[0]) / scale + base.min_x, (at[1] - origin[1]) / scale + base.min_y)

    for (name, marks), pricks in zip(drafted, written, strict=True):
        off = max(
            _off(mark, place(first), place(last)) for mark, (first, last) in zip(marks, pricks, strict=True)
        )
        if off > SAME_LENGTH:
            yield Disagreement(f"{piece.name}.{name}", "a stitch hole", "as laid out", f"{off:.4f} mm off")


def _off(mark: StitchMark, first: Point, last: Point) -> float:
    """How far a written mark is off, in its middle, its ends or its size."""
    off = mark.center.distance_to(first.midway(last))
    if mark.ends is not None:
        return max(off, mark.ends[0].distance_to(first), mark.ends[1].distance_to(last))
    return off if mark.across is None else max(off, abs(mark.across - first.distance_to(last)))


def middle_of(boxes: list[Box]) -> tuple[float, float]:
    """The middle of what some boxes cover together."""
    return (
        (min(box[0] for box in boxes) + max(box[2] for box in boxes)) / 2,
        (min(box[1] for box in boxes) + max(box[3] for box in boxes)) / 2,
    )


def in_place(line: Measures, written: Box, drafted: Box, scale: float) -> Measures:
    """A written line in true size, where it lies when the outlines' lower left corners are laid on each other."""

    def across(x: float) -> float:
        return (x - written[0]) / scale + drafted[0]

    def up(y: float) -> float:
        return (y - written[1]) / scale + drafted[1]

    left, low, right, high = line.box
    area = None if line.area is None else line.area / scale**2
    places = (line.places - written[:2]) / scale + drafted[:2]
    return Measures(line.length / scale, area, (across(left), up(low), across(right), up(high)), places)


def compare(
    where: str, drafted: Path | Ring, written: Measures, within: float = SAME_LENGTH
) -> Iterator[Disagreement]:
    """One written line against the one drafted."""
    if _is_same_circle(drafted, written, within):
        return
    if abs(drafted.length - written.length) > within:
        yield Disagreement(where, "length", f"{drafted.length:.4f} mm", f"{written.length:.4f} mm")
    area = area_of(drafted)
    if area is None or written.area is None:
        if area is not written.area:
            yield Disagreement(where, "whether it is closed", _closed(area), _closed(written.area))
    elif abs(area - written.area) > within * drafted.length:
        yield Disagreement(where, "area", f"{area:.3f} mm²", f"{written.area:.3f} mm²")
    for side, want, found in zip(("left", "low", "right", "high"), box_of(drafted), written.box, strict=True):
        if abs(want - found) > within:
            yield Disagreement(where, f"{side} edge", f"{want:.4f} mm", f"{found:.4f} mm")
    yield from _course(where, drafted, written, within)


def _is_same_circle(drafted: Path | Ring, written: Measures, within: float) -> bool:
    """Whether it is the drafted circle for sure. Most lines of a sheet for a machine are holes: of a circle all that is
    compared follows from its center and its radius."""
    arc = circle_of(drafted)
    if arc is None or written.area is None:
        return False
    x, y, radius = arc.center.x, arc.center.y, arc.radius
    left, low, right, high = written.box
    around = 2 * pi * radius
    return (
        abs(around - written.length) <= within
        and abs(around * radius / 2 - written.area) <= within * around
        and abs(x - radius - left) <= within
        and abs(y - radius - low) <= within
        and abs(x + radius - right) <= within
        and abs(y + radius - high) <= within
        and farthest_off_circle(arc, written.places) <= within
    )


def _course(where: str, drafted: Path | Ring, written: Measures, within: float) -> Iterator[Disagreement]:
    """The written line runs along the drafted one: a bow to the wrong side keeps length and box."""
    step = -(-len(written.places) // MOST_PLACES)
    places = written.places[:: max(step, 1)]
    off = farthest_off(drafted, places)
    if off > within:
        yield Disagreement(where, "its course", "along the drafted line", f"{off:.4f} mm off")


def _closed(area: float | None) -> str:
    return "open" if area is None else "closed"
