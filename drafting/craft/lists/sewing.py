"""Placed -> every seam that is sewn, through what, and the thread it takes.

Stitch lines that are joined, pricked through from each other or that meet over a fold are one seam, sewn once through
all its layers; a join of mirrored lines holds for their twins as well. A line that meets its twin on the mirror line
goes on into it. Where a layer ends under the seam only the holes that are in it pass through it; where a piece is
folded back on itself or its edge is turned, they pass through it more than once. Of pieces cut more than once:

- if every piece of a seam is cut in the same multiple, the item has that many such seams;
- if one line is joined as often as its piece is cut, each join takes one of them (a gusset cut twice, for two sides);
- else all of them lie in one seam (a face cut as a pair, with a welt between).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from functools import reduce
from math import gcd
from typing import Literal, cast

from drafting.craft.lists.parts import in_copy
from drafting.craft.lists.walks import Walk, meeting_ends, walk_of
from drafting.craft.plies import Leather, Ply
from drafting.craft.stitches import Layout
from drafting.craft.thread import ThreadNeed
from drafting.craft.turn_backs import folded_flat
from drafting.geometry.maths import rounded
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.pattern import HolesForm, LineRef, MirrorForm, Pattern
from drafting.records import dataclass, field
from drafting.solve.placed import Placed, PlacedStitches

NEEDLE_TAIL = 150.0
"""mm that each needle keeps at the end (common practice, no source)."""


@dataclass(frozen=True)
class Sewn:
    """A seam: its lines by `piece.line`, how thick the leather is where it is thickest, and how often an item has it.

    Of a line that goes on into its twin the drafted half is named, and both are counted. `unknown` names the stocks
    that do not say how thick they are: they are reckoned as nothing.
    """

    lines: tuple[str, ...]
    stitches: int
    thick: float
    times: int
    thread: ThreadNeed
    unknown: tuple[str, ...]
    goes_on: bool = False
    """True where it goes on into the twins of its lines, across the mirror line."""
    through: Mapping[str, float] = field(default_factory=dict)
    """How thick all the layers are together at the thickest hole of each line, twins among them."""


def seams_of(placed: Placed, pattern: Pattern, tail: float = NEEDLE_TAIL) -> tuple[Sewn, ...]:
    """Every seam of one item, in the order of its lines."""
    return tuple(_Sewing(placed, pattern, tail).seams())


def sources_of(placed: Placed, pattern: Pattern) -> Mapping[str, str]:
    """Of each line that is pricked through from another, that other; both by `piece.line`."""
    return _Sewing(placed, pattern, 0.0).sources


def through_lines(seams: Iterable[Sewn]) -> dict[str, float]:
    """How thick all the layers are that each stitch line sews, but for those that sew a stock of unknown thickness."""
    found: dict[str, float] = {}
    for seam in seams:
        if not seam.unknown:
            for line, thick in seam.through.items():
                found[line] = max(thick, found.get(line, 0.0))
    return found


@dataclass(frozen=True)
class _Tie:
    """Lines that lie in one seam, and how their holes meet: in their order, from the other end, in their places, or
    not at all, where a line goes on into its twin. `is_join` where the pattern says so by a join."""

    lines: tuple[str, ...]
    how: Literal["ahead", "back", "place", "on"]
    is_join: bool = False


_Reached = Mapping[str, Mapping[int, int]]
"""Of lines of a seam, by name: which hole of its walk each of their own is."""


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
        self.leather: dict[str, Leather] = {}

    def seams(self) -> Iterator[Sewn]:
        self.ties = tuple(tie for tie in self._ties() if all(line in self.lines for line in tie.lines))
        for group in _groups(list(self.lines), [tie.lines for tie in self.ties]):
            inside = [tie for tie in self.ties if tie.lines[0] in group]
            yield from self._split(group, inside)

    # What lies in one seam

    def _ties(self) -> Iterator[_Tie]:
        known = {line for join in self.placed.joins for line in join.lines}
        for join in self.placed.joins:
            how: Literal["ahead", "back"] = "back" if join.is_reversed else "ahead"
            yield _Tie(join.lines, how, True)
            twins = tuple(_twin(line) for line in join.lines)
            if all(twin in self.lines for twin in twins) and known.isdisjoint(twins):
                yield _Tie(twins, how, True)
        yield from (_Tie(pair, "place") for pair in self.sources.items())
        yield from (_Tie(pair, "ahead") for pair in self._folded())
        yield from (_Tie((line, _twin(line)), "on") for line in self.lines if self._goes_on(line))

    def _goes_on(self, line: str) -> bool:
        """Whether a line meets its twin on the mirror line."""
        twin = self.lines.get(_twin(line))
        return twin is not None and any(meeting_ends(self._layout(line), cast(Layout, twin.layout)))

    def _layout(self, line: str) -> Layout:
        return cast(Layout, self.lines[line].layout)

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
            yield from self._sewn(group, cut, times)
            return
        apart = [tuple(line for line in tie.lines if line not in shared) for tie in ties]
        for part in _groups([line for line in group if line not in shared], [tie for tie in apart if tie]):
            with_them = [
                line for line in shared if any(line in join and set(part) & set(join) for join in joins)
            ]
            yield from self._sewn((*part, *with_them), {**cut, **dict.fromkeys(with_them, 1)}, times)

    def _sewn(self, lines: Sequence[str], layers: Mapping[str, int], times: int) -> Iterator[Sewn]:
        """The seam of these lines; what it does not reach, where two halves part, is sewn by itself."""
        walked = self._walked(lines)
        walk = walk_of(*(self._layout(line) for line in walked))
        reached = self._reached(walked, walk, lines)
        thicknesses = self._thicknesses(reached, layers, walk.n_holes)
        unknown = dict.fromkeys(self._stock(line) for line in reached if self._thick(line) is None)
        need = walk.thread(thicknesses, self.tail)
        goes_on = len(walked) > 1
        names = tuple(line for line in lines if line in reached and not (goes_on and _twin_of(line, reached)))
        through = {line: max(thicknesses[at] for at in holes.values()) for line, holes in reached.items()}
        yield Sewn(names, walk.stitches, max(thicknesses), times, need, tuple(unknown), goes_on, through)
        left = [line for line in lines if line not in reached]
        if left:
            yield from self._sewn(left, layers, times)

    def _thicknesses(self, reached: _Reached, layers: Mapping[str, int], n_holes: int) -> list[float]:
        """How thick the leather is at each hole of a walk: every layer of each piece once, as often as it is cut."""
        plies: list[dict[str, list[Ply]]] = [{} for _ in range(n_holes)]
        for line, holes in reached.items():
            piece, leather = _piece(line), self._leather(line)
            places = [hole.point for hole in self.lines[line].layout.holes]
            for index, at in holes.items():
                found = plies[at].setdefault(piece, [])
                found += [ply for ply in leather.plies(places[index]) if not ply.is_among(found)]
        often = {_piece(line): layers[line] for line in reached}
        return [
            sum(often[piece] * ply.thick for piece, found in hole.items() for ply in found) for hole in plies
        ]

    def _leather(self, line: str) -> Leather:
        name = _piece(line)
        if name not in self.leather:
            piece = self.placed.pieces[name]
            folds = tuple(folded_flat(self.placed, piece, self.pattern.pieces[name]))
            self.leather[name] = Leather(piece, self._thick(line) or 0.0, folds)
        return self.leather[name]

    def _walked(self, lines: Sequence[str]) -> tuple[str, ...]:
        """The line whose holes are counted, with the twin that it goes on into: rings and whole lines before others."""

        def goes_on(line: str) -> bool:
            return _twin(line) in lines and self._goes_on(line)

        first = min(
            lines,
            key=lambda line: (line in self.sources, not self.lines[line].layout.is_ring, not goes_on(line)),
        )
        return (first, _twin(first)) if goes_on(first) else (first,)

    def _reached(self, walked: Sequence[str], walk: Walk, lines: Sequence[str]) -> _Reached:
        """Which hole of the walk each hole of a line is, by their numbers."""
        reached = {line: dict(enumerate(order)) for line, order in zip(walked, walk.orders, strict=True)}
        todo = list(walked)
        for known in todo:
            for other, holes in self._beside(known, reached[known]):
                if other in lines and other not in reached:
                    reached[other] = holes
                    todo.append(other)
        return reached

    def _beside(self, known: str, holes: Mapping[int, int]) -> Iterator[tuple[str, dict[int, int]]]:
        """Every line that is tied to a known one, and which holes of the walk its own are."""
        for tie in self.ties:
            if tie.how != "on" and known in tie.lines:
                for other in tie.lines:
                    if other != known and (met := self._met(tie, known, holes, other)):
                        yield other, met

    def _met(self, tie: _Tie, known: str, holes: Mapping[int, int], other: str) -> dict[int, int]:
        """Nothing where only some of the holes are there: those are found in their places, by another tie."""
        if tie.how == "place":
            there = self._places(known)
            at = {there[index]: hole for index, hole in holes.items()}
            return {index: at[place] for index, place in enumerate(self._places(other)) if place in at}
        count, needed = self._n_holes(known), self._n_holes(other)
        if (
            needed > count + self.lines[known].layout.is_ring
            or needed < count - self.lines[other].layout.is_ring
        ):
            return {}
        pairs = (
            (index, (needed - 1 - index if tie.how == "back" else index) % count) for index in range(needed)
        )
        return {index: holes[met] for index, met in pairs if met in holes}

    def _n_holes(self, line: str) -> int:
        return len(self.lines[line].layout.holes)

    def _places(self, line: str) -> list[tuple[object, object]]:
        return [_place(hole.point) for hole in self.lines[line].layout.holes]

    def _stock(self, line: str) -> str:
        return self.placed.pieces[_piece(line)].stock or ""

    def _thick(self, line: str) -> float | None:
        return self.thick.get(self._stock(line))


def _piece(line: str) -> str:
    return line.partition(".")[0]


def _place(point: Point) -> tuple[object, object]:
    """Pricked holes are the very holes of their source, so their places are the same numbers."""
    return rounded(point.x / SAME_POINT), rounded(point.y / SAME_POINT)


def _twin(line: str) -> str:
    """`front.seam'` of `front.seam`, and back again; of one of a list `front.seams'.2`."""
    piece, name, *index = line.split(".")
    return ".".join([piece, name.rstrip("'") if name.endswith("'") else f"{name}'", *index])


def _twin_of(line: str, lines: Collection[str]) -> bool:
    """Whether a line is the twin of one of these."""
    return line.split(".")[1].endswith("'") and _twin(line) in lines


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
