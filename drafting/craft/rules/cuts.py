"""Rules of cuts inside a piece: slots, windows and slits, and the leather left beside them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from drafting.craft.item import PlacedPart
from drafting.craft.rules import limits
from drafting.craft.rules.rule import Bench, Breach, Figure, hole_in, holes_gap, named
from drafting.craft.slits import RoundHole
from drafting.geometry.curves import circle
from drafting.geometry.maths import most
from drafting.geometry.nearness import Gap, gap_between, nearest_gap
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass
from drafting.solve.amounts import mm, place


@dataclass(frozen=True)
class Cut:
    """A slot, a window or a slit by its line, with the holes that stop it."""

    name: str
    line: Path | Ring
    holes: tuple[RoundHole, ...] = ()

    @property
    def lines(self) -> tuple[Path | Ring, ...]:
        """All that is cut: leather is left beside the rim of an end hole, not beside its middle."""
        return self.line, *(circle(hole.center, hole.across / 2) for hole in self.holes)

    def gap_to(self, line: Path | Ring) -> Gap:
        return nearest_gap([gap_between(own.legs, line.legs) for own in self.lines])


def openings_of(part: PlacedPart) -> list[Cut]:
    return [Cut(opening.name, opening.ring) for opening in part.openings]


def slits_of(part: PlacedPart) -> list[Cut]:
    return [Cut(one.name, one.slit.whole, one.slit.holes) for one in part.slits]


def cuts_of(part: PlacedPart) -> list[Cut]:
    return openings_of(part) + slits_of(part)


def least_bridge(part: PlacedPart) -> float:
    return most(limits.LEAST_BRIDGE, limits.BRIDGE_THICKNESSES * part.thick)


def thick_text(part: PlacedPart) -> str:
    return f"leather {mm(part.thick)} thick" if part.stock else "any leather"


def opening_to_edge(bench: Bench) -> Iterator[Breach]:
    for part in bench.item.parts:
        yield from _to_edge(bench, part, openings_of(part), "opening")


def slit_to_edge(bench: Bench) -> Iterator[Breach]:
    for part in bench.item.parts:
        yield from _to_edge(bench, part, slits_of(part), "slit")


def _to_edge(bench: Bench, part: PlacedPart, cuts: list[Cut], word: str) -> Iterator[Breach]:
    for cut in cuts:
        gap = cut.gap_to(part.outline)
        figure = bench.too_little(gap.distance, least_bridge(part), 2)
        if figure and part.outline.contains(gap.here):
            facts = {
                word: named(part, cut.name),
                "measured": bench.text(figure),
                "limit": mm(figure.limit),
                "thick": thick_text(part),
            }
            yield Breach(part.name, figure, facts, (cut.name,), gap.here)


def cut_to_seam(bench: Bench) -> Iterator[Breach]:
    for part in bench.item.parts:
        for cut in cuts_of(part):
            for line in part.stitches:
                reach = limits.CUT_TO_SEAM + bench.tolerance
                distance, where = min(
                    (hole_in(line, own) or holes_gap(line, own, reach) or (reach, None) for own in cut.lines),
                    key=lambda one: one[0],
                )
                figure = bench.too_little(distance, limits.CUT_TO_SEAM, 1)
                if figure:
                    facts = {
                        "cut": named(part, cut.name),
                        "line": named(part, line.name),
                        "comes": f"comes {bench.text(figure)} from" if distance else "cuts into",
                        "limit": mm(figure.limit),
                    }
                    yield Breach(part.name, figure, facts, (cut.name, line.name), where)


def bare_slit(bench: Bench) -> Iterator[Breach]:
    for part in bench.item.parts:
        for one in part.slits:
            for end in one.slit.bare_ends:
                if not _is_stopped(part, end, one.name):
                    facts = {"slit": named(part, one.name), "place": place(end)}
                    yield Breach(part.name, Figure(0.0, 0.0, 0.0), facts, (one.name, place(end)), end)


def _is_stopped(part: PlacedPart, end: Point, name: str) -> bool:
    """An end on the edge, in a hole or in another cut needs no hole of its own."""
    in_hole = any(hole.center.distance_to(end) <= hole.across / 2 + SAME_POINT for hole in part.all_holes)
    others = (cut.line for cut in cuts_of(part) if cut.name != name)
    in_cut = any(
        line.contains(end) if isinstance(line, Ring) else line.distance_to_point(end) <= SAME_POINT
        for line in others
    )
    return in_hole or in_cut or part.outline.distance_to_point(end) <= SAME_POINT


def thin_bridge(bench: Bench) -> Iterator[Breach]:
    for part in bench.item.parts:
        for first, second, distance, where in _bridges(part):
            figure = bench.too_little(distance, least_bridge(part), 2)
            if figure and distance > SAME_POINT:
                facts = {
                    "first": named(part, first),
                    "second": named(part, second),
                    "measured": bench.text(figure),
                    "limit": mm(figure.limit),
                    "thick": thick_text(part),
                }
                yield Breach(part.name, figure, facts, (first, second), where)


def _bridges(part: PlacedPart) -> Iterator[tuple[str, str, float, Point]]:
    """Every two cuts, and every cut and hole; those that meet are one cut, and no bridge."""
    cuts = cuts_of(part)
    for a, b in combinations(cuts, 2):
        gap = nearest_gap([a.gap_to(line) for line in b.lines])
        yield a.name, b.name, gap.distance, gap.here
    for cut in cuts:
        for hole in part.all_holes:
            distance = cut.gap_to(circle(hole.center, hole.across / 2)).distance
            yield cut.name, hole.name, most(distance, 0.0), hole.center


def hole_of_no_punch(bench: Bench) -> Iterator[Breach]:
    """Where the shop has a table of punches, each round hole is made with one of them."""
    if not bench.item.punches:
        return
    for part in bench.item.parts:
        for name, across, center in _holes_punched(part):
            nearest = min(bench.item.punches, key=lambda punch: (abs(punch.across - across), punch.across))
            figure = bench.too_much(abs(nearest.across - across), limits.PUNCH_FITS, 0)
            if figure:
                facts = {
                    "hole": named(part, name),
                    "across": mm(across),
                    "punch": nearest.name,
                    "punch_across": mm(nearest.across),
                    "limit": mm(figure.limit),
                }
                yield Breach(part.name, figure, facts, (name, mm(across)), center)


def _holes_punched(part: PlacedPart) -> Iterator[tuple[str, float, Point]]:
    """Holes, those of rows, and those that stop a slit."""
    yield from ((hole.name, hole.across, hole.center) for hole in part.all_holes)
    yield from ((one.name, hole.across, hole.center) for one in part.slits for hole in one.slit.holes)
