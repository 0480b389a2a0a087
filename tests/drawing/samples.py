"""Placed patterns made by hand, for the drawing, output and proof rooms: invented goods with sizes of their own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import degrees

from drafting import face
from drafting.geometry.corners import ClipBy, RoundBy, shape_corners
from drafting.geometry.curves import arc_bowed, box, circle, obround
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.solve.placed import Hole, Placed, PlacedCorner, PlacedDim, PlacedFeature, PlacedPiece
from drafting.text.source import Source


def oblong(wide: float, high: float, names: str = "a b c d") -> str:
    """The corners of a piece and its outline, as a pattern has them; `names` go round from the foot at the left."""
    places = ((0, 0), (wide, 0), (wide, high), (0, high))
    corners = "".join(
        f"  point {name}: at ({x:g} mm, {y:g} mm)\n"
        for name, (x, y) in zip(names.split(), places, strict=True)
    )
    return f"{corners}  outline: {' to '.join(names.split())}\n"


PIERCED = """\
  hole eye: at (30 mm, 80 mm); 6 mm across
  opening window: box 40 mm by 30 mm; at (30 mm, 30 mm); lying level{rounded}
  point left: at (12 mm, 55 mm)
  point right: at (48 mm, 55 mm)
  slit card: left to right{bowed}; end holes 2 mm
