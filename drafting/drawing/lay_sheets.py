"""A lay as drawings: each sheet of stock reduced to a handy paper, and as pieces that print at true size.

On the reduced drawing a part is told by a number that the notes explain.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import cos, radians, sin

from drafting.drawing.amounts import Figures
from drafting.drawing.assembly import assemble, make_base
from drafting.drawing.footer import FooterFacts
from drafting.drawing.hatching import GLUED, SKIVED, hatched
from drafting.drawing.lay_numbers import Numbers
from drafting.drawing.lines import CUT, GUIDE, STOCK, SYMMETRY, LineKind
from drafting.drawing.lists.amounts import area_words
from drafting.drawing.machine.layers import LAYERS
from drafting.drawing.marks import ORIGIN, Drawing, Group, Mark, Stroke, kinds_in
from drafting.drawing.scales import reductions, scale_words
from drafting.drawing.sheets import HANDY_SHEETS, own_sheet
from drafting.drawing.title_block import TitleFacts
from drafting.geometry.curves import box
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.lay.kinds import Kind
from drafting.lay.lays import LaidSheet, Lay, Spot, bare_of, beside_parts, corners_of, room_in, true_ring
from drafting.lay.sheets import Sheet
from drafting.solve.placed import Placed, PlacedFeature, PlacedPiece

MOST_REDUCED = 1000


def lay_drawing(lay: Lay, number: int, title: str) -> Drawing:
    """The sheet of this number, in the first reduction of ISO 5455 that goes on A4 or A3."""
    laid = lay.sheets[number]
    edge = edge_of(lay, laid).bounds
    for reduction in reductions():
        if reduction < MOST_REDUCED and not _may_go_on_paper(edge.width / reduction, edge.height / reduction):
            continue
        view = lay_view(lay, laid, 1 / reduction)
        bounds = view.bounds
        assert bounds is not None
        base = make_base(
            FooterFacts(
                kinds_in([view]),
                "Lengths in mm.",
                False,
                _notes(lay, laid, Numbers(lay, laid, 1 / reduction)),
            ),
            False,
        )
        for paper in HANDY_SHEETS:
            room = base.room_in(paper)
            if bounds.width <= room.width and bounds.height <= room.height:
                break
        else:
            if reduction < MOST_REDUCED:
                continue
            paper = own_sheet(*base.size_for(bounds.width, bounds.height))
        room = base.room_in(paper)
        move = Vector(round(room.center.x - bounds.center.x), round(room.center.y - bounds.center.y))
        facts = _title(lay, number, title, scale_words(1 / reduction), paper.name)
        note = f"Sheet {number + 1} at {facts.scale}. One user unit is 1 mm on paper, y downward."
        return assemble(paper, base, facts, [view.moved(move)], note, 1 / reduction)
    raise AssertionError("reductions never end")


def _may_go_on_paper(width: float, height: float) -> bool:
    """Asked before anything is drawn; the frame and the notes take their part of the paper, too."""
    return any(width <= paper.width and height <= paper.height for paper in HANDY_SHEETS)


def lay_view(lay: Lay, laid: LaidSheet, scale: float) -> Group:
    """The sheet with its defects and zones, and the parts on it."""
    numbers = Numbers(lay, laid, scale)
    parts = [_part(lay, spot, n, numbers) for n, spot in enumerate(laid.spots)]
    stock = _stock_view(lay, laid, scale)
    return Group("lay", laid.sheet.name, (stock, *parts, *numbers.on_leaders(list(stock.strokes))))


def _stock_view(lay: Lay, laid: LaidSheet, scale: float) -> Group:
    sheet = laid.sheet
    marks: list[Mark] = [
        Stroke(STOCK, ring.scaled(scale, ORIGIN)) for ring in (edge_of(lay, laid), *sheet.defect_rings)
    ]
    marks += [hatched([ring.scaled(scale, ORIGIN)], SKIVED) for ring in sheet.defect_rings]
    bare = [_scaled_ring(corners, scale) for corners in bare_of(lay, laid, sheet.poor)]
    marks += [hatched(bare, GLUED)] if bare else []
    lines = [(GUIDE, corners_of(ring)) for ring in (*sheet.poor_rings, *sheet.firm_rings)]
    if sheet.backbone is not None and sheet.kind == "hide":
        lines.append((SYMMETRY, _backbone(sheet, sheet.backbone)))
    for kind, corners in lines:
        marks += [_polyline(kind, bare, scale) for bare in beside_parts(lay, laid, corners)]
    return Group("stock", sheet.name, tuple(marks), title=sheet.name)


def edge_of(lay: Lay, laid: LaidSheet) -> Ring:
    """Of a roll only what is cut off it is drawn."""
    if laid.sheet.kind != "roll":
        return laid.sheet.ring
    long, wide = lay.length_used(laid), laid.sheet.size[1]
    return box(Point(long / 2, wide / 2), long, wide)


def _backbone(sheet: Sheet, direction: float) -> list[tuple[float, float]]:
    """A line through the middle of the hide, as long as half of it."""
    bounds = sheet.ring.bounds
    half = min(bounds.width, bounds.height) / 4
    along = Vector(cos(radians(direction)), sin(radians(direction))) * half
    start, end = bounds.center + along * -1.0, bounds.center + along
    return [(start.x, start.y), (end.x, end.y)]


def _scaled_ring(corners: Sequence[tuple[float, float]], scale: float) -> Ring:
    """Of corners that come back to the first."""
    return Ring(
        [Line(one, other) for one, other in pairwise(Point(x * scale, y * scale) for x, y in corners)]
    )


def _polyline(kind: LineKind, corners: Sequence[tuple[float, float]], scale: float) -> Stroke:
    points = [Point(x * scale, y * scale) for x, y in corners]
    return Stroke(kind, Path([Line(one, other) for one, other in pairwise(points)]))


def _part(lay: Lay, spot: Spot, number: int, numbers: Numbers) -> Group:
    ring = true_ring(lay.kinds[spot.kind], spot).scaled(numbers.scale, ORIGIN)
    marks: tuple[Mark, ...] = (Stroke(CUT, ring), *numbers.on_part(spot))
    return Group("part", f"part {number + 1}", marks, title=_called(lay.kinds[spot.kind]))


def _called(kind: Kind) -> str:
    return f"{kind.name}{', turned over' if kind.is_turned_over else ''}"


def _notes(lay: Lay, laid: LaidSheet, numbers: Numbers) -> tuple[str, ...]:
    """What the numbers mean, and how much of the sheet is used."""
    counts = Counter(spot.kind for spot in laid.spots)
    kinds = [
        f"{number + 1}{', without a number' if number == numbers.without else ''}: {counts[number]} {_called(kind)}"
        for number, kind in enumerate(lay.kinds)
        if counts[number]
    ]
    used = lay.area_on(laid)
    share = f"Parts take {area_words(used)}: {100 * used / lay.gross_area(laid):.1f} % of the sheet"
    if laid.sheet.defect_rings:
        share += f", {100 * used / lay.usable_area(laid):.1f} % of what is sound"
    rooms = f"gap {lay.gap:g} mm, margin {laid.sheet.margin:g} mm"
    zones = _zone_words(laid.sheet)
    return (f"{'; '.join(kinds)}.", f"{share}; {rooms}.", *zones)


def _zone_words(sheet: Sheet) -> Iterator[str]:
    """What the hatching and the lines of zones mean, in one line."""
    said = {
        "hatched closely: defects": sheet.defect_rings,
        "hatched widely, the other way: poor zones": sheet.poor_rings,
        "within a guide and not hatched: firm zones": sheet.firm_rings,
        "center line: along the backbone": sheet.kind == "hide" and sheet.backbone is not None,
    }
    words = "; ".join(words for words, is_there in said.items() if is_there)
    if words:
        yield f"{words.capitalize()}."


def _title(lay: Lay, number: int, title: str, scale: str, paper: str) -> TitleFacts:
    laid = lay.sheets[number]
    wide, high = laid.sheet.size
    long = lay.length_used(laid) if laid.sheet.kind == "roll" else wide
    return TitleFacts(
        title=title,
        subtitle=laid.sheet.name,
        document="Cutting lay",
        number=f"lay/{number + 1}",
        scale=scale,
        units=Figures().statement,
        size=f"{long:.0f} × {high:.0f} mm",
        cut=f"{len(laid.spots)} parts",
        stock="",
        edition="",
        licence="",
        author="",
        sheet=f"{number + 1} of {len(lay.sheets)}",
        paper=paper,
    )


# True size


def lay_cut(lay: Lay, number: int, title: str) -> Drawing:
    """What a machine cuts of a sheet, at true size from its lower left corner: the outlines on the layer `cut`."""
    laid = lay.sheets[number]
    bounds = edge_of(lay, laid).bounds
    move = Vector(-bounds.min_x, -bounds.min_y)
    layer = LAYERS["cut"]
    strokes = tuple(
        Stroke(layer.kind, true_ring(lay.kinds[spot.kind], spot).moved(move)) for spot in laid.spots
    )
    group = Group("layer", layer.name, strokes, title=layer.operation)
    note = "True size, lengths in mm, no kerf: outlines only."
    return Drawing(f"{title}: {laid.sheet.name}", note, bounds.width, bounds.height, "layers", 1.0, (group,))


def lay_as_placed(lay: Lay, title: str) -> Placed:
    """Each sheet as a piece, with its parts as what is cut out of it: so it prints on the paper of any printer."""
    pieces = {f"sheet {n + 1}": _piece(lay, laid, f"sheet {n + 1}") for n, laid in enumerate(lay.sheets)}
    return Placed(title, None, None, None, (), ("mm",), None, "lay", {}, pieces)


def _piece(lay: Lay, laid: LaidSheet, name: str) -> PlacedPiece:
    features = [feature for n, spot in enumerate(laid.spots) for feature in _features(lay, spot, n)]
    features += [_cut_out(f"defect {n + 1}", ring) for n, ring in enumerate(laid.sheet.defect_rings)]
    return PlacedPiece(
        name, None, 0, False, laid.sheet.name, None, None, laid.sheet.backbone, {}, edge_of(lay, laid), (), {}, {},
        tuple(features), (),
    )  # fmt: skip


def _features(lay: Lay, spot: Spot, number: int) -> Iterator[PlacedFeature]:
    """A part and the number of its kind."""
    yield _cut_out(f"part {number + 1}", true_ring(lay.kinds[spot.kind], spot))
    x, y, radius = room_in(lay.polygon(spot))
    height = next((high for high in (10.0, 7.0, 5.0, 3.5, 2.5, 1.8) if high < radius), 0.0)
    if height:
        yield PlacedFeature(
            f"number {number + 1}", "label", False, False, Point(x, y), 0.0, (), (), (), {"high": height},
            str(spot.kind + 1), None,
        )  # fmt: skip


def _cut_out(name: str, ring: Ring) -> PlacedFeature:
    return PlacedFeature(name, "opening", False, True, None, None, (ring,), (), (), {}, None, None)
