"""What the starters come to, worked out a second time by hand.

The formulas stand here in plain arithmetic of the measures; nothing of them is read from the patterns.
"""

from __future__ import annotations

from math import acos, asin, atan2, cos, hypot, pi, radians, sin, sqrt, tan

import pytest

import drafting
from drafting.face import PlacedPattern
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.solve.placed import PlacedFeature
from tests.patterns.test_starters import SIZES, starter

INCH = 25.4


def place(name: str, size: str) -> tuple[PlacedPattern, dict[str, float]]:
    """A starter in a size, and its pattern's measures in mm."""
    placed = starter(name).place(size)
    return placed, dict(placed.placed.measures)


def near(expected: float) -> object:
    """The same to a millionth of a mm (or mm²) in a mm."""
    return pytest.approx(expected, rel=1e-9, abs=1e-6)


def feature(placed: PlacedPattern, piece: str, name: str) -> PlacedFeature:
    (found,) = [each for each in placed.pieces[piece].features if each.name == name]
    return found


def ring_of(placed: PlacedPattern, piece: str, name: str) -> Ring:
    (ring,) = feature(placed, piece, name).rings
    return ring


def stitched(placed: PlacedPattern, piece: str, name: str) -> list[tuple[float, float]]:
    """The holes of a stitch line, in order."""
    found = [hole.point for line in feature(placed, piece, name).stitches for hole in line.layout.holes]
    return [(point.x, point.y) for point in found]


def shoelace(points: list[tuple[float, float]]) -> float:
    following = [*points[1:], points[0]]
    return abs(sum(a * d - b * c for (a, b), (c, d) in zip(points, following, strict=True))) / 2


def angle_at(before: tuple[float, float], corner: tuple[float, float], after: tuple[float, float]) -> float:
    one = (before[0] - corner[0], before[1] - corner[1])
    other = (after[0] - corner[0], after[1] - corner[1])
    return acos((one[0] * other[0] + one[1] * other[1]) / hypot(*one) / hypot(*other))


def lost_to_fillet(radius: float, angle: float) -> float:
    """The area that rounding takes off a corner of `angle`: two tangents less the sector between them."""
    return radius * radius / tan(angle / 2) - radius * radius * (pi - angle) / 2


def segment(chord: float, height: float) -> float:
    """The area between a chord and its arc of `height`."""
    radius = (chord * chord / 4 + height * height) / (2 * height)
    half = asin(chord / 2 / radius)
    return radius * radius * (half - sin(half) * cos(half))


# The badge holder: margins and areas


@pytest.mark.parametrize("size", SIZES["badge-holder"])
def test_the_window_keeps_its_margins(size: str) -> None:
    placed, by = place("badge-holder", size)
    front, view = placed.pieces["front"].outline, ring_of(placed, "front", "view")
    assert front.width == near(by["card_w"] + 2 * (by["play"] + by["rim"]))
    assert view.bounds.min_x - front.bounds.min_x == near(by["rim"] + by["play"] + by["cover"])
    assert front.bounds.max_x - view.bounds.max_x == near(by["rim"] + by["play"] + by["cover"])
    assert view.bounds.min_y - front.bounds.min_y == near(by["rim"] + by["play"] + by["cover"])
    assert view.area == near(
        (by["card_w"] - 2 * by["cover"]) * (by["card_h"] - 2 * by["cover"]) - (4 - pi) * 5 * 5
    )
    assert feature(placed, "front", "eye").center == Point(0.0, front.bounds.max_y - 12)
    assert placed.pieces["film"].outline.area == near((by["card_w"] + 4) * (by["card_h"] + 4))


@pytest.mark.parametrize("size", SIZES["badge-holder"])
def test_the_back_has_the_area_of_its_corners_less_what_rounding_takes(size: str) -> None:
    placed, by = place("badge-holder", size)
    side, tip = by["card_w"] / 2 + by["play"] + by["rim"], by["nose_w"] / 2
    brow_y = by["rim"] + by["card_h"] + 2 * by["play"]
    top = brow_y + by["nose"]
    foot, heel, brow, snout, middle = (0.0, 0.0), (side, 0.0), (side, brow_y), (tip, top), (0.0, top)
    half = shoelace([foot, heel, brow, snout, middle])
    half -= lost_to_fillet(7, pi / 2)
    half -= lost_to_fillet(14, angle_at(heel, brow, snout))
    half -= lost_to_fillet(14, angle_at(brow, snout, middle))
    assert placed.pieces["back"].outline.area == near(2 * half)
    assert placed.pieces["front"].outline.area == near(2 * half)


def test_the_visitors_card_is_in_inches() -> None:
    _, by = place("badge-holder", "visitor")
    assert (by["card_w"], by["card_h"]) == (near(2.25 * INCH), near(3.625 * INCH))