"""
"""What goes through a tag of 60 mm by 90 mm."""
TAG_CORNERS = oblong(60, 90, "heel toe brow crown")


def placed_text(text: str, name: str = "sample.draft") -> face.PlacedPattern:
    """A pattern without a fault in its text, in numbers."""
    pattern = face.read(Source(name, text))
    assert not pattern.messages.has_errors, [message.says for message in pattern.messages]
    return pattern.place()


def placed(
    title: str,
    pieces: Sequence[PlacedPiece],
    *,
    stem: str = "sample",
    show: tuple[str, ...] = ("mm",),
    size: str | None = None,
    notes: tuple[str, ...] = (),
    edition: str | None = "1",
    licence: str | None = None,
    author: str | None = None,
) -> Placed:
    return Placed(
        title, edition, licence, author, notes, show, size, stem, {}, {piece.name: piece for piece in pieces}
    )


def piece(
    name: str,
    outline: Ring,
    *,
    features: Sequence[PlacedFeature] = (),
    corners: Sequence[PlacedCorner] = (),
    dims: Sequence[PlacedDim] = (),
    mirror: tuple[Point, Point] | None = None,
    grain: float | str | None = None,
    count: int = 1,
    pair: bool = False,
    stock: str | None = "body",
    stock_note: str | None = None,
    note: str | None = None,
    guides: Mapping[str, Path | Ring] | None = None,
) -> PlacedPiece:
    return PlacedPiece(
        name, note, count, pair, stock, stock_note, mirror, grain, {}, outline,  # type: ignore[arg-type]
        tuple(corners), {}, guides or {}, tuple(features), tuple(dims),
    )  # fmt: skip


def feature(
    name: str,
    kind: str,
    *,
    center: Point | None = None,
    direction: float | None = None,
    rings: Sequence[Ring] = (),
    paths: Sequence[Path] = (),
    holes: Sequence[Hole] = (),
    sizes: Mapping[str, float] | None = None,
    text: str | None = None,
    note: str | None = None,
) -> PlacedFeature:
    removed = kind in ("slot", "hole", "row", "opening")
    return PlacedFeature(
        name, kind, name.endswith("'"), removed, center, direction, tuple(rings), tuple(paths), tuple(holes),
        sizes or {}, text, note,
    )  # fmt: skip


def slot(
    name: str, center: Point, long: float, wide: float, direction: float = 0.0, note: str | None = None
) -> PlacedFeature:
    ring = obround(center, long, wide, direction)
    sizes = {"long": long, "wide": wide}
    return feature(
        name, "slot", center=center, direction=degrees(direction), rings=[ring], sizes=sizes, note=note
    )


def hole(name: str, center: Point, across: float) -> PlacedFeature:
    return feature(name, "hole", center=center, holes=[Hole(center, across)], sizes={"across": across})


def row(name: str, center: Point, count: int, apart: float, across: float) -> PlacedFeature:
    first = center.x - (count - 1) * apart / 2
    holes = [Hole(Point(first + apart * index, center.y), across) for index in range(count)]
    sizes = {"apart": apart, "across": across, "holes": count}
    return feature(name, "row", center=center, direction=0.0, holes=holes, sizes=sizes)


def opening(name: str, center: Point, width: float, height: float, radius: float = 0.0) -> PlacedFeature:
    ring = box(center, width, height, rounded=radius)
    sizes = {"width": width, "height": height} | ({"radius": radius} if radius else {})
    return feature(name, "opening", center=center, direction=0.0, rings=[ring], sizes=sizes)


def label(
    name: str, center: Point, width: float, height: float, text: str, kind: str = "label"
) -> PlacedFeature:
    ring = box(center, width, height)
    sizes = {"width": width, "height": height}
    return feature(name, kind, center=center, direction=0.0, rings=[ring], sizes=sizes, text=text)


def crease(name: str, *points: Point, kind: str = "crease", note: str | None = None) -> PlacedFeature:
    return feature(name, kind, paths=[Path(lines(points))], note=note)


def lines(points: Sequence[Point]) -> list[Leg]:
    return [Line(a, b) for a, b in pairwise(points)]


def polygon(points: Sequence[Point]) -> list[Leg]:
    return lines([*points, points[0]])


def rounded(
    legs: Sequence[Leg], shapes: Mapping[int, RoundBy | ClipBy], names: Mapping[int, str]
) -> tuple[Ring, list[PlacedCorner]]:
    """A ring with shaped corners, and the corners as the pattern would tell them."""
    ring, taken = shape_corners(Ring(legs), shapes)
    corners = []
    for index, shape in shapes.items():
        is_fillet = isinstance(shape, RoundBy)
        first, second = (shape.radius, 0.0) if isinstance(shape, RoundBy) else (shape.first, shape.second)
        kind = "fillet" if is_fillet else "clip"
        corners.append(
            PlacedCorner(names[index], legs[index].start, kind, first, second, Path([taken[index]]))
        )
    return ring, corners


def badge_holder() -> Placed:
    """A windowed holder for the ferry crew's card, hung by a slot."""
    points = [Point(0, 0), Point(71, 0), Point(71, 118), Point(0, 118)]
    names = {0: "foot_l", 1: "foot_r", 2: "head_r", 3: "head_l"}
    ring, corners = rounded(polygon(points), {index: RoundBy(6) for index in range(4)}, names)
    seam = feature("seam", "stitch", rings=[box(Point(35.5, 59), 64, 111, rounded=2.5)])
    front = piece(
        "front", ring, corners=corners, stock_note="vegetable-tanned shoulder, 1.8 mm",
        mirror=(Point(35.5, 0), Point(35.5, 118)), grain=90.0, note="window side",
        features=[
            opening("view", Point(35.5, 48), 47, 72, 4), slot("eye", Point(35.5, 106), 14, 4.5), seam,
            crease("brow", Point(0, 96), Point(71, 96), note="turn the flap here"),
        ],
        dims=[PlacedDim(Point(12, 12), Point(59, 84), None, "sill", "lintel", "card")],
    )  # fmt: skip
    back = piece(
        "back", ring, corners=corners, grain=90.0, stock_note="vegetable-tanned shoulder, 1.8 mm",
        features=[
            slot("eye", Point(35.5, 106), 14, 4.5), seam,
            label("owner", Point(35.5, 60), 50, 20, "If found, hand to the purser", kind="stamp"),
        ],
    )  # fmt: skip
    screen = piece(
        "screen", box(Point(0, 0), 55, 86), stock="film", stock_note="clear polyester", grain="any"
    )
    return placed(
        "Ferry crew badge holder", [front, back, screen], stem="badge-holder", show=("mm", "in"), size="crew card",
        notes=("Glue the film under the window, flesh side.",), licence="CC BY 4.0",
        author="Guild of the Seven Awls",
    )  # fmt: skip


