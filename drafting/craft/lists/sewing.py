"""Placed -> every seam that is sewn, through what, and the thread it takes.

Stitch lines that are joined, pricked through from each other or that meet over a fold are one seam, sewn once through
all its layers; a join of mirrored lines holds for their twins as well. Where a layer ends under the seam only the holes
that are in it pass through it. Of pieces cut more than once:

- if every piece of a seam is cut in the same multiple, the item has that many such seams;
- if one line is joined as often as its piece is cut, each join takes one of them (a gusset cut twice, for two sides);
- else all of them lie in one seam (a face cut as a pair, with a welt between).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from math import gcd
from typing import cast

from drafting.craft.lists.parts import in_copy
from drafting.craft.stitches import Layout
from drafting.craft.thread import ThreadNeed, thread_through
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.pattern import HolesForm, LineRef, MirrorForm, Pattern
from drafting.solve.placed import Placed, PlacedStitches

NEEDLE_TAIL = 150.0
"""mm that each needle keeps at the end (common practice, no source)."""


@dataclass(frozen=True)
class Sewn:
    """A seam: its lines by `piece.line`, how thick the leather is where it is thickest, and how often an item has it.

    `unknown` names the stocks that do not say how thick they are: they are reckoned as nothing.
    """

    lines: tuple[str, ...]
    stitches: int
    thick: float
    times: int
    thread: ThreadNeed
    unknown: tuple[str, ...]


def seams_of(placed: Placed, pattern: Pattern, tail: float = NEEDLE_TAIL) -> tuple[Sewn, ...]:
    """Every seam of one item, in the order of its lines."""
    return tuple(_Sewing(placed, pattern, tail).seams())


@dataclass(frozen=True)
class _Tie:
    """Lines that lie in one seam; `is_join` where the pattern says so by a join."""

    lines: tuple[str, ...]
    is_join: bool


class _Sewing:
    def __init__(self, placed: Placed, pattern: Pattern, tail: float) -> None:
        self.placed, self.pattern, self.tail = placed, pattern, tail
        self.thick = {stock.name: stock.thick for stock in placed.item.stocks}
        self.cut = {name: in_copy(piece) for name, piece in placed.pieces.items()}
        self.lines: dict[str, PlacedStitches] = {
            f"{piece.name}.{line.name}": line
            for piece in placed.pieces.values()
            for feature in piece.features
            for line in feature.stitches
        }
        self.sources = dict(self._pricked())

    def seams(self) -> Iterator[Sewn]:
        ties = list(self._ties())
        for group in _groups(list(self.lines), [tie.lines for tie in ties]):
            inside = [tie for tie in ties if tie.lines[0] in group]
            yield from self._split(group, inside)

    # What lies in one seam

    def _ties(self) -> Iterator[_Tie]:
        joined = [join.lines for join in self.placed.joins]
        known = {line for lines in joined for line in lines}
        for lines in joined:
            yield _Tie(lines, True)
            twins = tuple(_twin(line) for line in lines)
            if all(twin in self.lines for twin in twins) and known.isdisjoint(twins):
                yield _Tie(twins, True)
        yield from (_Tie(pair, False) for pair in self.sources.items())
        yield from (_Tie(pair, False) for pair in self._folded())

    def _pricked(self) -> Iterator[tuple[str, str]]:
        """Each line pricked through from another, with that other."""
        for name, line in self.lines.items():
            form = self._form(name)
            if isinstance(form, HolesForm) and line.is_pricked:
                yield from self._with_source(name, form.line)

    def _folded(self) -> Iterator[tuple[str, str]]:
        """Each line that is another one mirrored over a fold, with that other."""
        for name in self.lines:
            form = self._form(name)
            if isinstance(form, MirrorForm) and isinstance(form.over, LineRef):
                yield from self._with_source(name, form.line)

    def _form(self, name: str) -> object:
        piece, _, line = name.partition(".")
        shape = self.pattern.pieces[piece].shape(line.partition(".")[0].rstrip("'"))
        return shape.form if shape else None

    def _with_source(self, name: str, ref: LineRef) -> Iterator[tuple[str, str]]:
        """The twin of a line has the twin of its source; one of a list has that of its own number."""
        source = f"{ref.piece}.{ref.text}"
        head, _, index = name.partition(".")[2].partition(".")
        options = [source, f"{source}.{index}"] if index else [source]
        if head.endswith("'"):
            options = [_twin(option) for option in options]
        yield from ((name, option) for option in options if option in self.lines and option != name)

    # How often, and through what

    def _split(self, group: Sequence[str], ties: Sequence[_Tie]) -> Iterator[Sewn]:
        """The seams of lines that hang together: one, or one for each join where a piece is cut for each."""
        times = reduce(gcd, (self.cut[_piece(line)] for line in group))
        joins = [tie.lines for tie in ties if tie.is_join]
        cut = {line: self.cut[_piece(line)] // times for line in group}
        n_joins = {line: sum(line in join for join in joins) for line in group}
        shared = [line for line in group if n_joins[line] > 1 and cut[line] == n_joins[line]]
        if not shared:
            yield self._sewn(group, cut, times)
            return
        apart = [tuple(line for line in tie.lines if line not in shared) for tie in ties]
        for part in _groups([line for line in group if line not in shared], [tie for tie in apart if tie]):
            with_them = [
                line for line in shared if any(line in join and set(part) & set(join) for join in joins)
            ]
            yield self._sewn((*part, *with_them), {**cut, **dict.fromkeys(with_them, 1)}, times)

    def _sewn(self, lines: Sequence[str], layers: Mapping[str, int], times: int) -> Sewn:
        walked = min(lines, key=lambda line: (line in self.sources, not self.lines[line].layout.is_ring))
        layout = cast(Layout, self.lines[walked].layout)
        thicknesses = [0.0] * len(layout.holes)
        for line in lines:
            thick = layers[line] * (self._thick(line) or 0.0)
            for index in self._holes_in(line, len(thicknesses)):
                thicknesses[index] += thick
        unknown = dict.fromkeys(self._stock(line) for line in lines if self._thick(line) is None)
        need = thread_through(layout, thicknesses, self.tail)
        return Sewn(tuple(lines), layout.stitches, max(thicknesses), times, need, tuple(unknown))

    def _stock(self, line: str) -> str:
        return self.placed.pieces[_piece(line)].stock or ""

    def _thick(self, line: str) -> float | None:
        return self.thick.get(self._stock(line))

    def _holes_in(self, line: str, n_holes: int) -> Sequence[int]:
        """Which holes of the seam go through the piece of a line: all, but where it was pricked and has only some."""
        source = self.sources.get(line)
        if source is None:
            return range(n_holes)
        places = {_place(hole.point) for hole in self.lines[line].layout.holes}
        holes = self.lines[source].layout.holes
        there = [index for index, hole in enumerate(holes) if _place(hole.point) in places]
        return range(n_holes) if len(there) == len(holes) else [index for index in there if index < n_holes]


def _piece(line: str) -> str:
    return line.partition(".")[0]


def _place(point: Point) -> tuple[int, int]:
    """Pricked holes are the very holes of their source, so their places are the same numbers."""
    return round(point.x / SAME_POINT), round(point.y / SAME_POINT)


def _twin(line: str) -> str:
    """`front.seam'` of `front.seam`, and back again; of one of a list `front.seams'.2`."""
    piece, name, *index = line.split(".")
    return ".".join([piece, name.rstrip("'") if name.endswith("'") else f"{name}'", *index])


def _groups(lines: Sequence[str], ties: Sequence[Sequence[str]]) -> list[tuple[str, ...]]:
    """Lines that hang together by ties, in the order of their first ones."""
    home = {line: line for line in lines}

    def root(line: str) -> str:
        while home[line] != line:
            home[line] = line = home[home[line]]
        return line

    for first, *others in ties:
        for other in others:
            home[root(other)] = root(first)
    groups: dict[str, list[str]] = {}
    for line in lines:
        groups.setdefault(root(line), []).append(line)
    return [tuple(group) for group in groups.values()]
