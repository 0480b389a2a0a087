"""Items for the rules: for every rule one that breaks it, and one that just keeps it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import pi, radians

from drafting.craft.holding import Held
from drafting.craft.item import (
    Buckle,
    HoleRow,
    InsertBehind,
    Item,
    Notch,
    Opening,
    PlacedFold,
    PlacedPart,
    PlacedSlit,
    PlacedTurn,
    Pocket,
    Punch,
    PunchedHole,
    StitchLine,
    Stock,
    StrapThroughBuckle,
    StrapThroughSlot,
    StrapTurnBack,
    WindowHolds,
)
from drafting.craft.slits import SlitRequest, cut_slit
from drafting.craft.spacing import Apart, Stitches
from drafting.craft.stitches import Layout, Request, lay_out
from drafting.geometry.curves import box, obround
from drafting.geometry.line import Line
from drafting.geometry.offset import offset_ring
from drafting.geometry.path import Path
from drafting.geometry.point import Point

BODY = Stock("body", "leather", 1.4)
FILM = Stock("film", "sheet", 0.4)
OUTLINE = box(Point(0, 0), 120, 90)
BELT = box(Point(500, 0), 1000, 38)


def straight(ax: float, ay: float, bx: float, by: float) -> Path:
    return Path((Line(Point(ax, ay), Point(bx, by)),))


def item(part: PlacedPart, **more: object) -> Item:
    return Item("sample", (part,), **more)  # type: ignore[arg-type]


def plate(**more: object) -> Item:
    return item(PlacedPart("front", OUTLINE, BODY, "any", **more))  # type: ignore[arg-type]


def belt(**more: object) -> PlacedPart:
    return PlacedPart("belt", BELT, replace(BODY, thick=3.6), 0.0, **more)  # type: ignore[arg-type]


def inset(by: float, rounded: float = 10) -> Layout:
    ring = box(Point(0, 0), 120, 90, rounded=rounded)
    return lay_out(offset_ring(ring, -by), Request(Stitches(100), start=Point(60, 0)))


def rounded_plate(line: StitchLine, rounded: float = 10) -> Item:
    return item(
        PlacedPart("front", box(Point(0, 0), 120, 90, rounded=rounded), BODY, "any", stitches=(line,))
    )


def slot(name: str, x: float, y: float, long: float, wide: float) -> Opening:
    return Opening(name, obround(Point(x, y), long, wide), "slot", long, wide)


def window(long: float, wide: float) -> Opening:
    return Opening("view", box(Point(0, 0), long, wide), "window", long, wide)


def slit(ax: float, ay: float, bx: float, by: float, end_holes: float = 2) -> PlacedSlit:
    return PlacedSlit("mouth", cut_slit(straight(ax, ay, bx, by), SlitRequest(end_holes)))


def seam(y: float, pitch: float = 4, thread: float | None = None) -> StitchLine:
    layout = lay_out(straight(-40, y, 40, y), Request(Stitches(round(80 / pitch))))
    return StitchLine("seam", layout, thread)


def hole(x: float, y: float, across: float = 4, name: str = "rivet", loaded: bool = False) -> PunchedHole:
    return PunchedHole(name, Point(x, y), across, loaded)


def notched(deep: float, seam_at: float) -> Item:
    return plate(notches=(Notch("middle", Point(0, 45), deep),), stitches=(seam(seam_at),))


def slit_beside(seam_at: float) -> Item:
    return plate(slits=(slit(-20, 0, 20, 0),), stitches=(seam(seam_at),))


def strap_row(count: int, y: float = 0.0, nominal: float | None = None, apart: float = 25) -> Item:
    holes = tuple(hole(600 + apart * number, y, 4, "holes") for number in range(count))
    place = None if nominal is None else Point(nominal, 0)
    return item(belt(rows=(HoleRow("holes", holes, place, True),)))


def buckled(wide: float, inside: float = 38.0, prong: float | None = None, slot_wide: float = 6.0) -> Item:
    through = StrapThroughBuckle("belt", wide, Buckle("heel bar", inside, prong), "belt.tongue")
    return item(belt(openings=(slot("tongue", 80, 0, 28, slot_wide),)), straps_in_buckles=(through,))


def through_slot(wide: float, thick: float, long: float = 14) -> Item:
    return item(
        PlacedPart("front", OUTLINE, BODY, "any", openings=(slot("eye", 0, 0, long, 4.5),)),
        straps_in_slots=(StrapThroughSlot("strap", wide, thick, "front.eye"),),
    )


def turned_back(reach: float, seam_at: float, off: float = 0.0) -> Item:
    back = StrapTurnBack("belt", "belt.bar_fold", reach, (("belt.sew_1", seam_at),), "tongue", off)
    return item(belt(openings=(slot("tongue", 80, 0, 28, 6),)), turn_backs=(back,))


def showing(long: float, wide: float) -> Item:
    card = Held("card", 85.6, 53.98, 0.76)
    part = PlacedPart("front", OUTLINE, BODY, "any", openings=(window(long, wide),))
    return item(part, windows=(WindowHolds("front.view", card),))


def backed(long: float, wide: float, line: StitchLine | None = None) -> Item:
    front = PlacedPart(
        "front", OUTLINE, BODY, "any", openings=(window(70, 40),), stitches=(line,) if line else ()
    )
    screen = PlacedPart("screen", box(Point(0, 0), long, wide), FILM, "any")
    return Item("sample", (front, screen), inserts=(InsertBehind("screen", "front.view"),))


def pocket(between: float | None = None, mouth: float | None = None) -> Item:
    cards = Held("four cards", 85.6, 53.98, 3.04, ease=2)
    return replace(plate(), pockets=(Pocket("front", cards, between, mouth),))


def strip(grain: float | str | None) -> Item:
    return item(PlacedPart("strap", box(Point(0, 0), 200, 20), BODY, grain))  # type: ignore[arg-type]


def folded(inside: float, turn: float = pi) -> Item:
    return plate(folds=(PlacedFold("spine", straight(0, -45, 0, 45), turn, inside),))


def turned(width: float, thick: float | None) -> Item:
    part = PlacedPart(
        "front", OUTLINE, replace(BODY, thick=1.6), "any", turns=(PlacedTurn("hem", width, thick),)
    )
    return item(part)


def of_shop(across: float) -> Item:
    table = (Punch("no_2", 2.5), Punch("no_5", 4.8))
    return replace(plate(holes=(hole(0, 0, across),)), punches=table)


def exact(length: float) -> Item:
    return plate(stitches=(StitchLine("seam", lay_out(straight(-40, 0, length - 40, 0), Request(Apart(4)))),))


BREAKS_AND_KEEPS: dict[str, tuple[Callable[[], Item], Callable[[], Item]]] = {
    "R01": (
        lambda: rounded_plate(StitchLine("edge", inset(1.9))),
        lambda: rounded_plate(StitchLine("edge", inset(2))),
    ),
    "R02": (
        lambda: rounded_plate(StitchLine("edge", inset(6.1))),
        lambda: rounded_plate(StitchLine("edge", inset(6))),
    ),
    "R03": (
        lambda: rounded_plate(StitchLine("edge", inset(3.4), sewn=7)),
        lambda: rounded_plate(StitchLine("edge", inset(3.5), sewn=7)),
    ),
    "R04": (lambda: plate(holes=(hole(54.1, 0),)), lambda: plate(holes=(hole(54, 0),))),
    "R05": (
        lambda: plate(holes=(hole(0, 0), hole(7.9, 0, name="stud"))),
        lambda: plate(holes=(hole(0, 0), hole(8, 0, name="stud"))),
    ),
    "R06": (
        lambda: rounded_plate(StitchLine("edge", inset(3.5, 3)), 3),
        lambda: rounded_plate(StitchLine("edge", inset(3.5, 3.6)), 3.6),
    ),
    "R07": (
        lambda: notched(3, 41.1),
        lambda: notched(2.9, 41),
    ),
    "R08": (
        lambda: plate(openings=(slot("eye", 0, 40, 14, 4.2),)),
        lambda: plate(openings=(slot("eye", 0, 40, 14, 4),)),
    ),
    "R09": (lambda: plate(slits=(slit(-56.1, 0, 20, 0),)), lambda: plate(slits=(slit(-56, 0, 20, 0),))),
    "R10": (
        lambda: slit_beside(3.4),
        lambda: slit_beside(3.5),
    ),
    "R11": (lambda: plate(slits=(slit(-20, 0, 20, 0, 0),)), lambda: plate(slits=(slit(-20, 0, 20, 0),))),
    "R12": (
        lambda: plate(openings=(slot("eye", 0, 0, 14, 4),), slits=(slit(-20, 4.9, 20, 4.9),)),
        lambda: plate(openings=(slot("eye", 0, 0, 14, 4),), slits=(slit(-20, 5, 20, 5),)),
    ),
    "R14": (lambda: buckled(38.1), lambda: buckled(38)),
    "R15": (lambda: buckled(36.9), lambda: buckled(37)),
    "R16": (lambda: through_slot(14.1, 1.4), lambda: through_slot(14, 4.5)),
    "R17": (lambda: turned_back(61, 60), lambda: turned_back(62, 60)),
    "R18": (lambda: turned_back(62, 23.9), lambda: turned_back(62, 24)),
    "R19": (lambda: turned_back(62, 60, 1.1), lambda: turned_back(62, 60, 1)),
    "R20": (lambda: buckled(38, prong=5.1), lambda: buckled(38, prong=5)),
    "R21": (lambda: strap_row(6), lambda: strap_row(7)),
    "R22": (lambda: strap_row(7, nominal=675.6), lambda: strap_row(7, nominal=675.5)),
    "R23": (lambda: showing(85.7, 40), lambda: showing(85.6, 40)),
    "R24": (lambda: showing(81.7, 40), lambda: showing(81.6, 40)),
    "R25": (lambda: backed(69.9, 50), lambda: backed(70, 50)),
    "R26": (lambda: backed(75.9, 50), lambda: backed(76, 50)),
    "R27": (lambda: backed(80, 50, seam(25.9)), lambda: backed(80, 50, seam(26))),
    "R28": (lambda: pocket(between=90.6), lambda: pocket(between=90.64)),
    "R29": (lambda: pocket(mouth=57), lambda: pocket(mouth=57.02)),
    "R30": (lambda: plate(stitches=(seam(0, 4, 0.44),)), lambda: plate(stitches=(seam(0, 4, 0.45),))),
    "R31": (lambda: exact(21.9), lambda: exact(22)),
    "R32": (lambda: strip(None), lambda: strip("any")),
    "R33": (lambda: strip(radians(31)), lambda: strip(radians(30))),
    "R34": (lambda: folded(1.3), lambda: folded(1.4)),
    "R35": (lambda: turned(9, None), lambda: turned(9, 0.6)),
    "R36": (lambda: turned(7.9, 0.6), lambda: turned(8, 0.6)),
    "R37": (lambda: of_shop(4.91), lambda: of_shop(4.9)),
}