def deck_belt(length: float = 560.0) -> Placed:
    """A strap with a tongue slot, a row of holes, a tapered bowed tip and a stamp."""
    wide = 38.0
    half = wide / 2
    tip = arc_bowed(Point(length - 34, -half), Point(length, 0), 4, to_left=False)
    legs: list[Leg] = [
        Line(Point(0, half), Point(0, -half)),
        Line(Point(0, -half), Point(length - 34, -half)),
        tip,
        tip.mirrored(Point(0, 0), Point(1, 0)).reversed(),
        Line(Point(length - 34, half), Point(0, half)),
    ]
    ring, corners = rounded(legs, {0: RoundBy(3), 1: RoundBy(3)}, {0: "corner", 1: "corner'"})
    belt = piece(
        "belt", ring, corners=corners, stock="butt", stock_note="harness butt, 3.6 mm", grain=0.0,
        mirror=(Point(0, 0), Point(length, 0)),
        features=[
            slot("tongue", Point(80, 0), 28, 6),
            row("holes", Point(length - 120, 0), 7, 25, 4),
            crease("crook", Point(80, -half), Point(80, half), kind="fold", note="round the bar"),
            crease("seam", Point(100, -half), Point(100, half), kind="stitch"),
            label("owner", Point(200, 0), 40, 9, "No. 14", kind="stamp"),
        ],
        dims=[PlacedDim(Point(80, 0), Point(length - 120, 0), None, "at_bar", "middle", "size")],
    )  # fmt: skip
    keeper = piece("keeper", box(Point(0, 0), 104.5, 12), stock="butt", count=2)
    return placed("Ferry deck belt", [belt, keeper], stem="deck-belt", size="34 inch", show=("mm",))


def toll_coin() -> Placed:
    """A disc with a round opening and holes about it."""
    hub = Point(0, 0)
    holes = [hole(f"tie_{index}", Point(0, 36).turned(index * 1.0471975512, hub), 3) for index in range(6)]
    ring = feature("rim", "stitch", rings=[circle(hub, 44)])
    center = feature("eye", "opening", center=hub, rings=[circle(hub, 9)], sizes={"across": 18})
    disc = piece("disc", circle(hub, 48), features=[center, ring, *holes], count=1, pair=True, grain="any")
    return placed("Toll keeper's coin tray", [disc], stem="coin-tray")


def key_fob() -> Placed:
    """All bows: a drop with a ring hole, a clipped tail and a short slit."""
    left, right = Point(-16, 40), Point(16, 40)
    legs: list[Leg] = [
        Line(Point(-6, -30), Point(6, -30)),
        arc_bowed(Point(6, -30), right, 5, to_left=False),
        arc_bowed(right, left, 16, to_left=False),
        arc_bowed(left, Point(-6, -30), 5, to_left=False),
    ]
    ring, corners = rounded(legs, {0: ClipBy(2, 2), 1: ClipBy(2, 2)}, {0: "tail", 1: "tail'"})
    fob = piece(
        "fob", ring, corners=corners, count=2, stock="scrap",
        features=[
            hole("ring", Point(0, 44), 5),
            feature("mouth", "slit", paths=[Path([arc_bowed(Point(-7, 10), Point(7, 10), 2, to_left=True)])]),
            feature("rivet", "mark", center=Point(0, -20)),
        ],
    )  # fmt: skip
    return placed("Key fob for the boat shed", [fob], stem="key-fob", show=("in",))