# The cup sleeve: the unrolled side of a cone


@pytest.mark.parametrize("size", SIZES["cup-sleeve"])
def test_the_sleeve_is_the_side_of_its_cone(size: str) -> None:
    """Both arcs are as long as their circles round the cup, less the gap; so is the area."""
    placed, by = place("cup-sleeve", size)
    top, low = (by["top_d"] + 1.8) / 2, (by["low_d"] + 1.8) / 2
    slant = hypot(by["rise"], top - low)
    far, close, half_gap = slant * top / (top - low), slant * low / (top - low), by["gape"] / 2
    outline = placed.pieces["sleeve"].outline

    def arc(radius: float, across: float) -> float:
        return 2 * pi * across - 2 * radius * asin(half_gap / radius)

    def strip(radius: float) -> float:
        """What the gap takes off one side, out to `radius`."""
        return (radius * radius * asin(half_gap / radius) + half_gap * sqrt(radius**2 - half_gap**2)) / 2

    edge = sqrt(far**2 - half_gap**2) - sqrt(close**2 - half_gap**2)
    assert sorted(leg.length for leg in outline.legs) == [
        near(length) for length in sorted([arc(far, top), arc(close, low), edge, edge])
    ]
    assert outline.area == near(pi * slant * (top + low) - 2 * (strip(far) - strip(close)))


def test_a_cone_that_opens_too_wide_is_told() -> None:
    """Circles of radius 50 and 35, 20 high, unroll to 216 degrees: more than `about` goes by the short way."""
    with pytest.raises(drafting.Faults) as refused:
        starter("cup-sleeve").place(top_d="98.2 mm", low_d="68.2 mm", rise="20 mm")
    assert any(
        message.says.startswith("`sweep`") and "is 216 deg" in message.says
        for message in refused.value.messages
    )


# The belt: lengths by waist


@pytest.mark.parametrize("size", SIZES["belt"])
def test_the_belt_is_as_long_as_its_parts(size: str) -> None:
    placed, by = place("belt", size)
    thick = 9 * INCH / 64
    fold = pi * (by["bar"] / 2 + 0.45 * thick)
    past_middle = (by["n_holes"] - 1) / 2 * by["hole_pitch"] + by["tip_l"]
    length = by["turned"] + fold / 2 + by["waist"] + past_middle
    belt, width = placed.pieces["belt"], by["belt_w"]
    assert belt.outline.width == near(length)
    assert placed.measure("belt.at_bar..belt.middle").value == near(by["waist"])
    side = hypot(width, width / 2)
    area = (length - width) * width + width * width / 2 + 2 * segment(side, 4) - 2 * (1 - pi / 4) * 4
    assert belt.outline.area == near(area)
    assert len(feature(placed, "belt", "holes").holes) == int(by["n_holes"])
    around = 2 * (width + 1 + 3 * thick) + pi * 2
    assert placed.pieces["keeper"].outline.width == near(around + 9)


@pytest.mark.parametrize("size", SIZES["belt"])
def test_the_seams_meet_when_the_belt_is_folded(size: str) -> None:
    placed, _ = place("belt", size)
    bar = placed.pieces["belt"].points["at_bar"].x
    for top, under in (("near_seam", "near_under"), ("far_seam", "far_under")):
        one, other = (stitched(placed, "belt", name) for name in (under, top))
        assert sorted((2 * bar - x, y) for x, y in one) == [(near(x), near(y)) for x, y in sorted(other)]


# Parts that are found


@pytest.mark.parametrize("size", SIZES["strap-end"])
def test_the_tip_reaches_as_far_as_its_binding_asks(size: str) -> None:
    """The arc leaves level, so its radius follows from how far it reaches and how far it falls."""
    placed, by = place("strap-end", size)
    points = placed.pieces["tip"].points
    reach, fall = points["nose"].x - points["corner"].x, by["strap_w"] / 2
    radius = (reach * reach + fall * fall) / (2 * fall)
    assert radius * 2 * atan2(fall, reach) == near(by["binding"])
    assert placed.pieces["tip"].outline.width == near(30 + reach)


@pytest.mark.parametrize("size", SIZES["strap-end"])
def test_the_hanger_and_the_taper_keep_what_they_hold(size: str) -> None:
    placed, by = place("strap-end", size)
    points = placed.pieces["hanger"].points
    top = by["plate_w"] / 2 / tan(radians(25))
    assert (points["c"].x, points["c"].y) == (near(by["plate_w"] / 2), near(top))
    assert points["d"].y == points["e"].y == near(top * (1 - by["bar_w"] / by["plate_w"]))
    taper = placed.pieces["taper"].points
    hub, corner, cheek = taper["hub"], taper["corner"], taper["cheek"]
    off = abs((cheek - corner).cross(hub - corner)) / (cheek - corner).length
    assert off == near((by["washer"] + 8) / 2)
    assert (hub.x, corner.x) == (near(1.5 * by["strap_w"]), near(1.5 * by["strap_w"] - 22))
    assert cheek.x == near(hub.x + by["washer"] / 2 + 6)


