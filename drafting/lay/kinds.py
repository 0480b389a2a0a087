"""What is to be cut: kinds of part, how many of each, and how each may lie in the leather."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from functools import cached_property
from typing import Literal

from shapely import Polygon, normalize
from shapely.affinity import rotate, translate

from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.lay.flatten import polygon_close, polygon_outside
from drafting.records import dataclass, replace
from drafting.solve.placed import Placed, PlacedPiece

FREE_STEP = 30.0
"""A part that may turn freely is tried in every direction of so many degrees."""
STRAY_STEP = 5.0
"""A part that may stray from the backbone is tried at least every so many degrees."""
Zone = Literal["firm", "usable", "poor"]
"""Where a part may be cut: from firm zones only, anywhere but in poor ones, or anywhere."""


@dataclass(frozen=True)
class Freedom:
    """How a part with a grain may lie: within so many degrees of the backbone, either way round, and square to it."""

    within: float = 0.0
    across: bool = False

    @property
    def turns(self) -> tuple[float, ...]:
        """Degrees off the backbone, each tried."""
        count = max(1, round(self.within / STRAY_STEP)) if self.within else 0
        stray = [self.within * n / count for n in range(-count, count + 1)] if count else [0.0]
        heads = (0.0, 180.0, 90.0, 270.0) if self.across else (0.0, 180.0)
        return tuple(sorted({(head + off) % 360.0 for head in heads for off in stray}))

    def allows(self, off: float, tolerance: float = 1e-6) -> bool:
        """Whether a grain may lie so many degrees off the backbone."""
        square = 90.0 if self.across else 180.0
        rest = off % square
        return min(rest, square - rest) <= self.within + tolerance


ALONG_THE_BACKBONE = Freedom()


@dataclass(frozen=True)
class Kind:
    """One shape to cut, `demand` times. Its `ring` lies as drafted, or turned over where `is_turned_over`."""

    name: str
    ring: Ring
    """The true line to cut."""
    demand: int
    grain: float | None = None
    """Degrees; None where it may lie as it likes."""
    freedom: Freedom = Freedom()
    zone: Zone = "usable"
    is_turned_over: bool = False
    item: str = ""
    """What it is a part of."""
    each: int = 0
    """How many of it one item takes; 0 for a part that makes up no item."""

    @cached_property
    def outline(self) -> Polygon:
        """Flattened outward: what the search lays."""
        return polygon_outside(self.ring)

    @cached_property
    def close(self) -> Polygon:
        """Flattened finely: what the verifier lays."""
        return polygon_close(self.ring)

    @cached_property
    def area(self) -> float:
        """Of the true outline, mm²."""
        return self.ring.area

    def turns_by(self, backbone: float) -> tuple[float, ...]:
        """Every turn in degrees that is tried on a sheet with this backbone; of two that look alike one."""
        if self.grain is None:
            turns = [n * FREE_STEP for n in range(round(360 / FREE_STEP))]
        else:
            turns = [(backbone - self.grain + turn) % 360.0 for turn in self.freedom.turns]
        return tuple(_distinct(self.outline, turns))

    def allows_turn(self, turn: float, backbone: float) -> bool:
        return self.grain is None or self.freedom.allows(turn + self.grain - backbone)

    @cached_property
    def extent(self) -> tuple[float, float]:
        """Its width and height as drafted, mm."""
        low_x, low_y, high_x, high_y = self.close.bounds
        return high_x - low_x, high_y - low_y


def kinds_of(
    placed: Placed,
    copies: int,
    *,
    stocks: Collection[str] | None = None,
    freedom: Freedom = ALONG_THE_BACKBONE,
    freedoms: Mapping[str, Freedom | None] = {},
    firm: Collection[str] = (),
    poor: Collection[str] = (),
) -> tuple[Kind, ...]:
    """The kinds of part that so many copies of an item need of these stocks (of all without), in the pattern's order.

    `freedoms` says it of single pieces, None of one that may lie as it likes; `freedom` counts for the others. `firm`
    and `poor` name pieces that must come from firm zones, and that may come from poor ones.
    """
    found: list[Kind] = []
    item = f"{placed.stem} {placed.size}" if placed.size else placed.stem
    for piece in placed.pieces.values():
        if stocks is None or (piece.stock or "") in stocks:
            zone: Zone = "firm" if piece.name in firm else "poor" if piece.name in poor else "usable"
            own = freedoms.get(piece.name, freedom)
            found += _kinds_of_piece(piece, item, copies, own, zone)
    return tuple(found)


def _kinds_of_piece(
    piece: PlacedPiece, item: str, copies: int, freedom: Freedom | None, zone: Zone
) -> Iterator[Kind]:
    is_free = piece.grain is None or piece.grain == "any" or freedom is None
    grain = None if is_free else float(piece.grain)  # type: ignore[arg-type]
    kind = Kind(
        f"{item}: {piece.name}", piece.cutting, piece.count * copies, grain, freedom or Freedom(), zone,
        item=item, each=piece.count,
    )  # fmt: skip
    yield kind
    if piece.pair:
        yield turned_over(kind)


def turned_over(kind: Kind) -> Kind:
    """The same shape seen from the other side, as the second of a pair is cut."""
    ring = kind.ring.mirrored(Point(0, 0), Point(0, 1))
    grain = None if kind.grain is None else (180.0 - kind.grain) % 360.0
    return replace(kind, ring=ring, grain=grain, is_turned_over=not kind.is_turned_over)


def _distinct(outline: Polygon, turns: list[float]) -> Iterator[float]:
    """Turns of which no two bring the outline to look the same."""
    seen: list[Polygon] = []
    for turn in turns:
        shape = rotate(outline, turn, origin=(0, 0))
        low_x, low_y, _, _ = shape.bounds
        shape = normalize(translate(shape, -low_x, -low_y))
        if not any(_look_alike(shape, other) for other in seen):
            seen.append(shape)
            yield turn


def _look_alike(one: Polygon, other: Polygon) -> bool:
    return bool(one.equals_exact(other, 1e-6)) or (
        max(abs(a - b) for a, b in zip(one.bounds, other.bounds, strict=True)) < 0.01
        and one.symmetric_difference(other).area < 1e-6 * one.area
    )
