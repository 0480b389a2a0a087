"""Proving that a sheet for a machine holds the pattern: every piece as often as it is cut, every line of it, once.

Lines are looked up from the solved pattern, not from what the drawing made of them. With a kerf an outline must run
half of it outside the drafted line all the way, an opening half of it inside; at a pointed corner it runs farther out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from drafting.drawing.machine import Laid, MachineSheet, Template
from drafting.geometry.bounds import Bounds
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import MITRE_LIMIT
from drafting.proof.disagreement import SAME_LENGTH, Disagreement
from drafting.proof.expected import StitchMark, stitches_of_piece
from drafting.solve.placed import Placed, PlacedFeature, PlacedPiece, PlacedSlit

Way = Path | Ring
OPEN_CUTS = ("slit", "snip", "notch")
SQUARE = 2.0
"""mm: how coarsely holes are looked up by their middles."""
PRESSED = ("crease", "fold", "turn")


def faults_in_template(template: Template, placed: Placed) -> list[Disagreement]:
    """What differs between a template and its piece: outline, openings, and every point that is marked through."""
    return list(_TemplateProof(template, placed).check())


def faults_in_sheet(sheet: MachineSheet, placed: Placed, pieces: Sequence[str]) -> list[Disagreement]:
    """What differs between the sheet and those of the named pieces that are cut from its stock."""
    return list(_Sheet(sheet, placed, pieces).check())


class _Sheet:
    def __init__(self, sheet: MachineSheet, placed: Placed, pieces: Sequence[str]) -> None:
        self.sheet, self.half = sheet, sheet.kerf / 2
        self.pieces = {
            name: placed.pieces[name] for name in pieces if placed.pieces[name].stock == sheet.stock
        }
        operations = {layer.name: layer.operation for layer in sheet.layers.values()}
        self.lines: dict[str, list[Way]] = {layer.operation: [] for layer in sheet.layers.values()}
        for group in sheet.drawing.groups:
            self.lines[operations[group.name]] += [stroke.way for stroke in group.strokes]
        self.holes = {one: _by_middle(self.lines[one]) for one in ("stitch", "punch")}
        self.holes_of = {
            name: [hole for feature in piece.features for hole in feature.holes]
            for name, piece in self.pieces.items()
        }
        """Of holes in one place one is punched, as large as any of them."""
        self.marks = Counter(
            _cell(_moved(laid, mark.center))
            for laid in sheet.laid
            if laid.piece in self.pieces
            for _, marks in stitches_of_piece(self.pieces[laid.piece])
            for mark in marks
        )

    def check(self) -> Iterator[Disagreement]:
        yield from self._counts()
        yield from self._doubled()
        yield from self._beyond()
        for laid in self.sheet.laid:
            piece = self.pieces.get(laid.piece)
            if piece is not None:
                yield from self._piece(laid, piece)

    def _counts(self) -> Iterator[Disagreement]:
        """Every piece as often as it is cut, one of each pair turned over."""
        have = Counter((laid.piece, laid.is_turned) for laid in self.sheet.laid)
        want = Counter({(piece.name, False): piece.count for piece in self.pieces.values()})
        want.update({(piece.name, True): piece.count for piece in self.pieces.values() if piece.pair})
        for name, is_turned in sorted({*have, *want}):
            if have[name, is_turned] != want[name, is_turned]:
                side = "turned over" if is_turned else "as drawn"
                counts = str(want[name, is_turned]), str(have[name, is_turned])
                yield Disagreement(name, f"how often it is there {side}", *counts)
        rings = sum(isinstance(way, Ring) for way in self.lines["cut"])
        if not len(self.lines["cut"]) == rings == len(self.sheet.laid):
            yield Disagreement("the sheet", "the count of outlines", str(len(self.sheet.laid)), str(rings))

    def _doubled(self) -> Iterator[Disagreement]:
        """No line is there twice; engraved strokes may be, as words are written."""
        boxes = Counter(
            tuple(round(side / SAME_LENGTH) for side in _sides(way.bounds))
            for operation, ways in self.lines.items()
            if operation != "engrave"
            for way in ways
        )
        for box, count in boxes.items():
            if count > 1:
                at = f"({box[0] * SAME_LENGTH:.2f}, {box[1] * SAME_LENGTH:.2f})"
                yield Disagreement(f"the line at {at}", "how often it is there", "1", str(count))

    def _beyond(self) -> Iterator[Disagreement]:
        whole = Bounds(0.0, 0.0, self.sheet.drawing.width, self.sheet.drawing.height)
        for operation, ways in self.lines.items():
            for way in ways:
                low, high = (
                    Point(way.bounds.min_x, way.bounds.min_y),
                    Point(way.bounds.max_x, way.bounds.max_y),
                )
                if not (whole.contains(low) and whole.contains(high)):
                    yield Disagreement(
                        f"a line of `{operation}`", "where it lies", "on the sheet", "beyond it"
                    )

    def _piece(self, laid: Laid, piece: PlacedPiece) -> Iterator[Disagreement]:
        outline = laid.line(piece.cutting)
        yield from self._ring(f"{piece.name}.outline", outline, "cut", self.half)
        for feature in piece.features:
            yield from self._feature(laid, f"{piece.name}.{feature.name}", feature)
        yield from self._stitches(laid, piece)

    def _feature(self, laid: Laid, where: str, feature: PlacedFeature) -> Iterator[Disagreement]:
        for ring in feature.rings if feature.is_removed else ():
            yield from self._ring(where, laid.line(ring), "inner cut", -self.half)
        if feature.is_removed or feature.kind in OPEN_CUTS:
            for path in feature.paths:
                yield from self._covered(where, laid.line(path), ("slit", "inner cut", "cut"))
        if feature.kind in PRESSED:
            ways: list[Way] = [*feature.rings, *feature.paths]
            for way in ways:
                yield from self._covered(where, laid.line(way), ("crease", "slit", "inner cut", "cut"))
        for hole in feature.holes:
            center = _moved(laid, hole.center)
            there = self._near("punch", center)
            across = [
                one.across
                for one in self.holes_of[laid.piece]
                if one.center.distance_to(hole.center) <= SAME_LENGTH
            ]
            if len(there) != 1 or not any(
                _is_hole(there[0], center, one - self.sheet.kerf) for one in across
            ):
                at = f"⌀{hole.across:.3f} mm at ({center.x:.3f}, {center.y:.3f})"
                yield Disagreement(where, "a hole", at, "missing")

    def _ring(self, where: str, drafted: Way, operation: str, outward: float) -> Iterator[Disagreement]:
        """A line all along the drafted one at half a kerf from it, on the right side."""
        near = [way for way in self.lines[operation] if way.bounds.overlaps(drafted.bounds)]
        ways = [way for way in near if isinstance(way, Ring) and self._runs_along(way, drafted, abs(outward))]
        if outward == 0.0:
            if not ways:
                yield from self._covered(where, drafted, ("inner cut", "cut"))
            return
        inside = [
            way for way in ways if isinstance(drafted, Ring) and (way.area > drafted.area) == (outward > 0)
        ]
        if not inside:
            side = "outside" if outward > 0 else "inside"
            yield Disagreement(
                where, "its line", f"{abs(outward):.3f} mm {side} the drafted one", "elsewhere"
            )

    def _runs_along(self, way: Ring, drafted: Way, distance: float) -> bool:
        farthest = distance * MITRE_LIMIT + SAME_LENGTH
        there = all(
            distance - SAME_LENGTH <= drafted.distance_to_point(point) <= farthest for point in _probes(way)
        )
        return there and all(way.distance_to_point(point) <= farthest for point in _probes(drafted))

    def _covered(self, where: str, drafted: Way, operations: Sequence[str]) -> Iterator[Disagreement]:
        """Every place of an open line lies on some line of these operations."""
        box = drafted.bounds.grown(SAME_LENGTH)
        ways = [way for one in operations for way in self.lines[one] if way.bounds.overlaps(box)]
        allowed = SAME_LENGTH if self.half == 0 else self.half + SAME_LENGTH
        for point in _probes(drafted):
            off = min((way.distance_to_point(point) for way in ways), default=float("inf"))
            if off > allowed:
                at = f"({point.x:.3f}, {point.y:.3f})"
                yield Disagreement(where, "its line", f"at {at}", "missing there")
                return

    def _stitches(self, laid: Laid, piece: PlacedPiece) -> Iterator[Disagreement]:
        """Each place that is pricked has one mark, as it slants; a punched hole may stand for it. One fault a piece."""
        for name, marks in stitches_of_piece(piece):
            for mark in marks:
                center = _moved(laid, mark.center)
                there = [*self._near("stitch", center), *self._near("punch", center)]
                if len(there) != 1 or not self._is_as_marked(there[0], laid, mark, center):
                    at = f"({center.x:.3f}, {center.y:.3f})"
                    have = f"{len(there)} there" if len(there) != 1 else "of another size or slant"
                    yield Disagreement(
                        f"{piece.name}.{name}", f"the stitch hole at {at}", "one, as marked", have
                    )
                    return

    def _is_as_marked(self, way: Way, laid: Laid, mark: StitchMark, center: Point) -> bool:
        """Where two stitches share a hole it may be as the other marks it."""
        if self.marks[_cell(center)] > 1:
            return True
        if mark.ends is None:
            return mark.across is None or _is_hole(way, center, mark.across - self.sheet.kerf)
        start, end = (_moved(laid, point) for point in mark.ends)
        return way.start.distance_to(start) <= SAME_LENGTH and way.end.distance_to(end) <= SAME_LENGTH

    def _near(self, operation: str, center: Point) -> list[Way]:
        """The holes whose middle is here."""
        held = self.holes[operation]
        found = (pair for cell in _cells_about(center) for pair in held.get(cell, ()))
        return [way for middle, way in found if middle.distance_to(center) <= SAME_LENGTH]


class _TemplateProof(_Sheet):
    """A template has the outline and the openings, and a pin hole in the place of every point to be marked."""

    def __init__(self, template: Template, placed: Placed) -> None:
        super().__init__(template.sheet, placed, [template.piece])
        self.template = template

    def check(self) -> Iterator[Disagreement]:
        yield from self._doubled()
        yield from self._beyond()
        (laid,) = self.sheet.laid
        piece = self.pieces[self.template.piece]
        if (laid.piece, laid.is_turned) != (piece.name, self.template.is_turned):
            yield Disagreement(piece.name, "its side", str(self.template.is_turned), str(laid.is_turned))
        yield from self._ring(f"{piece.name}.outline", laid.line(piece.cutting), "cut", self.half)
        for feature in piece.features:
            for ring in feature.rings if feature.is_removed else ():
                yield from self._ring(
                    f"{piece.name}.{feature.name}", laid.line(ring), "inner cut", -self.half
                )
        yield from self._pins(laid, piece)

    def _pins(self, laid: Laid, piece: PlacedPiece) -> Iterator[Disagreement]:
        left_out = [pin.point for pin in self.template.left_out]
        for name, point in points_to_mark(piece):
            center = _moved(laid, point)
            if not self._near("punch", center) and not any(
                point.distance_to(other) <= SAME_LENGTH for other in left_out
            ):
                at = f"a pin hole at ({center.x:.3f}, {center.y:.3f})"
                yield Disagreement(f"{piece.name}.{name}", "a point to mark", at, "missing")


def points_to_mark(piece: PlacedPiece) -> Iterator[tuple[str, Point]]:
    """Both ends of each stitch line (one place of a line that closes), both ends of a slit, the middles of holes, and
    marks."""
    for feature in piece.features:
        points = [hole.center for hole in feature.holes]
        for line in feature.stitches:
            if line.layout.holes:
                points += [line.layout.holes[0].point]
                points += [] if line.layout.is_ring else [line.layout.holes[-1].point]
        if isinstance(feature.work, PlacedSlit):
            points += [feature.work.whole.start, feature.work.whole.end]
        if feature.kind == "mark" and feature.center is not None:
            points.append(feature.center)
        yield from ((feature.name, point) for point in points)


def _by_middle(ways: Sequence[Way]) -> dict[tuple[int, int], list[tuple[Point, Way]]]:
    """Lines with their middles, by the squares that these lie in."""
    found: dict[tuple[int, int], list[tuple[Point, Way]]] = {}
    for way in ways:
        middle = way.bounds.center
        found.setdefault((round(middle.x / SQUARE), round(middle.y / SQUARE)), []).append((middle, way))
    return found


def _cells_about(point: Point) -> list[tuple[int, int]]:
    """The squares within SAME_LENGTH of a place: nearly always one."""
    columns = {round((point.x + off) / SQUARE) for off in (-SAME_LENGTH, SAME_LENGTH)}
    rows = {round((point.y + off) / SQUARE) for off in (-SAME_LENGTH, SAME_LENGTH)}
    return [(column, row) for column in columns for row in rows]


def _cell(point: Point) -> tuple[int, int]:
    return round(point.x / SAME_LENGTH), round(point.y / SAME_LENGTH)


def _sides(bounds: Bounds) -> tuple[float, float, float, float]:
    return bounds.min_x, bounds.min_y, bounds.max_x, bounds.max_y


def _moved(laid: Laid, point: Point) -> Point:
    x = -point.x if laid.is_turned else point.x
    return Point(x, point.y) + laid.move


def _is_hole(way: Way, center: Point, across: float) -> bool:
    box = way.bounds
    sizes = abs(box.width - across) <= SAME_LENGTH and abs(box.height - across) <= SAME_LENGTH
    return sizes and box.center.distance_to(center) <= SAME_LENGTH


def _probes(way: Way) -> Iterator[Point]:
    """Places along a line: the ends of each leg and three between."""
    for leg in way.legs:
        yield from (leg.point_at(leg.length * part) for part in (0.0, 0.25, 0.5, 0.75))
    yield way.end
