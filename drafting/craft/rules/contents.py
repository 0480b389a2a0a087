"""Rules of what is held: windows, inserts behind them, and pockets."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.craft.holding import between_seams, past_opening
from drafting.craft.item import InsertBehind, Opening, PlacedPart, WindowHolds
from drafting.craft.rules import limits
from drafting.craft.rules.rule import ROUNDING, Bench, Breach, hole_in, holes_gap, named
from drafting.craft.rules.shapes import leaves_at
from drafting.geometry.nearness import gap_between
from drafting.geometry.point import Point
from drafting.solve.amounts import mm, place


def windows_of(bench: Bench) -> Iterator[tuple[WindowHolds, PlacedPart, Opening]]:
    for holds in bench.item.windows:
        found = bench.item.opening(holds.window)
        if found:
            yield holds, *found


def _ways(holds: WindowHolds, window: Opening) -> tuple[tuple[str, float, float], ...]:
    """How long and how wide window and content are, longer side against longer side."""
    long, wide = sorted((holds.content.wide, holds.content.deep), reverse=True)
    return ("long", window.long, long), ("wide", window.wide, wide)


def window_too_large(bench: Bench) -> Iterator[Breach]:
    for holds, part, window in windows_of(bench):
        for way, open_, size in _ways(holds, window):
            figure = bench.too_much(open_, size, 2)
            if figure:
                facts = {
                    "window": holds.window,
                    "way": way,
                    "content": holds.content.name,
                    "content_size": mm(size),
                    "measured": bench.text(figure),
                    "needed": f"{bench.at_most(size - 2 * limits.WINDOW_OVERLAP, 2)} {way}",
                }
                yield Breach(part.name, figure, facts, (window.name, way))


def window_overlap(bench: Bench) -> Iterator[Breach]:
    for holds, part, window in windows_of(bench):
        for way, open_, size in _ways(holds, window):
            overlap = (size - open_) / 2
            figure = bench.too_little(overlap, limits.WINDOW_OVERLAP, 1)
            if figure and overlap >= 0:
                facts = {
                    "window": holds.window,
                    "way": f"{way}ways" if way == "long" else "sideways",
                    "content": holds.content.name,
                    "measured": bench.text(figure),
                    "limit": mm(figure.limit),
                    "needed": f"{bench.at_most(size - 2 * limits.WINDOW_OVERLAP, 2)} {way}",
                }
                yield Breach(part.name, figure, facts, (window.name, way))


def inserts_of(bench: Bench) -> Iterator[tuple[InsertBehind, PlacedPart, PlacedPart, Opening]]:
    for behind in bench.item.inserts:
        insert, found = bench.item.part(behind.insert), bench.item.opening(behind.window)
        if insert and found:
            yield behind, insert, *found


def insert_too_small(bench: Bench) -> Iterator[Breach]:
    for behind, insert, part, window in inserts_of(bench):
        past, where = _reach_past(insert, window)
        figure = bench.too_little(past, 0.0, 2)
        if figure:
            facts = {
                "insert": behind.insert,
                "window": behind.window,
                "place": place(where),
                "measured": mm(-figure.worst),
                "off": f" with edges {mm(bench.tolerance)} off" if bench.tolerance else "",
            }
            yield Breach(part.name, figure, facts, (window.name,), where)


def _reach_past(insert: PlacedPart, window: Opening) -> tuple[float, Point]:
    """How far an insert reaches past its window where it does so least, and where; below nothing it ends short."""
    left = leaves_at(window.ring, insert.outline)
    if left:
        return -left[0], left[1]
    gap = gap_between(window.ring.legs, insert.outline.legs)
    return gap.distance, gap.here


def insert_glue(bench: Bench) -> Iterator[Breach]:
    for behind, insert, part, window in inserts_of(bench):
        past, where = _reach_past(insert, window)
        figure = bench.too_little(past, limits.INSERT_GLUE, 2)
        if figure and figure.worst >= -ROUNDING:
            facts = {
                "insert": behind.insert,
                "window": behind.window,
                "measured": bench.text(figure),
                "limit": mm(figure.limit),
            }
            yield Breach(part.name, figure, facts, (window.name,), where)


def insert_in_seam(bench: Bench) -> Iterator[Breach]:
    for behind, insert, part, window in inserts_of(bench):
        for line in part.stitches:
            reach = limits.INSERT_TO_SEAM + bench.tolerance
            distance, where = (
                hole_in(line, insert.outline) or holes_gap(line, insert.outline, reach) or (reach, None)
            )
            figure = bench.too_little(distance, limits.INSERT_TO_SEAM, 1)
            if figure:
                facts = {
                    "insert": behind.insert,
                    "line": named(part, line.name),
                    "comes": f"comes {bench.text(figure)} from" if distance else "lies over",
                    "limit": mm(figure.limit),
                }
                yield Breach(part.name, figure, facts, (window.name, line.name), where)


def content_between_seams(bench: Bench) -> Iterator[Breach]:
    for pocket in bench.item.pockets:
        if pocket.between is None:
            continue
        room = between_seams(pocket.content, pocket.between)
        figure = bench.too_little(room.given, room.needed, 2 if pocket.is_cut else 0)
        if figure:
            ease = f" with its ease of {mm(pocket.content.ease)}" if pocket.content.ease else ""
            facts = {
                "pocket": pocket.name,
                "content": pocket.content.name,
                "ease": ease,
                "walls": "edge to edge" if pocket.is_cut else "seam to seam",
                "measured": bench.text(figure),
                "limit": mm(figure.limit),
            }
            yield Breach(pocket.name, figure, facts, (pocket.content.name,))


def content_past_opening(bench: Bench) -> Iterator[Breach]:
    for pocket in bench.item.pockets:
        if pocket.mouth is None:
            continue
        room = past_opening(pocket.content, pocket.mouth)
        figure = bench.too_little(room.given, room.needed, 2)
        if figure:
            facts = {
                "opening": pocket.opening or pocket.name,
                "content": pocket.content.name,
                "measured": bench.text(figure),
                "limit": mm(figure.limit),
            }
            yield Breach(pocket.name, figure, facts, (pocket.content.name,))