# The others


@pytest.mark.parametrize("size", SIZES["key-fob"])
def test_the_neck_of_the_fob_touches_both_faces(size: str) -> None:
    placed, by = place("key-fob", size)
    points = placed.pieces["fob"].points
    for hub, neck, touch, across in (
        ("hub", "neck_low", "low", by["bowl_d"]),
        ("hub_high", "neck_high", "high", by["face_d"]),
    ):
        away = points[neck].distance_to(points[hub])
        assert points[touch].distance_to(points[hub]) == near(across / 2)
        assert points[touch].distance_to(points[neck]) == near(sqrt(away**2 - across**2 / 4))
        assert points[touch].x > 0
    folded = feature(placed, "fob", "rivet_low").holes[0].center.y
    assert feature(placed, "fob", "rivet_high").holes[0].center.y == near(2 * points["bridge"].y - folded)


@pytest.mark.parametrize("size", SIZES["tool-panel"])
def test_the_pockets_are_as_wide_as_their_list(size: str) -> None:
    placed, by = place("tool-panel", size)
    widths = [by[f"widths.{index}"] for index in range(1, 6)]
    panel, pocket = placed.pieces["panel"], placed.pieces["pocket"]
    dividers = feature(placed, "panel", "dividers").paths
    assert [path.start.x for path in dividers] == [
        near(by["margin"] + sum(widths[: index + 1])) for index in range(5)
    ]
    assert all(path.start.x == near(path.end.x) and path.start.y == near(4) for path in dividers)
    assert panel.outline.width == near(sum(widths) + 2 * by["margin"])
    slanted = panel.outline.width * (by["least"] + by["most"]) / 2
    assert pocket.outline.area == near(slanted - 2 * (1 - pi / 4) * 100)
    chord = panel.outline.width / 4
    radius = (chord**2 / 4 + 4) / 4
    line = radius * 2 * asin(chord / 2 / radius)
    assert ring_of(placed, "panel", "grip").area == near(line * 10 + pi * 25)


@pytest.mark.parametrize("size", SIZES["glasses-case"])
def test_both_sides_of_the_slip_are_sewn_along_one_length(size: str) -> None:
    placed, by = place("glasses-case", size)
    runs = [placed.pieces[name].runs["edge"].length for name in ("back", "front")]
    assert runs[0] == near(runs[1])
    assert placed.pieces["back"].outline.width == near(by["reach"] + by["flap"])
    assert placed.pieces["back"].outline.height == near(by["tall"])
    assert feature(placed, "front", "post").holes[0].center.x == near(by["flap"] - 13)


@pytest.mark.parametrize("size", SIZES["coaster-tray"])
def test_the_tray_takes_its_coasters(size: str) -> None:
    placed, by = place("coaster-tray", size)
    floor = by["disc_d"] + 2 * by["play"]
    tray = placed.pieces["tray"]
    lost = 2 * (1 - pi / 4) * 81 + 2 * 8 * 8 / 2
    assert tray.outline.area == near((floor + 2 * by["wall"]) ** 2 - lost)
    assert placed.pieces["coaster"].outline.area == near(pi * by["disc_d"] ** 2 / 4)
    assert placed.pieces["foot"].outline.area == near(pi * (by["disc_d"] / 2 - 2) ** 2)
    holes = [
        feature(placed, "coaster", f"drain_{index}").holes[0].center.distance_to(Point(0, 0))
        for index in range(1, 7)
    ]
    assert holes == [near(by["disc_d"] / 2 - 15)] * 6
    studs = [feature(placed, "tray", name).holes[0].center for name in ("ne_1", "ne_2")]
    assert (studs[0].x, studs[0].y) == (near(studs[1].y), near(studs[1].x))


@pytest.mark.parametrize("size", SIZES["card-wallet"])
def test_the_front_of_the_wallet_lacks_its_thumb_cut(size: str) -> None:
    placed, by = place("card-wallet", size)
    wide, height = by["card_w"] + 2 * by["side"], by["foot_h"] + by["card_h"] - 6
    cut = pi * (by["thumb"] / 2) ** 2 / 2
    assert placed.pieces["front"].outline.area == near(wide * height - cut - 2 * (1 - pi / 4) * 81)
