"""Placed pieces of any sort, for hypothesis: shapes, features, notes and names that no one would choose."""

from __future__ import annotations

from math import cos, pi, sin

from hypothesis import strategies as st

from drafting.geometry.corners import RoundBy
from drafting.geometry.curves import box, circle, obround
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.solve.placed import Hole, Placed, PlacedCorner, PlacedDim, PlacedFeature, PlacedPiece
from tests.drawing.samples import feature, piece, placed, polygon, rounded

names = st.from_regex(r"[a-zé漢Ж][a-z0-9_é漢Ж]{0,12}", fullmatch=True)
words = st.text(max_size=60)
sizes = st.floats(4, 400).map(lambda size: round(size, 2))


@st.composite
def outlines(draw: st.DrawFn) -> tuple[Ring, list[PlacedCorner]]:
    """A circle, a rounded box, or a star of corners about (0, 0), some of them rounded."""
    width, height = draw(sizes), draw(sizes)
    kind = draw(st.sampled_from(["disc", "box", "star"]))
    if kind == "disc":
        return circle(Point(0, 0), width / 2), []
    if kind == "box":
        radius = draw(st.floats(0.05, 0.45)) * min(width, height)
        corners = [Point(x * width / 2, y * height / 2) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
        return rounded(
            polygon(corners), {n: RoundBy(radius) for n in range(4)}, {n: f"c{n}" for n in range(4)}
        )
    count = draw(st.integers(3, 9))
    reaches = draw(st.lists(st.floats(0.4, 1), min_size=count, max_size=count))
    turns = [2 * pi * index / count for index in range(count)]
    points = [
        Point(width * reach * cos(turn), height * reach * sin(turn))
        for reach, turn in zip(reaches, turns, strict=True)
    ]
    return Ring(polygon(points)), []


@st.composite
def features(draw: st.DrawFn, name: str, reach: float) -> PlacedFeature:
    """Anywhere on or off the piece, for the drawing must bear what the checks of other rooms refuse."""
    place = st.floats(-reach, reach).map(lambda at: round(at, 2))
    center = Point(draw(place), draw(place))
    note = draw(st.none() | words)
    kind = draw(
        st.sampled_from(
            ["hole", "slot", "row", "opening", "label", "stamp", "mark", "crease", "slit", "stitch"]
        )
    )
    long, wide = draw(st.floats(3, 60)), draw(st.floats(0.5, 2.9))
    turn = draw(st.sampled_from([0.0, pi / 2, 0.4, -2.0]))
    degrees = turn * 180 / pi
    if kind == "hole":
        return feature(
            name, kind, center=center, holes=[Hole(center, wide)], sizes={"across": wide}, note=note
        )
    if kind == "slot":
        ring = obround(center, long, wide, turn)
        return feature(
            name, kind, center=center, direction=degrees, rings=[ring], sizes={"long": long, "wide": wide}
        )
    if kind == "row":
        count = draw(st.integers(1, 40))
        first = (count - 1) * 1.5 * wide / 2
        holes = [Hole(Point(center.x - first + 1.5 * wide * n, center.y), wide) for n in range(count)]
        row_sizes = {"across": wide, "apart": 1.5 * wide, "holes": float(count)}
        return feature(name, kind, center=center, direction=0.0, holes=holes, sizes=row_sizes, note=note)
    if kind in ("opening", "label", "stamp"):
        if kind != "opening" and draw(st.booleans()):
            return feature(
                name, kind, center=center, direction=degrees, sizes={"high": wide * 2}, text=draw(words)
            )
        ring = box(center, long, wide * 4, turn)
        text = draw(words) if kind != "opening" else None
        box_sizes = {"width": long, "height": wide * 4}
        return feature(
            name, kind, center=center, direction=degrees, rings=[ring], sizes=box_sizes, text=text, note=note
        )
    if kind == "mark":
        return feature(name, kind, center=center, note=note)
    end = Point(center.x + long * cos(turn), center.y + long * sin(turn))
    return feature(name, kind, paths=[Path([Line(center, end)])], note=note)


@st.composite
def pieces(draw: st.DrawFn, name: str) -> PlacedPiece:
    outline, corners = draw(outlines())
    reach = max(outline.bounds.width, outline.bounds.height) / 2
    count = draw(st.integers(0, 6))
    made = [draw(features(f"f{index}", reach)) for index in range(count)]
    ends = st.builds(Point, st.floats(-reach, reach), st.floats(-reach, reach))
    hows = st.sampled_from(["level", "plumb", None])
    dims = draw(st.lists(st.builds(PlacedDim, ends, ends, hows, names, names, st.none() | words), max_size=3))
    mirror = draw(
        st.sampled_from(
            [None, (Point(0, 0), Point(0, 9)), (Point(0, 0), Point(7, 0)), (Point(0, 0), Point(3, 5))]
        )
    )
    grain = draw(st.sampled_from([None, "any", 0.0, 90.0, 37.0]))
    return piece(
        name, outline, features=made, corners=corners, dims=dims, mirror=mirror, grain=grain,
        count=draw(st.integers(1, 12)), pair=draw(st.booleans()), stock=draw(st.none() | names),
        stock_note=draw(st.none() | words), note=draw(st.none() | words),
    )  # fmt: skip


@st.composite
def patterns(draw: st.DrawFn) -> Placed:
    made = [draw(pieces(name)) for name in draw(st.lists(names, max_size=3, unique=True))]
    show = draw(st.sampled_from([("mm",), ("in",), ("cm",), ("mm", "in"), ()]))
    return placed(
        draw(words), made, stem=draw(names), show=show, size=draw(st.none() | words),
        notes=tuple(draw(st.lists(words, max_size=3))), edition=draw(st.none() | words),
        licence=draw(st.none() | words),
        author=draw(st.none() | words),
    )  # fmt: skip
