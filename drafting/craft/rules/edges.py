"""Rules of the edge: stitch lines, holes and notches near it, and things that leave the piece."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.craft.item import PlacedPart, StitchLine
from drafting.craft.places import corner_places
from drafting.craft.rules import limits
from drafting.craft.rules.rule import ROUNDING, Bench, Breach, Figure, named
from drafting.geometry.arc import Arc
from drafting.geometry.maths import most
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.solve.amounts import mm, mm_at_least, mm_at_most, place


def lines_of(bench: Bench) -> Iterator[tuple[PlacedPart, StitchLine]]:
    yield from ((part, line) for part in bench.item.parts for line in part.stitches)


def stitch_to_edge(bench: Bench) -> Iterator[Breach]:
    for part, line in lines_of(bench):
        margin, where = bench.margin(part, line)
        figure = bench.too_little(margin, limits.LEAST_MARGIN, 1)
        if figure and part.outline.contains(where) and not _is_as_near(bench, line, margin):
            facts = {
                "line": named(part, line.name),
                "measured": bench.text(figure),
                "limit": mm(figure.limit),
                "needed": bench.at_least(figure.limit, 1),
            }
            yield Breach(part.name, figure, facts, (line.name,), where)


def _is_as_near(bench: Bench, line: StitchLine, margin: float) -> bool:
    """Whether the line that this one is pricked through from stands as near to its own edge: then that is told of, and
    where it is mended this one is too."""
    piece, _, name = (line.source or "").partition(".")
    part = bench.item.part(piece)
    sources = (one for one in part.stitches if one.name == name) if part else ()
    return any(bench.margin(part, one)[0] <= margin + ROUNDING for one in sources if part)


def stitch_far_from_edge(bench: Bench) -> Iterator[Breach]:
    for part, line in lines_of(bench):
        margin, where = bench.margin(part, line)
        figure = bench.too_much(margin, limits.MOST_MARGIN, 1)
        if figure and _follows_edge(part, line, margin):
            facts = {
                "line": named(part, line.name),
                "measured": bench.text(figure),
                "limit": mm(figure.limit),
                "needed": bench.at_most(figure.limit, 1),
            }
            yield Breach(part.name, figure, facts, (line.name,), where)


def _follows_edge(part: PlacedPart, line: StitchLine, margin: float) -> bool:
    """A straight line far in divides the piece; it follows no edge."""
    if len(line.layout.line.legs) == 1 and margin > limits.DIVIDES:
        return False
    far = margin + limits.FOLLOWS_EDGE
    return all(part.outline.distance_to_point(hole.point) <= far for hole in line.layout.holes)


def sewn_thickness(bench: Bench) -> Iterator[Breach]:
    for part, line in lines_of(bench):
        if line.sewn is None:
            continue
        margin, where = bench.margin(part, line)
        figure = bench.too_little(margin, limits.SEWN_PART * line.sewn, 1)
        if figure and not _is_as_near(bench, line, margin):
            facts = {
                "line": named(part, line.name),
                "sewn": mm(line.sewn),
                "measured": bench.text(figure),
                "limit": mm(figure.limit),
                "needed": bench.at_least(figure.limit, 1),
            }
            yield Breach(part.name, figure, facts, (line.name,), where)


def hole_to_edge(bench: Bench) -> Iterator[Breach]:
    for part in bench.item.parts:
        for hole in part.all_holes:
            diameters = limits.LOADED_HOLE_DIAMETERS if hole.loaded else limits.HOLE_DIAMETERS
            distance = part.outline.distance_to_point(hole.center)
            figure = bench.too_little(distance, diameters * hole.across, 1)
            if figure:
                facts = {
                    "hole": named(part, hole.name),
                    "across": mm(hole.across),
                    "measured": bench.text(figure),
                    "limit": mm(figure.limit),
                    "smaller": _punched_smaller("it", figure.worst / diameters),
                    "loaded": " for a hole that bears a pull" if hole.loaded else "",
                }
                yield Breach(part.name, figure, facts, (hole.name,), hole.center)


def _punched_smaller(what: str, across: float) -> str:
    """That a smaller hole would do, if such a punch is made."""
    return f", or punch {what} {mm_at_most(across)} across or less" if across >= limits.SMALLEST_PUNCH else ""


def hole_to_hole(bench: Bench) -> Iterator[Breach]:
    for part in bench.item.parts:
        holes = sorted(part.all_holes, key=lambda hole: (hole.center.x, hole.center.y))
        reach = 2 * max((hole.across for hole in holes), default=0.0) + 2 * bench.tolerance
        for index, hole in enumerate(holes):
            for other in holes[index + 1 :]:
                if other.center.x - hole.center.x > reach:
                    break
                bridge = hole.center.distance_to(other.center) - (hole.across + other.across) / 2
                limit = limits.HOLE_BRIDGE_DIAMETERS * most(hole.across, other.across)
                figure = bench.too_little(bridge, limit, 0)
                if figure:
                    first, second = sorted((hole.name, other.name))
                    facts = {
                        "left": _left_between(part, first, second, bridge),
                        "limit": mm(figure.limit),
                        "apart": mm_at_least(limit + (hole.across + other.across) / 2),
                        "smaller": _punched_smaller("both", hole.center.distance_to(other.center) / 2),
                    }
                    yield Breach(part.name, figure, facts, (first, second), hole.center)


def _left_between(part: PlacedPart, first: str, second: str, bridge: float) -> str:
    both = f"`{named(part, first)}` and `{named(part, second)}`"
    if first == second:
        both = f"two holes of `{named(part, first)}`"
    if bridge > ROUNDING:
        return f"Between {both} {mm(bridge)} of leather are left"
    return f"{both[0].upper()}{both[1:]} run into each other by {mm(-bridge)}, and no leather is left between them"


def fillet_and_inset(bench: Bench) -> Iterator[Breach]:
    for part, line in lines_of(bench):
        if line.pricked:
            continue
        way = line.layout.line
        for corner in (way.point_at(at) for at in corner_places(way)):
            inset = part.outline.distance_to_point(corner)
            arc = _rounding_about(part.outline, corner, inset)
            if arc:
                figure = Figure(arc.radius, arc.radius, inset)
                facts = {
                    "line": named(part, line.name),
                    "place": place(corner),
                    "measured": mm(arc.radius),
                    "limit": mm(inset),
                }
                yield Breach(part.name, figure, facts, (line.name,), corner)
                break


def _rounding_about(outline: Ring, corner: Point, inset: float) -> Arc | None:
    """The rounded corner of the edge, smaller than the inset, that a sharp stitch corner stands in.

    Its center is (inset - r)/sin(half the corner's angle) from the stitch corner.
    """
    outward = 1 if outline.is_anticlockwise else -1
    for leg in outline.legs:
        if isinstance(leg, Arc) and leg.sweep * outward > 0 and leg.radius < inset:
            if leg.center.distance_to(corner) <= NARROWEST_CORNER * (inset - leg.radius):
                return leg
    return None


NARROWEST_CORNER = 4.0
"""1/sin of half the angle of the narrowest corner that is looked at, 29 deg."""


def notch_to_seam(bench: Bench) -> Iterator[Breach]:
    for part in bench.item.parts:
        for notch in part.notches:
            for line in part.stitches:
                left = line.layout.line.distance_to_point(notch.place) - notch.deep
                figure = bench.too_little(left, limits.NOTCH_TO_SEAM, 1)
                if figure:
                    facts = {
                        "notch": named(part, notch.name),
                        "line": named(part, line.name),
                        "left": f"leaves {bench.text(figure)} to" if left > 0 else f"cuts {mm(-left)} into",
                        "limit": mm(figure.limit),
                        "mend": _less_deep(notch.deep + figure.worst - figure.limit),
                    }
                    yield Breach(part.name, figure, facts, (notch.name, line.name), notch.place)


def _less_deep(deep: float) -> str:
    """The deepest notch that keeps clear of the seam; where there is none, a mark."""
    if deep < limits.SHALLOWEST_NOTCH:
        return "Write `mark` in place of `notch`, without a depth."
    return f"Write `{mm_at_most(deep)} deep` or less, or `mark` in place of `notch`, without a depth."
