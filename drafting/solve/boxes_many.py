"""The boxes round pieces in many sizes at once, with their areas.

Takes columns of points and numbers; gives the width, height and area of an outline for each size, without making it.
It can be done for outlines of straight and bowed legs with corners rounded or clipped between straight legs; any other
is None, and is then made size by size. An arc is told by its chord and by how far it rises: its box is that of the
chord and of those of its four outermost places that lie on its side of the chord, and no arc here is more than half a
circle.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy

from drafting.geometry.tolerances import SAME_POINT
from drafting.model.expressions import Bound
from drafting.model.pattern import (
    BoundLeg,
    BoxForm,
    CornerPart,
    PathForm,
    Piece,
    PointRef,
    RoundForm,
    ShapePart,
)
from drafting.records import dataclass
from drafting.solve.compiled import compile_bound
from drafting.solve.many import Array, PointColumn
from drafting.solve.reading import keys_in

ACROSS = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, 1.0), "down": (0.0, -1.0)}
Pair = tuple[Array, Array]
"""x and y."""


@dataclass(frozen=True)
class Boxes:
    """One number for each size; `is_good` is False where a size has to be made to know whether it can be."""

    width: Array
    height: Array
    area: Array
    is_good: Array


class Numbers:
    """Amounts and points by their keys, as arrays."""

    def __init__(self, values: Mapping[str, Any], n_sizes: int) -> None:
        self.values, self.n_sizes = values, n_sizes

    def amount(self, bound: Bound) -> Array:
        """Raises KeyError for what is not among the columns."""
        function, wants = compile_bound(bound)
        arguments: list[Any] = []
        for want in wants:
            if not isinstance(want, tuple):
                arguments.append(float(want))
            elif want[0] == "value":
                arguments.append(self.values[want[1]])
            else:
                arguments += self._point(want[1])
        return numpy.broadcast_to(numpy.asarray(function(*arguments), dtype=float), (self.n_sizes,))

    def point(self, ref: PointRef) -> Pair:
        return self._point(ref.key)

    def _point(self, key: str) -> Pair:
        column = self.values[key]
        if not isinstance(column, PointColumn):
            raise KeyError(key)
        return column.x, column.y


def needed_keys(piece: Piece) -> list[str] | None:
    """The keys of points and numbers that the box round a piece hangs on; None where it cannot be done so."""
    points = _needed_points(piece)
    if points is None or piece.outline is None:
        return None
    amounts = [part.by for part in piece.corners] + [part.after for part in piece.corners if part.after]
    return [*points, *keys_in((piece.outline.form, piece.outline.rounded, *amounts))]


def _needed_points(piece: Piece) -> list[str] | None:
    form = piece.outline.form if piece.outline else None
    if any(feature.kind == "turn" for feature in piece.features) or piece.cuts:
        return None
    if isinstance(form, BoxForm | RoundForm):
        return [] if not piece.corners else None
    if not isinstance(form, PathForm):
        return None
    refs = [form.start, *(leg.to for leg in form.legs)]
    bows = [leg.bow for leg in form.legs]
    if any(ref.part or ref.twin for ref in refs) or any(bow.kind not in KINDS or bow.long for bow in bows):
        return None
    bowed = {ref.name for leg, ref in zip(form.legs, refs, strict=False) if leg.bow.kind != "straight"}
    bowed |= {leg.to.name for leg in form.legs if leg.bow.kind != "straight"}
    if any(
        part.corner.text in bowed or part.corner.text not in {ref.name for ref in refs}
        for part in piece.corners
    ):
        return None
    refs += [bow.point for bow in bows if bow.point]
    mirror = [piece.mirror.start, piece.mirror.end] if piece.mirror else []
    return [ref.key for ref in (*refs, *mirror)]


KINDS = ("straight", "bowed", "about")


def boxes_of(piece: Piece, numbers: Numbers) -> Boxes | None:
    """None where it cannot be done at once."""
    if _needed_points(piece) is None or piece.outline is None:
        return None
    try:
        with numpy.errstate(all="ignore"):
            return _boxes(piece, piece.outline.form, numbers)
    except KeyError:
        return None


def _boxes(piece: Piece, form: object, numbers: Numbers) -> Boxes | None:
    if isinstance(form, BoxForm) and piece.outline is not None:
        return _box(piece.outline, form, numbers)
    if isinstance(form, RoundForm):
        across = numbers.amount(form.across)
        return Boxes(across, across, numpy.pi / 4 * across**2, across > 0)
    assert isinstance(form, PathForm)
    return _Ring(piece, form, numbers).boxes()


def _box(outline: ShapePart, form: BoxForm, numbers: Numbers) -> Boxes | None:
    """A box that lies level; rounded alike at all corners where that is said."""
    direction = outline.placing.direction
    if direction is not None and direction.how != "level":
        return None
    width, height = numbers.amount(form.width), numbers.amount(form.height)
    rounded = numbers.amount(outline.rounded) if outline.rounded is not None else numpy.zeros(numbers.n_sizes)
    fits = (width > 0) & (height > 0) & (2 * rounded <= numpy.minimum(width, height) + SAME_POINT)
    return Boxes(width, height, width * height - (4 - numpy.pi) * rounded**2, fits)


@dataclass(frozen=True)
class _Corner:
    """A place of the ring and the leg that leads on from it: `rise` is how far it bows to the left of the walk."""

    at: Pair
    name: str
    rise: Array | None


class _Ring:
    def __init__(self, piece: Piece, form: PathForm, numbers: Numbers) -> None:
        self.piece, self.form, self.numbers = piece, form, numbers
        self.good: Array = numpy.ones(numbers.n_sizes, dtype=bool)
        self.places: list[Pair] = []
        self.outermost: list[tuple[Array, Array, Array]] = []
        """x, y and whether they count."""
        self.area: Array = numpy.zeros(numbers.n_sizes)

    def boxes(self) -> Boxes | None:
        corners = self._corners()
        if corners is None:
            return None
        turning = _double_area([corner.at for corner in corners])
        self.good &= abs(turning) > SAME_POINT
        left = numpy.sign(turning)
        shaped = self._shaped(corners, left)
        if shaped is None:
            return None
        self.area += _double_area(self.places) / 2
        xs = [x for x, _ in self.places] + [
            numpy.where(counts, x, self.places[0][0]) for x, _, counts in self.outermost
        ]
        ys = [y for _, y in self.places] + [
            numpy.where(counts, y, self.places[0][1]) for _, y, counts in self.outermost
        ]
        width = numpy.max(xs, axis=0) - numpy.min(xs, axis=0)
        height = numpy.max(ys, axis=0) - numpy.min(ys, axis=0)
        good = self.good & numpy.isfinite(width + height + self.area)
        return Boxes(width, height, abs(self.area), good)

    # The ring of corners

    def _corners(self) -> list[_Corner] | None:
        half = [_Corner(self.numbers.point(ref), ref.name, rise) for ref, rise in self._walk()]
        if self.piece.mirror is None:
            if half[0].name == half[-1].name:
                half.pop()
            return half
        mirror = [self.numbers.point(ref) for ref in (self.piece.mirror.start, self.piece.mirror.end)]
        ends = (half[0], half[-1])
        self.good &= numpy.all([abs(_off(end.at, *mirror)) <= SAME_POINT for end in ends], axis=0)
        back = half[:0:-1]
        rises = [corner.rise for corner in half[-2::-1]]  # the legs of the twin, in the order they are walked
        twin = [
            _Corner(_mirrored(corner.at, *mirror), f"{corner.name}'" if at else corner.name, rise)
            for at, (corner, rise) in enumerate(zip(back, rises, strict=True))
        ]
        return [*half[:-1], *twin]

    def _walk(self) -> Sequence[tuple[PointRef, Array | None]]:
        legs = self.form.legs
        starts = [self.form.start, *(leg.to for leg in legs)]
        turning = self._turning(starts)
        rises = [self._rise(leg, start, turning) for start, leg in zip(starts, legs, strict=False)]
        return list(zip(starts, [*rises, None], strict=True))

    def _turning(self, refs: Sequence[PointRef]) -> Array:
        """1 where the ring, bows ignored, is walked with its inside to the left, else -1."""
        points = [self.numbers.point(ref) for ref in refs]
        if self.piece.mirror:
            mirror = [self.numbers.point(ref) for ref in (self.piece.mirror.start, self.piece.mirror.end)]
            points += [_mirrored(point, *mirror) for point in reversed(points)]
        return numpy.asarray(numpy.sign(_double_area(points)))

    def _rise(self, leg: BoundLeg, start: PointRef, turning: Array) -> Array | None:
        if leg.bow.kind == "straight":
            return None
        if leg.bow.point is not None:
            return self._rise_about(self.numbers.point(start), self.numbers.point(leg.to), leg.bow.point)
        assert leg.bow.amount is not None
        high = self.numbers.amount(leg.bow.amount)
        (ax, ay), (bx, by) = self.numbers.point(start), self.numbers.point(leg.to)
        if leg.bow.toward in ("out", "in"):
            side = turning if leg.bow.toward == "in" else -turning
        else:
            x, y = ACROSS[str(leg.bow.toward)]
            side = numpy.sign(-(by - ay) * x + (bx - ax) * y)
        self.good &= (high > 0) & (high <= numpy.hypot(bx - ax, by - ay) / 2 + SAME_POINT) & (side != 0)
        return side * high

    def _rise_about(self, start: Pair, end: Pair, about: PointRef) -> Array:
        """The short way round a centre: it bows away from it."""
        center = self.numbers.point(about)
        radius, chord = _distance(center, start), _distance(start, end)
        self.good &= abs(_distance(center, end) - radius) <= SAME_POINT
        off = _off(center, start, end)
        self.good &= abs(off) > SAME_POINT
        return numpy.asarray(-numpy.sign(off) * (radius - numpy.sqrt(radius**2 - chord**2 / 4)))

    # Its corners, rounded and clipped

    def _shaped(self, corners: Sequence[_Corner], left: Array) -> bool | None:
        parts = self._parts()
        taken: list[tuple[Array, Array]] = []
        nothing = numpy.zeros(self.numbers.n_sizes)
        ways = []
        for at, corner in enumerate(corners):
            before, after = corners[at - 1], corners[(at + 1) % len(corners)]
            part = parts.pop(corner.name, None)
            if part is None:
                self.places.append(corner.at)
                taken.append((nothing, nothing))
                ways.append((corner.at, corner.at))
                continue
            if before.rise is not None or corner.rise is not None:
                return None
            taken.append(self._cut(before.at, corner, after.at, part, left))
            ways.append((self.places[-2], self.places[-1]))
        if parts:
            return None
        for at, corner in enumerate(corners):
            following = (at + 1) % len(corners)
            long = _distance(corner.at, corners[following].at)
            self.good &= taken[at][1] + taken[following][0] <= long + SAME_POINT
            if corner.rise is not None:
                self._bow(ways[at][1], ways[following][0], corner.rise)
        return True

    def _parts(self) -> dict[str, CornerPart]:
        """Each rounded or clipped corner by its name, the twins of a mirrored piece among them."""
        found = {part.corner.text: part for part in self.piece.corners}
        if self.piece.mirror:
            ends = (self.form.start.name, self.form.legs[-1].to.name)
            twins = {f"{name}'": part for name, part in found.items() if name not in ends}
            found = {**twins, **found}
        return found

    def _cut(
        self, before: Pair, corner: _Corner, after: Pair, part: CornerPart, left: Array
    ) -> tuple[Array, Array]:
        """Two places in the stead of a corner; how far they are from it, along either leg."""
        u, v = _unit(corner.at, before), _unit(corner.at, after)
        by = self.numbers.amount(part.by)
        is_twin = corner.name.endswith("'")
        if part.kind == "clip":
            second = by if part.after is None else self.numbers.amount(part.after)
            first, last = (second, by) if is_twin else (by, second)
        else:
            half = numpy.arctan2(abs(u[0] * v[1] - u[1] * v[0]), u[0] * v[0] + u[1] * v[1]) / 2
            first = last = by / numpy.tan(half)
        start, end = _along(corner.at, u, first), _along(corner.at, v, last)
        self.places += [start, end]
        self.good &= by > 0
        if part.kind == "fillet":
            turns_left = numpy.sign(v[0] * u[1] - v[1] * u[0])  # like the ring at a corner that goes out
            self._bow(start, end, -turns_left * (by - by * numpy.sin(half)))
        return first, last

    def _bow(self, start: Pair, end: Pair, rise: Array) -> None:
        """An arc over a chord, so far to the left of the walk: its outermost places, and what it adds to the area."""
        (ax, ay), (bx, by) = start, end
        chord = _distance(start, end)
        high, side = abs(rise), numpy.sign(rise)
        radius = (chord**2 / 4 + high**2) / (2 * high)
        nx, ny = -(by - ay) / chord * side, (bx - ax) / chord * side
        mx, my = (ax + bx) / 2, (ay + by) / 2
        cx, cy = mx + nx * (high - radius), my + ny * (high - radius)
        for dx, dy in ACROSS.values():
            x, y = cx + radius * dx, cy + radius * dy
            self.outermost.append((x, y, (x - mx) * nx + (y - my) * ny >= 0))
        turn = 2 * numpy.arcsin(numpy.minimum(chord / (2 * radius), 1.0))
        self.area -= side * radius**2 * (turn - numpy.sin(turn)) / 2


def _double_area(points: Sequence[Pair]) -> Array:
    """Positive where they are walked anticlockwise."""
    following = [*points[1:], points[0]]
    return numpy.asarray(sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(points, following, strict=True)))


def _distance(a: Pair, b: Pair) -> Array:
    return numpy.asarray(numpy.hypot(b[0] - a[0], b[1] - a[1]))


def _unit(a: Pair, b: Pair) -> Pair:
    long = _distance(a, b)
    return (b[0] - a[0]) / long, (b[1] - a[1]) / long


def _along(at: Pair, way: Pair, far: Array) -> Pair:
    return at[0] + way[0] * far, at[1] + way[1] * far


def _off(point: Pair, a: Pair, b: Pair) -> Array:
    ux, uy = _unit(a, b)
    return numpy.asarray(ux * (point[1] - a[1]) - uy * (point[0] - a[0]))


def _mirrored(point: Pair, a: Pair, b: Pair) -> Pair:
    ux, uy = _unit(a, b)
    off = _off(point, a, b)
    return point[0] + 2 * off * uy, point[1] - 2 * off * ux


__all__ = ["Boxes", "Numbers", "boxes_of", "needed_keys"]
