"""A lay as a file to keep, and what is left of its sheets as hides in the language.

The file is JSON and has all that the drawings need, by true lines and arcs: the same file is drawn to the same bytes,
whatever has become of the patterns since. Numbers are written so that they are read back exactly.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from importlib.metadata import PackageNotFoundError, version
from math import cos, isfinite, radians, sin
from typing import Any

from shapely import Polygon, unary_union

from drafting.drawing.record import Record, record_from
from drafting.geometry.arc import Arc
from drafting.geometry.faults import GeometryFault
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.lay.kinds import Freedom, Kind
from drafting.lay.lays import LaidSheet, Lay, Spot, room_in
from drafting.lay.ordering import Wish
from drafting.lay.sheets import Sheet
from drafting.records import asdict, dataclass
from drafting.version import VERSION

FORM = "awlwright lay 1"
LIBRARIES = ("shapely", "numpy", "spyrrow")
LEAST_ZONE = 1.0
MOST_DIGITS = 15
"""In mm²: what is less of a zone is a sliver."""


class NoLay(ValueError):
    """The text holds no lay; the words say why."""


@dataclass(frozen=True)
class Asked:
    """What a lay was asked for: from which patterns, each record with its `copies`; from which hides; and how."""

    patterns: tuple[Record, ...]
    hides: tuple[Record, ...]
    wish: Wish

    @property
    def records(self) -> tuple[Record, ...]:
        return (*self.patterns, *self.hides)


def lay_to_json(lay: Lay, title: str, asked: Asked | None) -> str:
    """The lay as text; the same lay gives the same text. `asked` is None of parts that no pattern has."""
    return json.dumps(
        {
            "form": FORM,
            "title": title,
            "versions": {"awlwright": VERSION, **{name: _version(name) for name in LIBRARIES}},
            "seed": lay.seed,
            "repeatable": lay.is_repeatable,
            "stopped": lay.was_stopped,
            "gap": lay.gap,
            "kinds": [_kind(kind) for kind in lay.kinds],
            "sheets": [_sheet(laid) for laid in lay.sheets],
            "asked": None if asked is None else asdict(asked),
        },
        ensure_ascii=False,
        indent=1,
    ) + "\n"  # fmt: skip


def is_our_lay(data: bytes) -> bool:
    """Whether a lay was written here: its form says so."""
    return f'"form": "{FORM}"'.encode() in data[:200]


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return ""


def _kind(kind: Kind) -> dict[str, Any]:
    return {
        "name": kind.name,
        "turned over": kind.is_turned_over,
        "demand": kind.demand,
        "grain": kind.grain,
        "within": kind.freedom.within,
        "across": kind.freedom.across,
        "zone": kind.zone,
        "item": kind.item,
        "each": kind.each,
        "ring": _ring(kind.ring),
    }


def _sheet(laid: LaidSheet) -> dict[str, Any]:
    sheet = laid.sheet
    return {
        "name": sheet.name,
        "kind": sheet.kind,
        "margin": sheet.margin,
        "backbone": sheet.backbone,
        "ring": _ring(sheet.ring),
        "defects": [_ring(ring) for ring in sheet.defect_rings],
        "poor": [_ring(ring) for ring in sheet.poor_rings],
        "firm": [_ring(ring) for ring in sheet.firm_rings],
        "steps": laid.steps,
        "parts": [[spot.kind, spot.turn, spot.x, spot.y] for spot in laid.spots],
    }


def _ring(ring: Ring) -> list[list[float]]:
    """A line by its ends, an arc by its center, radius, first angle and sweep."""
    return [
        [leg.center.x, leg.center.y, leg.radius, leg.start_angle, leg.sweep]
        if isinstance(leg, Arc)
        else [leg.start.x, leg.start.y, leg.end.x, leg.end.y]
        for leg in ring.legs
    ]


def lay_from_json(text: str) -> tuple[Lay, str, Asked | None]:
    """The lay that a text holds, its title and what it was asked for. Raises NoLay."""
    try:
        read = json.loads(text, parse_float=_finite, parse_constant=_finite, parse_int=_countable)
        if not isinstance(read, dict) or read.get("form") != FORM:
            raise NoLay(f"it does not begin with `{FORM}`")
        kinds = tuple(_read_kind(one) for one in read["kinds"])
        sheets = tuple(_read_sheet(one, len(kinds)) for one in read["sheets"])
        lay = Lay(
            kinds,
            sheets,
            float(read["gap"]),
            int(read["seed"]),
            bool(read["repeatable"]),
            bool(read["stopped"]),
        )
        return lay, str(read["title"]), _read_asked(read["asked"])
    except NoLay:
        raise
    except KeyError as lacking:
        raise NoLay(f"it lacks {lacking}") from None
    except json.JSONDecodeError as fault:
        raise NoLay(f"line {fault.lineno} is no JSON") from None
    except (TypeError, ValueError, IndexError, AttributeError, GeometryFault):
        raise NoLay("something in it is not as this tool writes it") from None


def _finite(text: str) -> float:
    """Raises ValueError for what is no number of a lay, such as NaN or 1e999."""
    number = float(text)
    if not isfinite(number):
        raise ValueError(text)
    return number


def _countable(text: str) -> int:
    if len(text) > MOST_DIGITS:
        raise ValueError(text)
    return int(text)


def _read_kind(one: Mapping[str, Any]) -> Kind:
    grain = None if one["grain"] is None else float(one["grain"])
    freedom = _read_freedom(one)
    if one["zone"] not in ("firm", "usable", "poor"):
        raise NoLay(f"there is no zone {one['zone']!r}")
    return Kind(
        str(one["name"]), _read_ring(one["ring"]), int(one["demand"]), grain, freedom, one["zone"],
        bool(one["turned over"]), str(one.get("item", "")), int(one.get("each", 0)),
    )  # fmt: skip


def _read_sheet(one: Mapping[str, Any], n_kinds: int) -> LaidSheet:
    if one["kind"] not in ("panel", "roll", "hide"):
        raise NoLay(f"there is no sheet of kind {one['kind']!r}")
    rings = {name: tuple(_read_ring(ring) for ring in one[name]) for name in ("defects", "poor", "firm")}
    backbone = None if one["backbone"] is None else float(one["backbone"])
    sheet = Sheet(
        str(one["name"]), _read_ring(one["ring"]), float(one["margin"]), rings["defects"], rings["poor"],
        rings["firm"], backbone, one["kind"],
    )  # fmt: skip
    spots = tuple(Spot(int(kind), float(turn), float(x), float(y)) for kind, turn, x, y in one["parts"])
    if any(not 0 <= spot.kind < n_kinds for spot in spots):
        raise NoLay("it lays a part that it does not have")
    return LaidSheet(sheet, spots, None if one["steps"] is None else int(one["steps"]))


def _read_asked(one: Mapping[str, Any] | None) -> Asked | None:
    if one is None:
        return None
    patterns, hides = (tuple(record_from(record) for record in one[key]) for key in ("patterns", "hides"))
    whole = [record for record in (*patterns, *hides) if record is not None]
    counted = whole[: len(patterns)]
    if len(whole) < len(patterns) + len(hides) or not all(
        _is_count(one.asked.get("copies")) for one in counted
    ):
        raise NoLay("what it says of its patterns is not as this tool writes it")
    return Asked(tuple(counted), tuple(whole[len(patterns) :]), _read_wish(one["wish"]))


def _is_count(copies: object) -> bool:
    return isinstance(copies, int) and copies > 0


def _read_wish(one: Mapping[str, Any]) -> Wish:
    panels = tuple(
        (float(wide), float(high), None if count is None else int(count))
        for wide, high, count in one["panels"]
    )
    return Wish(
        panels, None if one["roll"] is None else float(one["roll"]), float(one["gap"]), float(one["margin"]),
        None if one["stocks"] is None else tuple(map(str, one["stocks"])), _read_freedom(one["freedom"]),
        tuple(map(str, one["firm"])), tuple(map(str, one["poor"])),
        {str(name): own and _read_freedom(own) for name, own in one["freedoms"].items()},
    )  # fmt: skip


def _read_freedom(one: Mapping[str, Any]) -> Freedom:
    return Freedom(float(one["within"]), bool(one["across"]))


def _read_ring(legs: Sequence[Sequence[float]]) -> Ring:
    return Ring([_read_leg([float(number) for number in leg]) for leg in legs])


def _read_leg(numbers: Sequence[float]) -> Leg:
    if len(numbers) == 4:
        return Line(Point(numbers[0], numbers[1]), Point(numbers[2], numbers[3]))
    x, y, radius, start, sweep = numbers
    return Arc(Point(x, y), radius, start, sweep)


# What is left


def leftover_texts(lay: Lay, title: str) -> dict[str, str]:
    """Each leftover of each sheet as a text, by a name for its file."""
    found: dict[str, str] = {}
    for number, laid in enumerate(lay.sheets, start=1):
        for index, rest in enumerate(lay.leftovers(laid), start=1):
            words = f"Left of sheet {number}: {title}".replace('"', "'")
            found[f"leftover-{number}-{index}"] = leftover_text(
                rest, f"leftover_{number}_{index}", words, laid.sheet
            )
    return found


def leftover_text(rest: Polygon, name: str, title: str, sheet: Sheet) -> str:
    """A leftover as a hide in the language: its outline, its holes as openings, the backbone and zones of its sheet."""
    low_x, low_y, _, _ = rest.bounds
    outer = _corners(rest.exterior.coords, low_x, low_y)
    lines = [
        f'pattern "{title}"',
        "",
        f"piece {name}",
        *_points("e", outer),
        _ring_words("outline", "e", len(outer)),
    ]
    shapes = [("opening defect", "d", [Polygon(hole) for hole in rest.interiors])]
    shapes += [
        ("guide poor", "p", _within(rest, sheet.poor)),
        ("guide firm", "f", _within(rest, sheet.firm or ())),
    ]
    for head, stem, polygons in shapes:
        for number, polygon in enumerate(polygons, start=1):
            corners = _corners(polygon.exterior.coords, low_x, low_y)
            lines += _points(f"{stem}{number}_", corners)
            lines.append(_ring_words(f"{head}_{number}", f"{stem}{number}_", len(corners)))
    if sheet.backbone is not None:
        lines += _backbone_words(rest, sheet.backbone, low_x, low_y)
    return "\n".join(lines) + "\n"


def _within(rest: Polygon, zones: Sequence[Polygon]) -> list[Polygon]:
    """What of the zones lies on a leftover, scraps left out."""
    shared = rest.intersection(unary_union(zones)).simplify(0.2)
    parts = getattr(shared, "geoms", [shared])
    return [part for part in parts if isinstance(part, Polygon) and part.is_valid and part.area > LEAST_ZONE]


def _corners(
    coordinates: Sequence[tuple[float, ...]], low_x: float, low_y: float
) -> list[tuple[float, float]]:
    """To a hundredth of a mm, each once."""
    rounded = [(round(x - low_x, 2), round(y - low_y, 2)) for x, y, *_ in list(coordinates)[:-1]]
    return [one for n, one in enumerate(rounded) if one != rounded[n - 1]]


def _points(stem: str, corners: Sequence[tuple[float, float]]) -> list[str]:
    return [f"  point {stem}{n}: at ({x:g} mm, {y:g} mm)" for n, (x, y) in enumerate(corners, start=1)]


def _ring_words(head: str, stem: str, count: int) -> str:
    names = [f"{stem}{n}" for n in range(1, count + 1)]
    closing = "" if head == "outline" else f" to {names[0]}"
    return f"  {head}: {' to '.join(names)}{closing}"


def _backbone_words(rest: Polygon, degrees: float, low_x: float, low_y: float) -> list[str]:
    x, y, radius = room_in(rest)
    return [
        f"  point tail: at ({x - low_x:.2f} mm, {y - low_y:.2f} mm)",
        f"  point neck: at ({x - low_x + radius * cos(radians(degrees)):.2f} mm, "
        f"{y - low_y + radius * sin(radians(degrees)):.2f} mm)",
        "  guide backbone: tail to neck",
    ]