def choir_folder() -> Placed:
    """A mirrored shape with twins, clipped and rounded corners, an off-level slot and a fold."""
    points = [
        Point(0, 0),
        Point(60, 0),
        Point(60, 90),
        Point(36, 120),
        Point(-36, 120),
        Point(-60, 90),
        Point(-60, 0),
    ]
    shapes = {1: RoundBy(8), 6: RoundBy(8), 3: ClipBy(5, 9), 4: ClipBy(9, 5)}
    ring, corners = rounded(polygon(points), shapes, {1: "heel", 6: "heel'", 3: "brow", 4: "brow'"})
    twin = slot("tie'", Point(-38, 70), 16, 4, direction=2.2)
    cover = piece(
        "cover", ring, corners=corners, mirror=(Point(0, 0), Point(0, 120)), count=1, pair=True, grain=90.0,
        features=[
            slot("tie", Point(38, 70), 16, 4, direction=0.9415926536), twin,
            hole("eyelet", Point(45, 20), 3), hole("eyelet'", Point(-45, 20), 3),
            crease("spine", Point(0, 0), Point(0, 120), kind="fold"),
            opening("badge", Point(24, 40), 18, 12, 2), opening("badge'", Point(-24, 40), 18, 12, 2),
        ],
        dims=[
            PlacedDim(Point(60, 0), Point(60, 90), "plumb", "heel", "shoulder", None),
            PlacedDim(Point(60, 90), Point(36, 120), None, "shoulder", "brow", None),
        ],
    )  # fmt: skip
    return placed('Choir folder <St. Ann & "friends">', [cover], stem="choir-folder", size="tenor")


def many_small() -> Placed:
    """Tags of a tool library: many pieces, each small."""
    tags = [
        piece(f"tag_{index}", box(Point(0, 0), 24 + index % 5 * 4, 14 + index % 3 * 5, rounded=3), count=index % 4 + 1,
              features=[hole("eye", Point(-6, 0), 3)])
        for index in range(14)
    ]  # fmt: skip
    return placed("Tool library tags", tags, stem="tool-tags", show=("cm",))


def thousand_holes() -> Placed:
    """A strainer with 500 holes."""
    holes = [
        hole(f"h_{index}", Point(-96 + index % 25 * 8, -38 + index // 25 * 4), 2) for index in range(500)
    ]
    return placed("Strainer", [piece("strainer", box(Point(0, 0), 210, 90), features=holes)], stem="strainer")


def tiny() -> Placed:
    return placed("Tiny washer", [piece("bit", box(Point(0, 0), 5, 5))], stem="tiny")


def rigging_strap() -> Placed:
    """Three metres of strap."""
    strap = piece("strap", box(Point(0, 0), 3000, 50), features=[slot("end", Point(-1450, 0), 40, 8)])
    return placed("Rigging strap", [strap], stem="rigging")


def scripts() -> Placed:
    """Names and words in many scripts, long ones among them."""
    long = "une_très_longue_pièce_pour_la_bibliothèque_des_outils_du_port_de_pêche"
    pieces = [
        piece("表紙", box(Point(0, 0), 60, 40), stock="革", stock_note="植物タンニンなめし", note="折り返し"),
        piece("крышка", box(Point(0, 0), 50, 30), features=[label("имя", Point(0, 0), 30, 8, "Хор № 3")]),
        piece(long, box(Point(0, 0), 40, 30), stock_note="a note that runs on and on " * 4),
        piece("غطاء", box(Point(0, 0), 45, 30)),
    ]
    return placed("Étui « d'été » / 夏のケース / чехол для лодочной мастерской & more", pieces, stem="étui-夏",
                  notes=("One note with <tags> & \"quotes\".", "x" * 300))  # fmt: skip


def nothing() -> Placed:
    return placed("Nothing yet", [], stem="nothing")


SAMPLES = {
    "badge_holder": badge_holder, "deck_belt": deck_belt, "toll_coin": toll_coin, "key_fob": key_fob,
    "choir_folder": choir_folder, "many_small": many_small, "thousand_holes": thousand_holes, "tiny": tiny,
    "rigging_strap": rigging_strap, "scripts": scripts, "nothing": nothing,
}  # fmt: skip
