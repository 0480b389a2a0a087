"""Rules of straps: buckles, slots, turn-backs, and the holes for the prong."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from drafting.craft.item import HoleRow, Opening, PlacedPart, PunchedHole
from drafting.craft.rules import limits
from drafting.craft.rules.rule import Bench, Breach, Figure, at_place, named
from drafting.craft.rules.shapes import lying_of
from drafting.geometry.maths import first_least, least
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.geometry.trim import lines_across
from drafting.solve.amounts import mm, mm_at_least, mm_at_most


def strap_wider_than_buckle(bench: Bench) -> Iterator[Breach]:
    for pair in bench.item.straps_in_buckles:
        figure = bench.too_much(pair.wide, pair.buckle.inside, 2)
        if figure:
            facts = {
                "strap": pair.strap,
                "buckle": pair.buckle.name,
                "measured": bench.text(figure),
                "limit": mm(figure.limit),
                "needed": bench.at_most(figure.limit, 2),
            }
            yield Breach(pair.strap, figure, facts, (pair.buckle.name,))


def strap_slack_in_buckle(bench: Bench) -> Iterator[Breach]:
    """As drawn: what the knife takes off is the play that `strap_wider_than_buckle` asks for. Counted here too,
    it would leave no buckle for a strap cut half as true as the slack that it may have."""
    for pair in bench.item.straps_in_buckles:
        figure = bench.too_little(pair.wide, pair.buckle.inside - limits.STRAP_SLACK, 0)
        if figure:
            facts = {
                "strap": pair.strap,
                "buckle": pair.buckle.name,
                "inside": mm(pair.buckle.inside),
                "measured": bench.text(figure),
                "limit": mm(figure.limit),
                "needed": bench.at_least(figure.limit, 2),
                "narrower": mm_at_most(figure.worst + limits.STRAP_SLACK),
            }
            yield Breach(pair.strap, figure, facts, (pair.buckle.name,))


def strap_and_slot(bench: Bench) -> Iterator[Breach]:
    for pair in bench.item.straps_in_slots:
        found = bench.item.opening(pair.slot)
        if found is None:
            continue
        slot = found[1]
        ways = (("wide", pair.wide, slot.long, "long", 4), ("thick", pair.thick, slot.wide, "wide", 2))
        for way, size, room, word, edges in ways:
            figure = bench.too_little(room, size, edges)
            if figure:
                facts = {
                    "strap": pair.strap,
                    "strap_size": mm(size),
                    "way": way,
                    "slot": pair.slot,
                    "measured": f"{bench.text(figure)} {word}",
                    "limit": mm(size),
                    "needed": f"{bench.at_least(size, edges)} {word}",
                }
                yield Breach(pair.strap, figure, facts, (pair.slot, way))


def turn_back_too_short(bench: Bench) -> Iterator[Breach]:
    for back in bench.item.turn_backs:
        for seam, distance in back.seams:
            figure = bench.too_little(back.reach, distance + limits.LEAST_MARGIN, 1)
            if figure:
                facts = {
                    "piece": back.piece,
                    "fold": back.fold,
                    "seam": seam,
                    "measured": bench.text(figure),
                    "limit": mm(figure.limit),
                }
                yield Breach(back.piece, figure, facts, (seam,))


def slot_to_stitching(bench: Bench) -> Iterator[Breach]:
    for back in bench.item.turn_backs:
        part, slot = _slot_of(bench, back.piece, back.slot)
        if part is None or slot is None or not back.seams:
            continue
        seam, nearest = min(back.seams, key=lambda one: (one[1], one[0]))
        width = lying_of(part.outline).wide
        limit = least(limits.SLOT_TO_STITCHING, limits.SLOT_TO_STITCHING_PART * width)
        left = nearest - slot.long / 2 - back.slot_off_fold
        figure = bench.too_little(left, limit, 1)
        if figure:
            facts = {
                "slot": named(part, slot.name),
                "seam": seam,
                "ends": f"ends {bench.text(figure)} from" if left > 0 else f"reaches {mm(-left)} past",
                "limit": mm(figure.limit),
                "twice": mm_at_least(2 * figure.beyond),
            }
            yield Breach(back.piece, figure, facts, (slot.name, seam))


def slot_off_fold(bench: Bench) -> Iterator[Breach]:
    for back in bench.item.turn_backs:
        part = bench.item.part(back.piece)
        if back.slot is None:
            continue
        figure = bench.too_much(abs(back.slot_off_fold), limits.SLOT_OFF_FOLD, 0)
        if figure:
            facts = {
                "slot": f"{back.piece}.{back.slot}",
                "fold": back.fold,
                "measured": bench.text(figure),
                "limit": mm(figure.limit),
                "at": at_place(part, back.on_fold) if part and back.on_fold else "on the fold",
            }
            yield Breach(back.piece, figure, facts, (back.slot,))


def _slot_of(bench: Bench, piece: str, slot: str | None) -> tuple[PlacedPart | None, Opening | None]:
    found = bench.item.opening(f"{piece}.{slot}") if slot else None
    return found if found else (None, None)


def prong_in_slot(bench: Bench) -> Iterator[Breach]:
    for pair in bench.item.straps_in_buckles:
        found = bench.item.opening(pair.slot) if pair.slot else None
        if found is None or pair.buckle.prong is None:
            continue
        figure = bench.too_little(found[1].wide, pair.buckle.prong + limits.PRONG_PLAY, 2)
        if figure:
            facts = {
                "slot": pair.slot or "",
                "buckle": pair.buckle.name,
                "prong": mm(pair.buckle.prong),
                "measured": bench.text(figure),
                "limit": mm(figure.limit),
                "needed": bench.at_least(figure.limit, 2),
            }
            yield Breach(found[0].name, figure, facts, (found[1].name,))


def rows_for_size(bench: Bench) -> Iterator[tuple[PlacedPart, HoleRow]]:
    yield from ((part, row) for part in bench.item.parts for row in part.rows if row.for_size)


def even_strap_holes(bench: Bench) -> Iterator[Breach]:
    for part, row in rows_for_size(bench):
        count = len(row.holes)
        if count % 2 == 0:
            facts = {
                "row": named(part, row.name),
                "measured": str(count),
                "fewer": str(max(count - 1, 1)),
                "more": str(count + 1),
            }
            yield Breach(part.name, Figure(count, count, count + 1), facts, (row.name,))


def strap_holes_off_center(bench: Bench) -> Iterator[Breach]:
    for part, row in rows_for_size(bench):
        for what, center, mend, edges, off, where in _off_center(part, row):
            figure = bench.too_much(off, limits.OFF_CENTER, edges)
            if figure:
                facts = {
                    "what": what,
                    "row": named(part, row.name),
                    "center": center,
                    "place": mend,
                    "measured": bench.text(figure),
                    "limit": mm(figure.limit),
                }
                yield Breach(part.name, figure, facts, (row.name, what), where)


def _off_center(part: PlacedPart, row: HoleRow) -> Iterator[tuple[str, str, str, int, float, Point]]:
    """The middle hole off the place the size is measured to, and the hole that is most off the strap's middle.

    Of each what it is, what it should lie on and where the row's middle then is, how many edges take part, and how far
    off it is.
    """
    if row.nominal is not None and len(row.holes) % 2 == 1:
        middle = row.holes[len(row.holes) // 2].center
        off = middle.distance_to(row.nominal)
        where = at_place(part, row.nominal)
        yield "The middle hole", "the place the size is measured to", where, 0, off, middle
    offs = [(_off_middle(part, hole.center, way), hole.center) for hole, way in _ways(row)]
    if offs:
        aside, hole = first_least(
            offs, lambda one: -one[0].length, lambda one: -one[1].x, lambda one: -one[1].y
        )
        first, last = row.holes[0].center, row.holes[-1].center
        where = at_place(part, first + (last - first) * 0.5 - aside)
        yield "A hole", "the middle of the strap's width", where, 1, aside.length, hole


def _ways(row: HoleRow) -> Iterator[tuple[PunchedHole, Vector]]:
    """Each hole with the direction of the row there; a single hole has none."""
    centers = [hole.center for hole in row.holes]
    if len(centers) > 1:
        directions = [(b - a).unit() for a, b in pairwise(centers)]
        yield from zip(row.holes, [*directions, directions[-1]], strict=True)


def _off_middle(part: PlacedPart, center: Point, way: Vector) -> Vector:
    """From the middle of the strap, measured square across it, to a hole."""
    across = lines_across(part.outline, center, way.turned_left())
    found = [line for line in across if line.distance_to_point(center) <= SAME_POINT]
    return center - found[0].midpoint if found else Vector(0.0, 0.0)
